import { invoke } from '@tauri-apps/api/core';
import { type Backend, backendOver } from './backend';

/**
 * The core in the same program, behind the shell's single command. The shell passes the core's
 * JSON on as it is, so what arrives here has been read already.
 */
export function tauriBackend(): Backend {
  return backendOver((request) => invoke('call', { request }));
}
