// What holds on every screen, whatever it is for.
import { expect } from 'vitest';
import type { Phone } from '../harness/browser';

/** WCAG 2.2 asks for 24 px; a thumb in a glove needs this. */
const TARGET_PX = 48;

/**
 * Looks a screen over: axe-core in light and dark, nothing wider than the phone at the person's
 * text size and at twice that, each target large enough for a glove. `sizesAlone`: without axe.
 */
export async function lookOver(
  phone: Phone,
  screen: string,
  { sizesAlone = false } = {},
): Promise<void> {
  const { page } = phone;
  for (const colorScheme of sizesAlone ? [] : (['dark', 'light'] as const)) {
    await page.emulateMedia({ colorScheme });
    // What follows the scheme is drawn a frame later.
    await page.evaluate(
      () => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))),
    );
    try {
      // Both have one structure: it is checked once, the contrast in both.
      await phone.checkAccessibility(phone.page, { colours: colorScheme === 'dark' });
    } catch (cause) {
      throw new Error(`${screen}, ${colorScheme}: ${String(cause)}`, { cause });
    }
  }
  expect(await tooWide(phone), `${screen} is wider than the phone`).toEqual([]);
  expect(await smallTargets(phone), `${screen}: targets under ${TARGET_PX} px`).toEqual([]);
  await page.evaluate(() => document.documentElement.style.setProperty('font-size', '200%'));
  try {
    expect(await tooWide(phone), `${screen} with text at 200 % is wider than the phone`).toEqual([]);
  } finally {
    await page.evaluate(() => document.documentElement.style.removeProperty('font-size'));
  }
}

/** What sticks out to the right, if the page or the open sheet scrolls sideways. */
async function tooWide(phone: Phone): Promise<string[]> {
  return phone.page.evaluate(async () => {
    // Figures are drawn to the width that they find, a frame later.
    await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
    const roots = [
      document.scrollingElement as Element,
      ...document.querySelectorAll('dialog[open]'),
    ];
    return roots
      .filter((root) => root.scrollWidth > root.clientWidth)
      .flatMap((root) => {
        const edge = root.getBoundingClientRect().left + root.clientWidth;
        const out = [...root.querySelectorAll('*')]
          .filter((node) => node.checkVisibility() && node.getBoundingClientRect().right > edge + 0.5)
          .map((node) => `<${node.localName} class="${node.getAttribute('class')}"> ${node.textContent?.trim().slice(0, 40)}`);
        return [`${root.localName}: ${root.scrollWidth} in ${root.clientWidth}`, ...out.slice(-4)];
      });
  });
}

/** What can be pressed and is smaller than a target. */
async function smallTargets(phone: Phone): Promise<string[]> {
  return phone.page.evaluate((least) => {
    const sheet = [...document.querySelectorAll('dialog[open]')].at(-1);
    const all = (sheet ?? document).querySelectorAll<HTMLElement>(
      'a[href], button, input, textarea, select, summary, [role="slider"]',
    );
    return [...all]
      .filter((node) => node.checkVisibility({ visibilityProperty: true }))
      .map((node) => {
        // An answer is its whole row, not the ring in it.
        const target = node.closest('label') ?? node;
        const { width, height } = target.getBoundingClientRect();
        return { node, width, height };
      })
      .filter(({ width, height }) => Math.min(width, height) < least - 0.01)
      .map(
        ({ node, width, height }) =>
          `${Math.round(width)} x ${Math.round(height)}: <${node.localName}> ${node.getAttribute('aria-label') ?? node.textContent?.trim().slice(0, 50)}`,
      );
  }, TARGET_PX);
}
