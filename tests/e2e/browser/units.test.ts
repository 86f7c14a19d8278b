// The shop's units and the way its country writes numbers: shown otherwise, stored the same.
import { expect, test } from '../harness/browser';
import { UNIT, expectFigure, expectInterval, found } from '../pages/figures';
import { PhoneHands, waits } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { readyForReadings, storedReadings, testView } from '../pages/shop';
import { Technician } from '../pages/technician';
import type { Phone } from '../harness/browser';

const SETTINGS = ['Pressure', 'Vacuum', 'Length', 'Force', 'Temperature'] as const;
const METRIC = { Pressure: 'kPa', Vacuum: 'kPa', Length: 'mm', Force: 'N', Temperature: '°C' } as const;
const INCH = { Pressure: 'psi', Vacuum: 'inHg', Length: 'in', Force: 'lbf', Temperature: '°F' } as const;

async function open(phone: Phone, place: string, sees: string): Promise<PhoneHands> {
  const hands = new PhoneHands(phone.page);
  await phone.goTo(place);
  await hands.sees(sees);
  return hands;
}

async function choosesUnits(phone: Phone, units: Readonly<Record<(typeof SETTINGS)[number], string>>) {
  const hands = await open(phone, '#/settings', 'How are numbers written?');
  for (const setting of SETTINGS) {
    await hands.choose(setting, units[setting]);
    const radio = phone.page.getByRole('group', { name: setting }).getByRole('radio', { name: units[setting] });
    await expect.poll(() => radio.isChecked(), waits(setting)).toBe(true);
  }
}

test('each unit and a decimal comma change what is shown, and not one stored digit', async ({ phone }) => {
  const { test: id } = await readyForReadings(phone.server);
  await phone.open();
  const shop = new PhoneHands(phone.page);
  await shop.sees('Hollow Lane Valve Works');

  // A technician whose country writes a comma.
  await open(phone, '#/settings', 'How are numbers written?');
  const comma = phone.page.locator('label').filter({ hasText: '1.234,5' }).filter({ hasText: 'Spanish (Spain)' });
  const german = phone.page.locator('label').filter({ hasText: 'German (Germany)' });
  await ((await comma.count()) > 0 ? comma : german).first().tap();
  await expect.poll(async () => (await testView(phone.server, id)).readings.length).toBe(0);

  let hands = await open(phone, `#/test/${id}`, 'Wait until the needle stands still.');
  const technician = new Technician(hands);
  await technician.reads(1, '17,1');
  await technician.reads(2, '16,9');
  await technician.reads(3, '17,25');
  await hands.sees('As recorded.');

  // 17.1 inHg and no other number is stored, with what was typed beside it.
  const stored = await storedReadings(phone.server, id);
  expect(stored[0]).toBe(17.1 * 3386.388640341);
  const before = await testView(phone.server, id);
  expect(before.readings.map(({ reading }) => reading.as_typed)).toEqual(['17,1 inHg', '16,9 inHg', '17,25 inHg']);

  let text = await unfolded(hands, phone);
  let [mean = ''] = found(text, /Mean of the readings that count\s[\s\S]*?([\d,]+) ± [\d,]+ inHg/);
  expectFigure('mean', mean, 'inHg', before.judgement.readings?.mean_vacuum_pa ?? 0, ',');
  // By hand: (17.1 + 16.9 + 17.25) / 3.
  expectFigure('mean by hand', mean, 'inHg', 17.083333 * UNIT.inHg, ',');

  // A point is no decimal mark here: it is said, and never guessed.
  await hands.press('Steps');
  await hands.press('Add a reading');
  await hands.choose('Before reading 4', 'Valve turned, plug seated anew');
  await phone.page.locator('dialog[open]').getByRole('textbox').fill('17.1');
  await hands.sees('The decimal mark here is “,”.');
  await hands.press('Done');
  await hands.sees('The decimal mark here is “,”.');
  expect(await phone.page.getByRole('button', { name: 'Save reading 4' }).isDisabled()).toBe(true);

  // Every unit the other way.
  await choosesUnits(phone, METRIC);
  await lookOver(phone, 'settings in metric units');
  hands = await open(phone, `#/test/${id}`, 'Solenoid feed regulator');
  text = await atJudgement(hands, phone);
  const core = (await testView(phone.server, id)).judgement;
  const [inKpa = '', about = ''] = found(text, /Mean of the readings that count\s[\s\S]*?([\d,]+) ± ([\d,]+) kPa/);
  expectFigure('mean', inKpa, 'kPa', core.readings?.mean_vacuum_pa ?? 0, ',');
  expectFigure('uncertainty', about, 'kPa', core.readings?.expanded_uncertainty_pa ?? 0, ',');
  const [today = ''] = found(text, /limit ([\d,]+) kPa here today/);
  expectFigure('limit', today, 'kPa', core.limit?.today_vacuum_pa ?? 0, ',');
  if (core.leak?.answer !== 'known' || core.consequence?.answer !== 'computed') throw new Error('no leak');
  const [low = '', high = ''] = found(text, /Clearance that explains it\s[\s\S]*?\n([\d,]+) to ([\d,]+) µm/);
  expectInterval('clearance', [low, high], 'µm', [
    core.leak.clearance_off_centre_m.likely,
    core.leak.clearance_centred_m.likely,
  ], ',');
  const [k = ''] = found(text, /Gap factor K\s[\s\S]*?\n([\d.]+) µm³/);
  expectFigure('K', k, 'µm³', core.leak.gap_factor_m3.likely, ',');
  const [shift = ''] = found(text, /Shift at the highest line pressure, 1\.?724 kPa\s+([+-]?[\d,]+)\s+kPa/);
  expectFigure('shift', shift, 'kPa', core.consequence.highest_line.shift_pa?.likely ?? 0, ',');
  expect(text).toMatch(/oil at 90 °C/);
  await lookOver(phone, 'judgement in metric units');
  await phone.picture('browser-metric');

  // The profile, by the figures of its own source: 22.4 N, 2600 N/m, 8.0065 mm, 90 °C.
  text = await profile(phone);
  expect(text).toMatch(/Spring load, regulating\s[\s\S]*?\n22,4 N/);
  expect(text).toMatch(/Spring rate\s+2,60 N\/mm/);
  expect(text).toMatch(/Bore diameter\s[\s\S]*?8,0065 mm/);
  expect(text).toMatch(/Oil, running hot\s+90 °C/);

  // And pressures in bar.
  await choosesUnits(phone, { ...METRIC, Pressure: 'bar' });
  hands = await open(phone, `#/test/${id}`, 'Solenoid feed regulator');
  text = await atJudgement(hands, phone);
  const [inBar = ''] = found(text, /Shift at the highest line pressure, 17 bar\s+([+-]?[\d,]+)\s+bar/);
  expectFigure('shift', inBar, 'bar', core.consequence.highest_line.shift_pa?.likely ?? 0, ',');

  // By hand: 22.4 N / 4.4482 = 5.04 lbf, 8.0065 mm / 25.4 = 0.3152 in, 90 °C = 194 °F.
  await choosesUnits(phone, INCH);
  text = await profile(phone);
  expect(text).toMatch(/Spring load, regulating\s[\s\S]*?\n5,0 lbf/);
  expect(text).toMatch(/Bore diameter\s[\s\S]*?0,3152 in/);
  expect(text).toMatch(/Oil, running hot\s+194 °F/);

  // Back again: the store holds what it held, to the last digit.
  hands = await open(phone, `#/test/${id}`, 'Solenoid feed regulator');
  text = await atJudgement(hands, phone);
  [mean = ''] = found(text, /Mean of the readings that count\s[\s\S]*?([\d,]+) ± [\d,]+ inHg/);
  expectFigure('mean', mean, 'inHg', core.readings?.mean_vacuum_pa ?? 0, ',');
  expect(await testView(phone.server, id)).toEqual(before);
});

