// The hands in the app's own window, through WebDriver: found by what a person reads, pressed by
// the driver's pointer.
import { expect } from 'vitest';
import { type Hands, plain } from './hands';
import { slideTo, waits } from './phone-hands';

type Found = 'pressable' | 'answer' | 'text field' | 'number' | 'pad key' | 'slider';

export class WindowHands implements Hands {
  /** The page of the window that is open now: another one after a restart. */
  constructor(private readonly page: () => WebdriverIO.Browser) {}

  async press(name: string | RegExp): Promise<void> {
    await this.#click('pressable', typeof name === 'string' ? name : name.source, typeof name !== 'string');
  }

  async choose(question: string, answer: string): Promise<void> {
    await this.#click('answer', answer, false, question);
  }

  async write(label: string, text: string): Promise<void> {
    const field = await this.#find('text field', label);
    await field.setValue(text);
  }

  async slide(label: string, share: number): Promise<void> {
    await this.page().execute(slideTo, await this.#find('slider', label), share);
  }

  async openPad(label: string): Promise<void> {
    await this.#click('number', label);
    const opened = () => this.page().execute(() => document.querySelector('dialog[open] input') !== null);
    await expect.poll(opened, waits(`the pad of ${label}`)).toBe(true);
  }

  async keys(keys: string): Promise<void> {
    for (const key of keys) await this.#click('pad key', /\d/.test(key) ? key : 'Decimal mark');
  }

  async text(): Promise<string> {
    return plain(await this.page().execute(() => document.body.innerText));
  }

  async sees(what: string | RegExp): Promise<void> {
    const holds = (text: string) => (typeof what === 'string' ? text.includes(what) : what.test(text));
    await expect.poll(async () => holds(await this.text()), waits(`${what}`)).toBe(true);
  }

  async #click(kind: Found, name: string, pattern = false, question?: string): Promise<void> {
    const node = await this.#find(kind, name, pattern, question);
    await node.click();
  }

  /** Waits for the thing, brings it to where nothing lies over it, and hands it over. */
  async #find(kind: Found, name: string, pattern = false, question?: string) {
    const look = () => this.page().execute(findOnPage, kind, name, pattern, question ?? null);
    await expect.poll(async () => (await look()) !== null, waits(`${kind} “${name}”`)).toBe(true);
    return this.page().$((await look()) as unknown as WebdriverIO.Element);
  }
}

/** Runs in the page: the thing of that kind and name that can be seen and used now. */
function findOnPage(kind: string, name: string, pattern: boolean, question: string | null): Element | null {
  const top = [...document.querySelectorAll('dialog[open]')].at(-1) ?? document.body;
  const words = (text: string | null | undefined) => (text ?? '').replace(/\s+/g, ' ').trim();
  const isNamed = (text: string) => (pattern ? new RegExp(name).test(text) : text === name);
  const isSeen = (node: Element) => node.checkVisibility() && node.getClientRects().length > 0;
  const nameOf = (node: Element) => {
    const label = node.getAttribute('aria-label');
    if (label !== null) return words(label);
    // What is hidden from a screen reader is no part of the name.
    const read = node.cloneNode(true) as Element;
    for (const hidden of read.querySelectorAll('[aria-hidden="true"]')) hidden.remove();
    return words(read.textContent);
  };
  const group = (label: string) =>
    [...document.querySelectorAll('fieldset, [role="group"]')].find((node) => {
      const by = (node.getAttribute('aria-labelledby') ?? '').split(' ')[0] ?? '';
      const own = node.querySelector(':scope > legend') ?? document.getElementById(by);
      return isSeen(node) && words(own?.textContent) === label;
    });
  const find = (): Element | null | undefined => {
    switch (kind) {
      case 'answer':
        return [...(group(question ?? '')?.querySelectorAll('label') ?? [])].find((label) =>
          [...label.querySelectorAll('b, span')].some((node) => words(node.textContent) === name),
        );
      case 'slider':
      case 'text field': {
        const label = [...top.querySelectorAll('label')].find((node) => words(node.textContent) === name);
        return label && document.getElementById(label.htmlFor);
      }
      case 'number':
        return group(name)?.querySelector('button');
      default:
        return [...top.querySelectorAll('button:not([disabled]), a[href], summary')].find(
          (node) => isSeen(node) && isNamed(nameOf(node)),
        );
    }
  };
  const node = find();
  if (!node || !isSeen(node)) return null;
  // Bars stay at the top and the bottom of the window; the middle is free.
  const { top: from, bottom: to } = node.getBoundingClientRect();
  const fixed = node.closest('dialog, header') !== null;
  if (!fixed && (from < 110 || to > innerHeight - 200)) node.scrollIntoView({ block: 'center', behavior: 'instant' });
  return node;
}
