// The guide: found from the step it is about and from the list, and back with all that was typed.
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { brotliCompressSync, constants } from 'node:zlib';
import { expect, test, type Phone } from '../harness/browser';
import { ROOT } from '../harness/process';
import { PhoneHands, waits } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { begunTest, readyForReadings } from '../pages/shop';
import { GROUPS, PAGE_IDS } from '../../../ui/src/lib/guide/page';

const packed = (script: Buffer) =>
  brotliCompressSync(script, { params: { [constants.BROTLI_PARAM_QUALITY]: 9 } });

async function goesTo(phone: Phone, place: string, sees: string): Promise<PhoneHands> {
  const hands = new PhoneHands(phone.page);
  await phone.goTo(place);
  await hands.sees(sees);
  return hands;
}

test('how a step is done is one tap away, and nothing typed is lost on the way back', async ({ phone }) => {
  const { test: id } = await readyForReadings(phone.server);
  await phone.open();
  const hands = await goesTo(phone, `#/test/${id}`, 'Wait until the needle stands still.');
  await hands.openPad('Vacuum at the gauge');
  await hands.keys('17.');
  await hands.press('Done');
  const typed = hands.field('Vacuum at the gauge').getByRole('button').first();
  expect((await typed.innerText()).trim()).toBe('17.');

  await hands.press('How: Readings, turned and seated anew');
  await hands.sees('Lift the plug off, turn the valve by about a third');
  await lookOver(phone, 'how a reading is taken');
  await phone.picture('guide-over-a-step');

  // From page to page, and back along the same way.
  await hands.press('Oil in the gap');
  await hands.sees('A gap leaks with the cube of its height.');
  await hands.press('Back to: Readings, turned and seated anew');
  await hands.sees('Lift the plug off, turn the valve by about a third');
  await hands.press('Back to where you were');
  await expect.poll(() => phone.page.locator('dialog[open]').count(), waits('the sheet to go')).toBe(0);
  expect((await typed.innerText()).trim()).toBe('17.');
  expect(await phone.page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toBe(
    'How: Readings, turned and seated anew',
  );

  // The system's back does the same.
  await hands.press('How: Readings, turned and seated anew');
  await hands.sees('Lift the plug off, turn the valve by about a third');
  await phone.page.goBack();
  await expect.poll(() => phone.page.locator('dialog[open]').count(), waits('the sheet to go')).toBe(0);
  expect(phone.page.url()).toContain(`#/test/${id}`);
  expect((await typed.innerText()).trim()).toBe('17.');

  // Even when the whole guide is looked through meanwhile.
  await hands.press('How: Readings, turned and seated anew');
  await hands.press('The whole guide');
  await hands.sees('Find in the guide');
  await hands.press('Back');
  await hands.sees('Found what you were typing.');
  expect((await typed.innerText()).trim()).toBe('17.');
});

test('every step has its page', async ({ phone }) => {
  const { test: id, job } = await begunTest(phone.server);
  await phone.open();
  const hands = await goesTo(phone, `#/test/${id}`, 'How thick is the air here today?');
  for (const [step, page, says] of [
    ['Stand', 'The stand', 'the hose that is really on it'],
    ['Air', 'The air of the day', 'A vacuum gauge counts downward'],
    ['Set-up', 'Setting the bore up', 'where the valve stands'],
    ['Check', 'Stand check', 'Wait until the needle stands. That is the dead head.'],
    ['Blank', 'Blank test', 'What leaks when there is no bore?'],
    ['Readings', 'Readings, turned and seated anew', 'Three readings'],
  ] as const) {
    await hands.press(new RegExp(`^${step}\\b`));
    await hands.press(`How: ${page}`);
    await hands.sees(says);
    await hands.press('Close');
  }
  await goesTo(phone, `#/job/${job}/cautions`, 'All were read for this job.');
  await hands.press('How: Cautions, and who decides');
  await hands.sees('What the words mean');
  await hands.press('Close');
});

test('the guide is searched by parts of words, and the list is there again afterwards', async ({ phone }) => {
  await begunTest(phone.server);
  await phone.open();
  const hands = new PhoneHands(phone.page);
  await hands.press('More');
  await hands.press('Guide');
  await hands.sees('How each check is done');
  await lookOver(phone, 'the guide');
  await phone.picture('guide');

  await hands.write('Find in the guide', 'VARN clean');
  await hands.sees(/\b\d pages?\b/);
  const first = phone.page.locator('main ul').first().getByRole('link').first();
  await expect.poll(() => first.innerText(), waits('the first page')).toContain('Again after cleaning');
  await lookOver(phone, 'pages found');
  await first.tap();
  await hands.sees('What the varnish closed in the test');
  await hands.press('Back');
  await hands.sees(/\b\d pages?\b/);

  await hands.write('Find in the guide', 'zebra');
  await hands.sees('No page has all these words.');
  await hands.write('Find in the guide', '');
  await hands.sees(/At the vehicle/);
  await phone.typeAddress('#/guide/no-such-page');
  await hands.sees('Nothing is here');
});

test('each page can be read by everyone, and says where it comes from and who decides', async ({ phone }) => {
  await begunTest(phone.server);
  await phone.open();
  expect(Object.values(GROUPS).flat()).toHaveLength(PAGE_IDS.length);
  for (const id of PAGE_IDS) {
    const hands = await goesTo(phone, `#/guide/${id}`, 'Where this comes from');
    await hands.sees('trained people decide what is safe');
    await lookOver(phone, `guide: ${id}`);
    const levels = await phone.page
      .locator('.screen')
      .evaluate((node) => [...node.querySelectorAll('h1, h2, h3')].map(({ localName }) => localName));
    expect(levels[0], id).toBe('h1');
    expect(levels.slice(1).every((level) => level === 'h2'), `${id}: ${levels}`).toBe(true);
  }
});

test('the guide is fetched only when it is opened', async ({ phone }) => {
  const scripts: string[] = [];
  phone.page.on('request', (request) => {
    if (request.resourceType() === 'script') scripts.push(request.url());
  });
  await begunTest(phone.server);
  await phone.open();
  const hands = new PhoneHands(phone.page);
  await hands.sees('Marta Oyelaran is working');
  expect(scripts.filter((url) => url.includes('book'))).toEqual([]);
  await goesTo(phone, '#/guide', 'How each check is done');
  expect(scripts.filter((url) => url.includes('book'))).toHaveLength(1);
});

// Compressed as Tauri packs it into the program for release: brotli at quality 9 (tauri-codegen,
// embedded_assets.rs).
test('the script that the interface starts with is at most 250 kB, and what is opened on demand is apart', () => {
  const folder = process.env['VALVEWRIGHT_UI'] ?? path.join(ROOT, 'ui', 'dist');
  const read = (name: string) => readFileSync(path.join(folder, name), 'utf8');
  const begun = new Set<string>();
  /** A script and all that it can't begin without. */
  const begin = (name: string): void => {
    if (begun.has(name)) return;
    begun.add(name);
    for (const [, other] of read(`assets/${name}`).matchAll(/(?:from|import)\s*"\.\/([^"]+\.js)"/g)) {
      begin(other ?? '');
    }
  };
  for (const [, name] of read('index.html').matchAll(/assets\/([^"]+\.js)"/g)) begin(name ?? '');
  const all = readdirSync(path.join(folder, 'assets')).filter((name) => name.endsWith('.js'));
  // Comes by itself once the first screen stands (Workspace.svelte).
  const places = all.filter((name) => name.startsWith('Places-'));
  expect(places).toHaveLength(1);
  places.forEach(begin);
  const sizes = [...begun].map((name) => [name, packed(readFileSync(path.join(folder, 'assets', name))).length] as const);
  expect(sizes.length).toBeGreaterThan(0);
  expect(all.length).toBeGreaterThan(sizes.length);
  const sum = sizes.reduce((so, [, size]) => so + size, 0);
  expect(sum, sizes.map(([name, size]) => `${name}: ${size}`).join(', ')).toBeLessThanOrEqual(250_000);
});
