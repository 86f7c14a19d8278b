import { render } from '@testing-library/svelte';
import type { Component } from 'svelte';
import { Session } from '../session.svelte';
import InApp from './InApp.svelte';
import type { RecordingBackend } from './recording-backend';

/** A running session over a backend, with the shop read and the address at its start. */
export async function openSession(backend: RecordingBackend, address = '#/jobs'): Promise<Session> {
  window.history.replaceState(null, '', address);
  const session = new Session(backend);
  await session.start();
  return session;
}

/** Renders a view as the app would: inside a session. */
export function renderInApp<Props extends Record<string, unknown>>(
  session: Session,
  // Any component: what it takes is checked by `props`.
  view: Component<Props>,
  props: Props,
) {
  return render(InApp, { props: { session, view: view as unknown as Component, props } });
}
