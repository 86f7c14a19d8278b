import { cleanup, screen, waitFor } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { openSession, renderInApp } from '$lib/app/testing/in-app';
import { RecordingBackend, refusal } from '$lib/app/testing/recording-backend';
import { overview } from '$lib/app/testing/shop';
import type { PhotoEntry } from '$lib/generated/commands';
import Photos from './Photos.svelte';

const user = userEvent.setup();

beforeEach(() => {
  vi.spyOn(URL, 'createObjectURL').mockImplementation(() => 'blob:photo');
  vi.spyOn(URL, 'revokeObjectURL').mockImplementation(() => {});
});
afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
});

const photo = (more: Partial<PhotoEntry> = {}): PhotoEntry => ({
  photo: 'p-1',
  caption: 'Scored land',
  taken_at: '2026-04-14T12:00:00Z',
  shows: 'work_alone',
  concurrent: false,
  by: 'Marta Oyelaran',
  at: '2026-04-14T12:01:00Z',
  hash: 'ab',
  bytes: 3,
  width_px: 480,
  height_px: 640,
  is_here: true,
  ...more,
});

async function opened(photos: PhotoEntry[], props = {}) {
  const backend = new RecordingBackend({
    'app.state': () => ({ version: '0.1.0', store_path: '/shop.db' }),
    'shop.overview': () => overview(),
    'photo.list': () => ({ photos, undo: {} }),
    'photo.read': () => ({ base64: btoa('jpg'), bytes: 3 }),
    'file.begin': () => ({ file: 7, bytes: 0 }),
    'file.add': () => ({ file: 7, bytes: 3 }),
  });
  renderInApp(await openSession(backend), Photos, { job: 'j-1', ...props });
  await screen.findByRole('heading', { name: 'Photos' });
  return backend;
}

function chooser(): HTMLInputElement {
  const found = screen.getAllByLabelText<HTMLInputElement>('Choose photos').at(-1);
  if (!found) throw new Error('nothing to choose by');
  return found;
}

describe('the photos of a job', () => {
  it('are named by their captions, and those that may show a person are marked', async () => {
    await opened([photo(), photo({ photo: 'p-2', caption: '', shows: 'maybe_personal' })]);
    await screen.findByRole('button', { name: 'Scored land' });
    await screen.findByRole('button', { name: /^Photo without a caption, taken .*Personal$/ });
  });

  it('of a test are its own', async () => {
    await opened([photo(), photo({ photo: 'p-2', caption: 'Of the test', test: 't-1' })], {
      test: 't-1',
    });
    await screen.findByRole('button', { name: 'Of the test' });
    expect(screen.queryByText('Scored land')).toBeNull();
  });

  it('are added for the test, personal unless said otherwise; a refusal is told by file', async () => {
    const backend = await opened([], { test: 't-1' });
    let turn = 0;
    backend.answer({
      'photo.add': () => {
        turn += 1;
        if (turn === 1) throw refusal('picture_heic');
        return { photos: [photo({ test: 't-1' })], undo: {} };
      },
    });
    const files = ['a.heic', 'b.jpg'].map((name) => new File(['jpg'], name, { type: 'image/jpeg' }));
    await waitFor(() => chooser());
    await user.upload(chooser(), files);
    await screen.findByText('a.heic was not added.');
    await screen.findByRole('button', { name: 'Scored land' });
    expect(backend.argsOf('photo.add')).toMatchObject([
      { job: 'j-1', test: 't-1', file: 7, shows: 'maybe_personal' },
      { job: 'j-1', test: 't-1', file: 7, shows: 'maybe_personal' },
    ]);
  });

  it('say so where the picture is not on this device', async () => {
    const backend = await opened([photo({ is_here: false })]);
    await screen.findByText(/The picture isn’t on this device/);
    expect(backend.argsOf('photo.read')).toEqual([]);
  });
});
