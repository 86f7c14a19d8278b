import { cleanup, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, expect, it } from 'vitest';
import type { JobList } from '$lib/generated/commands';
import { openSession, renderInApp } from '$lib/app/testing/in-app';
import { RecordingBackend } from '$lib/app/testing/recording-backend';
import { overview, PERSON } from '$lib/app/testing/shop';
import JobsList from './JobsList.svelte';

const user = userEvent.setup();
afterEach(cleanup);

it('what is typed while the shop is read anew stays, and late answers don’t replace what it finds', async () => {
  const asked: { text: string; answer: (found: number) => void }[] = [];
  const backend = new RecordingBackend({
    'app.state': () => ({ version: '0.1.0', store_path: '/shop.db' }),
    'shop.overview': () => overview({ author: null }),
    'person.choose': () => overview(),
    'job.list': ({ text }) =>
      new Promise<JobList>((resolve) => {
        asked.push({ text: text ?? '', answer: (found) => resolve({ jobs: [], found }) });
      }),
    'settle.list': () => ({ items: [] }),
  });
  const opened = openSession(backend);
  await expect.poll(() => asked.length).toBe(1);
  asked[0]?.answer(17);
  const session = await opened;
  renderInApp(session, JobsList, {});
  const box = await screen.findByRole('searchbox');

  // Somebody is chosen: the list is asked for anew, and the answer takes its time.
  await session.choosePerson(PERSON.id);
  await expect.poll(() => asked.length).toBe(2);
  await user.type(box, 'zeb');
  asked[1]?.answer(17);
  await user.type(box, 'ra');
  await expect.poll(() => asked.at(-1)?.text).toBe('zebra');
  expect(screen.getByRole('searchbox')).toBe(box);
  expect((box as HTMLInputElement).value).toBe('zebra');

  // The answers to earlier letters come after the one to the whole word.
  asked.at(-1)?.answer(1);
  await screen.findByText('1 job');
  for (const { answer } of asked.slice(2, -1)) answer(9);
  await Promise.resolve();
  expect(screen.getByText('1 job')).toBeTruthy();
  expect((box as HTMLInputElement).value).toBe('zebra');
});
