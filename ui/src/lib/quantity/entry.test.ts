import { describe, expect, it } from 'vitest';
import { changeUnit, dropLast, emptyEntry, flipSign, pressKey, readEntry, storedEntry, typeInto } from './entry';

const EN = 'en-US';

describe('a stored value in a field', () => {
  const stored = 81_234.567_890_123;
  it('keeps every bit of itself through any number of unit changes', () => {
    let entry = storedEntry(stored, 'inHg', EN);
    for (const unit of ['vacuum_kPa', 'inHg', 'vacuum_kPa', 'inHg'] as const) {
      entry = changeUnit(entry, unit, EN);
      const parsed = readEntry(entry, 'vacuum', EN);
      expect(parsed.ok && Object.is(parsed.si, stored)).toBe(true);
    }
  });
  it('shows no noise of a conversion', () => {
    expect(storedEntry(28.1 * 3386.389, 'inHg', EN).text).toBe('28.1');
    expect(storedEntry(17.125 * 3386.388640341, 'inHg', EN).text).toBe('17.125');
  });
  it('has no more digits than somebody could read', () => {
    expect(storedEntry(9e-3, 'in', EN).text).toBe('0.354331');
    expect(storedEntry(0.35425 * 0.0254, 'in', EN).text).toBe('0.35425');
    expect(storedEntry(2e-6, 'thou', EN).text).toBe('0.079');
  });
  it('stops being the stored one as soon as a digit is typed', () => {
    const entry = typeInto(storedEntry(stored, 'inHg', EN), '23.5');
    expect(entry.storedSi).toBeNull();
  });
});

describe('typed text in a field', () => {
  it('keeps its digits when the unit is corrected', () => {
    const entry = changeUnit(typeInto(emptyEntry('inHg'), '80'), 'vacuum_kPa', EN);
    expect(entry.text).toBe('80');
    expect(readEntry(entry, 'vacuum', EN)).toMatchObject({ ok: true, si: 80_000 });
  });
  it('may be nonsense, and is kept', () => {
    const entry = typeInto(emptyEntry('inHg'), '2..');
    expect(entry.text).toBe('2..');
    expect(readEntry(entry, 'vacuum', EN).ok).toBe(false);
  });
  it('may not be negative where nothing is', () => {
    expect(readEntry(typeInto(emptyEntry('inHg'), '-3'), 'vacuum', EN)).toEqual({
      ok: false,
      finding: { code: 'negative' },
    });
  });
});

describe('the pad’s keys', () => {
  const type = (...keys: string[]) => keys.reduce((text, key) => pressKey(text, key, ','), '');
  it('write a number as the locale does', () => {
    expect(type('2', '3', ',', '5')).toBe('23,5');
    expect(type(',', '3')).toBe('0,3');
  });
  it('take no second decimal mark', () => {
    expect(type('2', ',', '5', ',', '1')).toBe('2,51');
  });
  it('erase and turn the sign', () => {
    expect(dropLast('23')).toBe('2');
    expect(flipSign('40')).toBe('\u221240');
    expect(flipSign(flipSign('40'))).toBe('40');
  });
});
