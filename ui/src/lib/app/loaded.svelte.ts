import type { CommandError } from '$lib/backend';
import { useSession } from './context';
import { failureOf } from './failure';

/**
 * Something read from the core for a view. It is read again when what it depends on changes, and
 * when a change was undone or brought back; meanwhile what is known stays in view.
 */
export class Loaded<T> {
  value = $state.raw<T>();
  error = $state.raw<CommandError>();
  readonly #read: () => Promise<T>;
  #latest = 0;

  constructor(read: () => Promise<T>) {
    this.#read = read;
  }

  /** Puts in place what a command answered anyway. */
  set(value: T): void {
    this.#latest += 1;
    this.value = value;
    this.error = undefined;
  }

  load = async (): Promise<void> => {
    const mine = ++this.#latest;
    try {
      const value = await this.#read();
      // A slower answer to an older question must not replace a newer one.
      if (mine === this.#latest) this.set(value);
    } catch (cause) {
      if (mine === this.#latest) this.error = failureOf(cause);
    }
  };
}

/** Call while a component is being made. */
export function loaded<T>(read: () => Promise<T>): Loaded<T> {
  const session = useSession();
  const it = new Loaded(read);
  $effect(() => {
    void session.revision;
    void it.load();
  });
  return it;
}
