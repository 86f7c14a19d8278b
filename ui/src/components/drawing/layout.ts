import { placeInRows } from '../figure/rows';
import { coil, type Coil } from './coil';
import { radiusAt, shoulders, solidPieces, turnedOutline } from './contour';
import { type Ducts, ductsOf, type Duct } from './ducts';
import { type Bar, scaleBar } from './scale-bar';
import type { Cylinder, LeakPath, Opening, Port, Section } from './section';

export interface LayoutInput {
  readonly section: Section;
  readonly displacement_m: number;
  readonly leaks: readonly LeakPath[];
  readonly openings: readonly Opening[];
  readonly width: number;
  readonly em: number;
  readonly measure: (text: string, size: number) => number;
  readonly inches: boolean;
}

/** A piece of cut metal: what is hatched, and its outline, open where it goes on. */
export interface Metal {
  readonly area: string;
  readonly outline: string;
}

export interface Text {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly kind: 'port' | 'chamber' | 'orifice' | 'balloon';
  /** From the label to what it names, where they are apart. */
  readonly leader?: string;
}

export interface Layout {
  readonly width: number;
  readonly height: number;
  readonly centre: number;
  readonly scale: number;
  readonly labelSize: number;
  /** Cut metal, hatched. */
  readonly metal: readonly Metal[];
  /** A removable end plug, hatched the other way. */
  readonly plugs: readonly string[];
  readonly spool: string;
  readonly lands: readonly { readonly x: number; readonly top: number; readonly bottom: number }[];
  readonly axis: string;
  readonly springs: readonly Coil[];
  readonly ducts: readonly Duct[];
  readonly orifices: Ducts['orifices'];
  readonly leaks: readonly { readonly path: string; readonly heads: string }[];
  readonly flows: readonly string[];
  readonly texts: readonly Text[];
  readonly bar: Bar;
}

/** A gap drawn thinner than this can't be told from a line. */
const LEAST_GAP = 3;
const WALL = 22;
const STUB = 12;
/** Air above the uppermost label. */
const AIR = 4;
/** Nearer than this share of their size, two labels read as one. */
const LABELS_APART = 0.6;
const DUCT = 9;
const END = 9;

