import { cleanup, screen, waitFor } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it } from 'vitest';
import { openSession, renderInApp } from '$lib/app/testing/in-app';
import { RecordingBackend } from '$lib/app/testing/recording-backend';
import { JOB, overview } from '$lib/app/testing/shop';
import { consequenceAt, repairView } from '../../components/repair/testing/repair-view';
import RepairFormView from './RepairFormView.svelte';
import RepairView from './RepairView.svelte';

const user = userEvent.setup();
afterEach(cleanup);

const fresh = () =>
  repairView({ id: null, work: null, by: null, forecast: null, after: null, open: [] });

function shop(view = repairView()) {
  return new RecordingBackend({
    'app.state': () => ({ version: '0.1.0', store_path: '/shop.db' }),
    'shop.overview': () => overview(),
    'repair.get': () => view,
    'repair.record': ({ work, dry_run }) => ({
      saved: !dry_run,
      view: repairView({
        id: dry_run ? null : 'r-9',
        work,
        after: null,
        forecast: {
          prediction: { answer: 'computed', ...consequenceAt(72, 6) },
          findings: [],
          assumptions: [],
        },
        findings:
          work.option === 'sleeve_smaller_valve' && typeof work.bore_diameter_m !== 'number'
            ? [{ severity: 'doubt', code: 'dimension_missing', field: 'bore_diameter_m' }]
            : [],
      }),
    }),
  });
}

describe('recording a repair', () => {
  async function openForm(backend: RecordingBackend) {
    const session = await openSession(backend, `#/job/${JOB}/repair-form/b-1`);
    renderInApp(session, RepairFormView, { job: JOB, bore: 'b-1' });
    await screen.findByText('What was done?');
    return session;
  }
  const save = () => user.click(screen.getByRole('button', { name: 'Put the repair on record' }));

  it('asks first what was done, and records nothing before that', async () => {
    const backend = shop(fresh());
    await openForm(backend);
    await save();
    expect(await screen.findByText('Say first what was done.')).toBeTruthy();
    expect(backend.argsOf('repair.record')).toEqual([]);
  });

  it('says at the field what a missing dimension costs, and keeps the repair all the same', async () => {
    const backend = shop(fresh());
    const session = await openForm(backend);
    await user.click(screen.getByRole('radio', { name: /^Sleeve with a smaller valve/ }));
    expect(await screen.findByText(/without it no pressure can be predicted/)).toBeTruthy();
    await save();
    await waitFor(() => expect(session.router.route.at).toBe('repair'));
    expect(backend.argsOf('repair.record').at(-1)?.work.option).toBe('sleeve_smaller_valve');
  });

  it('asks for no dimensions where a repair leaves them as they were', async () => {
    await openForm(shop(fresh()));
    await user.click(screen.getByRole('radio', { name: /^Cleaned/ }));
    expect(screen.queryByText('Bore or sleeve diameter')).toBeNull();
    await user.click(screen.getByRole('radio', { name: /^Reamed, oversize valve/ }));
    expect(screen.getByText('Bore or sleeve diameter')).toBeTruthy();
  });

  it('keeps what is typed as a draft', async () => {
    const backend = shop(fresh());
    await openForm(backend);
    await user.type(screen.getByLabelText('Parts, in words'), 'Sleeve');
    await waitFor(() => expect(JSON.stringify([...backend.drafts.values()])).toContain('Sleeve'));
  });
});

describe('a repair on record', () => {
  it('shows before, predicted and after in numbers, and what is open', async () => {
    const session = await openSession(shop(), `#/job/${JOB}/repair/b-1/r-1`);
    renderInApp(session, RepairView, { job: JOB, bore: 'b-1', repair: 'r-1' });
    expect(await screen.findByText('Before, predicted, after')).toBeTruthy();
    // Once at the highest line pressure, once at hot idle.
    expect(screen.getAllByText(/^Feed \S+ to \S+ psi\. /).length).toBeGreaterThan(0);
    for (const feed of [/^72\.0\spsi$/, /^65\.2\spsi$/, /^64\.9\spsi$/]) {
      expect(screen.getAllByText(feed)).toHaveLength(2);
    }
    expect(screen.getByText('The decision on the test since isn’t on record.')).toBeTruthy();
    await user.click(screen.getByRole('button', { name: 'Test again' }));
    expect(session.router.route).toEqual({ at: 'begin', job: JOB, bore: 'b-1', testPoint: 'tp-1' });
  });

  it('goes on with a test that was begun', async () => {
    const view = repairView({ after: null, test_begun: 't-7' });
    const session = await openSession(shop(view), `#/job/${JOB}/repair/b-1/r-1`);
    renderInApp(session, RepairView, { job: JOB, bore: 'b-1', repair: 'r-1' });
    await user.click(await screen.findByRole('button', { name: 'Go on with the test' }));
    expect(session.router.route).toEqual({ at: 'test', test: 't-7' });
  });
});
