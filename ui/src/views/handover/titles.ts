import type { HandoverPart } from '$lib/app/route';
import type { PlainKey } from '$lib/messages';

/** What each form of a handover is called. */
export const HANDOVER_TITLES = {
  estimate: 'handover.estimate',
  authorisation: 'handover.authorisation',
  fitted: 'handover.fitted_change',
  warranty: 'handover.warranty',
  sign_off: 'handover.sign_off',
  comeback: 'comeback.title',
} as const satisfies Record<HandoverPart, PlainKey>;
