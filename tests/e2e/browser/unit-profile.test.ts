// A shop enters a unit of its own from nothing on the phone, works with it, and copies it.
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Phone } from '../harness/browser';
import { PhoneHands, waits } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { ask } from '../pages/shop';
import { Technician } from '../pages/technician';
import { Thumb } from '../pages/thumb';

const ON = 'Save and go on';
const MEASURED = 'Measured on the bench, two good units';

let phone: Phone;
let hands: PhoneHands;
let technician: Technician;
let thumb: Thumb;

/** Words written into fields: each field takes a tap to reach. */
let written = 0;
async function write(label: string, text: string): Promise<void> {
  written += 1;
  await hands.write(label, text);
}

/** Keys numbers from one field to the next; an empty one is left as it is. */
async function keys(first: string, numbers: readonly string[]): Promise<void> {
  await hands.openPad(first);
  for (const [index, number] of numbers.entries()) {
    await hands.keys(number);
    await hands.press(index + 1 < numbers.length ? /^Next: / : 'Done');
  }
  await expect.poll(() => phone.page.locator('dialog[open]').count(), waits('the pad closes')).toBe(0);
}

async function row(name: RegExp): Promise<void> {
  await hands.press(name);
}

beforeAll(async () => {
  phone = await Phone.start();
  hands = new PhoneHands(phone.page);
  technician = new Technician(hands);
});
afterAll(() => phone.close());

