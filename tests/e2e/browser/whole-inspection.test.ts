// The whole inspection in Chromium: the first bores on the small phone, one on a larger phone, one
// on the bench PC; the plan at all three.
import { afterAll, beforeAll, describe, test } from 'vitest';
import { Phone } from '../harness/browser';
import { WholeInspection } from '../pages/whole-inspection';
import { SIZES, onPhone, type CarryingWindow } from '../pages/window';

let phone: Phone;
let window: CarryingWindow;
let story: WholeInspection;

beforeAll(async () => {
  phone = await Phone.start();
  window = onPhone(phone);
  story = new WholeInspection(window);
});
afterAll(async () => {
  await phone.close();
  window.remove();
});

const at = (size: keyof typeof SIZES) => phone.page.setViewportSize(SIZES[size]);

describe('a whole inspection', () => {
  test('it begins with the cautions and the plan', async () => {
    await story.prepares();
    await story.plansIt();
  });
  test('one bore holds its pressure', () => story.findsOneSound());
  test('one is too close to call, and settled', () => story.settlesOneTooClose());
  test('of one the checks contradict each other, until it is known why', () => story.explainsAContradiction());
  test('one sticks, found on a larger phone', async () => {
    await at('large phone');
    await story.findsOneThatSticks();
  });
  test('one has a tired spring, found at the bench PC', async () => {
    await at('bench PC');
    await story.findsATiredSpring();
  });
  for (const size of ['bench PC', 'large phone', 'small phone'] as const) {
    test(`the plan shows it all: ${size}`, async () => {
      await at(size);
      await story.seesItAll();
    });
  }
});
