import type { PlainKey } from '$lib/messages';

/** What a reading is, against its limit, with its uncertainty allowed for. */
export type Judgement = 'within' | 'close' | 'outside' | 'not_judged';

export const JUDGEMENT_WORDS = {
  within: 'judgement.within',
  close: 'judgement.close',
  outside: 'judgement.outside',
  not_judged: 'judgement.not_judged',
} as const satisfies Record<Judgement, PlainKey>;
