// A photo from the camera's file to the job, the report and back out by undo. The file tells in its
// Exif where it was taken, with what and by whom, and holds the picture on its side.
import { readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { Phone } from '../harness/browser';
import { ROOT } from '../harness/process';
import { PhoneHands, waits } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { ask, readyForReadings } from '../pages/shop';

const CAMERA = path.join(ROOT, 'tests', 'e2e', 'files', 'camera.jpg');
const TOLD = 'Ines Halloway';
const CAPTION = 'Second land, scored from edge to groove';

let phone: Phone;
let hands: PhoneHands;
let job = '';
let subject = '';

beforeAll(async () => {
  phone = await Phone.start();
  hands = new PhoneHands(phone.page);
});
afterAll(() => phone.close());

const go = (place: string) => phone.goTo(place);
const photos = async () => (await ask(phone.server, 'photo.list', { job })).photos;
const choose = (files: string[]) =>
  phone.page.locator('input[type=file][multiple]').setInputFiles(files);

/** Width and height of the picture that is shown, as the browser reads it. */
const shown = () =>
  phone.page.locator('dialog[open] img').evaluate(async (node) => {
    const image = node as HTMLImageElement;
    await image.decode();
    return [image.naturalWidth, image.naturalHeight, image.alt];
  });

describe('a photo', () => {
  test('is added, upright and without what the camera told', async () => {
    await hands.sees('Who is working?');
    await hands.press('Marta Oyelaran');
    await hands.sees('Marta Oyelaran is working');
    ({ job, test: subject } = await readyForReadings(phone.server));
    await go(`#/job/${job}`);
    expect(readFileSync(CAMERA).includes(TOLD)).toBe(true);
    await hands.sees('None yet.');
    await choose([CAMERA]);
    await hands.sees('Photo added');
    await hands.sees('Personal');
    const folder = `${phone.server.store}-attachments`;
    const files = readdirSync(folder).filter((name) => /^[0-9a-f]{64}$/.test(name));
    expect(files).toHaveLength(2);
    for (const name of files) {
      expect(readFileSync(path.join(folder, name)).includes(TOLD)).toBe(false);
    }
    await lookOver(phone, 'photos of a job');
    await hands.press(/^Photo without a caption/);
    await expect.poll(shown, waits('the picture')).toEqual([
      480,
      640,
      expect.stringMatching(/^Photo without a caption, taken /),
    ]);
    await lookOver(phone, 'a photo');
    await hands.press('Full size');
    await hands.press('Fit the screen');
  });

  test('gets a caption, and is said to show the work alone', async () => {
    await hands.press('Caption');
    await hands.write('Caption', CAPTION);
    await hands.choose('What it shows', 'The work alone');
    await lookOver(phone, 'the caption of a photo');
    await hands.press('Save');
    await expect.poll(async () => (await shown())[2], waits('its words')).toBe(CAPTION);
    const [photo] = await photos();
    expect(photo).toMatchObject({ caption: CAPTION, shows: 'work_alone' });
  });

  test('is removed, and undo brings it back', async () => {
    await hands.press('Remove');
    await hands.sees('Photo removed');
    expect(await photos()).toEqual([]);
    await hands.press('Undo');
    await hands.sees(CAPTION);
    expect(await photos()).toHaveLength(1);
  });

  test('that is none is refused by name, and the others are added', async () => {
    const heic = Buffer.from('\0\0\0\x18ftypheic\0\0\0\0mif1heic', 'latin1');
    await phone.page.locator('input[type=file][multiple]').setInputFiles([
      { name: 'IMG_1.heic', mimeType: 'image/heic', buffer: heic },
      { name: 'IMG_2.jpg', mimeType: 'image/jpeg', buffer: readFileSync(CAMERA) },
    ]);
    await hands.sees('The file is a HEIC picture, which can’t be read.');
    await hands.sees('IMG_1.heic was not added.');
    await expect.poll(async () => (await photos()).length, waits('the other')).toBe(2);
  });

  test('of a test belongs to it, and to its job', async () => {
    await go(`#/test/${subject}`);
    await hands.sees('None yet.');
    await choose([CAMERA]);
    await expect.poll(async () => (await photos()).length, waits('the third')).toBe(3);
    const all = await photos();
    expect(all.filter((photo) => photo.test === subject)).toHaveLength(1);
  });
});
