import type { Cylinder } from './section';

/** A step of a turned part's outline. */
export interface Step {
  readonly start: number;
  readonly end: number;
  readonly radius: number;
}

/** The radius of the bore at `x`; the nearest segment's beyond its ends. */
export function radiusAt(segments: readonly Cylinder[], x: number): number {
  let nearest = 0;
  let gap = Infinity;
  for (const segment of segments) {
    const away = Math.max(segment.start_m - x, x - segment.end_m, 0);
    if (away < gap) {
      gap = away;
      nearest = segment.diameter_m / 2;
    }
  }
  return nearest;
}

/** The pieces of `[start, end]` that no hole takes away, in order. */
export function solidPieces(
  start: number,
  end: number,
  holes: readonly { readonly start_m: number; readonly end_m: number }[],
): { start: number; end: number }[] {
  const pieces: { start: number; end: number }[] = [];
  let from = start;
  for (const hole of [...holes].sort((a, b) => a.start_m - b.start_m)) {
    if (hole.end_m <= from || hole.start_m >= end) continue;
    if (hole.start_m > from) pieces.push({ start: from, end: hole.start_m });
    from = Math.max(from, hole.end_m);
  }
  if (from < end) pieces.push({ start: from, end });
  return pieces;
}

/** Where the bore's radius changes inside `(start, end)`. */
export function shoulders(segments: readonly Cylinder[], start: number, end: number): number[] {
  return segments
    .map((segment) => segment.start_m)
    .filter((x) => x > start && x < end)
    .sort((a, b) => a - b);
}

/** A closed outline of a turned part about a centre line, from its steps in px. */
export function turnedOutline(steps: readonly Step[], centre: number): string {
  const first = steps[0];
  if (!first) return '';
  const upper: string[] = [`M${first.start} ${centre}`];
  const lower: string[] = [];
  for (const step of steps) {
    upper.push(`L${step.start} ${centre - step.radius}L${step.end} ${centre - step.radius}`);
    lower.unshift(`L${step.end} ${centre + step.radius}L${step.start} ${centre + step.radius}`);
  }
  return `${upper.join('')}${lower.join('')}Z`;
}
