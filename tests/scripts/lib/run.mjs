// Running programs and talking to the person at the terminal. Node's own modules only: this runs
// before `npm ci`.
import { spawn, spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import path from 'node:path';

/** The project's top folder. */
export const ROOT = fileURLToPath(new URL('../../..', import.meta.url)).replace(/[\\/]$/, '');
/** The Cargo workspace. */
export const CARGO = path.join(ROOT, 'src-tauri');
/** Where Cargo puts what it builds. */
export const TARGET = path.resolve(CARGO, process.env.CARGO_TARGET_DIR ?? 'target');

/** A failure that the person is told about in one line, without a stack. */
export class Plain extends Error {}

/** Prints one line about what is going on. */
export function say(line) {
  process.stdout.write(`${line}\n`);
}

/** The path of a program that Cargo built in its development profile. */
export function built(name) {
  return path.join(TARGET, 'debug', process.platform === 'win32' ? `${name}.exe` : name);
}

/** What a command prints, or null if it is missing or fails. */
export function output(command, args) {
  // The described command table is longer than the megabyte that Node keeps unasked.
  const result = spawnSync(command, args, { cwd: ROOT, encoding: 'utf8', maxBuffer: 1 << 26 });
  return result.status === 0 ? result.stdout.trim() : null;
}

/**
 * Runs a command to its end with the terminal as its own; `onText`, if given, gets what it
 * prints as well. Resolves to its exit code, or to 128 and the signal's number.
 */
export function run(command, args, { onText, ...options } = {}) {
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, {
      cwd: ROOT,
      // A terminal shows a compiler's progress; a listener needs a pipe.
      stdio: onText ? ['inherit', 'pipe', 'pipe'] : 'inherit',
      ...options,
    });
    if (onText) {
      for (const [from, to] of [
        [child.stdout, process.stdout],
        [child.stderr, process.stderr],
      ]) {
        from.setEncoding('utf8');
        from.on('data', (text) => {
          to.write(text);
          onText(text);
        });
      }
    }
    child.on('error', (error) =>
      reject(
        error.code === 'ENOENT' ? new Plain(`${command} is not installed`) : error,
      ),
    );
    // 'close', not 'exit': everything it printed has arrived then.
    child.on('close', (code, signal) => resolve(code ?? (signal ? 130 : 1)));
  });
}

/** Runs a command that must succeed. */
export async function must(command, args, options) {
  const code = await run(command, args, options);
  if (code !== 0) throw new Plain(`${[path.basename(command), ...args].join(' ')} failed (${code})`);
}

/** Runs a script's main function; a Plain failure ends it with one line and code 1. */
export async function main(body) {
  try {
    process.exitCode = (await body()) ?? 0;
  } catch (error) {
    if (!(error instanceof Plain)) throw error;
    process.stderr.write(`${error.message}\n`);
    process.exitCode = 1;
  }
}
