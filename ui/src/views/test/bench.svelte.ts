import type { Snippet } from 'svelte';
import type { CommandError } from '$lib/backend';
import { failureOf } from '$lib/app/failure';
import { Loaded } from '$lib/app/loaded.svelte';
import type { Session } from '$lib/app/session.svelte';
import type { Finding, Reading, TestPart, TestRecorded, TestView } from '$lib/generated/commands';
import { t } from '$lib/messages';
import type { Place } from '../../components/test/steps';

/** The draft of what is recorded. */
interface Kept {
  done(): Promise<void>;
}

/** How long after the last key a part is tried, so that typing isn't held up. */
const TRY_MS = 250;

/**
 * One vacuum test on the bench: what is on record, what the part being typed would give, and where
 * one is. Steps record through it.
 */
export class Bench {
  /** Undefined until it is known where the test was left. */
  place = $state<Place>();
  /** The actions of the step shown, under the thumb. */
  actions = $state.raw<Snippet>();
  /** Whether the step shown has what was left half-typed, and with it its height. */
  drawn = $state(false);
  /** What the part being typed would give; nothing of it is on record. */
  tried = $state.raw<TestRecorded>();
  busy = $state(false);
  error = $state.raw<CommandError>();
  readonly test: string;
  readonly view: Loaded<TestView>;
  readonly #session: Session;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #asked = 0;

  constructor(test: string, session: Session, view: Loaded<TestView>) {
    this.test = test;
    this.#session = session;
    this.view = view;
  }

  /** What the judgement shows: with what is being typed, else as recorded. */
  get shown(): TestView | undefined {
    return this.tried?.view ?? this.view.value;
  }

  /** What the core found in the part being typed. */
  get findings(): readonly Finding[] {
    return this.tried?.findings ?? [];
  }

  /** Asks, in a moment, what a part would give; without one, what is on record counts again. */
  try(part: TestPart | undefined): void {
    clearTimeout(this.#timer);
    this.#asked += 1;
    if (!part) {
      this.tried = undefined;
      return;
    }
    const mine = this.#asked;
    this.#timer = setTimeout(() => void this.#try(part, mine), TRY_MS);
  }

  async #try(part: TestPart, mine: number): Promise<void> {
    try {
      const tried = await this.#session.read('test.record', { test: this.test, part, dry_run: true });
      if (mine === this.#asked) this.tried = tried;
    } catch (cause) {
      // Only a preview: the part itself is tried again, and its failure told, when it is saved.
      if (mine === this.#asked) this.tried = undefined;
      failureOf(cause);
    }
  }

  /** Puts a part on record. False when the core found it wrong, or couldn't: the draft stays. */
  record(part: TestPart, told: string, draft?: Kept): Promise<boolean> {
    return this.#keep(
      () => this.#session.write('test.record', { test: this.test, part, dry_run: false }),
      told,
      draft,
    );
  }

  correct(record: string, reading: Reading, told: string, draft: Kept): Promise<boolean> {
    return this.#keep(
      () => this.#session.write('test.correct', { test: this.test, record, reading }),
      told,
      draft,
    );
  }

  strike(record: string, told: string): Promise<boolean> {
    return this.#keep(async () => {
      const view = await this.#session.write('test.strike', { test: this.test, record });
      return { saved: true, findings: [], view };
    }, told);
  }

  decide(note: string, draft: Kept): Promise<boolean> {
    return this.#keep(
      async () => {
        const view = await this.#session.write('test.decide', { test: this.test, note });
        return { saved: true, findings: [], view };
      },
      t('test.decision.recorded'),
      draft,
    );
  }

  async #keep(
    write: () => Promise<TestRecorded>,
    told: string,
    draft?: Kept,
  ): Promise<boolean> {
    // A second tap of a glove must not record a second time.
    if (this.busy) return false;
    this.busy = true;
    this.error = undefined;
    clearTimeout(this.#timer);
    this.#asked += 1;
    try {
      const answer = await write();
      this.tried = answer.saved ? undefined : answer;
      if (!answer.saved) return false;
      // Before the form is made anew from what is on record: it must not find this typing again.
      await draft?.done();
      this.view.set(answer.view);
      this.#session.toasts.say({
        text: told,
        action: { label: t('undo.undo'), run: () => void this.#session.undoLast() },
      });
      return true;
    } catch (cause) {
      this.error = failureOf(cause);
      return false;
    } finally {
      this.busy = false;
    }
  }
}
