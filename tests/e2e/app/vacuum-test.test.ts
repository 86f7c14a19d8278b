// One bore from reading to what it does to the pressure, in the real app's own window.
import { existsSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { App } from '../harness/app';
import { UNIT, expectFigure, found } from '../pages/figures';
import { CAUTIONS, Technician, type Bench, type Job } from '../pages/technician';
import { WindowHands } from '../pages/window-hands';

const JOB: Job = {
  unit: 'Larkmoor L6',
  vehicle: '2018 Wendover hatchback, 1.6',
  complaint: 'Harsh 2-3 once warm.',
  notes: 'Feed tap reads 74 psi hot.',
};

const BENCH: Bench = {
  barometer: '29.80',
  deadHead: '28.1',
  orifices: { '0.5': '21.4', '1.1': '5.0' },
  blank: '27.7',
  readings: ['17.2', '16.9', '17.3'],
};

let app: App;
let hands: WindowHands;
let technician: Technician;

beforeAll(async () => {
  app = await App.start();
  hands = new WindowHands(() => app.page);
  technician = new Technician(hands);
});
afterAll(async () => {
  await app.close();
});

test('he says who is working and opens a job on the demo unit', async () => {
  await technician.comesIn('Tomás Wierzba');
  await technician.opensJob(JOB);
  for (const written of [JOB.vehicle, JOB.complaint, JOB.notes]) await hands.sees(written);
});

test('he reads the cautions, and they stay in view as a short line', async () => {
  await hands.press('Read the cautions');
  await technician.readsCautions();
  await hands.sees('All were read for this job.');
  await hands.press('Back to the job');
  await hands.press('Begin a vacuum test');
  await hands.sees('Bench cautions, read for this job');
  expect(await hands.text()).not.toContain(`Caution 1 of ${CAUTIONS}`);
});

test('he does the whole vacuum test and sees what it says', async () => {
  await hands.choose('On which stand?', 'Bench 1, Hollow Lane');
  await hands.press('Begin the test');
  await technician.tests(BENCH);
  const text = await hands.text();
  expect(text).toContain('Outside limit');
  const [mean = '', today = '', sea = ''] = found(
    text,
    /([\d.]+) ± [\d.]+ inHg;\s*limit ([\d.]+) inHg here today \(([\d.]+) inHg at sea level\)/,
  );
  // By hand: (17.2 + 16.9 + 17.3) / 3.
  expectFigure('mean', mean, 'inHg', 17.13333 * UNIT.inHg);
  expect(Number(sea)).toBe(20);
  expect(Number(today)).toBeLessThan(20);
  const [shift = '', low = '', high = '', now = '', asNew = ''] = found(
    text,
    /Shift at the highest line pressure, 250 psi\s+([+-][\d.]+)\s+psi\s+likely ([+-][\d.]+) to ([+-][\d.]+)\s+Feed ([\d.]+) psi [^;]*; as new ([\d.]+) psi/,
  );
  // By hand: the shift is the one feed less the other; the interval holds it.
  expect(Math.abs(Number(now) - Number(asNew) - Number(shift))).toBeLessThanOrEqual(0.15);
  expect(Number(low)).toBeLessThanOrEqual(Number(shift));
  expect(Number(high)).toBeGreaterThanOrEqual(Number(shift));
  expect(text).toContain('Clearance that explains it');
  expect(text).toContain('Reading on the reference stand');
  app.picture('app-judgement');
});

test('the plot and the valve are drawn', async () => {
  const drawn = await app.page.execute(() =>
    [...document.querySelectorAll('.judgement svg[role="img"]')].map((svg) => ({
      name: svg.querySelector('title')?.textContent,
      wide: svg.getBoundingClientRect().width,
      inked: svg.querySelectorAll('path').length,
    })),
  );
  expect(drawn.map(({ name }) => name)).toEqual([
    'Solenoid feed regulator, in section',
    'Feed against line pressure',
  ]);
  for (const { wide, inked } of drawn) {
    expect(wide).toBeGreaterThan(300);
    expect(inked).toBeGreaterThan(10);
  }
});

test('all of it is there after the app was killed, and only in its own folder', async () => {
  await app.restart();
  await hands.sees('Tomás Wierzba is working');
  await hands.press(/2018 Wendover hatchback/);
  await hands.press('Go on with the test');
  await hands.sees('Outside limit');
  expect(existsSync(app.store)).toBe(true);
  // Nowhere else in the home folder of this run is there a store, but for its own backups.
  const home = path.dirname(app.data);
  const stores = readdirSync(home, { recursive: true, encoding: 'utf8' }).filter((name) => name.endsWith('.db'));
  const backups = path.join(app.data, 'backups');
  const found = stores.map((name) => path.join(home, name));
  expect(found.filter((file) => path.dirname(file) !== backups)).toEqual([app.store]);
});
