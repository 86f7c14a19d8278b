// The hands in Chromium: every touch is a tap.
import type { Locator, Page } from 'playwright-core';
import { expect } from 'vitest';
import { PATIENCE_MS } from '../harness/patience';
import { type Hands, plain } from './hands';

export class PhoneHands implements Hands {
  constructor(readonly page: Page) {}

  /** The sheet that is open, else the page. */
  async #top(): Promise<Locator> {
    const sheet = this.page.locator('dialog[open]');
    return (await sheet.count()) > 0 ? sheet.last() : this.page.locator('body');
  }

  async press(name: string | RegExp): Promise<void> {
    const exact = typeof name === 'string';
    const named = (top: Locator) =>
      top
        .getByRole('button', { name, exact, disabled: false })
        .or(top.getByRole('link', { name, exact }))
        .or(top.locator('summary').filter({ hasText: exact ? new RegExp(`^${escaped(name)}$`) : name }))
        .first();
    // A sheet may be on its way in or out: where the thing is, there it is pressed.
    await expect.poll(async () => named(await this.#top()).isVisible(), waits(`${name}`)).toBe(true);
    await named(await this.#top()).tap();
  }

  async choose(question: string, answer: string): Promise<void> {
    const group = this.page.getByRole('group', { name: question, exact: true });
    const words = this.page.getByText(answer, { exact: true });
    await group.locator('label').filter({ has: words }).tap();
  }

  async write(label: string, text: string): Promise<void> {
    const named = { name: label, exact: true };
    const box = (top: Locator) =>
      top.getByRole('textbox', named).or(top.getByRole('searchbox', named)).first();
    // Nobody can type below a sheet: `fill` would look for the field there all the same, get no
    // focus, and the words would go nowhere. So it waits until the sheet is out of the way.
    await expect.poll(async () => box(await this.#top()).isVisible(), waits(label)).toBe(true);
    await box(await this.#top()).fill(text);
  }

  async slide(label: string, share: number): Promise<void> {
    const slider = this.page.getByLabel(label, { exact: true });
    await slider.waitFor();
    await slider.evaluate(slideTo, share);
  }

  async openPad(label: string): Promise<void> {
    await this.field(label).getByRole('button').first().tap();
    await this.page.locator('dialog[open]').last().getByRole('textbox').waitFor();
  }

  async keys(keys: string): Promise<void> {
    const pad = this.page.locator('dialog[open]').last();
    for (const key of keys) {
      const name = /\d/.test(key) ? key : 'Decimal mark';
      await pad.getByRole('button', { name, exact: true }).tap();
    }
  }

  /** A number with its label, unit and findings. */
  field(label: string): Locator {
    return this.page.getByRole('group', { name: label, exact: true });
  }

  async text(): Promise<string> {
    return plain(await this.page.locator('body').innerText());
  }

  async sees(what: string | RegExp): Promise<void> {
    const holds = (text: string) => (typeof what === 'string' ? text.includes(what) : what.test(text));
    await expect.poll(async () => holds(await this.text()), waits(`${what}`)).toBe(true);
  }
}

/** Runs in the page: a thumb that stops at a share of the way. */
export function slideTo(slider: Element, share: number): void {
  const range = slider as HTMLInputElement;
  range.valueAsNumber = Number(range.min) + share * (Number(range.max) - Number(range.min));
  range.dispatchEvent(new Event('input', { bubbles: true }));
}

const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** For a poll of what is told by this message. */
export function waits(message: string): { timeout: number; message: string } {
  return { timeout: PATIENCE_MS, message };
}
