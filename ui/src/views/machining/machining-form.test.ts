import { describe, expect, it } from 'vitest';
import type { MachiningSheet } from '$lib/generated/commands';
import { entryOf } from '$lib/quantity/entered';
import {
  cutsMeasured,
  emptyMeasurement,
  machiningForm,
  removeCut,
  sheetOf,
  type MachiningForm,
} from './machining-form';

const cut = (diameter_m: number, finishing: boolean) => ({
  reamer: '',
  diameter_m,
  tolerance_m: 1e-5,
  finishing,
});

/** What was read after cuts, of a sheet as the core has it. */
const after = (sheet: MachiningSheet) =>
  (sheet.measurements ?? []).map(({ size, cut: at, read_m }) => ({ size, at, read_m }));

/** Two roughing cuts and a finishing one, the bore read after either of the first two. */
function roughed(): MachiningForm {
  const read = (at: number, read_m: number) => ({
    size: 'after_cut' as const,
    cut: at,
    read_m,
    temperature_k: 293.15,
    instrument: null,
  });
  return machiningForm({
    cuts: [cut(8.2e-3, false), cut(8.3e-3, false), cut(8.4e-3, true)],
    measurements: [read(0, 8.2e-3), read(1, 8.3e-3)],
  });
}

describe('what is read after a roughing cut', () => {
  it('goes through the form as it came', () => {
    expect(after(sheetOf(roughed()).sheet)).toEqual([
      { size: 'after_cut', at: 0, read_m: 8.2e-3 },
      { size: 'after_cut', at: 1, read_m: 8.3e-3 },
    ]);
  });

  it('is asked for after each cut that roughs, and after one that something was read after', () => {
    const form = roughed();
    expect(cutsMeasured(form)).toEqual([0, 1]);
    for (const it of form.cuts) it.finishing = 'yes';
    form.measurements.shift();
    expect(cutsMeasured(form)).toEqual([1]);
  });

  it('stays when its cut is removed, and those of later cuts go with theirs', () => {
    const form = roughed();
    removeCut(form, 0);
    expect(after(sheetOf(form).sheet)).toEqual([
      { size: 'after_cut', at: null, read_m: 8.2e-3 },
      { size: 'after_cut', at: 0, read_m: 8.3e-3 },
    ]);
    expect(cutsMeasured(form)).toEqual([0]);
  });

  it('names the cut by its place on the sheet, not by that in the form', () => {
    const form = roughed();
    // A first cut without its figure waits, so the second is the sheet’s first.
    const first = form.cuts[0];
    if (first) first.diameter = entryOf(null, 'length');
    expect(after(sheetOf(form).sheet).map(({ at }) => at)).toEqual([null, 0]);
  });

  it('starts with the cut that it was asked for at, and another size with none', () => {
    expect(emptyMeasurement('after_cut', undefined, 1).cut).toBe(1);
    const form = roughed();
    form.measurements = [{ ...emptyMeasurement('valve'), read: entryOf(8e-3, 'length') }];
    expect(sheetOf(form).sheet.measurements?.[0]).not.toHaveProperty('cut');
  });
});
