import { describe, expect, it } from 'vitest';
import type { RepairOutlook } from '$lib/generated/commands';
import { consequenceAt } from '../repair/testing/repair-view';
import { bandChart } from './band-rows';

const option = (way: RepairOutlook['way'], psi?: number): RepairOutlook =>
  ({
    way,
    standing: 'holds',
    hot:
      psi === undefined
        ? { answer: 'withheld', reason: 'no_dimensions' }
        : { answer: 'computed', ...consequenceAt(psi, 3) },
  }) as RepairOutlook;

describe('all options on one axis', () => {
  it('has the bore as it is first, each bar between its ends, and the limits', () => {
    const chart = bandChart([option('sleeve', 65), option('ream'), option('leave', 80)]);
    expect(chart?.rows.map(({ way }) => way)).toEqual(['leave', 'sleeve', 'ream']);
    const [leave, sleeve, ream] = chart?.rows ?? [];
    expect(leave?.band?.likely).toBeGreaterThan(sleeve?.band?.likely ?? 1);
    for (const band of [leave?.band, sleeve?.band]) {
      expect(band && band.low <= band.likely && band.likely <= band.high).toBe(true);
      expect(band?.low).toBeGreaterThanOrEqual(0);
      expect(band?.high).toBeLessThanOrEqual(1);
    }
    expect(ream?.band).toBeUndefined();
    expect(ream?.said).toContain('no pressure can be predicted');
    expect(chart && chart.specified.low < chart.specified.high).toBe(true);
  });

  it('is left out while no pressure is predicted', () => {
    expect(bandChart([option('leave')])).toBeUndefined();
  });
});
