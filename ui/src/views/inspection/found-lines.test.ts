import { describe, expect, test } from 'vitest';
import type { Found, InstrumentEntry } from '$lib/generated/commands';
import { foundLines } from './found-lines';

const MICROMETER: InstrumentEntry = {
  id: 'm-1',
  overdue: false,
  instrument: { name: 'Micrometer 4', kind: 'micrometer' } as InstrumentEntry['instrument'],
};

const told = (found: Found, instruments: readonly InstrumentEntry[] = []) =>
  foundLines(found, instruments).map(({ label, value }) => `${label}: ${value}`);

describe('what a check on record found', () => {
  test('each answer that was given, in the order of its form, with its unit', () => {
    const lines = told({ check: 'free_movement', dry: 'drags', bolted: 'free', friction_n: 1 });
    expect(lines).toHaveLength(3);
    expect(lines[0]).toBe('Washed and dry: Drags');
    expect(lines[2]).toBe('Force that moves it: 0.225\u00a0lbf');
  });

  test('several of one sort line by line, a direction by its answer, an instrument by its name', () => {
    const found = {
      check: 'diameters',
      bore: [
        { diameter_m: 8e-3, station_m: 5e-3, direction_rad: 0 },
        { diameter_m: 8e-3, station_m: 5e-3, direction_rad: Math.PI / 2 },
      ],
      valve: [{ land: 'reaction <b>land</b>', diameter_m: 7.97e-3, direction_rad: 0 }],
      micrometer: 'm-1',
      bore_gauge: 'elsewhere',
    } as const satisfies object;
    const lines = told(found as unknown as Found, [MICROMETER]);
    const along = lines.find((line) => line.startsWith('Bore 1:'));
    const across = lines.find((line) => line.startsWith('Bore 2:'));
    expect(along).toBeDefined();
    expect(along).not.toBe(across?.replace('2:', '1:'));
    expect(lines.some((line) => line.includes('reaction <b>land</b>'))).toBe(true);
    expect(lines).toContain('Micrometer: Micrometer 4');
    expect(lines.some((line) => line.endsWith('an instrument that isn’t in the file'))).toBe(true);
  });

  test('no mark is an answer, too', () => {
    expect(told({ check: 'wear_marks', marks: [] })).toHaveLength(1);
  });
});
