// Whom to believe: a file is taken in only once each signer that asks is answered for.
import { cleanup, screen, waitFor } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it } from 'vitest';
import { openSession, renderInApp } from '$lib/app/testing/in-app';
import { RecordingBackend } from '$lib/app/testing/recording-backend';
import { overview } from '$lib/app/testing/shop';
import type { BundlePlan, BundleSigner } from '$lib/generated/commands';
import { asked, USUAL } from './wanted';
import TakeInView from './TakeInView.svelte';

const user = userEvent.setup();
afterEach(cleanup);

const KEY = 'c0ffee1234567890abcd'.padEnd(64, '0');

const FIRST_SEEN: BundleSigner = {
  device: KEY,
  name: '',
  people: ['Wen Okafor-Lindqvist'],
  actions: 3,
  made_it: true,
  stranger: true,
  own: false,
  demo: false,
  asks: true,
  doubts: [],
  poses_as: [],
  distrusted_since: null,
  signed_after: 0,
};

function plan(signer: BundleSigner): BundlePlan {
  return {
    name: 'shop.vvb',
    made_by: 'Wen Okafor-Lindqvist',
    made_at: '2026-11-25T08:10:00Z',
    signers: [signer],
    new_records: 12,
    same_records: 0,
    new_contents: 12,
    withheld: 0,
    withheld_text: 0,
    erases: 0, refused: 0, photos: 0, new_photos: 0, photo_bytes: 0,
    nothing_new: false,
    jobs: [],
    things: [],
    newer: [],
    concurrent: [],
    unknown: [],
  };
}

async function looksAt(signer: BundleSigner) {
  const backend = new RecordingBackend({
    'app.state': () => ({ version: '0.1.0', store_path: '/shop.db' }),
    'shop.overview': () => overview(),
    'bundle.look': () => plan(signer),
    'bundle.take_in': () => ({ import: 1, new_records: 12, erased: 0 }),
    'file.begin': () => ({ file: 3, bytes: 0 }),
    'file.add': () => ({ file: 3, bytes: 5 }),
  });
  renderInApp(await openSession(backend, '#/take-in'), TakeInView, {});
  await user.upload(
    screen.getByLabelText<HTMLInputElement>('File to take in'),
    new File(['01234'], 'shop.vvb'),
  );
  await screen.findByText('c0ff ee12 3456 7890 abcd');
  return backend;
}

const button = (name: string) => screen.getByRole<HTMLButtonElement>('button', { name });

describe('a device that isn’t known', () => {
  it('is compared, named and accepted before the file is taken in', async () => {
    const backend = await looksAt(FIRST_SEEN);
    expect(button('Take it in').disabled).toBe(true);
    await user.type(screen.getByLabelText('What to call this device'), ' Wen’s phone ');
    await user.click(button('The marks are the same'));
    expect(button('Take it in').disabled).toBe(false);
    await user.click(button('Not sure after all'));
    expect(button('Take it in').disabled).toBe(true);
    await user.click(button('The marks are the same'));
    await user.click(button('Take it in'));
    await waitFor(() =>
      expect(backend.argsOf('bundle.take_in')).toEqual([
        { file: 3, signers: [{ device: KEY, name: 'Wen’s phone', despite_doubts: false }] },
      ]),
    );
  });
});

describe('a known name under another key', () => {
  it('takes a yes of its own', async () => {
    const backend = await looksAt({
      ...FIRST_SEEN,
      doubts: ['known_name_unknown_key'],
      poses_as: ['Wen Okafor-Lindqvist'],
    });
    expect(button('The marks are the same').disabled).toBe(true);
    await user.click(screen.getByLabelText('I spoke to them and believe it all the same'));
    await user.click(button('The marks are the same'));
    await user.click(button('Take it in'));
    await waitFor(() =>
      expect(backend.argsOf('bundle.take_in')).toEqual([
        { file: 3, signers: [{ device: KEY, name: null, despite_doubts: true }] },
      ]),
    );
  });
});

describe('what goes into a file', () => {
  it('is the whole shop unless something else is wanted, and never nothing', () => {
    expect(asked(USUAL, undefined)).toMatchObject({ jobs: null, units: null });
    expect(asked(USUAL, 'j-1')).toMatchObject({ jobs: ['j-1'], units: null });
    const units = { ...USUAL, what: 'units', units: ['u-1'], jobs: ['j-1'] } as const;
    expect(asked(units, undefined)).toMatchObject({ jobs: null, units: ['u-1'] });
    expect(asked({ ...units, units: [] }, undefined)).toBeUndefined();
    expect(asked({ ...USUAL, unseenBy: KEY }, undefined)?.unseen_by).toBe(KEY);
  });
});
