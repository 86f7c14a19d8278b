// What takes long: asked how far it is, and stopped.
import { cleanup, screen, waitFor } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it } from 'vitest';
import { openSession, renderInApp } from '$lib/app/testing/in-app';
import { RecordingBackend, refusal } from '$lib/app/testing/recording-backend';
import { overview } from '$lib/app/testing/shop';
import type { TaskState } from '$lib/generated/commands';
import SettingsView from '../../views/settings/SettingsView.svelte';
import { Cancelled, LongWork } from './long-work.svelte';

afterEach(cleanup);

const CHECK = { clean: true, digest: 'd', findings: [], records: 4, pictures: [] };

/** A core whose check runs until it is let go or told to stop. */
function slow() {
  let state: TaskState = 'running';
  const backend = new RecordingBackend({
    'app.state': () => ({ version: '0.1.0', store_path: '/shop.db' }),
    'shop.overview': () => overview(),
    'backup.list': () => ({ folder: '/backups', backups: [] }),
    'import.list': () => ({ imports: [], demo: false }),
    'erasure.list': () => ({ erasures: [], older: [], pending: false }),
    'task.begin': () => ({ task: 5 }),
    'task.state': () => ({ task: 5, done: 3, total: 4, state }),
    'task.cancel': () => {
      state = 'cancelled';
      return { task: 5, done: 3, total: 4, state: 'cancelling' };
    },
  });
  return { backend, end: (as: TaskState) => (state = as) };
}

describe('long work', () => {
  it('says how far it is, and answers as its command', async () => {
    const { backend, end } = slow();
    const long = new LongWork();
    const answer = long.call(backend, 'store.check', {});
    await waitFor(() => expect(long.share).toBe(0.75));
    end({ finished: { store_check: CHECK } } as unknown as TaskState);
    expect(await answer).toEqual(CHECK);
    expect(long.share).toBeUndefined();
    expect(backend.argsOf('task.begin')).toEqual([{ work: { store_check: {} } }]);
  });

  it('fails as its command does', async () => {
    const { backend, end } = slow();
    const answer = new LongWork().call(backend, 'backup.make', {});
    end({ failed: { code: 'disk_full', params: {}, retry: true } });
    await expect(answer).rejects.toMatchObject({ error: { code: 'disk_full' } });
    expect(backend.argsOf('task.begin')).toEqual([{ work: 'backup_make' }]);
  });

  it('stopped, is told to stop once and fails as cancelled', async () => {
    const { backend } = slow();
    const long = new LongWork();
    const answer = long.call(backend, 'store.check', {});
    await waitFor(() => expect(long.share).toBe(0.75));
    long.cancel();
    long.cancel();
    await expect(answer).rejects.toBeInstanceOf(Cancelled);
    expect(backend.argsOf('task.cancel')).toEqual([{ task: 5 }]);
  });

  it('goes on where it can’t be stopped', async () => {
    const { backend, end } = slow();
    backend.answer({ 'task.cancel': () => Promise.reject(refusal('not_found')) });
    const long = new LongWork();
    const answer = long.call(backend, 'store.check', {});
    await waitFor(() => expect(long.share).toBe(0.75));
    long.cancel();
    end({ finished: { store_check: CHECK } } as unknown as TaskState);
    expect(await answer).toEqual(CHECK);
  });
});

it('a check of the shop’s file is stopped on the page, and nothing is said of it', async () => {
  const { backend } = slow();
  const user = userEvent.setup();
  const session = await openSession(backend, '#/settings');
  renderInApp(session, SettingsView, {});
  await user.click(await screen.findByRole('button', { name: 'Check the shop’s file' }));
  await user.click(await screen.findByRole('button', { name: 'Stop' }));
  const again = screen.getByRole('button', { name: 'Check the shop’s file' });
  await waitFor(() => expect(again).toHaveProperty('disabled', false));
  expect(screen.queryByRole('button', { name: 'Stop' })).toBeNull();
  expect(screen.queryByRole('alert')).toBeNull();
});
