// The interface in Chromium at phone size with touch, against `headless serve` and a real store.
//
//   import { expect, test } from '../harness/browser';
//
//   test('a reading is kept', async ({ phone }) => {
//     await phone.page.getByRole('button', { name: 'New reading' }).tap();
//     await expect.poll(() => phone.page.title()).toBe('Valvewright');
//     await phone.checkAccessibility();
//   });
//
// Each test gets a `phone` with a store of its own: `phone.page` (Playwright's), `phone.server`
// (`call` a command, look at its `store`), `phone.restart()` (kills the program as a power cut
// would, and opens the app again on the same store), `phone.picture(name)`. When the test ends, any violated Content-Security-Policy, error on the
// console, uncaught exception or failed request fails it; `phone.problems` holds them, and a test
// that provokes one on purpose takes it out. For a story over several tests, call `Phone.start()`
// in `beforeAll` and `phone.close()` in `afterAll`.
import axe from 'axe-core';
import type { BrowserContext, Page } from 'playwright-core';
import { test as base, expect } from 'vitest';
import { chromium } from './chromium';
import { Server } from './headless';
import { followLink } from './link';
import { picture } from './process';
import { PATIENCE_MS } from './patience';

export { expect };

export interface PhoneSettings {
  width?: number;
  height?: number;
  locale?: string;
  colorScheme?: 'light' | 'dark';
  /** A store without the demo shop. */
  empty?: boolean;
}

/** Chromium with the app open. */
export class Phone {
  readonly problems: string[] = [];
  /** While the program is down, the page's complaints about that are no news. */
  #down = false;

  private constructor(
    readonly server: Server,
    readonly page: Page,
    readonly context: BrowserContext,
  ) {}

  /** Starts a server on a fresh store and opens the app. */
  static async start(settings: PhoneSettings = {}): Promise<Phone> {
    const server = await Server.start({ empty: settings.empty ?? false });
    const context = await (await chromium()).newContext({
      viewport: { width: settings.width ?? 360, height: settings.height ?? 800 },
      deviceScaleFactor: 2,
      hasTouch: true,
      isMobile: true,
      locale: settings.locale ?? 'en-US',
      timezoneId: 'UTC',
      colorScheme: settings.colorScheme ?? 'light',
    });
    const page = await context.newPage();
    const phone = new Phone(server, page, context);
    await phone.#watch();
    await phone.open();
    return phone;
  }

  async #watch(): Promise<void> {
    const { page } = this;
    const report = (what: string) => {
      if (!this.#down) this.problems.push(what);
    };
    await page.exposeFunction('reportViolation', report);
    await page.addInitScript(() => {
      document.addEventListener('securitypolicyviolation', (event) => {
        const report = (globalThis as unknown as { reportViolation(what: string): void })
          .reportViolation;
        report(
          `Content-Security-Policy: ${event.effectiveDirective} blocked ${event.blockedURI} at ` +
            `${event.sourceFile}:${event.lineNumber} ${event.sample}`,
        );
      });
    });
    page.on('console', (message) => {
      if (message.type() === 'error' || message.type() === 'warning') {
        report(`console ${message.type()}: ${message.text()} (${message.location().url})`);
      }
    });
    page.on('pageerror', (error) => report(`exception: ${error.stack ?? error.message}`));
    page.on('requestfailed', (request) => {
      const why = request.failure()?.errorText;
      // The page was left before the answer came.
      if (why !== 'net::ERR_ABORTED') report(`request: ${request.url()} ${why}`);
    });
    page.on('request', (request) => {
      const { protocol, hostname } = new URL(request.url());
      if (protocol !== 'data:' && protocol !== 'blob:' && hostname !== '127.0.0.1') {
        report(`request to another host: ${request.url()}`);
      }
    });
  }

  /** Loads the app from its server. */
  async open(): Promise<void> {
    await this.page.goto(this.server.address, { waitUntil: 'load' });
  }

  /** Goes to a place of the app as a link in it would, and waits until the app is there. */
  async goTo(place: string): Promise<void> {
    await this.page.evaluate(followLink, place);
    const there = () => new URL(this.page.url()).hash;
    await expect.poll(there, { timeout: PATIENCE_MS, message: place }).toBe(place);
  }

  /** Types an address, one that no link of the app has. */
  async typeAddress(address: string): Promise<void> {
    await this.page.evaluate((to) => {
      globalThis.location.hash = to;
    }, address);
  }

  /**
   * Kills the program with the page open, so that nothing the page does on leaving is stored;
   * starts it again on the same store and opens the app anew. `meanwhile` runs while it is down.
   */
  async restart(meanwhile: () => void = () => {}): Promise<void> {
    this.#down = true;
    await this.server.kill();
    await this.page.goto('about:blank');
    meanwhile();
    await this.server.restart();
    this.#down = false;
    await this.open();
  }

  /**
   * Checks a page as it is now with axe-core, and fails on any serious or critical finding.
   * `colours`: only what another colour scheme can change.
   */
  async checkAccessibility(page: Page = this.page, { colours = false } = {}): Promise<void> {
    // Evaluated by the debugger, which the page's policy doesn't bind; once for each page loaded.
    const there = await page.evaluate(() => 'axe' in globalThis);
    if (!there) await page.evaluate(axe.source);
    const violations = await page.evaluate(async (colours) => {
      const { violations } = await (globalThis as unknown as { axe: typeof axe }).axe.run(document, {
        resultTypes: ['violations'],
        ...(colours ? { runOnly: ['color-contrast', 'link-in-text-block'] } : {}),
      });
      return violations.map(({ id, impact, help, nodes }) => ({
        id,
        impact,
        help,
        where: nodes.map((node) => `${node.target.join(' ')}: ${node.failureSummary}`),
      }));
    }, colours);
    const serious = violations.filter(({ impact }) => impact === 'serious' || impact === 'critical');
    expect(serious, JSON.stringify(serious, null, 2)).toEqual([]);
  }

  /** Takes a picture into tests/e2e/output. */
  async picture(name: string): Promise<void> {
    await this.page.screenshot({ path: picture(name) });
  }

  /** Fails if anything went wrong on the page so far. */
  checkProblems(): void {
    expect(this.problems, this.problems.join('\n')).toEqual([]);
  }

  async close(): Promise<void> {
    await this.context.close();
    await this.server.close();
    this.checkProblems();
  }
}

/**
 * A test with a phone of its own; `test.extend({ settings: { width: 320 } })` makes one of another
 * kind. Not `override`: files share this module, and it would change the phones of those that follow.
 */
export const test = base.extend<{ settings: PhoneSettings; phone: Phone }>({
  settings: {},
  phone: async ({ settings }, use) => {
    const phone = await Phone.start(settings);
    try {
      await use(phone);
    } finally {
      await phone.close();
    }
  },
});
