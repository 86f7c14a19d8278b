import { failureOf } from '$lib/app/failure';
import type { Session } from '$lib/app/session.svelte';
import type { CommandError } from '$lib/backend';
import type { Finding, HandoverView } from '$lib/generated/commands';
import { t } from '$lib/messages';

/** What each form of a handover does when it saves: once at a time, findings kept, undo offered. */
export class Saving {
  findings = $state.raw<readonly Finding[]>([]);
  error = $state.raw<CommandError>();
  #busy = false;
  readonly #session: Session;
  readonly #job: string;

  constructor(session: Session, job: string) {
    this.#session = session;
    this.#job = job;
  }

  /** Writes, and goes back to the job's page of agreements when it is on record. */
  async run(
    write: () => Promise<{ saved: boolean; findings: readonly Finding[]; view?: HandoverView }>,
    done: () => Promise<void>,
    told: string = t('handover.saved'),
  ): Promise<HandoverView | undefined> {
    if (this.#busy) return undefined;
    this.#busy = true;
    this.error = undefined;
    try {
      const answer = await write();
      this.findings = answer.findings;
      if (!answer.saved) return answer.view;
      await done();
      this.#session.toasts.say({
        text: told,
        action: { label: t('undo.undo'), run: () => void this.#session.undoLast() },
      });
      this.#session.router.back({ at: 'handover', job: this.#job });
    } catch (cause) {
      this.error = failureOf(cause);
    } finally {
      this.#busy = false;
    }
    return undefined;
  }
}
