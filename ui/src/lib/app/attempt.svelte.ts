import type { CommandError } from '$lib/backend';
import { failureOf } from './failure';

/** Something that a person asked for and that may fail: whether it runs, and why it failed. */
export class Attempt {
  error = $state.raw<CommandError>();
  busy = $state(false);

  /** Does it. A failure is kept to be shown; nothing is thrown. */
  async run(act: () => Promise<void>): Promise<void> {
    this.error = undefined;
    this.busy = true;
    try {
      await act();
    } catch (cause) {
      this.error = failureOf(cause);
    } finally {
      this.busy = false;
    }
  }
}
