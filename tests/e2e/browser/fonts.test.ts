// What the app writes is set in its own typefaces: no font of the system fills in, which would look
// and measure otherwise on each device.
import type { CDPSession } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { Phone } from '../harness/browser';
import { PhoneHands } from '../pages/phone-hands';
import { ask, judgedBore } from '../pages/shop';

/** What the web fonts' own subsets lack and the app or a person writes. */
const SIGNS = 'µ μ Δ Ω ≈ ≤ ≥';

let phone: Phone;
let hands: PhoneHands;
let cdp: CDPSession;

beforeAll(async () => {
  phone = await Phone.start();
  hands = new PhoneHands(phone.page);
  cdp = await phone.context.newCDPSession(phone.page);
  await cdp.send('DOM.enable');
  await cdp.send('CSS.enable');
});
afterAll(async () => {
  await phone.close();
});

/** The system's fonts that were used for text on the page, with what they were used in. */
async function strangers(): Promise<string[]> {
  await phone.page.evaluate(() => document.fonts.ready);
  const { root } = await cdp.send('DOM.getDocument', { depth: 0 });
  const { nodeIds } = await cdp.send('DOM.querySelectorAll', { nodeId: root.nodeId, selector: 'body *' });
  const found: string[] = [];
  for (const nodeId of nodeIds) {
    const { fonts } = await cdp.send('CSS.getPlatformFontsForNode', { nodeId });
    for (const { familyName, isCustomFont } of fonts) {
      if (isCustomFont) continue;
      const { outerHTML } = await cdp.send('DOM.getOuterHTML', { nodeId });
      found.push(`${familyName}: ${outerHTML.slice(0, 200)}`);
    }
  }
  return found;
}

test('each weight of both typefaces has the signs of units and comparisons', async () => {
  await hands.sees('Who is working?');
  const sample = (family: string, weight: number) =>
    phone.page.evaluate(
      ([font, bold, text]) => {
        const line = document.createElement('p');
        line.id = 'sample';
        line.textContent = text;
        line.style.fontFamily = font;
        line.style.fontWeight = bold;
        document.querySelector('#sample')?.remove();
        document.body.append(line);
      },
      [`'${family}', serif`, `${weight}`, SIGNS] as const,
    );
  for (const [family, weights] of [
    ['Atkinson Hyperlegible Next', [400, 600, 700]],
    ['Atkinson Hyperlegible Mono', [400, 600]],
  ] as const) {
    for (const weight of weights) {
      await sample(family, weight);
      await expect.poll(strangers, { timeout: 20_000, message: `${family} ${weight}` }).toEqual([]);
    }
  }
  await phone.page.evaluate(() => document.querySelector('#sample')?.remove());
});

test('a shop that reads in micrometres and ohms sees no other font', async () => {
  const { settings } = await ask(phone.server, 'shop.overview', {});
  await ask(phone.server, 'settings.put', { ...settings, length: 'mm' });
  const { job, bore, test: judged } = await judgedBore(phone.server, ['17.2', '16.9', '17.3']);
  await phone.open();
  for (const [place, sees] of [
    [`#/test/${judged}`, 'µm'],
    [`#/job/${job}/bore/${bore}`, 'Checks'],
    [`#/job/${job}/check/solenoid/-`, 'Ω'],
    ['#/settings', 'How are numbers written?'],
    ['#/guide/units', '25.4 µm'],
  ] as const) {
    await phone.goTo(place);
    await hands.sees(sees);
    await expect.poll(strangers, { timeout: 20_000, message: place }).toEqual([]);
  }
});
