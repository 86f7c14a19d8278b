// Chromium, driven by Playwright.
import { type Browser, chromium as playwright } from 'playwright-core';

let launched: Promise<Browser> | undefined;

/**
 * One for all the files that a process runs, since a start costs more than many a test; it ends
 * with the process. Whoever wants it opens a context, which shares nothing with another, and closes
 * that.
 */
export function chromium(): Promise<Browser> {
  launched ??= playwright.launch({
    executablePath: '/usr/bin/chromium-headless-shell',
    args: [
      ...['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run'],
      ...['--disable-background-networking', '--disable-component-update', '--disable-sync'],
    ],
  });
  return launched;
}
