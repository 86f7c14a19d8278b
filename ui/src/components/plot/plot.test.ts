import { cleanup, fireEvent, render, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { settings } from '$lib/settings/settings.svelte';
import { FEED, MEASURED } from '../../gallery/plots';
import { layOutPlot } from './layout';
import { placeLabels } from './place';
import Plot from './Plot.svelte';
import { type PlotData, nearestStop, rangeOf, stops, valueAt } from './plot';

const user = userEvent.setup();
const layOut = (data: PlotData, em = 16, width = 336) =>
  layOutPlot({
    data,
    width,
    em,
    measure: (text, size) => text.length * size * 0.56,
    write: (value, decimals) => value.toFixed(decimals),
  });

beforeEach(() => {
  settings.locale = 'en-US';
});
afterEach(cleanup);

describe('reading a line', () => {
  const points = [
    { x: 0, y: 0 },
    { x: 10, y: 20 },
    { x: 20, y: null },
    { x: 30, y: 5 },
  ];
  it('between its points', () => {
    expect(valueAt(points, 5)).toBe(10);
    expect(valueAt(points, 10)).toBe(20);
  });
  it('gives nothing in a break or outside', () => {
    expect(valueAt(points, 15)).toBeNull();
    expect(valueAt(points, 25)).toBeNull();
    expect(valueAt(points, -1)).toBeNull();
    expect(valueAt(points, 31)).toBeNull();
  });
  it('stops at every point of every line', () => {
    expect(stops(MEASURED)).toEqual([300, 790, 800, 1000, 1400, 1800, 2200]);
    expect(nearestStop(stops(MEASURED), 1150)).toBe(1000);
    expect(nearestStop([], 3)).toBeUndefined();
  });
});

describe('the frame', () => {
  it('takes in error bars, bands and limits', () => {
    const data: PlotData = {
      x: { label: 'x', name: 'x', unit: '', decimals: 0 },
      y: { label: 'y', name: 'y', unit: '', decimals: 0 },
      series: [{ label: 'a', tone: 'ink', stroke: 'solid', points: [{ x: 0, y: 1 }, { x: 1, y: 2 }], band: [{ x: 0, low: -1, high: 3 }] }],
      limits: [{ y: 6, label: 'limit' }],
      marks: [{ x: 2, y: 5, u_x: 0.5, u_y: 4, label: 'm' }],
    };
    expect(rangeOf(data, 'y')).toEqual([-1, 9]);
    expect(rangeOf(data, 'x')).toEqual([0, 2.5]);
  });
  it('survives having nothing, or one value, to show', () => {
    const empty = { ...FEED, series: [], limits: [], y: { ...FEED.y, from: 3, to: 3 } };
    const layout = layOut(empty);
    expect(layout.yTicks.every((tick) => Number.isFinite(tick.at))).toBe(true);
  });
  it('has ticks at round numbers, spaced so that they can be read', () => {
    const { xTicks, yTicks } = layOut(FEED);
    expect(xTicks.map((tick) => tick.text)).toEqual(['100', '150', '200', '250', '300']);
    expect(yTicks.length).toBeGreaterThanOrEqual(2);
  });
  it('breaks the line where there is no value', () => {
    expect(layOut(MEASURED).series[0]?.path.match(/M/g)).toHaveLength(1);
    expect(layOut(MEASURED).series[0]?.path.startsWith('M')).toBe(true);
  });
});

describe('names at the lines', () => {
  it('keep off each other', () => {
    for (const data of [FEED, MEASURED]) {
      const layout = layOut(data);
      const boxes = layout.labels.map((label) => ({
        ...label,
        half: (label.text.length * layout.size * 0.56) / 2,
      }));
      for (const a of boxes) {
        for (const b of boxes) {
          if (a === b || Math.abs(a.y - b.y) >= layout.size) continue;
          expect(Math.abs(a.x - b.x), `${a.text} and ${b.text}`).toBeGreaterThan(a.half + b.half);
        }
      }
    }
  });
  it('take the first spot that is clear of labels and lines', () => {
    const frame = { left: 0, right: 100, top: 0, bottom: 100 };
    const label = { width: 20, height: 10, spots: [{ x: 50, y: 50 }, { x: 50, y: 20 }] };
    const line = [{ x: 45, y: 50, line: 'a' }];
    expect(placeLabels([label], frame, line)).toEqual([{ x: 50, y: 20 }]);
    const own = { ...label, line: 'a', spots: [{ x: 50, y: 50, named: 50 }, { x: 50, y: 20 }] };
    expect(placeLabels([own], frame, line)).toEqual([{ x: 50, y: 50 }]);
  });
  it('never stand beyond another line, whose name they would seem to be', () => {
    const frame = { left: 0, right: 100, top: 0, bottom: 100 };
    const spots = [
      { x: 50, y: 80, named: 40 },
      { x: 50, y: 20, named: 40 },
    ];
    const other = [{ x: 50, y: 60, line: 'b' }];
    const label = { width: 20, height: 10, spots, line: 'a' };
    expect(placeLabels([label], frame, other)).toEqual([{ x: 50, y: 20 }]);
  });
  it('go below the plot, numbered, when the text is too large for it', () => {
    expect(layOut(FEED).key).toEqual([]);
    const large = layOut(FEED, 32);
    expect(large.key.map((item) => item.label)).toEqual([
      'as measured',
      'as new',
      'highest specified',
      'lowest specified',
    ]);
    expect(large.labels.map((label) => label.text).sort()).toEqual(['1', '2', '3', '4']);
  });
});

describe('reading values off', () => {
  const show = () =>
    render(Plot, { data: MEASURED, title: 'Before and after', description: 'Feed against line.' });

  it('works with the arrow keys, and says what it reads', async () => {
    show();
    const reader = screen.getByRole('slider', { name: 'Read values off along line' });
    reader.focus();
    await user.keyboard('{End}');
    expect(reader.getAttribute('aria-valuetext')).toContain('line 2,200 kPa: before 1,330');
    await user.keyboard('{ArrowLeft}');
    expect(reader.getAttribute('aria-valuenow')).toBe('1800');
    await user.keyboard('{Home}');
    expect(reader.getAttribute('aria-valuetext')).toContain('before not regulating');
    await user.keyboard('{Escape}');
    expect(reader.getAttribute('aria-valuetext')).toContain('Touch the plot');
  });
  it('works with a finger', async () => {
    show();
    const reader = screen.getByRole('slider');
    reader.getBoundingClientRect = () => new DOMRect(0, 0, 336, 240);
    await fireEvent.pointerDown(reader, { clientX: 330, pointerType: 'touch' });
    expect(reader.getAttribute('aria-valuenow')).toBe('2200');
  });
  it('has the same values in a table, bands and gaps in words', () => {
    show();
    const table = within(screen.getByRole('table', { hidden: true }));
    const row = table.getByRole('row', { name: /^1,000/, hidden: true });
    expect(row.textContent).toContain('870');
    expect(row.textContent).toContain('814 (798 to 837)');
    expect(table.getByRole('row', { name: /^500/, hidden: true }).textContent).toContain('not regulating');
    expect(screen.getByText('Limit, highest specified: 850 kPa')).toBeTruthy();
  });
});
