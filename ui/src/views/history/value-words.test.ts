// Two versions of one thing, told apart by a person who never saw a field's name.
import { describe, expect, it } from 'vitest';
import { settings } from '$lib/settings/settings.svelte';
import { METRIC_UNITS } from '$lib/quantity';
import { valueWords, versionWords } from './value-words';

describe('what versions say', () => {
  it('is their gist where that tells them apart', () => {
    const notes = ['Bangs into second', 'Bangs into second when hot'];
    expect(versionWords('job.notes', notes.map((text) => ({ text })))).toEqual(notes);
  });

  it('is else only what differs, in the units of this device', () => {
    settings.units = METRIC_UNITS;
    const spring = { bore: '0195f0a0-0000-7000-8000-000000000001', rate_n_per_m: 2000, source: 'Sheet 4' };
    expect(
      versionWords('spring', [
        { ...spring, load_regulating_n: 30.5 },
        { ...spring, load_regulating_n: 31 },
      ]),
    ).toEqual(['load regulating: 30.5\u00a0N', 'load regulating: 31.0\u00a0N']);
  });

  it('is gist and difference of two repairs with the same words', () => {
    settings.units = METRIC_UNITS;
    const work = { option: 'reamed_oversize', parts: 'Reamer 4' };
    const [one, other] = versionWords('repair', [
      { work: { ...work, bore_diameter_m: 0.0127 } },
      { work: { ...work, bore_diameter_m: 0.01271 } },
    ]);
    expect(one).not.toBe(other);
    expect(one).toMatch(/Reamer 4\nwork, bore diameter: 12\.70/);
  });

  it('names the parts of a list, and says yes and no', () => {
    expect(valueWords('photo_list', { order: 'a5', marks: [{ deep: true }] })).toBe('marks, 1, deep: yes');
  });

  it('says when a version’s contents were left out', () => {
    expect(versionWords('job.notes', [undefined, { text: 'Hi' }])[0]).toBe('Left out or erased');
  });
});
