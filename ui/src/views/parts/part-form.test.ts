import { describe, expect, it } from 'vitest';
import type { ShopPart } from '$lib/generated/commands';
import { partForm, partOf } from './part-form';

const SLEEVE: ShopPart = {
  name: 'Sleeve 9.0',
  item: {
    part: 'sleeve',
    outer_diameter_m: 9e-3,
    outer_tolerance_m: 2.54e-6,
    inner_diameter_m: 7.5e-3,
    inner_tolerance_m: 2.54e-6,
    material: 'steel',
  },
  bore: 'b-1',
  source: 'Bench sheet',
  notes: '',
  withdrawn: true,
};

describe('the form of a part', () => {
  it('gives back the part that it was filled with, its bore and what it says of being had too', () => {
    const { part, missing } = partOf(partForm(SLEEVE));
    expect(missing).toEqual([]);
    expect(part?.item).toMatchObject({ part: 'sleeve', material: 'steel' });
    expect(part?.item.part === 'sleeve' && part.item.outer_diameter_m).toBeCloseTo(9e-3, 9);
    expect(part).toMatchObject({ bore: 'b-1', withdrawn: true, source: 'Bench sheet' });
  });

  it('names what a part of its kind can’t do without', () => {
    const form = { ...partForm(), name: 'Spring', kind: 'spring' as const };
    expect(partOf(form)).toEqual({
      part: undefined,
      missing: ['load_n', 'load_tolerance_n', 'rate_n_per_m'],
    });
  });

  it('leaves out what belongs to another kind', () => {
    const { part } = partOf({ ...partForm(SLEEVE), kind: 'reamer' });
    expect(part).toBeUndefined();
  });
});
