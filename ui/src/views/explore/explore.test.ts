// Sliders and the moving section: arithmetic that a person sees.
import { describe, expect, it } from 'vitest';
import type { BoreDrawing, ExploreFigure } from '$lib/generated/commands';
import { moved } from './moved';
import { positionOf, STEPS, valueAt, valueOf, withFigure } from './slider';

const ORIFICE: ExploreFigure = { field: 'orifice_m', now: 6e-4, low: 2e-4, high: 1.8e-3 };
const FRICTION: ExploreFigure = { field: 'friction_n', now: 2, low: 0, high: 10 };

describe('a slider', () => {
  it('reaches from end to end, and has half and double equally far apart', () => {
    expect(valueAt(ORIFICE, 0)).toBeCloseTo(2e-4);
    expect(valueAt(ORIFICE, STEPS)).toBeCloseTo(1.8e-3);
    expect(valueAt(ORIFICE, STEPS / 2)).toBeCloseTo(6e-4);
    expect(positionOf(ORIFICE, 6e-4)).toBe(STEPS / 2);
  });

  it('is straight where the figure may be nothing', () => {
    expect(valueAt(FRICTION, 0)).toBe(0);
    expect(valueAt(FRICTION, STEPS / 2)).toBe(5);
    expect(positionOf(FRICTION, 2)).toBe(STEPS / 5);
  });

  it('sets nothing where it was found', () => {
    const set = withFigure({}, ORIFICE, STEPS);
    expect(valueOf(set, ORIFICE)).toBeCloseTo(1.8e-3);
    const back = withFigure(set, ORIFICE, positionOf(ORIFICE, ORIFICE.now));
    expect(back.orifice_m).toBeNull();
    expect(valueOf(back, ORIFICE)).toBe(6e-4);
  });

  it('keeps a value from elsewhere within its ends', () => {
    expect(positionOf(ORIFICE, 1)).toBe(STEPS);
    expect(positionOf(FRICTION, -1)).toBe(0);
  });
});

describe('the section at another stroke', () => {
  const drawing: BoreDrawing = {
    bore: 'b', name: 'Feed', diameter_m: 0.008, start_m: 0, end_m: 0.05, stem_diameter_m: 0.005,
    spring_on_left: true, stroke_m: 0.002, ports: [], seals: [], relief: false,
    balance_orifice_m: null,
    lands: [{ name: 'one', start_m: 0.01, end_m: 0.02, diameter_m: 0.008 }],
    openings: [
      { port: 'line', supply: true, open_m: 0.0001 },
      { port: 'exhaust', supply: false, open_m: -0.0002 },
    ],
  };

  it('has its valve further toward the spring, the supply closed and the exhaust opened', () => {
    const further = moved(drawing, 0.0025);
    expect(further.lands[0]?.start_m).toBeCloseTo(0.0095);
    expect(further.openings.map(({ open_m }) => open_m)).toEqual([
      expect.closeTo(-0.0004),
      expect.closeTo(0.0003),
    ]);
    expect(moved({ ...drawing, spring_on_left: false }, 0.0025).lands[0]?.start_m).toBeCloseTo(0.0105);
  });

  it('is the same where it stands', () => {
    expect(moved(drawing, 0.002).lands).toEqual(drawing.lands);
  });
});
