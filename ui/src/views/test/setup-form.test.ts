import { describe, expect, it } from 'vitest';
import { MEASURED, untouched } from '../../components/test/testing/test-view';
import { setupForm } from './setup-form';

describe('the altitude of the shop', () => {
  const fresh = untouched();
  const unplaced = { ...fresh, suggested: { ...fresh.suggested, ambient_from_stand: false } };

  it('is offered where the stand doesn’t say its own', () => {
    const form = setupForm(unplaced, 1480);
    expect([form.by, form.altitude.storedSi]).toEqual(['altitude', 1480]);
    expect(setupForm(unplaced, null).altitude.text).toBe('');
  });

  it('is never put before the stand’s place, nor before what is on record', () => {
    expect(setupForm(fresh, 1480)).toEqual(setupForm(fresh, null));
    expect(setupForm(MEASURED, 1480)).toEqual(setupForm(MEASURED, null));
  });
});
