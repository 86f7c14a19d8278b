/** A window with a history as browsers keep it: stepping back is asked for now and happens later. */
export class PageWithHistory extends EventTarget {
  readonly document = document;
  readonly location = { hash: '' };
  readonly scrollY = 0;
  /** Each entry's state and address, up to the newest. */
  entries: { state: unknown; hash: string }[];
  at = 0;
  #steps: number[] = [];

  readonly history = {
    page: this as PageWithHistory,
    get state(): unknown {
      return this.page.entries[this.page.at]?.state ?? null;
    },
    get length(): number {
      return this.page.entries.length;
    },
    pushState(state: unknown, _: string, hash?: string) {
      const { page } = this;
      page.entries.splice(page.at + 1);
      page.entries.push({ state, hash: hash ?? page.location.hash });
      page.at += 1;
      page.location.hash = page.entries[page.at]?.hash ?? '';
    },
    replaceState(state: unknown, _: string, hash?: string) {
      const { page } = this;
      page.entries[page.at] = { state, hash: hash ?? page.location.hash };
      page.location.hash = page.entries[page.at]?.hash ?? '';
    },
    go(steps: number) {
      this.page.#steps.push(steps);
    },
    back() {
      this.go(-1);
    },
  };

  constructor(hash: string) {
    super();
    this.location.hash = hash;
    this.entries = [{ state: null, hash }];
  }

  /** What the person asks the system for: one step back. */
  async systemBack(): Promise<void> {
    this.history.back();
    await this.settled();
  }

  /** All steps that were asked for are made, with what follows from them. */
  async settled(): Promise<void> {
    for (;;) {
      for (let turn = 0; turn < 5; turn += 1) await Promise.resolve();
      const step = this.#steps.shift();
      if (step === undefined) return;
      this.at = Math.min(Math.max(this.at + step, 0), this.entries.length - 1);
      this.location.hash = this.entries[this.at]?.hash ?? '';
      this.dispatchEvent(new Event('popstate'));
    }
  }
}
