// Wrong, odd and hostile input: words at the field, nothing saved, what was typed stays.
import { readFileSync } from 'node:fs';
import { type Phone, expect, test } from '../harness/browser';
import { PhoneHands, waits } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { begunTest, readyForReadings, storedReadings, testView } from '../pages/shop';
import { closedStore, fromLater, makeReadOnly, serve, serveAsSomebody } from '../pages/stores';
import { Technician } from '../pages/technician';

async function open(phone: Phone, place: string, sees: string): Promise<PhoneHands> {
  const hands = new PhoneHands(phone.page);
  await phone.open();
  await phone.goTo(place);
  await hands.sees(sees);
  return hands;
}

/** Types into the pad with a keyboard: no key of the pad gives letters. */
async function types(hands: PhoneHands, label: string, text: string): Promise<void> {
  await hands.openPad(label);
  await hands.page.locator('dialog[open]').getByRole('textbox').fill(text);
  await hands.press('Done');
}

/** What stands at a field below its number, without the note. */
async function saidAt(hands: PhoneHands, label: string): Promise<string> {
  return hands.field(label).locator('[aria-live]').innerText();
}

async function numberAt(hands: PhoneHands, label: string): Promise<string> {
  return (await hands.field(label).getByRole('button').first().innerText()).trim();
}

const GAUGE = 'Vacuum at the gauge';

test('a reading that is none is told at its field, isn’t saved, and stays as typed', async ({ phone }) => {
  const { test: id } = await readyForReadings(phone.server);
  const hands = await open(phone, `#/test/${id}`, 'Wait until the needle stands still.');
  const save = phone.page.getByRole('button', { name: 'Save reading 1' });

  expect(await save.isDisabled()).toBe(true);
  await types(hands, GAUGE, '   ');
  expect(await save.isDisabled()).toBe(true);

  for (const [text, said] of [
    ['abc', 'This can’t be read as a number. It is kept as typed.'],
    ['17.2.1', 'This can’t be read as a number. It is kept as typed.'],
    ['-3', 'This can’t be below zero.'],
    ['17,2', 'The decimal mark here is “.”.'],
  ] as const) {
    await types(hands, GAUGE, text);
    expect(await saidAt(hands, GAUGE)).toContain(said);
    expect(await numberAt(hands, GAUGE)).toBe(text);
    expect(await save.isDisabled()).toBe(true);
  }
  await lookOver(phone, 'a reading that is no number');

  for (const [text, said] of [
    // Deeper than any air.
    ['400', /should lie between|No such thing can have this value|Deeper than the air is thick/],
    // The barometer stands at 29.8 inHg.
    ['29.9', /Deeper than the air is thick here/],
    // The closed hose read 28.1 inHg.
    ['28.6', /With its hose closed the stand pulls less than on the bore/],
  ] as const) {
    await types(hands, GAUGE, text);
    await expect.poll(() => saidAt(hands, GAUGE), waits(`words at ${text}`)).toMatch(said);
    await lookOver(phone, `a reading of ${text} inHg`);
    if (await save.isEnabled()) {
      await save.tap();
      await expect.poll(() => save.isEnabled(), waits('the answer')).toBe(true);
    }
    expect(await saidAt(hands, GAUGE)).toMatch(said);
    expect(await numberAt(hands, GAUGE)).toBe(text);
    expect(await storedReadings(phone.server, id)).toEqual([]);
  }
  await phone.picture('browser-bad-reading');

  // What was typed last is there after leaving, too.
  await hands.press('Back');
  await hands.press(/2018 Wendover hatchback/);
  await hands.press('Go on with the test');
  await hands.sees('Found what you were typing');
  expect(await numberAt(hands, GAUGE)).toBe('28.6');
});

