import { type Backend, backendOver } from './backend';

/**
 * The core behind the program that serves this page, on the same origin. What lets the page in is
 * the cookie that the program set when its address was opened; the page never sees it.
 */
export function httpBackend(send: typeof fetch = fetch): Backend {
  return backendOver(async (request) => {
    const response = await send('/call', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json' },
      body: request,
      credentials: 'same-origin',
    });
    // A failed command still answers in words of its own; only another status has none.
    const text = await response.text();
    if (!response.ok && !text.startsWith('{')) throw new Error(`status ${response.status}`);
    return text;
  });
}
