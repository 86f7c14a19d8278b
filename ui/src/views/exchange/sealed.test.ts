import { cleanup, screen, waitFor } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it } from 'vitest';
import { openSession, renderInApp } from '$lib/app/testing/in-app';
import { RecordingBackend, refusal } from '$lib/app/testing/recording-backend';
import { overview } from '$lib/app/testing/shop';
import { CommandFailure } from '$lib/backend';
import type { BundlePlan } from '$lib/generated/commands';
import PassOnView from './PassOnView.svelte';
import TakeInView from './TakeInView.svelte';

const user = userEvent.setup();
afterEach(cleanup);

const WORDS = 'quiet otter brass';
const SHOP = {
  'app.state': () => ({ version: '0.1.0', store_path: '/shop.db' }),
  'shop.overview': () => overview(),
} as const;

const field = () => screen.findByLabelText<HTMLInputElement>('Passphrase');
const nothingDrafted = (backend: RecordingBackend) =>
  expect(JSON.stringify([...backend.drafts])).not.toContain('otter');

describe('passing on', () => {
  const made = (sealed: boolean) => ({
    file: 1, name: 'shop.vvb', bytes: 900, records: 3, jobs: 1, left_out: 0, left_out_text: 0, already_there: 0, photos: 0, photo_bytes: 0, sealed,
  });

  async function passOn() {
    const backend = new RecordingBackend({
      ...SHOP,
      'bundle.make': ({ passphrase }) => {
        if (typeof passphrase === 'string' && passphrase.trim().length < 8) {
          throw new CommandFailure({
            code: 'short_passphrase', params: { least: '8' }, field: 'passphrase', retry: false,
          });
        }
        return made(typeof passphrase === 'string');
      },
    });
    renderInApp(await openSession(backend, '#/pass-on'), PassOnView, {});
    return backend;
  }

  it('asks for no passphrase and sends none unless one is wanted', async () => {
    const backend = await passOn();
    expect(screen.queryByLabelText('Passphrase')).toBeNull();
    await user.click(await screen.findByRole('button', { name: 'Make the file' }));
    await screen.findByText('The file is ready');
    expect(backend.argsOf('bundle.make')).toEqual([{ jobs: null, units: null, audience: 'colleague', photos: true, unseen_by: null, personal: false, passphrase: null }]);
    expect(screen.queryByText(/^Sealed/)).toBeNull();
  });

  it('a short one is told at the field, which keeps it; Enter makes the file', async () => {
    const backend = await passOn();
    await user.click(await screen.findByLabelText(/Only with a passphrase/));
    expect(screen.getByText(/nobody can recover it/)).toBeTruthy();
    expect(screen.getByText(/another way than the file/)).toBeTruthy();
    const input = await field();
    expect(input.type).toBe('password');
    expect(input.autocomplete).toBe('new-password');
    await user.type(input, 'otter{Enter}');
    await screen.findByText(/at least 8 characters, not counting/);
    expect(input.value).toBe('otter');
    expect(input.getAttribute('aria-invalid')).toBe('true');
    await waitFor(() => expect(document.activeElement).toBe(input));
    await user.click(screen.getByLabelText('Show what is typed'));
    expect(input.type).toBe('text');
    await user.type(input, ' brass{Enter}');
    await screen.findByText(/^Sealed/);
    expect(backend.argsOf('bundle.make').at(-1)?.passphrase).toBe('otter brass');
    // Another passphrase would be another file.
    await user.type(input, '!');
    expect(screen.queryByText('The file is ready')).toBeNull();
    nothingDrafted(backend);
  });
});

describe('taking in', () => {
  const PLAN: BundlePlan = {
    name: 'job.vvb', made_by: 'Maro Ilves', made_at: '2026-11-25T08:10:00Z', signers: [],
    new_records: 3, same_records: 0, new_contents: 3, withheld: 0, withheld_text: 0, erases: 0, refused: 0, photos: 0, new_photos: 0, photo_bytes: 0, nothing_new: false,
    jobs: [], things: [], newer: [], concurrent: [], unknown: [],
  };

  async function choose() {
    let open = false;
    const backend = new RecordingBackend({
      ...SHOP,
      'file.begin': () => ({ file: 7, bytes: 0 }),
      'file.add': () => ({ file: 7, bytes: 3 }),
      'bundle.look': () => {
        if (open) return PLAN;
        throw new CommandFailure({
          code: 'bundle_sealed', params: { name: 'job.vvb' }, retry: false,
        });
      },
      'file.unseal': ({ passphrase }) => {
        if (passphrase === 'costly') throw refusal('seal_too_costly');
        if (passphrase !== WORDS) throw refusal('wrong_passphrase');
        open = true;
        return { file: 7, bytes: 3 };
      },
    });
    renderInApp(await openSession(backend, '#/take-in'), TakeInView, {});
    const chooser = screen.getByLabelText<HTMLInputElement>('File to take in');
    await user.upload(chooser, new File(['age'], 'job.vvb'));
    return backend;
  }

  it('asks in place, says plainly what doesn’t fit, keeps it, and goes on when it fits', async () => {
    const backend = await choose();
    await screen.findByText(/This file is sealed/);
    expect(screen.getByRole('heading', { name: 'job.vvb' })).toBeTruthy();
    const input = await field();
    expect(document.activeElement).toBe(input);
    await user.type(input, 'quiet otter{Enter}');
    await screen.findByText(/doesn’t open the file/);
    expect(input.value).toBe('quiet otter');
    await user.type(input, ' brass');
    expect(screen.queryByText(/doesn’t open the file/)).toBeNull();
    await user.click(screen.getByRole('button', { name: 'Open the file' }));
    await screen.findByText(/Made by Maro Ilves/);
    expect(screen.getByRole('button', { name: 'Take it in' })).toBeTruthy();
    expect(screen.queryByLabelText('Passphrase')).toBeNull();
    nothingDrafted(backend);
  });

  it('what no passphrase mends is told apart from one that doesn’t fit', async () => {
    await choose();
    const input = await field();
    await user.type(input, 'costly{Enter}');
    await screen.findByText('Opening this file would ask too much of this device.');
    expect(input.value).toBe('costly');
    expect(input.getAttribute('aria-invalid')).toBeNull();
    expect(screen.getByRole('button', { name: 'Choose another file' })).toBeTruthy();
  });
});
