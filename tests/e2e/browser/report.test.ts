// The printable report of a job with a repair and a test since: written through the interface,
// opened as a file by itself, looked over, printed, and read back as text.
import { execFileSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Phone } from '../harness/browser';
import { picture, temporaryFolder } from '../harness/process';
import { UNIT } from '../pages/figures';
import { PhoneHands } from '../pages/phone-hands';
import { textOf } from '../pages/printed';
import { lookOver } from '../pages/screen';
import { ask, readyForReadings } from '../pages/shop';

const CUSTOMER = { name: 'Ulla Brandt', phone: '555 0100', plate: 'HLV 9' };
const folder = temporaryFolder();

let phone: Phone;
let hands: PhoneHands;
let job = '';
let number = '';
let report = '';

async function reads(subject: string, inHg: readonly number[]): Promise<void> {
  for (const [index, reading] of inHg.entries()) {
    const { saved } = await ask(phone.server, 'test.record', {
      test: subject,
      part: {
        part: 'reading',
        body: {
          vacuum_pa: reading * UNIT.inHg,
          reseated: index > 0,
          as_typed: `${reading} inHg`,
        },
      },
    });
    if (!saved) throw new Error(`reading ${reading} was not saved`);
  }
}

/** Worn and judged, one reading struck, a sleeve put in, tested again. */
async function repaired(): Promise<void> {
  const begun = await readyForReadings(phone.server);
  ({ job } = begun);
  await reads(begun.test, [17.2, 9.4, 16.9, 17.3]);
  const { readings, test: about, setup, stand_check: check, blank } = await ask(
    phone.server,
    'test.get',
    { test: begun.test },
  );
  await ask(phone.server, 'test.strike', { test: begun.test, record: readings[1]?.record ?? '' });
  await ask(phone.server, 'test.decide', { test: begun.test, note: 'Sleeve it.' });
  const { bore, test_point: point, stand } = about;
  const work = {
    option: 'sleeve_smaller_valve' as const,
    parts: 'Sleeve and valve turned in the shop',
    bore_diameter_m: 7.5e-3,
    bore_uncertainty_m: 2e-6,
    valve_diameter_m: 7.47e-3,
    valve_uncertainty_m: 2e-6,
    spring_load_n: 19.641,
    spring_rate_n_per_m: 1500,
  };
  await ask(phone.server, 'repair.record', { job, bore, work });
  const since = await ask(phone.server, 'test.begin', { job, bore, test_point: point, stand: stand ?? null });
  if (!setup || !check || !blank) throw new Error('the first test lacks a part');
  for (const part of [
    { part: 'setup', body: setup },
    { part: 'stand_check', body: check },
    { part: 'blank', body: blank },
  ] as const) {
    await ask(phone.server, 'test.record', { test: since.test, part });
  }
  await reads(since.test, [23.6, 23.7, 23.6]);
  await ask(phone.server, 'job.edit', { job, part: { part: 'customer', body: CUSTOMER } });
  ({ number } = (await ask(phone.server, 'job.get', { job })).job);
}

/** Downloads the report that is ready. */
async function downloaded(name: string): Promise<string> {
  const download = phone.page.waitForEvent('download');
  await hands.press('Save it on this device');
  const file = await download;
  expect(file.suggestedFilename()).toMatch(/^job-.+\.(html|pdf)$/);
  expect(path.extname(file.suggestedFilename())).toBe(path.extname(name));
  const saved = path.join(folder.path, name);
  await file.saveAs(saved);
  await hands.sees(`Saved: ${file.suggestedFilename()}`);
  return saved;
}

/** What a program of poppler says of a file. */
function told(program: string, ...options: string[]): string {
  return execFileSync(program, options, { encoding: 'utf8' });
}

/** Writes the report anew and saves it. */
async function written(name: string): Promise<string> {
  await hands.press('Write the report');
  await hands.sees('The report is ready');
  return downloaded(name);
}

