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

interface Option {
  readonly spot: Spot;
  readonly cost: number;
}

const GAP = 6;
/** Room that a leader keeps from a label that it passes. */
const LEADER = 5;
const ROW_COST = 8;
const SHIFT_COST = 4;
const ANCHOR_COST = 2;
const SHIFTS = [0, 0.2, -0.2, 0.35, -0.35, 0.5, -0.5];
/** Steps after which the best found so far has to do. */
const PATIENCE = 20_000;

/**
 * Puts labels into rows so that none covers another, and no leader from a farther row runs through
 * a label of a nearer one: a branch-and-bound search from left to right for few rows and short
 * shifts. Order of the answer is that of the question. `gap`: between two labels of a row, px.
 */
export function placeInRows(
  labels: readonly RowLabel[],
  min: number,
  max: number,
  gap = GAP,
): PlacedLabel[] {
  const order = labels.map((_, index) => index);
  order.sort((a, b) => (labels[a]?.anchors[0] ?? 0) - (labels[b]?.anchors[0] ?? 0));
  const options = order.map((index) => {
    const label = labels[index];
    return label ? optionsOf(label, min, max, labels.length) : [];
  });
  const best = search(options, gap) ?? stacked(order, labels, min, max);
  const answer: PlacedLabel[] = [];
  order.forEach((index, place) => {
    const spot = best[place];
    if (spot) answer[index] = { centre: spot.centre, row: spot.row, anchor: spot.anchor };
  });
  return answer;
}

function search(options: readonly (readonly Option[])[], gap: number): readonly Spot[] | undefined {
  // What the labels still to come cost at least.
  const least = options.map((of) => of[0]?.cost ?? 0);
  const ahead = least.map((_, from) => least.slice(from).reduce((sum, cost) => sum + cost, 0));
  const chosen: Spot[] = [];
  let best: Spot[] | undefined;
  let bestCost = Infinity;
  let steps = 0;
  const place = (depth: number, cost: number): void => {
    if (depth === options.length) {
      best = [...chosen];
      bestCost = cost;
      return;
    }
    for (const option of options[depth] ?? []) {
      steps += 1;
      const total = cost + option.cost;
      if (steps > PATIENCE || total + (ahead[depth + 1] ?? 0) >= bestCost) return;
      if (!chosen.every((other) => apart(option.spot, other, gap))) continue;
      chosen.push(option.spot);
      place(depth + 1, total);
      chosen.pop();
    }
  };
  place(0, 0);
  return best;
}

/** Where nothing keeps everything apart: each label on a row of its own. */
function stacked(
  order: readonly number[],
  labels: readonly RowLabel[],
  min: number,
  max: number,
): readonly Spot[] {
  return order.flatMap((index, row) => {
    const label = labels[index];
    const anchor = label?.anchors[0] ?? 0;
    return label ? [spotAt(label, anchor, anchor, row, min, max)] : [];
  });
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

function optionsOf(label: RowLabel, min: number, max: number, rows: number): Option[] {
  const spots: Option[] = [];
  for (let row = 0; row < rows; row += 1) {
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
  return spots.sort((a, b) => a.cost - b.cost);
}

function apart(a: Spot, b: Spot, gap: number): boolean {
  if (a.row === b.row) return a.end + gap <= b.start || b.end + gap <= a.start;
  const [near, far] = a.row < b.row ? [a, b] : [b, a];
  return far.anchor < near.start - LEADER || far.anchor > near.end + LEADER;
}
