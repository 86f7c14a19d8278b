/** What a plot shows. All numbers are in the units that are read, not SI: a plot converts nothing. */
export interface PlotAxis {
  /** The axis's name and unit: "line pressure, psi". */
  readonly label: string;
  /** A short name for the readout: "line". */
  readonly name: string;
  readonly unit: string;
  readonly decimals: number;
  /** The range; taken from the data where it is absent. */
  readonly from?: number;
  readonly to?: number;
}

export type PlotTone = 'ink' | 'within' | 'close' | 'outside' | 'soft';
export type PlotStroke = 'solid' | 'dotted' | 'dashed' | 'chain';

export interface PlotPoint {
  readonly x: number;
  /** `null` where there is no value: the line breaks. */
  readonly y: number | null;
}

export interface PlotSeries {
  readonly label: string;
  readonly tone: PlotTone;
  readonly stroke: PlotStroke;
  readonly points: readonly PlotPoint[];
  /** What it likely lies between. */
  readonly band?: readonly { readonly x: number; readonly low: number; readonly high: number }[];
}

export interface PlotLimit {
  readonly y: number;
  readonly label: string;
  readonly from?: number;
  readonly to?: number;
}

/** A measured point, with how far it may be off either way. */
export interface PlotMark {
  readonly x: number;
  readonly y: number;
  readonly u_x?: number;
  readonly u_y?: number;
  readonly label: string;
  /** Drawn full instead of open. */
  readonly full?: boolean;
  /** One of many: named in the readout and the table, not in the plot. */
  readonly unnamed?: boolean;
}

/** A range of x where the plotted thing has no meaning, hatched, and why. */
export interface PlotGap {
  readonly from: number;
  readonly to: number;
  readonly label: string;
  /** True: another one that is hatched the same has the name. */
  readonly unnamed?: boolean;
}

export interface PlotData {
  readonly x: PlotAxis;
  readonly y: PlotAxis;
  readonly series: readonly PlotSeries[];
  readonly limits?: readonly PlotLimit[];
  readonly marks?: readonly PlotMark[];
  readonly gaps?: readonly PlotGap[];
}

/** The range of all that has to be seen, with a little air above and below. */
export function rangeOf(data: PlotData, axis: 'x' | 'y'): [number, number] {
  const values: number[] = [];
  for (const series of data.series) {
    for (const point of series.points) {
      if (axis === 'x') values.push(point.x);
      else if (point.y !== null) values.push(point.y);
    }
    if (axis === 'y') for (const part of series.band ?? []) values.push(part.low, part.high);
  }
  for (const mark of data.marks ?? []) {
    const [at, u] = axis === 'x' ? [mark.x, mark.u_x ?? 0] : [mark.y, mark.u_y ?? 0];
    values.push(at - u, at + u);
  }
  if (axis === 'y') for (const limit of data.limits ?? []) values.push(limit.y);
  if (axis === 'x') for (const gap of data.gaps ?? []) values.push(gap.from, gap.to);
  const finite = values.filter((value) => Number.isFinite(value));
  const given = data[axis];
  const low = given.from ?? (finite.length > 0 ? Math.min(...finite) : 0);
  const high = given.to ?? (finite.length > 0 ? Math.max(...finite) : 1);
  return high > low ? [low, high] : [low - 0.5, low + 0.5];
}

/** The value of a series at `x`, between its points; `null` outside them and in a break. */
export function valueAt(points: readonly PlotPoint[], x: number): number | null {
  for (let index = 0; index < points.length; index += 1) {
    const point = points[index];
    if (!point) continue;
    if (point.x === x) return point.y;
    const next = points[index + 1];
    if (!next || x < point.x || x >= next.x) continue;
    if (point.y === null || next.y === null) return null;
    return point.y + ((next.y - point.y) * (x - point.x)) / (next.x - point.x);
  }
  return null;
}

/** The band of a series at `x`. */
export function bandAt(series: PlotSeries, x: number): { low: number; high: number } | null {
  const band = series.band ?? [];
  const low = valueAt(band.map((part) => ({ x: part.x, y: part.low })), x);
  const high = valueAt(band.map((part) => ({ x: part.x, y: part.high })), x);
  return low === null || high === null ? null : { low, high };
}

/** The gap that `x` lies in. */
export function gapAt(gaps: readonly PlotGap[] | undefined, x: number): PlotGap | undefined {
  return gaps?.find((gap) => x >= gap.from && x <= gap.to);
}

/** All x that some series has a point at, rising: where the readout stops. */
export function stops(data: PlotData): number[] {
  const all = new Set<number>();
  for (const series of data.series) for (const point of series.points) all.add(point.x);
  for (const mark of data.marks ?? []) all.add(mark.x);
  return [...all].sort((a, b) => a - b);
}

export function nearestStop(all: readonly number[], x: number): number | undefined {
  let best: number | undefined;
  for (const stop of all) {
    if (best === undefined || Math.abs(stop - x) < Math.abs(best - x)) best = stop;
  }
  return best;
}
