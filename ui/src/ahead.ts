// Runs before the interface's own script is read, as a script of its own (vite.config.ts).
import { Ahead } from '$lib/app/ahead';
import { readRoute } from '$lib/app/route';
import { chooseBackend } from '$lib/backend';

export const backend = chooseBackend();
export const ahead = new Ahead(backend, readRoute(location.hash).at === 'jobs');
