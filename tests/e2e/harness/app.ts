// The real app: its own window on a display that nobody sees, driven by WebDriver.
//
//   import { expect, test } from '../harness/app';
//
//   test('a reading is kept', async ({ app }) => {
//     await app.page.$('button=New reading').click();
//     await app.restart();
//     await app.picture('after-restart');
//   });
//
// Each test gets an `app` with a data folder of its own: `app.page` (WebdriverIO's), `app.store`,
// `app.restart()` (kills the app as a power cut would, and starts it again on the same data),
// `app.picture(name)` (of the whole display; the driver's own screenshots don't work here),
// `app.desktop(…)` (keys and pointer for what is no page: the system's dialogs). When
// the test ends, any violated Content-Security-Policy, error or warning on the console, or uncaught
// exception fails it; `app.forgetProblems()` takes out what a test provoked on purpose. For a story over several tests, call `App.start()` in `beforeAll` and
// `app.close()` in `afterAll`.
//
// The person's own data is out of reach: the home folder is a temporary one too, and the app
// refuses to be driven without VALVEWRIGHT_DATA.
import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync } from 'node:fs';
import { createServer } from 'node:net';
import path from 'node:path';
import { test as base, expect } from 'vitest';
import { remote } from 'webdriverio';
import { Program, built, picture, temporaryFolder, until } from './process';

export { expect };

const WIDTH = 412;
const HEIGHT = 915;

/** An empty home, so that no program started from it finds the person's files. */
export class Home {
  readonly #folder = temporaryFolder();
  readonly data = path.join(this.#folder.path, 'data');

  /** The environment for programs: this home, no session bus, nothing of the person's. */
  environment(more: NodeJS.ProcessEnv = {}): NodeJS.ProcessEnv {
    const home = this.#folder.path;
    const runtime = path.join(home, 'runtime');
    mkdirSync(runtime, { recursive: true, mode: 0o700 });
    return {
      PATH: process.env['PATH'],
      LANG: 'C.UTF-8',
      TZ: 'UTC',
      HOME: home,
      XDG_RUNTIME_DIR: runtime,
      // There is no bus for assistive technology, and looking for one takes seconds.
      NO_AT_BRIDGE: '1',
      GTK_A11Y: 'none',
      // Without a graphics card the web view must draw by itself.
      WEBKIT_DISABLE_DMABUF_RENDERER: '1',
      LIBGL_ALWAYS_SOFTWARE: '1',
      ...more,
    };
  }

  /** Whether the app left anything in the place where a person's own data would be. */
  holdsPersonalData(): boolean {
    return existsSync(path.join(this.#folder.path, '.local', 'share', 'org.valvewright.app'));
  }

  remove(): void {
    this.#folder.remove();
  }
}

/** A display of phone size. */
export async function startDisplay(): Promise<{ name: string; program: Program }> {
  const program = new Program('Xvfb', [
    ...['-displayfd', '1', '-screen', '0', `${WIDTH}x${HEIGHT}x24`],
    ...['-nolisten', 'tcp', '-noreset'],
  ]);
  const number = (await program.says(/^(\d+)\n/m))[1];
  return { name: `:${number}`, program };
}

async function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.on('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      server.close(() => {
        if (typeof address === 'object' && address) resolve(address.port);
        else reject(new Error('no port'));
      });
    });
  });
}

/** What a start of the app gets beside its data folder. */
export interface StartWith {
  /** Its command line. */
  readonly args?: readonly string[];
  /** More of its environment. */
  readonly env?: NodeJS.ProcessEnv;
}

/** The app's window, open. */
export class App {
  /** Problems on pages that are gone. */
  readonly #past: string[] = [];
  readonly #home = new Home();
  #display!: { name: string; program: Program };
  #driver!: Program;
  #with: StartWith = {};
  /** The page, by WebdriverIO. */
  page!: WebdriverIO.Browser;

  static async start(start: StartWith = {}): Promise<App> {
    const app = new App();
    app.#with = start;
    app.#display = await startDisplay();
    await app.#open();
    return app;
  }

