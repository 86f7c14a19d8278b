// npm run kills [-- 2000]: kills a process at random moments of whatever it does to a store, 600
// times or as often as is said, and lets the faulty disk go wrong in more ways than npm test does.
import { CARGO, main, must } from './lib/run.mjs';

await main(async () => {
  const kills = process.argv[2] ?? '600';
  const cargo = (env, ...args) =>
    must('cargo', ['test', ...args, '--', '--nocapture'], {
      cwd: CARGO,
      env: { ...process.env, ...env },
    });
  await cargo({ STORE_KILLS: kills }, '--package', 'store', '--test', 'all', 'kills::');
  await cargo({ FAULT_WAYS: '20' }, '--package', 'faults');
  return 0;
});
