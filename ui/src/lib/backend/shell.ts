/** Whether this page runs inside the app's own window. */
export function insideShell(): boolean {
  return '__TAURI_INTERNALS__' in globalThis;
}
