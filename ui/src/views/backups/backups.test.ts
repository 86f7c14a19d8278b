import { screen, waitFor, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { expect, test } from 'vitest';
import { openSession, renderInApp } from '$lib/app/testing/in-app';
import { RecordingBackend, refusal } from '$lib/app/testing/recording-backend';
import type { BackupEntry, StoreRepaired } from '$lib/generated/commands';
import BackupList from './BackupList.svelte';
import Rescue from './Rescue.svelte';
import { lossWords } from './words';

const backup: BackupEntry = {
  name: 'valvewright-2026-04-14T12-00-00.000Z-daily.db',
  made_at: '2026-04-14T12:00:00Z',
  reason: 'daily',
  bytes: 310_000,
  holds: { records: 86, jobs: 1, last_change: '2026-04-13T09:30:00Z' },
};

test('going back asks first, says what it costs, and does nothing when it is put away', async () => {
  const user = userEvent.setup();
  const backend = new RecordingBackend({
    'backup.restore': () => {
      throw refusal('store_locked');
    },
  });
  const session = await openSession(backend);
  renderInApp(session, BackupList, { backups: [backup] });
  expect(screen.getByText('1 job, 86 records, 310 kB')).toBeTruthy();
  await user.click(screen.getByRole('button', { name: /Go back to / }));
  expect(screen.getByText('What was recorded since then is no longer in the shop.')).toBeTruthy();
  await user.click(screen.getByRole('button', { name: 'Leave it as it is' }));
  expect(backend.argsOf('backup.restore')).toEqual([]);
  await user.click(screen.getByRole('button', { name: /Go back to / }));
  await user.click(screen.getByRole('button', { name: 'Go back to it' }));
  await waitFor(() => expect(screen.getByRole('alert')).toBeTruthy());
  expect(backend.argsOf('backup.restore')).toEqual([{ name: backup.name }]);
  expect(within(screen.getByRole('alert')).getByText(/Another program has/)).toBeTruthy();
});

test('a repair says what was saved and what was not', async () => {
  const user = userEvent.setup();
  const repaired: StoreRepaired = {
    records: 80,
    drafts: 1,
    unreadable_rows: 3,
    lost: [{ reason: 'content_altered', kind: 'test.reading', job: '0007', count: 2 }],
    aside: 'valvewright-2026-04-14T12-00-00.000Z-replaced.db',
  };
  const backend = new RecordingBackend({
    'backup.list': () => ({ folder: '/shop/backups', backups: [] }),
    'store.repair': () => repaired,
  });
  const session = await openSession(backend);
  renderInApp(session, Rescue, { code: 'store_damaged' as const, saved: false });
  await waitFor(() => expect(screen.getByText('There is no backup on this device.')).toBeTruthy());
  await user.click(screen.getByRole('button', { name: 'Save what can be read' }));
  await waitFor(() => expect(screen.getByText(/80 records saved/)).toBeTruthy());
  expect(screen.getByText(/, job 0007: 2 \(content damaged, left out\)/)).toBeTruthy();
  expect(screen.getByText(/3 rows of the file could not be read/)).toBeTruthy();
});

test('a newer file is not offered to be repaired', async () => {
  const backend = new RecordingBackend({
    'backup.list': () => ({ folder: '/shop/backups', backups: [backup] }),
  });
  const session = await openSession(backend);
  renderInApp(session, Rescue, { code: 'newer_schema' as const, saved: false });
  await waitFor(() => expect(screen.getByRole('button', { name: /Go back to / })).toBeTruthy());
  expect(screen.queryByRole('button', { name: 'Save what can be read' })).toBeNull();
});

test('a loss of which nothing is known is told as records', () => {
  expect(lossWords({ reason: 'missing', count: 4 })).toBe(
    'Records: 4 (not found: lost, or never passed on to this device)',
  );
});
