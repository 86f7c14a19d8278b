import { describe, expect, it } from 'vitest';
import { placeInRows } from './rows';

const at = (anchor: number, width: number) => ({ anchors: [anchor], width });

describe('labels over a drawing', () => {
  it('stand over what they name when there is room', () => {
    expect(placeInRows([at(50, 40), at(150, 40)], 0, 300)).toEqual([
      { centre: 50, row: 0, anchor: 50 },
      { centre: 150, row: 0, anchor: 150 },
    ]);
  });
  it('keep inside the drawing', () => {
    const [first] = placeInRows([at(4, 60)], 0, 300);
    expect(first?.centre).toBe(30);
  });
  it('stand as far apart as large letters ask for', () => {
    const apart = (gap: number) => {
      const [one, other] = placeInRows([at(50, 40), at(98, 40)], 0, 300, gap);
      if (!one || !other) throw new Error('a label is missing');
      return one.row === other.row ? other.centre - one.centre - 40 : Infinity;
    };
    expect(apart(6)).toBe(8);
    expect(apart(14)).toBeGreaterThanOrEqual(14);
  });
  it('never cover each other, nor a leader that comes from above', () => {
    // A reproducible shuffle of crowded anchors: a linear congruential generator.
    let seed = 7;
    const next = () => (seed = (seed * 1103515245 + 12345) % 2 ** 31) / 2 ** 31;
    for (let round = 0; round < 60; round += 1) {
      const labels = Array.from({ length: 7 }, (_, index) => at(20 + index * 45 + next() * 25, 30 + next() * 45));
      const placed = placeInRows(labels, 0, 336);
      const boxes = placed.map((place, index) => ({
        ...place,
        start: place.centre - (labels[index]?.width ?? 0) / 2,
        end: place.centre + (labels[index]?.width ?? 0) / 2,
      }));
      expect(boxes).toHaveLength(7);
      for (const a of boxes) {
        for (const b of boxes) {
          if (a === b) continue;
          if (a.row === b.row) expect(a.end <= b.start || b.end <= a.start).toBe(true);
          if (a.row > b.row) expect(a.anchor < b.start || a.anchor > b.end).toBe(true);
        }
      }
    }
  });
});
