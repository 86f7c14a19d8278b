// npm test: everything that must hold before a change is taken. Stops at the first failure.
// The last line is `N passed, N failed`, summed over the test runners; when a step fails,
// `FAILED: <step>` follows it.
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { bootstrap } from './lib/bootstrap.mjs';
import { buildInterface, buildPrograms, tool } from './lib/build.mjs';
import { everyTestFileNamed } from './lib/named.mjs';
import { CARGO, Plain, ROOT, main, run, say } from './lib/run.mjs';

const counts = { passed: 0, failed: 0 };
const cargo = (...args) => ['cargo', args, { cwd: CARGO }];
/** The property tests try the same inputs each time, so that one commit has one answer; `npm run
 * laws` tries others. */
const SEED = process.env.PROPTEST_RNG_SEED ?? '20261130';
// Clippy's compiler, which is the plain one with lints, makes the tests and the programs. `cargo
// clippy` beside it would go through every library of others once more, which took seven minutes;
// the plain compiler after it, through all of our own, two more.
process.env.RUSTC_WORKSPACE_WRAPPER = 'clippy-driver';
const script = (name, ...args) => [
  process.execPath,
  [path.join(ROOT, 'tests', 'scripts', `${name}.mjs`), ...args],
];
const vitest = (config, ...args) => tool('vitest', ['run', '--config', config, ...args]);

/**
 * Each step: its name and either a function or a command; `counts` if a test runner runs; `refuses`
 * what mustn't be in its output.
 */
const STEPS = [
  { name: 'what the machine needs', does: () => bootstrap({ tests: true }) },
  { name: 'no file of tests is left out', does: async () => everyTestFileNamed() },
  { name: 'Rust formatting', runs: cargo('fmt', '--all', '--check') },
  {
    name: 'lint of the interface and the scripts',
    runs: tool('eslint', ['--config', 'ui/eslint.config.js', '--max-warnings', '0', 'ui', 'tests']),
  },
  {
    name: 'types of the interface',
    runs: tool('svelte-check', [
      ...['--workspace', 'ui', '--tsconfig', './tsconfig.json', '--fail-on-warnings'],
    ]),
  },
  { name: 'types of the end-to-end tests', runs: tool('tsc', ['--project', 'tests/e2e']) },
  { name: 'component tests', runs: vitest('ui/vitest.config.ts'), counts: true },
  { name: 'building the interface', does: buildInterface },
  { name: 'forgetting what was checked before', runs: script('verified', '--fresh') },
  {
    name: 'Rust lint and tests',
    runs: cargo('test', '--workspace'),
    counts: true,
    refuses: /^warning: `.*generated \d+ warning.*$/m,
  },
  { name: 'the table of what was checked', runs: script('verified', '--check') },
  {
    name: 'bundles read by the independent reader',
    runs: ['python3', ['-B', path.join(ROOT, 'tests', 'bundles', 'test_reader.py')]],
    counts: true,
  },
  { name: 'building the programs', does: buildPrograms },
  { name: 'generated types', runs: script('types', '--check') },
  { name: 'the demo bundle is what its source builds', ...demo() },
  {
    name: 'end-to-end tests in Chromium',
    runs: vitest('tests/e2e/vitest.config.ts', '--project', 'browser'),
    counts: true,
  },
  {
    name: 'end-to-end tests in the real app',
    runs: vitest('tests/e2e/vitest.config.ts', '--project', 'app'),
    counts: true,
  },
];

/** The demo is rebuilt and compared by the script of that name, once there is one. */
function demo() {
  const { scripts } = JSON.parse(readFileSync(path.join(ROOT, 'package.json'), 'utf8'));
  if (!scripts.demo) return { does: async () => say('There is no demo yet.') };
  return { runs: ['npm', ['run', 'demo', '--', '--check']] };
}

await main(async () => {
  const began = Date.now();
  for (const step of STEPS) {
    say(`\n== ${step.name} (${Math.round((Date.now() - began) / 1000)} s)`);
    const failure = await attempt(step);
    if (failure) {
      say(`\n${failure}`);
      say(`${counts.passed} passed, ${counts.failed} failed`);
      say(`FAILED: ${step.name}`);
      return 1;
    }
  }
  say(`\nDone in ${Math.round((Date.now() - began) / 1000)} s.`);
  say(`${counts.passed} passed, ${counts.failed} failed`);
  return 0;
});

/** Runs a step; answers with what went wrong, or nothing. */
async function attempt(step) {
  try {
    if (step.does) {
      await step.does();
      return null;
    }
    const [command, args, options = {}] = step.runs;
    const tally = step.counts ? counter(step.refuses) : null;
    const code = await run(command, args, {
      ...options,
      env: {
        ...process.env,
        PROPTEST_RNG_SEED: SEED,
        NO_COLOR: '1',
        CARGO_TERM_COLOR: 'never',
        ...step.env,
      },
      onText: tally?.read,
    });
    const found = tally?.total();
    if (found) {
      counts.passed += found.passed;
      counts.failed += found.failed;
    }
    if (code !== 0) return `It ended with code ${code}.`;
    const refused = tally?.refused();
    if (refused) return refused;
    // A runner that finds no tests would pass for ever.
    if (found && found.passed === 0) return 'No test ran.';
    if (found && found.failed > 0) return 'Tests failed.';
    return null;
  } catch (error) {
    if (error instanceof Plain) return error.message;
    return error.stack;
  }
}

/** Counts what Cargo's and Vitest's closing lines report. */
function counter(refuses) {
  let text = '';
  const number = (line, word) => Number(new RegExp(`(\\d+) ${word}`).exec(line)?.[1] ?? 0);
  return {
    read: (piece) => {
      text += piece;
    },
    refused: () => (refuses ? (refuses.exec(text)?.[0] ?? null) : null),
    total: () =>
      text
        .split('\n')
        .filter((line) => /^test result: |^\s*Tests\s+\d/.test(line))
        .reduce(
          (sum, line) => ({
            passed: sum.passed + number(line, 'passed'),
            failed: sum.failed + number(line, 'failed'),
          }),
          { passed: 0, failed: 0 },
        ),
  };
}
