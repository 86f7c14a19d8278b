// What is taken back and what is half-typed outlive the program.
import type { Request } from 'playwright-core';
import { type Phone, expect, test } from '../harness/browser';
import { PhoneHands, waits } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { readyForReadings, storedReadings, testView } from '../pages/shop';
import { Technician } from '../pages/technician';

const HARSH = '2018 Wendover hatchback';

/** From the list of jobs to the test that is under way, as somebody does who comes back to it. */
async function goesOn(phone: Phone): Promise<PhoneHands> {
  const hands = new PhoneHands(phone.page);
  await hands.press(new RegExp(HARSH));
  await hands.press('Go on with the test');
  return hands;
}

/** The next time that what is being typed is kept. */
function draftKept(phone: Phone): Promise<unknown> {
  const puts = (request: Request) => request.postData()?.includes('"draft.put"') ?? false;
  return phone.page.waitForResponse((response) => puts(response.request()) && response.ok());
}

test('the last change is taken back, stays so after a restart, and comes back', async ({ phone }) => {
  const { test: id } = await readyForReadings(phone.server);
  await phone.open();
  let hands = await goesOn(phone);
  await new Technician(hands).reads(1, '17.2');
  await hands.sees('Before reading 2');
  const stored = await storedReadings(phone.server, id);
  expect(stored).toHaveLength(1);

  await hands.press(/^Undo: Reading/);
  await hands.sees(/Undone: Reading/);
  await lookOver(phone, 'a reading undone');
  expect(await storedReadings(phone.server, id)).toEqual([]);

  await phone.restart();
  expect(await storedReadings(phone.server, id)).toEqual([]);
  hands = await goesOn(phone);
  await hands.sees('Wait until the needle stands still.');
  await hands.press('More');
  await hands.press(/^Bring back what was undone/);
  await hands.sees(/Back again: Reading/);
  await hands.sees('Before reading 2');
  expect(await storedReadings(phone.server, id)).toEqual(stored);

  // And taken back once more, by the line that says what was just done.
  await hands.press(/^Undo: Reading/);
  await hands.sees(/Undone: Reading/);
  expect(await storedReadings(phone.server, id)).toEqual([]);
});

test('undo before the restart is undo after it', async ({ phone }) => {
  const { test: id } = await readyForReadings(phone.server);
  await phone.open();
  let hands = await goesOn(phone);
  await new Technician(hands).reads(1, '17.2');
  await hands.sees('Before reading 2');
  await phone.restart();
  hands = await goesOn(phone);
  await hands.sees('Before reading 2');
  await hands.press(/^Undo: Reading/);
  await hands.sees('Wait until the needle stands still.');
  expect(await storedReadings(phone.server, id)).toEqual([]);
});

test('a reading struck no longer counts until it is brought back; one put right keeps the first beside it', async ({
  phone,
}) => {
  const { test: id } = await readyForReadings(phone.server);
  await phone.open();
  const hands = await goesOn(phone);
  await new Technician(hands).reads(1, '17.2');
  await hands.sees('Before reading 2');
  const before = await testView(phone.server, id);

  await hands.press(/^Reading 1/);
  await lookOver(phone, 'what about a reading');
  await hands.press(/^Strike it/);
  await hands.sees('Wait until the needle stands still.');
  expect(await storedReadings(phone.server, id)).toEqual([]);
  await hands.press(/^Undo: /);
  await hands.sees('Before reading 2');
  expect((await testView(phone.server, id)).readings).toEqual(before.readings);

  await hands.press(/^Reading 1/);
  await hands.press(/^Correct it/);
  await hands.sees('Correct reading 1');
  await new Technician(hands).keys('Vacuum at the gauge', '17.4');
  await lookOver(phone, 'correcting a reading');
  await hands.press('Save the correction');
  await hands.sees('Saved: Reading 1');
  const { readings } = await testView(phone.server, id);
  expect(readings.map(({ reading }) => reading.as_typed)).toEqual(['17.4 inHg']);
  expect(readings[0]?.corrected.map(({ as_typed: typed }) => typed)).toEqual(['17.2 inHg']);
  expect(await phone.page.locator('s').innerText()).toMatch(/^17\.2\sinHg$/);
});

test('half a reading is found again when program and page were killed', async ({ phone }) => {
  const { test: id } = await readyForReadings(phone.server);
  await phone.open();
  let hands = await goesOn(phone);
  await hands.sees('Wait until the needle stands still.');
  await hands.openPad('Vacuum at the gauge');
  let kept = draftKept(phone);
  await hands.keys('1');
  await kept;
  kept = draftKept(phone);
  await hands.keys('7.');
  await kept;
  await expect.poll(() => draftText(phone, `test:${id}:reading:1`), waits('the draft')).toBe('17.');

  await phone.restart();
  hands = await goesOn(phone);
  await hands.sees('Found what you were typing. It isn’t saved yet.');
  await lookOver(phone, 'a draft that was found');
  expect((await hands.field('Vacuum at the gauge').getByRole('button').first().innerText()).trim()).toBe('17.');
  expect(await storedReadings(phone.server, id)).toEqual([]);

  // She goes on where she was.
  await hands.openPad('Vacuum at the gauge');
  await hands.keys('2');
  await hands.press('Done');
  await hands.press('Save reading 1');
  await hands.sees('Before reading 2');
  expect(await storedReadings(phone.server, id)).toEqual([17.2 * 3386.388640341]);
  await phone.restart();
  hands = await goesOn(phone);
  await hands.sees('Before reading 2');
  expect(await hands.text()).not.toContain('Found what you were typing');
});

test('a job half-written is found again, and can be dropped', async ({ phone }) => {
  const hands = new PhoneHands(phone.page);
  const technician = new Technician(hands);
  await technician.comesIn('Inês Harrowgate');
  await hands.press('New job');
  const kept = draftKept(phone);
  await hands.write('What is wrong, and when?', 'Slips into third, only wh');
  await kept;
  await expect
    .poll(async () => JSON.stringify(await phone.server.call('draft.get', { key: 'job.new' })), waits('the draft'))
    .toContain('only wh');
  await phone.restart();
  await hands.press('New job');
  await hands.sees('Found what you were typing. It isn’t saved yet.');
  const complaint = phone.page.getByRole('textbox', { name: 'What is wrong, and when?' });
  expect(await complaint.inputValue()).toBe('Slips into third, only wh');
  await hands.press('Drop it');
  expect(await complaint.inputValue()).toBe('');
});

async function draftText(phone: Phone, key: string): Promise<unknown> {
  const { value } = (await phone.server.call('draft.get', { key })) as {
    value?: { entry?: { text?: string } } | null;
  };
  return value?.entry?.text;
}
