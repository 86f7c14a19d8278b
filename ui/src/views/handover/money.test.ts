import { describe, expect, it } from 'vitest';
import { settings } from '$lib/settings/settings.svelte';
import { money, moneyEntry, partsShown, wholeOf } from './money';

const typed = (text: string) => ({ text, unit: 'money' as const, storedSi: null });

describe('an amount', () => {
  it('is read digit by digit, never as a float', () => {
    // 1.15 * 100 is 114.99999999999999 as a float.
    expect(wholeOf(typed('1.15'), 2)).toEqual({ ok: true, value: 115 });
    expect(wholeOf(typed('92.5'), 2)).toEqual({ ok: true, value: 9250 });
    expect(wholeOf(typed('92.50'), 1)).toEqual({ ok: true, value: 925 });
    expect(wholeOf(typed('-3'), 2)).toEqual({ ok: true, value: -300 });
    expect(wholeOf(typed('1.75'), 3)).toEqual({ ok: true, value: 1750 });
  });
  it('says what it can’t be', () => {
    expect(wholeOf(typed(''), 2)).toEqual({ ok: false, why: 'empty' });
    expect(wholeOf(typed('many'), 2)).toEqual({ ok: false, why: 'unreadable' });
    expect(wholeOf(typed('0.505'), 2)).toEqual({ ok: false, why: 'too_many_decimals' });
    expect(wholeOf(typed('-3'), 2, false)).toEqual({ ok: false, why: 'unreadable' });
  });
  it('is shown with the decimals of its currency, and comes back as it was', () => {
    expect(money(16_188, 2, 'EUR')).toBe('161.88\u00a0EUR');
    expect(money(-5, 2, 'EUR')).toMatch(/^.0\.05\u00a0EUR$/);
    expect(partsShown(1_750, 3)).toBe('1.75');
    expect(partsShown(2_000, 3)).toBe('2');
    for (const minor of [0, 5, 115, 9_250, -1_234_567, 9_999_999_999]) {
      expect(wholeOf(moneyEntry(minor, 2), 2)).toEqual({ ok: true, value: minor });
    }
  });
  it('is read with the locale’s own mark', () => {
    const before = settings.locale;
    settings.locale = 'de-DE';
    expect(wholeOf(typed('92,5'), 2)).toEqual({ ok: true, value: 9250 });
    settings.locale = before;
  });
});
