import type { JobState } from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';
import type { Judgement } from '../../components/shared/judgement';

/** Where a job stands, in words. */
export const STATE_WORDS = {
  not_tested: 'jobs.state.not_tested',
  not_decided: 'jobs.state.not_decided',
  within_limit: 'judgement.within',
  too_close_to_call: 'judgement.close',
  outside_limit: 'judgement.outside',
  repaired_not_tested: 'jobs.state.repaired_not_tested',
} as const satisfies Record<JobState, PlainKey>;

/** The mark beside it. */
export const STATE_MARKS = {
  not_tested: 'not_judged',
  not_decided: 'not_judged',
  within_limit: 'within',
  too_close_to_call: 'close',
  outside_limit: 'outside',
  repaired_not_tested: 'not_judged',
} as const satisfies Record<JobState, Judgement>;
