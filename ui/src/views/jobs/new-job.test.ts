import { cleanup, screen, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it } from 'vitest';
import type { Finding, JobOpen } from '$lib/generated/commands';
import { openSession, renderInApp } from '$lib/app/testing/in-app';
import { RecordingBackend, refusal } from '$lib/app/testing/recording-backend';
import { overview, UNIT, unitView } from '$lib/app/testing/shop';
import NewJobView from './NewJobView.svelte';

const user = userEvent.setup();
afterEach(cleanup);

const missing = (field: string): Finding => ({ code: 'missing', severity: 'wrong', field });

/** Finds what the core finds. */
function findings({ vehicle, complaint }: JobOpen): Finding[] {
  return [
    ...(vehicle.description === '' ? [missing('vehicle.description')] : []),
    ...(complaint.text === '' ? [missing('complaint.text')] : []),
  ];
}

function shop() {
  const backend = new RecordingBackend({
    'app.state': () => ({ version: '0.1.0', store_path: '/shop.db' }),
    'shop.overview': () =>
      overview({
        units: [
          ...overview().units,
          { id: 'u-2', name: 'Merlin eight', summary: '', bores: [] },
        ],
      }),
    'unit.get': () => unitView(),
    'job.open': (args) => {
      const found = findings(args);
      return { findings: found, job: args.dry_run || found.length > 0 ? null : 'j-9' };
    },
  });
  return backend;
}

async function openForm(backend: RecordingBackend) {
  const session = await openSession(backend, '#/jobs/new');
  renderInApp(session, NewJobView, {});
  await screen.findByLabelText('Year, make and model');
  return session;
}

const save = () => user.click(screen.getByRole('button', { name: 'Open the job' }));
const fieldOf = (label: string) => {
  const field = screen.getByLabelText(label).closest('div');
  if (!field) throw new Error(`no field ${label}`);
  return within(field);
};

describe('a new job', () => {
  it('says at the fields what is missing, and writes nothing', async () => {
    const backend = shop();
    await openForm(backend);
    await save();
    await expect.poll(() => fieldOf('Year, make and model').queryByText(/Nothing is entered here yet/)).toBeTruthy();
    expect(fieldOf('What is wrong, and when?').queryByText(/Nothing is entered here yet/)).toBeTruthy();
    expect(screen.getAllByText(/Nothing is entered here yet/).length).toBe(3);
    expect(backend.argsOf('job.open').every((args) => args.dry_run)).toBe(true);
  });

  it('blames no field before it was left', async () => {
    await openForm(shop());
    await user.click(screen.getByLabelText('Year, make and model'));
    await user.tab();
    await expect.poll(() => screen.queryAllByText(/Nothing is entered here yet/).length).toBe(1);
  });

  it('is opened with what was typed, and its draft is gone', async () => {
    const backend = shop();
    const session = await openForm(backend);
    await user.click(screen.getByRole('radio', { name: /Kestrel six-speed/ }));
    await user.type(screen.getByLabelText('Year, make and model'), ' 2014 Tarn estate ');
    await user.type(screen.getByLabelText('What is wrong, and when?'), 'Harsh when hot');
    await save();
    await expect.poll(() => session.router.route).toEqual({ at: 'job', job: 'j-9' });
    const written = backend.argsOf('job.open').filter((args) => !args.dry_run);
    expect(written).toEqual([
      {
        unit: UNIT,
        number: '',
        vehicle: { description: '2014 Tarn estate', odometer_m: null },
        complaint: { text: 'Harsh when hot' },
        notes: { text: '' },
        customer: null,
        dry_run: false,
      },
    ]);
    expect(backend.drafts.has('job.new')).toBe(false);
  });

  it('finds what was half-typed before the app was killed, and can drop it', async () => {
    const backend = shop();
    backend.drafts.set('job.new', { vehicle: '2014 Ta' });
    await openForm(backend);
    const vehicle = screen.getByLabelText<HTMLInputElement>('Year, make and model');
    expect(vehicle.value).toBe('2014 Ta');
    expect(screen.getByText(/Found what you were typing/)).toBeTruthy();
    await user.click(screen.getByRole('button', { name: 'Drop it' }));
    expect(vehicle.value).toBe('');
    await expect.poll(() => backend.drafts.size).toBe(0);
  });

  it('keeps what is typed when it can’t be saved, and says why', async () => {
    const backend = shop();
    backend.answer({
      'job.open': ({ dry_run }) => {
        if (dry_run) return { findings: [] };
        throw refusal('store_locked');
      },
    });
    await openForm(backend);
    await user.click(screen.getByRole('radio', { name: /Kestrel six-speed/ }));
    await user.type(screen.getByLabelText('Year, make and model'), '2014 Tarn');
    await save();
    await screen.findByText(/Another program/);
    expect(screen.getByLabelText<HTMLInputElement>('Year, make and model').value).toBe('2014 Tarn');
    await expect.poll(() => backend.drafts.get('job.new')).toMatchObject({ vehicle: '2014 Tarn' });
  });
});
