// Two people change one job without knowing of each other; they exchange, one settles it, and both
// phones hold the same. A name that is known comes under another key. A phone is lost.
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Phone } from '../harness/browser';
import { PhoneHands } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { ask, readyForReadings } from '../pages/shop';

interface Carried {
  name: string;
  mimeType: string;
  buffer: Buffer;
}

let marta: Phone;
let ida: Phone;
let hers: PhoneHands;
let idas: PhoneHands;
let job = '';

beforeAll(async () => {
  marta = await Phone.start();
  ida = await Phone.start({ empty: true });
  hers = new PhoneHands(marta.page);
  idas = new PhoneHands(ida.page);
  ({ job } = await readyForReadings(marta.server));
  // The demonstration shop has something to settle of its own.
  for (const { subject, kind, versions } of (await ask(marta.server, 'settle.list', {})).items) {
    const seen = versions.map(({ record }) => record);
    await ask(marta.server, 'settle.choose', { subject, kind, seen, choose: seen[0] ?? '' });
  }
  await marta.page.reload();
});
afterAll(async () => {
  await ida.close();
  await marta.close();
});

const digest = async (phone: Phone) => (await ask(phone.server, 'store.check', {})).digest;
const goTo = (phone: Phone, place: string) => phone.goTo(`#/${place}`);

/** Passes the whole shop on, customers included. */
async function passOn(phone: Phone): Promise<Carried> {
  const hands = new PhoneHands(phone.page);
  await goTo(phone, 'settings');
  await goTo(phone, 'pass-on');
  await hands.choose('Customers’ names, telephones and plates', 'Put them in');
  await hands.press('Make the file');
  const download = phone.page.waitForEvent('download');
  await hands.press('Save it on this device');
  const saved = await download;
  const buffer = readFileSync(await saved.path());
  return { name: saved.suggestedFilename(), mimeType: 'application/octet-stream', buffer };
}

async function chooses(phone: Phone, file: Carried): Promise<void> {
  await goTo(phone, 'settings');
  await goTo(phone, 'take-in');
  await phone.page.getByLabel('File to take in').setInputFiles(file);
  await new PhoneHands(phone.page).sees('Who signed');
}

describe('two people and one job', () => {
  test('he accepts her phone under a name of his own, and takes the job in', async () => {
    await idas.sees('Who is working?');
    await ida.page.keyboard.press('Escape');
    await chooses(ida, await passOn(marta));
    const { devices } = await ask(marta.server, 'device.list', {});
    const own = devices.find((device) => device.own)?.device ?? '';
    await idas.sees(own.slice(0, 4));
    await idas.write('What to call this device', 'Marta’s phone');
    await lookOver(ida, 'unknown signer');
    await ida.picture('trust-first-seen');
    await idas.press('The marks are the same');
    await idas.press('Take it in');
    await idas.sees(/Taken in: \d+ records/);
    await ask(ida.server, 'person.add', { name: 'Ida Lund' });
  });

  test('both change its complaint, and after the exchange both see that', async () => {
    const edit = (phone: Phone, text: string) =>
      ask(phone.server, 'job.edit', { job, part: { part: 'complaint', body: { text } } });
    await edit(marta, 'Harsh into second when hot');
    await edit(ida, 'Slips into third when hot');
    await ida.page.reload();
    await chooses(marta, await passOn(ida));
    await hers.sees('Written in both places');
    await hers.press('The marks are the same');
    await hers.press('Take it in');
    await hers.sees(/Taken in: \d+ record/);
    await chooses(ida, await passOn(marta));
    await idas.press('Take it in');
    await idas.sees(/Taken in: \d+ record/);
    expect(await digest(ida)).toBe(await digest(marta));
    await idas.sees('One thing was changed by two people.');
  });

  test('she sees both side by side, takes one, takes that back, and takes it again', async () => {
    await goTo(marta, `job/${job}`);
    await hers.sees('One thing was changed by two people.');
    await lookOver(marta, 'job to settle');
    await hers.press('Settle it');
    await hers.sees('Harsh into second when hot');
    await hers.sees('Slips into third when hot');
    await hers.sees('Ida Lund');
    await lookOver(marta, 'to settle');
    await marta.picture('settle-two-versions');
    await hers.press(/Let this one stand: Ida Lund/);
    await hers.sees('Nothing to settle.');
    await lookOver(marta, 'settled');
    await hers.press('Undo');
    await hers.sees('Harsh into second when hot');
    await hers.press(/Let this one stand: Ida Lund/);
    await hers.sees('Nothing to settle.');
  });

  test('he takes the settlement in, and both shops are the same', async () => {
    await chooses(ida, await passOn(marta));
    await idas.press('Take it in');
    await idas.sees(/Taken in: \d+ record/);
    await chooses(marta, await passOn(ida));
    await hers.sees('All of it is here already.');
    expect(await digest(ida)).toBe(await digest(marta));
    const { complaint } = await ask(ida.server, 'job.get', { job });
    expect(complaint.text).toBe('Slips into third when hot');
    expect((await ask(ida.server, 'settle.list', {})).items).toEqual([]);
  });

  test('an entry is taken back from the history and brought back', async () => {
    await goTo(marta, `job/${job}/history`);
    await hers.press(/Take back: Complaint/);
    // What was undone before can be brought back too: its words stand there already.
    await expect
      .poll(async () => (await ask(marta.server, 'settle.list', {})).items.length)
      .toBe(1);
    await lookOver(marta, 'history with an entry taken back');
    await hers.press(/Bring back: Complaint/);
    await expect
      .poll(async () => (await ask(marta.server, 'settle.list', {})).items.length)
      .toBe(0);
  });
});