export function layOut(input: LayoutInput): Layout {
  const { section, displacement_m: shift, width, em } = input;
  const labelSize = 0.75 * em;
  const lineHeight = 1.35 * labelSize;
  const origin = Math.min(...section.bore.map((part) => part.start_m));
  const limit = Math.max(...section.bore.map((part) => part.end_m));
  const margin = 2 + END;
  const scale = (width - 2 * margin) / (limit - origin);
  const px = (x: number) => margin + (x - origin) * scale;
  const boreRadius = (x: number) => radiusAt(section.bore, x) * scale;
  const deepest = Math.max(...section.bore.map((part) => part.diameter_m / 2)) * scale;

  // Labels above and below; their rows decide how high the drawing is.
  const measure = (text: string) => input.measure(text, labelSize);
  const top = section.ports.filter((port) => port.side === 'top');
  const bottom = section.ports.filter((port) => port.side === 'bottom');
  const middle = (part: { start_m: number; end_m: number }) => px((part.start_m + part.end_m) / 2);
  const chambers = (section.chambers ?? []).map((chamber) => {
    const sprung = (section.springs ?? []).some((spring) => {
      const low = Math.min(spring.seat_m, spring.rest_m + shift);
      const high = Math.max(spring.seat_m, spring.rest_m + shift);
      return low < chamber.end_m && high > chamber.start_m;
    });
    const room = (chamber.end_m - chamber.start_m) * scale - 4;
    return { chamber, inside: !sprung && measure(chamber.label) <= room };
  });
  const balloon = 1.5 * labelSize;
  const above = [
    ...top.map((port) => ({ kind: 'port' as const, text: port.label, anchor: middle(port), port })),
    ...chambers
      .filter(({ inside }) => !inside)
      .map(({ chamber }) => ({
        kind: 'chamber' as const,
        text: chamber.label,
        anchor: middle(chamber),
        spread: (chamber.end_m - chamber.start_m) * scale * 0.3,
      })),
    ...input.leaks.map((leak, index) => ({
      kind: 'balloon' as const,
      text: String(index + 1),
      anchor: px((leak.from_m + leak.to_m) / 2),
      spread: Math.abs(leak.to_m - leak.from_m) * scale * 0.3,
    })),
  ];
  const widthOf = (label: { kind: string; text: string }) =>
    label.kind === 'balloon' ? balloon : measure(label.text);
  const anchorsOf = (label: { anchor: number; spread?: number }) =>
    label.spread === undefined
      ? [label.anchor]
      : [0, 0.5, -0.5, 1, -1].map((share) => label.anchor + share * (label.spread ?? 0));
  const aboveRows = placeInRows(
    above.map((label) => ({ anchors: anchorsOf(label), width: widthOf(label) })),
    2,
    width - 2,
    LABELS_APART * labelSize,
  );
  const rowsAbove = above.length === 0 ? 0 : 1 + Math.max(...aboveRows.map((place) => place.row));

  const wallTop = AIR + rowsAbove * lineHeight + STUB;
  const centre = wallTop + WALL + deepest;
  const wallBottom = centre + deepest + WALL;

  const ducts = ductsOf(section, { px, scale, centre, boreRadius, wallTop, wallBottom, stub: STUB, duct: DUCT });
  const below = [
    ...bottom
      .filter((port) => ducts.open.has(port.id))
      .map((port) => ({ kind: 'port' as const, text: port.label, anchor: middle(port) })),
    ...ducts.orifices.map((orifice) => ({
      kind: 'orifice' as const,
      text: orifice.label,
      anchor: orifice.x,
    })),
  ];
  const belowRows = placeInRows(
    below.map((label) => ({ anchors: [label.anchor], width: measure(label.text) })),
    2,
    width - 2,
    LABELS_APART * labelSize,
  );
  const rowsBelow = below.length === 0 ? 0 : 1 + Math.max(...belowRows.map((place) => place.row));
  const labelsFrom = ducts.floor + 2;

  const spoolRadius = (part: Cylinder) => {
    const at = (part.start_m + part.end_m) / 2 + shift;
    return Math.min((part.diameter_m / 2) * scale, boreRadius(at) - LEAST_GAP);
  };
  const steps = [...section.lands, ...section.stems]
    .sort((a, b) => a.start_m - b.start_m)
    .map((part) => ({
      start: px(part.start_m + shift),
      end: px(part.end_m + shift),
      radius: spoolRadius(part),
    }));

  const texts: Text[] = [
    ...above.map((label, index): Text => {
      const place = aboveRows[index] ?? { centre: label.anchor, row: 0, anchor: label.anchor };
      const baseline = AIR + (rowsAbove - place.row) * lineHeight - 0.3 * lineHeight;
      const from = baseline + 0.3 * lineHeight;
      const target =
        label.kind === 'port'
          ? wallTop - STUB
          : label.kind === 'chamber'
            ? centre - deepest * 0.62
            : centre - boreRadius(origin + (place.anchor - margin) / scale) + LEAST_GAP / 2;
      const needs = label.kind !== 'port' || place.row > 0;
      return {
        x: place.centre,
        y: baseline,
        text: label.text,
        kind: label.kind,
        ...(needs ? { leader: `M${place.anchor} ${from}V${target}` } : {}),
      };
    }),
    ...below.map((label, index): Text => {
      const place = belowRows[index] ?? { centre: label.anchor, row: 0 };
      const baseline = labelsFrom + (place.row + 0.8) * lineHeight;
      const needs = place.row > 0;
      return {
        x: place.centre,
        y: baseline,
        text: label.text,
        kind: label.kind,
        ...(needs ? { leader: `M${label.anchor} ${ducts.floor}V${baseline - labelSize}` } : {}),
      };
    }),
    ...chambers
      .filter(({ inside }) => inside)
      .map(
        ({ chamber }): Text => ({
          x: middle(chamber),
          y: centre + 0.35 * labelSize,
          text: chamber.label,
          kind: 'chamber',
        }),
      ),
  ];

  const metal = [
    ...walls(section, top, -1, { px, centre, boreRadius, outer: wallTop, origin, limit }),
    ...walls(section, bottom, 1, { px, centre, boreRadius, outer: wallBottom, origin, limit }),
  ];
  const plugs = ([
    [section.left_end, origin, -1],
    [section.right_end, limit, 1],
  ] as const).flatMap(([end, at, way]) => {
    if (end !== 'plug') return [];
    const x = way < 0 ? px(at) - END : px(at);
    const radius = boreRadius(at);
    return [`M${x} ${centre - radius}H${x + END}V${centre + radius}H${x}Z`];
  });

  const contentFloor = rowsBelow > 0 ? labelsFrom + rowsBelow * lineHeight : ducts.floor;
  const bar = scaleBar(scale, width, contentFloor + lineHeight, input.inches);

  return {
    width,
    height: contentFloor + 1.5 * lineHeight,
    centre,
    scale,
    labelSize,
    metal,
    plugs,
    spool: turnedOutline(steps, centre),
    lands: section.lands.map((land) => ({
      x: px((land.start_m + land.end_m) / 2 + shift),
      top: centre - spoolRadius(land),
      bottom: centre + spoolRadius(land),
    })),
    axis: `M${px(origin) - END} ${centre}H${px(limit) + END}`,
    springs: (section.springs ?? []).map((spring) =>
      coil({
        start: px(spring.seat_m),
        end: px(spring.rest_m + shift),
        centre,
        outerRadius: Math.min(
          (spring.outer_diameter_m / 2) * scale,
          boreRadius((spring.seat_m + spring.rest_m) / 2) - 2,
        ),
        wire: Math.max(2.5, spring.wire_diameter_m * scale),
        coils: spring.coils,
      }),
    ),
    ducts: ducts.ducts,
    orifices: ducts.orifices,
    leaks: input.leaks.map((leak) => leakLines(leak, px, centre, boreRadius)),
    flows: input.openings.flatMap((opening) => {
      const port = section.ports.find((candidate) => candidate.id === opening.port);
      return port ? [flowArrow(port, opening.flow, middle(port), centre, deepest)] : [];
    }),
    texts,
    bar,
  };
}

