// What the stories of one bore have in common: a job, its cautions, its vacuum tests and checks, and
// what the screen says held against what the core says of the same records.
import { expect, vi } from 'vitest';
import type {
  CardView,
  Consequence,
  ConsequenceAnswer,
  Found,
  Instrument,
  OptionsView,
  PlanFigures,
  ProfilePart,
  RepairView,
  Way,
} from '../../../ui/src/lib/generated/commands';
import { PATIENCE_MS } from '../harness/patience';
import { UNIT, expectFigure, expectInterval, found } from './figures';
import { ask, jobOf, testView, testsOf, type TestView } from './shop';
import { READ, type Bench, type Job } from './technician';
import type { Window } from './window';

/** Pound-force, N: NIST SP 811 (2008), appendix B.8. */
export const LBF = 4.4482216;
export const STAND = 'Bench 1, Hollow Lane';
/** As long as a screen is waited for; the answer before the last may still stand on it. */
const SOON = { timeout: PATIENCE_MS, interval: 100 };
export const SAVE_CHECK = 'Save the check';

/** The stand of that day as it is typed, inches of mercury; the readings are the story's. */
export const STAND_AS_READ: Omit<Bench, 'readings'> = {
  barometer: '29.80',
  deadHead: '28.1',
  orifices: { '0.5': '21.4', '1.1': '5.0' },
  blank: '27.7',
};

/** A consequence that was computed. */
export function computed(answer: ConsequenceAnswer | null | undefined): Consequence {
  if (answer?.answer !== 'computed') throw new Error('the core predicts nothing');
  return answer;
}

export class BoreStory {
  job = '';
  bore = '';

  constructor(
    readonly window: Window,
    readonly told: Job,
  ) {}

  /** What must be in the shop before anybody is at work: the window reads the units then. */
  async prepares(): Promise<void> {}

  /** She opens the job and reads the cautions; the bore is the unit's only one. */
  async opensTheJob(person: string): Promise<void> {
    const { core, hands, technician } = this.window;
    // Asked where nobody is at work, and still asked in a window that somebody left open. Before one
    // goes anywhere: going elsewhere puts the question away.
    const { author } = await ask(core, 'shop.overview', {});
    if (!author || (await hands.text()).includes('Who is working?')) await technician.comesIn(person);
    await this.window.goTo('#/jobs');
    await hands.sees('New job');
    await technician.opensJob(this.told);
    this.job = (await jobOf(core, this.told.vehicle)).id;
    this.bore = (await ask(core, 'job.get', { job: this.job })).bores[0]?.bore ?? '';
    await hands.press('Read the cautions');
    await hands.press(READ);
    await hands.press('Back to the job');
  }

  /** From the question which stand to the judgement; answers with what the core says of it. */
  async tests(readings: readonly string[]): Promise<TestView> {
    const { hands, technician } = this.window;
    await hands.choose('On which stand?', STAND);
    await hands.press('Begin the test');
    await technician.tests({ ...STAND_AS_READ, readings });
    // The reading typed last may be on its way yet.
    await vi.waitFor(async () => {
      expect((await this.lastTest()).readings).toHaveLength(readings.length);
    }, SOON);
    return this.lastTest();
  }

  /** What the core says of the job's last test. */
  async lastTest(): Promise<TestView> {
    const { core } = this.window;
    return testView(core, (await testsOf(core, this.job)).at(-1) ?? '');
  }

  async decides(): Promise<void> {
    const { hands } = this.window;
    await hands.press('Put on record');
    await hands.sees('This goes on record under your name');
    await hands.press('Put on record');
    await hands.sees('The decision is on record.');
    await hands.press('Back');
  }

  /** To the card of the bore. */
  async opensTheCard(): Promise<void> {
    const { goTo, hands } = this.window;
    await goTo(`#/job/${this.job}/bore/${this.bore}`);
    await hands.sees('Checks');
  }

  /** Keys numbers from one field to the next, and saves the check with the last. */
  async keys(first: string, numbers: readonly string[]): Promise<void> {
    const { hands } = this.window;
    await hands.openPad(first);
    for (const [index, number] of numbers.entries()) {
      await hands.keys(number);
      await hands.press(index + 1 < numbers.length ? /^Next: / : SAVE_CHECK);
    }
    await hands.sees('What the checks say together');
  }

  /** A check on record, past the interface. */
  async checked(it: Found, occasion: 'as_found' | 'after_repair' = 'as_found'): Promise<void> {
    const asked = { job: this.job, bore: this.bore, occasion, found: it, note: '' };
    const { saved, findings } = await ask(this.window.core, 'inspection.record', asked);
    if (!saved) throw new Error(`not recorded: ${JSON.stringify(findings)}`);
  }

  async card(): Promise<CardView['card']> {
    return (await ask(this.window.core, 'bore.card', { job: this.job, bore: this.bore })).card;
  }

  options(figures: PlanFigures = {}): Promise<OptionsView> {
    return ask(this.window.core, 'options.list', { job: this.job, bore: this.bore, figures });
  }

  async repair(): Promise<RepairView> {
    const { job, bore } = this;
    const { bores } = await ask(this.window.core, 'job.get', { job });
    const repair = bores[0]?.repairs.at(-1)?.repair ?? '';
    return ask(this.window.core, 'repair.get', { job, bore, repair });
  }

