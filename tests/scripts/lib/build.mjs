// Builds the interface and the programs, each only when something changed.
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, readdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { CARGO, ROOT, must, say } from './run.mjs';

const STAMP = path.join(ROOT, 'node_modules', '.cache', 'valvewright', 'interface');

/** Runs a program out of node_modules. */
export function tool(name, args) {
  return [process.execPath, [path.join(ROOT, 'node_modules', ...TOOLS[name]), ...args]];
}

const TOOLS = {
  vite: ['vite', 'bin', 'vite.js'],
  vitest: ['vitest', 'vitest.mjs'],
  eslint: ['eslint', 'bin', 'eslint.js'],
  'svelte-check': ['svelte-check', 'bin', 'svelte-check'],
  tsc: ['typescript', 'bin', 'tsc'],
};

/**
 * Builds ui/dist, unless it was built from the very same sources: a new dist makes Cargo link the
 * app anew, which costs more than the interface itself.
 */
export async function buildInterface() {
  const sources = digest();
  const upToDate =
    existsSync(path.join(ROOT, 'ui', 'dist', 'index.html')) &&
    existsSync(STAMP) &&
    readFileSync(STAMP, 'utf8') === sources;
  if (upToDate) return;
  say('Building the interface.');
  await must(...tool('vite', ['build', '--config', 'ui/vite.config.ts', '--logLevel', 'warn']));
  mkdirSync(path.dirname(STAMP), { recursive: true });
  writeFileSync(STAMP, sources);
}

function digest() {
  const hash = createHash('sha256');
  const add = (file) => {
    hash.update(`${path.relative(ROOT, file)}\0`);
    hash.update(readFileSync(file));
  };
  const walk = (folder) => {
    for (const entry of readdirSync(folder, { withFileTypes: true })
      .filter((entry) => entry.name !== 'dist')
      .sort((a, b) => (a.name < b.name ? -1 : 1))) {
      const full = path.join(folder, entry.name);
      if (entry.isDirectory()) walk(full);
      else add(full);
    }
  };
  walk(path.join(ROOT, 'ui'));
  add(path.join(ROOT, 'package-lock.json'));
  return hash.digest('hex');
}

/**
 * Builds the app and the headless program. The whole workspace at once, as the tests do: Cargo
 * picks the features of shared dependencies by what it builds together, and would otherwise
 * compile the window's libraries twice.
 */
export async function buildPrograms() {
  await must('cargo', ['build', '--workspace', '--bins'], { cwd: CARGO });
}

/** Builds the headless program alone, which needs none of the window's libraries. */
export async function buildHeadless() {
  await must('cargo', ['build', '--package', 'headless'], { cwd: CARGO });
}