describe('a unit of one’s own', () => {
  test('is entered from nothing', async () => {
    await technician.comesIn('Marta Oyelaran');
    thumb = await Thumb.watch(phone.page);
    await hands.press('More');
    await hands.press('Transmission units');
    await hands.press('New unit');
    await hands.sees('Where this comes from');
    await write('Name', 'Fernhill F5');
    await keys('Line pressure at hot idle', ['80', '250', '', '29.5', '5.9', '849']);
    await write('Where this comes from', MEASURED);
    await lookOver(phone, 'new unit');
    await hands.press(ON);

    await hands.sees('How many solenoids');
    await write('Name', 'Solenoid feed');
    await keys('Pressure that it is meant to hold', ['65', '61', '69', '0.317', '6']);
    await write('Where this comes from', MEASURED);
    await lookOver(phone, 'circuit');
    await hands.press(ON);

    await hands.sees('Start from');
    await write('Name', 'Feed regulator');
    await keys('Bore diameter', ['0.3152']);
    await hands.sees('As entered, where the valve regulates.');
    await lookOver(phone, 'shape');
    await hands.press(ON);

    await hands.sees('What it takes to move it oiled');
    await keys('Friction when free', ['0.07']);
    await write('Where this comes from', MEASURED);
    await lookOver(phone, 'bore');
    await hands.press(ON);

    for (const land of ['exhaust land', 'supply land', 'reaction land']) {
      await expect.poll(() => phone.page.getByRole('heading', { level: 1 }).innerText(), waits(land)).toBe(land);
      await keys('Diameter', ['0.3138']);
      if (land === 'exhaust land') await lookOver(phone, 'land');
      await hands.press(ON);
    }

    await hands.sees('With the supply just closed.');
    await keys('Spring load, regulating', ['5.04', '14.9']);
    await write('Where this comes from', MEASURED);
    await lookOver(phone, 'spring');
    await hands.press(ON);
  });

  test('says what it costs to leave the balance orifice out', async () => {
    await hands.sees('Usually the thickness of the plate.');
    await hands.press('Back');
    await hands.sees('Missing, and what that costs');
    await hands.sees('Can’t be had without it: the pressure shift');
    await hands.sees('Can be judged: the leak, the spring load that fits');
    await row(/^Test point: Reaction side/);
    await keys('Least vacuum at sea level', ['20']);
    await write('Who says so', 'Shop rule: 20 inHg at sea level');
    await lookOver(phone, 'test point');
    await hands.press('Save');
    await hands.sees('Can be judged: the reading against its limit, the leak, the spring load that fits');
    await lookOver(phone, 'unit being edited');
    const { taps, digits } = await thumb.count();
    console.info(`A unit with one bore from nothing: ${taps + written} taps, ${digits} digits, ${written} texts`);
    // Ten minutes are 600 s: with 3 s for a tap and 1 s for a digit the thumb needs half of them.
    expect(taps + written).toBeLessThan(90);
  });

  test('tells an opening that works the wrong way round, and when it is mended', async () => {
    await row(/^Supply: lets line in/);
    await hands.choose('Which edges meter', 'the right ones');
    await hands.sees('Needs fixing:');
    await lookOver(phone, 'opening the wrong way round');
    await hands.press('Save');
    // In the one list of findings, with the way to its field.
    await hands.sees('What is odd about this profile');
    await row(/Opening: Which edges meter/);
    await hands.choose('Which edges meter', 'the left ones');
    await expect.poll(() => hands.text(), waits('mended')).not.toContain('Needs fixing:');
    await hands.press('Save');
    await hands.sees('Its parts');
    expect(await hands.text()).not.toContain('What is odd about this profile');
  });

  test('carries a job and a judgement', async () => {
    await phone.goTo('#/jobs');
    await technician.opensJob({
      unit: 'Fernhill F5',
      vehicle: '2017 Wendover estate',
      complaint: 'Harsh 2-3 when hot',
      notes: '',
    });
    const { jobs } = await ask(phone.server, 'job.list', {});
    const job = jobs.find(({ vehicle }) => vehicle === '2017 Wendover estate')?.id ?? '';
    const view = await ask(phone.server, 'job.get', { job });
    await ask(phone.server, 'caution.read', { job, hazards: view.hazards.map(({ hazard }) => hazard) });
    const { stands } = await ask(phone.server, 'shop.overview', {});
    const bore = view.bores[0];
    const { test: begun } = await ask(phone.server, 'test.begin', {
      job,
      bore: bore?.bore ?? '',
      test_point: bore?.test_points[0]?.test_point ?? '',
      stand: stands.find(({ stand }) => stand.name === 'Bench 1, Hollow Lane')?.id ?? '',
    });
    await phone.goTo(`#/test/${begun}`);
    await technician.tests({
      barometer: '29.80',
      deadHead: '28.1',
      orifices: { '0.5': '21.4', '1.1': '5.0' },
      blank: '27.7',
      readings: ['17.2', '17.1', '17.3'],
    });
    const judged = await ask(phone.server, 'test.get', { test: begun });
    expect(judged.judgement.decision?.verdict).toBe('outside_limit');
    // The leak is known; the pressure is withheld for want of the orifice, by name.
    expect(JSON.stringify(judged.judgement.leak)).toContain('clearance_centred_m');
    expect(judged.judgement.findings.some(({ field }) => field === 'balance_orifice')).toBe(true);
  });

  test('is passed on without the jobs done on it', async () => {
    await phone.goTo('#/units');
    await row(/^Fernhill F5/);
    await hands.sees('In service');
    await lookOver(phone, 'unit');
    await hands.press('Pass this unit on');
    await hands.sees('none of the jobs done on it');
    await lookOver(phone, 'pass a unit on');
    await hands.press('Make the file');
    await hands.sees('The file is ready');
  });

  test('is copied, and the copy changed, without touching the first', async () => {
    await phone.goTo('#/units');
    await row(/^Fernhill F5/);
    await hands.press('Edit');
    await hands.sees('1 job was done on this unit.');
    await hands.press('More');
    await hands.press('Copy this unit');
    await hands.write('Name of the copy', 'Fernhill F5, late');
    await lookOver(phone, 'copy');
    await hands.press('Make the copy');
    await expect
      .poll(() => phone.page.getByRole('heading', { level: 1 }).innerText(), waits('the copy'))
      .toBe('Fernhill F5, late');
    await row(/^Land: reaction land/);
    await keys('Diameter', ['0.3130']);
    await hands.press('Save');
    await hands.sees('Its parts');
    const { units } = await ask(phone.server, 'shop.overview', {});
    const land = async (name: string) => {
      const unit = units.find((entry) => entry.name === name)?.id ?? '';
      const { circuits } = await ask(phone.server, 'profile.get', { unit });
      return circuits[0]?.bores[0]?.lands[2]?.body.diameter_m;
    };
    expect(await land('Fernhill F5')).toBeCloseTo(0.3138 * 0.0254, 9);
    expect(await land('Fernhill F5, late')).toBeCloseTo(0.313 * 0.0254, 9);
  });

  test('has its spring worked out from two measured loads', async () => {
    await row(/^Spring/);
    await hands.press('Work it out from two measured loads');
    // 5 lbf more over 0.2 in is 25 lbf/in; a tenth of an inch above the lower height, 2.5 lbf less.
    await keys('First height', ['1.0', '2', '0.8', '7', '0.9']);
    await lookOver(phone, 'spring from loads');
    await hands.press('Work it out');
    await hands.sees('Taken over: 4.5 lbf where it regulates, rate 25.0 lbf/in.');
    await expect.poll(() => hands.field('Spring rate').innerText(), waits('rate')).toMatch(/25\b/);
    await hands.press('Back');
    await hands.sees('Its parts');
  });

  test('is gone when its first entry is undone, and comes back', async () => {
    await phone.goTo('#/units/new');
    await hands.sees('Where this comes from');
    await hands.write('Name', 'Ashby A4');
    await hands.press('Save');
    await hands.sees('No circuit yet.');
    await lookOver(phone, 'unit with nothing in it');
    await hands.press(/^Undo:/);
    await expect
      .poll(() => phone.page.getByRole('heading', { level: 1 }).innerText(), waits('the list'))
      .toBe('Transmission units');
    expect(await hands.text()).not.toContain('Ashby A4');
    await hands.press('Bring back');
    await hands.sees('Ashby A4');
    await row(/^Ashby A4/);
    await hands.press('Edit');
    await hands.press('More');
    await hands.press('Remove this unit');
    await hands.sees('Removed units');
    await row(/^Ashby A4/);
    await hands.sees('In service');
    await phone.goTo('#/units');
    await row(/^Fernhill F5, late/);
    await hands.press('Edit');
    await hands.sees('Its parts');
  });

  test('keeps half-typed numbers when the phone dies', async () => {
    await row(/^Balance orifice/);
    await hands.openPad('Diameter');
    await hands.keys('0.02');
    await hands.press('Done');
    const place = await phone.page.evaluate(() => location.hash);
    // A place in the address is a unit, a kind of part and that part.
    const [, , , , part = '', target = ''] = place.split('/').map(decodeURIComponent);
    const kept = async () => JSON.stringify(await ask(phone.server, 'draft.get', { key: `profile:${part}:${target}` }));
    await expect.poll(kept, waits('the draft')).toContain('0.02');
    await phone.restart();
    await hands.sees('Marta Oyelaran is working');
    await phone.goTo(place);
    await hands.sees('Found what you were typing.');
    await expect.poll(() => hands.field('Diameter').innerText(), waits('typed')).toContain('0.02');
  });
});
