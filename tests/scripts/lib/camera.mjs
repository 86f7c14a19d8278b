// The browser's side of `npm run pictures`: its pages, what is done on them between two pictures, and
// how a picture is kept.
import { statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { chromium } from 'playwright-core';
import { palettedPng } from './png.mjs';
import { Plain, ROOT, say } from './run.mjs';

const LIMIT_BYTES = 120_000;

/** A browser without a window. */
export function launch() {
  return chromium.launch({
    executablePath: '/usr/bin/chromium-headless-shell',
    args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--disable-sync'],
  });
}

/** What the album does on the phone between two pictures. */
export function handsOf(page) {
  const top = async () => {
    const sheet = page.locator('dialog[open]');
    return (await sheet.count()) > 0 ? sheet.last() : page;
  };
  return {
    reload: async () => {
      await page.reload();
      await page.locator('h1').first().waitFor();
    },
    goTo: (place, ...sees) => goTo(page, place, ...sees),
    sees: (text) => page.getByText(text).first().waitFor(),
    press: async (name) => (await top()).getByRole('button', { name, exact: typeof name === 'string' }).first().tap(),
    choose: async (answer) => {
      const label = page.locator('label').filter({ hasText: answer }).first();
      await label.tap();
    },
    openPad: async (field) => {
      await page.getByRole('group', { name: field, exact: true }).getByRole('button').first().tap();
      await page.locator('dialog[open]').getByRole('textbox').waitFor();
    },
    keys: async (keys) => {
      const pad = page.locator('dialog[open]').last();
      await pad.waitFor();
      for (const key of keys) {
        await pad.getByRole('button', { name: key === '.' ? 'Decimal mark' : key, exact: true }).tap();
      }
    },
    scrollTo: (text) => scrollTo(page, page.getByText(text).first()),
    /** Opens what is folded away. */
    open: (name) => page.locator('summary').filter({ hasText: name }).first().tap(),
    select: (field, option) => page.getByLabel(field, { exact: typeof field === 'string' }).first().selectOption(option),
    /** Gives a file to the field of this name. */
    bring: (field, file) => page.getByLabel(field, { exact: true }).setInputFiles(file),
  };
}

/** A page on a server. `text`: how much larger than usual its letters are. */
export async function pageOf(browser, address, viewport, { deviceScaleFactor = 1, text = 1 } = {}) {
  const phone = viewport.width < 600;
  const context = await browser.newContext({
    viewport,
    colorScheme: 'light',
    deviceScaleFactor,
    hasTouch: phone,
    isMobile: phone,
    locale: 'en-US',
    timezoneId: 'UTC',
    reducedMotion: 'reduce',
  });
  if (text !== 1) {
    await context.addInitScript((times) => {
      document.addEventListener('DOMContentLoaded', () => {
        document.documentElement.style.fontSize = `${100 * times}%`;
      });
    }, text);
  }
  const page = await context.newPage();
  await page.goto(address);
  await page.locator('h1').first().waitFor();
  return page;
}

/** Goes to a place and waits for one of what may be seen there. */
export async function goTo(page, place, ...sees) {
  await page.evaluate((to) => (location.hash = to), place);
  const any = sees.map((text) => page.getByText(text)).reduce((one, other) => one.or(other));
  await any.first().waitFor();
  await page.evaluate(() => window.scrollTo(0, 0));
}

/** A key of the keyboard, once the page takes any. */
export async function pressKey(page, key) {
  await page.locator('h1').first().waitFor();
  await page.keyboard.press(key);
}

/** Brings something right under the bar at the top. */
export async function scrollTo(page, what) {
  await what.evaluate((node) => {
    const bar = document.querySelector('header').getBoundingClientRect().height;
    window.scrollBy(0, node.getBoundingClientRect().top - bar - 8);
  });
}

/** Takes a picture of a page once nothing moves on it any more. */
export async function take(page, file, colours) {
  await page.evaluate(async () => {
    await document.fonts.ready;
    // What is still on its way in belongs to the picture.
    for (let before = ''; before !== document.body.innerHTML; ) {
      before = document.body.innerHTML;
      await new Promise((done) => setTimeout(done, 150));
      await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
    }
  });
  await keep(page, await page.screenshot({ animations: 'disabled', caret: 'hide' }), file, colours);
}

/** Keeps a PNG with few colours. */
export async function keep(page, png, file, colours) {
  writeFileSync(file, palettedPng(await pixelsOf(page.context().browser(), png), colours));
  const { size } = statSync(file);
  say(`${path.relative(ROOT, file)}: ${Math.round(size / 1000)} kB`);
  if (size > LIMIT_BYTES) {
    throw new Plain(`${path.basename(file)} is larger than ${LIMIT_BYTES / 1000} kB`);
  }
}

/** The pixels of a picture, read by a browser page that belongs to nobody. */
async function pixelsOf(browser, png) {
  const page = await browser.newPage();
  try {
    const { width, height, base64 } = await page.evaluate(async (source) => {
      const image = new Image();
      image.src = `data:image/png;base64,${source}`;
      await image.decode();
      const { width, height } = image;
      const canvas = new OffscreenCanvas(width, height);
      const context = canvas.getContext('2d');
      context.drawImage(image, 0, 0);
      const bytes = context.getImageData(0, 0, width, height).data;
      let text = '';
      for (let at = 0; at < bytes.length; at += 32_768) {
        text += String.fromCharCode(...bytes.subarray(at, at + 32_768));
      }
      return { width, height, base64: btoa(text) };
    }, png.toString('base64'));
    return { width, height, rgba: Buffer.from(base64, 'base64') };
  } finally {
    await page.close();
  }
}
