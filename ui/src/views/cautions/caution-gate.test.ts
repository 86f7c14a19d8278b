import { cleanup, screen } from '@testing-library/svelte';
import userEvent from '@testing-library/user-event';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Hazard, HazardState } from '$lib/generated/commands';
import { openSession, renderInApp } from '$lib/app/testing/in-app';
import { RecordingBackend, refusal } from '$lib/app/testing/recording-backend';
import { HAZARDS, JOB, jobView, overview, PERSON, unitView } from '$lib/app/testing/shop';
import BeginView from '../begin/BeginView.svelte';

const user = userEvent.setup();
beforeEach(() => {
  window.scrollTo = () => undefined;
});
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

const understood = (name = 'All 6 read and understood') => screen.findByRole('button', { name });

describe('before bench work', () => {
  it('each hazard stands there whole, and one act after the last acknowledges them all', async () => {
    const backend = bench();
    const session = await openBench(backend);
    const last = await screen.findByText('Caution 6 of 6');
    for (let number = 1; number <= 6; number += 1) screen.getByText(`Caution ${number} of 6`);
    expect(screen.queryByRole('button', { name: 'Begin the test' })).toBeNull();
    const act = await understood();
    // Whoever presses it has been past each of them.
    expect(last.compareDocumentPosition(act) & Node.DOCUMENT_POSITION_FOLLOWING).toBeTruthy();
    await user.click(act);
    expect(backend.argsOf('caution.read')).toEqual([
      { job: JOB, hazards: HAZARDS.map(({ hazard }) => hazard) },
    ]);
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
    const signals = [...document.querySelectorAll('.signal')].map((node) => node.textContent?.trim());
    expect(signals[0]).toBe('DANGER');
    expect(
      screen.getAllByText(/service information, local rules and trained people decide/),
    ).toHaveLength(HAZARDS.length);
  });

  it('goes on where it was left: what was read once for this job is not asked again', async () => {
    const read = { by: PERSON.name, at: '2026-11-25T08:10:00Z' };
    await openBench(bench(HAZARDS.map((state, at) => (at < 5 ? { ...state, read } : state))));
    await screen.findByText('Caution 6 of 6');
    expect(screen.queryByText('Caution 1 of 6')).toBeNull();
    await understood('Read and understood');
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
    expect(seen).toEqual([HAZARDS.map(({ hazard }) => hazard)]);
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
