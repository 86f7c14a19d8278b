// A file is only looked at: a colleague's, signed, and one that nobody signed. Nothing of either is
// in the shop while it is shown or after.
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Phone } from '../harness/browser';
import { allDone, CAPTION, WHY_LEFT_OUT } from '../pages/all-done';
import { UNIT } from '../pages/figures';
import { PhoneHands } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { ask, readyForReadings } from '../pages/shop';

const CUSTOMER = 'Ulla Brandt';
const NOWHERE = 'None of it is in your shop';
const NOBODY = 'The file has no signature. Anyone may have put it together';

let mine: Phone;
let theirs: Phone;
let there: PhoneHands;
let job = '';
let signed: { name: string; mimeType: string; buffer: Buffer };
let before: unknown;

/** All by which his phone could tell that something came in. */
async function held(): Promise<unknown> {
  const { digest, clean } = await ask(theirs.server, 'store.check', {});
  const { imports } = await ask(theirs.server, 'import.list', {});
  const { devices } = await ask(theirs.server, 'device.list', {});
  const { people } = await ask(theirs.server, 'shop.overview', {});
  const { jobs } = await ask(theirs.server, 'job.list', {});
  return { digest, clean, imports, devices, people, jobs };
}

beforeAll(async () => {
  mine = await Phone.start();
  theirs = await Phone.start({ empty: true });
  there = new PhoneHands(theirs.page);
  const { server } = mine;
  const begun = await readyForReadings(server);
  ({ job } = begun);
  for (const [at, inHg] of [17.2, 16.9, 17.3].entries()) {
    const body = { vacuum_pa: inHg * UNIT.inHg, reseated: at > 0 };
    await ask(server, 'test.record', { test: begun.test, part: { part: 'reading', body } });
  }
  await ask(server, 'test.decide', { test: begun.test, note: 'Sleeve it.' });
  const customer = { name: CUSTOMER, phone: '555 0100', plate: '' };
  await ask(server, 'job.edit', { job, part: { part: 'customer', body: customer } });
  const bore = (await ask(server, 'job.get', { job })).bores[0]?.bore ?? '';
  const work = {
    option: 'sleeve_smaller_valve' as const,
    parts: 'Sleeve and valve turned by the shop',
    bore_diameter_m: 7.5e-3,
    bore_uncertainty_m: 2e-6,
    valve_diameter_m: 7.47e-3,
    valve_uncertainty_m: 2e-6,
    spring_load_n: 19.641,
    spring_rate_n_per_m: 1500,
    notes: '',
  };
  await ask(server, 'repair.record', { job, bore, work });
  await allDone(server, job, bore);
  const made = await ask(server, 'bundle.make', { jobs: [job], personal: true });
  const parts: Buffer[] = [];
  for (let from = 0; from < made.bytes; ) {
    const { base64 } = await ask(server, 'file.read', { file: made.file, from });
    const part = Buffer.from(base64, 'base64');
    parts.push(part);
    from += part.length;
  }
  const mimeType = 'application/octet-stream';
  signed = { name: made.name, mimeType, buffer: Buffer.concat(parts) };
  before = await held();
});
afterAll(async () => {
  await theirs.close();
  await mine.close();
});

async function choose(file: typeof signed): Promise<void> {
  await theirs.goTo('#/take-in');
  await theirs.page.getByLabel('File to take in').setInputFiles(file);
}

/** One page that is looked at: what stands on each, and nothing of it in the shop. */
async function lookedOver(page: string, ...words: string[]): Promise<void> {
  for (const each of [NOWHERE, ...words]) await there.sees(each);
  await lookOver(theirs, page);
  await theirs.picture(`look-${page.replaceAll(' ', '-')}`);
  expect(await held(), page).toEqual(before);
}

/** Job, test and repair of the file that is open. */
async function goesThrough(name: string, ...always: string[]): Promise<void> {
  await theirs.page.getByRole('link', { name: /2018 Wendover hatchback/ }).tap();
  await there.sees(CUSTOMER);
  await there.sees('Harsh 2-3 when hot');
  await lookedOver(`${name} job`, ...always);
  // Nothing on it leads into the shop's own work.
  const links = await theirs.page.locator('main a[href]').evaluateAll((all) =>
    all.map((link) => link.getAttribute('href') ?? ''),
  );
  expect(links.length).toBeGreaterThan(1);
  expect(links.filter((link) => !link.startsWith('#/look/'))).toEqual([]);

  await theirs.page.getByRole('link', { name: /17\.1.*inHg/ }).tap();
  await there.sees('Reading 3');
  await there.sees('Outside limit');
  await there.sees('Sleeve it.');
  await lookedOver(`${name} test`, ...always);
  await there.press('Back');
  await there.press(/Sleeve and valve turned by the shop/);
  await there.sees('Still open');
  await lookedOver(`${name} repair`, ...always);
  await there.press('Back');
  await goesFurther(name, ...always);
  await there.press('Back');
  await there.sees('What the file says of itself');
}

