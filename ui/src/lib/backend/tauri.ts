import { invoke } from '@tauri-apps/api/core';
import { type Backend, backendOver } from './backend';

/** The core in the same program, behind the shell's single command. */
export function tauriBackend(): Backend {
  return backendOver((request) => invoke<string>('call', { request }));
}

/** Whether this page runs inside the shell. */
export function insideShell(): boolean {
  return '__TAURI_INTERNALS__' in globalThis;
}
