import { describe, expect, it } from 'vitest';
import { type Parsed, numberMarks, parseTyped, typeSi } from './parse';
import { fromSi, toSi } from './units';

const read = (text: string, locale = 'en-US', signed = true): Parsed =>
  parseTyped(text, 'inHg', locale, signed);
const value = (text: string, locale?: string) => {
  const parsed = read(text, locale);
  return parsed.ok ? parsed.value : parsed.finding.code;
};

describe('a typed number', () => {
  it.each([
    ['23.5', 23.5],
    [' 23.50 ', 23.5],
    ['.3138', 0.3138],
    ['0.3138', 0.3138],
    ['120', 120],
    ['5.', 5],
    ['007', 7],
    ['-40', -40],
    ['\u221240', -40],
    ['+3', 3],
    ['1,234.5', 1234.5],
    ['1,234,567', 1234567],
    ['0', 0],
    ['-0', 0],
  ])('in English, %j is %d', (text, expected) => {
    expect(value(text)).toBe(expected);
  });
  it.each([
    ['23,5', 23.5],
    ['0,3138', 0.3138],
    ['1.234,5', 1234.5],
    ['1,234', 1.234],
  ])('in German, %j is %d', (text, expected) => {
    expect(value(text, 'de-DE')).toBe(expected);
  });
  it('takes the space that groups in French', () => {
    expect(value('1 234,5', 'fr-FR')).toBe(1234.5);
    expect(value('1\u202f234', 'fr-FR')).toBe(1234);
  });
  it.each([
    ['es-ES', '23,5'],
    ['es-US', '23.5'],
    ['es-MX', '23.5'],
  ])('follows the region, not only the language: %s', (locale, text) => {
    expect(value(text, locale)).toBe(23.5);
  });
});

describe('what could be meant in two ways is asked, not guessed', () => {
  it('"1,234" in English is a thousand or a decimal comma', () => {
    expect(read('1,234')).toEqual({
      ok: false,
      finding: { code: 'ambiguous_mark', grouped: '1234', decimal: '1.234' },
    });
  });
  it('"1.234" in German likewise', () => {
    expect(read('1.234', 'de-DE')).toEqual({
      ok: false,
      finding: { code: 'ambiguous_mark', grouped: '1234', decimal: '1,234' },
    });
  });
  it('a mark that can’t group is named as the wrong decimal mark', () => {
    expect(read('23,5')).toEqual({
      ok: false,
      finding: { code: 'wrong_decimal_mark', expected: '.' },
    });
    expect(read('0.3138', 'de-DE')).toEqual({
      ok: false,
      finding: { code: 'wrong_decimal_mark', expected: ',' },
    });
    expect(value('0,123')).toBe('wrong_decimal_mark');
  });
});

describe('what is no number is a finding, never a throw', () => {
  it.each(['', '   '])('%j is empty', (text) => {
    expect(value(text)).toBe('empty');
  });
  it.each(['abc', '-', '.', '1e3', '12 in', '1.2.3', '1,2,3', '--5', '5-', 'NaN', 'Infinity', '0x10'])(
    '%j is not a number',
    (text) => {
      expect(value(text)).toBe('not_a_number');
    },
  );
  it('a minus where none can be meant', () => {
    expect(read('-3', 'en-US', false)).toEqual({ ok: false, finding: { code: 'negative' } });
  });
  it('more digits than a number can hold', () => {
    expect(value('1234567890123456')).toBe('too_many_digits');
    expect(value('0.000000000000000000012')).toBe(1.2e-20);
  });
});

describe('what was typed is kept', () => {
  it('as text, as digits with a point, and with its unit', () => {
    const parsed = read('23,50', 'de-DE');
    expect(parsed).toMatchObject({
      ok: true,
      asTyped: { text: '23,50', decimal: '23.50', unit: 'inHg' },
    });
  });
  it('every pair of locale and number comes back as it was typed', () => {
    for (const locale of ['en-US', 'de-DE', 'es-ES', 'fr-CH']) {
      for (const number of [0.0003, 0.3138, 23.5, 120, 1480.25, -3.2]) {
        const text = typeSi(number, locale);
        expect(value(text, locale), `${text} in ${locale}`).toBe(number);
      }
    }
  });
  it('a stored value is shown without the noise of its conversion', () => {
    expect(typeSi(fromSi(toSi(0.3138, 'in'), 'in'), 'en-US')).toBe('0.3138');
  });
});

it('knows the marks of a locale', () => {
  expect(numberMarks('en-US')).toEqual({ decimal: '.', group: ',' });
  expect(numberMarks('de-DE')).toEqual({ decimal: ',', group: '.' });
});
