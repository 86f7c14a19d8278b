/** One line that says what was just done. */
export interface Told {
  readonly text: string;
  /** The way back, if there is one. */
  readonly action?: { readonly label: string; readonly run: () => void };
}

/** What was just done, until the next thing is or it is put away. */
export class Toasts {
  current = $state.raw<Told>();

  say(told: Told): void {
    this.current = told;
  }

  close(): void {
    this.current = undefined;
  }
}
