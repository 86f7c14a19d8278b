import { describe, expect, it } from 'vitest';
import points from '../../../../tests/reference/units.json';
import { type Unit, UNITS, fromSi, toSi, unitRow } from './units';

/** The reference's names for units, and ours. */
const OURS: Readonly<Record<string, Unit>> = {
  psi: 'psi',
  inHg: 'inHg',
  kPa: 'kPa',
  bar: 'bar',
  mbar: 'hPa',
  lbf: 'lbf',
  'lbf/in': 'lbf_per_in',
  in: 'in',
  thou: 'thou',
  'gallon/min': 'gal_per_min',
  'L/min': 'L_per_min',
  cSt: 'mm2_per_s',
};
const SI: readonly string[] = ['Pa', 'N', 'N/m', 'm', 'm^3/s', 'm^2/s'];

describe('conversions agree with NIST SP 811 through an independent package', () => {
  it.each(points.map((point) => [point.id, point] as const))('%s', (_, point) => {
    const from = OURS[point.inputs.x.unit];
    expect(from, point.inputs.x.unit).toBeDefined();
    const si = toSi(point.inputs.x.value, from as Unit);
    const to = OURS[point.output.unit];
    const answer = to === undefined ? si : fromSi(si, to);
    if (to === undefined) expect(SI).toContain(point.output.unit);
    expect(Math.abs(answer / point.output.value - 1)).toBeLessThanOrEqual(point.rel_tol);
  });
});

describe('temperature has an offset, a temperature step has none', () => {
  // Fixed points of the two scales: NIST SP 811, B.8.
  it.each([
    [32, 0],
    [212, 100],
    [-40, -40],
  ])('%d °F is %d °C', (fahrenheit, celsius) => {
    expect(fromSi(toSi(fahrenheit, 'fahrenheit'), 'celsius')).toBeCloseTo(celsius, 10);
  });
  it('a step of 9 °F is a step of 5 °C', () => {
    expect(fromSi(toSi(9, 'fahrenheit_step'), 'celsius_step')).toBeCloseTo(5, 12);
  });
});

it('every unit comes back from SI to twelve digits', () => {
  for (const unit of Object.keys(UNITS) as Unit[]) {
    // Beside an offset of hundreds of degrees, a tenth of a millidegree has fewer digits.
    const small = unitRow(unit).offset === undefined ? [0.0003, 0.3138] : [];
    for (const value of [...small, 23.5, 120, 1480]) {
      expect(Number(fromSi(toSi(value, unit), unit).toPrecision(12)), unit).toBe(value);
    }
  }
});
