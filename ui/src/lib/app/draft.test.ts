import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { Draft, type DraftStore } from './draft.svelte';
import { fitShape } from './shape';
import { RecordingBackend, refusal } from './testing/recording-backend';

interface Form {
  text: string;
  entry: { text: string; unit: string; storedSi: number | null };
}

const EMPTY: Form = { text: '', entry: { text: '', unit: 'inHg', storedSi: null } };

let backend: RecordingBackend;

async function openForm(key = 'job.new'): Promise<Draft<Form>> {
  const store = { read: (name: never, args: never) => backend.call(name, args) };
  const form = new Draft(key, EMPTY, store as unknown as DraftStore);
  await form.open();
  return form;
}

beforeEach(() => {
  vi.useFakeTimers();
  backend = new RecordingBackend();
});
afterEach(() => vi.useRealTimers());

describe('a half-typed form', () => {
  it('is kept within 300 ms, raw text and unit, though it is no number yet', async () => {
    const form = await openForm();
    form.value.entry.text = '23.';
    form.touch();
    await vi.advanceTimersByTimeAsync(300);
    expect(backend.drafts.get('job.new')).toEqual({
      text: '',
      entry: { text: '23.', unit: 'inHg', storedSi: null },
    });
  });

  it('is kept while somebody types on without a pause', async () => {
    const form = await openForm();
    for (const letter of 'harsh shift when hot') {
      form.value.text += letter;
      form.touch();
      await vi.advanceTimersByTimeAsync(100);
    }
    expect((backend.drafts.get('job.new') as Form).text.length).toBeGreaterThan(15);
  });

  it('is kept at once when the page hides', async () => {
    const form = await openForm();
    form.value.text = 'Slips in thi';
    form.touch();
    await form.flush();
    expect(backend.drafts.get('job.new')).toMatchObject({ text: 'Slips in thi' });
  });

  it('is found again by the next form, which says so', async () => {
    backend.drafts.set('job.new', { text: 'Slips in thi' });
    const form = await openForm();
    expect(form.found).toBe(true);
    expect(form.value).toEqual({ ...EMPTY, text: 'Slips in thi' });
  });

  it('is gone after saving, even if the last letters were typed just before', async () => {
    const form = await openForm();
    form.value.text = 'Done';
    form.touch();
    await form.done();
    form.touch();
    await vi.advanceTimersByTimeAsync(1000);
    expect(backend.drafts.size).toBe(0);
  });

  it('can be dropped, and the form is as it was before', async () => {
    backend.drafts.set('job.new', { text: 'Slips in thi' });
    const form = await openForm();
    await form.drop();
    expect(form.value).toEqual(EMPTY);
    expect(form.found).toBe(false);
    expect(backend.drafts.size).toBe(0);
  });

  it('leaves nothing behind when what was typed is taken out again', async () => {
    const form = await openForm();
    form.value.text = 'x';
    await form.flush();
    form.value.text = '';
    await form.flush();
    expect(backend.drafts.size).toBe(0);
  });

  it('never waits for a slow store in the wrong order: a clear after a put wins', async () => {
    const order: string[] = [];
    backend.answer({
      'draft.put': async () => {
        await new Promise((resolve) => setTimeout(resolve, 500));
        order.push('put');
        return {};
      },
      'draft.clear': () => {
        order.push('clear');
        return {};
      },
    });
    const form = await openForm();
    form.value.text = 'a';
    void form.flush();
    void form.done();
    await vi.advanceTimersByTimeAsync(600);
    expect(order).toEqual(['put', 'clear']);
  });

  it('says when it can’t be kept, stays in the form, and is kept as soon as that is possible', async () => {
    backend.answer({
      'draft.put': () => {
        throw refusal('disk_full');
      },
    });
    const form = await openForm();
    form.value.text = 'kept in the form';
    await form.flush();
    expect(form.trouble?.code).toBe('disk_full');
    expect(form.value.text).toBe('kept in the form');
    backend.answer({
      'draft.put': ({ key, value }) => {
        backend.drafts.set(key, value);
        return {};
      },
    });
    await vi.advanceTimersByTimeAsync(2000);
    expect(form.trouble).toBeUndefined();
    expect(backend.drafts.get('job.new')).toMatchObject({ text: 'kept in the form' });
  });

  it('never reaches the journal', async () => {
    const form = await openForm();
    form.value.text = 'typed';
    await form.flush();
    await form.done();
    expect(backend.calls.every(({ name }) => name.startsWith('draft.'))).toBe(true);
  });
});

describe('a draft older than the form', () => {
  it('fills the fields that are still there and leaves out what isn’t', () => {
    const found = { text: 5, entry: { text: '15.9', storedSi: 3.2, gone: true }, more: 'x' };
    expect(fitShape(EMPTY, found)).toEqual({
      text: '',
      entry: { text: '15.9', unit: 'inHg', storedSi: 3.2 },
    });
  });

  it('is no draft at all when it is of another kind', () => {
    expect(fitShape(EMPTY, 'text')).toEqual(EMPTY);
    expect(fitShape(EMPTY, [1])).toEqual(EMPTY);
  });
});
