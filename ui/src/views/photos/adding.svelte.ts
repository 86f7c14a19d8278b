import type { CommandError } from '$lib/backend';
import { carryIn } from '$lib/app/carry';
import { failureOf } from '$lib/app/failure';
import type { Session } from '$lib/app/session.svelte';
import type { PhotoList, PhotoShows } from '$lib/generated/commands';
import { takenAt } from './picture';

/** What photos are of: a job, or a test or a repair in it. */
export interface Owner {
  readonly job: string;
  readonly test?: string | undefined;
  readonly repair?: string | undefined;
}

/** What the next photos show, as it was last said: kept while the app runs. */
export const next = $state<{ shows: PhotoShows }>({ shows: 'maybe_personal' });

/** Photos on their way in, one after the other. One that is refused doesn't hold up the others. */
export class Adding {
  /** The one that is carried in, and how far it is, from 0 to 1. */
  now = $state.raw<{ name: string; at: number; all: number; share: number }>();
  refused = $state.raw<readonly { name: string; error: CommandError }[]>([]);
  readonly #session: Session;

  constructor(session: Session) {
    this.#session = session;
  }

  /** Adds them; says how many were, and what the job's photos are then. */
  async add(files: readonly File[], owner: Owner): Promise<{ added: number; list?: PhotoList }> {
    const { job, test, repair } = owner;
    let list: PhotoList | undefined;
    let added = 0;
    this.refused = [];
    for (const [index, picked] of files.entries()) {
      const place = { name: picked.name, at: index + 1, all: files.length };
      this.now = { ...place, share: 0 };
      try {
        const file = await carryIn(this.#session, picked, (share) => {
          this.now = { ...place, share };
        });
        list = await this.#session.write('photo.add', {
          job,
          test: test ?? null,
          repair: repair ?? null,
          file,
          shows: next.shows,
          taken_at: takenAt(picked),
        });
        added += 1;
      } catch (cause) {
        this.refused = [...this.refused, { name: picked.name, error: failureOf(cause) }];
      }
    }
    this.now = undefined;
    return { added, ...(list ? { list } : {}) };
  }
}
