// Passing on and taking in, in the app's own window with its dialogs and in a browser without.
import { cleanup, screen, waitFor } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { openSession, renderInApp } from '$lib/app/testing/in-app';
import { RecordingBackend, refusal } from '$lib/app/testing/recording-backend';
import { overview } from '$lib/app/testing/shop';
import type { CommandFailure, ShellFiles } from '$lib/backend';
import type { BundlePlan, FileHeld } from '$lib/generated/commands';
import PassOnView from './PassOnView.svelte';
import TakeInView from './TakeInView.svelte';

const user = userEvent.setup();
afterEach(cleanup);

const MADE = {
  file: 7,
  name: 'job-0147-2026-11-25.vvb',
  bytes: 5,
  records: 12,
  jobs: 1,
  left_out: 0, left_out_text: 0, already_there: 0, photos: 0, photo_bytes: 0, sealed: false,
};

function plan(name: string): BundlePlan {
  return {
    name,
    made_by: 'Marta Oyelaran',
    made_at: '2026-11-25T08:10:00Z',
    signers: [],
    new_records: 12,
    same_records: 0,
    new_contents: 12,
    withheld: 0, withheld_text: 0,
    erases: 0, refused: 0, photos: 0, new_photos: 0, photo_bytes: 0, nothing_new: false,
    jobs: [{ id: 'j-9', number: '0147', vehicle: '2018 Wendover hatchback', brought: 'new' }],
    things: [],
    newer: [],
    concurrent: [],
    unknown: [],
  };
}

const core = () =>
  new RecordingBackend({
    'app.state': () => ({ version: '0.1.0', store_path: '/shop.db' }),
    'shop.overview': () => overview(),
    'bundle.make': () => MADE,
    'bundle.look': ({ file }) => plan(`file-${file}.vvb`),
    'file.read': ({ from }) => ({ base64: from === 0 ? btoa('01234') : '', bytes: 5 }),
    'file.begin': () => ({ file: 3, bytes: 0 }),
    'file.add': () => ({ file: 3, bytes: 5 }),
  });

/** The app's own window: dialogs answer as told. */
function inWindow(dialogs: Partial<Pick<ShellFiles, 'save' | 'pick'>> = {}) {
  const backend = core();
  let tell: ((file: FileHeld | CommandFailure) => void) | undefined;
  const files: ShellFiles = {
    save: dialogs.save ?? vi.fn<ShellFiles['save']>(async () => '/home/wen/job.vvb'),
    pick: dialogs.pick ?? vi.fn<ShellFiles['pick']>(async () => ({ file: 4, bytes: 5 })),
    watch: (opened) => {
      tell = opened;
    },
  };
  backend.files = files;
  return { backend, files, opened: (file: FileHeld | CommandFailure) => tell?.(file) };
}

const press = async (name: string) => user.click(await screen.findByRole('button', { name }));
const said = (session: Awaited<ReturnType<typeof openSession>>) => session.toasts.current?.text;

describe('saving a made file', () => {
  it('in the window, the shell asks where and is told by a handle, never by a path', async () => {
    const { backend, files } = inWindow();
    const session = await openSession(backend, '#/pass-on');
    renderInApp(session, PassOnView, {});
    await press('Make the file');
    await press('Save it on this device');
    expect(files.save).toHaveBeenCalledExactlyOnceWith(7, {
      title: 'Save the file',
      kind: 'Files passed on from this app',
    });
    await waitFor(() => expect(said(session)).toBe('Saved: /home/wen/job.vvb'));
    expect(backend.argsOf('file.read')).toEqual([]);
  });

  it('nothing is said or lost when the dialog is put away', async () => {
    const { backend } = inWindow({ save: async () => undefined });
    const session = await openSession(backend, '#/pass-on');
    renderInApp(session, PassOnView, {});
    await press('Make the file');
    await press('Save it on this device');
    await waitFor(() =>
      expect(screen.getByRole('button', { name: 'Save it on this device' })).toHaveProperty(
        'disabled',
        false,
      ),
    );
    expect(screen.getByText(MADE.name)).toBeTruthy();
    expect(said(session)).toBeUndefined();
    expect(backend.argsOf('bundle.make').length).toBe(1);
  });

  it('a place that can’t be written to is told, and the file can be saved elsewhere', async () => {
    const { backend } = inWindow({ save: () => Promise.reject(refusal('file_unwritable')) });
    const session = await openSession(backend, '#/pass-on');
    renderInApp(session, PassOnView, {});
    await press('Make the file');
    await press('Save it on this device');
    await screen.findByText('The file can’t be written there.');
    expect(screen.getByRole('button', { name: 'Save it on this device' })).toBeTruthy();
  });

  it('a browser gets the bytes', async () => {
    vi.spyOn(URL, 'createObjectURL').mockReturnValue('blob:made');
    const clicked = vi.spyOn(HTMLAnchorElement.prototype, 'click').mockReturnValue();
    const backend = core();
    const session = await openSession(backend, '#/pass-on');
    renderInApp(session, PassOnView, {});
    await press('Make the file');
    await press('Save it on this device');
    await waitFor(() => expect(said(session)).toBe(`Saved: ${MADE.name}`));
    expect(clicked).toHaveBeenCalledOnce();
    expect(backend.argsOf('file.read')).toEqual([{ file: 7, from: 0 }]);
  });
});

