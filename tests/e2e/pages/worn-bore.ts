// A worn bore that gets a sleeve and a matching spring: measured, the ways out compared with the
// parts that the shop has, one chosen, done, tested again and reported.
import { expect } from 'vitest';
import type { PlanFigures } from '../../../ui/src/lib/generated/commands';
import { BoreStory, LBF, computed } from './bore-story';
import { UNIT, expectFigure, expectInterval, found } from './figures';
import { printed } from './printed';
import type { Job } from './technician';
import type { Window } from './window';
import type { Courier } from './whole-job';

const JOB: Job = {
  unit: 'Larkmoor L6',
  vehicle: '2014 Wendover saloon, 1.6',
  complaint: 'Bangs 2-3 and 3-4 from 60 °C up.',
  notes: 'Body is out, customer wants it to last.',
};
/** Inches of mercury, as typed. */
const BEFORE = ['14.2', '14.1', '14.3'];
const AFTER = ['25.6', '25.5', '25.7'];
/** Inches, as typed: two of the bore with their depths, then each land of the valve. */
const DIAMETERS = ['0.3173', '1.2', '0.3174', '1.6', '0.3138', '0.3138', '0.3138'];
/** As typed, inches. */
const WALL = { around: '0.12', least: '0.06', source: 'Shop rule for this casting (invented)' };
const FIGURES: PlanFigures = {
  wall_m: Number(WALL.around) * UNIT.in,
  least_wall_m: Number(WALL.least) * UNIT.in,
  least_wall_source: WALL.source,
};
/** The set that the demo shop has for this bore. */
const PARTS = ['Sleeve 9.0 for valve 7.466', 'Valve 7.466, four grooves', 'Spring, yellow paint', 'Reamer 9.0'];
/** What the shop's spring holds on the smaller valve by P = F / A, Pa. */
const HOLDS = 19.6 / ((Math.PI / 4) * 7.466e-3 ** 2);

export class WornBore extends BoreStory {
  constructor(
    window: Window,
    private readonly courier: Courier,
  ) {
    super(window, JOB);
  }

  /** A reading far outside its limit, and what that does to the pressure. */
  async judgesIt(): Promise<void> {
    const { hands, look } = this.window;
    await hands.press('Begin a vacuum test');
    const { judgement } = await this.tests(BEFORE);
    expect(judgement.decision?.verdict).toBe('outside_limit');
    await hands.sees('Outside limit');
    await this.expectShift(judgement.consequence);
    await look('a worn bore, judged');
    await this.decides();
  }

  /** The diameters say the same as the air; what is still open is told. */
  async measuresIt(): Promise<void> {
    const { hands, look } = this.window;
    await this.checked({ check: 'free_movement', dry: 'free', wet: 'free' });
    await this.opensTheCard();
    await hands.press(/^Diameters\b/);
    await this.keys('Diameter', DIAMETERS);
    await hands.sees('Vacuum and diameters give one clearance');
    const card = await this.card();
    const fits = card.accord.find(({ says }) => says === 'leak_fits_diameters');
    if (fits?.says !== 'leak_fits_diameters') throw new Error('the core doesn’t say that they agree');
    const [airFrom = '', airTo = '', from = '', to = ''] = found(
      await hands.text(),
      /one clearance: ([\d.]+) to ([\d.]+) thou by vacuum, ([\d.]+) to ([\d.]+) thou by diameters/,
    );
    expectInterval('clearance by vacuum', [airFrom, airTo], 'thou', fits.by_vacuum_m as [number, number]);
    expectInterval('clearance by diameters', [from, to], 'thou', [fits.by_diameters_m.low, fits.by_diameters_m.high]);
    expect(['unsettled', 'faulty']).toContain(card.conclusion);
    await this.expectShift(card.consequence);
    await look('card of a worn bore');
  }

  /** The ways out side by side: the sleeve of the shop's own list comes first, with its spring. */
  async comparesTheWays(): Promise<void> {
    const { goTo, hands, look, technician } = this.window;
    await goTo(`#/job/${this.job}`);
    await hands.press('Compare the repair options');
    await hands.sees('parts of your list may be used here');
    await hands.press('Figures for planning');
    await technician.keys('Metal around the bore', WALL.around);
    await technician.keys('Least that must be left of it', WALL.least);
    await hands.write('Who says so', WALL.source);
    const options = await this.options(FIGURES);
    await this.expectOptions(options);
    const [first] = options.options.options;
    expect([first?.way, first?.standing]).toEqual(['sleeve', 'holds']);
    const text = await hands.text();
    for (const part of PARTS) expect(text).toContain(part);
    expect(text).toContain('The reading is outside its limit.');
    await hands.press('Figures for planning');
    await look('ways out of a worn bore');
    this.expectSpring(text, first?.needs.spring_load_n ?? NaN);
  }

