import type { PlainKey } from '$lib/messages';

/** Signal words of ANSI Z535.4, by how sure and how bad the harm is. */
export type SignalWord = 'danger' | 'warning' | 'caution';

export type Hazard =
  | 'hot_oil_under_pressure'
  | 'compressed_air'
  | 'vacuum_pump_and_solvent'
  | 'retained_spring';

interface HazardWords {
  readonly signal: SignalWord;
  readonly title: PlainKey;
  /** What can happen. */
  readonly harm: PlainKey;
  /** How to stay clear of it. */
  readonly avoid: readonly PlainKey[];
  /** The one line that stays in view. */
  readonly short: PlainKey;
}

export const HAZARD_WORDS = {
  hot_oil_under_pressure: {
    signal: 'warning',
    title: 'hazard.hot_oil.title',
    harm: 'hazard.hot_oil.harm',
    avoid: ['hazard.hot_oil.avoid_1', 'hazard.hot_oil.avoid_2', 'hazard.hot_oil.avoid_3'],
    short: 'hazard.hot_oil.short',
  },
  compressed_air: {
    signal: 'warning',
    title: 'hazard.air.title',
    harm: 'hazard.air.harm',
    avoid: ['hazard.air.avoid_1', 'hazard.air.avoid_2', 'hazard.air.avoid_3'],
    short: 'hazard.air.short',
  },
  vacuum_pump_and_solvent: {
    signal: 'warning',
    title: 'hazard.solvent.title',
    harm: 'hazard.solvent.harm',
    avoid: ['hazard.solvent.avoid_1', 'hazard.solvent.avoid_2', 'hazard.solvent.avoid_3'],
    short: 'hazard.solvent.short',
  },
  retained_spring: {
    signal: 'caution',
    title: 'hazard.spring.title',
    harm: 'hazard.spring.harm',
    avoid: ['hazard.spring.avoid_1', 'hazard.spring.avoid_2'],
    short: 'hazard.spring.short',
  },
} as const satisfies Record<Hazard, HazardWords>;

export const SIGNAL_WORDS = {
  danger: 'signal.danger',
  warning: 'signal.warning',
  caution: 'signal.caution',
} as const satisfies Record<SignalWord, PlainKey>;
