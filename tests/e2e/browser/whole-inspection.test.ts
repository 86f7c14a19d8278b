// The whole inspection in Chromium: the first bores on the small phone, one on a larger phone, one
// on the bench PC; the plan at all three.
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Phone } from '../harness/browser';
import { PhoneHands, waits } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { Technician } from '../pages/technician';
import { WholeInspection } from '../pages/whole-inspection';

const SIZES = {
  'small phone': { width: 360, height: 800 },
  'large phone': { width: 412, height: 915 },
  'bench PC': { width: 1280, height: 800 },
} as const;

let phone: Phone;
let story: WholeInspection;

beforeAll(async () => {
  phone = await Phone.start();
  const hands = new PhoneHands(phone.page);
  const technician = new Technician(hands);
  const goTo = async (place: string) => {
    await phone.page.evaluate((to) => (location.hash = to), place);
    await expect.poll(() => new URL(phone.page.url()).hash, waits(place)).toBe(place);
  };
  const look = (screen: string) => lookOver(phone, screen);
  story = new WholeInspection({ hands, technician, core: phone.server, goTo, look });
});
afterAll(() => phone.close());

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
