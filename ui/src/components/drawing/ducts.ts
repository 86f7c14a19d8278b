import type { Passage, Section } from './section';

/** A channel's walls. */
export interface Duct {
  readonly walls: string;
  /** What it passes over and so hides. */
  readonly area?: string;
}

export interface Orifice {
  readonly x: number;
  readonly y: number;
  /** The plate's two halves, leaving the hole between them, to scale. */
  readonly plate: string;
  readonly label: string;
}

export interface Ducts {
  readonly ducts: readonly Duct[];
  readonly orifices: readonly Orifice[];
  /** The lowest line drawn. */
  readonly floor: number;
  /** Bottom ports that lead on, and so carry a label below. */
  readonly open: ReadonlySet<string>;
}

export interface DuctSpace {
  readonly px: (x: number) => number;
  readonly scale: number;
  readonly centre: number;
  readonly boreRadius: (x: number) => number;
  readonly wallTop: number;
  readonly wallBottom: number;
  readonly stub: number;
  readonly duct: number;
}

const BELOW_WALL = 12;
const LEVEL = 24;
const PLATE = 3;
/** How far the orifice plate reaches into the channel's walls. */
const EDGE = 3;

/** The channels outside the bore: a stub at each port, and the passages between bottom ports. */
export function ductsOf(section: Section, space: DuctSpace): Ducts {
  const { px, wallTop, wallBottom, stub, duct, scale } = space;
  const ducts: Duct[] = [];
  const orifices: Orifice[] = [];
  // The shorter passage runs nearer to the bore, so that a longer one goes round it.
  const reach = (passage: Passage) => {
    const [from, to] = [passage.from, passage.to].map((id) =>
      section.ports.find((port) => port.id === id),
    );
    return from && to ? Math.abs(to.start_m - from.start_m) : 0;
  };
  const passages = [...(section.passages ?? [])].sort((a, b) => reach(a) - reach(b));
  const closed = new Set(passages.map((passage) => passage.to));
  const open = new Set<string>();
  const levels = passages.length;
  const floor =
    levels > 0 ? wallBottom + BELOW_WALL + levels * LEVEL - (LEVEL - duct) + 5 : wallBottom + stub;

  for (const port of section.ports) {
    const a = px(port.start_m);
    const b = px(port.end_m);
    if (port.side === 'top') {
      ducts.push({ walls: `M${a} ${wallTop}v${-stub}M${b} ${wallTop}v${-stub}` });
      continue;
    }
    if (!closed.has(port.id)) open.add(port.id);
    const branches = passages
      .map((passage, level) => ({ passage, level }))
      .filter(({ passage }) => passage.from === port.id || passage.to === port.id);
    const end = closed.has(port.id)
      ? Math.max(...branches.map(({ level }) => levelBottom(level, wallBottom, duct)))
      : floor;
    // Each wall is broken where a passage branches off to its side.
    const wall = (x: number, side: -1 | 1) => {
      let path = `M${x} ${wallBottom}`;
      for (const { passage, level } of branches) {
        const other = section.ports.find(
          (candidate) => candidate.id === (passage.from === port.id ? passage.to : passage.from),
        );
        if (!other || Math.sign(other.start_m - port.start_m) !== side) continue;
        const top = wallBottom + BELOW_WALL + level * LEVEL;
        path += `V${top}M${x} ${top + duct}`;
      }
      return `${path}V${end}`;
    };
    ducts.push({
      walls: wall(a, -1) + wall(b, 1) + (closed.has(port.id) ? `M${a} ${end}H${b}` : ''),
    });
  }

  passages.forEach((passage, level) => {
    const from = section.ports.find((port) => port.id === passage.from);
    const to = section.ports.find((port) => port.id === passage.to);
    if (!from || !to) return;
    const rightward = to.start_m > from.start_m;
    const a = px(rightward ? from.end_m : from.start_m);
    const b = px(rightward ? to.start_m : to.end_m);
    const top = wallBottom + BELOW_WALL + level * LEVEL;
    ducts.push({
      walls: `M${a} ${top}H${b}M${a} ${top + duct}H${b}`,
      area: `M${Math.min(a, b)} ${top}H${Math.max(a, b)}V${top + duct}H${Math.min(a, b)}Z`,
    });
    if (passage.orifice) {
      const x = (a + b) / 2;
      const hole = Math.min(duct - 3, Math.max(1.5, passage.orifice.diameter_m * scale));
      const half = (duct - hole) / 2;
      orifices.push({
        x,
        y: top + duct,
        plate:
          `M${x - PLATE} ${top - EDGE}h${2 * PLATE}v${half + EDGE}h${-2 * PLATE}z` +
          `M${x - PLATE} ${top + duct + EDGE}h${2 * PLATE}v${-half - EDGE}h${-2 * PLATE}z`,
        label: passage.orifice.label,
      });
    }
  });
  return { ducts, orifices, floor, open };
}

function levelBottom(level: number, wallBottom: number, duct: number): number {
  return wallBottom + BELOW_WALL + level * LEVEL + duct;
}
