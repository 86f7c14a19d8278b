import type { OrificePath, ValvePosition } from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';

/** How the valve stands during a test. */
export const VALVE_WORDS = {
  at_rest: 'setup.valve.at_rest',
  held_regulating: 'setup.valve.held_regulating',
  spring_out: 'setup.valve.spring_out',
  valve_absent: 'setup.valve.valve_absent',
} as const satisfies Record<ValvePosition, PlainKey>;

/** What is done about the balance orifice during a test. */
export const ORIFICE_WORDS = {
  blocked: 'setup.orifice.blocked',
  in_series: 'setup.orifice.in_series',
  in_parallel: 'setup.orifice.in_parallel',
} as const satisfies Record<OrificePath, PlainKey>;
