// npm run bench: times the physics (criterion), then our solver beside SciPy, CVODES (CasADi) and
// diffsol on one valve, each with its error against a tight reference. Not part of npm test: it
// fetches libraries that the app doesn't have, builds them in release, and takes many minutes.
// `npm run bench -- --compare` leaves criterion out. Two others do neither: `-- --store` times the
// store on shops of 1,000 to 500,000 records, which it makes first; `-- --bundles` times the bundles
// of a large shop, and files made to do harm. `-- --window` starts the release build beside a bare
// Tauri window and fails if its first useful screen takes more than 1.5 times as long (with
// `--built`, what was built before).
import { existsSync, mkdirSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { Plain, ROOT, TARGET, main, output, run, say } from './lib/run.mjs';
import { MOST, windowBench } from './lib/window-bench.mjs';

const BENCH = path.join(ROOT, 'tests', 'bench');
const FOLDER = path.join(TARGET, 'bench');
const CASES = path.join(FOLDER, 'cases.json');
const PYTHON = path.join(FOLDER, 'python', 'bin', 'python');

async function must(command, args, options) {
  const code = await run(command, args, options);
  if (code !== 0) throw new Plain(`${command} ${args[0]} failed`);
}

/** The table, errors and times side by side. */
function table(rows) {
  const lines = rows.map((row) => {
    const outcome = row.failed
      ? `gave up: ${row.failed.replace(/^.*?error: /, '')} | `
      : `${row.ms.toPrecision(3)} ms | ${row.error_pa.toPrecision(2)} Pa`;
    return `| ${row.case} | ${row.solver} | ${row.tolerance} | ${outcome} |`;
  });
  return ['| orifice | solver | tolerance | time | error of feed |', '|---|---|---|---|---|', ...lines].join(
    '\n',
  );
}

/** Jobs of the shops that the store is timed on: some 1,000, 10,000, 100,000 and 500,000 records. */
const SHOPS = ['12', '200', '2050', '10250'];

/** Built as the app is, without the libraries of the other benchmarks. */
const SHOP = ['build', '--profile', 'shop', '--package', 'shop'];

async function store(env) {
  await must('cargo', [...SHOP, '--bin', 'store'], { cwd: BENCH, env });
  const shops = path.join(FOLDER, 'shops');
  await must(path.join(FOLDER, 'shop', 'store'), [shops, ...SHOPS, '--heavy'], {});
}

await main(async () => {
  mkdirSync(FOLDER, { recursive: true });
  if (process.argv.includes('--window')) {
    const ratio = await windowBench({ built: process.argv.includes('--built') });
    return ratio <= MOST ? 0 : 1;
  }
  if (process.argv.includes('--bundles')) {
    const env = { ...process.env, CARGO_TARGET_DIR: FOLDER };
    await must('cargo', [...SHOP, '--bin', 'bundles'], { cwd: BENCH, env });
    await must(path.join(FOLDER, 'shop', 'bundles'), []);
    return 0;
  }
  if (process.argv.includes('--store')) {
    await store({ ...process.env, CARGO_TARGET_DIR: FOLDER });
    return 0;
  }
  if (!existsSync(PYTHON)) {
    await must('python3', ['-m', 'venv', path.join(FOLDER, 'python')]);
    await must(PYTHON, ['-m', 'pip', 'install', '-q', '-r', path.join(BENCH, 'requirements.txt')]);
  }
  const env = { ...process.env, CARGO_TARGET_DIR: FOLDER, BENCH_CASES: CASES };
  const compare = path.join(BENCH, 'compare.py');
  if (!existsSync(CASES)) {
    say('Working out the reference (a few minutes).');
    await must(PYTHON, [compare, 'reference', CASES]);
  }
  if (!process.argv.includes('--compare')) {
    await must('cargo', ['bench', '--benches'], { cwd: BENCH, env });
  }
  await must('cargo', ['build', '--release', '--bin', 'bench'], { cwd: BENCH, env });
  let text = '';
  const onText = (part) => (text += part);
  await must(path.join(FOLDER, 'release', 'bench'), [CASES], { onText });
  await must(PYTHON, [compare, 'rows', CASES], { onText });
  const rows = text
    .split('\n')
    .filter((line) => line.startsWith('{'))
    .map((line) => JSON.parse(line))
    .sort((a, b) => a.case.localeCompare(b.case));
  const cpu = os.cpus()[0]?.model ?? 'unknown processor';
  const rust = output('rustc', ['--version']) ?? '';
  const page = `${os.cpus().length} x ${cpu}, ${rust}\n\n${table(rows)}\n`;
  writeFileSync(path.join(FOLDER, 'table.md'), page);
  say(`\n${page}`);
  await store(env);
  return 0;
});
