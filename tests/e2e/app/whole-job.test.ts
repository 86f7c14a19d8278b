// The whole main job in the app's own window, and a colleague's window that takes it in. The system's
// dialogs answer by the variables of src-tauri/src/files/dialog.rs; files.test.ts presses real ones.
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { App } from '../harness/app';
import { built, temporaryFolder } from '../harness/process';
import { SecondShop } from '../pages/second-shop';
import { Technician } from '../pages/technician';
import { WholeJob, type Courier } from '../pages/whole-job';
import { WindowHands } from '../pages/window-hands';

const folder = temporaryFolder();
/** Each file that is saved gets its own ending there. */
const place = path.join(folder.path, 'passed on');
const bundle = `${place}.vvb`;

let mine: App;
let theirs: App;
let story: WholeJob;
let second: SecondShop;

const courier: Courier = {
  saves: async (ending, press) => {
    await press();
    const file = `${place}.${ending}`;
    await expect.poll(() => existsSync(file), { timeout: 20_000 }).toBe(true);
    return file;
  },
  brings: (_, press) => press(),
};

/** The canonical digest, by the program that reads the same store beside the window. */
function digest(app: App): string {
  const answer = execFileSync(built('headless'), ['call', '--store', app.store], {
    input: '{"command":"store.check","args":{}}\n',
    encoding: 'utf8',
    maxBuffer: 1 << 26,
  });
  return JSON.parse(answer).ok.digest;
}

beforeAll(async () => {
  mine = await App.start({ env: { VALVEWRIGHT_TEST_SAVE: place } });
  const hands = new WindowHands(() => mine.page);
  story = new WholeJob(hands, new Technician(hands), courier);
});
afterAll(async () => {
  await theirs?.close();
  await mine.close();
  folder.remove();
});

describe('the whole main job, in the window', () => {
  test('she opens it', () => story.opensTheJob('Marta Oyelaran'));
  test('the cautions stand before the bench', () => story.makesItSafe());
  test('the vacuum test and what the leak does', () => story.judgesTheBore());
  test('a relief, its window and what it holds', async () => {
    await story.checksTheRelief();
    mine.picture('app-after-relief');
  });
  test('a sleeve and what it will give', () => story.repairsTheBore());
  test('the same bore again: before, predicted, after', async () => {
    await story.provesIt();
    mine.picture('app-job-proved');
  });
  test('the report, on paper', () => story.reportsIt());
  test('she passes it on', async () => {
    expect(await story.passesItOn()).toBe(bundle);
  });
  test('a colleague with an empty shop sees the plan, then takes it in', async () => {
    theirs = await App.start({ env: { VALVEWRIGHT_TEST_OPEN: bundle } });
    second = new SecondShop(new WindowHands(() => theirs.page), courier, async () => digest(theirs));
    await second.empties();
    await second.takesIn(bundle);
    theirs.picture('app-taken-in');
  });
  test('the same file again changes nothing', () => second.takesInAgain(bundle));
  test('both hold the same once he has the demonstration shop, too', async () => {
    await second.bringsTheDemoBack();
    expect(digest(theirs)).toBe(digest(mine));
  });
});