test('a stored value shown in another unit and saved again keeps each digit', async ({ phone }) => {
  const { test: id } = await readyForReadings(phone.server);
  await phone.open();
  const hands = await open(phone, `#/test/${id}`, 'Wait until the needle stands still.');
  const technician = new Technician(hands);
  await technician.reads(1, '17.1');
  await hands.sees('Before reading 2');
  const [stored] = await storedReadings(phone.server, id);

  // Correct it, but change only the unit it is shown in, to and fro.
  await hands.press(/17\.1 inHg/);
  await hands.press(/^Correct it/);
  await hands.sees('Correct reading 1');
  const shown: string[] = [];
  for (const unit of ['kPa', 'inHg', 'kPa']) {
    await hands.field('Vacuum at the gauge').getByRole('button', { name: /unit .*, change/ }).tap();
    await hands.choose('Unit', unit);
    await expect.poll(() => hands.field('Vacuum at the gauge').innerText(), waits(unit)).toContain(unit);
    shown.push((await hands.field('Vacuum at the gauge').getByRole('button').first().innerText()).trim());
  }
  // By hand: 17.1 inHg is 57.907 kPa.
  expectFigure('in kPa', shown[0] ?? '', 'kPa', 17.1 * UNIT.inHg);
  expect(shown[1]).toBe('17.1');
  expect(shown[2]).toBe(shown[0]);
  await hands.press('Save the correction');
  await hands.sees('Saved: Reading 1');
  expect(await storedReadings(phone.server, id)).toEqual([stored]);
});

async function profile(phone: Phone): Promise<string> {
  const hands = await open(phone, '#/units', 'Larkmoor L6');
  await hands.press(/^Larkmoor L6/);
  await hands.sees('Spring load, regulating');
  return hands.text();
}

/** Goes to the judgement, from wherever in the test one is, and unfolds all of it. */
async function atJudgement(hands: PhoneHands, phone: Phone): Promise<string> {
  const steps = phone.page.getByRole('button', { name: 'Steps', exact: true });
  const strip = phone.page.getByRole('button', { name: /^See the judgement/ }).first();
  await steps.or(strip).first().waitFor();
  if (!(await steps.isVisible())) await strip.tap();
  return unfolded(hands, phone);
}

async function unfolded(hands: PhoneHands, phone: Phone): Promise<string> {
  await hands.sees(/As recorded\.|not saved yet\./);
  await phone.page.getByRole('region', { name: 'Judgement' }).evaluate((node) => {
    for (const folded of node.querySelectorAll('details')) folded.open = true;
  });
  return hands.text();
}
