// npm run laws [-- 2000]: the property tests with that many inputs each, others every time. What it
// finds belongs into a test of its own.
import { CARGO, main, must } from './lib/run.mjs';

await main(async () => {
  await must('cargo', ['test', '--workspace', '--no-fail-fast'], {
    cwd: CARGO,
    env: {
      ...process.env,
      PROPTEST_CASES: process.argv[2] ?? '500',
      // Assumptions turn inputs away in proportion.
      PROPTEST_MAX_GLOBAL_REJECTS: '10000000',
    },
  });
  return 0;
});
