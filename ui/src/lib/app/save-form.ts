import { tick } from 'svelte';
import type { CommandError } from '$lib/backend';
import { t, type PlainKey } from '$lib/messages';
import { failureOf } from './failure';
import type { Route } from './route';
import type { Session } from './session.svelte';

/** What is typed, as far as saving it goes. */
export interface Savable {
  readonly ready: boolean;
  /** It is on record: the draft goes. */
  done(): Promise<void>;
}

export interface SaveStep {
  /** Puts it on record. False: something is missing or wrong, and is said at its field. */
  readonly record: () => Promise<boolean>;
  /** Said once it is on record, with the way to undo it. */
  readonly saved: PlainKey;
  /** Where one was before, or how to go on. */
  readonly then: Route | (() => void);
  /** Where the fields stand: the first that is at fault gets the focus. */
  readonly body: HTMLElement | undefined;
}

/** Forms that are being saved: a second press does nothing. */
const underWay = new WeakSet<Savable>();

/** The save step of a form. Answers with why it couldn't be done. */
export async function saveForm(
  session: Session,
  form: Savable,
  { record, saved, then, body }: SaveStep,
): Promise<CommandError | undefined> {
  if (underWay.has(form) || !form.ready) return undefined;
  underWay.add(form);
  try {
    if (await record()) {
      await form.done();
      session.toasts.say({
        text: t(saved),
        action: { label: t('undo.undo'), run: () => void session.undoLast() },
      });
      if (typeof then === 'function') then();
      else session.router.back(then);
      return undefined;
    }
    await tick();
    body?.querySelector<HTMLElement>('[aria-invalid="true"], .invalid, .unsaid')?.focus();
    return undefined;
  } catch (cause) {
    return failureOf(cause);
  } finally {
    underWay.delete(form);
  }
}
