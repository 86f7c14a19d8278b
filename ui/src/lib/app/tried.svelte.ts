import { failureOf } from './failure';
import type { CommandError } from '$lib/backend';

/** A change waits this long before the core is asked what it would give. */
const WAIT_MS = 250;

/**
 * What a form would give, asked of the core as it is typed. A slower answer to older typing never
 * replaces a newer one.
 */
export class Tried<T> {
  value = $state.raw<T>();
  error = $state.raw<CommandError>();
  #latest = 0;
  #timer: ReturnType<typeof setTimeout> | undefined;

  ask(read: () => Promise<T>): void {
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => void this.now(read), WAIT_MS);
  }

  stop(): void {
    clearTimeout(this.#timer);
    this.#latest += 1;
  }

  async now(read: () => Promise<T>): Promise<void> {
    clearTimeout(this.#timer);
    const mine = ++this.#latest;
    try {
      const value = await read();
      if (mine !== this.#latest) return;
      this.value = value;
      this.error = undefined;
    } catch (cause) {
      if (mine === this.#latest) this.error = failureOf(cause);
    }
  }
}
