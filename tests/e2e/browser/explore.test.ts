// A valve tried out with other parts, from what a test of the job found.
import { expect, test } from '../harness/browser';
import { PhoneHands } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { ask } from '../pages/shop';

test('a worn valve is tried with a wider orifice, followed in time, and the setting is kept', async ({
  phone,
}) => {
  const hands = new PhoneHands(phone.page);
  const { page, server } = phone;
  await hands.sees('Who is working?');
  await hands.press('Inês Harrowgate');
  const { jobs } = await ask(server, 'job.list', {});
  // The first job whose bore was judged worn, with its leak known.
  let found: { job: string; bore: string } | undefined;
  for (const { id: job } of jobs) {
    const { bores } = await ask(server, 'job.get', { job });
    for (const { bore } of bores) {
      const view = await ask(server, 'bore.explore', { bore, job });
      if (view.seals && !found) found = { job, bore };
    }
  }
  if (!found) throw new Error('the demo shop lacks a bore whose leak is known');
  const { job, bore } = found;
  const view = await ask(server, 'bore.explore', { bore, job });
  const answer = (orifice?: number) =>
    ask(server, 'regulator.explore', {
      profile: view.profile,
      seals: view.seals ?? null,
      relief: view.relief ?? null,
      setting: orifice === undefined ? {} : { orifice_m: orifice },
    });

  await phone.goTo(`#/job/${job}/explore/${bore}`);
  await hands.sees('Nothing here is a measurement');
  await lookOver(phone, 'a valve tried out');
  const holds = page.getByText(/^Holds /);
  const psi = async () => Number(/[\d.]+/.exec(await holds.innerText())?.[0]);
  const asFound = await answer();
  expect(await psi()).toBeCloseTo((asFound.feed_pa?.likely ?? 0) / 6894.757293168361, 0);

  // By keyboard to the widest orifice: the figure below is the core's own for it.
  const slider = page.getByLabel('Balance orifice');
  await slider.focus();
  await slider.press('End');
  const widest = view.figures.find(({ field }) => field === 'orifice_m')?.high ?? 0;
  const wide = await answer(widest);
  await expect.poll(psi).toBeCloseTo((wide.feed_pa?.likely ?? 0) / 6894.757293168361, 0);
  const shift = ({ explored: { consequence } }: typeof wide) =>
    consequence.answer === 'computed'
      ? Math.abs(consequence.highest_line.shift_pa?.likely ?? NaN)
      : NaN;
  expect(shift(wide)).toBeLessThan(shift(asFound));

  await hands.press('Let line step up');
  await hands.sees('Not measured, so taken as typical');
  await lookOver(phone, 'a valve followed in time');
  const moment = page.getByLabel('Moment shown');
  await moment.focus();
  await moment.press('End');
  await hands.sees('Moment: 60.0 ms');

  await hands.press('Keep this setting');
  await hands.write('What it shows', 'The same wear behind a wide orifice');
  await hands.press('Keep it');
  await hands.sees('The same wear behind a wide orifice');
  await hands.press('Back to as found');
  await expect.poll(psi).toBeCloseTo((asFound.feed_pa?.likely ?? 0) / 6894.757293168361, 0);
  const kept = page.getByRole('listitem').filter({ hasText: 'The same wear behind a wide orifice' });
  await kept.getByRole('button', { name: 'Set it so' }).tap();
  await expect.poll(psi).toBeCloseTo((wide.feed_pa?.likely ?? 0) / 6894.757293168361, 0);
  await kept.getByRole('button', { name: 'Take it away' }).tap();
  await expect.poll(() => kept.count()).toBe(0);
  // The shop's own stays.
  await hands.sees('Worn as 0101 was');
});
