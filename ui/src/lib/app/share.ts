// The share sheet of the system, by the W3C Recommendation Web Share API (2023-05-30). Where a page
// has none, files are saved and nothing here is offered.
import { CommandFailure } from '$lib/backend';
import { carryOut, endingOf, type Made } from './carry';
import type { Session } from './session.svelte';

/** What each kind of made file is; the bundle's is the one that the app registers for itself. */
const TYPES: Readonly<Record<string, string>> = {
  pdf: 'application/pdf',
  html: 'text/html',
  csv: 'text/csv',
  vvb: 'application/vnd.valvewright.bundle+zip',
};

function named(made: Made, parts: BlobPart[]): File {
  return new File(parts, made.name, {
    type: TYPES[endingOf(made.name)] ?? 'application/octet-stream',
  });
}

/** Whether this page may hand a file of that name and kind to the system. Known before it is read. */
export function mayShare(made: Made): boolean {
  if (!('share' in navigator) || !('canShare' in navigator)) return false;
  return navigator.canShare({ files: [named(made, [])] });
}

/**
 * The made file as the system takes it. Read before the press that shares it: a press counts as the
 * person's wish for a moment only, and reading may take longer.
 */
export async function readToShare(session: Session, made: Made): Promise<File> {
  return named(made, [await carryOut(session, made)]);
}

/**
 * Hands a file to the system's share sheet. To be called in the very press. Nothing goes beside the
 * file, no title either: its name tells enough, and on iOS files were reported to be shared as they
 * should only when they are alone (github.com/mdn/content/issues/32019).
 */
export async function share(file: File): Promise<void> {
  try {
    await navigator.share({ files: [file] });
  } catch (cause) {
    // They put the sheet away, as one puts a dialog away.
    if (cause instanceof DOMException && cause.name === 'AbortError') return;
    throw new CommandFailure({
      code: 'not_shared',
      params: { detail: String(cause) },
      retry: false,
    });
  }
}