beforeAll(async () => {
  phone = await Phone.start();
  hands = new PhoneHands(phone.page);
  await repaired();
  await phone.page.reload();
});
afterAll(async () => {
  await phone.close();
  folder.remove();
});

describe('the report of a job', () => {
  test('she writes it from the job’s page and saves it', async () => {
    await phone.goTo(`#/job/${job}`);
    await hands.press('More');
    await hands.press('Report');
    await hands.sees('One file to print or to hand on');
    await lookOver(phone, 'report');
    await hands.choose('As what file', 'Web page (HTML)');
    await hands.press('Write the report');
    await hands.sees('The report is ready');
    await lookOver(phone, 'report ready');
    await phone.picture('report-page');
    report = await downloaded('report.html');
  });

  test('it needs nothing beside it: no script, no address, no customer', () => {
    const html = readFileSync(report, 'utf8');
    expect(html).not.toMatch(/<script|javascript:|\son\w+=/i);
    expect(html).not.toMatch(/https?:|<link|<img|<iframe|@import|url\((?!data:font)/i);
    expect(html).toContain("default-src 'none'");
    for (const personal of Object.values(CUSTOMER)) expect(html).not.toContain(personal);
  });

  test('opened as a file it loads nothing, and is sound on a phone in any light', async () => {
    const page = await phone.context.newPage();
    const asked: string[] = [];
    const said: string[] = [];
    page.on('request', (request) => asked.push(request.url().slice(0, 5)));
    page.on('console', (message) => said.push(message.text()));
    await page.goto(pathToFileURL(report).href);
    await page.evaluate(() => document.fonts.ready);
    expect(await page.evaluate(() => document.fonts.size)).toBe(2);
    await page.screenshot({ path: picture('report-phone') });
    await phone.checkAccessibility(page);
    const width = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(width).toBeLessThanOrEqual(360);
    expect(asked.filter((start) => start !== 'file:' && start !== 'data:')).toEqual([]);
    expect(said).toEqual([]);
    await page.close();
  });

  test('on paper it has what a reader needs, in black and white too', async () => {
    const page = await phone.context.newPage();
    await page.goto(pathToFileURL(report).href);
    await page.evaluate(() => document.fonts.ready);
    const sizes = ['A4', 'Letter'] as const;
    const texts: string[] = [];
    for (const format of sizes) {
      const pdf = path.join(folder.path, `${format}.pdf`);
      await page.pdf({ path: pdf, format, preferCSSPageSize: false });
      texts.push(textOf(pdf));
    }
    const first = path.join(folder.path, 'A4.pdf');
    const target = picture('report-printed').replace(/\.png$/, '');
    execFileSync('pdftoppm', ['-png', '-gray', '-r', '70', '-singlefile', first, target]);
    await page.close();
    const { test_point: point } = await ask(phone.server, 'test.get', {
      test: (await ask(phone.server, 'job.get', { job })).bores[0]?.test_points[0]?.tests[0]?.test ?? '',
    });
    for (const text of texts) {
      for (const needed of [
        `Job ${number}`,
        '2018 Wendover hatchback',
        'Harsh 2-3 when hot',
        // Readings, also the one struck out, and with what they were taken.
        ...['17.2 inHg', '9.4 inHg', '16.9 inHg', '17.3 inHg', '23.6 inHg', '23.7 inHg'],
        'struck out or undone, doesn’t count',
        'Dial gauge 0 to 30 inHg, bench 1',
        '29.80 inHg (1009 hPa), station pressure read at the bench',
        'expanded uncertainty, 95 % coverage',
        // The limit, and who set it.
        '20.0 inHg at sea level',
        point.limit?.source ?? 'no limit',
        'Outside limit',
        'Within limit',
        'Chance that it meets the limit',
        // What it does, what was done, what that should do.
        'Sleeve with a smaller valve',
        'Sleeve and valve turned in the shop',
        'What it should do',
        'Predicted',
        'by calculation, not measured',
        'What this rests on',
        'Air keeps the shop’s temperature along gap and hose.',
        'The decision on the test since isn’t on record.',
        'Sleeve it.',
        'DANGER',
        'High voltage of a hybrid',
        'The manufacturer’s service information, local rules and trained people decide',
        'recorded, and left out of this report because it wasn’t asked for',
        'physics version',
      ]) {
        expect(text, needed).toContain(needed);
      }
      for (const personal of Object.values(CUSTOMER)) expect(text).not.toContain(personal);
    }
  });

  test('as a PDF it is tagged, titled, whole, and says the same', async () => {
    await hands.choose('As what file', 'PDF');
    const pdf = await written('report.pdf');
    const info = told('pdfinfo', pdf);
    expect(info).toMatch(/^Title: +Job .+, Larkmoor L6$/m);
    expect(info).toMatch(/^Tagged: +yes$/m);
    expect(told('pdfinfo', '-meta', pdf)).toContain('<pdfuaid:part>1</pdfuaid:part>');
    expect(Number(/^Pages: +(\d+)$/m.exec(info)?.[1])).toBeGreaterThan(2);
    for (const font of told('pdffonts', pdf).trim().split('\n').slice(2)) {
      expect(font).toMatch(/Identity-H +yes yes yes/);
    }
    const text = textOf(pdf);
    // Each figure of the page, as it stands there.
    const html = readFileSync(report, 'utf8');
    const cells = [...html.matchAll(/<td class="number">(?:<strong>)?([^<]+)/g)].map(([, cell = '']) =>
      cell.replace(/\s+/g, ' ').trim(),
    );
    expect(cells.length).toBeGreaterThan(30);
    for (const cell of cells) expect(text, cell).toContain(cell);
    for (const personal of Object.values(CUSTOMER)) expect(text).not.toContain(personal);
    const target = picture('report-pdf').replace(/\.png$/, '');
    told('pdftoppm', '-png', '-r', '70', '-singlefile', pdf, target);
  });

  test('the customer’s version is one page in plain words, in both kinds of file', async () => {
    await hands.choose('For whom', 'For the customer');
    await lookOver(phone, 'report for the customer');
    const pdf = await written('customer.pdf');
    expect(told('pdfinfo', pdf)).toMatch(/^Pages: +1$/m);
    await hands.choose('As what file', 'Web page (HTML)');
    const html = await written('customer.html');
    const page = await phone.context.newPage();
    await page.goto(pathToFileURL(html).href);
    await phone.checkAccessibility(page);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(360);
    await page.screenshot({ path: picture('report-customer-phone'), fullPage: true });
    const seen = (await page.innerText('body')).replace(/\s+/g, ' ');
    await page.close();
    for (const text of [textOf(pdf), seen]) {
      for (const needed of [
        'What we found and did',
        '2018 Wendover hatchback',
        'Harsh 2-3 when hot',
        'leaks more than its limit allows',
        'lined with a sleeve and a matching valve fitted',
        'Before and after',
        'What stays open',
        'only a road test by trained people shows',
        'left out because they weren’t asked for',
      ]) {
        expect(text, needed).toContain(needed);
      }
      for (const personal of Object.values(CUSTOMER)) expect(text).not.toContain(personal);
    }
    const target = picture('report-customer').replace(/\.png$/, '');
    told('pdftoppm', '-png', '-r', '70', '-singlefile', pdf, target);
  });

  test('asked for, the customer is in both versions and both kinds of file', async () => {
    await hands.choose('The customer’s name, telephone and plate', 'Put them in');
    for (const whom of ['For the customer', 'For the shop']) {
      await hands.choose('For whom', whom);
      await hands.choose('As what file', 'PDF');
      const text = textOf(await written('with.pdf'));
      await hands.choose('As what file', 'Web page (HTML)');
      const html = readFileSync(await written('with.html'), 'utf8');
      for (const personal of Object.values(CUSTOMER)) {
        expect(html).toContain(personal);
        expect(text).toContain(personal);
      }
    }
  });
});
