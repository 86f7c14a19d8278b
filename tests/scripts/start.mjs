// npm start: installs what is missing, builds what changed, opens the app.
import { bootstrap } from './lib/bootstrap.mjs';
import { buildInterface, buildPrograms } from './lib/build.mjs';
import { existsSync } from 'node:fs';
import { Plain, built, main, run, say } from './lib/run.mjs';

await main(async () => {
  if (process.platform === 'linux' && !process.env.DISPLAY && !process.env.WAYLAND_DISPLAY) {
    throw new Plain(
      'There is no display here (neither DISPLAY nor WAYLAND_DISPLAY is set), so the app has ' +
        'nowhere to open its window.\nRun `npm run browser` instead: the same interface and ' +
        'core, in an ordinary browser on this machine.',
    );
  }
  await bootstrap();
  await buildInterface();
  say(
    existsSync(built('valvewright'))
      ? 'Building what changed.'
      : 'Building Valvewright. The first time takes several minutes (up to 12 on two cores); ' +
          'after that it takes seconds.',
  );
  await buildPrograms();
  say('Opening Valvewright.');
  return run(built('valvewright'), process.argv.slice(2));
});
