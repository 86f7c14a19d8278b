// The bench PC: everything by keyboard, the list beside the work.
import type { Page } from 'playwright-core';
import { Phone, expect, test as onPhone } from '../harness/browser';
import { waits } from '../pages/phone-hands';
import { ask, readyForReadings, storedReadings } from '../pages/shop';

/** The name of what has the focus, as it is read out. */
const focused = (page: Page) =>
  page.evaluate(() => {
    const node = document.activeElement;
    if (!node || node === document.body) return '';
    const labelled = node.getAttribute('aria-labelledby')?.split(' ') ?? [];
    const words = labelled.map((id) => document.getElementById(id)?.textContent ?? '').join(' ');
    const label = node instanceof HTMLInputElement ? (node.labels?.[0]?.textContent ?? '') : '';
    return (words || node.getAttribute('aria-label') || label || node.textContent || '').replace(/\s+/g, ' ').trim();
  });

/** Presses Tab until something has the focus. What has it must be seen to have it. */
async function tabTo(page: Page, name: string | RegExp): Promise<void> {
  const passed: string[] = [];
  for (let count = 0; count < 80; count += 1) {
    await page.keyboard.press('Tab');
    const at = await focused(page);
    passed.push(at);
    const clear = await page.evaluate(() => {
      const node = document.activeElement;
      if (!(node instanceof HTMLElement) || node === document.body) return true;
      const box = (node.closest('label') ?? node).getBoundingClientRect();
      const outline = getComputedStyle(node).outlineStyle;
      const label = node.closest('label');
      const shown = outline !== 'none' || (label && getComputedStyle(label).outlineStyle !== 'none');
      const styled = getComputedStyle(node).boxShadow !== 'none' || getComputedStyle(node).borderStyle !== 'none';
      return box.bottom > 0 && box.top < innerHeight && (shown || styled);
    });
    expect(clear, `the focus on “${at}” can be seen`).toBe(true);
    if (typeof name === 'string' ? at === name : name.test(at)) return;
  }
  throw new Error(`Tab never came to ${name}; it passed ${passed.join(' | ')}`);
}

const sees = (page: Page, what: string | RegExp) =>
  expect
    .poll(async () => {
      const text = await page.locator('body').innerText();
      return typeof what === 'string' ? text.includes(what) : what.test(text);
    }, waits(`${what}`))
    .toBe(true);

const test = onPhone.extend({ settings: { width: 1280, height: 800 } });

test('from an open job to a recorded reading with keys alone', async ({ phone }) => {
  const { page } = phone;
  const { test: id } = await readyForReadings(phone.server);
  await phone.open();
  await sees(page, 'Marta Oyelaran is working');

  // Find the job, open it, go on with its test.
  await page.keyboard.press('/');
  await expect
    .poll(() => page.evaluate(() => (document.activeElement as HTMLInputElement | null)?.type), waits('the search'))
    .toBe('search');
  await page.keyboard.type('2018 hatchback');
  await sees(page, /\b1 job\b/);
  await tabTo(page, /2018 Wendover hatchback/);
  await page.keyboard.press('Enter');
  await sees(page, 'Go on with the test');
  await page.keyboard.press('Control+Enter');
  await sees(page, 'Wait until the needle stands still.');

  // How is it done? The focus comes back to where it was.
  await tabTo(page, 'How: Readings, turned and seated anew');
  await page.keyboard.press('Enter');
  await sees(page, 'Lift the plug off');
  await page.keyboard.press('Escape');
  await expect.poll(() => focused(page), waits('the focus')).toBe('How: Readings, turned and seated anew');

  // A digit opens the pad and is not lost; n, j and u are only letters there.
  await tabTo(page, /^Vacuum at the gauge/);
  await page.keyboard.type('17');
  await page.locator('dialog[open]').getByRole('textbox').waitFor();
  expect(await page.locator('dialog[open] input[type="text"]').inputValue()).toBe('17');
  await page.keyboard.type('.2');
  await page.keyboard.press('Escape');
  await expect.poll(() => page.locator('dialog[open]').count(), waits('the pad to close')).toBe(0);
  expect(await focused(page)).toMatch(/^Vacuum at the gauge/);
  await page.keyboard.press('Control+Enter');
  await sees(page, 'Before reading 2');
  expect(await storedReadings(phone.server, id)).toEqual([17.2 * 3386.388640341]);

  // The second one: the answer opens the pad, and Enter does what its last button does.
  await tabTo(page, /Valve turned/);
  await page.keyboard.press('Space');
  await page.locator('dialog[open]').getByRole('textbox').waitFor();
  await page.keyboard.type('17.1');
  await expect
    .poll(() => page.getByRole('button', { name: 'Save reading 2' }).last().isEnabled(), waits('it can be saved'))
    .toBe(true);
  await page.keyboard.press('Enter');
  await sees(page, 'Before reading 3');

  // And taken back.
  await page.keyboard.press('u');
  await sees(page, 'Undone: Reading');
  expect(await storedReadings(phone.server, id)).toEqual([17.2 * 3386.388640341]);
});

