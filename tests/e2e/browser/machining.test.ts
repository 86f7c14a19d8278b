// A sleeve is chosen: its machining sheet, filled in from the option, is measured step by step,
// signed, and becomes the repair. Undo takes the signature off.
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Phone } from '../harness/browser';
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

const step = (name: string) => phone.page.getByRole('listitem').filter({ hasText: name });

/** Ticks a step. */
const tick = (name: string) => step(name).getByRole('checkbox').first().check();

/** Opens a place for a measurement and types it, in thousandths of what the shop reads: inches. */
async function measure(size: string, inches: string): Promise<void> {
  await hands.press(`Measure: ${size}`);
  await technician.keys(`${size}, as read`, inches);
}

describe('a sleeve is machined', () => {
  test('from the chosen option to its sheet, filled in', async () => {
    await technician.comesIn('Marta Oyelaran');
    ({ job, bore } = await judgedBore(phone.server, ['14.2', '14.1', '14.3']));
    await measuredDiameters(phone.server, job, bore);
    const source = 'Bench sheet (invented)';
    const metal = { material: 'aluminium_wrought' as const };
    const off = 2e-6;
    const parts = [
      {
        name: 'Sleeve 9.0, from the long-named supplier across the river',
        bore,
        item: {
          part: 'sleeve' as const,
          ...metal,
          outer_diameter_m: 9.0e-3,
          outer_tolerance_m: off,
          inner_diameter_m: 7.5e-3,
          inner_tolerance_m: 5e-6,
        },
      },
      {
        name: 'Valve 7.466',
        item: { part: 'valve' as const, ...metal, diameter_m: 7.466e-3, diameter_tolerance_m: off },
      },
      {
        name: 'Spring, yellow paint',
        item: {
          part: 'spring' as const,
          load_n: 19.65,
          load_tolerance_n: 0.1,
          rate_n_per_m: 2280,
        },
      },
      { name: 'Reamer 9', item: { part: 'reamer' as const, diameter_m: 8.998e-3, diameter_tolerance_m: 5e-6 } },
    ];
    await emptyShelf(phone.server);
    for (const part of parts) await ask(phone.server, 'part.record', { part: { ...part, source } });

    await goTo(`#/job/${job}/options/${bore}`);
    await hands.sees('4 parts of your list may be used here');
    // The sheet of the sleeve, not of the reamer alone.
    const sleeve = phone.page.getByRole('article', { name: /Sleeve/ });
    await sleeve.getByRole('button', { name: 'Machining sheet from this option' }).click();
    await hands.sees('Filled in from the option.');
    await hands.sees('What the sheet says');
    // By hand: 8.998 ± 0.005 less 9.000 ± 0.002 mm is -9 to +5 µm.
    await hands.sees('Loose or tight, as the parts fall out.');
    await lookOver(phone, 'machining sheet');
    await phone.picture('browser-machining');
    expect((await ask(phone.server, 'machining.get', { job, bore })).id).toBe(null);
  });

  test('a part is made for a bore, and says so in its form', async () => {
    const { parts } = await ask(phone.server, 'part.list', {});
    const made = parts.find(({ part }) => part.name.startsWith('Sleeve') && !part.withdrawn);
    await goTo(`#/part/${made?.id}`);
    const madeFor = phone.page.getByLabel('Made for');
    await expect.poll(() => madeFor.inputValue()).toBe(bore);
    await lookOver(phone, 'part made for a bore');
    await goTo(`#/job/${job}/machining/${bore}`);
  });

  test('cuts are held against what is usual, which is marked as without a source', async () => {
    await hands.sees('Figures without an entry of yours are common practice, no source.');
    await phone.page.getByText('Cuts', { exact: true }).tap();
    await hands.sees('more than the');
    await hands.sees('common practice, no source');
    await lookOver(phone, 'machining sheet, cuts');
    await phone.page.getByText('Cuts', { exact: true }).tap();
  });

  test('what is measured is carried to 20 °C and judged', async () => {
    // 7.502 mm and 7.466 mm in inches, as the demo shop reads them.
    await measure('Sleeve, inside in place', '0.29535');
    await measure('Valve, reaction land', '0.29394');
    await measure('Finished bore', '0.35425');
    await measure('Sleeve, outside', '0.35433');
    await technician.keys('Finished bore: its temperature', '68');
    await hands.sees('Finished bore at 20 °C');
    for (const name of ['Measure the worn bore', 'Finishing cut', 'Clean', 'Bolt down']) {
      await tick(name);
    }
    await hands.sees('As machined');
    await expect
      .poll(async () => (await phone.page.getByText(/As machined/).first().textContent()) ?? '')
      .not.toContain('Not measured yet.');
    await lookOver(phone, 'machining sheet, measured');
    await hands.press('Save the sheet');
    await hands.sees('The sheet is on record.');
    const { sheet } = await ask(phone.server, 'machining.get', { job, bore });
    expect(sheet.measurements?.length).toBe(4);
    expect(sheet.done).toContain('bolt_down');
  });

  test('it is signed once the cautions were read, with what is open', async () => {
    await hands.press('Sign the sheet');
    await hands.sees('Read the cautions of this work first: nothing of it goes on record, or is signed, before.');
    await hands.press('I have read these');
    await hands.press('Sign the sheet');
    await hands.sees('The sheet is signed.');
    await hands.sees('Signed by Marta Oyelaran');
    await hands.sees('Not ticked:');
    await lookOver(phone, 'machining sheet, signed');
    await phone.picture('browser-machining-signed');
    const { signed } = await ask(phone.server, 'machining.get', { job, bore });
    expect(signed?.not_done).toContain('clamp');
  });

  test('the measured sizes go into the repair form, and it predicts what the sheet does', async () => {
    await hands.press('Into the repair form');
    await hands.sees('Record a repair');
    const { machined, answer } = await ask(phone.server, 'machining.get', { job, bore });
    await hands.press('Put the repair on record');
    await hands.sees('The repair is on record.');
    const { bores } = await ask(phone.server, 'job.get', { job });
    const repair = bores[0]?.repairs[0]?.repair ?? '';
    const view = await ask(phone.server, 'repair.get', { job, bore, repair });
    // Typed sizes come back to a tenth of a micrometre.
    const typed = view.work?.bore_diameter_m ?? 0;
    expect(Math.abs(typed - (answer.machined?.bore_diameter_m ?? 0))).toBeLessThan(1e-7);
    const feed = (forecast: typeof machined) =>
      forecast?.prediction.answer === 'computed'
        ? forecast.prediction.highest_line.measured_feed_pa.likely
        : Number.NaN;
    expect(Math.abs(feed(view.forecast) - feed(machined))).toBeLessThan(500);
  });

  test('undo takes the repair away, and then the signature', async () => {
    await ask(phone.server, 'undo.last', {});
    await ask(phone.server, 'undo.last', {});
    const { signed } = await ask(phone.server, 'machining.get', { job, bore });
    expect(signed).toBe(null);
    await goTo(`#/job/${job}/machining/${bore}`);
    await hands.sees('Sign the sheet');
    await phone.page.setViewportSize({ width: 1280, height: 800 });
    await lookOver(phone, 'machining sheet, wide');
    await phone.picture('browser-machining-wide');
    await phone.page.setViewportSize({ width: 360, height: 800 });
  });
});
