/** A label that wants to stand over its anchor on a line of labels. */
export interface RowLabel {
  readonly anchor: number;
  readonly width: number;
}

export interface PlacedLabel {
  /** The label's middle. */
  readonly centre: number;
  /** 0 is the row nearest to the drawing. */
  readonly row: number;
}

const GAP = 6;

/**
 * Puts labels into rows so that none covers another, and no leader from a farther row to its anchor
 * runs through a label of a nearer one. Order of the answer is that of the question.
 */
export function placeInRows(labels: readonly RowLabel[], min: number, max: number): PlacedLabel[] {
  const placed: (PlacedLabel & RowLabel)[] = [];
  const order = labels.map((_, index) => index);
  order.sort((a, b) => (labels[a]?.anchor ?? 0) - (labels[b]?.anchor ?? 0));
  const answer: PlacedLabel[] = [];

  const free = (label: RowLabel, centre: number, row: number) => {
    const start = centre - label.width / 2;
    const end = centre + label.width / 2;
    return placed.every((other) => {
      const otherStart = other.centre - other.width / 2;
      const otherEnd = other.centre + other.width / 2;
      if (other.row === row) return end + GAP <= otherStart || start >= otherEnd + GAP;
      if (other.row > row) return other.anchor < start - 2 || other.anchor > end + 2;
      return label.anchor < otherStart - 2 || label.anchor > otherEnd + 2;
    });
  };

  for (const index of order) {
    const label = labels[index];
    if (!label) continue;
    const half = label.width / 2;
    const clamp = (centre: number) => Math.min(Math.max(centre, min + half), max - half);
    let found: PlacedLabel | undefined;
    for (let row = 0; found === undefined; row += 1) {
      // Over the anchor if it can be, else to one side of it, still touching it.
      const shifts = [0, 0.25, -0.25, 0.5, -0.5].map((share) => share * label.width);
      const centre = shifts
        .map((shift) => clamp(label.anchor + shift))
        .find((candidate) => free(label, candidate, row));
      if (centre !== undefined) found = { centre, row };
      // Farther out there is always room: a row of its own, once past the last.
      else if (row > labels.length) found = { centre: clamp(label.anchor), row };
    }
    placed.push({ ...label, ...found });
    answer[index] = found;
  }
  return answer;
}
