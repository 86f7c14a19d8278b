/**
 * A spool valve in section, as its dimensions say. Lengths in metres along the bore, from any
 * common origin; spool parts are given where they are at zero displacement.
 */
export interface Section {
  readonly bore: readonly BoreSegment[];
  readonly ports: readonly Port[];
  readonly lands: readonly Cylinder[];
  /** The necks between lands. */
  readonly stems: readonly Cylinder[];
  readonly springs?: readonly Spring[];
  readonly chambers?: readonly Chamber[];
  readonly passages?: readonly Passage[];
  readonly left_end: BoreEnd;
  readonly right_end: BoreEnd;
}

export interface Cylinder {
  readonly start_m: number;
  readonly end_m: number;
  readonly diameter_m: number;
}

export type BoreSegment = Cylinder;

/** How a bore ends: by the casting itself, by a plug that comes out, or open. */
export type BoreEnd = 'closed' | 'plug' | 'open';

export interface Port {
  readonly id: string;
  readonly start_m: number;
  readonly end_m: number;
  readonly side: 'top' | 'bottom';
  readonly label: string;
}

export interface Spring {
  /** The fixed seat in the bore. */
  readonly seat_m: number;
  /** Where it rests on the spool, at zero displacement. */
  readonly rest_m: number;
  readonly outer_diameter_m: number;
  readonly wire_diameter_m: number;
  readonly coils: number;
}

export interface Chamber {
  readonly start_m: number;
  readonly end_m: number;
  readonly label: string;
}

/** A channel outside the bore from one bottom port to another, with an orifice or without. */
export interface Passage {
  readonly from: string;
  readonly to: string;
  readonly orifice?: { readonly diameter_m: number; readonly label: string };
}

/** A leak along a land, in the direction in which it flows. */
export interface LeakPath {
  readonly from_m: number;
  readonly to_m: number;
  readonly label: string;
}

/** Flow through a port's metering edge. */
export interface Opening {
  readonly port: string;
  readonly flow: 'in' | 'out';
}
