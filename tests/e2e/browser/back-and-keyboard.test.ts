// The phone's own ways: the system's back over a pad or sheet, its keyboard, a phone on its side.
import type { Page } from 'playwright-core';
import { expect, test } from '../harness/browser';
import { PhoneHands, waits } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { readyForReadings } from '../pages/shop';

const sheets = (page: Page) => page.locator('dialog[open]').count();
const address = (page: Page) => page.evaluate(() => location.hash);

/** The system's back, as its gesture gives it. */
async function back(page: Page, open: number): Promise<void> {
  await page.goBack();
  await expect.poll(() => sheets(page), waits(`${open} sheets open`)).toBe(open);
}

test('back closes the pad, then the page; what was typed is there again', async ({ phone }) => {
  const { page } = phone;
  const { test: id } = await readyForReadings(phone.server);
  await phone.open();
  const hands = new PhoneHands(page);
  await hands.press(/2018 Wendover hatchback/);
  await hands.press('Go on with the test');
  await hands.sees('Wait until the needle stands still.');
  const here = await address(page);
  expect(here).toBe(`#/test/${id}`);

  await hands.openPad('Vacuum at the gauge');
  await hands.keys('17.2');
  await back(page, 0);
  expect(await address(page)).toBe(here);
  await hands.sees('17.2');

  // The unit, the menu and the guide are sheets too.
  await hands.press(/^Vacuum at the gauge: unit/);
  await expect.poll(() => sheets(page), waits('the units')).toBe(1);
  await back(page, 0);
  await hands.press('More');
  await expect.poll(() => sheets(page), waits('the menu')).toBe(1);
  await back(page, 0);
  expect(await address(page)).toBe(here);

  // Closed by its own button, it leaves nothing to go back through.
  await hands.openPad('Vacuum at the gauge');
  await hands.press('Close');
  await expect.poll(() => sheets(page), waits('no sheet')).toBe(0);
  await page.goBack();
  await hands.sees('Go on with the test');
  await page.goForward();
  await hands.sees('17.2');
});

/** Where the thing with the focus stands, and whether it is what one sees there. */
const focus = (page: Page) =>
  page.evaluate(() => {
    const node = document.activeElement as HTMLElement;
    const box = node.getBoundingClientRect();
    const view = visualViewport ?? { offsetTop: 0, height: innerHeight };
    const shown = [box.top + 4, Math.min(box.bottom, box.top + 48) - 4].every((y) => {
      const there = document.elementFromPoint(box.left + box.width / 2, y);
      return there !== null && (node === there || node.contains(there));
    });
    return {
      what: node.tagName,
      inside: box.top >= view.offsetTop && box.top + Math.min(box.height, 48) <= view.offsetTop + view.height,
      shown,
    };
  });

/** The button that the page or sheet is about can be brought up and is not covered there. */
async function canPress(page: Page, name: string | RegExp): Promise<void> {
  const top = (await sheets(page)) > 0 ? page.locator('dialog[open]').last() : page.locator('body');
  const button = top.getByRole('button', { name, ...(typeof name === 'string' ? { exact: true } : {}) }).first();
  await button.scrollIntoViewIfNeeded();
  await expect
    .poll(
      () =>
        button.evaluate((node) => {
          const { left, top, width, height } = node.getBoundingClientRect();
          const there = document.elementFromPoint(left + width / 2, top + height / 2);
          return there !== null && node.contains(there);
        }),
      waits(`${name}`),
    )
    .toBe(true);
}

const WITH_KEYBOARD = { width: 360, height: 380 };
const ON_ITS_SIDE = { width: 800, height: 360 };
const UPRIGHT = { width: 360, height: 800 };

/** Taps a field, lets the keyboard come up, and types. */
async function typesWithKeyboard(page: Page, label: string, words: string, button: string): Promise<void> {
  await page.setViewportSize(UPRIGHT);
  const field = page.getByRole('textbox', { name: label, exact: true });
  await field.scrollIntoViewIfNeeded();
  await field.tap();
  for (const size of [WITH_KEYBOARD, ON_ITS_SIDE]) {
    await page.setViewportSize(size);
    await expect
      .poll(() => focus(page), waits(`“${label}” in view at ${size.width}x${size.height}`))
      .toMatchObject({ inside: true, shown: true });
    await page.keyboard.type(words);
    expect(await focus(page)).toMatchObject({ inside: true, shown: true });
    await canPress(page, button);
  }
}

test('the field that is typed into stays in view as the keyboard comes up', async ({ phone }) => {
  const { page } = phone;
  const hands = new PhoneHands(page);
  // In a sheet at the bottom edge.
  await hands.press('Someone else');
  await typesWithKeyboard(page, 'Name', 'Ada', 'Work under this name');
  await lookOver(phone, 'a new person on a phone on its side');
  await page.setViewportSize(UPRIGHT);
  await hands.press('Inês Harrowgate');
  // In a long form, above the bar with its button.
  await hands.press('New job');
  await typesWithKeyboard(page, 'What is wrong, and when?', 'Harsh', 'Open the job');
  await typesWithKeyboard(page, 'Year, make and model', '2019', 'Open the job');
  await lookOver(phone, 'a new job on a phone on its side');
  await page.setViewportSize(WITH_KEYBOARD);
  await lookOver(phone, 'a new job with the keyboard up');
  // In the profile of a unit.
  await phone.goTo('#/units/new');
  await typesWithKeyboard(page, 'Where this comes from', 'Measured', 'Save and go on');
});

test('the pad can be worked on a small and on a lying screen', async ({ phone }) => {
  const { page } = phone;
  await readyForReadings(phone.server);
  await phone.open();
  const hands = new PhoneHands(page);
  await hands.press(/2018 Wendover hatchback/);
  await hands.press('Go on with the test');
  await hands.sees('Wait until the needle stands still.');
  for (const size of [WITH_KEYBOARD, ON_ITS_SIDE]) {
    await page.setViewportSize(size);
    await hands.openPad('Vacuum at the gauge');
    expect(await focus(page)).toMatchObject({ what: 'INPUT', inside: true, shown: true });
    await hands.keys('17.2');
    await canPress(page, '3');
    await canPress(page, /Save|Done|Record/);
    await lookOver(phone, `the pad at ${size.width}x${size.height}`);
    // Turned with the pad open: it stays, and so does what was typed.
    await page.setViewportSize({ width: size.height, height: size.width });
    expect(await sheets(page)).toBe(1);
    expect(await page.locator('dialog[open]').getByRole('textbox').inputValue()).toContain('17.2');
    await page.setViewportSize(size);
    await back(page, 0);
  }
});
