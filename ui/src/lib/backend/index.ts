import type { Backend } from './backend';
import { httpBackend } from './http';
import { insideShell } from './shell';
import { tauriBackend } from './tauri';

export type { Backend } from './backend';
export type { CommandMap } from './commands';
export type { DialogWords, ShellFiles } from './shell';
export { CommandFailure, ERROR_WORDS, type CommandError, type ErrorCode } from './errors';

/** The backend for where this page runs: inside the shell, or served over loopback. */
export function chooseBackend(): Backend {
  return insideShell() ? tauriBackend() : httpBackend();
}
