// Nothing jumps under the thumb while a screen comes in.
import type { Page, Route } from 'playwright-core';
import { expect, test } from '../harness/browser';
import { Server } from '../harness/headless';
import { passOn } from '../pages/exchanged';
import { PhoneHands } from '../pages/phone-hands';
import { ask, begunTest, readyForReadings } from '../pages/shop';

/** Half of what web.dev's Cumulative Layout Shift calls good. */
const MOST = 0.05;

/** From here on the page notes each shift, from its next load. */
async function noteShifts(page: Page): Promise<void> {
  await page.addInitScript(() => {
    const shifts: number[] = [];
    Object.assign(globalThis, { shifts });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries() as (PerformanceEntry & { value: number })[]) shifts.push(entry.value);
    }).observe({ type: 'layout-shift', buffered: true });
  });
}

/** Goes to a place, whose shifts are counted anew. */
async function comesTo(page: Page, place: string): Promise<void> {
  await page.evaluate((to) => {
    (globalThis as unknown as { shifts: number[] }).shifts.length = 0;
    location.hash = to;
  }, place);
}

/** Once all is drawn, all shifts since one came here. */
function shiftsSince(page: Page): Promise<number> {
  return page.evaluate(async () => {
    await new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)));
    return (globalThis as unknown as { shifts: number[] }).shifts.reduce((all, one) => all + one, 0);
  });
}

test('screens come in without pushing about what is there already', async ({ phone }) => {
  const { job, test: id } = await begunTest(phone.server);
  await noteShifts(phone.page);
  await phone.open();
  const hands = new PhoneHands(phone.page);
  await hands.sees('Marta Oyelaran is working');
  for (const [place, sees] of [
    [`#/job/${job}`, 'Begin a vacuum test here'],
    [`#/job/${job}/begin`, 'On which stand?'],
    [`#/test/${id}`, 'How thick is the air here today?'],
    ['#/guide', 'How each check is done'],
    ['#/guide/relief', 'Where this comes from'],
    ['#/settings', 'How are numbers written?'],
    ['#/jobs/new', 'Which unit is on the bench?'],
  ] as const) {
    await comesTo(phone.page, place);
    await hands.sees(sees === 'Begin a vacuum test here' ? /Begin a vacuum test here|Test it again/ : sees);
    const sum = await shiftsSince(phone.page);
    expect(sum, `${place} shifts by ${sum}`).toBeLessThan(MOST);
  }
});

// The banner stands above all else. Its answer is held back here until the page's own is there and
// drawn: a page that didn't wait for it would move by its height.
test('what is to be settled pushes no page down, however late it is known', async ({ phone }) => {
  const { page, server } = phone;
  const { job, test: id } = await readyForReadings(server);
  const { unit } = (await ask(server, 'job.get', { job })).job;
  const theirs = await Server.start({ empty: true });
  try {
    await passOn(server, theirs);
    await ask(theirs, 'person.add', { name: 'Ida Lund' });
    for (const [shop, air_temperature_k, summary] of [
      [server, 294.15, 'As Marta has it'],
      [theirs, 296.15, 'As Ida has it'],
    ] as const) {
      const { setup } = await ask(shop, 'test.get', { test: id });
      if (!setup) throw new Error('the test has no set-up');
      await ask(shop, 'test.record', { test: id, part: { part: 'setup', body: { ...setup, air_temperature_k } } });
      const profile = await ask(shop, 'profile.get', { unit });
      const body = { ...profile.body, summary };
      await ask(shop, 'profile.put', { id: profile.id, part: { part: 'unit', body } });
    }
    await passOn(theirs, server);
  } finally {
    await theirs.close();
  }

  await noteShifts(page);
  await phone.open();
  const hands = new PhoneHands(page);
  await hands.sees('Marta Oyelaran is working');
  let held: Route[] = [];
  await page.route('**/call', async (route) => {
    if (route.request().postDataJSON().command === 'settle.list') held.push(route);
    else await route.continue();
  });
  for (const [place, command] of [
    [`#/job/${job}`, 'job.get'],
    [`#/test/${id}`, 'test.get'],
    [`#/unit/${unit}`, 'unit.get'],
    ['#/jobs', 'job.list'],
  ] as const) {
    held = [];
    const answered = page.waitForResponse((it) => it.request().postDataJSON()?.command === command);
    await comesTo(page, place);
    await (await answered).finished();
    await expect.poll(() => held.length).toBeGreaterThan(0);
    await shiftsSince(page);
    for (const route of held) await route.continue();
    await hands.sees(/changed by two people/);
    const sum = await shiftsSince(page);
    expect(sum, `${place} shifts by ${sum}`).toBeLessThan(MOST);
  }
});

// What was left half-typed is read by itself, and gives the step its height.
test('a step that comes late pushes nothing down', async ({ phone }) => {
  const { page, server } = phone;
  const { test: id } = await begunTest(server);
  await noteShifts(page);
  await phone.open();
  const hands = new PhoneHands(page);
  await hands.sees('Marta Oyelaran is working');
  const held: Route[] = [];
  await page.route('**/call', async (route) => {
    const { command, args } = route.request().postDataJSON();
    if (command === 'draft.get' && !String(args.key).endsWith(':place')) held.push(route);
    else await route.continue();
  });
  await comesTo(page, `#/test/${id}`);
  await expect.poll(() => held.length).toBeGreaterThan(0);
  await shiftsSince(page);
  for (const route of held) await route.continue();
  await hands.sees('How thick is the air here today?');
  await hands.sees('Photos');
  const sum = await shiftsSince(page);
  expect(sum, `the step shifts by ${sum}`).toBeLessThan(MOST);
});

// All places but the list are one script. A menu on a page that waits for it would be gone as soon as
// it is there, with the thumb over it.
test('a place whose script is still on its way offers nothing that goes away again', async ({ phone }) => {
  const { page } = phone;
  const { job } = await begunTest(phone.server);
  let release = (): void => undefined;
  const comes = new Promise<void>((done) => (release = done));
  await page.route('**/Places-*.js', async (route) => {
    await comes;
    await route.continue();
  });
  await phone.open();
  const hands = new PhoneHands(page);
  await hands.sees('Marta Oyelaran is working');
  await page.evaluate((to) => void (location.hash = to), `#/job/${job}`);
  await expect.poll(() => page.getByRole('button', { name: 'More', exact: true }).count()).toBe(0);
  release();
  await hands.press('More');
  await hands.press('Pass this job on');
  await hands.sees('One file with this job');
});
