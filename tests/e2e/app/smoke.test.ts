import { existsSync, statSync } from 'node:fs';
import { test as plain } from 'vitest';
import { Home, expect, startDisplay, test } from '../harness/app';
import { Program, built } from '../harness/process';

test('the app opens its window at phone size with the demo shop in a store that it made', async ({ app }) => {
  await expect.poll(() => app.page.getTitle()).toContain('Valvewright');
  await expect.poll(() => app.page.$('h1').getText()).toBe('Hollow Lane Valve Works');
  expect(existsSync(app.store)).toBe(true);
  expect(statSync(app.data).mode & 0o777).toBe(0o700);
  const size = await app.page.execute(() => [window.innerWidth, window.innerHeight]);
  expect(size).toEqual([412, 915]);
  app.picture('app-first-screen');
});

test('the app opens again after it was killed', async ({ app }) => {
  await expect.poll(() => app.page.$('h1').getText()).toBe('Hollow Lane Valve Works');
  await app.restart();
  await expect.poll(() => app.page.$('h1').getText()).toBe('Hollow Lane Valve Works');
});

test('the window stays with the app, wherever a link leads', async ({ app }) => {
  const before = await app.page.getUrl();
  await app.page.execute(() => {
    const link = document.createElement('a');
    link.href = 'http://127.0.0.1:9/';
    link.textContent = 'elsewhere';
    document.body.append(link);
    link.click();
  });
  await new Promise((resolve) => setTimeout(resolve, 500));
  expect(await app.page.getUrl()).toBe(before);
});

test('a page that loads something from elsewhere is caught', async ({ app }) => {
  await app.page.execute(() => {
    const image = document.createElement('img');
    image.src = 'http://127.0.0.1:9/somewhere-else.png';
    document.body.append(image);
  });
  await expect
    .poll(async () => (await app.problems()).join('\n'))
    .toContain('Content-Security-Policy: img-src');
  await app.forgetProblems();
});

test('the page can reach nothing of the shell but its own commands', async ({ app }) => {
  const refused = await app.page.execute(async () => {
    const { invoke } = (
      globalThis as unknown as {
        __TAURI_INTERNALS__: { invoke(command: string, args: unknown): Promise<unknown> };
      }
    ).__TAURI_INTERNALS__;
    const attempts = [
      'plugin:window|close',
      'plugin:webview|create_webview',
      'plugin:path|resolve',
      'plugin:dialog|open',
      'plugin:dialog|save',
      'plugin:fs|read_file',
      'plugin:fs|write_file',
    ];
    const outcomes = [];
    for (const command of attempts) {
      outcomes.push(
        await invoke(command, {}).then(
          () => `${command} was allowed`,
          (error: unknown) => String(error),
        ),
      );
    }
    return outcomes;
  });
  expect(refused).toHaveLength(7);
  for (const outcome of refused) expect(outcome).toMatch(/not allowed/);
});

plain("a driven app without a data folder of its own refuses to start on the person's", async () => {
  const home = new Home();
  const display = await startDisplay();
  try {
    const app = new Program(built('valvewright'), [], {
      env: home.environment({ DISPLAY: display.name, TAURI_WEBVIEW_AUTOMATION: 'true' }),
    });
    expect(await app.ends()).not.toBe(0);
    expect(app.printed).toContain('VALVEWRIGHT_DATA');
    expect(home.holdsPersonalData()).toBe(false);
  } finally {
    await display.program.kill();
    home.remove();
  }
});
