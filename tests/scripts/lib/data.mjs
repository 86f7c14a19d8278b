// Where the app keeps a person's data; src-tauri/src/files.rs decides, this follows it.
import { readFileSync } from 'node:fs';
import { homedir } from 'node:os';
import path from 'node:path';
import { CARGO } from './run.mjs';

/** The folder that VALVEWRIGHT_DATA names, else the system's folder for this app's data. */
export function dataFolder() {
  if (process.env.VALVEWRIGHT_DATA) return path.resolve(process.env.VALVEWRIGHT_DATA);
  const config = JSON.parse(readFileSync(path.join(CARGO, 'tauri.conf.json'), 'utf8'));
  return path.join(systemFolder(), config.identifier);
}

function systemFolder() {
  switch (process.platform) {
    case 'darwin':
      return path.join(homedir(), 'Library', 'Application Support');
    case 'win32':
      return process.env.APPDATA ?? path.join(homedir(), 'AppData', 'Roaming');
    default: {
      // The base directory specification passes over a relative path.
      const named = process.env.XDG_DATA_HOME;
      return named && path.isAbsolute(named) ? named : path.join(homedir(), '.local', 'share');
    }
  }
}
