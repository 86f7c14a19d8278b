// The three stories of one bore each, in the app's own window; the core is asked past it, on the same
// store. The system's dialog answers by the variables of src-tauri/src/files/dialog.rs.
import path from 'node:path';
import { afterAll, beforeAll, describe, test } from 'vitest';
import { App } from '../harness/app';
import { Server } from '../harness/headless';
import { temporaryFolder } from '../harness/process';
import { HarmlessLeak } from '../pages/harmless-leak';
import { SmallOrifice } from '../pages/small-orifice';
import { inApp, savingTo } from '../pages/window';
import { WornBore } from '../pages/worn-bore';

const PERSON = 'Marta Oyelaran';
const folder = temporaryFolder();
const place = path.join(folder.path, 'saved');

let app: App;
let core: Server;
let window: ReturnType<typeof inApp>;
let worn: WornBore;
let small: SmallOrifice;
let harmless: HarmlessLeak;

beforeAll(async () => {
  app = await App.start({ env: savingTo(place) });
  core = await Server.on(app.store);
  window = inApp(app, core, place);
  worn = new WornBore(window, window.courier);
  small = new SmallOrifice(window);
  harmless = new HarmlessLeak(window);
});
afterAll(async () => {
  await core.kill();
  await app.close();
  folder.remove();
});

// The window reads the shop's units once somebody is at work: they are there before that.
test('the units of the stories are in the shop', async () => {
  await window.hands.sees('Who is working?');
  await small.prepares();
  await harmless.prepares();
});

describe('a worn bore that gets a sleeve and a matching spring', () => {
  test('she opens the job', () => worn.opensTheJob(PERSON));
  test('its reading is far outside the limit', () => worn.judgesIt());
  test('its diameters say the same', () => worn.measuresIt());
  test('the ways out side by side', () => worn.comparesTheWays());
  test('the sleeve is chosen and put on record', () => worn.getsTheSleeve());
  test('before, predicted and after', async () => {
    await worn.provesIt();
    app.picture('app-worn-bore');
  });
  test('the report, on paper', () => worn.reportsIt());
});

describe('a healthy-looking reading whose circuit is ruined by a small orifice', () => {
  test('she opens the job', () => small.opensTheJob(PERSON));
  test('it reads well', () => small.readsWell());
  test('the pins find another orifice, and the card doesn’t pass the bore', () => small.findsTheOrifice());
  test('the right plate is tried out on paper', () => small.triesTheRightPlate());
  test('it is fitted, and the bore holds', () => small.getsTheRightPlate());
});

describe('a poor reading in a circuit where it does no harm', () => {
  test('she opens the job', () => harmless.opensTheJob(PERSON));
  test('its reading is outside the limit, the shift small', () => harmless.readsPoorly());
  test('the card says that it holds its pressure', () => harmless.holdsItsPressure());
  test('the limit stands all the same', async () => {
    await harmless.keepsTheLimit();
    app.picture('app-harmless-leak');
  });
});
