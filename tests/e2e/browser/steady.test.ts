// Nothing jumps under the thumb while a screen comes in.
import { expect, test } from '../harness/browser';
import { PhoneHands } from '../pages/phone-hands';
import { begunTest } from '../pages/shop';

/** Half of what web.dev's Cumulative Layout Shift calls good. */
const MOST = 0.05;

test('screens come in without pushing about what is there already', async ({ phone }) => {
  const { job, test: id } = await begunTest(phone.server);
  await phone.page.addInitScript(() => {
    const shifts: number[] = [];
    Object.assign(globalThis, { shifts });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries() as (PerformanceEntry & { value: number })[]) shifts.push(entry.value);
    }).observe({ type: 'layout-shift', buffered: true });
  });
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
    await phone.page.evaluate((to) => {
      (globalThis as unknown as { shifts: number[] }).shifts.length = 0;
      location.hash = to;
    }, place);
    await hands.sees(sees === 'Begin a vacuum test here' ? /Begin a vacuum test here|Test it again/ : sees);
    const sum = await phone.page.evaluate(async () => {
      await new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)));
      return (globalThis as unknown as { shifts: number[] }).shifts.reduce((all, one) => all + one, 0);
    });
    expect(sum, `${place} shifts by ${sum}`).toBeLessThan(MOST);
  }
});
