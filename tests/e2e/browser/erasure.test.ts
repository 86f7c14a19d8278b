// A customer asks to be forgotten, and a bore's readings are followed across jobs.
import { expect, test } from '../harness/browser';
import { PhoneHands } from '../pages/phone-hands';
import { lookOver } from '../pages/screen';
import { ask } from '../pages/shop';

test('a customer is erased for good, and what was measured stays', async ({ phone }) => {
  const hands = new PhoneHands(phone.page);
  await hands.sees('Who is working?');
  await hands.press('Inês Harrowgate');
  const { jobs } = await ask(phone.server, 'job.list', {});
  const [first] = jobs;
  if (!first) throw new Error('the demo shop has no job');
  const { bores: before } = await ask(phone.server, 'job.get', { job: first.id });
  await ask(phone.server, 'job.edit', {
    job: first.id,
    part: { part: 'customer', body: { name: 'Edda Mallingham', phone: '555 0142', plate: 'VV HL 88' } },
  });
  await ask(phone.server, 'job.edit', {
    job: first.id,
    part: { part: 'notes', body: { text: 'Mrs Mallingham waits in the yard' } },
  });
  await ask(phone.server, 'backup.make', {});
  await phone.goTo(`#/job/${first.id}`);

  await hands.sees('Edda Mallingham');
  await hands.press('Erase this customer’s data');
  await hands.sees('What goes');
  await hands.sees('It names the customer.');
  await lookOver(phone, 'erasing a customer');
  const button = phone.page.getByRole('button', { name: 'Erase for good' });
  expect(await button.isDisabled()).toBe(true);
  await phone.page.getByLabel('Erase the notes too').check();
  await hands.write('Type ERASE to confirm. It can’t be undone.', 'erase');
  await hands.press('Erase for good');
  await hands.sees('lost their content for good');
  await hands.sees(/Looked through \d+ files, .* not found/);
  await hands.sees('Backups from before');
  await lookOver(phone, 'a customer erased');
  await hands.press('Make a new backup and delete this one');
  await hands.sees('1 older copy deleted.');
  expect((await ask(phone.server, 'erasure.list', {})).older).toEqual([]);
  await hands.press('Back to the job');
  await hands.sees('Erased on request by Inês Harrowgate');
  expect(await hands.text()).not.toContain('Mallingham');
  const { bores: after } = await ask(phone.server, 'job.get', { job: first.id });
  expect(after).toEqual(before);

  await phone.goTo('#/settings');
  await hands.sees('Erased on request');
  await hands.write('Words to look for', 'Mallingham');
  await hands.press('Look for them');
  await hands.sees(/Looked through \d+ files/);
  await lookOver(phone, 'erasures in settings');
});

test('a bore’s history is reached from its job, and tells vehicles apart', async ({ phone }) => {
  const hands = new PhoneHands(phone.page);
  await hands.sees('Who is working?');
  await hands.press('Inês Harrowgate');
  const { jobs } = await ask(phone.server, 'job.list', {});
  const tested = jobs.find(({ tests, repairs }) => tests > 1 && repairs > 0) ?? jobs[0];
  if (!tested) throw new Error('the demo shop has no job');
  await phone.goTo(`#/job/${tested.id}`);
  await phone.page.getByRole('link', { name: 'All tests of this bore, across jobs' }).first().tap();
  await hands.sees('History of the bore');
  await hands.sees('This vehicle');
  await hands.sees('Other units of this profile');
  await hands.sees('Readings are as they were read');
  await lookOver(phone, 'history of a bore');
});
