/** Every answer of the core about a reading at a tap, in words. Total: a new one breaks the build. */
import type { Occasion, TapPlace, Verdict } from '$lib/generated/commands';
import type { MessageKey, PlainKey } from '$lib/messages';

export const PLACES = {
  idle: 'tap.place.idle',
  driving: 'tap.place.driving',
  bench: 'tap.place.bench',
} as const satisfies Record<TapPlace, PlainKey>;

export const PLACE_NOTES = {
  idle: 'tap.place.idle_note',
  driving: 'tap.place.driving_note',
  bench: 'tap.place.bench_note',
} as const satisfies Record<TapPlace, PlainKey>;

export const OCCASIONS_OF_TAPS = {
  as_found: 'tap.occasion.as_found',
  after_cleaning: 'tap.occasion.after_cleaning',
  after_repair: 'tap.occasion.after_repair',
} as const satisfies Record<Occasion, PlainKey>;

export const TAP_VERDICTS = {
  within_limit: 'judgement.within',
  too_close_to_call: 'judgement.close',
  outside_limit: 'judgement.outside',
  none: 'judgement.not_judged',
} as const satisfies Record<Verdict | 'none', PlainKey>;

export const BESIDE = {
  within_limit: 'taps.beside.within_limit',
  too_close_to_call: 'taps.beside.too_close_to_call',
  outside_limit: 'taps.beside.outside_limit',
} as const satisfies Record<Verdict, MessageKey>;
