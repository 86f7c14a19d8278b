// Programs that a test starts: each is ended again, whatever the test does.
import { type ChildProcess, type SpawnOptions, spawn } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../../..', import.meta.url));
/** Pictures that tests take; not committed. */
export const OUTPUT = path.join(ROOT, 'tests', 'e2e', 'output');

/** The path of a program that Cargo built. */
export function built(name: string): string {
  const target = path.resolve(ROOT, 'src-tauri', process.env['CARGO_TARGET_DIR'] ?? 'target');
  const program = path.join(target, 'debug', name);
  if (!existsSync(program)) {
    throw new Error(`${program} is missing: build it with cargo build --workspace --bins`);
  }
  return program;
}

/** An empty folder of the test's own, and how to remove it. */
export function temporaryFolder(): { path: string; remove(): void } {
  const folder = mkdtempSync(path.join(tmpdir(), 'valvewright-test-'));
  return {
    path: folder,
    remove: () => rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 }),
  };
}

/** The path of a picture to take. */
export function picture(name: string): string {
  mkdirSync(OUTPUT, { recursive: true });
  return path.join(OUTPUT, `${name}.png`);
}

/** A started program and everything that it has printed. */
export class Program {
  printed = '';
  readonly #child: ChildProcess;
  readonly #ended: Promise<void>;

  constructor(command: string, args: string[], options: SpawnOptions = {}) {
    this.#child = spawn(command, args, { ...options, stdio: ['ignore', 'pipe', 'pipe'] });
    for (const stream of [this.#child.stdout, this.#child.stderr]) {
      stream?.setEncoding('utf8');
      stream?.on('data', (text: string) => {
        this.printed += text;
      });
    }
    this.#ended = new Promise((resolve) => {
      this.#child.on('close', () => resolve());
      this.#child.on('error', (error) => {
        this.printed += `${command}: ${error.message}\n`;
        resolve();
      });
    });
    process.once('exit', this.#killNow);
  }

  readonly #killNow = () => {
    this.#child.kill('SIGKILL');
  };

  get running(): boolean {
    return this.#child.exitCode === null && this.#child.signalCode === null && !!this.#child.pid;
  }

  /** Waits until the program has printed what `pattern` finds. */
  async says(pattern: RegExp): Promise<RegExpExecArray> {
    return until(`${pattern} from a program that printed:\n`, () => {
      const found = pattern.exec(this.printed);
      if (!found && !this.running) throw new Error(`it ended, having printed:\n${this.printed}`);
      return found;
    });
  }

  /** Waits for the program to end by itself; answers with its exit code. */
  async ends(): Promise<number | null> {
    await this.#ended;
    process.off('exit', this.#killNow);
    return this.#child.exitCode;
  }

  /** Ends the program and all that it started at once, as a power cut would, and waits. */
  async kill(): Promise<void> {
    const started = this.#child.pid ? descendants(this.#child.pid) : [];
    this.#child.kill('SIGKILL');
    for (const pid of started) {
      try {
        process.kill(pid, 'SIGKILL');
      } catch {
        // It ended with its parent.
      }
    }
    await this.ends();
  }
}

function descendants(pid: number): number[] {
  let children: number[];
  try {
    const text = readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8');
    children = text.split(' ').filter(Boolean).map(Number);
  } catch {
    return [];
  }
  return children.flatMap((child) => [child, ...descendants(child)]);
}

/** Asks again and again until `attempt` gives something; for programs, not for pages. */
export async function until<T>(
  what: string,
  attempt: () => T | null | undefined | false | Promise<T | null | undefined | false>,
  seconds = 60,
): Promise<T> {
  const end = Date.now() + seconds * 1000;
  for (;;) {
    const found = await attempt();
    if (found) return found;
    if (Date.now() > end) throw new Error(`waited in vain for ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
}
