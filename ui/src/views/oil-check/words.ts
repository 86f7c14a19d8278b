/** Every answer of the core about a hot-oil check, in words. Total: a new one breaks the build. */
import type { OilBasis, OilSettle, Verdict } from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';

export const IN_BAND = {
  within_limit: 'oil.in_band.within_limit',
  too_close_to_call: 'oil.in_band.too_close_to_call',
  outside_limit: 'oil.in_band.outside_limit',
  none: 'oil.in_band.none',
} as const satisfies Record<Verdict | 'none', PlainKey>;

export const AS_SPECIFIED = {
  within_limit: 'oil.spec.within_limit',
  too_close_to_call: 'oil.spec.too_close_to_call',
  outside_limit: 'oil.spec.outside_limit',
  none: 'oil.spec.none',
} as const satisfies Record<Verdict | 'none', PlainKey>;

export const BASES = {
  repair: 'oil.basis.repair',
  measured: 'oil.basis.measured',
  as_new: 'oil.basis.as_new',
} as const satisfies Record<OilBasis, PlainKey>;

export const FRICTION = {
  within_limit: 'oil.friction.within_limit',
  too_close_to_call: 'oil.friction.too_close_to_call',
  outside_limit: 'oil.friction.outside_limit',
} as const satisfies Record<Verdict, PlainKey>;

export const OIL_SETTLES = {
  measure_highest_line: 'oil.settle.measure_highest_line',
  measure_idle_line: 'oil.settle.measure_idle_line',
  measure_rising: 'oil.settle.measure_rising',
  measure_falling: 'oil.settle.measure_falling',
  heat_oil: 'oil.settle.heat_oil',
  use_unit_oil: 'oil.settle.use_unit_oil',
  enter_dimensions: 'oil.settle.enter_dimensions',
  enter_specification: 'oil.settle.enter_specification',
  better_gauge: 'oil.settle.better_gauge',
  free_valve: 'oil.settle.free_valve',
  test_again: 'oil.settle.test_again',
} as const satisfies Record<OilSettle, PlainKey>;

