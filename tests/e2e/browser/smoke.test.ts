import { existsSync } from 'node:fs';
import { expect, test } from '../harness/browser';

test('the app opens with the demo shop, and its screen can be read by everyone', async ({ phone }) => {
  await expect.poll(() => phone.page.title()).toContain('Valvewright');
  await expect.poll(() => phone.page.locator('h1').innerText()).toBe('Hollow Lane Valve Works');
  expect(existsSync(phone.server.store)).toBe(true);
  await phone.checkAccessibility();
  await phone.picture('browser-first-screen');
});

test('the token is gone from the address once the app is open', async ({ phone }) => {
  expect(phone.page.url()).not.toContain('token');
  const visible = await phone.page.evaluate(() => document.cookie);
  expect(visible).toBe('');
});

test('the app opens again after the program was killed', async ({ phone }) => {
  const before = phone.server.address;
  await phone.restart();
  expect(phone.server.address).not.toBe(before);
  await expect.poll(() => phone.page.locator('h1').innerText()).toBe('Hollow Lane Valve Works');
});

test('a page that loads something from elsewhere is caught', async ({ phone }) => {
  await phone.page.evaluate(() => {
    const image = document.createElement('img');
    image.src = 'http://127.0.0.1:9/somewhere-else.png';
    document.body.append(image);
  });
  await expect.poll(() => phone.problems.join('\n')).toContain('Content-Security-Policy: img-src');
  phone.problems.length = 0;
});
