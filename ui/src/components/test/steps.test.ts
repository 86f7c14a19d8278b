import { describe, expect, it } from 'vitest';
import type { TestView } from '$lib/generated/commands';
import { placeAfter, placeToStart, stepStates } from './steps';
import { MEASURED, untouched } from './testing/test-view';
import { whyUnjudged } from './unjudged';

const withReadings = (count: number): TestView => ({
  ...MEASURED,
  readings: MEASURED.readings.slice(0, count),
});

describe('the steps of a test', () => {
  it('begin with the air: the stand was chosen when the test began', () => {
    expect(stepStates(untouched())).toEqual({
      stand: 'done',
      air: 'open',
      setup: 'open',
      check: 'open',
      blank: 'open',
      readings: 'open',
    });
    expect(placeToStart(untouched())).toBe('air');
  });
  it('ask for two calibrated orifices, unless nobody entered the stand', () => {
    const check = { dead_head_vacuum_pa: 90_000, orifices: [{ label: 'A', vacuum_pa: 70_000 }] };
    expect(stepStates({ ...MEASURED, stand_check: check }).check).toBe('partly');
    expect(stepStates({ ...MEASURED, stand: null, stand_check: check }).check).toBe('done');
  });
  it('ask for three readings', () => {
    expect([0, 1, 2, 3].map((count) => stepStates(withReadings(count)).readings)).toEqual([
      'open',
      'partly',
      'partly',
      'done',
    ]);
  });
  it('count a blank left out on purpose as done', () => {
    expect(stepStates({ ...MEASURED, blank: { vacuum_pa: null } }).blank).toBe('done');
    expect(stepStates({ ...MEASURED, blank: null }).blank).toBe('open');
  });
  it('go on to the next that is open, then to one left out, then to the judgement', () => {
    expect(placeAfter('check', { ...MEASURED, blank: null })).toBe('blank');
    expect(placeAfter('readings', { ...MEASURED, blank: null })).toBe('blank');
    expect(placeAfter('readings', MEASURED)).toBe('judgement');
    expect(placeToStart(MEASURED)).toBe('judgement');
  });
});

describe('why a test is not judged', () => {
  it.each<[string, TestView, string, string | undefined]>([
    ['nothing recorded', untouched(), 'test.unjudged.no_setup', 'air'],
    ['no closed hose', { ...MEASURED, stand_check: null }, 'test.unjudged.no_check', 'check'],
    ['no reading', withReadings(0), 'test.unjudged.no_readings', 'readings'],
    [
      'no limit',
      { ...MEASURED, test_point: { ...MEASURED.test_point, limit: null } },
      'test.unjudged.no_limit',
      undefined,
    ],
    [
      'a reading that contradicts',
      { ...MEASURED, judgement: { ...MEASURED.judgement, readings: null } },
      'test.unjudged.reading_wrong',
      undefined,
    ],
    [
      'no valve',
      {
        ...MEASURED,
        setup: MEASURED.setup ? { ...MEASURED.setup, valve_position: 'valve_absent' } : null,
      },
      'test.unjudged.valve_absent',
      'setup',
    ],
  ])('%s', (_, view, why, step) => {
    expect(whyUnjudged(view)).toEqual(step === undefined ? { why } : { why, step });
  });
});
