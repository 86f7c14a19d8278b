/** One case of a paired plot, in the unit that is read. */
export interface Pair {
  readonly key: string;
  readonly before: number;
  readonly after: number;
  /** Whether it came back. */
  readonly back: boolean;
}

/** What a paired plot shows, with its words. */
export interface PairedData {
  readonly pairs: readonly Pair[];
  /** The axis's name and unit. */
  readonly axis: string;
  readonly before: string;
  readonly after: string;
  /** How many cases there are, in words. */
  readonly count: string;
  readonly held: string;
  readonly back: string;
  readonly median?: { readonly before: number; readonly after: number; readonly name: string };
}
