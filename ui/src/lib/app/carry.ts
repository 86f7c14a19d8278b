import type { BundleMade, FileHeld } from '$lib/generated/commands';
import { t } from '$lib/messages';
import type { Session } from './session.svelte';

/** The most that the core takes; it counts for itself. */
export const FILE_LIMIT_MB = 64;

/** A file that the core made: a bundle, or anything else that it hands out. */
export type Made = Pick<BundleMade, 'file' | 'name' | 'bytes'>;

/** Bytes of one piece: in base64 well under what one request may carry. */
const PIECE = 3 << 20;

function toBase64(bytes: Uint8Array): string {
  let text = '';
  // Long argument lists overflow the stack.
  for (let at = 0; at < bytes.length; at += 0x8000) {
    text += String.fromCharCode(...bytes.subarray(at, at + 0x8000));
  }
  return btoa(text);
}

/**
 * Carries a picked file to the core, piece by piece. The first piece too many ends it. Tells how
 * far it is, from 0 to 1.
 */
export async function carryIn(
  session: Session,
  picked: File,
  tell?: (share: number) => void,
): Promise<number> {
  const { file }: FileHeld = await session.read('file.begin', { name: picked.name });
  for (let at = 0; at < picked.size; at += PIECE) {
    const bytes = new Uint8Array(await picked.slice(at, at + PIECE).arrayBuffer());
    await session.read('file.add', { file, base64: toBase64(bytes) });
    tell?.(Math.min(1, (at + PIECE) / picked.size));
  }
  return file;
}

/** The ending of a file's name, without its point. */
export const endingOf = (name: string): string => name.replace(/^.*\./, '');

/** The bytes of a file that the core made, fetched piece by piece. */
export async function carryOut(session: Session, made: Made): Promise<Blob> {
  const parts: BlobPart[] = [];
  for (let from = 0; from < made.bytes; ) {
    const { base64 } = await session.read('file.read', { file: made.file, from });
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    if (bytes.length === 0) break;
    parts.push(bytes);
    from += bytes.length;
  }
  return new Blob(parts, { type: 'application/octet-stream' });
}

/**
 * Hands a file that the core made to the person: the app's own window asks where to, a browser
 * puts it where its downloads go. Answers with what to call the place; nothing: the person put the
 * dialog away, and the file is still there to be saved.
 */
export async function saveMade(session: Session, made: Made): Promise<string | undefined> {
  if (session.files) {
    const ending = endingOf(made.name);
    const kind = ending === 'vvb' ? t('files.bundle') : t('files.other', { ending });
    return session.files.save(made.file, { title: t('files.save_title'), kind });
  }
  download(await carryOut(session, made), made.name);
  return made.name;
}

/**
 * Has the person pick a bundle, as a file of the core. Nothing: they put the dialog away. A browser
 * only picks through an `input` on the page, whose `change` then brings it in by `carryIn`.
 */
export async function pickBundle(
  session: Session,
  input: HTMLInputElement | undefined,
): Promise<number | undefined> {
  if (session.files) {
    const picked = await session.files.pick({ title: t('files.pick_title'), kind: t('files.bundle') });
    return picked?.file;
  }
  input?.click();
  return undefined;
}

/** Has the person pick a table; as `pickBundle` otherwise. */
export async function pickTable(
  session: Session,
  input: HTMLInputElement | undefined,
): Promise<number | undefined> {
  if (session.files) {
    const words = { title: t('files.pick_table'), kind: t('files.tables'), table: true };
    const picked = await session.files.pick(words);
    return picked?.file;
  }
  input?.click();
  return undefined;
}

/** Hands a file to the browser, which puts it where this person's downloads go. */
function download(blob: Blob, name: string): void {
  const address = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
