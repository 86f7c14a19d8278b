import type { Backend } from '$lib/backend';
import type { Commands, JobListArgs } from '$lib/generated/commands';

type Name = keyof Commands;

/** As many jobs as are shown at first, and as many more with each "Show more". */
export const PAGE = 50;

/** The list of jobs as it is asked for while nothing is searched. */
export const ALL_JOBS: JobListArgs = {
  text: '',
  state: null,
  unit: null,
  bore: null,
  person: null,
  from: null,
  to: null,
  skip: 0,
  limit: PAGE,
};

/** Where the core keeps what a device remembers, beside the drafts and never in the journal. */
export const KEPT = { here: 'device.here', lastValues: 'values.last' } as const;

/** A question to the core, to be known again. */
const questionOf = (name: Name, args: unknown): string => JSON.stringify([name, args]);

/**
 * What a start asks, asked before the script that shows it was read: the core answers meanwhile, and
 * the first screen comes whole. Each answer is given once, and none after anything was changed.
 */
export class Ahead {
  readonly #answers = new Map<string, Promise<unknown>>();

  /** `jobs`: whether the list of jobs is what is shown first. */
  constructor(backend: Backend, jobs: boolean) {
    const ask = <N extends Name>(name: N, args: Commands[N]['args']) => {
      const answer = backend.call(name, args);
      // Whoever asks is told; until then a failure is nobody's.
      answer.catch(() => undefined);
      this.#answers.set(questionOf(name, args), answer);
    };
    ask('app.state', {});
    ask('shop.overview', {});
    for (const key of Object.values(KEPT)) ask('draft.get', { key });
    if (!jobs) return;
    ask('job.list', ALL_JOBS);
    ask('settle.list', { within: null });
  }

  /** Once there is an answer to everything that nobody asked yet. */
  async answered(): Promise<void> {
    await Promise.allSettled(this.#answers.values());
  }

  /** The answer to a question that was asked ahead; none: it wasn't. */
  take<N extends Name>(name: N, args: Commands[N]['args']): Promise<Commands[N]['answer']> | undefined {
    if (this.#answers.size === 0) return undefined;
    const question = questionOf(name, args);
    const answer = this.#answers.get(question);
    this.#answers.delete(question);
    return answer as Promise<Commands[N]['answer']> | undefined;
  }

  /** What was answered may not be so any more. */
  drop(): void {
    this.#answers.clear();
  }
}