describe('whom to believe', () => {
  test('a phone is lost: she says so, and what it signs since is warned of', async () => {
    await goTo(ida, 'devices');
    await idas.sees('If a phone is lost');
    await lookOver(ida, 'devices');
    await ida.picture('devices');
    const card = ida.page.getByRole('group', { name: 'Marta’s phone', exact: true });
    await card.getByRole('button', { name: 'No longer trusted …' }).tap();
    await lookOver(ida, 'why not trusted');
    await ida.picture('devices-lost');
    await idas.press('Don’t trust it from that day');
    await idas.sees(/Not trusted since .+: lost\./);
    await ask(marta.server, 'job.edit', {
      job,
      part: { part: 'notes', body: { text: 'Pan off' } },
    });
    const file = await passOn(marta);
    await chooses(ida, file);
    await idas.sees('This device isn’t trusted since');
    await lookOver(ida, 'lost device signed');
    expect(await ida.page.getByRole('button', { name: 'Take it in' }).isDisabled()).toBe(true);
    await goTo(ida, 'devices');
    await idas.press('Trust it again');
    await idas.sees('Trusted again: Marta’s phone');
    await chooses(ida, file);
    await idas.press('Take it in');
    await idas.sees(/Taken in: \d+ record/);
  });

  test('a known name under another key isn’t taken in by the same tap', async () => {
    const other = await Phone.start({ empty: true });
    try {
      await ask(other.server, 'person.add', { name: 'Ida Lund' });
      await other.open();
      const before = await digest(marta);
      await chooses(marta, await passOn(other));
      await hers.sees('Ida Lund: the name is known here under another key.');
      await lookOver(marta, 'known name, other key');
      await marta.picture('trust-known-name');
      const accept = marta.page.getByRole('button', { name: 'The marks are the same' });
      expect(await accept.isDisabled()).toBe(true);
      expect(await marta.page.getByRole('button', { name: 'Take it in' }).isDisabled()).toBe(true);
      expect(await digest(marta)).toBe(before);
      await marta.page.getByText('I spoke to them and believe it all the same').tap();
      await accept.tap();
      await hers.press('Take it in');
      await hers.sees(/Taken in: \d+ record/);
    } finally {
      await other.close();
    }
  });

  test('to somebody else the words stay here', async () => {
    await goTo(marta, 'pass-on');
    await hers.press('More choices');
    await hers.choose('Who gets it', 'Somebody else');
    await hers.choose('What goes in', 'Some jobs');
    await lookOver(marta, 'pass on, more choices');
    await hers.press('Make the file');
    await hers.sees('Choose at least one.');
    await marta.page.getByRole('checkbox').first().check();
    await hers.press('Make the file');
    await hers.sees(/\d+ entr(y|ies) without (its|their) words\./);
    await lookOver(marta, 'made for somebody else');
    await marta.picture('pass-on-stranger');
  });
});
