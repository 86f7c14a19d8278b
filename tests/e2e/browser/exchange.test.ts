// A job goes from one phone to another as a file; the other looks first, takes it in, and can take
// it out again.
import { existsSync, readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Phone } from '../harness/browser';
import { PhoneHands } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { ask, readyForReadings } from '../pages/shop';

const CUSTOMER = 'Ulla Brandt';

let mine: Phone;
let theirs: Phone;
let here: PhoneHands;
let there: PhoneHands;
let job = '';
let passedOn: { name: string; mimeType: string; buffer: Buffer };

beforeAll(async () => {
  mine = await Phone.start();
  theirs = await Phone.start({ empty: true });
  here = new PhoneHands(mine.page);
  there = new PhoneHands(theirs.page);
  ({ job } = await readyForReadings(mine.server));
  await ask(mine.server, 'job.edit', {
    job,
    part: { part: 'customer', body: { name: CUSTOMER, phone: '555 0100', plate: '' } },
  });
  await mine.page.reload();
});
afterAll(async () => {
  await theirs.close();
  await mine.close();
});

const digest = async (phone: Phone) => (await ask(phone.server, 'store.check', {})).digest;

/** Chooses a file, as the system's own chooser would hand it over. */
async function choose(file: typeof passedOn): Promise<void> {
  await theirs.page.getByLabel('File to take in').setInputFiles(file);
}

describe('a job passed on', () => {
  test('she makes one file of it, without the customer', async () => {
    await mine.goTo(`#/job/${job}`);
    await here.press('More');
    await here.press('Pass this job on');
    await here.sees('One file with this job');
    await lookOver(mine, 'pass on');
    await here.press('Make the file');
    await here.sees('The file is ready');
    await here.sees('1 personal entry left out.');
    await lookOver(mine, 'file ready');
    await mine.picture('exchange-pass-on');
    const download = mine.page.waitForEvent('download');
    await here.press('Save it on this device');
    const saved = await download;
    expect(saved.suggestedFilename()).toMatch(/^job-.+\.vvb$/);
    const buffer = readFileSync(await saved.path());
    passedOn = { name: saved.suggestedFilename(), mimeType: 'application/octet-stream', buffer };
    await here.sees(`Saved: ${passedOn.name}`);
  });

  test('on an empty phone he sees what it would bring, and nothing changes', async () => {
    const empty = await digest(theirs);
    await there.sees('Who is working?');
    await theirs.page.keyboard.press('Escape');
    await there.press('More');
    await there.press('Take in a file');
    await there.sees('nothing changes before you say so');
    await lookOver(theirs, 'take in');
    await choose(passedOn);
    await there.sees('Made by Marta Oyelaran');
    await there.sees('2018 Wendover hatchback');
    await there.sees('new here');
    await there.sees('not met before');
    await there.sees('1 entry comes without its content: personal, and left out.');
    await lookOver(theirs, 'plan');
    await theirs.picture('exchange-plan');
    expect(await digest(theirs)).toBe(empty);
  });

  test('he takes it in: the job is there, the customer is not', async () => {
    const take = theirs.page.getByRole('button', { name: 'Take it in' });
    expect(await take.isDisabled()).toBe(true);
    await there.press('The marks are the same');
    await lookOver(theirs, 'signer accepted');
    await there.press('Take it in');
    await there.sees(/Taken in: \d+ records/);
    await there.sees('2018 Wendover hatchback');
    const [listed] = (await ask(theirs.server, 'job.list', {})).jobs;
    expect(listed?.id).toBe(job);
    const copy = await ask(theirs.server, 'job.get', { job });
    expect(JSON.stringify(copy)).not.toContain(CUSTOMER);
    expect(copy.bores).toEqual((await ask(mine.server, 'job.get', { job })).bores);
    await theirs.picture('exchange-taken-in');
  });

  test('the same file again changes nothing, and the screen says so', async () => {
    const before = await digest(theirs);
    await there.press('More');
    await there.press('Take in a file');
    await choose(passedOn);
    await there.sees('All of it is here already.');
    expect(await theirs.page.getByRole('button', { name: 'Take it in' }).count()).toBe(0);
    await ask(theirs.server, 'import.list', {});
    expect(await digest(theirs)).toBe(before);
  });

  test('a bad file is told in words, and nothing changes', async () => {
    const before = await digest(theirs);
    const half = passedOn.buffer.subarray(0, passedOn.buffer.length / 2);
    const changed = Buffer.from(passedOn.buffer);
    changed.writeUInt8(changed.readUInt8(changed.length >> 2) ^ 0x20, changed.length >> 2);
    const bad: [Buffer, string][] = [
      [Buffer.from('a shopping list'), 'This is not a file of this app.'],
      [Buffer.alloc(0), 'This is not a file of this app.'],
      [half, 'The file’s end is missing.'],
      [changed, 'The file was altered or damaged on its way.'],
    ];
    for (const [buffer, words] of bad) {
      await choose({ ...passedOn, buffer });
      await there.sees(words);
      await there.sees('None of it was taken in.');
    }
    await lookOver(theirs, 'bad file');
    await theirs.picture('exchange-bad-file');
    expect(await digest(theirs)).toBe(before);
  });

  test('he takes it out again, and his shop is as empty as before', async () => {
    await there.press('More');
    await there.press('Settings');
    await there.sees('Taken in from elsewhere');
    await lookOver(theirs, 'imports in settings');
    await there.press(`Take out: ${passedOn.name}`);
    await there.sees(`Taken out: ${passedOn.name}`);
    expect((await ask(theirs.server, 'job.list', {})).jobs).toEqual([]);
    expect(await ask(theirs.server, 'import.list', {})).toEqual({ imports: [], demo: false });
  });

  test('the demonstration shop comes and goes the same way', async () => {
    const empty = await digest(theirs);
    await there.press('Bring the demonstration shop back');
    await there.sees('The demonstration shop is back.');
    expect((await ask(theirs.server, 'shop.overview', {})).demo).toBe(true);
    await there.press('Take out: The demonstration shop');
    await there.sees('Taken out: The demonstration shop');
    expect(await digest(theirs)).toBe(empty);
  });

  test('what somebody worked on stays, and the screen says why', async () => {
    // Her job stands on the demonstration shop's unit.
    const before = await digest(mine);
    await mine.goTo('#/settings');
    await here.press('Take out: The demonstration shop');
    await here.sees('Something else here builds on it.');
    await lookOver(mine, 'refused to take out');
    await mine.picture('exchange-built-upon');
    expect(await digest(mine)).toBe(before);
  });
});

