import { expect, test } from 'vitest';
import type { BoreEvent } from '$lib/generated/commands';
import { historyPlot } from './plot';

const INHG = 3386.388640341;

const test_of = (job: string, inhg: number): BoreEvent => ({
  job,
  job_number: job,
  vehicle: '',
  by: '',
  at: '2026-04-14T12:00:00Z',
  what: {
    is: 'test',
    test: `${job} ${inhg}`,
    test_point: '',
    readings: 1,
    mean_vacuum_pa: inhg * INHG,
    expanded_uncertainty_pa: 0.5 * INHG,
    limit_vacuum_pa: 17 * INHG,
    barometer_from_altitude: false,
    decided: false,
  },
});
const repair_of = (job: string): BoreEvent => ({
  ...test_of(job, 0),
  what: { is: 'repair', repair: 'r', option: 'cleaned', parts: '' },
});
const ys = (events: BoreEvent[], mixed: boolean) =>
  historyPlot(events, mixed)?.series[0]?.points.map(({ y }) => (y === null ? null : Math.round(y)));

test('a repair breaks the line between the test before and the one after', () => {
  const events = [test_of('a', 15), repair_of('a'), repair_of('a'), test_of('a', 22), test_of('b', 21)];
  expect(ys(events, false)).toEqual([15, null, 22, 21]);
  expect(historyPlot(events, false)?.gaps).toHaveLength(1);
});

test('among several vehicles no line leads from one to another', () => {
  const events = [test_of('a', 15), repair_of('a'), test_of('b', 20), test_of('a', 22), test_of('a', 23)];
  expect(ys(events, true)).toEqual([15, null, 20, null, 22, 23]);
  expect(historyPlot(events, true)?.gaps).toEqual([]);
});

test('one reading is no course', () => {
  expect(historyPlot([test_of('a', 15)], false)).toBeUndefined();
});

test('of many jobs, each has its number alone, and what is hatched is named once', () => {
  const events = ['a', 'b', 'c'].flatMap((job) => [test_of(job, 15), repair_of(job), test_of(job, 22)]);
  const plot = historyPlot(events, true);
  expect(plot?.marks?.map(({ label }) => label)).toEqual(['a', 'a', 'b', 'b', 'c', 'c']);
  expect(plot?.gaps?.map(({ label, unnamed }) => [label, unnamed])).toEqual([
    ['repair', false],
    ['repair', true],
    ['repair', true],
  ]);
});
