// Files in the app's own window: saved and picked by the system's dialogs, and opened with the app.
// Where a test answers in place of a dialog, the variables are those of src-tauri/src/files/dialog.rs.
import { closeSync, existsSync, openSync, readSync, readdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { App } from '../harness/app';
import { Program, built, temporaryFolder, until } from '../harness/process';
import { Technician, type Job } from '../pages/technician';
import { WindowHands } from '../pages/window-hands';

const JOB: Job = {
  unit: 'Larkmoor L6',
  vehicle: '2016 Wendover van, 2.2',
  complaint: 'Slips on the 3-4 when hot.',
  notes: 'Second visit.',
};

const shared = temporaryFolder();
const inShared = (name: string) => path.join(shared.path, name);
const bundle = inShared('for Wen.vvb');

let app: App;
let hands: WindowHands;

const saveAs = (place: string) => ({ env: { VALVEWRIGHT_TEST_SAVE: place } });
const pick = (place: string) => ({ env: { VALVEWRIGHT_TEST_OPEN: place } });

/** A bundle is a zip: its first bytes say so. */
function startsAsZip(file: string): boolean {
  const bytes = Buffer.alloc(4);
  const open = openSync(file, 'r');
  readSync(open, bytes);
  closeSync(open);
  return bytes.equals(Buffer.from('PK\u0003\u0004'));
}

async function makesTheFile(): Promise<void> {
  await hands.press(/2016 Wendover van/);
  await hands.press('More');
  await hands.press('Pass this job on');
  await hands.press('Make the file');
  await hands.sees('The file is ready');
}

async function goesToTakeIn(): Promise<void> {
  await hands.press('More');
  await hands.press('Take in a file');
  await hands.sees('nothing changes before you say so');
}

async function seesThePlan(): Promise<void> {
  await hands.sees('Made by Tomás Wierzba');
  await hands.sees(JOB.vehicle);
  await hands.sees('new here');
}

afterAll(() => shared.remove());

describe('a job passed on', () => {
  beforeAll(async () => {
    app = await App.start(saveAs(bundle));
    hands = new WindowHands(() => app.page);
  });
  afterAll(async () => {
    await app.close();
  });

  test('is saved where he says', async () => {
    const technician = new Technician(hands);
    await technician.comesIn('Tomás Wierzba');
    await technician.opensJob(JOB);
    await app.restart();
    await makesTheFile();
    await hands.press('Save it on this device');
    await hands.sees(`Saved: ${bundle}`);
    expect(startsAsZip(bundle)).toBe(true);
    app.picture('app-file-saved');
  });

  test('nothing is written when he puts the dialog away, and the file is still ready', async () => {
    const before = readdirSync(shared.path);
    await app.restart(saveAs(''));
    await makesTheFile();
    await hands.press('Save it on this device');
    await hands.press('Save it on this device');
    const text = await hands.text();
    expect(text).toContain('The file is ready');
    expect(text).not.toContain('Saved:');
    expect(readdirSync(shared.path)).toEqual(before);
  });

  test('a place that can’t be written to is told, and nothing is left there', async () => {
    // Nobody, not even root, makes a folder of a file.
    await app.restart(saveAs(path.join(bundle, 'job.vvb')));
    await makesTheFile();
    await hands.press('Save it on this device');
    await hands.sees('The file can’t be written there.');
    await hands.sees('Nothing was saved');
    expect(startsAsZip(bundle)).toBe(true);
    app.picture('app-file-unwritable');
  });

  test('the page can’t name a path by itself', async () => {
    const answers = await app.page.execute(async () => {
      const { invoke } = (
        globalThis as unknown as {
          __TAURI_INTERNALS__: { invoke(command: string, args: unknown): Promise<unknown> };
        }
      ).__TAURI_INTERNALS__;
      const call = (command: string, args: unknown) =>
        invoke('call', { request: JSON.stringify({ command, args }) });
      return JSON.stringify([
        await call('file.open', { path: '/etc/hostname' }),
        await call('file.save', { file: 1, path: '/tmp/slipped.vvb' }),
      ]);
    });
    expect(answers.match(/unknown_command/g)).toHaveLength(2);
    expect(existsSync('/tmp/slipped.vvb')).toBe(false);
  });

  test('the system’s own dialog asks for the place, with a name to start from', async () => {
    const typed = inShared('typed by hand');
    await app.restart({});
    await makesTheFile();
    await hands.press('Save it on this device');
    await app.focus('Save the file');
    app.picture('app-save-dialog');
    app.desktop('key', 'ctrl+a');
    app.desktop('type', '--delay', '20', typed);
    app.picture('app-save-dialog-typed');
    app.desktop('key', 'Return');
    await hands.sees(`Saved: ${typed}.vvb`);
    expect(startsAsZip(`${typed}.vvb`)).toBe(true);
  });

  test('that dialog put away by its own key leaves everything as it was', async () => {
    const before = readdirSync(shared.path);
    await app.restart({});
    await makesTheFile();
    await hands.press('Save it on this device');
    await app.focus('Save the file');
    app.desktop('key', 'Escape');
    await hands.press('Save it on this device');
    await app.focus('Save the file');
    app.desktop('key', 'Escape');
    expect(await hands.text()).not.toContain('Saved:');
    expect(readdirSync(shared.path)).toEqual(before);
  });
});

describe('on another device', () => {
  beforeAll(async () => {
    app = await App.start(pick(bundle));
    hands = new WindowHands(() => app.page);
  });
  afterAll(async () => {
    await app.close();
  });

  test('she picks the file and sees what it would bring', async () => {
    await new Technician(hands).comesIn('Marta Oyelaran');
    await goesToTakeIn();
    await hands.press('Choose the file');
    await seesThePlan();
    app.picture('app-plan-picked');
  });

  test('a dialog put away, or a file that is gone, changes nothing', async () => {
    await app.restart(pick(''));
    await goesToTakeIn();
    await hands.press('Choose the file');
    await hands.press('Choose the file');
    await app.restart(pick(inShared('gone.vvb')));
    await goesToTakeIn();
    await hands.press('Choose the file');
    await hands.sees('The file can’t be read.');
  });

  test('the system’s own dialog picks a file', async () => {
    await app.restart({});
    await goesToTakeIn();
    await hands.press('Choose the file');
    await app.focus('Take in a file');
    app.desktop('type', '--delay', '20', bundle);
    app.picture('app-pick-dialog');
    app.desktop('key', 'Return');
    await seesThePlan();
  });

  test('the app started with a file shows what it would bring, and takes nothing in', async () => {
    await app.restart({ args: [bundle] });
    await seesThePlan();
    app.picture('app-opened-with-file');
    await hands.press('Back');
    await hands.sees('Marta Oyelaran is working');
    expect(await hands.text()).not.toContain(JOB.vehicle);
  });

  test('started with something else, it says so', async () => {
    writeFileSync(inShared('list.vvb'), 'a shopping list');
    await app.restart({ args: [inShared('list.vvb')] });
    await hands.sees('This is not a file of this app.');
    await app.restart({ args: [inShared('gone.vvb')] });
    await hands.sees('The file can’t be read.');
  });

  test('a second start hands its file to the window that is open, and ends', async () => {
    const address = `unix:path=${inShared('bus')}`;
    const bus = new Program('dbus-daemon', ['--session', '--nofork', `--address=${address}`]);
    try {
      await until('the session bus', () => existsSync(inShared('bus')));
      const env = { DBUS_SESSION_BUS_ADDRESS: address };
      await app.restart({ env });
      await hands.sees('Marta Oyelaran is working');
      const second = new Program(built('valvewright'), [path.basename(bundle)], {
        env: app.environment,
        cwd: shared.path,
      });
      expect(await second.ends()).toBe(0);
      await seesThePlan();
      app.picture('app-second-start');
      await hands.press('The marks are the same');
      await hands.press('Take it in');
      await hands.sees(/Taken in: \d+ records/);
      await hands.sees(JOB.vehicle);
      // Another shop, in a folder of its own, is another program.
      const other = await App.start({ args: [bundle], env });
      try {
        await new WindowHands(() => other.page).sees('Made by Tomás Wierzba');
        expect(await hands.text()).not.toContain('Made by Tomás Wierzba');
      } finally {
        await other.close();
      }
    } finally {
      // A program on a session bus ends with it.
      await app.restart({});
      await bus.kill();
    }
  });
});
