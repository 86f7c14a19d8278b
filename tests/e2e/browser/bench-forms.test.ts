// What a shop enters beside its readings: a stand with its orifices, a clutch of a circuit, a check
// that is left out with its reason; and what the card says of the clutches.
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Phone } from '../harness/browser';
import { found } from '../pages/figures';
import { PhoneHands, waits } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { ask, begunTest, readyForReadings } from '../pages/shop';
import { Technician } from '../pages/technician';

let phone: Phone;
let hands: PhoneHands;

async function goTo(place: string): Promise<void> {
  await phone.goTo(place);
}

/** Keys numbers from one field to the next. */
async function keys(first: string, numbers: readonly string[]): Promise<void> {
  await hands.openPad(first);
  for (const [index, number] of numbers.entries()) {
    await hands.keys(number);
    await hands.press(index + 1 < numbers.length ? /^Next: / : 'Done');
  }
  await expect.poll(() => phone.page.locator('dialog[open]').count(), waits('the pad closes')).toBe(0);
}

beforeAll(async () => {
  phone = await Phone.start();
  hands = new PhoneHands(phone.page);
});
afterAll(() => phone.close());

describe('a stand', () => {
  test('belongs to somebody’s shop', () => new Technician(hands).comesIn('Marta Oyelaran'));

  test('is entered with an orifice as its certificate has it', async () => {
    await goTo('#/instruments');
    await hands.press('Add a stand');
    await hands.write('Name', 'Bench 3');
    await hands.choose('Absolute pressure with the hose closed', 'The same on any day');
    await hands.press('Add an orifice');
    await hands.press('Save the stand');
    // What is missing is told at its field, and nothing is lost.
    await hands.sees('Nothing is entered here yet.');
    await hands.write('What is engraved on it', '0.5');
    await keys('Bore', ['0.0197', '0.0313', '0.528']);
    await lookOver(phone, 'stand');
    await phone.picture('browser-stand');
    await hands.press('Save the stand');
    await hands.sees('The stand is on record.');
    const { stands } = await ask(phone.server, 'instrument.list', {});
    const ours = stands.find(({ stand }) => stand.name === 'Bench 3');
    // ISO 6358: 0.0313 dm³/(s·bar) are 0.0313e-3 m³ over 1e5 Pa.
    expect(ours?.stand.orifices[0]?.sonic_conductance_m3_s_pa).toBeCloseTo(3.13e-10, 14);
    expect(ours?.stand.dead_head_follows_barometer).toBe(false);
    await hands.press(/^Bench 3/);
    await hands.press('Take orifice 1 away');
    await hands.press('Save the stand');
    await hands.sees('no calibrated orifice: readings can only be held against their limit');
  });
});

describe('a check left out', () => {
  let job = '';
  let bore = '';

  test('asks for a reason and stands on the card with it', async () => {
    const begun = await begunTest(phone.server);
    ({ job } = begun);
    bore = (await ask(phone.server, 'job.get', { job })).bores[0]?.bore ?? '';
    await goTo(`#/job/${job}/bore/${bore}`);
    await hands.press('Leave a check out, or put one back');
    await hands.sees('A check that is left out says why');
    const row = phone.page.locator('li', { hasText: 'Balance orifice' });
    await row.getByRole('button', { name: 'Leave it out' }).click();
    await row.getByRole('button', { name: 'Leave it out' }).click();
    await hands.sees('Nothing is entered here yet.');
    await hands.write('Why', 'No pins of this size');
    await lookOver(phone, 'leaving a check out');
    await row.getByRole('button', { name: 'Leave it out' }).click();
    await hands.sees('Left out: No pins of this size');
    await phone.picture('browser-leave-out');
    await hands.press('Back');
    await hands.sees('left out on purpose: No pins of this size');
    const { card } = await ask(phone.server, 'bore.card', { job, bore });
    expect(card.checks.find(({ check }) => check === 'orifice_bore')?.state).toBe('left_out');
  });

  test('is put back', async () => {
    await hands.press('Leave a check out, or put one back');
    await hands.press(/^Put it back/);
    await expect.poll(async () => (await hands.text()).includes('Put it back'), waits('it is back')).toBe(false);
    const { plan } = await ask(phone.server, 'inspection.plan', { job });
    expect(plan.left_out).toEqual([]);
  });
});

describe('the clutches of a bore', () => {
  test('are told with what they lose or gain, by kind of solenoid', async () => {
    const begun = await readyForReadings(phone.server);
    const bore = (await ask(phone.server, 'job.get', { job: begun.job })).bores[0]?.bore ?? '';
    for (const [index, inHg] of [17.2, 17.1, 17.3].entries()) {
      const body = { vacuum_pa: inHg * 3386.388640341, reseated: index > 0 };
      await ask(phone.server, 'test.record', { test: begun.test, part: { part: 'reading', body } });
    }
    await goTo(`#/job/${begun.job}/bore/${bore}`);
    await hands.sees('What that does to the clutches');
    await hands.sees('2-6 brake');
    await hands.sees('Solenoid that holds its own output: hardly passes a shift on');
    const { card } = await ask(phone.server, 'bore.card', { job: begun.job, bore });
    const torque = card.clutches[0]?.highest_line?.torque;
    if (!torque) throw new Error('the core tells no torque');
    const [, change = ''] = /2-6 brake[^]*?Highest line:[^]*?Likely[^]*?([+\u2212]?\d+)\slbf·ft\s*Hot idle/.exec(await hands.text()) ?? [];
    // 1 lbf·ft is 4.4482216 N x 0.3048 m.
    expect(Number(change.replace('\u2212', '-'))).toBe(Math.round(torque.change_n_m.likely / 1.3558179));
    await lookOver(phone, 'card with clutches');
    await phone.picture('browser-card-clutches');
  });

  test('are entered with the unit; what is missing is told', async () => {
    const { units } = await ask(phone.server, 'shop.overview', {});
    const unit = units.find(({ name }) => name === 'Larkmoor L6')?.id ?? '';
    await goTo(`#/unit/${unit}/edit`);
    await hands.press('Add a clutch or brake');
    await hands.write('Name', 'Reverse clutch');
    await keys('Solenoid’s pressure when it must hold at hot idle', ['20']);
    await lookOver(phone, 'clutch');
    await phone.picture('browser-clutch-form');
    await hands.press('Save');
    await hands.sees('Reverse clutch');
    await hands.sees('Can’t be had without it: the torque of the clutches');
    found(await hands.text(), /Reverse clutch: (Faces that rub)/);
  });
});
