import type { CommandError } from '$lib/backend';
import { failureOf } from './failure';
import { Cancelled } from './long-work.svelte';

/** Something that a person asked for and that may fail: whether it runs, and why it failed. */
export class Attempt {
  error = $state.raw<CommandError>();
  busy = $state(false);

  /** Does it. A failure is kept to be shown; nothing is thrown. Cancelled, nothing is to be said. */
  async run(act: () => Promise<void>): Promise<void> {
    this.error = undefined;
    this.busy = true;
    try {
      await act();
    } catch (cause) {
      if (!(cause instanceof Cancelled)) this.error = failureOf(cause);
    } finally {
      this.busy = false;
    }
  }
}
