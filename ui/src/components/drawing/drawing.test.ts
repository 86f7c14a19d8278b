import { cleanup, render, screen } from '@testing-library/svelte';
import { afterEach, describe, expect, it } from 'vitest';
import { CROWDED, LEAKS, OPENINGS, SECTION } from '../../gallery/section';
import { coil } from './coil';
import { radiusAt, solidPieces, turnedOutline } from './contour';
import { layOut, type LayoutInput } from './layout';
import { scaleBar } from './scale-bar';
import ValveSection from './ValveSection.svelte';

afterEach(cleanup);

const input = (more: Partial<LayoutInput> = {}): LayoutInput => ({
  section: SECTION,
  displacement_m: 0,
  leaks: LEAKS,
  openings: OPENINGS,
  width: 336,
  em: 16,
  measure: (text, size) => text.length * size * 0.56,
  inches: true,
  ...more,
});

const numbers = (path: string) => path.match(/-?\d+(\.\d+)?/g)?.map(Number) ?? [];

describe('the section is true to scale', () => {
  it('along and across alike', () => {
    const layout = layOut(input());
    // 62 mm of bore between the two end walls of 9 px and the margins of 2 px.
    expect(layout.scale).toBeCloseTo((336 - 22) / 0.062, 6);
    const land = layout.lands[0];
    const drawn = (land?.bottom ?? 0) - (land?.top ?? 0);
    // Less the clearance, which is drawn larger than scale: 3 px either side.
    expect(drawn).toBeCloseTo(0.00802 * layout.scale - 6, 6);
  });
  it('at any width', () => {
    for (const width of [280, 336, 800]) {
      const { metal } = layOut(input({ width }));
      const all = metal.flatMap((piece) => numbers(piece.area));
      expect(Math.max(...all)).toBeLessThanOrEqual(width);
      expect(Math.min(...all)).toBeGreaterThanOrEqual(0);
    }
  });
  it('moves the spool, and the spring with it, by the displacement', () => {
    const rest = layOut(input());
    const moved = layOut(input({ displacement_m: -0.001 }));
    expect((rest.lands[0]?.x ?? 0) - (moved.lands[0]?.x ?? 0)).toBeCloseTo(0.001 * rest.scale, 6);
    const last = (layout: typeof rest) => numbers(layout.springs[0]?.behind.at(-1) ?? '').at(-2) ?? 0;
    expect(last(rest) - last(moved)).toBeCloseTo(0.001 * rest.scale, 6);
  });
  it('draws the balance orifice to the same scale', () => {
    const layout = layOut(input());
    const plate = numbers(layout.orifices[0]?.plate ?? '');
    // Each half is as long as what the hole leaves of a channel 9 px wide, and 3 px of wall.
    expect(plate[3]).toBeCloseTo((9 - 0.00102 * layout.scale) / 2 + 3, 6);
  });
});

describe('names keep apart on a phone', () => {
  it.each([16, 32])('with text of %d px', (em) => {
    for (const section of [SECTION, CROWDED]) {
      const layout = layOut(input({ section, em }));
      const boxes = layout.texts.map((text) => {
        const half = (text.text.length * layout.labelSize * 0.56) / 2;
        return { left: text.x - half, right: text.x + half, y: text.y, text: text.text };
      });
      for (const a of boxes) {
        for (const b of boxes) {
          if (a === b || Math.abs(a.y - b.y) >= layout.labelSize) continue;
          expect(a.right <= b.left || b.right <= a.left, `${a.text} and ${b.text}`).toBe(true);
        }
      }
    }
  });
});

describe('shapes', () => {
  it('of a stepped bore: the radius at a place', () => {
    expect(radiusAt(CROWDED.bore, 0.02)).toBeCloseTo(0.00601, 9);
    expect(radiusAt(CROWDED.bore, 0.05)).toBeCloseTo(0.00451, 9);
    expect(radiusAt(CROWDED.bore, 1)).toBeCloseTo(0.00451, 9);
  });
  it('of a wall with ports: what is left', () => {
    const holes = [
      { start_m: 2, end_m: 3 },
      { start_m: -1, end_m: 0.5 },
      { start_m: 2.5, end_m: 4 },
    ];
    expect(solidPieces(0, 10, holes)).toEqual([
      { start: 0.5, end: 2 },
      { start: 4, end: 10 },
    ]);
  });
  it('of a turned part: symmetrical about its axis', () => {
    const outline = turnedOutline([{ start: 0, end: 10, radius: 4 }], 20);
    expect(outline).toBe('M0 20L0 16L10 16L10 24L0 24Z');
  });
  it('of a spring: as many turns as it has', () => {
    const turns = coil({ start: 0, end: 100, centre: 0, outerRadius: 20, wire: 4, coils: 6 });
    expect(turns.front).toHaveLength(6);
    expect(turns.behind).toHaveLength(6);
  });
  it('of the scale bar: a round length that fits', () => {
    for (const inches of [true, false]) {
      const bar = scaleBar(5000, 336, 0, inches);
      expect(bar.length_m * 5000).toBeLessThanOrEqual(84);
      expect([0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50]).toContain(bar.value);
    }
  });
});

describe('the figure', () => {
  it('is named and described, and says that clearances are larger than scale', () => {
    render(ValveSection, {
      section: SECTION,
      leaks: LEAKS,
      title: 'The valve, regulating',
      description: 'Air leaks past the right land.',
    });
    const picture = screen.getByRole('img', { name: /The valve, regulating/ });
    expect(picture.querySelector('desc')?.textContent).toBe('Air leaks past the right land.');
    expect(screen.getByText(/clearances drawn larger than scale/)).toBeTruthy();
    expect(screen.getByText(/Reaction chamber to vent/)).toBeTruthy();
  });
});
