/**
 * How the guide's drawings are drawn: cut metal hatched, parts outlined, thin rules, one colour for
 * the way of the air. Numbers in rings, explained below the drawing in ordinary text, so that large
 * text and a screen reader get the same as the eye.
 */
export type Pen =
  | 'metal'
  | 'part'
  | 'line'
  | 'thin'
  | 'hidden'
  | 'centre'
  | 'air'
  | 'arrow'
  | 'solid'
  | 'oil'
  | 'light';

/** A path, or a ring with a number and a leader to what it names. */
export type Stroke =
  | readonly [pen: Pen, path: string]
  | readonly ['n', number: number, x: number, y: number, toX: number, toY: number];

export interface GuideDrawing {
  /** The sheet is 320 wide. */
  readonly height: number;
  readonly caption: string;
  readonly strokes: readonly Stroke[];
  /** What each numbered ring names, from 1. */
  readonly legend: readonly string[];
}

/** A rectangle. */
export const box = (x: number, y: number, width: number, height: number) =>
  `M${x} ${y}h${width}v${height}h${-width}z`;

/** A spool on an axis: lands from and to, joined by stems. */
export function spool(
  axis: number,
  land: number,
  stem: number,
  lands: readonly (readonly [number, number])[],
): string {
  const upper = lands.flatMap(([from, to], index) => {
    const edge = `L${from} ${axis - land}L${to} ${axis - land}`;
    return index === 0 ? [edge] : [`L${from} ${axis - stem}${edge}`];
  });
  const lower = [...lands].reverse().flatMap(([from, to], index) => {
    const edge = `L${to} ${axis + land}L${from} ${axis + land}`;
    return index === 0 ? [edge] : [`L${to} ${axis + stem}${edge}`];
  });
  const stems = lands.map(([, to], index) => (index < lands.length - 1 ? `L${to} ${axis - stem}` : ''));
  const lowerStems = [...lands].reverse().map(([from], index) => (index < lands.length - 1 ? `L${from} ${axis + stem}` : ''));
  const top = upper.map((edge, index) => edge + (stems[index] ?? '')).join('');
  const bottom = lower.map((edge, index) => edge + (lowerStems[index] ?? '')).join('');
  return `M${lands[0]?.[0] ?? 0} ${axis}${top}${bottom}z`;
}

/** A spring seen from the side. */
export function coil(from: number, to: number, axis: number, radius: number, turns: number): string {
  const step = (to - from) / (turns * 2);
  const points = Array.from({ length: turns * 2 - 1 }, (_, index) => {
    const x = from + step * (index + 1);
    return `L${x.toFixed(1)} ${index % 2 === 0 ? axis - radius : axis + radius}`;
  });
  return `M${from} ${axis + radius}${points.join('')}L${to} ${axis + radius}`;
}

/** A wall of cut metal with openings from and to. */
export function wall(
  from: number,
  to: number,
  y: number,
  height: number,
  openings: readonly (readonly [number, number])[] = [],
): string {
  let path = '';
  let at = from;
  for (const [start, end] of openings) {
    path += box(at, y, start - at, height);
    at = end;
  }
  return path + box(at, y, to - at, height);
}

/** A circle as a path. */
export const ring = (x: number, y: number, radius: number) =>
  `M${x - radius} ${y}a${radius} ${radius} 0 1 0 ${2 * radius} 0a${radius} ${radius} 0 1 0 ${-2 * radius} 0z`;
