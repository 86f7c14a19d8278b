// npm run demo: builds the demo shop's bundle from its sources.
// `--check` writes nothing and fails if the bundle isn't what they give.
import path from 'node:path';
import { buildPrograms } from './lib/build.mjs';
import { ROOT, built, main, run } from './lib/run.mjs';

await main(async () => {
  await buildPrograms();
  const folder = path.join(ROOT, 'demo-db');
  const check = process.argv.includes('--check') ? ['--check'] : [];
  return run(built('build-demo'), [...check, folder, path.join(folder, 'demo-shop.vvb')]);
});
