// A shop's file is damaged on the disk: the app says so, saves what can be read or goes back to a
// backup, and the shop is what it was.
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Phone } from '../harness/browser';
import { built } from '../harness/process';
import { PhoneHands } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { ask } from '../pages/shop';

const PAGE = 4096;

let phone: Phone;
let hands: PhoneHands;
let then = '';

beforeAll(async () => {
  phone = await Phone.start();
  hands = new PhoneHands(phone.page);
});
afterAll(() => phone.close());

const digest = async () => {
  const check = await ask(phone.server, 'store.check', {});
  expect(check.problems).toEqual([]);
  return check.digest;
};

const toSettings = () => phone.goTo('#/settings');

/** Spoils part of the file while the program is down, and opens the app on what is left. */
async function spoil(from: number, to: number): Promise<Buffer> {
  const file = phone.server.store;
  await phone.restart(() => {
    // Opened and closed once more, so that nothing is left in the log.
    execFileSync(built('headless'), ['call', '--store', file], { input: '' });
    const bytes = readFileSync(file);
    bytes.fill(0x5a, from, to);
    writeFileSync(file, bytes);
  });
  await hands.sees('The shop’s file can’t be used right now');
  return readFileSync(file);
}

describe('backups', () => {
  test('one made by hand is listed with what it holds', async () => {
    await hands.sees('Who is working?');
    await phone.page.keyboard.press('Escape');
    await toSettings();
    await hands.sees('Backups on this device');
    await hands.sees('None yet.');
    await hands.press('Make a backup now');
    await hands.sees('Backup made and checked.');
    await hands.sees(/\d+ jobs?, \d+ records, [\d.]+ [kM]B/);
    await lookOver(phone, 'backups in settings');
    await phone.picture('durability-settings');
    then = await digest();
  });

  test('going back says what it means, can be left, and brings the shop of then', async () => {
    await ask(phone.server, 'person.add', { name: 'Ines Varga' });
    const later = await digest();
    expect(later).not.toBe(then);
    await toSettings();
    await hands.press(/^Go back to /);
    await hands.sees('What was recorded since then is no longer in the shop.');
    await lookOver(phone, 'going back to a backup');
    await phone.picture('durability-restore');
    await hands.press('Leave it as it is');
    expect(await digest()).toBe(later);
    await hands.press(/^Go back to /);
    await hands.press('Go back to it');
    await hands.sees('The shop is as it was on');
    await hands.sees('Who is working?');
    expect(await digest()).toBe(then);
    await phone.page.keyboard.press('Escape');
    const { backups } = await ask(phone.server, 'backup.list', {});
    expect(backups.map(({ reason }) => reason).sort()).toEqual(['by_hand', 'replaced']);
  });
});

describe('a damaged file', () => {
  test('what can be read is saved, and the damaged file is kept', async () => {
    const damaged = await spoil(100, PAGE);
    await hands.sees('The shop’s file is damaged.');
    await hands.sees('What you can do');
    await hands.sees(/Or go back to a backup/);
    await lookOver(phone, 'a damaged file');
    await phone.picture('durability-trouble');
    await phone.page.emulateMedia({ colorScheme: 'dark' });
    await phone.picture('durability-trouble-dark');
    await phone.page.emulateMedia({ colorScheme: 'light' });
    await hands.press('Save what can be read');
    await hands.sees('What was saved');
    await hands.sees('No record is known to be lost.');
    await lookOver(phone, 'what was saved');
    await phone.picture('durability-repaired');
    const { backups, folder } = await ask(phone.server, 'backup.list', {});
    const kept = backups.map(({ name }) => readFileSync(path.join(folder, name)));
    expect(kept.some((bytes) => bytes.equals(damaged))).toBe(true);
    await hands.press('Open the shop');
    await hands.sees('Who is working?');
    await phone.page.keyboard.press('Escape');
    expect(await digest()).toBe(then);
  });

  test('one whose records are gone gives way to a backup', async () => {
    const { length } = readFileSync(phone.server.store);
    await spoil(0, length);
    await hands.sees('is not a shop file of this app');
    await hands.press('Save what can be read');
    await hands.sees('Nothing in the damaged file can be saved.');
    await lookOver(phone, 'nothing can be saved');
    await phone.page.getByRole('button', { name: /^Go back to / }).last().tap();
    await hands.press('Go back to it');
    await hands.sees('Who is working?');
    expect(await digest()).toBe(then);
  });
});
