/** One line that says what was just done. */
export interface Told {
  readonly text: string;
  /** The way back, if there is one. */
  readonly action?: { readonly label: string; readonly run: () => void };
}

/** What was just done, until the next thing is or it is put away. */
export class Toasts {
  current = $state.raw<Told>();
  #moves = 0;

  say(told: Told): void {
    this.current = told;
    this.#moves = 0;
  }

  /** One went elsewhere. What was done on the way to a place is still news there, but not later. */
  moved(): void {
    this.#moves += 1;
    if (this.#moves > 1) this.close();
  }

  close(): void {
    this.current = undefined;
  }
}