describe('taking a file in', () => {
  it('in the window, what was picked is looked at', async () => {
    const { backend } = inWindow();
    renderInApp(await openSession(backend, '#/take-in'), TakeInView, {});
    await press('Choose the file');
    await screen.findByText('2018 Wendover hatchback');
    expect(backend.argsOf('bundle.look')).toEqual([{ file: 4 }]);
  });

  it('a plan stays when another dialog is put away', async () => {
    const picks: (FileHeld | undefined)[] = [{ file: 4, bytes: 5 }, undefined];
    const { backend } = inWindow({ pick: async () => picks.shift() });
    renderInApp(await openSession(backend, '#/take-in'), TakeInView, {});
    await press('Choose the file');
    await press('Choose another file');
    await screen.findByText('2018 Wendover hatchback');
    expect(backend.argsOf('bundle.look').length).toBe(1);
    expect(screen.getByRole('button', { name: 'Take it in' })).toHaveProperty('disabled', false);
  });

  it('a file that can’t be read is told', async () => {
    const { backend } = inWindow({ pick: () => Promise.reject(refusal('file_unreadable')) });
    renderInApp(await openSession(backend, '#/take-in'), TakeInView, {});
    await press('Choose the file');
    await screen.findByText('The file can’t be read.');
  });

  it('a browser picks through the page', async () => {
    const backend = core();
    renderInApp(await openSession(backend, '#/take-in'), TakeInView, {});
    const input = screen.getByLabelText<HTMLInputElement>('File to take in');
    const clicked = vi.spyOn(input, 'click').mockReturnValue();
    await press('Choose the file');
    expect(clicked).toHaveBeenCalledOnce();
    await user.upload(input, new File(['01234'], 'job.vvb'));
    await screen.findByText('2018 Wendover hatchback');
    expect(backend.argsOf('bundle.look')).toEqual([{ file: 3 }]);
  });
});

describe('a file that is opened with the app', () => {
  it('leads to the page that shows what it would bring, from wherever one is', async () => {
    const { backend, opened } = inWindow();
    const session = await openSession(backend, '#/units');
    session.watchArrivals();
    opened({ file: 5, bytes: 5 });
    expect(session.router.route).toEqual({ at: 'take_in' });
    renderInApp(session, TakeInView, {});
    await screen.findByText('2018 Wendover hatchback');
    expect(backend.argsOf('bundle.look')).toEqual([{ file: 5 }]);
    expect(backend.argsOf('bundle.take_in')).toEqual([]);
  });

  it('takes the place of the one that is shown', async () => {
    const { backend, opened } = inWindow();
    const session = await openSession(backend, '#/take-in');
    session.watchArrivals();
    renderInApp(session, TakeInView, {});
    opened({ file: 5, bytes: 5 });
    await waitFor(() => expect(backend.argsOf('bundle.look')).toEqual([{ file: 5 }]));
    opened({ file: 6, bytes: 5 });
    await waitFor(() => expect(backend.argsOf('bundle.look')).toEqual([{ file: 5 }, { file: 6 }]));
    await screen.findByText('2018 Wendover hatchback');
  });

  it('is told if it can’t be read', async () => {
    const { backend, opened } = inWindow();
    const session = await openSession(backend);
    session.watchArrivals();
    opened(refusal('file_unreadable'));
    renderInApp(session, TakeInView, {});
    await screen.findByText('The file can’t be read.');
  });
});
