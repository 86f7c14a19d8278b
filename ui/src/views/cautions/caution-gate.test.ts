import { cleanup, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, describe, expect, it } from 'vitest';
import type { Hazard, HazardState } from '$lib/generated/commands';
import { openSession, renderInApp } from '$lib/app/testing/in-app';
import { RecordingBackend, refusal } from '$lib/app/testing/recording-backend';
import { HAZARDS, JOB, jobView, overview, PERSON, unitView } from '$lib/app/testing/shop';
import BeginView from '../begin/BeginView.svelte';

const user = userEvent.setup();
afterEach(cleanup);

function bench(hazards: HazardState[] = HAZARDS) {
  let now = hazards;
  const backend = new RecordingBackend({
    'app.state': () => ({ version: '0.1.0', store_path: '/shop.db' }),
    'shop.overview': () => overview(),
    'job.get': () => jobView({ hazards: now }),
    'unit.get': () => unitView(),
    'caution.read': ({ hazards: read }) => {
      const by = { by: PERSON.name, at: '2026-11-25T08:10:00Z' };
      now = now.map((state) => (read.includes(state.hazard) ? { ...state, read: by } : state));
      return jobView({ hazards: now });
    },
    'test.begin': () => ({ test: 't-9' }),
  });
  return backend;
}

async function openBench(backend: RecordingBackend) {
  const session = await openSession(backend, `#/job/${JOB}/begin/b-1/tp-1`);
  renderInApp(session, BeginView, { job: JOB, bore: 'b-1', testPoint: 'tp-1' });
  return session;
}

const understood = () => screen.findByRole('button', { name: 'Read and understood' });

describe('before bench work', () => {
  it('each hazard stands by itself and is acknowledged by itself, then the test can begin', async () => {
    const backend = bench();
    const session = await openBench(backend);
    for (const [index, { hazard }] of HAZARDS.entries()) {
      await screen.findByText(`Caution ${index + 1} of 6`);
      expect(screen.queryByRole('button', { name: 'Begin the test' })).toBeNull();
      await user.click(await understood());
      expect(backend.argsOf('caution.read').at(-1)).toEqual({ job: JOB, hazards: [hazard] });
    }
    expect(backend.argsOf('caution.read').length).toBe(6);
    await user.click(await screen.findByRole('button', { name: 'Begin the test' }));
    expect(backend.argsOf('test.begin')).toEqual([
      { job: JOB, bore: 'b-1', test_point: 'tp-1', stand: 's-1' },
    ]);
    await expect.poll(() => session.router.route).toEqual({ at: 'test', test: 't-9' });
  });

  it('starts with the danger to life: high voltage, isolated by a trained person', async () => {
    await openBench(bench());
    await screen.findByText('DANGER');
    expect(screen.getByRole('heading', { name: 'High voltage of a hybrid' })).toBeTruthy();
    expect(screen.getByText(/service information, local rules and trained people decide/)).toBeTruthy();
  });

  it('goes on where it was left: what was read once for this job is not asked again', async () => {
    const read = { by: PERSON.name, at: '2026-11-25T08:10:00Z' };
    await openBench(bench(HAZARDS.map((state, at) => (at < 5 ? { ...state, read } : state))));
    await screen.findByText('Caution 6 of 6');
    await user.click(screen.getByRole('button', { name: /High voltage: isolated/ }));
    expect(screen.getByText(/Acknowledged by Maro Ilves/)).toBeTruthy();
  });

  it('stays shut when a caution could not be recorded, and says why', async () => {
    const backend = bench();
    backend.answer({
      'caution.read': () => {
        throw refusal('disk_full');
      },
    });
    await openBench(backend);
    await user.click(await understood());
    await screen.findByText('This device has no space left.');
    expect(screen.getByText('Caution 1 of 6')).toBeTruthy();
  });

  it('counts a tap that comes twice once', async () => {
    const backend = bench();
    const seen: Hazard[][] = [];
    let release = (): void => undefined;
    backend.answer({
      'caution.read': async ({ hazards }) => {
        seen.push(hazards);
        await new Promise<void>((resolve) => (release = resolve));
        return jobView();
      },
    });
    await openBench(backend);
    await user.dblClick(await understood());
    release();
    expect(seen).toEqual([['high_voltage']]);
  });

  it('offers the stand used last', async () => {
    const read = { by: PERSON.name, at: '2026-11-25T08:10:00Z' };
    const backend = bench(HAZARDS.map((state) => ({ ...state, read })));
    backend.drafts.set('stand.last', { stand: 's-2' });
    await openBench(backend);
    const van = await screen.findByRole<HTMLInputElement>('radio', { name: /Van stand/ });
    await expect.poll(() => van.checked).toBe(true);
  });
});
