import type { CommandError } from '$lib/backend';
import type { Attempt } from './attempt.svelte';
import { carryIn } from './carry';
import { failureOf } from './failure';
import type { Session } from './session.svelte';

export interface Pick {
  /** Has the person pick: by the app's own dialog, or by the `input` on the page. */
  readonly by: (
    session: Session,
    input: HTMLInputElement | undefined,
  ) => Promise<number | undefined>;
  /** More is refused by the core, which counts for itself; there is no use in carrying it in. */
  readonly mostBytes: number;
  readonly tooLarge: CommandError['code'];
  /** What the page shows of an earlier file goes. */
  readonly forget: () => void;
  /** The file is the core's now. */
  readonly bring: (file: number) => Promise<void>;
}

/** A file that a person picks, until the core has it. */
export class Picking {
  /** The page's `input`, which a browser picks through. */
  input = $state<HTMLInputElement>();
  /** A dialog is open. */
  open = $state(false);
  readonly #session: Session;
  readonly #attempt: Attempt;
  readonly #pick: Pick;

  constructor(session: Session, attempt: Attempt, pick: Pick) {
    this.#session = session;
    this.#attempt = attempt;
    this.#pick = pick;
  }

  /** Opens the dialog. Put away, nothing happens: what is on the page stays. */
  readonly choose = async (): Promise<void> => {
    this.open = true;
    try {
      const file = await this.#pick.by(this.#session, this.input);
      if (file !== undefined) void this.#pick.bring(file);
    } catch (cause) {
      this.#attempt.error = failureOf(cause);
    } finally {
      this.open = false;
    }
  };

  /** The `input` has a file. */
  readonly picked = (): void => {
    const chosen = this.input?.files?.[0];
    if (!chosen) return;
    const { mostBytes, tooLarge, forget, bring } = this.#pick;
    void this.#attempt.run(async () => {
      forget();
      try {
        if (chosen.size > mostBytes) {
          this.#attempt.error = { code: tooLarge, params: {}, retry: false };
          return;
        }
        await bring(await carryIn(this.#session, chosen));
      } finally {
        // The same file may be chosen again.
        if (this.input) this.input.value = '';
      }
    });
  };
}
