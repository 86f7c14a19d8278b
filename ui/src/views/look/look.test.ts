// A file that is only looked at: how one comes there, what stands on each page, and how it ends.
import { cleanup, screen, waitFor } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it } from 'vitest';
import { openSession, renderInApp } from '$lib/app/testing/in-app';
import { RecordingBackend, refusal } from '$lib/app/testing/recording-backend';
import { overview } from '$lib/app/testing/shop';
import type { BundlePlan, ErrorCode, LookedFile, LookedProof } from '$lib/generated/commands';
import { MEASURED } from '../../components/test/testing/test-view';
import TakeInView from '../exchange/TakeInView.svelte';
import LookTestView from './LookTestView.svelte';
import LookView from './LookView.svelte';

const user = userEvent.setup();
afterEach(cleanup);

const SIGNED: LookedProof = {
  name: 'job.vvb', courier: 'signed', misfit_actions: 0, unsigned_records: 0,
  acceptable: true, strangers: 0, doubts: [],
};
const UNSIGNED: LookedProof = {
  ...SIGNED, courier: 'unsigned', acceptable: false, unsigned_records: 3,
};

const about = (proof: LookedProof): LookedFile => ({
  proof,
  shop: 'Hollow Lane', made_by: 'Marta Oyelaran', made_on: 'ab'.repeat(32),
  made_at: '2026-11-25T08:10:00Z',
  signers: [], records: 12, personal: 2, withheld: 1, withheld_text: 0, photos: 0, photo_bytes: 0,
  jobs: 1, tests_without_job: 0, things: [{ kind: 'unit', count: 1 }],
  unknown: [{ kind: 'later.thing', version: 2, records: 4 }],
});

const PLAN: BundlePlan = {
  name: 'job.vvb', made_by: 'Marta Oyelaran', made_at: '2026-11-25T08:10:00Z', signers: [],
  new_records: 12, same_records: 0, new_contents: 12, withheld: 0, withheld_text: 0, erases: 0,
  refused: 0, photos: 0, new_photos: 0, photo_bytes: 0, nothing_new: false,
  jobs: [{ id: 'j-9', number: '0147', vehicle: '2018 Wendover hatchback', brought: 'new' }],
  things: [], newer: [], concurrent: [], unknown: [],
};

/** A core with one file in the window's dialog, which it reads or refuses. */
function core(proof: LookedProof, refused?: ErrorCode): RecordingBackend {
  const backend = new RecordingBackend({
    'app.state': () => ({ version: '0.1.0', store_path: '/shop.db' }),
    'shop.overview': () => overview(),
    'bundle.look': () => (refused ? Promise.reject(refusal(refused)) : PLAN),
    'look.file': () => about(proof),
    'look.jobs': () => ({
      proof,
      list: {
        found: 1,
        jobs: [
          {
            id: 'j-9', number: '0147', opened_on: '2026-11-24', unit_name: 'Larkmoor L6',
            vehicle: '2018 Wendover hatchback', complaint: 'Harsh 2-3 when hot',
            opened_by: 'Marta Oyelaran', tests: 1, repairs: 0, state: 'outside_limit',
            worst: 'outside_limit',
          },
        ],
      },
    }),
    'look.test': () => ({ proof, view: MEASURED }),
    'look.close': () => ({}),
  });
  backend.files = {
    save: async () => undefined,
    pick: async () => ({ file: 4, bytes: 5 }),
    watch: () => undefined,
  };
  return backend;
}

const press = async (name: string) => user.click(await screen.findByRole('button', { name }));

describe('taking a file in', () => {
  it.each(['bundle_unsigned', 'bundle_signature'] as const)(
    'refused with %s, it may still be looked at',
    async (code) => {
      const session = await openSession(core(UNSIGNED, code), '#/take-in');
      renderInApp(session, TakeInView, {});
      await press('Choose the file');
      await press('Look at it without taking it in');
      expect(session.router.route).toEqual({ at: 'look', looked: '4' });
    },
  );

  it('damaged, it may not', async () => {
    const session = await openSession(core(UNSIGNED, 'bundle_damaged'), '#/take-in');
    renderInApp(session, TakeInView, {});
    await press('Choose the file');
    await screen.findByRole('alert');
    expect(screen.queryByRole('button', { name: /Look at it/ })).toBeNull();
  });

  it('its plan leads to looking first, and back to the same plan', async () => {
    const backend = core(SIGNED);
    const session = await openSession(backend, '#/take-in');
    const { unmount } = renderInApp(session, TakeInView, {});
    await press('Choose the file');
    await press('Look at it first');
    session.moved();
    unmount();
    session.router.go({ at: 'take_in' });
    session.moved();
    renderInApp(session, TakeInView, {});
    await screen.findByText('2018 Wendover hatchback');
    expect(backend.argsOf('bundle.look')).toEqual([{ file: 4 }, { file: 4 }]);
    expect(backend.argsOf('look.close')).toEqual([{ file: 4 }]);
    expect(backend.argsOf('bundle.take_in')).toEqual([]);
  });
});

describe('a file that is looked at', () => {
  it('says what it is, leads to its jobs and nowhere else, and on to taking it in', async () => {
    const session = await openSession(core(SIGNED), '#/look/4');
    renderInApp(session, LookView, { file: '4' });
    await screen.findByText(/Every signature in it fits/);
    await screen.findByText('1 in it, 1 left out');
    expect(screen.getByRole('link', { name: /0147/ }).getAttribute('href')).toBe('#/look/4/job/j-9');
    await screen.findByText(/4 records of a newer version/);
    await press('Go on to taking it in');
    expect(session.router.route).toEqual({ at: 'take_in' });
    expect(session.inHand).toBe(4);
  });

  it('without a signature says so, and leads no way in', async () => {
    renderInApp(await openSession(core(UNSIGNED), '#/look/4'), LookView, { file: '4' });
    await screen.findByText(/The file has no signature\. Anyone may have put it together/);
    await screen.findByText(/3 records in it are signed by nobody/);
    await screen.findByText(/only a file whose every signature fits/);
    expect(screen.queryByRole('button', { name: 'Go on to taking it in' })).toBeNull();
  });

  it('a test of it can be read and neither changed nor gone on with', async () => {
    const session = await openSession(core(UNSIGNED), '#/look/4/test/t');
    renderInApp(session, LookTestView, { file: '4', test: 't' });
    await screen.findByText(/The file has no signature\. Anyone may have put it together/);
    const list = await screen.findByRole('list', { name: 'Readings of this bore' });
    expect(list.querySelectorAll('li')).toHaveLength(MEASURED.readings.length);
    expect(list.querySelectorAll('button')).toHaveLength(0);
    const links = [...document.querySelectorAll('main a[href]')].map((it) => it.getAttribute('href'));
    expect(links.filter((it) => !it?.startsWith('#/look/'))).toEqual([]);
  });

  it('goes when one goes elsewhere, not from one of its pages to another', async () => {
    const backend = core(SIGNED);
    const session = await openSession(backend, '#/look/4');
    session.moved();
    session.router.go({ at: 'look_job', looked: '4', inside: 'j-9' });
    session.moved();
    expect(backend.argsOf('look.close')).toEqual([]);
    session.router.go({ at: 'units' });
    session.moved();
    await waitFor(() => expect(backend.argsOf('look.close')).toEqual([{ file: 4 }]));
    session.router.go({ at: 'settings' });
    session.moved();
    expect(backend.argsOf('look.close')).toHaveLength(1);
  });
});