test('the keys are listed under ?, never act while typing, and can be switched off', async ({ phone }) => {
  const { page } = phone;
  await readyForReadings(phone.server);
  await phone.open();
  await sees(page, 'Marta Oyelaran is working');
  await page.keyboard.press('?');
  await sees(page, 'None of these acts while you type.');
  await phone.checkAccessibility();
  await page.keyboard.press('Escape');

  await page.keyboard.press('n');
  await sees(page, 'Which unit is on the bench?');
  await page.getByRole('textbox', { name: 'Year, make and model' }).focus();
  await page.keyboard.type('nj?gus/h');
  expect(await page.getByRole('textbox', { name: 'Year, make and model' }).inputValue()).toBe('nj?gus/h');
  expect(page.url()).toContain('#/jobs/new');
  await page.getByRole('textbox', { name: 'Year, make and model' }).fill('');

  await page.getByRole('textbox', { name: 'Year, make and model' }).blur();
  await page.keyboard.press('?');
  await page.getByRole('radio', { name: 'Off' }).check();
  await page.keyboard.press('Escape');
  await expect.poll(() => page.locator('dialog[open]').count(), waits('the sheet to close')).toBe(0);
  await page.keyboard.press('g');
  await page.keyboard.press('?');
  expect(page.url()).toContain('#/jobs/new');
  expect(await page.locator('dialog[open]').count()).toBe(0);
  await expect
    .poll(async () => JSON.stringify(await phone.server.call('draft.get', { key: 'device.here' })), waits('it kept'))
    .toContain('"single_keys":false');
});

test('the list stands beside the work and keeps its place and what is chosen', async ({ phone }) => {
  const { page } = phone;
  await readyForReadings(phone.server);
  await phone.open();
  await sees(page, 'Marta Oyelaran is working');
  const list = page.getByRole('navigation', { name: 'Jobs' });
  const scroller = list.locator('.list');
  const { jobs } = await ask(phone.server, 'job.list', {});
  const far = jobs.at(-2);
  const tested = jobs.find(({ state }) => state === 'outside_limit');
  if (!far || !tested) throw new Error('the demo shop lacks what the story needs');

  await list.getByRole('link', { name: new RegExp(far.number) }).click();
  await sees(page, `Job ${far.number}`);
  const down = await scroller.evaluate((node) => node.scrollTop);
  expect(down).toBeGreaterThan(0);
  await expect.poll(() => list.locator('[aria-current]').innerText(), waits('the choice')).toContain(far.number);

  // Into a test of another job: the list says whose it is.
  await list.getByRole('link', { name: new RegExp(tested.number) }).click();
  await sees(page, `Job ${tested.number}`);
  const before = await scroller.evaluate((node) => node.scrollTop);
  await page.locator('main').getByRole('link', { name: /Outside limit/ }).first().click();
  await sees(page, 'As recorded.');
  expect(page.url()).toContain('#/test/');
  await expect.poll(() => list.locator('[aria-current]').innerText(), waits('the choice')).toContain(tested.number);
  expect(await scroller.evaluate((node) => node.scrollTop)).toBe(before);
  // Side by side, not one above the other.
  const [left, right] = await Promise.all([list.boundingBox(), page.locator('main').boundingBox()]);
  expect(left && right && left.x + left.width <= right.x + 1).toBe(true);
  await phone.checkAccessibility();
  await phone.picture('desk');

  // Where there is less room the list gives way.
  await page.setViewportSize({ width: 990, height: 800 });
  await expect.poll(() => list.count(), waits('the list to give way')).toBe(0);
  await sees(page, 'As recorded.');
});

test('on its side a phone shows the whole pad, and asks for no motion', async () => {
  const phone = await Phone.start({ width: 800, height: 360 });
  try {
    const { page } = phone;
    await page.emulateMedia({ reducedMotion: 'reduce' });
    const { test: id } = await readyForReadings(phone.server);
    await phone.open();
    await phone.goTo(`#/test/${id}`);
    await sees(page, 'Wait until the needle stands still.');
    await page.getByRole('group', { name: 'Vacuum at the gauge' }).getByRole('button').first().tap();
    const pad = page.locator('dialog[open]');
    await pad.getByRole('textbox').waitFor();
    for (const name of ['1', '0', 'Decimal mark', 'Clear']) {
      const box = await pad.getByRole('button', { name, exact: true }).boundingBox();
      expect(box && box.y + box.height <= 360 && box.height >= 48, name).toBe(true);
    }
    const moving = await page.evaluate(() =>
      document.getAnimations().filter(({ playState }) => playState === 'running').length,
    );
    expect(moving).toBe(0);
    await phone.checkAccessibility();
    await phone.picture('pad-on-its-side');
    await page.setViewportSize({ width: 360, height: 800 });
    await expect.poll(() => pad.count(), waits('the pad to stay')).toBe(1);
  } finally {
    await phone.close();
  }
});
