// How long the release build takes to its first useful screen, beside a bare Tauri window in the
// same run. A display in memory is looked at as a person looks at a screen: a start ends with the
// last change of its picture before it stays as it is, lists and figures included. The screen is
// the list of jobs of the demo shop, with somebody working.
import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { buildInterface } from './build.mjs';
import { CARGO, Plain, ROOT, TARGET, must, say } from './run.mjs';

const WIDTH = 412;
const HEIGHT = 915;
/** Taken in turn, so that what else the machine does meets both alike. */
const STARTS = 15;
/** A picture that stays for so long is the first screen. */
const STILL_MS = 1500;
const PATIENCE_MS = 60_000;
/**
 * WebKit draws a field's rounded corner anew when a style sheet comes, and rounds it otherwise: ten
 * pixels that differ by up to 5 of 255.
 */
const UNSEEN = 8;
/** The store in its folder, as the shell's `data_folder.rs` names it. */
const STORE = 'valvewright.db';
export const MOST = 1.5;

const sleep = (ms) => new Promise((done) => setTimeout(done, ms));

/** A display that keeps its picture in a file. */
async function display(folder) {
  const args = [
    ...['-displayfd', '1', '-screen', '0', `${WIDTH}x${HEIGHT}x24`, '-fbdir', folder],
    ...['-nolisten', 'tcp', '-noreset'],
  ];
  const child = spawn('Xvfb', args, { stdio: ['ignore', 'pipe', 'ignore'] });
  const number = await new Promise((resolve, reject) => {
    child.stdout.once('data', (text) => resolve(String(text).trim()));
    child.once('error', () => reject(new Plain('Xvfb is missing')));
    child.once('close', () => reject(new Plain('Xvfb ended')));
  });
  const file = path.join(folder, 'Xvfb_screen0');
  return { name: `:${number}`, file, end: () => child.kill() };
}

/** One start of a program: ms from its launch to the last change of the picture. */
async function start(program, screen, data) {
  const changed = watch(screen.file);
  changed();
  const began = performance.now();
  const child = spawn(program, [], {
    env: {
      PATH: process.env.PATH,
      HOME: data,
      XDG_RUNTIME_DIR: data,
      DISPLAY: screen.name,
      LANG: 'C.UTF-8',
      NO_AT_BRIDGE: '1',
      GTK_A11Y: 'none',
      WEBKIT_DISABLE_DMABUF_RENDERER: '1',
      LIBGL_ALWAYS_SOFTWARE: '1',
      VALVEWRIGHT_DATA: path.join(data, 'store'),
    },
    stdio: 'ignore',
  });
  let ended = false;
  child.once('close', () => (ended = true));
  try {
    let last;
    for (;;) {
      await sleep(2);
      const now = performance.now();
      if (ended) throw new Plain(`${path.basename(program)} ended before its window was drawn`);
      if (changed()) last = now;
      if (last !== undefined && now - last > STILL_MS) return last - began;
      if (now - began > PATIENCE_MS) throw new Plain(`${path.basename(program)} shows nothing`);
    }
  } finally {
    child.kill();
    while (!ended) await sleep(10);
    // The display forgets its window.
    await sleep(300);
  }
}

/** Whether the display shows something else than when it was asked last, as far as an eye can tell. */
function watch(file) {
  let before = Buffer.alloc(0);
  return () => {
    const now = readFileSync(file);
    if (now.equals(before)) return false;
    const seen = now.length !== before.length || now.some((level, at) => Math.abs(level - before[at]) > UNSEEN);
    before = now;
    return seen;
  };
}

/** Somebody works from now on: the app asks who only once. */
function choosePerson(headless, store) {
  const call = (command, args) => {
    const { stdout } = spawnSync(headless, ['call', '--store', store], {
      input: `${JSON.stringify({ command, args })}\n`,
      encoding: 'utf8',
    });
    const { ok } = JSON.parse(stdout);
    if (!ok) throw new Plain(`${command}: ${stdout}`);
    return ok;
  };
  const [person] = call('shop.overview', {}).people;
  call('person.choose', { person: person.id });
}

const median = (times) => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)];

/**
 * Builds both in release, unless `built` says that was done, starts them in turn, and answers with
 * the ratio of their medians.
 */
export async function windowBench({ built = false } = {}) {
  const target = path.join(TARGET, 'bench', 'window');
  if (!built) {
    await buildInterface();
    const bins = ['--bin', 'valvewright', '--bin', 'headless'];
    await must('cargo', ['build', '--release', '--workspace', ...bins], { cwd: CARGO });
    const env = { ...process.env, CARGO_TARGET_DIR: target };
    await must('cargo', ['build', '--release'], { cwd: path.join(ROOT, 'tests', 'bench', 'window'), env });
  }
  const app = path.join(TARGET, 'release', 'valvewright');
  const headless = path.join(TARGET, 'release', 'headless');
  const bare = path.join(target, 'release', 'bare-window');
  for (const program of [app, headless, bare]) {
    if (!existsSync(program)) throw new Plain(`${program} is missing`);
  }
  const data = mkdtempSync(path.join(tmpdir(), 'valvewright-window-'));
  const screen = await display(mkdtempSync(path.join(data, 'display-')));
  try {
    // The first start of each fills caches, and the app's makes its store.
    await start(bare, screen, data);
    await start(app, screen, data);
    choosePerson(headless, path.join(data, 'store', STORE));
    const times = { bare: [], app: [] };
    for (let number = 0; number < STARTS; number += 1) {
      times.bare.push(await start(bare, screen, data));
      times.app.push(await start(app, screen, data));
    }
    const [ours, theirs] = [median(times.app), median(times.bare)];
    const ratio = ours / theirs;
    const list = (all) => all.map((ms) => Math.round(ms)).sort((a, b) => a - b).join(' ');
    say(`bare window: ${Math.round(theirs)} ms (${list(times.bare)})`);
    say(`the app:     ${Math.round(ours)} ms (${list(times.app)})`);
    say(`ratio of the medians: ${ratio.toFixed(2)}, at most ${MOST}`);
    return ratio;
  } finally {
    screen.end();
    rmSync(data, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  }
}
