import type { FileHeld } from '$lib/generated/commands';
import type { CommandFailure } from './errors';

/** Whether this page runs inside the app's own window. */
export function insideShell(): boolean {
  return '__TAURI_INTERNALS__' in globalThis;
}

/** How a dialog of the system asks for a file. */
export interface DialogWords {
  readonly title: string;
  /** What such files are called. */
  readonly kind: string;
  /** A table of readings is asked for, not a bundle. */
  readonly table?: boolean;
}

/**
 * What the app's own window does with files beside the core's commands: it asks the person for a
 * place, so that the page never names a path. Where the page runs in a browser there is none.
 */
export interface ShellFiles {
  /** Saves a file that the core made. Tells where; nothing: the dialog was put away. */
  save(file: number, words: DialogWords): Promise<string | undefined>;
  /** Has a file picked for the core. Nothing: the dialog was put away. */
  pick(words: DialogWords): Promise<FileHeld | undefined>;
  /** Tells of each file that is opened with the app, from the one that waits now. */
  watch(opened: (file: FileHeld | CommandFailure) => void): void;
}
