// npm run pictures: takes pictures of every screen anew, light and dark, in Chromium on a fresh demo
// store, and the pages of its reports; writes them to tests/pictures with a page that lists them,
// small enough to be committed.
import { execFileSync, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { takeAlbum, takeStatistics } from './lib/album.mjs';
import { takeNewShop } from './lib/album-new-shop.mjs';
import { buildInterface, buildPrograms } from './lib/build.mjs';
import { goTo, handsOf, keep, launch, pageOf, pressKey, scrollTo, take } from './lib/camera.mjs';
import { Plain, ROOT, built, main, must } from './lib/run.mjs';

const FOLDER = path.join(ROOT, 'tests', 'pictures');
const PHONE = { width: 360, height: 800 };
const DESK = { width: 1280, height: 800 };
/** Enough for a screen, and half of the bytes. */
const FEW_COLOURS = 16;
/** A page of a report, to be read and no more. */
const PAGE_DPI = 72;

/** What the album has, by where it was taken. */
const PARTS = {
  phone: 'On a phone, 360 x 800:',
  large: 'The same phone with its text at 200 %:',
  desk: 'At 1280 x 800:',
  page: 'The pages of a report’s PDF:',
};

await main(async () => {
  await buildInterface();
  await buildPrograms();
  rmSync(FOLDER, { recursive: true, force: true });
  for (const name of ['screens', 'pages']) mkdirSync(path.join(FOLDER, name), { recursive: true });
  const folder = mkdtempSync(path.join(tmpdir(), 'valvewright-pictures-'));
  const servers = [];
  const start = async (name, ...options) => {
    servers.push(await serve(path.join(folder, name), ...options));
    return servers.at(-1);
  };
  let browser;
  try {
    const server = await start('valvewright.db');
    browser = await launch();
    const startNew = () => start('new.db', '--empty');
    const startDamaged = () => {
      const file = path.join(folder, 'damaged.db');
      // Made and closed again, then spoilt behind the head that makes it a store.
      execFileSync(built('headless'), ['call', '--store', file], { input: '' });
      writeFileSync(file, readFileSync(file).fill(0x5a, 100, 4096));
      return start('damaged.db');
    };
    await picture(browser, server, { startNew, startDamaged }, folder);
  } finally {
    await browser?.close();
    for (const server of servers) server.end();
    rmSync(folder, { recursive: true, force: true });
  }
});

/** `headless serve` on a store, and its commands. */
async function serve(store, ...options) {
  const ui = path.join(ROOT, 'ui', 'dist');
  const asked = ['serve', '--store', store, '--ui', ui, '--port', '0', ...options];
  const child = spawn(built('headless'), asked, { stdio: ['ignore', 'pipe', 'inherit'] });
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

async function picture(browser, server, { startNew, startDamaged }, folder) {
  const shots = [];
  const screen = (name) => path.join(FOLDER, 'screens', `${name}.png`);
  const inBoth = async (page, name) => {
    for (const colorScheme of ['light', 'dark']) {
      await page.emulateMedia({ colorScheme });
      await take(page, screen(`${name}-${colorScheme}`), FEW_COLOURS);
    }
    await page.emulateMedia({ colorScheme: 'light' });
  };
  const shooting = (page, on, fresh) => async (name, caption, place, sees, key) => {
    // What the core was told past this page is read anew.
    if (fresh) await page.reload();
    if (key) await pressKey(page, key);
    if (place) await goTo(page, place, sees);
    else await page.getByText(sees).first().waitFor();
    await inBoth(page, name);
    shots.push({ name, caption, on });
  };
  const phone = await pageOf(browser, server.address, PHONE);
  const tools = {
    call: server.call,
    hands: handsOf(phone),
    shot: shooting(phone, 'phone', false),
    large: shooting(await pageOf(browser, server.address, PHONE, { text: 2 }), 'large', true),
    wide: shooting(await pageOf(browser, server.address, DESK), 'desk', true),
    /** The pages of a PDF, and a page of HTML as a phone shows it. */
    pdf: async (name, caption, bytes) => {
      const source = path.join(folder, `${name}.pdf`);
      writeFileSync(source, bytes);
      await must('pdftoppm', ['-png', '-r', `${PAGE_DPI}`, source, path.join(folder, name)]);
      const pages = readdirSync(folder).filter((it) => it.startsWith(`${name}-`) && it.endsWith('.png'));
      for (const [index, file] of pages.sort().entries()) {
        const kept = `${name}-${index + 1}`;
        const png = readFileSync(path.join(folder, file));
        await keep(phone, png, path.join(FOLDER, 'pages', `${kept}.png`), FEW_COLOURS);
        const of = pages.length > 1 ? `${caption}, page ${index + 1}` : caption;
        shots.push({ name: kept, caption: of, on: 'page' });
      }
    },
    html: async (name, caption, bytes) => {
      const source = path.join(folder, `${name}.html`);
      writeFileSync(source, bytes);
      const page = await phone.context().newPage();
      await page.goto(pathToFileURL(source).href);
      await inBoth(page, name);
      await page.close();
      shots.push({ name, caption, on: 'phone' });
    },
  };
  const { test, bundle } = await takeAlbum(tools);
  await projectPage(browser, server, test);
  await takeStatistics(tools);
  const other = await startNew();
  const page = await pageOf(browser, other.address, PHONE);
  const shot = shooting(page, 'phone', false);
  await takeNewShop({ call: other.call, hands: handsOf(page), shot, bundle });
  const damaged = await pageOf(browser, (await startDamaged()).address, PHONE);
  const trouble = shooting(damaged, 'phone', false);
  await trouble('damaged', 'The shop’s file is damaged', undefined, 'The shop’s file is damaged.');
  writeFileSync(path.join(FOLDER, 'README.md'), album(shots));
}

/** What the project's own page shows, as sharp as a phone does. */
async function projectPage(browser, server, test) {
  const sharp = await pageOf(browser, server.address, PHONE, { deviceScaleFactor: 2 });
  const save = (name) => take(sharp, path.join(FOLDER, `${name}.png`));
  await goTo(sharp, '#/jobs', 'Demonstration shop');
  await save('jobs');
  await goTo(sharp, `#/test/${test}`, 'As recorded.');
  await save('judgement');
  await scrollTo(sharp, sharp.getByRole('heading', { name: /^What the leak does/ }));
  await save('consequence');
}

/** The page that lists them all. */
function album(shots) {
  const shown = (caption, file) => `![${caption}](${file})`;
  const row = ({ name, caption, on }) =>
    on === 'page'
      ? `| ${caption} | ${shown(caption, `pages/${name}.png`)} |`
      : `| ${caption} | ${shown(`${caption}, light`, `screens/${name}-light.png`)} | ${shown(`${caption}, dark`, `screens/${name}-dark.png`)} |`;
  const table = (on) => [
    PARTS[on],
    '',
    ...(on === 'page' ? ['| Page | As printed |', '|---|---|'] : ['| Screen | Light | Dark |', '|---|---|---|']),
    ...shots.filter((shot) => shot.on === on).map(row),
    '',
  ];
  return [
    '# Every screen, light and dark',
    '',
    'Taken by `npm run pictures` (`tests/scripts/lib/album.mjs` has what they show) in Chromium, on the invented demo shop.',
    '',
    ...Object.keys(PARTS).flatMap(table),
  ].join('\n');
}