  /**
   * The spring of the smaller valve, by hand. The pressure stays if the load goes with the area that
   * it works on, P = F / A (the balance of a spool; docs of physics::spring::rerate):
   *
   *   A = π/4 d²       as new    π/4 (7.9705 mm)² = 49.895 mm²
   *                    sleeved   π/4 (7.4660 mm)² = 43.779 mm²
   *   P = 22.4 N / 49.895 mm²  = 448.94 kPa, 65.1 psi
   *   F = 448.94 kPa · 43.779 mm² = 19.654 N, 4.42 lbf
   *
   * Nothing is left out of this: both are definitions, so the core's load may differ by rounding alone.
   */
  private expectSpring(text: string, core: number): void {
    const area = (d: number) => (Math.PI / 4) * d ** 2;
    const pressure = 22.4 / area(7.9705e-3);
    const load = pressure * area(7.466e-3);
    expect(load).toBeCloseTo(19.654, 3);
    expect(core / load).toBeCloseTo(1, 6);
    const [written = ''] = found(text, /Spring load where it regulates[\s\S]*?([\d.]+) lbf\s/);
    // Shown to a tenth of a pound.
    expect(Math.abs(Number(written) - load / LBF)).toBeLessThanOrEqual(0.0501);
  }

  /** Choosing fills the repair form in; a person looks at it and saves it. */
  async getsTheSleeve(): Promise<void> {
    const { hands, look } = this.window;
    const { options } = await this.options(FIGURES);
    const foreseen = options.options.find(({ way }) => way === 'sleeve');
    await hands.press('Choose: Sleeve');
    await hands.sees('Filled in from the option.');
    await hands.sees('Sleeve with a smaller valve');
    await look('repair form, filled in');
    await hands.press('Put the repair on record');
    await hands.sees('The repair is on record.');
    await hands.sees('The bore was not tested since.');
    const view = await this.repair();
    expect(view.work?.option).toBe('sleeve_smaller_valve');
    for (const part of PARTS) expect(view.work?.parts).toContain(part);
    expect(view.work?.spring_load_n).toBe(19.6);
    await this.expectCompared(view);
    // What was foreseen had the oil around the sleeve and the spring's tolerance beside it.
    const predicted = computed(view.forecast?.prediction).highest_line.measured_feed_pa.likely;
    const before = computed(foreseen?.hot).highest_line.measured_feed_pa;
    expect(predicted).toBeGreaterThanOrEqual(before.low);
    expect(predicted).toBeLessThanOrEqual(before.high);
    // By hand 19.6 N on 43.779 mm² is 447.7 kPa, 64.9 psi. The jet of the supply pulls it shut
    // (flow force, Merritt ch. 5) and holds the pressure 1 to 2 psi lower: left out here.
    expect(predicted).toBeLessThan(HOLDS);
    expect(predicted).toBeGreaterThan(HOLDS - 2 * UNIT.psi);
  }

  /** The same bore again: before, predicted and after on one plot, and nothing open. */
  async provesIt(): Promise<void> {
    const { hands, look } = this.window;
    await hands.press('Test again');
    const { judgement } = await this.tests(AFTER);
    expect(judgement.decision?.verdict).toBe('within_limit');
    await hands.sees('Judged by the dimensions of the repair on record.');
    await this.expectShift(judgement.consequence);
    await this.decides();
    await hands.sees('Nothing is open on the bench. The road test decides.');
    // One plot has all three, each named at its line.
    const lines = (await hands.text()).split('\n').map((line) => line.trim());
    for (const line of ['before', 'predicted', 'after']) expect(lines).toContain(line);
    const view = await this.repair();
    expect(view.open).toEqual([]);
    await this.expectCompared(view);
    const feed = (answer: Parameters<typeof computed>[0]) =>
      computed(answer).highest_line.measured_feed_pa;
    const predicted = feed(view.forecast?.prediction);
    const after = feed(view.after?.consequence);
    expect(after.likely).toBeGreaterThanOrEqual(predicted.low);
    expect(after.likely).toBeLessThanOrEqual(predicted.high);
    expect(after.likely).toBeLessThan(feed(view.before?.consequence).likely);
    await look('a worn bore, proved');
  }

  /** What a reader needs stands on the paper, with the figures of the screen. */
  async reportsIt(): Promise<void> {
    const { goTo, hands } = this.window;
    await goTo(`#/job/${this.job}/report`);
    await hands.sees('Write the report');
    await hands.choose('As what file', 'Web page (HTML)');
    await hands.press('Write the report');
    await hands.sees('The report is ready');
    const file = await this.courier.saves('html', () => hands.press('Save it on this device'));
    await hands.sees(/Saved: .+\.html/);
    const paper = await printed(file);
    for (const needed of [
      JOB.vehicle,
      JOB.complaint,
      'Outside limit',
      'Sleeve with a smaller valve',
      ...PARTS,
      '14.2',
      '25.6',
    ]) {
      expect(paper).toContain(needed);
    }
    const { before, forecast, after } = await this.repair();
    for (const answer of [before?.consequence, forecast?.prediction, after?.consequence]) {
      const feed = computed(answer).highest_line.measured_feed_pa.likely / UNIT.psi;
      expect(paper).toContain(`${feed.toFixed(1)} psi`);
    }
    // P = F / A of the new spring on the new area, as by hand above.
    const [holds = ''] = found(paper, /The spring holds there \(P = F \/ A\) ([\d.]+) psi/);
    expectFigure('the spring, on paper', holds, 'psi', HOLDS);
  }
}
