import type { Audience, Commands } from '$lib/generated/commands';

/** What somebody wants in a file that is passed on. */
export interface Wanted {
  readonly what: 'all' | 'jobs' | 'units';
  readonly jobs: readonly string[];
  readonly units: readonly string[];
  readonly audience: Audience;
  /** The pictures of photos go along. */
  readonly photos: boolean;
  /** A device that gets only what it isn't known to have; empty: all of it. */
  readonly unseenBy: string;
}

export const USUAL: Wanted = {
  what: 'all', jobs: [], units: [], audience: 'colleague', photos: true, unseenBy: '',
};

type Make = Commands['bundle.make']['args'];

/** As the core takes it; nothing while nothing is chosen. */
export function asked(
  { what, jobs, units, audience, photos, unseenBy }: Wanted,
  job: string | undefined,
  unit?: string,
): Pick<Make, 'jobs' | 'units' | 'audience' | 'photos' | 'unseen_by'> | undefined {
  const more = { audience, photos, unseen_by: unseenBy === '' ? null : unseenBy };
  if (job !== undefined) return { ...more, jobs: [job], units: null };
  if (unit !== undefined) return { ...more, jobs: null, units: [unit] };
  if (what === 'all') return { ...more, jobs: null, units: null };
  const chosen = what === 'jobs' ? jobs : units;
  if (chosen.length === 0) return undefined;
  return { ...more, jobs: what === 'jobs' ? [...jobs] : null, units: what === 'units' ? [...units] : null };
}
