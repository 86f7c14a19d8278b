import type { CommandError } from '$lib/backend';
import { useSession } from './context';
import { failureOf } from './failure';
import { fitShape } from './shape';

/** A change waits at most this long before it is kept. The promise is 300 ms. */
const WAIT_MS = 200;
/** What couldn't be kept is tried again: a locked store is free a moment later. */
const AGAIN_MS = 2000;

type Fields = Record<string, unknown>;

/** Where drafts are kept: the core's draft table. */
export interface DraftStore {
  read(name: 'draft.get', args: { key: string }): Promise<{ value?: unknown }>;
  read(name: 'draft.put', args: { key: string; value: Fields }): Promise<unknown>;
  read(name: 'draft.clear', args: { key: string }): Promise<unknown>;
}

/**
 * What is half-typed in a form, kept on this device as it is typed, valid or not. It never enters
 * the journal. A form binds to `value`; `done` after saving, `drop` when the person starts over.
 */
export class Draft<T extends object> {
  value = $state() as T;
  /** True when an earlier, unsaved state was found and put back into the form. */
  found = $state(false);
  /** True once it is known whether there is an earlier state: only then may the form be typed in. */
  ready = $state(false);
  /** Why what is typed can't be kept right now. */
  trouble = $state.raw<CommandError>();
  readonly #key: string;
  readonly #initial: T;
  readonly #store: DraftStore;
  #kept: string;
  #timer: ReturnType<typeof setTimeout> | undefined;
  /** Puts and clears go out one after the other, so that a late put can't undo a clear. */
  #queue: Promise<void> = Promise.resolve();

  constructor(key: string, initial: T, store: DraftStore) {
    this.#key = key;
    this.#initial = structuredClone(initial);
    this.#store = store;
    this.value = structuredClone(initial);
    this.#kept = JSON.stringify(initial);
  }

  async open(): Promise<void> {
    try {
      const { value } = await this.#store.read('draft.get', { key: this.#key });
      if (value !== undefined && value !== null) {
        const fitted = fitShape(this.#initial, value);
        if (JSON.stringify(fitted) !== JSON.stringify(this.#initial)) {
          this.value = fitted;
          this.#kept = JSON.stringify(fitted);
          this.found = true;
        }
      }
    } catch (cause) {
      this.trouble = failureOf(cause);
    }
    this.ready = true;
  }

  /** Something may have changed: keep it soon. */
  touch(): void {
    if (!this.ready || this.#unchanged() || this.#timer !== undefined) return;
    this.#timer = setTimeout(() => void this.flush(), WAIT_MS);
  }

  /** Keeps what is typed now, if it isn't kept yet. */
  flush(): Promise<void> {
    this.#stopTimer();
    if (!this.ready || this.#unchanged()) return this.#queue;
    const value = $state.snapshot(this.value) as Fields;
    this.#kept = JSON.stringify(value);
    return this.#send(
      this.#kept === JSON.stringify(this.#initial)
        ? () => this.#store.read('draft.clear', { key: this.#key })
        : () => this.#store.read('draft.put', { key: this.#key, value }),
    );
  }

  /** The form goes away: keeps the last of it, and nothing more. */
  close(): void {
    void this.flush();
    this.ready = false;
  }

  /** It was saved as a record: nothing is left to be kept, and this form keeps nothing more. */
  done(): Promise<void> {
    this.ready = false;
    return this.#clear();
  }

  /** Starts over with the form as it was before anything was typed. */
  drop(): Promise<void> {
    this.value = structuredClone(this.#initial);
    this.#kept = JSON.stringify(this.#initial);
    return this.#clear();
  }

  #clear(): Promise<void> {
    this.#stopTimer();
    this.found = false;
    return this.#send(() => this.#store.read('draft.clear', { key: this.#key }));
  }

  #unchanged(): boolean {
    return JSON.stringify(this.value) === this.#kept;
  }

  #stopTimer(): void {
    clearTimeout(this.#timer);
    this.#timer = undefined;
  }

  #send(call: () => Promise<unknown>): Promise<void> {
    this.#queue = this.#queue.then(call).then(
      () => {
        this.trouble = undefined;
      },
      (cause: unknown) => {
        this.trouble = failureOf(cause);
        // Not kept after all.
        this.#kept = '';
        if (this.ready) this.#timer ??= setTimeout(() => void this.flush(), AGAIN_MS);
      },
    );
    return this.#queue;
  }
}

/**
 * The draft of a form. Call while the form is being made: it restores what was typed, keeps each
 * change, and keeps the last one as the page hides or the form goes away.
 */
export function draft<T extends object>(key: string, initial: T): Draft<T> {
  const it = new Draft(key, initial, useSession() as unknown as DraftStore);
  $effect(() => {
    void it.open();
    const keep = () => void it.flush();
    document.addEventListener('visibilitychange', keep);
    window.addEventListener('pagehide', keep);
    return () => {
      document.removeEventListener('visibilitychange', keep);
      window.removeEventListener('pagehide', keep);
      it.close();
    };
  });
  $effect(() => {
    // Reads every field, so that a change of any of them comes here.
    JSON.stringify(it.value);
    it.touch();
  });
  return it;
}
