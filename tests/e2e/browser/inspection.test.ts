// A whole inspection of the demonstration bore on the phone: from the plan to a judgement that the
// vacuum reading alone would have got wrong; and a leak that the diameters can't explain.
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Phone } from '../harness/browser';
import { UNIT, expectFigure, expectInterval, found } from '../pages/figures';
import { PhoneHands, waits } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { ask, readyForReadings } from '../pages/shop';
import { Technician } from '../pages/technician';

/** Pound-force, N: NIST SP 811 (2008), appendix B.8. */
const LBF = 4.4482216;
/** Face of the reaction land by the profile, 7.9705 mm across, m². */
const AREA = (Math.PI / 4) * 7.9705e-3 ** 2;
const SAVE_CHECK = 'Save the check';

let phone: Phone;
let hands: PhoneHands;
let technician: Technician;
let job = '';
let bore = '';

async function goTo(place: string): Promise<void> {
  await phone.page.evaluate((to) => {
    location.hash = to;
  }, place);
  await expect.poll(() => new URL(phone.page.url()).hash, waits(place)).toBe(place);
}

/** Counts what a thumb does: taps, and apart from them the digits of the pad. */
async function watchThumb(): Promise<void> {
  await phone.page.evaluate(() => {
    const count = { taps: 0, digits: 0 };
    Object.assign(window, { thumb: count });
    document.addEventListener(
      'click',
      (event) => {
        // A tap on an answer's words is told to its ring, too: that one isn't the thumb's.
        if (!event.isTrusted || !(event.target instanceof Element) || event.detail === 0) return;
        if (event.target.closest('.digits')) count.digits += 1;
        else count.taps += 1;
      },
      true,
    );
  });
}
const thumb = () =>
  phone.page.evaluate(() => (window as unknown as { thumb: { taps: number; digits: number } }).thumb);

/** Keys numbers from one field to the next. */
async function keys(first: string, numbers: readonly string[]): Promise<void> {
  await hands.openPad(first);
  for (const [index, number] of numbers.entries()) {
    await hands.keys(number);
    await hands.press(index + 1 < numbers.length ? /^Next: / : 'Done');
  }
  await expect.poll(() => phone.page.locator('dialog[open]').count(), waits('the pad closes')).toBe(0);
}

async function saves(): Promise<void> {
  await hands.press(SAVE_CHECK);
  await hands.sees('What the checks say together');
}

/** A job on the demonstration unit, its vacuum test ready for readings. */
async function beginsAJob(): Promise<void> {
  ({ job } = await readyForReadings(phone.server));
  const view = await ask(phone.server, 'job.get', { job });
  bore = view.bores[0]?.bore ?? '';
}

const card = async () => (await ask(phone.server, 'bore.card', { job, bore })).card;
beforeAll(async () => {
  phone = await Phone.start();
  hands = new PhoneHands(phone.page);
  technician = new Technician(hands);
});
afterAll(() => phone.close());

describe('a bore that reads well and drags', () => {
  test('the plan says what is open', async () => {
    await technician.comesIn('Marta Oyelaran');
    await beginsAJob();
    await goTo(`#/job/${job}`);
    await watchThumb();
    await hands.press('Inspect the body, check by check');
    await hands.sees('4 checks that decide are open');
    await lookOver(phone, 'plan');
    await hands.press('Go on: Solenoid feed regulator');
    await hands.sees('No bore is passed on a vacuum reading alone');
    await lookOver(phone, 'card of an untouched bore');
  });

  test('it drags once it is oiled', async () => {
    await hands.press('Next: Free movement');
    await hands.choose('Washed and dry', 'Free');
    await hands.choose('With oil', 'Drags');
    await lookOver(phone, 'free movement');
    await hands.press(SAVE_CHECK);
    await hands.sees('The valve doesn’t move freely');
  });

  test('its reading is good', async () => {
    await hands.press(/^Vacuum test/);
    await technician.reads(1, '25.5');
    await technician.reads(2, '25.4');
    await technician.reads(3, '25.6');
    await hands.sees('As recorded.');
    expect((await card()).checks.find(({ check }) => check === 'vacuum')?.outcome).toBe('good');
    await goTo(`#/job/${job}/bore/${bore}`);
    await hands.sees('What the checks say together');
  });

  test('its spring holds the pressure: P = F / A', async () => {
    await hands.press(/^Spring\b/);
    await keys('Height where the valve regulates', ['0.787', '0.866', '3.87', '0.709', '6.2']);
    await lookOver(phone, 'spring');
    await saves();
    const text = await hands.text();
    const [low = '', high = ''] = found(text, /The spring holds ([\d.]+) to ([\d.]+) psi, within/);
    const says = (await card()).accord.find(({ says }) => says === 'spring_holds');
    if (says?.says !== 'spring_holds') throw new Error('the core says nothing of the spring');
    expectInterval('spring', [low, high], 'psi', [says.holds_pa.low, says.holds_pa.high]);
    // By hand: along the line through both loads, 3.87 + (0.866 - 0.787) / (0.866 - 0.709) x
    // (6.2 - 3.87) = 5.042 lbf = 22.43 N at 0.787 in; over 49.90 mm² that is 449.5 kPa, 65.2 psi.
    const force = (3.87 + ((0.866 - 0.787) / (0.866 - 0.709)) * (6.2 - 3.87)) * LBF;
    expect(says.holds_pa.likely / (force / AREA)).toBeCloseTo(1, 3);
    expect((Number(low) + Number(high)) / 2).toBeCloseTo(force / AREA / UNIT.psi, 0);
  });

  test('the contradiction stands there, and what settles it', async () => {
    await hands.sees('Not settled');
    await hands.sees('How far that moves the pressure isn’t measured.');
    await lookOver(phone, 'card, not settled');
    await phone.picture('browser-card-unsettled');
  });

  test('the force explains it: 2 F / A is more than the band is wide', async () => {
    await hands.press('Measure the force that moves the valve');
    await hands.choose('With oil', 'Drags');
    await keys('Force that moves it', ['0.45']);
    await saves();
    await hands.sees('Doesn’t hold its pressure');
    const text = await hands.text();
    const [swing = ''] = found(text, /friction moves the pressure by ([\d.]+) psi .*more than what is specified/);
    const says = (await card()).accord.find(({ says }) => says === 'friction_swings');
    if (says?.says !== 'friction_swings') throw new Error('the core says nothing of the friction');
    expectFigure('swing', swing, 'psi', says.swing_pa);
    // By hand: 2 x 0.45 lbf = 4.003 N over 49.90 mm² is 80.2 kPa, 11.6 psi; 61 to 69 psi is 8 wide.
    expect(Number(swing)).toBeCloseTo((2 * 0.45 * LBF) / AREA / UNIT.psi, 1);
    expect(says.beyond_band).toBe(true);
    await lookOver(phone, 'card, judged');
    await phone.picture('browser-card-judged');
  });

  test('it goes on to a repair', async () => {
    const { taps, digits } = await thumb();
    console.info(`From the open job to the judged bore, four checks: ${taps} taps, ${digits} digits`);
    // 25 are allowed for a graded vacuum test alone; the three other checks take the rest.
    expect(taps).toBeLessThanOrEqual(50);
    await hands.press('Choose a repair');
    await hands.sees('What was done?');
  });
});
