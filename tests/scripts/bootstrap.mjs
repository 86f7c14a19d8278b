// npm run bootstrap: installs whatever building and testing need and this machine lacks.
import { bootstrap } from './lib/bootstrap.mjs';
import { main } from './lib/run.mjs';

await main(() => bootstrap({ tests: true }));
