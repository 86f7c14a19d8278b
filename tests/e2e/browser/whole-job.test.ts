// The whole main job on the phone, from opening it to its being taken in on a second one.
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Phone } from '../harness/browser';
import { temporaryFolder } from '../harness/process';
import { PhoneHands } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { SecondShop } from '../pages/second-shop';
import { ask } from '../pages/shop';
import { Technician } from '../pages/technician';
import { WholeJob, type Courier } from '../pages/whole-job';

const folder = temporaryFolder();
let mine: Phone;
let theirs: Phone;
let story: WholeJob;
let second: SecondShop;
let file = '';

/** A browser keeps downloads, and asks for files by a chooser of its own. */
const courier = ({ page }: Phone): Courier => ({
  saves: async (ending, press) => {
    const download = page.waitForEvent('download');
    await press();
    const file = path.join(folder.path, `saved.${ending}`);
    await (await download).saveAs(file);
    return file;
  },
  brings: async (file, press) => {
    const chooser = page.waitForEvent('filechooser');
    await press();
    await (await chooser).setFiles(file);
  },
});
const digest = async ({ server }: Phone) => (await ask(server, 'store.check', {})).digest;

beforeAll(async () => {
  mine = await Phone.start();
  theirs = await Phone.start();
  const here = new PhoneHands(mine.page);
  const look = (phone: Phone) => (screen: string) => lookOver(phone, screen);
  story = new WholeJob(here, new Technician(here), courier(mine), look(mine));
  second = new SecondShop(
    new PhoneHands(theirs.page),
    courier(theirs),
    () => digest(theirs),
    look(theirs),
  );
});
afterAll(async () => {
  await theirs.close();
  await mine.close();
  folder.remove();
});

describe('the whole main job', () => {
  test('she opens it', () => story.opensTheJob('Marta Oyelaran'));
  test('the cautions stand before the bench', () => story.makesItSafe());
  test('the vacuum test and what the leak does', () => story.judgesTheBore());
  test('a relief, its window and what it holds', () => story.checksTheRelief());
  test('a sleeve and what it will give', () => story.repairsTheBore());
  test('the same bore again: before, predicted, after', () => story.provesIt());
  test('the report, on paper', () => story.reportsIt());
  test('she passes it on', async () => {
    file = await story.passesItOn();
  });
  test('a colleague with an empty shop sees the plan, then takes it in', async () => {
    await second.empties();
    await second.takesIn(file);
  });
  test('the same file again changes nothing', () => second.takesInAgain(file));
  test('both hold the same once he has the demonstration shop, too', async () => {
    await second.bringsTheDemoBack();
    expect(await digest(theirs)).toBe(await digest(mine));
  });
});
