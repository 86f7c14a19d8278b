// npm run pictures: takes pictures of every screen anew, light and dark, in Chromium on a fresh demo
// store, and writes them to tests/pictures with a page that lists them, small enough to be committed.
import { mkdirSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { spawn } from 'node:child_process';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { chromium } from 'playwright-core';
import { takeAlbum } from './lib/album.mjs';
import { buildInterface, buildPrograms } from './lib/build.mjs';
import { palettedPng } from './lib/png.mjs';
import { Plain, ROOT, built, main, say } from './lib/run.mjs';

const FOLDER = path.join(ROOT, 'tests', 'pictures');
const LIMIT_BYTES = 120_000;
const PHONE = { width: 360, height: 800 };
/** Enough for a screen, and half of the bytes. */
const FEW_COLOURS = 16;
const DESK = { width: 1280, height: 800 };

await main(async () => {
  await buildInterface();
  await buildPrograms();
  rmSync(FOLDER, { recursive: true, force: true });
  mkdirSync(path.join(FOLDER, 'screens'), { recursive: true });
  const folder = mkdtempSync(path.join(tmpdir(), 'valvewright-pictures-'));
  const server = await serve(path.join(folder, 'valvewright.db'));
  let browser;
  try {
    browser = await chromium.launch({
      executablePath: '/usr/bin/chromium',
      args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--disable-sync'],
    });
    await take(browser, server);
  } finally {
    await browser?.close();
    server.end();
    rmSync(folder, { recursive: true, force: true });
  }
});

/** `headless serve` on a store, and its commands. */
async function serve(store) {
  const ui = path.join(ROOT, 'ui', 'dist');
  const child = spawn(built('headless'), ['serve', '--store', store, '--ui', ui, '--port', '0'], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const address = await new Promise((resolve, reject) => {
    let text = '';
    child.stdout.on('data', (piece) => {
      text += piece;
      const found = /http:\/\/127\.0\.0\.1:\d+\/\?token=\w+/.exec(text);
      if (found) resolve(found[0]);
    });
    child.on('close', () => reject(new Plain('the headless program ended before it served')));
  });
  const { origin, searchParams } = new URL(address);
  return {
    address,
    end: () => child.kill(),
    call: async (command, args = {}) => {
      const answer = await fetch(`${origin}/call`, {
        method: 'POST',
        headers: {
          Authorization: `Bearer ${searchParams.get('token')}`,
          'Content-Type': 'application/json',
        },
        body: JSON.stringify({ command, args }),
      }).then((response) => response.json());
      if (answer.error) throw new Plain(`${command}: ${JSON.stringify(answer.error)}`);
      return answer.ok;
    },
  };
}

async function take(browser, server) {
  const phone = await pageOf(browser, server, PHONE, 1);
  const desk = await pageOf(browser, server, DESK, 1);
  const shots = [];
  const both = async (page, name, caption, place, sees) => {
    if (place) await goTo(page, place, sees);
    else await page.getByText(sees).first().waitFor();
    for (const colorScheme of ['light', 'dark']) {
      await page.emulateMedia({ colorScheme });
      await save(page, `screens/${name}-${colorScheme}`, FEW_COLOURS);
    }
    await page.emulateMedia({ colorScheme: 'light' });
    shots.push({ name, caption, wide: page === desk });
  };
  const { test } = await takeAlbum({
    call: server.call,
    hands: handsOf(phone),
    shot: (...shot) => both(phone, ...shot),
    wide: async (...shot) => {
      await desk.reload();
      await both(desk, ...shot);
    },
  });
  writeFileSync(path.join(FOLDER, 'README.md'), album(shots));

  // What the project's own page shows, as sharp as a phone does.
  const sharp = await pageOf(browser, server, PHONE, 2);
  await goTo(sharp, '#/jobs', 'Demonstration shop');
  await save(sharp, 'jobs');
  await goTo(sharp, `#/test/${test}`, 'As recorded.');
  await save(sharp, 'judgement');
  await scrollTo(sharp, sharp.getByRole('heading', { name: /^What the leak does/ }));
  await save(sharp, 'consequence');
}

/** The page that lists them all. */
function album(shots) {
  const row = ({ name, caption }) =>
    `| ${caption} | ![${caption}, light](screens/${name}-light.png) | ![${caption}, dark](screens/${name}-dark.png) |`;
  const table = (wide) => [
    '| Screen | Light | Dark |',
    '|---|---|---|',
    ...shots.filter((shot) => shot.wide === wide).map(row),
  ];
  return [
    '# Every screen, light and dark',
    '',
    'Taken by `npm run pictures` (`tests/scripts/lib/album.mjs` has what they show) in Chromium at 360 x 800, on the invented demo shop.',
    '',
    ...table(false),
    '',
    'At 1280 x 800:',
    '',
    ...table(true),
    '',
  ].join('\n');
}

/** What the album does on the phone between two pictures. */
function handsOf(page) {
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
  };
}

async function pageOf(browser, server, viewport, deviceScaleFactor) {
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
  const page = await context.newPage();
  await page.goto(server.address);
  await page.locator('h1').first().waitFor();
  return page;
}

/** Goes to a place and waits for one of what may be seen there. */
async function goTo(page, place, ...sees) {
  await page.evaluate((to) => (location.hash = to), place);
  const any = sees.map((text) => page.getByText(text)).reduce((one, other) => one.or(other));
  await any.first().waitFor();
  await page.evaluate(() => window.scrollTo(0, 0));
}

/** Brings something right under the bar at the top. */
async function scrollTo(page, what) {
  await what.evaluate((node) => {
    const bar = document.querySelector('header').getBoundingClientRect().height;
    window.scrollBy(0, node.getBoundingClientRect().top - bar - 8);
  });
}

async function save(page, name, colours) {
  await page.evaluate(async () => {
    await document.fonts.ready;
    // What is still on its way in belongs to the picture.
    for (let before = ''; before !== document.body.innerHTML; ) {
      before = document.body.innerHTML;
      await new Promise((done) => setTimeout(done, 150));
      await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
    }
  });
  const file = path.join(FOLDER, `${name}.png`);
  const png = await page.screenshot({ animations: 'disabled', caret: 'hide' });
  writeFileSync(file, palettedPng(await pixelsOf(page.context().browser(), png), colours));
  const { size } = statSync(file);
  say(`${path.relative(ROOT, file)}: ${Math.round(size / 1000)} kB`);
  if (size > LIMIT_BYTES) throw new Plain(`${name}.png is larger than ${LIMIT_BYTES / 1000} kB`);
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
