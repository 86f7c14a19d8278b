import type { BoreDrawing, DrawnPort, Node } from '$lib/generated/commands';
import { t, type PlainKey } from '$lib/messages';
import { show } from '$lib/quantity/show';
import type { Chamber, Cylinder, Opening, Passage, Section } from './section';

/** Places of a circuit in words. */
export const NODE_WORDS = {
  line: 'node.line',
  feed: 'node.feed',
  reaction: 'node.reaction',
  spring_chamber: 'node.spring_chamber',
  sump: 'node.sump',
} as const satisfies Record<Node, PlainKey>;

export interface DrawnSection {
  readonly section: Section;
  readonly openings: readonly Opening[];
}

/** The spring's coil is not in a profile: drawn as wide as a spring that fits the bore would be. */
const COIL_SHARE = 0.78;
const WIRE_SHARE = 0.09;

/** The core's drawing of a bore, where it stands at that stroke, as the drawing takes it. */
export function sectionOf(drawing: BoreDrawing): DrawnSection {
  const { start_m, end_m, diameter_m, lands, spring_on_left: left } = drawing;
  const stems: Cylinder[] = lands.slice(1).map((land, index) => ({
    start_m: lands[index]?.end_m ?? land.start_m,
    end_m: land.start_m,
    diameter_m: drawing.stem_diameter_m,
  }));
  const first = lands[0]?.start_m ?? start_m;
  const last = lands.at(-1)?.end_m ?? end_m;
  const seat = left ? start_m : end_m;
  const rest = left ? first : last;
  const length = Math.abs(rest - seat);
  const chambers: Chamber[] = [
    { start_m, end_m: first, label: t(NODE_WORDS[left ? 'spring_chamber' : 'reaction']) },
    { start_m: last, end_m, label: t(NODE_WORDS[left ? 'reaction' : 'spring_chamber']) },
  ].filter((chamber) => chamber.end_m - chamber.start_m > 1e-4);
  return {
    section: {
      bore: [{ start_m, end_m, diameter_m }],
      ports: drawing.ports.map((port) => ({
        id: port.name,
        start_m: port.start_m,
        end_m: port.end_m,
        side: port.side === 'above' ? 'top' : 'bottom',
        label: port.name,
      })),
      lands: lands.map(({ start_m, end_m, diameter_m }) => ({ start_m, end_m, diameter_m })),
      stems,
      springs:
        length > diameter_m * 0.2
          ? [
              {
                seat_m: seat,
                rest_m: rest,
                outer_diameter_m: diameter_m * COIL_SHARE,
                wire_diameter_m: diameter_m * WIRE_SHARE,
                coils: Math.max(4, Math.round(length / (diameter_m * 0.28))),
              },
            ]
          : [],
      chambers,
      passages: passagesOf(drawing),
      left_end: left ? 'closed' : 'plug',
      right_end: left ? 'plug' : 'closed',
    },
    openings: drawing.openings
      .filter(({ open_m }) => open_m > 0)
      .map(({ port, supply }) => ({ port, flow: supply ? 'in' : 'out' })),
  };
}

/** The way from feed to the reaction chamber, through the balance orifice, where both are below. */
function passagesOf(drawing: BoreDrawing): Passage[] {
  const below = (node: Node): DrawnPort | undefined =>
    drawing.ports.find((port) => port.node === node && port.side === 'below');
  const feed = below('feed');
  const reaction = below('reaction');
  if (!feed || !reaction) return [];
  const diameter = drawing.balance_orifice_m;
  return [
    {
      from: feed.name,
      to: reaction.name,
      ...(typeof diameter === 'number'
        ? { orifice: { diameter_m: diameter, label: show(diameter, 'length') } }
        : {}),
    },
  ];
}