test('air, stand and blank that can’t be are told at their fields', async ({ phone }) => {
  const { test: id } = await begunTest(phone.server);
  const hands = await open(phone, `#/test/${id}`, 'How thick is the air here today?');
  const technician = new Technician(hands);
  const barometer = 'Station pressure at the bench';

  await hands.choose('Known by', 'Barometer');
  for (const [text, said] of [
    ['abc', 'This can’t be read as a number.'],
    ['-3', 'This can’t be below zero.'],
  ] as const) {
    await types(hands, barometer, text);
    expect(await saidAt(hands, barometer)).toContain(said);
    expect(await phone.page.getByRole('button', { name: 'Next', exact: true }).isDisabled()).toBe(true);
  }
  await types(hands, barometer, '400');
  await expect.poll(() => saidAt(hands, barometer), waits('words at 400')).toMatch(/Check the number and its unit/);
  await lookOver(phone, 'a barometer of 400 inHg');
  expect((await testView(phone.server, id)).setup ?? null).toBeNull();

  await technician.keys(barometer, '29.80');
  await hands.press('Next');
  await technician.answersSetup('At rest (suggested)', 'Blocked off (suggested)', 'Washed and dry (suggested)');

  // An orifice that reads deeper than the closed hose.
  await hands.sees('What does the stand read by itself?');
  await technician.keys('Hose closed (dead head)', '20');
  await technician.keys('Orifice “0.5”', '21.4');
  await expect
    .poll(() => saidAt(hands, 'Orifice “0.5”'), waits('words at the orifice'))
    .toContain('An open orifice reads deeper than the closed hose.');
  await lookOver(phone, 'an orifice deeper than the closed hose');
  await hands.press('Save and go on');
  await expect.poll(() => numberAt(hands, 'Orifice “0.5”')).toBe('21.4');
  expect((await testView(phone.server, id)).stand_check ?? null).toBeNull();
});

test('a job without what it needs says what is missing at each place', async ({ phone }) => {
  const hands = new PhoneHands(phone.page);
  await new Technician(hands).comesIn('Tomás Wierzba');
  const { jobs: before } = (await phone.server.call('job.list')) as { jobs: unknown[] };
  await hands.press('New job');
  await hands.press('Open the job');
  await expect
    .poll(() => phone.page.getByText('Nothing is entered here yet.').count(), waits('what is missing'))
    .toBeGreaterThanOrEqual(3);
  await lookOver(phone, 'a new job with nothing in it');
  const { jobs: after } = (await phone.server.call('job.list')) as { jobs: unknown[] };
  expect(after).toHaveLength(before.length);
});

test('a shop’s file from a later version is left alone, and that is said in plain words', async ({ phone }) => {
  const store = closedStore();
  fromLater(store);
  const bytes = readFileSync(store.file);
  const served = await serve(store);
  try {
    await phone.page.goto(served.address);
    const hands = new PhoneHands(phone.page);
    await hands.sees('The shop’s file can’t be used right now');
    const text = await hands.text();
    expect(text).toContain('The shop’s file was written by a newer version of this app.');
    expect(text).toContain('It was left untouched, so that nothing in it is lost.');
    expect(text).toContain('Update the app on this device, then open it again.');
    expect(text).toContain(store.file);
    await lookOver(phone, 'a file from a later version');
    await phone.picture('browser-newer-file');
    await hands.press('Try again');
    await hands.sees('The shop’s file was written by a newer version of this app.');
    expect(readFileSync(store.file).equals(bytes)).toBe(true);
  } finally {
    await served.end();
    store.remove();
  }
});

test('a shop’s file that can’t be written says so, and what to do', async ({ phone }) => {
  const store = closedStore();
  makeReadOnly(store);
  const bytes = readFileSync(store.file);
  const served = await serveAsSomebody(store);
  try {
    await phone.page.goto(served.address);
    const hands = new PhoneHands(phone.page);
    await hands.sees('The shop’s file can’t be written to.');
    await hands.sees('It couldn’t be opened, so nothing in it was changed.');
    await hands.sees('Give this user the right to write to the app’s folder, then start again.');
    await lookOver(phone, 'a file that can’t be written');
    await phone.picture('browser-read-only-file');
    expect(readFileSync(store.file).equals(bytes)).toBe(true);
  } finally {
    await served.end();
    store.remove();
  }
});
