/**
 * The beginning of a key's fingerprint in groups that can be read aloud: 80 bits, too many for
 * anyone to make another key that begins alike.
 */
export function marks(fingerprint: string): string {
  return (fingerprint.slice(0, 20).match(/.{1,4}/g) ?? []).join(' ');
}
