/** A coil spring in outline: the halves of its turns behind and in front, as line segments in px. */
export interface Coil {
  readonly behind: readonly string[];
  readonly front: readonly string[];
  readonly wire: number;
}

export interface CoilShape {
  readonly start: number;
  readonly end: number;
  readonly centre: number;
  readonly outerRadius: number;
  readonly wire: number;
  readonly coils: number;
}

/** The turns between two seats, drawn as the wire's centre line seen from the side. */
export function coil({ start, end, centre, outerRadius, wire, coils }: CoilShape): Coil {
  const turns = Math.max(2, Math.round(coils));
  const left = Math.min(start, end) + wire / 2;
  const right = Math.max(start, end) - wire / 2;
  const pitch = Math.max(0, right - left) / turns;
  const top = centre - outerRadius + wire / 2;
  const bottom = centre + outerRadius - wire / 2;
  const behind: string[] = [];
  const front: string[] = [];
  for (let turn = 0; turn < turns; turn += 1) {
    const at = left + turn * pitch;
    front.push(`M${at} ${bottom}L${at + pitch / 2} ${top}`);
    behind.push(`M${at + pitch / 2} ${top}L${at + pitch} ${bottom}`);
  }
  return { behind, front, wire };
}
