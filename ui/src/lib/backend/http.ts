import { type Backend, backendOver } from './backend';

/** The name under which a served page finds its token, and sends it back. */
export const TOKEN_HEADER = 'X-Valvewright-Token';

/** The token that the serving program put into the address it printed. */
export function tokenFrom(address: string): string {
  return new URL(address).searchParams.get('token') ?? '';
}

/** The core behind the program that serves this page, on the same origin. */
export function httpBackend(token: string, send: typeof fetch = fetch): Backend {
  return backendOver(async (request) => {
    const response = await send('/call', {
      method: 'POST',
      headers: { 'Content-Type': 'application/json', [TOKEN_HEADER]: token },
      body: request,
      credentials: 'same-origin',
    });
    // A failed command still answers in words of its own; only another status has none.
    const text = await response.text();
    if (!response.ok && !text.startsWith('{')) throw new Error(`status ${response.status}`);
    return text;
  });
}
