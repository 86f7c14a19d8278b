/** A label that wants to stand over what it names. */
export interface RowLabel {
  /** Where its leader may touch down, best first. */
  readonly anchors: readonly number[];
  readonly width: number;
}

export interface PlacedLabel {
  /** The label's middle. */
  readonly centre: number;
  /** 0 is the row nearest to the drawing. */
  readonly row: number;
  /** Where its leader touches down. */
  readonly anchor: number;
}

interface Spot extends PlacedLabel {
  readonly start: number;
  readonly end: number;
}

interface Trial {
  readonly spots: readonly Spot[];
  readonly cost: number;
}

const GAP = 6;
/** Room that a leader keeps from a label that it passes. */
const LEADER = 3;
const ROW_COST = 8;
const SHIFT_COST = 4;
const ANCHOR_COST = 2;
const SHIFTS = [0, 0.2, -0.2, 0.35, -0.35, 0.5, -0.5];
/** Trials that are kept from one label to the next. */
const BEAM = 120;

/**
 * Puts labels into rows so that none covers another, and no leader from a farther row runs through
 * a label of a nearer one: a beam search from left to right for few rows and short shifts. Order of
 * the answer is that of the question.
 */
export function placeInRows(labels: readonly RowLabel[], min: number, max: number): PlacedLabel[] {
  const order = labels.map((_, index) => index);
  order.sort((a, b) => (labels[a]?.anchors[0] ?? 0) - (labels[b]?.anchors[0] ?? 0));
  let trials: Trial[] = [{ spots: [], cost: 0 }];
  for (const index of order) {
    const label = labels[index];
    if (!label) continue;
    const spots = spotsOf(label, min, max, labels.length);
    const next: Trial[] = [];
    for (const trial of trials) {
      for (const { spot, cost } of spots) {
        if (trial.spots.every((other) => apart(spot, other))) {
          next.push({ spots: [...trial.spots, spot], cost: trial.cost + cost });
        }
      }
    }
    // Nothing fits beside the kept trials: the label goes above all, on a row of its own.
    if (next.length === 0) {
      for (const trial of trials) {
        const row = 1 + Math.max(-1, ...trial.spots.map((spot) => spot.row));
        const anchor = label.anchors[0] ?? 0;
        next.push({ spots: [...trial.spots, spotAt(label, anchor, anchor, row, min, max)], cost: 1e3 });
      }
    }
    next.sort((a, b) => a.cost - b.cost);
    trials = next.slice(0, BEAM);
  }
  const best = trials[0]?.spots ?? [];
  const answer: PlacedLabel[] = [];
  order.forEach((index, place) => {
    const spot = best[place];
    if (spot) answer[index] = { centre: spot.centre, row: spot.row, anchor: spot.anchor };
  });
  return answer;
}

function spotAt(
  label: RowLabel,
  anchor: number,
  wanted: number,
  row: number,
  min: number,
  max: number,
): Spot {
  const half = label.width / 2;
  const centre = Math.max(min + half, Math.min(wanted, max - half));
  return { anchor, centre, row, start: centre - half, end: centre + half };
}

function spotsOf(label: RowLabel, min: number, max: number, rows: number) {
  const spots: { spot: Spot; cost: number }[] = [];
  for (let row = 0; row < Math.min(rows, 4); row += 1) {
    label.anchors.forEach((anchor, choice) => {
      for (const shift of SHIFTS) {
        const spot = spotAt(label, anchor, anchor + shift * label.width, row, min, max);
        // The leader has to come down from under the label itself.
        if (row > 0 && (anchor < spot.start || anchor > spot.end)) continue;
        const away = Math.abs(spot.centre - anchor) / label.width;
        spots.push({ spot, cost: row * ROW_COST + away * SHIFT_COST + choice * ANCHOR_COST });
      }
    });
  }
  return spots;
}

function apart(a: Spot, b: Spot): boolean {
  if (a.row === b.row) return a.end + GAP <= b.start || b.end + GAP <= a.start;
  const [near, far] = a.row < b.row ? [a, b] : [b, a];
  return far.anchor < near.start - LEADER || far.anchor > near.end + LEADER;
}