/** What the job holds beside them, from its page and back to it. */
async function goesFurther(name: string, ...always: string[]): Promise<void> {
  const { page } = theirs;
  const open = async (link: string | RegExp, part: string, ...words: (string | RegExp)[]) => {
    await page.getByRole('link', { name: link }).first().tap();
    for (const each of words) await there.sees(each);
    await lookedOver(`${name} ${part}`, ...always);
    expect(await page.getByRole('main').locator('input, textarea').count(), part).toBe(0);
  };
  await open(/Inspection: 2 checks/, 'inspection', 'Upper face', 'Service information, table 2');
  await page.getByRole('link', { name: /solenoids? hangs? on it/ }).first().tap();
  await there.sees(WHY_LEFT_OUT);
  await there.sees('Drags at one place');
  await there.sees('Drags');
  await there.sees('Force that moves it');
  await lookedOver(`${name} bore`, ...always);
  await there.press('Back');
  await there.press('Back');
  await open(/^Relief/, 'relief', 'Drawn by the shop', 'Opens at (cracking pressure)');
  await there.press('Back');
  await open(/Pressures at the taps/, 'taps', 'D, fourth', 'SF');
  await there.press('Back');
  await open(/points read/, 'hot oil', 'Point 2', 'How it was done');
  await there.press('Back');
  await open(/Estimate, parts/, 'handover', 'Valve body out and in');
  await there.press('Back');
  await open('History', 'history', 'stands');
  await there.press('Back');

  // The caption is words, whatever stands in it; the picture comes out of the file.
  const photo = page.getByRole('button', { name: CAPTION });
  const small = photo.locator('img');
  await expect.poll(() => small.evaluate((it: HTMLImageElement) => it.naturalWidth)).toBeGreaterThan(0);
  await photo.tap();
  const large = page.getByRole('dialog').locator('img');
  await expect.poll(() => large.evaluate((it: HTMLImageElement) => it.naturalHeight)).toBe(640);
  expect(await page.getByRole('button', { name: 'Remove' }).count()).toBe(0);
  await lookOver(theirs, `${name} photo`);
  await theirs.picture(`look-${name}-photo`);
  expect(await held(), 'photo').toEqual(before);
  await page.getByRole('button', { name: 'Close' }).tap();
}

/** The archive without its last member, which is the signature. */
function unsigned({ buffer: file }: typeof signed): Buffer {
  const end = file.length - 22;
  const entries: { bytes: Buffer; at: number; name: string }[] = [];
  for (let place = file.readUInt32LE(end + 16); place < end; ) {
    const name = file.readUInt16LE(place + 28);
    const length = 46 + name + file.readUInt16LE(place + 30) + file.readUInt16LE(place + 32);
    entries.push({
      bytes: file.subarray(place, place + length),
      at: file.readUInt32LE(place + 42),
      name: file.toString('utf8', place + 46, place + 46 + name),
    });
    place += length;
  }
  const signature = entries.pop();
  if (signature?.name !== 'signature.json') throw new Error('the signature is not last');
  const directory = Buffer.concat(entries.map(({ bytes }) => bytes));
  const tail = Buffer.from(file.subarray(end));
  tail.writeUInt16LE(entries.length, 8);
  tail.writeUInt16LE(entries.length, 10);
  tail.writeUInt32LE(directory.length, 12);
  tail.writeUInt32LE(signature.at, 16);
  return Buffer.concat([file.subarray(0, signature.at), directory, tail]);
}

describe('a file that is only looked at', () => {
  test('from its plan he looks at it first: who made it, its job, test, decision and repair', async () => {
    await there.sees('Who is working?');
    await theirs.page.keyboard.press('Escape');
    await choose(signed);
    await there.sees('Made by Marta Oyelaran');
    await lookOver(theirs, 'plan with a look');
    await there.press('Look at it first');
    await there.sees('Marta Oyelaran');
    await there.sees('1 in it');
    await lookedOver('signed file', 'isn’t known here signed it');
    await goesThrough('signed', 'isn’t known here signed it');
  });

  test('back at the plan the file is still in hand, and he takes it in after all', async () => {
    await there.press('Go on to taking it in');
    await there.sees('Made by Marta Oyelaran');
    expect(await held()).toEqual(before);
    await there.press('The marks are the same');
    await there.press('Take it in');
    await there.sees(/Taken in: \d+ records/);
    expect((await ask(theirs.server, 'job.list', {})).jobs.map(({ id }) => id)).toEqual([job]);
    before = await held();
  });

  test('one without a signature is refused, can be looked at, and says on each page what that means', async () => {
    await choose({ ...signed, name: 'found.vvb', buffer: unsigned(signed) });
    await there.sees('The file has no signature.');
    await there.sees('None of it was taken in.');
    expect(await theirs.page.getByRole('button', { name: 'Take it in' }).count()).toBe(0);
    await lookOver(theirs, 'refused, may be looked at');
    await theirs.picture('look-refused');
    await there.press('Look at it without taking it in');
    await lookedOver('unsigned file', NOBODY, 'It can’t be taken in');
    expect(await theirs.page.getByRole('button', { name: 'Go on to taking it in' }).count()).toBe(0);
    await goesThrough('unsigned', NOBODY);
  });

  test('a page of it opened anew shows the same; once he went elsewhere and let it go, it is told', async () => {
    const address = new URL(theirs.page.url());
    await theirs.page.reload();
    await there.sees('Who is working?');
    await theirs.page.keyboard.press('Escape');
    await lookedOver('reloaded', NOBODY);
    const file = Number(/#\/look\/(\d+)/.exec(address.hash)?.[1]);
    await there.press('More');
    await there.press('Settings');
    await there.sees('Taken in from elsewhere');
    await ask(theirs.server, 'file.drop', { file });
    await theirs.page.goto(address.href);
    await there.sees('This file isn’t open any more.');
    await lookOver(theirs, 'let go');
    expect(await held()).toEqual(before);
    for (const part of ['', '-wal']) {
      const found = readFileSync(theirs.server.store + part);
      expect(found.includes('found.vvb'), part).toBe(false);
    }
  });
});
