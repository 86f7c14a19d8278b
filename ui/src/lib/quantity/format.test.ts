import { describe, expect, it } from 'vitest';
import {
  format,
  formatNumber,
  formatWithUncertainty,
  uncertaintyDecimals,
  writeInterval,
  writeWithUncertainty,
} from './format';
import { INCH_UNITS, METRIC_UNITS, toSi } from './units';

const plain = (text: string) => text.replaceAll('\u00a0', ' ').replaceAll('\u202f', ' ');

describe('a value in the shop’s unit', () => {
  it('has the decimals that are usual in that unit', () => {
    expect(plain(format(toSi(23.46, 'inHg'), 'vacuum', INCH_UNITS, 'en-US'))).toBe('23.5 inHg');
    expect(plain(format(toSi(0.3138, 'in'), 'length', INCH_UNITS, 'en-US'))).toBe('0.3138 in');
    expect(plain(format(toSi(0.3138, 'in'), 'length', METRIC_UNITS, 'en-US'))).toBe('7.9705 mm');
    expect(plain(format(toSi(0.3, 'thou'), 'clearance', METRIC_UNITS, 'en-US'))).toBe('8 µm');
  });
  it('has the locale’s marks', () => {
    expect(plain(format(1480, 'altitude', METRIC_UNITS, 'de-DE'))).toBe('1.480 m');
    expect(plain(format(toSi(23.5, 'inHg'), 'vacuum', INCH_UNITS, 'de-DE'))).toBe('23,5 inHg');
  });
  it('shows the sign of a shift, with a true minus', () => {
    const shift = (psi: number) =>
      plain(format(toSi(psi, 'psi'), 'pressure_shift', INCH_UNITS, 'en-US', { signed: true }));
    expect(shift(9.5)).toBe('+9.5 psi');
    expect(shift(-9.5)).toBe('\u22129.5 psi');
    expect(shift(0)).toBe('0.0 psi');
  });
  it('never writes minus nought', () => {
    expect(formatNumber(-0.04, 'en-US', 1)).toBe('0.0');
  });
  it('is the reading that the conversion gives, exactly', () => {
    const stored = toSi(120, 'psi');
    for (const [unit, text] of [
      ['kPa', '827 kPa'],
      ['bar', '8.27 bar'],
      ['psi', '120.0 psi'],
    ] as const) {
      expect(plain(format(stored, 'pressure', INCH_UNITS, 'en-US', { unit }))).toBe(text);
    }
  });
});

describe('digits of an uncertainty', () => {
  // The three ranges of the rule: Particle Data Group, Review of Particle Physics, "Rounding".
  it.each([
    [0.119, 2],
    [0.367, 1],
    [0.964, 1],
    [0.4, 1],
    [27, 0],
    [4.4, 0],
    [354, -1],
    [355, -2],
  ])('of %d are rounded at decimal %d', (u, decimals) => {
    expect(uncertaintyDecimals(u)).toBe(decimals);
  });
  it('are those of the value beside it', () => {
    const written = (value: number, u: number) =>
      writeWithUncertainty(toSi(value, 'inHg'), toSi(u, 'inHg'), 'vacuum', INCH_UNITS, 'en-US').number;
    expect(written(15.93, 0.42)).toBe('15.9 ± 0.4');
    expect(written(15.93, 0.119)).toBe('15.93 ± 0.12');
    expect(written(0.827, 0.964)).toBe('0.8 ± 1.0');
    expect(written(23.5, 0)).toBe('23.5 ± 0.0');
  });
  it('of a temperature are those of a step, not of a point', () => {
    expect(
      plain(formatWithUncertainty(toSi(90, 'celsius'), 3, 'temperature', INCH_UNITS, 'en-US')),
    ).toBe('194 ± 5 °F');
  });
});

describe('an interval', () => {
  const interval = (low: number, high: number, unit: 'psi' | 'thou') =>
    writeInterval(
      toSi(low, unit),
      toSi(high, unit),
      unit === 'psi' ? 'pressure_shift' : 'clearance',
      INCH_UNITS,
      'en-US',
    );
  it('has as many digits as its width deserves', () => {
    expect(interval(4.2, 26.6, 'psi')).toEqual({ low: '4', high: '27', unit: 'psi' });
    expect(interval(1.16, 43.02, 'psi')).toEqual({ low: '1', high: '44', unit: 'psi' });
    expect(interval(2.1, 2.8, 'thou')).toEqual({ low: '2.1', high: '2.8', unit: 'thou' });
  });
  it('never looks narrower than it is', () => {
    expect(interval(4.9, 26.1, 'psi')).toEqual({ low: '4', high: '27', unit: 'psi' });
    expect(interval(-3.2, 21.4, 'psi')).toMatchObject({ low: '\u22124', high: '22' });
  });
});
