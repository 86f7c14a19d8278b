// A worn bore with its diameters: the shop enters its parts, compares the ways out, and takes one
// over into the repair form, which nobody has saved yet.
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Phone } from '../harness/browser';
import { found } from '../pages/figures';
import { PhoneHands } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { ask, emptyShelf, judgedBore, measuredDiameters } from '../pages/shop';
import { Technician } from '../pages/technician';

let phone: Phone;
let hands: PhoneHands;
let technician: Technician;
let job = '';
let bore = '';

beforeAll(async () => {
  phone = await Phone.start();
  hands = new PhoneHands(phone.page);
  technician = new Technician(hands);
});
afterAll(async () => {
  await phone.close();
});

const goTo = (address: string) => phone.goTo(address);

/** The text of one option's card. */
const card = async (name: RegExp): Promise<string> =>
  (await phone.page.getByRole('article', { name }).textContent()) ?? '';

describe('the ways out of a worn bore', () => {
  test('a bore is read far outside its limit, and its diameters are measured', async () => {
    await technician.comesIn('Marta Oyelaran');
    await emptyShelf(phone.server);
    ({ job, bore } = await judgedBore(phone.server, ['14.2', '14.1', '14.3']));
    await measuredDiameters(phone.server, job, bore);
  });

  test('without parts and figures it says what is missing, and that leaving breaks a limit', async () => {
    await goTo(`#/job/${job}`);
    await hands.press('Compare the repair options');
    await hands.sees('Worked out from what was measured');
    await hands.sees('No part of your list fits this bore yet');
    expect(await card(/Leave it/)).toContain('The reading is outside its limit.');
    expect(await card(/Sleeve/)).toContain('No sleeve of your list fits.');
    expect(await card(/Add a relief: contains the fault/)).toContain('The leak and the lost pump flow remain.');
    await lookOver(phone, 'options without parts');
  });

  test('a part is entered with its sizes; what is missing is said at the field', async () => {
    await goTo('#/parts');
    await hands.sees('no longer to be had');
    await lookOver(phone, 'parts, none to be had');
    await hands.press('Add a part');
    await hands.write('Name, as you call it', 'Spring, yellow paint');
    await phone.page.getByLabel('What it is').selectOption({ label: 'Spring' });
    await hands.press('Save the part');
    await hands.sees('Needs fixing:');
    await technician.keys('Load', '4.417');
    await technician.keys('Load may be off by', '0.02');
    await technician.keys('Rate', '13');
    await hands.write('Where its sizes come from', 'Bench sheet (invented)');
    await lookOver(phone, 'part form');
    await hands.press('Save the part');
    await hands.sees('The part is on record.');
    // The others as a colleague's phone would have entered them.
    const source = 'Bench sheet (invented)';
    const metal = { material: 'aluminium_wrought' as const };
    const off = 2e-6;
    const parts = [
      {
        name: 'Sleeve 9.0',
        item: {
          part: 'sleeve' as const,
          ...metal,
          outer_diameter_m: 9.0e-3,
          outer_tolerance_m: off,
          inner_diameter_m: 7.5e-3,
          inner_tolerance_m: off,
        },
      },
      {
        name: 'Valve 7.466, grooved, from the long-named supplier across the river',
        item: {
          part: 'valve' as const,
          ...metal,
          diameter_m: 7.466e-3,
          diameter_tolerance_m: off,
          grooved: true,
        },
      },
      {
        name: 'Reamer 9',
        item: { part: 'reamer' as const, diameter_m: 8.998e-3, diameter_tolerance_m: off },
      },
    ];
    for (const part of parts) {
      const { saved } = await ask(phone.server, 'part.record', { part: { ...part, source } });
      expect(saved).toBe(true);
    }
  });

  test('with parts and the wall entered the sleeve comes first, with its spring by hand', async () => {
    await goTo(`#/job/${job}/options/${bore}`);
    await hands.sees('4 parts of your list may be used here');
    await phone.page.getByText('Figures for planning').tap();
    await technician.keys('Metal around the bore', '0.12');
    await technician.keys('Least that must be left of it', '0.06');
    await hands.write('Who says so', 'Shop rule (invented)');
    await hands.sees('1. Sleeve');
    const sleeve = await card(/1\. Sleeve/);
    expect(sleeve).toContain('Holds');
    expect(sleeve).toContain('Spring, yellow paint');
    expect(sleeve).toContain('eye protection');
    // By hand: P = F / A keeps the pressure, so the load goes with the area:
    // 22.4 N x (7.466 / 7.9705)² = 19.654 N.
    const [load = ''] = found(sleeve, /Spring load where it regulates.*?lbf\/in\s*([\d.]+)\s+lbf/i);
    // Shown to a tenth of a pound.
    expect(Math.abs(Number(load) * 4.448_221_6 - 19.654)).toBeLessThan(0.05 * 4.448_221_6);
    await lookOver(phone, 'options');
    await phone.page.getByText('Figures for planning').tap();
    await phone.picture('browser-options');
    await phone.page.setViewportSize({ width: 1280, height: 800 });
    await lookOver(phone, 'options, wide');
    await phone.picture('browser-options-wide');
    await phone.page.setViewportSize({ width: 360, height: 800 });
  });

  test('choosing opens the repair form filled in, and nothing is on record', async () => {
    await hands.press('Choose: Sleeve');
    await hands.sees('Filled in from the option.');
    await hands.sees('Record a repair');
    const parts = phone.page.getByLabel('Parts, in words');
    await expect.poll(() => parts.inputValue()).toContain('Sleeve 9.0');
    const view = await ask(phone.server, 'job.get', { job });
    expect(view.bores[0]?.repairs).toEqual([]);
    await hands.press('Put the repair on record');
    await hands.sees('The repair is on record.');
    const after = await ask(phone.server, 'job.get', { job });
    expect(after.bores[0]?.repairs.map(({ option }) => option)).toEqual(['sleeve_smaller_valve']);
  });
});
