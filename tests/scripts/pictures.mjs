// npm run pictures: takes the README's pictures anew, in Chromium on a fresh demo store, and writes
// them to tests/pictures, small enough to be committed.
import { mkdirSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { spawn } from 'node:child_process';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { chromium } from 'playwright-core';
import { buildInterface, buildPrograms } from './lib/build.mjs';
import { palettedPng } from './lib/png.mjs';
import { Plain, ROOT, built, main, say } from './lib/run.mjs';

const FOLDER = path.join(ROOT, 'tests', 'pictures');
const LIMIT_BYTES = 120_000;
const INHG = 3386.388640341;
const PHONE = { width: 360, height: 800 };

await main(async () => {
  await buildInterface();
  await buildPrograms();
  mkdirSync(FOLDER, { recursive: true });
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
  const { people, units, stands } = await server.call('shop.overview');
  const named = (list, name) => list.find((it) => (it.stand ?? it).name === name).id;
  await server.call('person.choose', { person: named(people, 'Marta Oyelaran') });
  const { job } = await server.call('job.open', {
    unit: named(units, 'Larkmoor L6'),
    vehicle: { description: '2018 Wendover hatchback, 1.6' },
    complaint: { text: 'Harsh 2-3 once warm, fine when cold. Codes for two clutches.' },
    notes: { text: 'Feed tap 74 psi hot, climbs with line. Body comes out.' },
  });

  const light = await pageOf(browser, server, PHONE, 'light');
  const at = (page, place, sees) => goTo(page, place, sees);
  await at(light, '#/jobs', 'Demonstration shop');
  await save(light, 'jobs');
  await at(light, `#/job/${job}/cautions`, 'Caution 1 of 6');
  await save(light, 'caution');

  const { hazards, bores } = await server.call('job.get', { job });
  await server.call('caution.read', { job, hazards: hazards.map(({ hazard }) => hazard) });
  const { test } = await server.call('test.begin', {
    job,
    bore: bores[0].bore,
    test_point: bores[0].test_points[0].test_point,
    stand: named(stands, 'Bench 1, Hollow Lane'),
  });
  await light.reload();
  await at(light, `#/job/${job}`, 'Go on with the test');
  await save(light, 'job');

  await at(light, `#/test/${test}`, 'How thick is the air here today?');
  await light.getByRole('button', { name: /^Set-up\b/ }).tap();
  await light.getByText('Where does the valve stand?').waitFor();
  await light.locator('label').filter({ hasText: 'At rest' }).tap();
  await save(light, 'set-up');

  const record = (part, body) => server.call('test.record', { test, part: { part, body } });
  await record('setup', {
    ambient: { by: 'barometer', pressure_pa: 100_900 },
    air_temperature_k: 293.15,
    valve_position: 'at_rest',
    orifice: 'blocked',
    surface: 'dry',
  });
  await record('stand_check', {
    dead_head_vacuum_pa: 28.1 * INHG,
    orifices: [
      { label: '0.5', vacuum_pa: 21.4 * INHG },
      { label: '1.1', vacuum_pa: 5 * INHG },
    ],
  });
  await record('blank', { vacuum_pa: 27.7 * INHG });
  const reading = (inHg, reseated) =>
    record('reading', { vacuum_pa: inHg * INHG, reseated, as_typed: `${inHg} inHg` });
  await reading(17.2, false);
  await reading(16.9, true);

  await light.evaluate(() => (location.hash = '#/jobs'));
  await light.getByText('Demonstration shop').waitFor();
  await light.reload();
  await at(light, `#/test/${test}`, 'Solenoid feed regulator');
  await light.getByRole('button', { name: /^Readings\b/ }).tap();
  await light.locator('label').filter({ hasText: 'Valve turned, plug seated anew' }).tap();
  const pad = light.locator('dialog[open]');
  for (const key of ['1', '7', 'Decimal mark', '3']) {
    await pad.getByRole('button', { name: key, exact: true }).tap();
  }
  await save(light, 'reading');
  await pad.getByRole('button', { name: 'Done' }).tap();
  await light.getByRole('button', { name: 'Save reading 3' }).tap();
  await light.getByText('As recorded.').waitFor();
  await light.getByRole('button', { name: 'Put this message away' }).tap();
  await save(light, 'judgement');
  const figure = light.getByRole('heading', { name: /^What the leak does/ });
  await scrollTo(light, figure);
  await save(light, 'consequence');
  await scrollTo(light, light.getByRole('heading', { name: /^The leak itself/ }));
  await save(light, 'leak');

  await at(light, '#/units', 'Larkmoor L6');
  await light.getByText('Larkmoor L6').first().tap();
  await light.getByText('Dimensions as new').waitFor();
  await save(light, 'unit');
  await light.context().close();

  for (const [name, size, scheme] of [
    ['judgement-dark', PHONE, 'dark'],
    ['judgement-wide', { width: 1280, height: 800 }, 'light'],
  ]) {
    const page = await pageOf(browser, server, size, scheme);
    await at(page, `#/test/${test}`, 'As recorded.');
    await save(page, name);
    await page.context().close();
  }
}

async function pageOf(browser, server, viewport, colorScheme) {
  const phone = viewport.width < 600;
  const context = await browser.newContext({
    viewport,
    colorScheme,
    deviceScaleFactor: phone ? 2 : 1,
    hasTouch: phone,
    isMobile: phone,
    locale: 'en-US',
    timezoneId: 'UTC',
    reducedMotion: 'reduce',
  });
  const page = await context.newPage();
  await page.goto(server.address);
  await page.locator('h1').waitFor();
  return page;
}

async function goTo(page, place, sees) {
  await page.evaluate((to) => (location.hash = to), place);
  await page.getByText(sees).first().waitFor();
}

/** Brings something right under the bar at the top. */
async function scrollTo(page, what) {
  await what.evaluate((node) => {
    const bar = document.querySelector('header').getBoundingClientRect().height;
    window.scrollBy(0, node.getBoundingClientRect().top - bar - 8);
  });
}

async function save(page, name) {
  await page.evaluate(async () => {
    await document.fonts.ready;
    await new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done)));
  });
  const file = path.join(FOLDER, `${name}.png`);
  const png = await page.screenshot({ animations: 'disabled', caret: 'hide' });
  writeFileSync(file, palettedPng(await pixelsOf(page.context().browser(), png)));
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
