/** A rectangle in px. */
export interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface Spot {
  readonly x: number;
  readonly y: number;
}

/** A spot that a label could take. */
export interface Wanted extends Spot {
  /** How high what it names lies there: another line between the two would take the name over. */
  readonly named?: number;
}

/** A label and the spots where it could stand, best first: its middle, in px. */
export interface Candidate {
  readonly width: number;
  readonly height: number;
  readonly spots: readonly Wanted[];
  /** The line that it names. It may stand on it, breaking it. */
  readonly line?: string;
}

/** A point of a drawn line, and which line. */
export interface Dot extends Spot {
  readonly line: string;
}

const boxAt = (label: Candidate, spot: Spot): Box => ({
  left: spot.x - label.width / 2,
  right: spot.x + label.width / 2,
  top: spot.y - label.height / 2,
  bottom: spot.y + label.height / 2,
});

function overlap(a: Box, b: Box): number {
  const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
  const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
  return wide > 0 && high > 0 ? wide * high : 0;
}

const ON_LABEL = 500;
const ON_LINE = 6;
const BETWEEN = 25;
const LATER_SPOT = 4;
/** How near to its own line a label counts as standing on it. */
const ON_IT = 1;
/** Half of the strip in which a line counts as lying between. */
const STRIP = 8;

/**
 * Chooses a spot for each label, in order: off other labels and obstacles at almost any price, off the drawn
 * lines where that can be had, and otherwise the earliest spot of its list.
 */
export function placeLabels(
  labels: readonly Candidate[],
  frame: Box,
  lines: readonly Dot[],
  obstacles: readonly Box[] = [],
): Spot[] {
  const taken: Box[] = [...obstacles];
  return labels.map((label) => {
    let best: { spot: Spot; cost: number } | undefined;
    label.spots.forEach((wanted, order) => {
      const spot = {
        x: Math.min(Math.max(wanted.x, frame.left + label.width / 2), frame.right - label.width / 2),
        y: Math.min(Math.max(wanted.y, frame.top + label.height / 2), frame.bottom - label.height / 2),
      };
      const box = boxAt(label, spot);
      const breaks = wanted.named !== undefined && Math.abs(wanted.named - spot.y) < ON_IT;
      const crossed = lines.filter(
        (dot) =>
          !(breaks && dot.line === label.line) &&
          dot.x > box.left &&
          dot.x < box.right &&
          dot.y > box.top &&
          dot.y < box.bottom,
      ).length;
      const named = wanted.named ?? spot.y;
      const between = lines.some(
        (dot) =>
          dot.line !== label.line &&
          Math.abs(dot.x - spot.x) < STRIP &&
          dot.y > Math.min(named, spot.y) &&
          dot.y < Math.max(named, spot.y),
      );
      const covered = taken.reduce((sum, other) => sum + overlap(box, other), 0);
      const cost = order * LATER_SPOT +
        crossed * ON_LINE +
        (between ? BETWEEN : 0) +
        (covered > 0 ? ON_LABEL + covered : 0);
      if (!best || cost < best.cost) best = { spot, cost };
    });
    const spot = best?.spot ?? { x: frame.left, y: frame.top };
    taken.push(boxAt(label, spot));
    return spot;
  });
}
