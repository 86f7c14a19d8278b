import { beforeEach, describe, expect, test, vi } from 'vitest';
import { CommandFailure } from '$lib/backend';
import { saveForm, type SaveStep } from './save-form';
import type { Session } from './session.svelte';

const done = vi.fn(async () => undefined);
const say = vi.fn();
const back = vi.fn();
const session = { toasts: { say }, router: { back }, undoLast: vi.fn() } as unknown as Session;
const there = { at: 'parts' } as const;

function step(record: SaveStep['record'], body?: HTMLElement): SaveStep {
  return { record, saved: 'parts.saved', then: there, body };
}

beforeEach(() => {
  for (const called of [done, say, back]) called.mockClear();
});

describe('saving a form', () => {
  test('puts it on record, drops the draft, says so and goes back', async () => {
    const error = await saveForm(session, { ready: true, done }, step(async () => true));
    expect(error).toBeUndefined();
    expect(done).toHaveBeenCalledOnce();
    expect(say).toHaveBeenCalledOnce();
    expect(back).toHaveBeenCalledWith(there);
  });

  test('with something wrong it stays, and the field at fault gets the focus', async () => {
    document.body.innerHTML = '<div><input id="fine"><input id="wrong" aria-invalid="true"></div>';
    const body = document.body.firstElementChild as HTMLElement;
    await saveForm(session, { ready: true, done }, step(async () => false, body));
    expect(document.activeElement?.id).toBe('wrong');
    expect(done).not.toHaveBeenCalled();
    expect(back).not.toHaveBeenCalled();
  });

  test('a second press while it goes on does nothing; after a failure it may be pressed again', async () => {
    const form = { ready: true, done };
    const locked = { code: 'store_locked', params: {}, retry: true } as const;
    let fail: (cause: unknown) => void = () => undefined;
    const record = vi.fn(() => new Promise<boolean>((_, reject) => (fail = reject)));
    const first = saveForm(session, form, step(record));
    await saveForm(session, form, step(record));
    expect(record).toHaveBeenCalledOnce();
    fail(new CommandFailure(locked));
    expect(await first).toEqual(locked);
    expect(done).not.toHaveBeenCalled();
    await saveForm(session, form, step(async () => true));
    expect(done).toHaveBeenCalledOnce();
  });

  test('nothing is saved before it is known whether there is an earlier state', async () => {
    const record = vi.fn(async () => true);
    await saveForm(session, { ready: false, done }, step(record));
    expect(record).not.toHaveBeenCalled();
  });
});
