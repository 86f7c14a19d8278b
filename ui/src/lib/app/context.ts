import { createContext } from 'svelte';
import type { Session } from './session.svelte';

/** The running app, handed down from the top component. */
export const [useSession, provideSession] = createContext<Session>();
