import type { Entry } from '$lib/quantity';

/** What a form does once all is typed, offered on the pad of a number. */
export interface PadSubmit {
  readonly label: string;
  /** True while the form can't do it yet. */
  readonly disabled?: boolean;
  readonly run: () => void;
}

/** What was typed last for the same thing, and where the next is kept. */
export interface Recall {
  readonly last: Entry | undefined;
  readonly keep: (entry: Entry) => void;
}
