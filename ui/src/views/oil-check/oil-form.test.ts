import { describe, expect, it } from 'vitest';
import type { LineDirection } from '$lib/generated/commands';
import { toSi } from '$lib/quantity';
import { entryOf } from '$lib/quantity/entered';
import { figuresOf, nextDirection, oilForm } from './oil-form';

const at = (line: number, feed?: number) => ({
  line: entryOf(toSi(line, 'psi'), 'pressure'),
  feed: entryOf(feed === undefined ? null : toSi(feed, 'psi'), 'pressure'),
  direction: 'rising' as LineDirection,
});

describe('a hot-oil check as typed', () => {
  it('leaves an empty point out and says of a half one that it is half', () => {
    const form = oilForm({});
    expect(figuresOf(form)).toMatchObject({ half: false, unreadable: false, places: [-1] });
    form.points = [at(80, 60), at(150), at(250, 66)];
    const entered = figuresOf(form);
    expect(entered.half).toBe(true);
    expect(entered.places).toEqual([0, -1, 1]);
    expect(entered.figures.points).toHaveLength(2);
    expect(entered.figures.points?.[1]?.feed_pa).toBeCloseTo(toSi(66, 'psi'), 3);
  });

  it('takes line as coming down once the highest was reached, and up before', () => {
    const form = oilForm({});
    form.points = [at(80, 60)];
    expect(nextDirection(form, toSi(250, 'psi'))).toBe('rising');
    form.points.push(at(249, 66));
    expect(nextDirection(form, toSi(250, 'psi'))).toBe('falling');
    form.points.push({ ...at(150, 64), direction: 'falling' });
    expect(nextDirection(form, toSi(250, 'psi'))).toBe('falling');
  });
});
