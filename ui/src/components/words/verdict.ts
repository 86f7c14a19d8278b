import type { Judgement } from '../shared/judgement';
import type { Verdict } from '$lib/generated/commands';

const MARKS = {
  within_limit: 'within',
  too_close_to_call: 'close',
  outside_limit: 'outside',
} as const satisfies Record<Verdict, Judgement>;

/** The mark of a verdict; without one the reading isn't judged. */
export function markOf(verdict: Verdict | null | undefined): Judgement {
  return verdict ? MARKS[verdict] : 'not_judged';
}