  /** The shift, the feed and both intervals at the highest line pressure, as the core has them. */
  async expectShift(answer: ConsequenceAnswer | null | undefined): Promise<void> {
    const does = computed(answer);
    const { line_pa: line, shift_pa: shift, measured_feed_pa: feed, new_feed_pa: asNew } = does.highest_line;
    if (!shift) throw new Error('the core tells no shift');
    const psi = (pa: number) => Math.round(pa / UNIT.psi);
    await vi.waitFor(async () => {
      const [likely = '', low = '', high = '', now = '', from = '', to = '', before = ''] = found(
        await this.window.hands.text(),
        new RegExp(
          `Shift at the highest line pressure, ${psi(line)} psi\\s+([+-]?[\\d.]+)\\s+psi\\s+` +
            'likely ([+-]?[\\d.]+) to ([+-]?[\\d.]+)\\s+' +
            'Feed ([\\d.]+) psi \\(([\\d.]+) to ([\\d.]+)\\); as new ([\\d.]+) psi\\. ' +
            `Specified: ${psi(does.specified_low_pa)} psi to ${psi(does.specified_high_pa)} psi\\.`,
        ),
      );
      expectFigure('shift', likely, 'psi', shift.likely);
      expectInterval('shift', [low, high], 'psi', [shift.low, shift.high]);
      expectFigure('feed as measured', now, 'psi', feed.likely);
      expectInterval('feed as measured', [from, to], 'psi', [feed.low, feed.high]);
      expectFigure('feed as new', before, 'psi', asNew.likely);
    }, SOON);
  }

  /** Each way's predicted feed at the highest line, and the order of the ways, as the core has them. */
  async expectOptions({ options: { options } }: OptionsView): Promise<void> {
    const WAYS: Record<Way, string> = {
      leave: 'Leave it',
      clean: 'Clean',
      other_valve: 'Another valve',
      sleeve: 'Sleeve',
      ream: 'Ream',
      add_relief: 'Add a relief: contains the fault',
      replace_body: 'Another valve body',
      change_orifice: 'Another balance orifice',
    };
    const { hands } = this.window;
    expect(options.map(({ way }) => way).sort()).toEqual(Object.keys(WAYS).sort());
    // The list is worked out anew with the figures that were typed.
    for (const { rank, way } of options) await hands.sees(`${rank}. ${WAYS[way]}`);
    const text = await hands.text();
    for (const { way, hot } of options) {
      if (hot.answer !== 'computed') {
        expect(text).toContain(`${WAYS[way]}: no pressure can be predicted`);
        continue;
      }
      const feed = hot.highest_line.measured_feed_pa;
      const [likely = '', low = '', high = ''] = found(
        text,
        new RegExp(`${WAYS[way]}: likely ([\\d.]+) psi, ([\\d.]+) to ([\\d.]+) psi`),
      );
      expectFigure(way, likely, 'psi', feed.likely);
      expectInterval(way, [low, high], 'psi', [feed.low, feed.high]);
    }
  }

  /** Before, predicted and after at the highest line pressure, as the core has them. */
  async expectCompared({ before, forecast, after }: RepairView): Promise<void> {
    const text = await this.window.hands.text();
    const at = text.indexOf('At the highest line pressure');
    expect(at, text).toBeGreaterThanOrEqual(0);
    let rest = text.slice(at);
    for (const [name, answer] of [
      ['Before', before?.consequence],
      ['Predicted', forecast?.prediction],
      ['After', after?.consequence],
    ] as const) {
      if (!answer) continue;
      const [low = '', high = '', likely = ''] = found(
        rest,
        new RegExp(`${name}\\s+Feed ([\\d.]+) to ([\\d.]+)[^\\n]*\\n+([\\d.]+) psi`),
      );
      const feed = computed(answer).highest_line.measured_feed_pa;
      expectInterval(name, [low, high], 'psi', [feed.low, feed.high]);
      expectFigure(name, likely, 'psi', feed.likely);
      rest = rest.slice(rest.indexOf(name) + name.length);
    }
  }
}

/** A copy of a unit with another balance orifice by its profile: what a later body of it has. */
export async function copyWithOrifice(
  { core }: Window,
  unit: string,
  name: string,
  diameter_m: number,
): Promise<void> {
  const { units, people } = await ask(core, 'shop.overview', {});
  await ask(core, 'person.choose', { person: people.find((it) => it.name === 'Marta Oyelaran')?.id ?? '' });
  const { view } = await ask(core, 'profile.copy', { id: units.find((it) => it.name === unit)?.id ?? '', name });
  const orifice = view.circuits[0]?.bores[0]?.balance_orifice;
  if (!orifice) throw new Error('the copy has no balance orifice');
  const part: ProfilePart = { part: 'balance_orifice', body: { ...orifice.body, diameter_m } };
  const { saved } = await ask(core, 'profile.put', { id: orifice.id, part });
  if (!saved) throw new Error('the orifice of the copy was not saved');
}

/** A spring tester whose error is known, so that a load needn't be taken for a guess. */
export async function springTester({ core }: Window): Promise<string> {
  const instrument: Instrument = {
    name: 'Spring rig',
    kind: 'spring_tester',
    limits_of_error_si: 0.2,
    resolution_si: 0.05,
    source: 'Weights of the shop, 5 kg and 10 kg (invented)',
  };
  const { saved, id } = await ask(core, 'instrument.record', { instrument });
  if (!saved || !id) throw new Error('the spring tester was not recorded');
  return id;
}
