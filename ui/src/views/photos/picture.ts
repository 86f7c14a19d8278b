import type { Session } from '$lib/app/session.svelte';
import type { PhotoEntry, PhotoSize } from '$lib/generated/commands';
import { formatMoment, t } from '$lib/messages';

/** What a browser may take here. Asked for these, a phone hands out a HEIC picture as JPEG. */
export const ACCEPTED = 'image/jpeg,image/png,image/webp';

/**
 * A photo's file, put together from its pieces. Always JPEG, whatever a record says of it. `looked`:
 * the file that it is in, if it is only looked at.
 */
export async function readPicture(
  session: Session,
  photo: string,
  size: PhotoSize,
  looked?: number,
): Promise<Blob> {
  const parts: BlobPart[] = [];
  let from = 0;
  for (;;) {
    const piece = await (looked === undefined
      ? session.read('photo.read', { photo, size, from })
      : session.read('look.photo', { file: looked, photo, size, from }));
    const bytes = Uint8Array.from(atob(piece.base64), (letter) => letter.charCodeAt(0));
    parts.push(bytes);
    from += bytes.length;
    if (bytes.length === 0 || from >= piece.bytes) return new Blob(parts, { type: 'image/jpeg' });
  }
}

/** When a picked file was last written: for a camera's, when it was taken. */
export function takenAt({ lastModified }: File): string | null {
  return lastModified > 0 ? new Date(lastModified).toISOString() : null;
}

/** What stands for a picture where it can't be seen. */
export function inWords({ caption, taken_at: taken }: PhotoEntry): string {
  return caption || t('photo.without_caption', { moment: formatMoment(new Date(taken)) });
}
