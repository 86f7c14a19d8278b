// Figures as they stand on the screen against what the core says, by constants of the tests' own.
// Nothing here comes from the interface: a wrong factor there must not hide here.
import { expect } from 'vitest';

/**
 * SI for one of each. NIST SP 811 (2008), appendix B.8: conventional inch of mercury 3.386389 kPa,
 * pound-force per square inch 6.894757 kPa, inch 0.0254 m (exact), cubic inch a minute from it.
 */
export const UNIT = {
  inHg: 3386.389,
  psi: 6894.757,
  kPa: 1000,
  bar: 1e5,
  in: 0.0254,
  mm: 1e-3,
  thou: 25.4e-6,
  'µm': 1e-6,
  'thou³': 25.4e-6 ** 3,
  'µm³': 1e-18,
  'in³/min': 0.0254 ** 3 / 60,
  'mL/min': 1e-6 / 60,
  'mbar·L/s': 0.1,
  'mPa·s': 1e-3,
  '%': 0.01,
} as const;

export type UnitName = keyof typeof UNIT;

/** A number as written, and the size of its last digit. */
export function readFigure(written: string, decimalMark = '.'): { value: number; step: number } {
  const bare = written.replace(/[\s\u00a0\u202f]/g, '').replace(/\u2212/g, '-');
  const other = decimalMark === '.' ? ',' : '.';
  const [whole = '', fraction] = bare.split(other).join('').split(decimalMark);
  expect(bare, `${written} is no number`).toMatch(/^[+-]?\d[\d.,]*$/);
  return {
    value: Number(fraction === undefined ? whole : `${whole}.${fraction}`),
    step: 10 ** -(fraction?.length ?? 0),
  };
}

/** A figure is what the core says, rounded to its last digit. */
export function expectFigure(
  what: string,
  written: string,
  unit: UnitName,
  si: number,
  decimalMark = '.',
): void {
  const { value, step } = readFigure(written, decimalMark);
  // What is cut to tens or hundreds says so by its zeros.
  const digits = unit === 'µm³' ? 100 : step;
  expect(Math.abs(value - si / UNIT[unit]), `${what}: ${written} ${unit}, the core says ${si}`).toBeLessThanOrEqual(
    digits * 0.5001 + Math.abs(value) * 1e-6,
  );
}

/** An interval on the screen holds the core's, and is no wider than a last digit at each end. */
export function expectInterval(
  what: string,
  [low, high]: readonly [string, string],
  unit: UnitName,
  [siLow, siHigh]: readonly [number, number],
  decimalMark = '.',
): void {
  const from = readFigure(low, decimalMark);
  const to = readFigure(high, decimalMark);
  const noise = (value: number) => Math.abs(value) * 1e-5 + 1e-9;
  const said = `${what}: ${low} to ${high} ${unit}, the core says ${siLow} to ${siHigh}`;
  const short = siLow / UNIT[unit] - from.value;
  const long = to.value - siHigh / UNIT[unit];
  expect(short, said).toBeGreaterThanOrEqual(-noise(from.value));
  expect(short, said).toBeLessThanOrEqual(from.step + noise(from.value));
  expect(long, said).toBeGreaterThanOrEqual(-noise(to.value));
  expect(long, said).toBeLessThanOrEqual(to.step + noise(to.value));
}

/** The parts of a text that a pattern finds; fails with the text if it isn't there. */
export function found(text: string, pattern: RegExp): string[] {
  const match = pattern.exec(text);
  expect(match, `${pattern} is not in:\n${text}`).not.toBeNull();
  return (match ?? []).slice(1).map((part) => part ?? '');
}

/**
 * The limit, 20 inHg at sea level, carried by hand. Through a gap the flow goes with p_a² - p_g²,
 * the pump takes p_g - p_d, so (p_a² - p_g²) / (p_g - p_d) is the leak's own, whatever the air; the
 * pressure left with the hose closed goes with the barometer. Sea level: 101325 Pa (ISO 2533).
 */
export function limitByHand(barometerInHg: number, deadHeadInHg: number): number {
  const air = barometerInHg * UNIT.inHg;
  const left = air - deadHeadInHg * UNIT.inHg;
  const sea = 101_325;
  const atLimit = sea - 20 * UNIT.inHg;
  const invariant = (sea ** 2 - atLimit ** 2) / (atLimit - (left * sea) / air);
  const gauge = (-invariant + Math.sqrt(invariant ** 2 + 4 * (air ** 2 + invariant * left))) / 2;
  return air - gauge;
}
