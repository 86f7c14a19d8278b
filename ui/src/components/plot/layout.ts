import { scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import { type Box, type Candidate, type Dot, type Spot, placeLabels } from './place';
import { type PlotData, type PlotPoint, rangeOf, valueAt } from './plot';

export interface PlotInput {
  readonly data: PlotData;
  readonly width: number;
  readonly em: number;
  readonly measure: (text: string, size: number) => number;
  readonly write: (value: number, decimals: number) => string;
}

export interface Tick {
  readonly value: number;
  readonly at: number;
  readonly text: string;
}

export interface EndLabel extends Spot {
  readonly text: string;
  readonly kind: 'series' | 'limit' | 'gap' | 'mark';
  readonly index: number;
}

export interface PlotLayout {
  readonly width: number;
  readonly height: number;
  readonly frame: Box;
  readonly size: number;
  readonly xTicks: readonly Tick[];
  readonly yTicks: readonly Tick[];
  readonly series: readonly { readonly path: string; readonly band: string }[];
  readonly limits: readonly string[];
  readonly gaps: readonly { readonly x: number; readonly width: number }[];
  readonly marks: readonly {
    readonly x: number;
    readonly y: number;
    readonly bars: string;
    readonly full: boolean;
    readonly radius: number;
  }[];
  readonly labels: readonly EndLabel[];
  /** Names that had no room in the plot, by their number there. */
  readonly key: readonly { readonly number: number; readonly label: string; readonly kind: EndLabel['kind'] }[];
  readonly toX: (value: number) => number;
  readonly toY: (value: number) => number;
  readonly fromX: (px: number) => number;
}

/** A step's decimals: 2.5 has one, 50 none. */
function decimalsOf(step: number): number {
  return Math.max(0, Math.min(6, Math.ceil(-Math.log10(step) - 1e-9)));
}

function ticksOf(
  scale: { ticks: (count: number) => number[]; (value: number): number },
  count: number,
  write: PlotInput['write'],
): Tick[] {
  const values = scale.ticks(Math.max(2, count));
  const step = (values[1] ?? 1) - (values[0] ?? 0);
  const decimals = decimalsOf(Math.abs(step) || 1);
  const shown = Number((step * 10 ** decimals).toFixed(6)) % 1 === 0 ? decimals : decimals + 1;
  return values.map((value) => ({ value, at: scale(value), text: write(value, shown) }));
}

export function layOutPlot(input: PlotInput): PlotLayout {
  const { data, width, em, measure, write } = input;
  const size = 0.75 * em;
  const lineHeight = 1.3 * size;
  const height = Math.round(Math.min(Math.max(0.62 * width, 12 * em), 22 * em)) + 2 * lineHeight;
  const top = 1.6 * lineHeight;
  const bottom = height - 2.7 * lineHeight;

  // Round ends, unless the caller asked for these.
  const [yLow, yHigh] = rangeOf(data, 'y');
  const y = scaleLinear([yLow, yHigh], [bottom, top]);
  const rows = Math.max(2, Math.floor((bottom - top) / (3 * lineHeight)));
  if (data.y.from === undefined || data.y.to === undefined) y.nice(3 * rows);
  const yTicks = ticksOf(y, rows, write);
  const left = Math.ceil(Math.max(...yTicks.map((tick) => measure(tick.text, size)), size) + 8);
  const [xLow, xHigh] = rangeOf(data, 'x');
  const lastWidth = measure(write(xHigh, 0), size) / 2 + 2;
  const right = width - Math.max(6, lastWidth);
  const x = scaleLinear([xLow, xHigh], [left, right]);
  const columns = Math.max(2, Math.floor((right - left) / (5 * size)));
  const frame: Box = { left, right, top, bottom };

  const linePath = line<PlotPoint>()
    .defined((point) => point.y !== null)
    .x((point) => x(point.x))
    .y((point) => y(point.y ?? 0));
  const bandPath = area<{ x: number; low: number; high: number }>()
    .x((part) => x(part.x))
    .y0((part) => y(part.low))
    .y1((part) => y(part.high));

  // Large text on a small screen: numbers in the plot, their names below it.
  const compact = width < COMPACT * em;
  const named = namesOf(data);
  const limits = data.limits ?? [];
  const gaps = (data.gaps ?? []).map((gap) => ({
    x: x(Math.max(gap.from, xLow)),
    width: x(Math.min(gap.to, xHigh)) - x(Math.max(gap.from, xLow)),
  }));
  const marks = (data.marks ?? []).map((mark) => {
    const at = { x: x(mark.x), y: y(mark.y) };
    const across = mark.u_x === undefined ? '' : errorBar(x(mark.x - mark.u_x), x(mark.x + mark.u_x), at.y, true);
    const along = mark.u_y === undefined ? '' : errorBar(y(mark.y - mark.u_y), y(mark.y + mark.u_y), at.x, false);
    return { ...at, bars: across + along, full: mark.full ?? false, radius: mark.unnamed ? 3.2 : 4.5 };
  });

  return {
    width,
    height,
    frame,
    size,
    xTicks: ticksOf(x, columns, write),
    yTicks,
    series: data.series.map((series) => ({
      path: linePath([...series.points]) ?? '',
      band: series.band ? (bandPath([...series.band]) ?? '') : '',
    })),
    limits: limits.map((limit) => `M${x(limit.from ?? xLow)} ${y(limit.y)}H${x(limit.to ?? xHigh)}`),
    gaps,
    marks,
    labels: labelsOf(input, frame, size, x, y, (kind, index, label) =>
      compact ? String(1 + named.findIndex((n) => n.kind === kind && n.index === index)) : label,
    ),
    key: compact ? named.map(({ kind, label }, at) => ({ number: at + 1, kind, label })) : [],
    toX: (value) => x(value),
    toY: (value) => y(value),
    fromX: (px) => x.invert(px),
  };
}

/** Text heights across, below which names don't fit into the plot. */
const COMPACT = 16;

function namesOf(data: PlotData): { kind: EndLabel['kind']; index: number; label: string }[] {
  const named = (
    kind: EndLabel['kind'],
    list: readonly { readonly label: string; readonly unnamed?: boolean }[] = [],
  ) =>
    list
      .map(({ label, unnamed }, index) => ({ kind, index, label: unnamed ? '' : label }))
      .filter(({ label }) => label !== '');
  return [
    ...named('series', data.series),
    ...named('limit', data.limits),
    ...named('gap', data.gaps),
    ...named('mark', data.marks),
  ];
}

const CAP = 4;

function errorBar(a: number, b: number, across: number, level: boolean): string {
  return level
    ? `M${a} ${across}H${b}M${a} ${across - CAP}v${2 * CAP}M${b} ${across - CAP}v${2 * CAP}`
    : `M${across} ${a}V${b}M${across - CAP} ${a}h${2 * CAP}M${across - CAP} ${b}h${2 * CAP}`;
}

type Scale = (value: number) => number;

/** Where along a line its label may stand, as shares of the way: the end first. */
const ALONG = [1, 0.8, 0.6, 0.4, 0.2];

function labelsOf(
  input: PlotInput,
  frame: Box,
  size: number,
  x: Scale,
  y: Scale,
  name: (kind: EndLabel['kind'], index: number, label: string) => string,
): EndLabel[] {
  const { data, measure } = input;
  const high = 1.2 * size;
  const [xLow, xHigh] = rangeOf(data, 'x');
  const lines: Dot[] = [];
  const obstacles: Box[] = [];
  const wanted: { label: Omit<EndLabel, 'x' | 'y'>; candidate: Candidate }[] = [];

  const sample = (line: string, value: (at: number) => number | null) => {
    for (let px = frame.left; px <= frame.right; px += 6) {
      const at = xLow + ((px - frame.left) / (frame.right - frame.left)) * (xHigh - xLow);
      const found = value(at);
      if (found !== null) lines.push({ x: px, y: y(found), line });
    }
  };
  const alongside = (
    text: string,
    line: string,
    value: (at: number) => number | null,
  ): Candidate => {
    const width = measure(text, size) + 6;
    const spots = ALONG.flatMap((share) => {
      const middle = frame.right - width / 2 - (1 - share) * (frame.right - frame.left - width);
      const at = xLow + ((middle - frame.left) / (frame.right - frame.left)) * (xHigh - xLow);
      const found = value(at);
      if (found === null) return [];
      const level = y(found);
      return [-0.62, 0.62, 0, -0.95, 0.95].map((away) => ({
        x: middle,
        y: level + away * high,
        named: level,
      }));
    });
    const somewhere = [{ x: frame.right, y: frame.top }];
    return { width, height: high, spots: spots.length > 0 ? spots : somewhere, line };
  };

  data.series.forEach((series, index) => {
    sample(`series ${index}`, (at) => valueAt(series.points, at));
  });
  (data.limits ?? []).forEach((limit, index) => {
    const inside = (at: number) => at >= (limit.from ?? xLow) && at <= (limit.to ?? xHigh);
    sample(`limit ${index}`, (at) => (inside(at) ? limit.y : null));
  });
  for (const mark of data.marks ?? []) {
    const across = Math.max(5, Math.abs(x(mark.x + (mark.u_x ?? 0)) - x(mark.x)));
    const along = Math.max(5, Math.abs(y(mark.y + (mark.u_y ?? 0)) - y(mark.y)));
    obstacles.push(
      { left: x(mark.x) - 5, right: x(mark.x) + 5, top: y(mark.y) - along, bottom: y(mark.y) + along },
      { left: x(mark.x) - across, right: x(mark.x) + across, top: y(mark.y) - 5, bottom: y(mark.y) + 5 },
    );
  }

  (data.gaps ?? []).forEach((gap, index) => {
    if (gap.unnamed) return;
    const text = name('gap', index, gap.label);
    const width = measure(text, size) + 6;
    const middle = (x(Math.max(gap.from, xLow)) + x(Math.min(gap.to, xHigh))) / 2;
    const levels = [0.94, 0.06, 0.8, 0.2, 0.5].map(
      (share) => frame.top + share * (frame.bottom - frame.top),
    );
    wanted.push({
      label: { text, kind: 'gap', index },
      candidate: { width, height: high, spots: levels.map((level) => ({ x: middle, y: level })) },
    });
  });
  data.series.forEach((series, index) => {
    const text = name('series', index, series.label);
    wanted.push({
      label: { text, kind: 'series', index },
      candidate: alongside(text, `series ${index}`, (at) => valueAt(series.points, at)),
    });
  });
  // A limit's name stands on its line and breaks it, if it can: beside it, it could be the next line's.
  (data.limits ?? []).forEach((limit, index) => {
    const text = name('limit', index, limit.label);
    const width = measure(text, size) + 10;
    const from = x(Math.max(limit.from ?? xLow, xLow)) + width / 2 + 14;
    const to = x(Math.min(limit.to ?? xHigh, xHigh)) - width / 2 - 14;
    const level = y(limit.y);
    const spots = [0, -0.62, 0.62].flatMap((away) =>
      [0, 0.25, 0.5, 0.75, 1].map((share) => ({
        x: to - share * Math.max(0, to - from),
        y: level + away * high,
        named: level,
      })),
    );
    wanted.push({
      label: { text, kind: 'limit', index },
      candidate: { width, height: high, spots, line: `limit ${index}` },
    });
  });
  (data.marks ?? []).forEach((mark, index) => {
    if (mark.label === '' || mark.unnamed) return;
    const text = name('mark', index, mark.label);
    const width = measure(text, size) + 6;
    const at = { x: x(mark.x), y: y(mark.y) };
    const aside = width / 2 + 8;
    wanted.push({
      label: { text, kind: 'mark', index },
      candidate: {
        width,
        height: high,
        spots: [
          { x: at.x + aside, y: at.y },
          { x: at.x - aside, y: at.y },
          { x: at.x + aside, y: at.y - high },
          { x: at.x + aside, y: at.y + high },
          { x: at.x - aside, y: at.y - high },
          { x: at.x - aside, y: at.y + high },
          { x: at.x, y: at.y - 2 * high },
          { x: at.x, y: at.y + 2 * high },
          // Past the lines that run by.
          ...[-3, 3].map((away) => ({ x: at.x, y: at.y + away * high })),
        ],
      },
    });
  });

  const spots = placeLabels(wanted.map(({ candidate }) => candidate), frame, lines, obstacles);
  return wanted.map(({ label }, index) => ({ ...label, ...(spots[index] ?? { x: 0, y: 0 }) }));
}
