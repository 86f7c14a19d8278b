import { createContext, getContext, setContext } from 'svelte';
import type { Session } from './session.svelte';

/** The running app, handed down from the top component. */
export const [useSession, provideSession] = createContext<Session>();

/** Tells that something opens over the place; the answer, that it was put away. */
export type OpensOver = (away: () => void) => () => void;

const OVER = Symbol('over');

/** Hands down to every sheet how the system's back puts it away. */
export function provideOver(over: OpensOver): void {
  setContext(OVER, over);
}

/** For a sheet; a component that stands alone has no history to speak of. */
export function useOver(): OpensOver {
  return getContext<OpensOver | undefined>(OVER) ?? (() => () => undefined);
}