interface WallSpace {
  readonly px: (x: number) => number;
  readonly centre: number;
  readonly boreRadius: (x: number) => number;
  readonly outer: number;
  readonly origin: number;
  readonly limit: number;
}

/**
 * One side's metal, cut away where ports go through it, stepped where the bore is. It goes on round
 * a closed end as far as the axis, where the other side's meets it, and past a plug.
 */
function walls(section: Section, ports: readonly Port[], way: -1 | 1, space: WallSpace): Metal[] {
  const { px, centre, boreRadius, outer, origin, limit } = space;
  return solidPieces(origin, limit, ports).map(({ start, end }) => {
    const cuts = [start, ...shoulders(section.bore, start, end), end];
    const inner: string[] = [];
    for (let index = 0; index + 1 < cuts.length; index += 1) {
      const a = cuts[index] ?? start;
      const b = cuts[index + 1] ?? end;
      const y = centre + way * boreRadius((a + b) / 2);
      inner.unshift(`L${px(b)} ${y}L${px(a)} ${y}`);
    }
    const left = start === origin ? section.left_end : undefined;
    const right = end === limit ? section.right_end : undefined;
    const leftX = px(start) - (left === 'closed' || left === 'plug' ? END : 0);
    const rightX = px(end) + (right === 'closed' || right === 'plug' ? END : 0);
    const innerRight = centre + way * boreRadius(end);
    const innerLeft = centre + way * boreRadius(start);
    const rightFoot = right === 'closed' ? centre : innerRight;
    const leftFoot = left === 'closed' ? centre : innerLeft;
    // From the left foot up and round to the right foot, then back along the bore.
    const round = `M${leftX} ${leftFoot}V${outer}H${rightX}V${rightFoot}`;
    const back =
      (right === 'closed' ? `M${px(end)} ${centre}` : `L${px(end)} ${innerRight}`) +
      inner.join('') +
      (left === 'closed' ? `L${px(start)} ${centre}` : `L${leftX} ${innerLeft}`);
    return { area: `${round}${back.replace('M', 'L')}Z`, outline: round + back };
  });
}

const HEAD = 6;

function leakLines(
  leak: LeakPath,
  px: (x: number) => number,
  centre: number,
  boreRadius: (x: number) => number,
): { path: string; heads: string } {
  const from = px(leak.from_m);
  const to = px(leak.to_m);
  const way = Math.sign(to - from) || 1;
  const radius = boreRadius((leak.from_m + leak.to_m) / 2) - LEAST_GAP / 2;
  const line = (y: number) => `M${from} ${y}H${to - way * 2}`;
  const head = (y: number) => `M${to - way * HEAD} ${y - 4}L${to} ${y}L${to - way * HEAD} ${y + 4}`;
  return {
    path: line(centre - radius) + line(centre + radius),
    heads: head(centre - radius) + head(centre + radius),
  };
}

function flowArrow(port: Port, flow: 'in' | 'out', x: number, centre: number, deepest: number) {
  const way = port.side === 'top' ? -1 : 1;
  const outside = centre + way * (deepest + WALL - 2);
  const inside = centre + way * (deepest + 1);
  const tip = flow === 'in' ? inside : outside;
  const tail = flow === 'in' ? outside : inside;
  const up = Math.sign(tail - tip);
  return `M${x} ${tail}V${tip}M${x - 3.5} ${tip + up * 5}L${x} ${tip}L${x + 3.5} ${tip + up * 5}`;
}
