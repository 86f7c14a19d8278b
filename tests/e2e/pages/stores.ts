// Stores that the program must not or can't work with, and the program served on them.
import { execFileSync } from 'node:child_process';
import { chmodSync, chownSync, copyFileSync, cpSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { Program, ROOT, built, temporaryFolder } from '../harness/process';

/** Nobody in particular: nothing is read-only to root. */
const SOMEBODY = 65_534;

/** A store's file of its own, closed. */
export interface StoreFile {
  folder: string;
  file: string;
  remove(): void;
}

/** The demo shop's store, made by the program and closed again. */
export function closedStore(): StoreFile {
  const { path: folder, remove } = temporaryFolder();
  const file = path.join(folder, 'valvewright.db');
  execFileSync(built('headless'), ['call', '--store', file], { input: '' });
  return { folder, file, remove };
}

/** Marks the file as one of a later version: the schema's number stands at byte 60 (SQLite file format, 1.3). */
export function fromLater({ file }: StoreFile): void {
  const bytes = readFileSync(file);
  bytes.writeUInt32BE(bytes.readUInt32BE(60) + 90, 60);
  writeFileSync(file, bytes);
}

/** Takes the right to write away from whoever runs the program. */
export function makeReadOnly({ folder, file }: StoreFile): void {
  chmodSync(file, 0o444);
  chmodSync(folder, 0o555);
}

export interface Served {
  address: string;
  end(): Promise<void>;
}

/** The program served on a store's file. */
export async function serve({ file }: StoreFile): Promise<Served> {
  const ui = path.join(ROOT, 'ui', 'dist');
  const server = new Program(built('headless'), ['serve', '--store', file, '--ui', ui, '--port', '0']);
  return { address: await addressOf(server), end: () => server.kill() };
}

/** The same as somebody who isn't root. */
export async function serveAsSomebody(store: StoreFile): Promise<Served> {
  // The checkout may lie where the other user may not look.
  const { path: folder, remove } = temporaryFolder();
  const program = path.join(folder, 'headless');
  copyFileSync(built('headless'), program);
  const ui = path.join(folder, 'ui');
  cpSync(path.join(ROOT, 'ui', 'dist'), ui, { recursive: true });
  chmodSync(folder, 0o755);
  const root = process.getuid?.() === 0;
  if (root) chownSync(folder, SOMEBODY, SOMEBODY);
  const server = new Program(
    program,
    ['serve', '--store', store.file, '--ui', ui, '--port', '0'],
    root ? { uid: SOMEBODY, gid: SOMEBODY } : {},
  );
  return {
    address: await addressOf(server),
    end: async () => {
      await server.kill();
      remove();
    },
  };
}

async function addressOf(server: Program): Promise<string> {
  return (await server.says(/(http:\/\/127\.0\.0\.1:\d+\/\?token=\w+)/))[1] ?? '';
}
