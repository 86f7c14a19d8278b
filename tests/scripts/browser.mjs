// npm run browser: the same interface and core in an ordinary browser, on loopback, with the same
// data as the app. `npm run browser -- --port 8080` takes a port of your choice.
import { existsSync, mkdirSync } from 'node:fs';
import path from 'node:path';
import { bootstrap } from './lib/bootstrap.mjs';
import { buildHeadless, buildInterface, buildPrograms } from './lib/build.mjs';
import { dataFolder } from './lib/data.mjs';
import { ROOT, built, main, run, say } from './lib/run.mjs';

await main(async () => {
  await bootstrap({ window: false });
  await buildInterface();
  if (!existsSync(built('headless'))) {
    say('Building the headless program. The first time takes a few minutes; then seconds.');
  }
  // Where the app was built already, what it shares with the headless program is ready.
  await (existsSync(built('valvewright')) ? buildPrograms() : buildHeadless());
  const folder = dataFolder();
  // It will hold customers' names.
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  say('Open the address below in a browser on this machine; Ctrl+C ends it.');
  const store = path.join(folder, 'valvewright.db');
  const ui = path.join(ROOT, 'ui', 'dist');
  return run(built('headless'), [
    ...['serve', '--store', store, '--ui', ui],
    ...process.argv.slice(2),
  ]);
});
