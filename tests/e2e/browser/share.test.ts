// A phone with a share sheet: a report and a job's file are handed to it, the very bytes that saving
// gives. Chromium without a phone has no sheet, so the page gets one that keeps what it is handed.
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Phone } from '../harness/browser';
import { PhoneHands } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { ask, readyForReadings } from '../pages/shop';

const CUSTOMER = { name: 'Ulla Brandt', phone: '555 0100', plate: 'HLV 9' };

interface Handed {
  readonly members: readonly string[];
  readonly name: string;
  readonly type: string;
  readonly base64: string;
  /** Whether the browser still took the press for the person's wish. */
  readonly pressed: boolean;
}

/** What the made-up sheet keeps, and how it answers next. */
interface Sheet {
  readonly handed: Handed[];
  refuses: string;
  refused: number;
}

let phone: Phone;
let hands: PhoneHands;
let job = '';

/** Runs in the page, before the app: the share sheet by its standard, with what it was handed. */
function shareSheet(): void {
  const sheet: Sheet = { handed: [], refuses: '', refused: 0 };
  Object.assign(globalThis, { sheet });
  const share = async ({ files = [], ...rest }: ShareData): Promise<void> => {
    const pressed = navigator.userActivation.isActive;
    const [file] = files;
    if (!file || files.length > 1) throw new TypeError('one file was to be shared');
    if (sheet.refuses) {
      sheet.refused += 1;
      throw new DOMException('as the test asked', sheet.refuses);
    }
    const bytes = new Uint8Array(await file.arrayBuffer());
    let text = '';
    for (const byte of bytes) text += String.fromCharCode(byte);
    const members = ['files', ...Object.keys(rest)];
    sheet.handed.push({ members, name: file.name, type: file.type, base64: btoa(text), pressed });
  };
  Object.defineProperty(Navigator.prototype, 'share', { value: share });
  Object.defineProperty(Navigator.prototype, 'canShare', {
    value: ({ files }: ShareData) => files !== undefined && files.length > 0,
  });
}

const page = () => phone.page;

const handed = () =>
  page().evaluate(() => (globalThis as unknown as { sheet: Sheet }).sheet.handed);

/** Presses `Share it`, and has what the sheet got. */
async function shared(): Promise<Handed & { bytes: Buffer }> {
  const before = (await handed()).length;
  await hands.press('Share it');
  await expect.poll(async () => (await handed()).length).toBe(before + 1);
  const last = (await handed()).at(-1);
  if (!last) throw new Error('nothing was handed over');
  return { ...last, bytes: Buffer.from(last.base64, 'base64') };
}

/** Saves the same file, as a browser does. */
async function saved(): Promise<{ name: string; bytes: Buffer }> {
  const download = page().waitForEvent('download');
  await hands.press('Save it on this device');
  const file = await download;
  return { name: file.suggestedFilename(), bytes: readFileSync(await file.path()) };
}

const refused = () =>
  page().evaluate(() => (globalThis as unknown as { sheet: Sheet }).sheet.refused);

const refuseBy = (refuses: string) =>
  page().evaluate((name) => {
    (globalThis as unknown as { sheet: Sheet }).sheet.refuses = name;
  }, refuses);

beforeAll(async () => {
  phone = await Phone.start();
  hands = new PhoneHands(phone.page);
  ({ job } = await readyForReadings(phone.server));
  await ask(phone.server, 'job.edit', { job, part: { part: 'customer', body: CUSTOMER } });
});
afterAll(async () => {
  await phone.close();
});

describe('a file made on the phone', () => {
  test('is only saved where the page has no share sheet', async () => {
    await page().reload();
    await phone.goTo(`#/job/${job}/report`);
    await hands.press('Write the report');
    await hands.sees('The report is ready');
    expect(await page().getByRole('button', { name: 'Save it on this device' }).isVisible()).toBe(true);
    expect(await page().getByRole('button', { name: 'Share it' }).count()).toBe(0);
    await page().addInitScript(shareSheet);
    await page().reload();
  });

  test('is a report in pages: the sheet gets the saved file itself, without the customer', async () => {
    await phone.goTo(`#/job/${job}/report`);
    await hands.press('Write the report');
    await hands.sees('The report is ready');
    await lookOver(phone, 'report to share');
    await phone.picture('report-to-share');
    const given = await shared();
    expect(given.pressed).toBe(true);
    expect(given.members).toEqual(['files']);
    expect(given.type).toBe('application/pdf');
    expect(given.bytes.subarray(0, 5).toString('latin1')).toBe('%PDF-');
    const kept = await saved();
    expect(given.name).toBe(kept.name);
    expect(given.name).toMatch(/^job-.+\.pdf$/);
    expect(given.bytes.equals(kept.bytes)).toBe(true);
  });

  test('is a web page, with the customer or without as it was asked for', async () => {
    await hands.choose('As what file', 'Web page (HTML)');
    await hands.press('Write the report');
    await hands.sees('The report is ready');
    const without = await shared();
    expect(without.type).toBe('text/html');
    for (const personal of Object.values(CUSTOMER)) {
      expect(without.bytes.toString('utf8')).not.toContain(personal);
      expect(without.name).not.toContain(personal);
    }
    await hands.choose('The customer’s name, telephone and plate', 'Put them in');
    expect(await page().getByRole('button', { name: 'Share it' }).count()).toBe(0);
    await hands.press('Write the report');
    await hands.sees('The report is ready');
    const given = await shared();
    for (const personal of Object.values(CUSTOMER)) {
      expect(given.bytes.toString('utf8')).toContain(personal);
    }
  });

  test('stays when the sheet is put away, and is saved when the system refuses', async () => {
    await refuseBy('AbortError');
    await hands.press('Share it');
    await expect.poll(refused).toBe(1);
    expect(await page().getByRole('alert').count()).toBe(0);
    await refuseBy('NotAllowedError');
    await hands.press('Share it');
    await hands.sees('The file couldn’t be shared.');
    await hands.sees('Save it on this device instead, and send it from there.');
    // Told where the thumb is, not below what is on the screen.
    const notice = await page().getByRole('alert').boundingBox();
    const bar = await page().getByRole('button', { name: 'Share it' }).boundingBox();
    if (!notice || !bar) throw new Error('nothing is said of it');
    expect(notice.y).toBeGreaterThanOrEqual(0);
    expect(notice.y + notice.height).toBeLessThanOrEqual(bar.y);
    await lookOver(phone, 'report that was not shared');
    await phone.picture('report-not-shared');
    expect((await saved()).name).toMatch(/\.html$/);
    expect(await page().getByRole('alert').count()).toBe(0);
    await refuseBy('');
  });

  test('is a job’s file: the sheet gets the saved file itself', async () => {
    await phone.goTo(`#/job/${job}/pass-on`);
    await hands.press('Make the file');
    await hands.sees('The file is ready');
    await lookOver(phone, 'job to share');
    await phone.picture('pass-on-to-share');
    const given = await shared();
    expect(given.pressed).toBe(true);
    expect(given.type).toBe('application/vnd.valvewright.bundle+zip');
    // A zip begins so (PKWARE, APPNOTE 4.3.7).
    expect(given.bytes.subarray(0, 4).toString('latin1')).toBe('PK\x03\x04');
    const kept = await saved();
    expect(given.name).toBe(kept.name);
    expect(given.name).toMatch(/^job-.+\.vvb$/);
    expect(given.bytes.equals(kept.bytes)).toBe(true);
  });
});
