/** A core for tests of the vacuum test: keeps what is recorded, finds what it is told to find. */
import type { Finding, Reading, TestPart, TestRecorded, TestView } from '$lib/generated/commands';
import { openSession, renderInApp } from '$lib/app/testing/in-app';
import { RecordingBackend } from '$lib/app/testing/recording-backend';
import { overview, readAll } from '$lib/app/testing/shop';
import { MEASURED, untouched } from '../../../components/test/testing/test-view';
import TestViewScreen from '../TestView.svelte';

/** As the core finds it: nothing reads deeper than the air is thick, or than the closed hose. */
function findings(part: TestPart, view: TestView): Finding[] {
  if (part.part !== 'reading') return [];
  const { vacuum_pa: vacuum } = part.body;
  const field = 'vacuum_pa';
  const found: Finding[] = [];
  if (vacuum > 108_000) {
    found.push({ severity: 'wrong', code: 'out_of_range', field, low: 0, high: 108_000 });
  }
  if (vacuum > 100_000) found.push({ severity: 'wrong', code: 'deeper_than_barometer', field });
  if (view.stand_check && vacuum > view.stand_check.dead_head_vacuum_pa) {
    found.push({ severity: 'wrong', code: 'dead_head_worse_than_reading', field });
  }
  return found;
}

function withReading(view: TestView, reading: Reading): TestView {
  const record = `r-${view.readings.length + 1}`;
  const entry = { record, reading, by: 'Maro Ilves', at: '2026-11-25T09:30:00Z', corrected: [] };
  return {
    ...view,
    readings: [...view.readings, entry],
    // Not worked out: the fixture's judgement stands for "there is one now".
    judgement: MEASURED.judgement,
  };
}

function withPart(view: TestView, part: TestPart): TestView {
  switch (part.part) {
    case 'setup':
      return { ...view, setup: part.body };
    case 'stand_check':
      return { ...view, stand_check: part.body };
    case 'blank':
      return { ...view, blank: part.body };
    case 'reading':
      return withReading(view, part.body);
    case 'stand':
      return { ...view, test: { ...view.test, stand: part.body.stand ?? null } };
  }
}

export class BenchCore extends RecordingBackend {
  view: TestView;

  constructor(view: TestView = untouched()) {
    super({
      'app.state': () => ({ version: '0.1.0', store_path: '/shop.db' }),
      'shop.overview': () => overview(),
      'job.list': () => ({ jobs: [], found: 0 }),
      'test.get': () => this.view,
      'test.record': ({ part, dry_run: dryRun }): TestRecorded => {
        const found = findings(part, this.view);
        const wrong = found.some(({ severity }) => severity === 'wrong');
        const view = wrong ? this.view : withPart(this.view, part);
        const saved = !dryRun && !wrong;
        if (saved) this.view = view;
        return { saved, findings: found, view };
      },
      'test.correct': ({ record, reading }): TestRecorded => {
        const found = findings({ part: 'reading', body: reading }, this.view);
        const saved = found.length === 0;
        if (saved) {
          this.view = {
            ...this.view,
            readings: this.view.readings.map((entry) =>
              entry.record === record
                ? { ...entry, reading, corrected: [entry.reading, ...entry.corrected] }
                : entry,
            ),
          };
        }
        return { saved, findings: found, view: this.view };
      },
      'test.strike': ({ record }) => {
        const readings = this.view.readings.filter((entry) => entry.record !== record);
        this.view = { ...this.view, readings };
        return this.view;
      },
      'test.decide': ({ note }) => {
        const { decision, readings, limit } = this.view.judgement;
        if (!decision || !readings || !limit) throw new Error('nothing to decide');
        this.view = {
          ...this.view,
          decision: {
            record: 'd-1',
            by: 'Maro Ilves',
            at: '2026-11-25T10:00:00Z',
            outdated: false,
            decision: {
              verdict: decision.verdict,
              conformity_probability: decision.conformity_probability,
              mean_vacuum_pa: readings.mean_vacuum_pa,
              standard_uncertainty_pa: decision.standard_uncertainty_pa,
              limit_vacuum_pa: limit.today_vacuum_pa,
              inputs: [],
              profile_digest: 'digest',
              physics_version: '1',
              note: note ?? '',
            },
          },
        };
        return this.view;
      },
      'air.barometer': () => ({ pressure_pa: 84_600, standard_altitude_m: 1480 }),
    });
    this.view = { ...view, hazards: readAll() };
  }

  /** What was really recorded, not only tried. */
  recorded(): TestPart[] {
    return this.argsOf('test.record')
      .filter(({ dry_run: dryRun }) => !dryRun)
      .map(({ part }) => part);
  }
}

export async function openTest(core: BenchCore) {
  const session = await openSession(core, '#/test/t-1');
  const page = renderInApp(session, TestViewScreen, { test: 't-1' });
  return { session, page };
}
