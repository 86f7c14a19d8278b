// What a thumb does on the phone: taps, and apart from them the digits of the pad, step by step.
import type { Page } from 'playwright-core';

export interface Count {
  taps: number;
  digits: number;
}

export class Thumb {
  readonly #steps: { step: string; taps: number; digits: number }[] = [];

  private constructor(private readonly page: Page) {}

  /** Counts from now on, as long as the page isn't loaded anew. */
  static async watch(page: Page): Promise<Thumb> {
    await page.evaluate(() => {
      const count = { taps: 0, digits: 0 };
      Object.assign(window, { thumb: count });
      document.addEventListener(
        // Where the thumb comes down: a click on an answer's words is told to its ring, too.
        'pointerdown',
        (event) => {
          if (!event.isTrusted || !(event.target instanceof Element)) return;
          if (event.target.closest('.digits')) count.digits += 1;
          else count.taps += 1;
        },
        true,
      );
    });
    return new Thumb(page);
  }

  /** All so far. */
  count(): Promise<Count> {
    return this.page.evaluate(() => (window as unknown as { thumb: Count }).thumb);
  }

  /** What a step of the work takes. */
  async step(step: string, work: () => Promise<void>): Promise<void> {
    const before = await this.count();
    await work();
    const after = await this.count();
    this.#steps.push({
      step,
      taps: after.taps - before.taps,
      digits: after.digits - before.digits,
    });
  }

  /** Each step with its taps, for who reads the test's output. */
  table(): string {
    return this.#steps
      .map(({ step, taps, digits }) => `  ${String(taps).padStart(2)} taps, ${String(digits).padStart(2)} digits: ${step}`)
      .join('\n');
  }
}
