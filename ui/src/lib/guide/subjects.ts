import type { Hazard, RepairOption } from '$lib/generated/commands';
import type { StepId } from '../../components/test/steps';
import type { PageId } from './page';

/** The page behind each step of a vacuum test. A step without a page breaks the build. */
export const STEP_PAGES = {
  stand: 'stand',
  air: 'air',
  setup: 'setup',
  check: 'stand_check',
  blank: 'blank',
  readings: 'readings',
} as const satisfies Record<StepId, PageId>;

/** Places with one question of their own. */
export const PLACE_PAGES = {
  begin: 'vacuum_test',
  judgement: 'judgement',
  relief: 'relief',
  proof: 'proof',
  cautions: 'cautions',
} as const satisfies Record<string, PageId>;

export const HAZARD_PAGES = {
  hot_oil: 'cautions',
  retained_springs: 'valve_train',
  compressed_air: 'clutch_air',
  solvent: 'after_cleaning',
  vacuum_pump: 'vacuum_test',
  high_voltage: 'cautions',
  chips: 'repair',
  raised_wheels: 'gauge_at_taps',
  road_test: 'gauge_at_taps',
} as const satisfies Record<Hazard, PageId>;

export const REPAIR_PAGES = {
  cleaned: 'after_cleaning',
  new_valve: 'diameters',
  sleeve_smaller_valve: 'spring',
  reamed_oversize: 'repair',
  relief_added: 'relief',
  body_replaced: 'proof',
  other: 'repair',
  orifice_changed: 'orifice_bore',
} as const satisfies Record<RepairOption, PageId>;

/** Checks of a bore, of the body and at the vehicle, as an inspection goes through them. */
export const CHECKS = [
  ...(['valve_train', 'free_movement', 'wear_marks', 'light_check', 'wiggle_check'] as const),
  ...(['vacuum_test', 'diameters', 'spring', 'orifice_bore', 'end_plug'] as const),
  ...(['flatness', 'plate_and_balls', 'porosity', 'feed_screens', 'solenoid_resistance'] as const),
  ...(['leak_and_flow', 'clutch_air', 'gauge_at_taps'] as const),
] as const;
export type Check = (typeof CHECKS)[number];

export const CHECK_PAGES = {
  valve_train: 'valve_train',
  free_movement: 'free_movement',
  wear_marks: 'wear_marks',
  light_check: 'light_check',
  wiggle_check: 'wiggle_check',
  vacuum_test: 'vacuum_test',
  diameters: 'diameters',
  spring: 'spring',
  orifice_bore: 'orifice_bore',
  end_plug: 'end_plug',
  flatness: 'flatness',
  plate_and_balls: 'plate_and_balls',
  porosity: 'porosity',
  feed_screens: 'feed_screens',
  solenoid_resistance: 'solenoid_resistance',
  leak_and_flow: 'leak_and_flow',
  clutch_air: 'clutch_air',
  gauge_at_taps: 'gauge_at_taps',
} as const satisfies Record<Check, PageId>;
