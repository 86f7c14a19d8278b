import { CommandFailure, type Backend } from '$lib/backend';
import type { Commands, LongResult, LongWork as Work, TaskView } from '$lib/generated/commands';

/** The commands that may take long, and what each is called as a task. */
const TASKS = {
  'bundle.make': 'bundle_make',
  'bundle.look': 'bundle_look',
  'bundle.take_in': 'bundle_take_in',
  'store.check': 'store_check',
  'backup.make': 'backup_make',
} as const satisfies Partial<Record<keyof Commands, string>>;

export type LongName = keyof typeof TASKS;

/** Somebody cancelled it: nothing was done. */
export class Cancelled extends Error {}

/** Between two questions how far it is: most is done at once, and what isn't is asked less. */
const WAITS_MS = [0, 10, 20, 50, 100, 250] as const;

/**
 * A command that may take long, done as a task of the core: how far it is, and a way out. One at a
 * time; whoever leaves the page doesn't stop it.
 */
export class LongWork {
  /** How far it is, from 0 to 1; none: nobody knows, or nothing runs. */
  share = $state<number>();
  #stop: (() => void) | undefined;

  /** Stops what runs. It then fails as cancelled, unless it ended before. */
  readonly cancel = (): void => this.#stop?.();

  /** Does a command. Throws what the core refuses, and [`Cancelled`]. */
  async call<N extends LongName>(
    backend: Backend,
    name: N,
    args: Commands[N]['args'],
  ): Promise<Commands[N]['answer']> {
    const kind = TASKS[name];
    // A task without arguments is named alone.
    const work = (name === 'backup.make' ? kind : { [kind]: args }) as Work;
    const { task } = await backend.call('task.begin', { work });
    let cancelled = false;
    this.#stop = () => {
      if (cancelled) return;
      cancelled = true;
      // Where it fails the work goes on, and its end is told as ever.
      backend.call('task.cancel', { task }).catch(() => undefined);
    };
    try {
      for (let asked = 0; ; asked += 1) {
        await new Promise((go) => setTimeout(go, WAITS_MS[asked] ?? 250));
        const view = await backend.call('task.state', { task });
        this.share = view.total > 0 ? view.done / view.total : undefined;
        const result = ended(view);
        if (result) return (result as Record<string, unknown>)[kind] as Commands[N]['answer'];
      }
    } finally {
      this.#stop = undefined;
      this.share = undefined;
    }
  }
}

/** What a task came to; none while it runs. */
function ended({ state }: TaskView): LongResult | undefined {
  if (state === 'running' || state === 'cancelling') return undefined;
  if (state === 'cancelled') throw new Cancelled();
  if ('failed' in state) throw new CommandFailure(state.failed);
  return state.finished;
}
