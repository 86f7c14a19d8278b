import { describe, expect, it } from 'vitest';
import { Session } from './session.svelte';
import { openSession } from './testing/in-app';
import { RecordingBackend, refusal } from './testing/recording-backend';
import { JOB, jobView, overview, PERSON, step } from './testing/shop';

const STATE = { version: '0.1.0', store_path: '/shop.db' };

function backendOfShop(change = {}): RecordingBackend {
  return new RecordingBackend({
    'app.state': () => STATE,
    'shop.overview': () => overview(change),
  });
}

describe('starting', () => {
  it('opens the shop', async () => {
    const session = await openSession(backendOfShop());
    expect(session.standing.is).toBe('open');
    expect(session.author).toBe(PERSON.name);
    expect(session.asking).toBe(false);
  });

  it('says what is wrong with the shop’s file, whatever else fails because of it', async () => {
    const backend = new RecordingBackend({
      'app.state': () => ({ ...STATE, trouble: { code: 'newer_schema', params: {}, retry: false } }),
    });
    const session = await openSession(backend);
    expect(session.standing).toMatchObject({ is: 'in_trouble', error: { code: 'newer_schema' } });
    expect(session.overview).toBeUndefined();
  });

  it('asks who is working before anything is recorded', async () => {
    const session = await openSession(backendOfShop({ author: null }));
    expect(session.asking).toBe(true);
  });
});

describe('a record without an author', () => {
  const edit = { job: JOB, part: { part: 'notes', body: { text: 'x' } } } as const;

  async function unsigned() {
    let signed = false;
    const backend = backendOfShop({ author: null });
    backend.answer({
      'job.edit': () => {
        if (!signed) throw refusal('no_author');
        return { saved: true, findings: [], view: jobView(), undo: {} };
      },
      'person.choose': () => {
        signed = true;
        return overview();
      },
    });
    return { backend, session: await openSession(backend) };
  }

  it('is made once somebody was chosen', async () => {
    const { backend, session } = await unsigned();
    const written = session.write('job.edit', edit);
    await expect.poll(() => backend.argsOf('job.edit').length).toBe(1);
    await session.choosePerson(PERSON.id);
    await expect(written).resolves.toMatchObject({ view: { id: JOB } });
    expect(backend.argsOf('job.edit')).toEqual([edit, edit]);
  });

  it('is not made when the question is put away; the form hears why', async () => {
    const { backend, session } = await unsigned();
    const written = session.write('job.edit', edit);
    await expect.poll(() => backend.argsOf('job.edit').length).toBe(1);
    session.answered(undefined);
    await expect(written).rejects.toMatchObject({ error: { code: 'no_author' } });
    expect(backend.argsOf('job.edit').length).toBe(1);
  });
});

describe('undo', () => {
  async function withSteps(kind: string, address: string) {
    const backend = backendOfShop({ undo: { undo: step(kind) } });
    backend.answer({
      'undo.last': () => ({ step: step(kind), undo: { redo: step(kind) } }),
      'redo.last': () => ({ step: step(kind), undo: { undo: step(kind) } }),
    });
    return { backend, session: await openSession(backend, address) };
  }

  it('names what it took back, offers it again, and has views read anew', async () => {
    const { session } = await withSteps('job.complaint', `#/job/${JOB}`);
    const before = session.revision;
    await session.undoLast();
    expect(session.toasts.current?.text).toMatch(/^Undone: Complaint, /);
    expect(session.toasts.current?.action?.label).toBe('Bring back');
    expect(session.revision).toBe(before + 1);
    expect(session.router.route).toEqual({ at: 'job', job: JOB });
  });

  it('brings back what it took', async () => {
    const { backend, session } = await withSteps('job.complaint', '#/jobs');
    await session.undoLast();
    session.toasts.current?.action?.run();
    await expect.poll(() => session.toasts.current?.text ?? '').toMatch(/^Back again: Complaint/);
    expect(backend.argsOf('redo.last').length).toBe(1);
  });

  it('leaves a job that is no longer there', async () => {
    const { session } = await withSteps('job', `#/job/${JOB}`);
    await session.undoLast();
    expect(session.router.route).toEqual({ at: 'jobs' });
  });

  it('that fails says why and changes nothing', async () => {
    const { backend, session } = await withSteps('job.notes', '#/jobs');
    backend.answer({
      'undo.last': () => {
        throw refusal('nothing_to_undo');
      },
    });
    await session.undoLast();
    expect(session.failure?.code).toBe('nothing_to_undo');
    expect(session.toasts.current).toBeUndefined();
  });

  it('stays up to date from any answer that tells of it', async () => {
    const { backend, session } = await withSteps('job.notes', '#/jobs');
    backend.answer({ 'job.get': () => jobView({ undo: { undo: step('test.reading') } }) });
    await session.read('job.get', { job: JOB });
    expect(session.undo.undo?.kind).toBe('test.reading');
  });
});

describe('settings', () => {
  it('act at once and are kept', async () => {
    const backend = backendOfShop();
    backend.answer({ 'settings.put': (choice) => choice });
    const session = await openSession(backend);
    await session.changeSettings({ pressure: 'bar', temperature: '°C' });
    expect(backend.argsOf('settings.put')[0]).toMatchObject({ pressure: 'bar', temperature: '°C' });
    const { settings } = await import('$lib/settings/settings.svelte');
    expect(settings.units).toMatchObject({ pressure: 'bar', temperature: 'C' });
  });
});

it('a session needs no store to be made', () => {
  expect(new Session(new RecordingBackend()).standing.is).toBe('starting');
});
