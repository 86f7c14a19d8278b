import { describe, expect, it, vi } from 'vitest';
import { en } from '$lib/messages/en';
import { backendOver } from './backend';
import { CommandFailure, ERROR_WORDS, readError } from './errors';
import { httpBackend } from './http';

const failureOf = async (work: Promise<unknown>) => {
  const cause: unknown = await work.then(
    () => undefined,
    (thrown: unknown) => thrown,
  );
  if (!(cause instanceof CommandFailure)) throw new Error('it did not fail as a command');
  return cause.error;
};

describe('a call', () => {
  it('carries command and arguments as one text and brings the answer back', async () => {
    const carry = vi.fn(async () => '{"ok":{"version":"1"}}');
    const answer = await backendOver(carry).call('app.state', {});
    expect(carry).toHaveBeenCalledExactlyOnceWith('{"command":"app.state","args":{}}');
    expect(answer).toEqual({ version: '1' });
  });
  it('brings a failure with code, parameters, field and whether to retry', async () => {
    const text =
      '{"error":{"code":"out_of_range","params":{"low":"0"},"field":"reading","retry":false}}';
    expect(await failureOf(backendOver(async () => text).call('app.state', {}))).toEqual({
      code: 'out_of_range',
      params: { low: '0' },
      field: 'reading',
      retry: false,
    });
  });
  it('says so when nothing carries it', async () => {
    const carry = () => Promise.reject(new Error('gone'));
    expect(await failureOf(backendOver(carry).call('app.state', {}))).toMatchObject({
      code: 'unreachable',
      retry: true,
    });
  });
  it.each(['', 'nonsense', '3', 'null', '{}', '[]'])('says so when %j comes back', async (text) => {
    expect(await failureOf(backendOver(async () => text).call('app.state', {}))).toMatchObject({
      code: 'garbled_answer',
    });
  });
});

describe('errors', () => {
  it('of a code unknown here keep its name', () => {
    expect(readError({ code: 'brand_new', params: {}, retry: true })).toEqual({
      code: 'internal',
      params: { code: 'brand_new' },
      retry: true,
    });
  });
  it('each have words for what happened, what it means and what to do', () => {
    for (const words of Object.values(ERROR_WORDS)) {
      for (const key of [words.what, words.means, words.todo]) expect(en).toHaveProperty([key]);
    }
  });
  it('do not take a name of every object for a code', () => {
    expect(readError({ code: 'toString' }).code).toBe('internal');
  });
});

describe('over HTTP', () => {
  it('posts to its own origin, with the cookie that the page does not see', async () => {
    const send = vi.fn<typeof fetch>(async () => new Response('{"ok":null}'));
    await httpBackend(send).call('app.state', {});
    const [address, request] = send.mock.calls[0] ?? [];
    expect(address).toBe('/call');
    expect(request).toMatchObject({
      method: 'POST',
      credentials: 'same-origin',
    });
  });
  it('takes a refusal without an answer as not reached', async () => {
    const send = async () => new Response('forbidden', { status: 403 });
    expect(await failureOf(httpBackend(send).call('app.state', {}))).toMatchObject({
      code: 'unreachable',
    });
  });
});
