import { describe, expect, it } from 'vitest';
import { href, readRoute, type Route } from './route';

const PLACES: Route[] = [
  { at: 'jobs' },
  { at: 'job_new' },
  { at: 'job', job: '0193-a' },
  { at: 'job_edit', job: 'a/b', part: 'complaint' },
  { at: 'cautions', job: 'a' },
  { at: 'begin', job: 'a' },
  { at: 'begin', job: 'a', bore: 'b', testPoint: 'c' },
  { at: 'test', test: 't' },
  { at: 'history', of: 'job', subject: 'a' },
  { at: 'history', of: 'test', subject: 't' },
  { at: 'units' },
  { at: 'unit', unit: 'u' },
  { at: 'unit_new' },
  { at: 'unit_edit', unit: 'u' },
  { at: 'unit_part', unit: 'u', part: 'land', target: 'l' },
  { at: 'unit_part', unit: 'u', part: 'shape', target: 'c' },
  { at: 'pass_on', unit: 'u' },
  { at: 'settings' },
  { at: 'parts' },
  { at: 'shop_part', part: 'new' },
  { at: 'options', job: 'a', bore: 'b' },
  { at: 'pass_on' },
  { at: 'pass_on', job: 'a' },
  { at: 'report', job: 'a' },
  { at: 'take_in' },
  { at: 'look', looked: '3' },
  { at: 'look_job', looked: '3', inside: 'a' },
  { at: 'look_test', looked: '3', inside: 't' },
  { at: 'look_repair', looked: '3', ofJob: 'a', ofBore: 'b', inside: 'r' },
  { at: 'look_part', looked: '3', part: 'plan', ofJob: 'a' },
  { at: 'look_part', looked: '3', part: 'bore', ofJob: 'a', of: 'b' },
  { at: 'look_part', looked: '3', part: 'oil-check', ofJob: 'a', of: 'b', inside: 'c' },
  { at: 'readings_out' },
  { at: 'readings_out', job: 'a' },
  { at: 'readings_in' },
  { at: 'readings_in', job: 'a' },
  { at: 'handover', job: 'a' },
  { at: 'handover_form', job: 'a', part: 'estimate' },
  { at: 'handover_form', job: 'a', part: 'fitted', fitted: 'f' },
  { at: 'statistics' },
];

describe('an address', () => {
  it.each(PLACES.map((place) => [href(place), place]))('%s leads to its place', (address, place) => {
    expect(readRoute(address as string)).toEqual(place);
  });

  it('without anything leads to the jobs', () => {
    expect(readRoute('')).toEqual({ at: 'jobs' });
    expect(readRoute('#/')).toEqual({ at: 'jobs' });
  });

  it.each(['#/job', '#/job/a/edit/number', '#/job/a/begin/b', '#/unit/u/part/land', '#/unit/u/part/piston/l', '#/x/y', '#/%zz', '#/units/a/b/c/d/e', '#/look', '#/look/3/job', '#/look/3/repair/a/b', '#/look/3/test/t/x'])(
    '%s leads nowhere, and says so',
    (address) => {
      expect(readRoute(address)).toEqual({ at: 'nowhere' });
    },
  );
});
