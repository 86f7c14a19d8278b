// The pictures of photos in a file that is passed on, and in one that comes.
import { cleanup, render, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it } from 'vitest';
import { openSession, renderInApp } from '$lib/app/testing/in-app';
import { RecordingBackend } from '$lib/app/testing/recording-backend';
import { overview } from '$lib/app/testing/shop';
import type { BundlePlan } from '$lib/generated/commands';
import PassOnView from './PassOnView.svelte';
import PlanShown from './PlanShown.svelte';

const user = userEvent.setup();
afterEach(cleanup);

const press = async (name: string) => user.click(await screen.findByRole('button', { name }));

async function passOn(photos: number) {
  const backend = new RecordingBackend({
    'app.state': () => ({ version: '0.1.0', store_path: '/shop.db' }),
    'shop.overview': () => overview(),
    'job.list': () => ({ jobs: [], found: 0, more: false }) as never,
    'device.list': () => ({ devices: [] }) as never,
    'bundle.make': () => ({
      file: 7,
      name: 'shop.vvb',
      bytes: 900_000,
      records: 12,
      jobs: 1,
      left_out: 0,
      left_out_text: 0,
      already_there: 0,
      photos,
      photo_bytes: photos * 400_000,
      sealed: false,
    }),
  });
  renderInApp(await openSession(backend, '#/pass-on'), PassOnView, {});
  return backend;
}

describe('photos', () => {
  it('go along unless somebody says otherwise, and how many did is told', async () => {
    const backend = await passOn(2);
    await press('Make the file');
    await screen.findByText(/^2 photos with their pictures, /);
    expect(backend.argsOf('bundle.make')[0]?.photos).toBe(true);
  });

  it('stay behind when they are not wanted', async () => {
    const backend = await passOn(0);
    await press('More choices');
    await user.click(await screen.findByLabelText(/Without pictures/));
    await press('Make the file');
    await screen.findByText('The file is ready');
    expect(backend.argsOf('bundle.make')[0]?.photos).toBe(false);
    expect(screen.queryByText(/with their pictures, /)).toBeNull();
  });

  it('that come are counted before they are taken in', () => {
    const plan: BundlePlan = {
      name: 'shop.vvb',
      made_by: 'Ida Lund',
      made_at: '2026-11-25T08:10:00Z',
      signers: [],
      new_records: 0,
      same_records: 12,
      new_contents: 0,
      withheld: 0,
      withheld_text: 0,
      erases: 0,
      refused: 0,
      photos: 3,
      new_photos: 2,
      photo_bytes: 1_200_000,
      nothing_new: false,
      jobs: [],
      things: [],
      newer: [],
      concurrent: [],
      unknown: [],
    };
    render(PlanShown, { plan, answers: new Map(), onanswer: () => undefined });
    expect(screen.getByText('Photos')).toBeTruthy();
    expect(screen.getByText('2 new, 1 here already')).toBeTruthy();
  });
});
