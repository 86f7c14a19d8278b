import { cleanup, render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { CurvePoint, OperatingPoint, RegulationState } from '$lib/generated/commands';
import { INCH_UNITS, METRIC_UNITS } from '$lib/quantity';
import { settings } from '$lib/settings/settings.svelte';
import ConsequenceCard from './ConsequenceCard.svelte';
import DecisionCard from './DecisionCard.svelte';
import { gapsOf } from './feed-plot';
import { fieldFindings, foundWords } from './found';
import LeakCard from './LeakCard.svelte';
import OperatingFigure from './OperatingFigure.svelte';
import { settledBy } from './settle';
import { MEASURED, consequence, judged, leak } from './testing/test-view';
import VerdictCard from './VerdictCard.svelte';
import { CONSEQUENCE_REFUSALS, LEAK_REFUSALS } from './words';

const user = userEvent.setup();
beforeEach(() => {
  settings.locale = 'en-US';
  settings.units = INCH_UNITS;
});
afterEach(cleanup);

const text = () => document.body.textContent.replace(/\s+/g, ' ');

describe('the verdict', () => {
  const show = (view = MEASURED) => {
    const ongo = vi.fn();
    render(VerdictCard, { view, ongo });
    return ongo;
  };
  it('says word, mean with its uncertainty, the limit of the day and at sea level, and the chance', () => {
    show();
    expect(screen.getByText('Outside limit')).toBeTruthy();
    expect(text()).toMatch(/17\.1 ± 1\.0 inHg; limit 19\.9 inHg here today \(20\.0 inHg at sea level\)/);
    expect(text()).toContain('under 1% chance that it meets the limit: very unlikely');
    expect(text()).not.toContain('What would settle it');
  });
  it('follows the units', () => {
    settings.units = METRIC_UNITS;
    show();
    expect(text()).toMatch(/57\.9 ± 3\.3 kPa; limit 67\.5 kPa/);
  });
  it('never shows certainty', () => {
    show(judged({ decision: { verdict: 'within_limit', conformity_probability: 1, standard_uncertainty_pa: 1 } }));
    expect(text()).toContain('over 99% chance');
  });
  const close = { verdict: 'too_close_to_call', conformity_probability: 0.5 } as const;
  it('says what would settle a call that is too close, by what is largest', () => {
    show(judged({ decision: { ...close, standard_uncertainty_pa: 1145 } }));
    expect(screen.getByText('Too close to call')).toBeTruthy();
    expect(text()).toContain('More readings, each with the valve turned');
  });
  it('names the gauge or the barometer where those are largest', () => {
    const readings = MEASURED.judgement.readings;
    if (!readings) throw new Error('the fixture has readings');
    const gauge = { ...readings, contributions: [{ source: 'gauge_error' as const, share: 1 }] };
    const of = (change: Parameters<typeof judged>[0]) => settledBy(judged(change).judgement);
    const u = readings.standard_uncertainty_pa;
    expect(of({ readings: gauge, decision: { ...close, standard_uncertainty_pa: u } })).toBe('gauge_error');
    expect(of({ readings: gauge, decision: { ...close, standard_uncertainty_pa: 2 * u } })).toBe('barometer');
  });
  it('says why it does not judge, and leads to where that is put right', async () => {
    const ongo = show({ ...MEASURED, stand_check: null, judgement: { ...MEASURED.judgement, decision: null, limit: null } });
    expect(screen.getByText('Not judged')).toBeTruthy();
    expect(text()).toContain('closed-hose reading isn’t recorded yet');
    await user.click(screen.getByRole('button', { name: 'Go there: Check' }));
    expect(ongo).toHaveBeenCalledWith('check');
  });
});

describe('the leak', () => {
  it('is told as a clearance from off-centre to centred, beside the new one', () => {
    render(LeakCard, { leak: { answer: 'known', ...leak() }, ongo: vi.fn() });
    expect(text()).toMatch(/2\.3 to 3\.2 thou/);
    expect(text()).toMatch(/Clearance as new by the profile 1\.4 thou/);
    expect(text()).toContain('a convention of this program');
  });
  it('or refused in plain words, with what to do, for every reason', () => {
    for (const reason of Object.keys(LEAK_REFUSALS) as (keyof typeof LEAK_REFUSALS)[]) {
      render(LeakCard, { leak: { answer: 'refused', reason }, ongo: vi.fn() });
      const section = document.querySelector('section');
      const words = [...(section?.querySelectorAll('p') ?? [])].map((p) => p.textContent.trim());
      expect(words, reason).toHaveLength(2);
      for (const sentence of words) expect(sentence, reason).toMatch(/^[A-Z].{20,}\.$/);
      expect(section?.textContent, reason).not.toMatch(/thou|K\b.*m³/);
      cleanup();
    }
  });
});

describe('what the leak does', () => {
  const point = (change: Partial<OperatingPoint>): OperatingPoint => ({
    ...consequence().highest_line,
    ...change,
  });
  const show = (change: Partial<OperatingPoint>) =>
    render(OperatingFigure, { at: 'highest', point: point(change), consequence: consequence() });

  it('is a shift with the interval that it likely lies in', () => {
    show({ shift_pa: { low: 7_000, likely: 54_344, high: 480_000 } });
    expect(text()).toMatch(/\+7\.9 psi likely \+1 to \+70/);
    expect(text()).toContain('Specified: 61 psi to 69 psi.');
  });
  it.each<[RegulationState, RegulationState, string]>([
    ['follows_line', 'follows_line', 'feed follows line'],
    ['lost_control', 'regulating', 'Lost control: the supply is shut and feed climbs'],
    ['regulating', 'follows_line', 'As new the supply would still stand wide open'],
    ['regulating', 'lost_control', 'even the new valve doesn’t hold'],
  ])('is never a shift of nothing: measured %s, new %s', (measured, fresh, words) => {
    show({
      shift_pa: null,
      against_specification: null,
      measured_state: measured,
      new_state: fresh,
      worst_state: measured,
    });
    expect(text()).toContain(words);
    expect(text()).not.toMatch(/[+−]\d|likely/);
  });
  it('says that the large end of the band would lose control', () => {
    show({ measured_state: 'regulating', worst_state: 'lost_control' });
    expect(text()).toContain('A leak at the large end of the band would lose control');
  });
  it('or is withheld, with the reason', () => {
    for (const reason of Object.keys(CONSEQUENCE_REFUSALS) as (keyof typeof CONSEQUENCE_REFUSALS)[]) {
      render(ConsequenceCard, { answer: { answer: 'withheld', reason } });
      expect(text(), reason).toContain('No pressure can be predicted');
      expect(text(), reason).not.toMatch(/\d/);
      cleanup();
    }
  });
  it('is a plot whose range without regulation is marked', () => {
    const states: RegulationState[] = ['follows_line', 'follows_line', 'regulating', 'regulating', 'lost_control'];
    const feed = { low: 0, likely: 0, high: 0 };
    const curve = states.map<CurvePoint>((state, index) => ({
      line_pa: 100 * index,
      measured_state: state,
      new_state: 'regulating',
      measured_feed_pa: feed,
      new_feed_pa: feed,
    }));
    expect(gapsOf(curve).map(({ from, to }) => [from, to])).toEqual([
      [0, 150],
      [350, 400],
    ]);
    expect(gapsOf(curve.slice(2, 4))).toEqual([]);
  });
});

describe('findings', () => {
  it('of one field tell one reason against the value, and its bounds in the shop’s unit', () => {
    const field = 'vacuum_pa';
    const found = fieldFindings(
      [
        { severity: 'wrong', code: 'out_of_range', field, low: 0, high: 108_000 },
        { severity: 'wrong', code: 'deeper_than_barometer', field },
      ],
      field,
      'vacuum',
    );
    expect(found).toHaveLength(1);
    expect(found[0]?.text).toMatch(/between 0\.0.inHg and 31\.9.inHg/);
  });
  it('of a test name their place, what weighs most first', () => {
    const words = foundWords([
      { severity: 'note', code: 'untested_seal', field: 'test_point.isolates' },
      { severity: 'wrong', code: 'deeper_than_barometer', field: 'readings[1].vacuum_pa' },
      { severity: 'doubt', code: 'barometer_looks_sea_level', field: 'setup.ambient.pressure_pa' },
    ]);
    expect(words.map(({ text: it }) => it.split(':')[0])).toEqual(['Reading 2', 'Air', 'Profile']);
  });
});

describe('a decision on record', () => {
  it('says who, when, what it rested on, and that it is outdated', () => {
    render(DecisionCard, {
      entry: {
        record: 'd-1',
        by: 'Maro Ilves',
        at: '2026-11-25T10:00:00Z',
        outdated: true,
        decision: {
          verdict: 'outside_limit',
          conformity_probability: 0,
          mean_vacuum_pa: 57_907,
          standard_uncertainty_pa: 1_144,
          limit_vacuum_pa: 67_519,
          shift_highest_line_pa: [7_000, 54_000, 495_000],
          inputs: [],
          profile_digest: 'd',
          physics_version: '1',
          note: 'Quote a sleeve.',
        },
      },
    });
    expect(text()).toMatch(/Maro Ilves, Nov 25, 2026/);
    expect(text()).toMatch(/Mean 17\.1 inHg, standard uncertainty 0\.34 inHg; limit 19\.9 inHg/);
    expect(text()).toContain('Quote a sleeve.');
    expect(text()).toContain('This decision stands for what was known then.');
  });
});
