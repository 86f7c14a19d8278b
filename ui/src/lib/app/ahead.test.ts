import { describe, expect, it } from 'vitest';
import { Ahead, ALL_JOBS } from './ahead';
import { JobQuery } from './job-query.svelte';
import { openSession } from './testing/in-app';
import { RecordingBackend, refusal } from './testing/recording-backend';
import { JOB, jobView, overview } from './testing/shop';

const LIST = { jobs: [], found: 0 };

function shop() {
  return new RecordingBackend({
    'app.state': () => ({ version: '0.1.0', store_path: '/shop.db' }),
    'shop.overview': () => overview(),
    'job.list': () => LIST,
    'settle.list': () => ({ items: [] }),
    'job.edit': () => ({ saved: true, findings: [], view: jobView(), undo: {} }),
  });
}

describe('what a start asks ahead', () => {
  it('is what the list of jobs asks while nothing is searched', () => {
    expect(JSON.stringify(new JobQuery().args)).toBe(JSON.stringify(ALL_JOBS));
  });

  it('is answered once, and asked anew after that', async () => {
    const backend = shop();
    const session = await openSession(backend);
    expect(await session.read('job.list', ALL_JOBS)).toEqual(LIST);
    expect(backend.argsOf('job.list').length).toBe(1);
    await session.read('job.list', ALL_JOBS);
    expect(backend.argsOf('job.list').length).toBe(2);
  });

  it('is not believed any more once something was changed', async () => {
    const backend = shop();
    const session = await openSession(backend);
    await session.write('job.edit', { job: JOB, part: { part: 'notes', body: { text: 'x' } } });
    await session.read('job.list', ALL_JOBS);
    expect(backend.argsOf('job.list').length).toBe(2);
  });

  it('is the list only where the list is shown first', async () => {
    const backend = shop();
    await openSession(backend, '#/settings');
    expect(backend.argsOf('job.list')).toEqual([]);
  });

  it('is asked anew once a file in trouble was mended', async () => {
    const backend = shop();
    backend.answer({
      'app.state': () => ({
        version: '0.1.0',
        store_path: '/shop.db',
        trouble: { code: 'newer_schema', params: {}, retry: false },
      }),
      'shop.overview': () => {
        throw refusal('newer_schema');
      },
    });
    const session = await openSession(backend);
    expect(session.standing.is).toBe('in_trouble');
    backend.answer({
      'app.state': () => ({ version: '0.1.0', store_path: '/shop.db' }),
      'shop.overview': () => overview(),
    });
    await session.start();
    expect(session.standing.is).toBe('open');
  });

  it('fails where it is asked for, and nowhere else', async () => {
    const backend = shop();
    backend.answer({
      'job.list': () => {
        throw refusal('store_locked');
      },
    });
    const ahead = new Ahead(backend, true);
    await ahead.answered();
    await expect(ahead.take('job.list', ALL_JOBS)).rejects.toMatchObject({ error: { code: 'store_locked' } });
  });
});
