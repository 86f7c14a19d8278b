// Test files that Cargo wouldn't miss: a crate whose tests are one program names each in its
// tests/all.rs, and one left out would pass for ever.
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { CARGO, Plain } from './run.mjs';

/** Fails if a file of tests beside an `all.rs` is not one of its modules. */
export function everyTestFileNamed() {
  const crates = path.join(CARGO, 'crates');
  const forgotten = readdirSync(crates)
    .map((crate) => path.join(crates, crate, 'tests'))
    .filter((folder) => existsSync(path.join(folder, 'all.rs')))
    .flatMap((folder) => {
      const all = readFileSync(path.join(folder, 'all.rs'), 'utf8');
      return readdirSync(folder)
        .filter((file) => file.endsWith('.rs') && file !== 'all.rs')
        .filter((file) => !new RegExp(`^mod ${path.parse(file).name};$`, 'm').test(all))
        .map((file) => path.relative(CARGO, path.join(folder, file)));
    });
  if (forgotten.length > 0) {
    throw new Plain(`no all.rs names these files of tests: ${forgotten.join(', ')}`);
  }
}
