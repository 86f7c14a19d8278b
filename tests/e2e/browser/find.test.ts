// Finding a job again among the shop's.
import { expect, test } from '../harness/browser';
import { PhoneHands } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { ask } from '../pages/shop';

test('a job is found by a part of a word, and the list is there again afterwards', async ({ phone }) => {
  const hands = new PhoneHands(phone.page);
  const { jobs } = await ask(phone.server, 'job.list', {});
  await hands.sees('Who is working?');
  await hands.press('Inês Harrowgate');
  const [first] = jobs;
  const [wanted] = jobs.filter(({ vehicle }) => vehicle.includes('taxi'));
  if (!first || !wanted) throw new Error('the demo shop lacks what the story needs');

  await hands.write('Find a job', 'TAX larkm');
  await hands.sees('1 job');
  await hands.sees(wanted.complaint.slice(0, 20));
  expect(await hands.text()).not.toContain(first.vehicle);
  await lookOver(phone, 'a job found');

  // Back from the job, the search is as it was.
  await hands.press(new RegExp(wanted.number));
  await hands.press('Back');
  await hands.sees('1 job');
  await hands.press('Show all jobs');
  await hands.sees(`${jobs.length} jobs`);
});

test('words that nothing holds are told, and filters narrow the list', async ({ phone }) => {
  const hands = new PhoneHands(phone.page);
  await hands.sees('Who is working?');
  await hands.press('Inês Harrowgate');
  await hands.write('Find a job', 'zebra');
  await hands.sees('No job fits.');
  await lookOver(phone, 'no job found');
  await hands.press('Show all jobs');

  await phone.page.getByText('Narrow it down').tap();
  await phone.page.getByLabel('Where it stands').selectOption('too_close_to_call');
  const { found } = await ask(phone.server, 'job.list', { state: 'too_close_to_call' });
  expect(found).toBeGreaterThan(0);
  await hands.sees(found === 1 ? '1 job' : `${found} jobs`);
  await hands.sees('Too close to call');
  await lookOver(phone, 'jobs narrowed down');
});
