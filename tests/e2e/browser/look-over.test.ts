// The look-over of a screen must be able to find fault.
import { expect, test } from '../harness/browser';
import { PhoneHands } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { readFigure, expectFigure, expectInterval } from '../pages/figures';
import type { Phone } from '../harness/browser';

/** Puts something on the screen that doesn't belong there. */
async function put(phone: Phone, markup: string): Promise<void> {
  const hands = new PhoneHands(phone.page);
  await hands.sees('Who is working?');
  await hands.press('Marta Oyelaran');
  await hands.sees('Marta Oyelaran is working');
  await lookOver(phone, 'jobs');
  await phone.page.evaluate((html) => document.querySelector('main')?.insertAdjacentHTML('beforeend', html), markup);
}

for (const [fault, markup, found] of [
  ['a small target', '<button>x</button>', /targets under 48 px/],
  ['something wider than the phone', '<div><svg width="500" height="20"></svg></div>', /wider than the phone/],
  ['something that large text makes wider', '<div><svg width="14rem" height="20"></svg></div>', /text at 200 % is wider/],
  ['a picture without words', '<svg role="img" width="100" height="100"></svg>', /svg-img-alt/],
] as const) {
  test(`${fault} is found`, async ({ phone }) => {
    await put(phone, markup);
    await expect(lookOver(phone, 'jobs')).rejects.toThrow(found);
  });
}

test('a figure that is off by its last digit is found', () => {
  const INHG = 3386.389;
  expectFigure('mean', '17.1', 'inHg', 17.13 * INHG);
  expect(() => expectFigure('mean', '17.2', 'inHg', 17.13 * INHG)).toThrow(/17.2 inHg/);
  expectInterval('clearance', ['2.3', '3.2'], 'thou', [2.31 * 25.4e-6, 3.19 * 25.4e-6]);
  expect(() => expectInterval('clearance', ['2.4', '3.2'], 'thou', [2.31 * 25.4e-6, 3.19 * 25.4e-6])).toThrow();
  expect(() => expectInterval('clearance', ['2.3', '3.4'], 'thou', [2.31 * 25.4e-6, 3.19 * 25.4e-6])).toThrow();
  expect(readFigure('1.724,5', ',')).toEqual({ value: 1724.5, step: 0.1 });
});
