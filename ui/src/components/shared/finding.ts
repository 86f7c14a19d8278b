/** How much a finding weighs: for information, to be looked at, or in the way of going on. */
export type Severity = 'note' | 'warning' | 'blocking';

/** A finding in words, ready to be shown. */
export interface ShownFinding {
  readonly severity: Severity;
  readonly text: string;
}
