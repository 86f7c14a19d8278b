// Readings go out as a table and come back: on another phone they are all known; a gauge's log with
// decimal commas and kilopascals becomes readings of a bore.
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Phone } from '../harness/browser';
import { PhoneHands, waits } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { ask, readyForReadings } from '../pages/shop';

let mine: Phone;
let theirs: Phone;
let here: PhoneHands;
let there: PhoneHands;
let job = '';
let table: { name: string; mimeType: string; buffer: Buffer };

const LOG = [
  'Zeit;Unterdruck [kPa];Bemerkung',
  '10:00:01;55,5;',
  '10:00:09;55,1;neu gesetzt',
  '10:00:20;k. A.;',
].join('\r\n');

beforeAll(async () => {
  mine = await Phone.start();
  theirs = await Phone.start();
  here = new PhoneHands(mine.page);
  there = new PhoneHands(theirs.page);
  ({ job } = await readyForReadings(mine.server));
  await mine.page.reload();
});
afterAll(async () => {
  await theirs.close();
  await mine.close();
});

const digest = async (phone: Phone) => (await ask(phone.server, 'store.check', {})).digest;
const records = async (phone: Phone) => (await ask(phone.server, 'store.check', {})).records;

describe('readings as a table', () => {
  test('she makes a table of every reading', async () => {
    await here.press('More');
    await here.press('Settings');
    await here.press('Readings as a table');
    await here.sees('One line for each reading of every job');
    await lookOver(mine, 'readings out');
    await here.press('Make the table');
    await here.sees('The table is ready');
    await lookOver(mine, 'table ready');
    await mine.picture('readings-out');
    const download = mine.page.waitForEvent('download');
    await here.press('Save it on this device');
    const saved = await download;
    expect(saved.suggestedFilename()).toMatch(/^readings-.+\.csv$/);
    const buffer = readFileSync(await saved.path());
    expect(buffer.subarray(0, 3)).toEqual(Buffer.from([0xef, 0xbb, 0xbf]));
    table = { name: saved.suggestedFilename(), mimeType: 'text/csv', buffer };
  });

  test('on another phone with the same shop all of it is here already', async () => {
    const before = await digest(theirs);
    await there.sees('Who is working?');
    await there.press('Marta Oyelaran');
    await there.press('More');
    await there.press('Settings');
    await there.press('Bring readings in');
    await there.sees('nothing changes before you say so');
    await lookOver(theirs, 'readings in');
    await theirs.page.getByLabel('Table to bring in').setInputFiles(table);
    await there.sees('All of its readings are here already.');
    expect(await theirs.page.getByRole('button', { name: /^Bring \d+ readings? in/ }).count()).toBe(0);
    await lookOver(theirs, 'all here');
    expect(await digest(theirs)).toBe(before);
  });

  test('a gauge’s log is looked at, its bad line told, and nothing changes', async () => {
    await mine.goTo(`#/job/${job}`);
    await here.press('More');
    await here.press('Bring readings in');
    const before = await digest(mine);
    const log = { name: 'log.csv', mimeType: 'text/csv', buffer: Buffer.from(LOG) };
    await mine.page.getByLabel('Table to bring in').setInputFiles(log);
    await here.sees('Choose the bore.');
    await lookOver(mine, 'log');
    await mine.page.getByLabel('Bore', { exact: true }).selectOption({ index: 1 });
    const point = mine.page.getByLabel('Test point', { exact: true });
    if ((await point.inputValue()) === '') await point.selectOption({ index: 1 });
    await here.sees('2 new readings');
    await here.sees('“k. A.” is no number.');
    await lookOver(mine, 'plan of a log');
    await mine.picture('readings-in');
    expect(await digest(mine)).toBe(before);
  });

  test('the bad line left out, the rest comes in as one change, undone at once', async () => {
    const before = await records(mine);
    await mine.page.getByLabel('Leave the lines out that can’t be brought in').check();
    await here.press('Bring 2 readings in');
    await here.sees('Brought in: 2 readings');
    expect(await records(mine)).toBe(before + 3);
    await mine.picture('readings-brought-in');
    await here.press('Undo');
    const tests = async () => {
      const { bores } = await ask(mine.server, 'job.get', { job });
      return bores.flatMap((bore) => bore.test_points.flatMap((point) => point.tests)).length;
    };
    // The button answers before the shop does.
    await expect.poll(tests, waits('the readings are gone again')).toBe(1);
  });
});
