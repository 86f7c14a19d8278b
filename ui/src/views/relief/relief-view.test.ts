import { cleanup, screen, waitFor, within } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it } from 'vitest';
import { openSession, renderInApp } from '$lib/app/testing/in-app';
import { RecordingBackend } from '$lib/app/testing/recording-backend';
import { JOB, overview } from '$lib/app/testing/shop';
import { toSi } from '$lib/quantity';
import { reliefAnswer, reliefView, seatFindings } from '../../components/repair/testing/repair-view';
import ReliefView from './ReliefView.svelte';

const user = userEvent.setup();
afterEach(cleanup);

function shop() {
  return new RecordingBackend({
    'app.state': () => ({ version: '0.1.0', store_path: '/shop.db' }),
    'shop.overview': () => overview(),
    'relief.get': () => reliefView(),
    'relief.record': ({ figures, dry_run }) => {
      const findings = seatFindings(figures);
      return {
        saved: !dry_run && findings.length === 0,
        view: reliefView({ figures, answer: reliefAnswer(findings) }),
      };
    },
  });
}

async function openCheck(backend: RecordingBackend) {
  const session = await openSession(backend, `#/job/${JOB}/relief/b-1`);
  renderInApp(session, ReliefView, { job: JOB, bore: 'b-1' });
  await screen.findByText('Most lift');
  return session;
}

async function type(field: string, keys: string) {
  await user.click(await screen.findByRole('button', { name: new RegExp(`^${field} `) }));
  const pad = within(await screen.findByRole('dialog', { name: field }));
  await user.click(pad.getByRole('button', { name: 'Clear' }));
  for (const key of keys) {
    await user.click(pad.getByRole('button', { name: key === '.' ? 'Decimal mark' : key }));
  }
  await user.click(pad.getByRole('button', { name: 'Done' }));
}

describe('a relief check', () => {
  it('says plainly that it contains and doesn’t cure, and what remains', async () => {
    await openCheck(shop());
    expect(screen.getByText(/contains, it doesn’t cure/)).toBeTruthy();
    expect(screen.getByText('Leak that remains')).toBeTruthy();
    expect(screen.getByText('Pump flow lost over the relief')).toBeTruthy();
    expect(screen.getByText('Holds the worst cross leak.')).toBeTruthy();
    // Each interval has its unit.
    expect(screen.getByText(/Clearance \S+ to \S+ thou, /)).toBeTruthy();
    expect(screen.getAllByText(/^\S+ to \S+ psi$/).length).toBeGreaterThan(0);
  });

  it('finds a seat larger than its ball at the seat, keeps what was typed, and saves nothing', async () => {
    const backend = shop();
    const session = await openCheck(backend);
    await type('Seat diameter', '0.25');
    const seat = await screen.findByRole('group', { name: 'Seat diameter' });
    await waitFor(() => expect(within(seat).getAllByText(/ball would fall through/)).toBeTruthy());
    await user.click(screen.getByRole('button', { name: 'Save the check' }));
    await waitFor(() =>
      expect(backend.argsOf('relief.record').some(({ dry_run }) => !dry_run)).toBe(true),
    );
    expect(session.toasts.current).toBeUndefined();
    expect(within(seat).getByText('0.25')).toBeTruthy();
  });

  it('records what was entered, in SI', async () => {
    const backend = shop();
    const session = await openCheck(backend);
    await type('What the parts stand', '180');
    await user.type(screen.getByLabelText('Who says so'), 'Table 4');
    await user.click(screen.getByRole('button', { name: 'Save the check' }));
    await waitFor(() => expect(session.toasts.current?.text).toBe('The relief check is on record.'));
    const saved = backend.argsOf('relief.record').find(({ dry_run }) => !dry_run);
    expect(saved?.figures.limit_pa).toBeCloseTo(toSi(180, 'psi'), 6);
    expect(saved?.figures.limit_source).toBe('Table 4');
    expect(saved?.figures.clearance_m).toBeNull();
  });
});
