import type { Session } from './session.svelte';

/** Where this device keeps the stand used last: beside the drafts, never in the journal. */
const KEY = 'stand.last';

/** The stand used last on this device. */
export async function lastStand(session: Pick<Session, 'read'>): Promise<string> {
  const { value } = await session.read('draft.get', { key: KEY });
  const stand = (value as { stand?: unknown } | null | undefined)?.stand;
  return typeof stand === 'string' ? stand : '';
}

export async function rememberStand(
  session: Pick<Session, 'read'>,
  stand: string | null,
): Promise<void> {
  // A convenience: the test has begun whether it is remembered or not.
  await session
    .read('draft.put', { key: KEY, value: { stand: stand ?? '' } })
    .catch(() => undefined);
}
