// A repaired bore is proved by pressure: hot oil on the bench, point by point, one of them outside and
// said; then a gauge at a tap in the car, after its cautions.
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Phone } from '../harness/browser';
import { UNIT } from '../pages/figures';
import { PhoneHands } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { ask, gaugeAtFeed, openJob } from '../pages/shop';
import { Technician } from '../pages/technician';

const GAUGE = 'Oil bench gauge';

let phone: Phone;
let hands: PhoneHands;
let technician: Technician;
let job = '';
let bore = '';
let repair = '';

beforeAll(async () => {
  phone = await Phone.start();
  hands = new PhoneHands(phone.page);
  technician = new Technician(hands);
});
afterAll(async () => {
  await phone.close();
});

const goTo = (address: string) => phone.goTo(address);

const psi = (pa: number) => (pa / UNIT.psi).toFixed(1);

describe('proof by pressure', () => {
  test('a sleeve is on record, and the shop has a gauge and the unit a tap', async () => {
    await technician.comesIn('Marta Oyelaran');
    const { server } = phone;
    // Not a judged one: its job has no caution read, and all of them are to stand here.
    job = await openJob(server);
    const view = await ask(server, 'job.get', { job });
    const { unit } = view.job;
    bore = view.bores[0]?.bore ?? '';
    const recorded = await ask(server, 'repair.record', {
      job,
      bore,
      work: {
        option: 'sleeve_smaller_valve',
        parts: 'Sleeve and valve turned in the shop',
        bore_diameter_m: 7.5e-3,
        bore_uncertainty_m: 2e-6,
        valve_diameter_m: 7.47e-3,
        valve_uncertainty_m: 2e-6,
        spring_load_n: 19.641,
        spring_rate_n_per_m: 1500,
      },
    });
    repair = recorded.view.id ?? '';
    await gaugeAtFeed(server, unit, GAUGE);
  });

  test('the cautions of hot oil stand before it; the prediction is there before a point', async () => {
    await goTo(`#/job/${job}`);
    await hands.press('Check the circuit with hot oil');
    await hands.sees('Caution 2 of 2');
    await lookOver(phone, 'cautions of the oil bench');
    await hands.press(/read and understood$/);
    await hands.sees('Predicted from what the repair left.');
    await phone.page.getByRole('img', { name: /predicted and as read/ }).waitFor();
    await lookOver(phone, 'a hot-oil check before its points');
  });

  test('points up and down: one lies outside, and it is said', async () => {
    const blank = await ask(phone.server, 'oil_check.get', { job, bore });
    const { curve } = blank.answer;
    const [low, middle, high] = [0, 12, 24].map((at) => curve[at]);
    if (!low || !middle || !high) throw new Error('the core predicts no curve');
    const steps = [
      { at: low, feed: low.rising_pa.likely },
      { at: middle, feed: middle.rising_pa.likely + 20 * UNIT.psi },
      { at: high, feed: high.rising_pa.likely },
      { at: low, feed: low.falling_pa.likely },
    ];
    for (const [index, { at, feed }] of steps.entries()) {
      const number = index + 1;
      if (index > 0) await hands.press('Add a point');
      await technician.keys(`Line, point ${number}`, psi(at.line_pa));
      await technician.keys(`Feed, point ${number}`, psi(feed));
    }
    // After the highest line the app takes the next one as coming down.
    const way = phone.page.getByRole('group', { name: 'Line came, point 4', exact: true });
    expect(await way.getByRole('radio', { checked: true }).getAttribute('value')).toBe('falling');
    await hands.choose('Gauge of the regulated pressure (feed)', GAUGE);
    await hands.choose('Gauge of line pressure', GAUGE);
    await hands.sees('Doesn’t hold, or not as predicted');
    await hands.sees(/20 psi|outside the band/);
    await lookOver(phone, 'a hot-oil check with a point outside');
    await phone.page.evaluate(() => window.scrollTo(0, 0));
    await phone.picture('browser-oil-check');
    await hands.press('Save the check');
    await hands.sees('The hot-oil check is on record.');
    await hands.sees('4 points read');
    const [entry] = (await ask(phone.server, 'job.get', { job })).bores[0]?.oil_checks ?? [];
    const check = await ask(phone.server, 'oil_check.get', {
      job,
      bore,
      oil_check: entry?.oil_check ?? '',
    });
    expect(check.answer.points.map(({ against_prediction: told }) => told)).toEqual([
      'within_limit',
      'outside_limit',
      'within_limit',
      'within_limit',
    ]);
    expect(check.answer.verdict).toBe('outside_limit');
  });

  test('the repair knows it: in its plot, and in what is still open', async () => {
    await goTo(`#/job/${job}/repair/${bore}/${repair}`);
    await hands.sees('The last hot-oil check says that the circuit doesn’t hold');
    await hands.sees('read on the hot-oil bench');
    await lookOver(phone, 'a repair with a hot-oil check');
    await phone.picture('browser-repair-proved');
    await hands.press(/^Hot-oil check/);
    await hands.sees('Doesn’t hold, or not as predicted');
    await phone.page.goBack();
    await hands.sees('Still open');
  });

  test('a gauge at a tap: cautions of the road first, then judged three ways', async () => {
    await goTo(`#/job/${job}`);
    await hands.press(/Pressures at the taps/);
    await hands.sees('Nothing read yet');
    await lookOver(phone, 'taps without a reading');
    await hands.press('Read this tap');
    await hands.choose('Where was it read?', 'While driving');
    await hands.sees('Gauges on the road');
    await lookOver(phone, 'cautions of the car');
    await hands.press(/read and understood$/);
    await technician.keys('Pressure at the tap', '72.5');
    await hands.choose('Gauge at the tap', GAUGE);
    await technician.keys('Oil temperature', '194');
    await hands.write('Gear and command', 'D, fourth');
    await hands.sees('Outside limit');
    await lookOver(phone, 'a reading at a tap');
    await phone.picture('browser-tap');
    await hands.press('Save the reading');
    await hands.sees('The reading is on record.');
    await hands.sees(/72\.5 ± /);
    await lookOver(phone, 'taps with a reading');
    await goTo(`#/job/${job}`);
    await hands.sees('1 tap outside its window');
    await lookOver(phone, 'a job with taps and an oil check');
    await goTo(`#/job/${job}/taps`);
    await hands.press('Take this reading back');
    await hands.sees('Nothing read yet');
    expect(phone.problems).toEqual([]);
  });
});