  /** The app's data folder. */
  get data(): string {
    return this.#home.data;
  }

  /** What programs get that belong to the same person at the same display. */
  get environment(): NodeJS.ProcessEnv {
    return this.#home.environment({
      DISPLAY: this.#display.name,
      VALVEWRIGHT_DATA: this.data,
      ...this.#with.env,
    });
  }

  /** The store's file. */
  get store(): string {
    return path.join(this.data, 'valvewright.db');
  }

  async #open(): Promise<void> {
    const port = await freePort();
    this.#driver = new Program('WebKitWebDriver', ['--host=127.0.0.1', `--port=${port}`], {
      env: {
        ...this.environment,
        TAURI_AUTOMATION: 'true',
        TAURI_WEBVIEW_AUTOMATION: 'true',
      },
    });
    await until('WebKitWebDriver', async () => {
      if (!this.#driver.running) throw new Error(`WebKitWebDriver: ${this.#driver.printed}`);
      return fetch(`http://127.0.0.1:${port}/status`).then(
        (response) => response.ok,
        () => false,
      );
    });
    this.page = await remote({
      hostname: '127.0.0.1',
      port,
      logLevel: 'error',
      connectionRetryCount: 0,
      capabilities: {
        'wdio:enforceWebDriverClassic': true,
        'webkitgtk:browserOptions': { binary: built('valvewright'), args: [...(this.#with.args ?? [])] },
      } as WebdriverIO.Capabilities,
    });
  }

  /** Everything that the driver and the app printed. */
  get printed(): string {
    return this.#driver.printed;
  }

  /** Takes a picture of the whole display into tests/e2e/output. */
  picture(name: string): void {
    execFileSync('scrot', ['--overwrite', picture(name)], {
      env: this.environment,
    });
  }

  /** Presses keys and moves the pointer as a person would, by xdotool; answers what it prints. */
  desktop(...command: string[]): string {
    return execFileSync('xdotool', command, { env: this.environment, encoding: 'utf8' }).trim();
  }

  /** Waits for a window of this title; there is no window manager, so it is brought into focus. */
  async focus(title: string): Promise<void> {
    await until(`a window “${title}”`, () => {
      try {
        this.desktop('search', '--sync', '--onlyvisible', '--name', title, 'windowfocus', '--sync');
        return true;
      } catch {
        return false;
      }
    });
  }

  /** Kills the app as a power cut would, and starts it again on the same data. */
  async restart(start: StartWith = this.#with): Promise<void> {
    await this.#stop();
    this.#with = start;
    await this.#open();
  }

  async #stop(): Promise<void> {
    this.#past.push(...(await this.problems()));
    await this.#driver.kill();
  }

  /** What went wrong on the page since it was loaded, and in the program. */
  async problems(): Promise<string[]> {
    const onPage = await this.page.execute(
      () => (globalThis as unknown as { __problems?: string[] }).__problems ?? ['not watched'],
    );
    const inProgram = this.printed.split('\n').filter((line) => line.includes('panicked at'));
    return [...onPage, ...inProgram];
  }

  /** Takes out the problems that the test provoked on purpose. */
  async forgetProblems(): Promise<void> {
    await this.page.execute(() => {
      (globalThis as unknown as { __problems: string[] }).__problems.length = 0;
    });
  }

  async close(): Promise<void> {
    await this.#stop();
    await this.#display.program.kill();
    const strayed = this.#home.holdsPersonalData();
    this.#home.remove();
    expect(strayed, "the app wrote to the person's own data folder").toBe(false);
    expect(this.#past, this.#past.join('\n')).toEqual([]);
  }
}

/** A test with an app of its own. */
export const test = base.extend<{ app: App }>({
  // eslint-disable-next-line no-empty-pattern -- Vitest reads what a fixture needs from here.
  app: async ({}, use) => {
    const app = await App.start();
    try {
      await use(app);
    } finally {
      await app.close();
    }
  },
});