describe('a sealed file', () => {
  const WORDS = 'quiet otter brass';
  let sealed: typeof passedOn;

  test('she seals the job with a passphrase; one too short is told and stays typed', async () => {
    await mine.goTo(`#/job/${job}`);
    await here.press('More');
    await here.press('Pass this job on');
    await here.choose('Who can read the file', 'Only with a passphrase');
    const field = mine.page.getByLabel('Passphrase', { exact: true });
    await field.fill('otter');
    await field.press('Enter');
    await here.sees('at least 8 characters');
    expect(await field.inputValue()).toBe('otter');
    await lookOver(mine, 'short passphrase');
    await mine.picture('exchange-seal-short');
    await field.fill(WORDS);
    await mine.page.getByText('Show what is typed').tap();
    expect(await field.getAttribute('type')).toBe('text');
    await here.press('Make the file');
    await here.sees('Sealed. It opens only with the passphrase above.');
    await lookOver(mine, 'sealed file ready');
    await mine.picture('exchange-sealed');
    const download = mine.page.waitForEvent('download');
    await here.press('Save it on this device');
    const saved = await download;
    const buffer = readFileSync(await saved.path());
    expect(buffer.subarray(0, 22).toString()).toBe('age-encryption.org/v1\n');
    sealed = { name: saved.suggestedFilename(), mimeType: 'application/octet-stream', buffer };
  });

  test('his phone asks for it, says when it doesn’t fit, and keeps what is typed', async () => {
    const before = await digest(theirs);
    await theirs.goTo('#/take-in');
    await choose(sealed);
    await there.sees('This file is sealed.');
    await there.sees(sealed.name);
    const field = theirs.page.getByLabel('Passphrase', { exact: true });
    await expect.poll(() => field.evaluate((node) => node === document.activeElement)).toBe(true);
    await lookOver(theirs, 'sealed file asks');
    await theirs.picture('exchange-asks');
    await field.fill('quiet otter glass');
    await field.press('Enter');
    await there.sees('This passphrase doesn’t open the file.');
    expect(await field.inputValue()).toBe('quiet otter glass');
    await lookOver(theirs, 'wrong passphrase');
    await theirs.picture('exchange-wrong-passphrase');
    expect(await digest(theirs)).toBe(before);
    await choose({ ...sealed, buffer: sealed.buffer.subarray(0, sealed.buffer.length - 9) });
    await there.sees('This file is sealed.');
    await field.fill(WORDS);
    await there.press('Open the file');
    await there.sees('The sealed file was cut short or altered on its way.');
    await lookOver(theirs, 'broken seal');
    expect(await digest(theirs)).toBe(before);
  });

  test('with the right one he sees the plan and takes it in', async () => {
    await choose(sealed);
    await there.sees('This file is sealed.');
    await theirs.page.getByLabel('Passphrase', { exact: true }).fill(WORDS);
    await there.press('Open the file');
    await there.sees('Made by Marta Oyelaran');
    await there.press('Take it in');
    await there.sees(/Taken in: \d+ records/);
    expect((await ask(theirs.server, 'job.list', {})).jobs[0]?.id).toBe(job);
    for (const phone of [mine, theirs]) {
      for (const part of ['', '-wal'].map((end) => phone.server.store + end).filter(existsSync)) {
        expect(readFileSync(part).includes(WORDS), part).toBe(false);
      }
    }
  });
});
