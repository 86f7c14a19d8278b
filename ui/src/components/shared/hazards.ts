import type { Hazard } from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';

/** Signal words of ANSI Z535.4, by how sure and how bad the harm is. */
export type SignalWord = 'danger' | 'warning' | 'caution';

export type { Hazard };

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
  high_voltage: {
    signal: 'danger',
    title: 'hazard.high_voltage.title',
    harm: 'hazard.high_voltage.harm',
    avoid: ['hazard.high_voltage.avoid_1', 'hazard.high_voltage.avoid_2', 'hazard.high_voltage.avoid_3'],
    short: 'hazard.high_voltage.short',
  },
  hot_oil: {
    signal: 'warning',
    title: 'hazard.hot_oil.title',
    harm: 'hazard.hot_oil.harm',
    avoid: ['hazard.hot_oil.avoid_1', 'hazard.hot_oil.avoid_2', 'hazard.hot_oil.avoid_3'],
    short: 'hazard.hot_oil.short',
  },
  retained_springs: {
    signal: 'warning',
    title: 'hazard.retained_springs.title',
    harm: 'hazard.retained_springs.harm',
    avoid: ['hazard.retained_springs.avoid_1', 'hazard.retained_springs.avoid_2'],
    short: 'hazard.retained_springs.short',
  },
  compressed_air: {
    signal: 'warning',
    title: 'hazard.compressed_air.title',
    harm: 'hazard.compressed_air.harm',
    avoid: ['hazard.compressed_air.avoid_1', 'hazard.compressed_air.avoid_2', 'hazard.compressed_air.avoid_3'],
    short: 'hazard.compressed_air.short',
  },
  solvent: {
    signal: 'warning',
    title: 'hazard.solvent.title',
    harm: 'hazard.solvent.harm',
    avoid: ['hazard.solvent.avoid_1', 'hazard.solvent.avoid_2', 'hazard.solvent.avoid_3'],
    short: 'hazard.solvent.short',
  },
  vacuum_pump: {
    signal: 'caution',
    title: 'hazard.vacuum_pump.title',
    harm: 'hazard.vacuum_pump.harm',
    avoid: ['hazard.vacuum_pump.avoid_1', 'hazard.vacuum_pump.avoid_2', 'hazard.vacuum_pump.avoid_3'],
    short: 'hazard.vacuum_pump.short',
  },
  chips: {
    signal: 'warning',
    title: 'hazard.chips.title',
    harm: 'hazard.chips.harm',
    avoid: ['hazard.chips.avoid_1', 'hazard.chips.avoid_2', 'hazard.chips.avoid_3'],
    short: 'hazard.chips.short',
  },
  raised_wheels: {
    signal: 'danger',
    title: 'hazard.raised_wheels.title',
    harm: 'hazard.raised_wheels.harm',
    avoid: ['hazard.raised_wheels.avoid_1', 'hazard.raised_wheels.avoid_2', 'hazard.raised_wheels.avoid_3'],
    short: 'hazard.raised_wheels.short',
  },
  road_test: {
    signal: 'warning',
    title: 'hazard.road_test.title',
    harm: 'hazard.road_test.harm',
    avoid: ['hazard.road_test.avoid_1', 'hazard.road_test.avoid_2', 'hazard.road_test.avoid_3'],
    short: 'hazard.road_test.short',
  },
} as const satisfies Record<Hazard, HazardWords>;

export const SIGNAL_WORDS = {
  danger: 'signal.danger',
  warning: 'signal.warning',
  caution: 'signal.caution',
} as const satisfies Record<SignalWord, PlainKey>;
