/** Every answer of the core about a vacuum test, in words. Total: a new one breaks the build. */
import type {
  Assumed,
  BandSource,
  ConsequenceRefusal,
  LeakLaw,
  LeakRefusal,
  OrificePath,
  RegulationState,
  SpecificationAnswer,
  Surface,
  UncertaintySource,
  ValvePosition,
} from '$lib/generated/commands';
import type { MessageKey, PlainKey } from '$lib/messages';
import type { StepId } from './steps';
import type { Judgement } from '../shared/judgement';

interface Answer {
  readonly label: PlainKey;
  readonly note: PlainKey;
}

export const VALVE_ANSWERS = {
  at_rest: { label: 'test.valve.at_rest', note: 'test.valve.at_rest_note' },
  held_regulating: { label: 'test.valve.held_regulating', note: 'test.valve.held_regulating_note' },
  spring_out: { label: 'test.valve.spring_out', note: 'test.valve.spring_out_note' },
  valve_absent: { label: 'test.valve.valve_absent', note: 'test.valve.valve_absent_note' },
} as const satisfies Record<ValvePosition, Answer>;

export const ORIFICE_ANSWERS = {
  blocked: { label: 'test.orifice.blocked', note: 'test.orifice.blocked_note' },
  in_series: { label: 'test.orifice.in_series', note: 'test.orifice.in_series_note' },
  in_parallel: { label: 'test.orifice.in_parallel', note: 'test.orifice.in_parallel_note' },
} as const satisfies Record<OrificePath, Answer>;

export const SURFACE_ANSWERS = {
  dry: { label: 'test.surface.dry', note: 'test.surface.dry_note' },
  oiled: { label: 'test.surface.oiled', note: 'test.surface.oiled_note' },
} as const satisfies Record<Surface, Answer>;

interface Refusal {
  readonly why: PlainKey;
  readonly todo: PlainKey;
  /** Where it can be put right, if it can be within the test. */
  readonly step?: StepId;
}

export const LEAK_REFUSALS = {
  no_barometer: { why: 'test.refused.no_barometer', todo: 'test.refused.no_barometer_do', step: 'air' },
  no_setup: { why: 'test.refused.no_setup', todo: 'test.refused.no_setup_do', step: 'air' },
  no_calibrated_stand: {
    why: 'test.refused.no_calibrated_stand',
    todo: 'test.refused.no_calibrated_stand_do',
    step: 'check',
  },
  oiled: { why: 'test.refused.oiled', todo: 'test.refused.oiled_do', step: 'setup' },
  orifice_takes_drop: {
    why: 'test.refused.orifice_takes_drop',
    todo: 'test.refused.orifice_takes_drop_do',
    step: 'setup',
  },
  valve_absent: { why: 'test.refused.valve_absent', todo: 'test.refused.valve_absent_do', step: 'setup' },
  reading_contradicts: {
    why: 'test.refused.reading_contradicts',
    todo: 'test.refused.reading_contradicts_do',
  },
  too_tight: { why: 'test.refused.too_tight', todo: 'test.refused.too_tight_do' },
  profile_incomplete: {
    why: 'test.refused.profile_incomplete',
    todo: 'test.refused.profile_incomplete_do',
  },
  outside_model: { why: 'test.refused.outside_model', todo: 'test.refused.outside_model_do' },
} as const satisfies Record<LeakRefusal, Refusal>;

export const CONSEQUENCE_REFUSALS = {
  no_leak: 'test.withheld.no_leak',
  profile_incomplete: 'test.withheld.profile_incomplete',
  no_balance: 'test.withheld.no_balance',
  no_dimensions: 'test.withheld.no_dimensions',
} as const satisfies Record<ConsequenceRefusal, PlainKey>;

/** What the valve does with the leak as measured. */
export const MEASURED_STATES = {
  regulating: 'test.does.measured_regulating',
  follows_line: 'test.does.measured_follows_line',
  lost_control: 'test.does.measured_lost_control',
} as const satisfies Record<RegulationState, PlainKey>;

/** Why there is nothing to compare with, where the new valve doesn't regulate; it may. */
export const NEW_STATES = {
  regulating: null,
  follows_line: 'test.does.new_follows_line',
  lost_control: 'test.does.new_lost_control',
} as const satisfies Record<RegulationState, PlainKey | null>;

/** What else the band holds than its likely value. */
export const WORST_STATES = {
  regulating: null,
  follows_line: 'test.does.worst_follows_line',
  lost_control: 'test.does.worst_lost_control',
} as const satisfies Record<RegulationState, PlainKey | null>;

export const SPECIFICATION_ANSWERS = {
  inside: { words: 'test.spec.inside', mark: 'within' },
  likely_inside: { words: 'test.spec.likely_inside', mark: 'close' },
  likely_outside: { words: 'test.spec.likely_outside', mark: 'close' },
  outside: { words: 'test.spec.outside', mark: 'outside' },
} as const satisfies Record<
  SpecificationAnswer,
  { readonly words: PlainKey; readonly mark: Judgement }
>;

export const BAND_WORDS = {
  eccentricity: 'test.band.eccentricity',
  reading: 'test.band.reading',
  untested_seals: 'test.band.untested_seals',
  friction: 'test.band.friction',
  orifice_model: 'test.band.orifice_model',
  spring_load: 'test.band.spring_load',
  orifice_bore: 'test.band.orifice_bore',
  sleeve_seat: 'test.band.sleeve_seat',
} as const satisfies Record<BandSource, PlainKey>;

export const UNCERTAINTY_WORDS = {
  gauge_error: { source: 'test.uncertainty.gauge_error', settle: 'test.settle.gauge_error' },
  gauge_resolution: {
    source: 'test.uncertainty.gauge_resolution',
    settle: 'test.settle.gauge_resolution',
  },
  repeats: { source: 'test.uncertainty.repeats', settle: 'test.settle.repeats' },
  barometer: { source: 'test.uncertainty.barometer', settle: 'test.settle.barometer' },
} as const satisfies Record<
  UncertaintySource,
  { readonly source: PlainKey; readonly settle: PlainKey }
>;

export const LAW_WORDS = {
  gap: 'test.verdict.law_gap',
  hole: 'test.verdict.law_hole',
} as const satisfies Record<LeakLaw, MessageKey>;

export const STEP_WORDS = {
  stand: 'test.step.stand',
  air: 'test.step.air',
  setup: 'test.step.setup',
  check: 'test.step.check',
  blank: 'test.step.blank',
  readings: 'test.step.readings',
} as const satisfies Record<StepId, PlainKey>;

export const ASSUMED_WORDS = {
  engaged_at_regulating: 'test.assumed.engaged_at_regulating',
  untested_seals_band: 'test.assumed.untested_seals_band',
  thermal_expansion: 'test.assumed.thermal_expansion',
  areas_as_new: 'test.assumed.areas_as_new',
  gauge_error_on_reading_alone: 'test.assumed.gauge_error_on_reading_alone',
  far_side_open: 'test.assumed.far_side_open',
  limit_for_this_stand: 'test.assumed.limit_for_this_stand',
  supply_land_as_tested: 'test.assumed.supply_land_as_tested',
  solenoids_shut: 'test.assumed.solenoids_shut',
  repair_expands_alike: 'test.assumed.repair_expands_alike',
  lands_share_clearance: 'test.assumed.lands_share_clearance',
  clutch_faces_run_in: 'test.assumed.clutch_faces_run_in',
  clutch_oil_at_rest: 'test.assumed.clutch_oil_at_rest',
  motion_typical: 'test.assumed.motion_typical',
  grooves_not_counted: 'test.assumed.grooves_not_counted',
  cleaned_gap_as_tested: 'test.assumed.cleaned_gap_as_tested',
  sleeve_seat_centred: 'test.assumed.sleeve_seat_centred',
  other_body_as_profile: 'test.assumed.other_body_as_profile',
  friction_as_profile: 'test.assumed.friction_as_profile',
  orifice_kept: 'test.assumed.orifice_kept',
  dry_ideal_air: 'test.assumed.dry_ideal_air',
  isothermal: 'test.assumed.isothermal',
  barometer_from_altitude: 'test.assumed.barometer_from_altitude',
  laminar_film: 'test.assumed.laminar_film',
  possibly_turbulent_film: 'test.assumed.possibly_turbulent_film',
  entry_exit_loss: 'test.assumed.entry_exit_loss',
  choked_gap: 'test.assumed.choked_gap',
  eccentricity_unknown: 'test.assumed.eccentricity_unknown',
  shared_clearance: 'test.assumed.shared_clearance',
  assumed_discharge: 'test.assumed.assumed_discharge',
  hose_neglected: 'test.assumed.hose_neglected',
  dead_head_follows_barometer: 'test.assumed.dead_head_follows_barometer',
  dead_head_fixed: 'test.assumed.dead_head_fixed',
  constant_pull: 'test.assumed.constant_pull',
  blank_neglected: 'test.assumed.blank_neglected',
  blank_as_hole: 'test.assumed.blank_as_hole',
  blank_as_gap: 'test.assumed.blank_as_gap',
  series_orifice_neglected: 'test.assumed.series_orifice_neglected',
  series_orifice_corrected: 'test.assumed.series_orifice_corrected',
  parallel_orifice_subtracted: 'test.assumed.parallel_orifice_subtracted',
  carried_as_gap: 'test.assumed.carried_as_gap',
  carried_as_hole: 'test.assumed.carried_as_hole',
  inertia_neglected: 'test.assumed.inertia_neglected',
  valves_sit_alike: 'test.assumed.valves_sit_alike',
  orifice_law: 'test.assumed.orifice_law',
  orifice_laws_differ: 'test.assumed.orifice_laws_differ',
  viscosity_extrapolated: 'test.assumed.viscosity_extrapolated',
  pressures_over_sump: 'test.assumed.pressures_over_sump',
  square_lands: 'test.assumed.square_lands',
  jet_angle: 'test.assumed.jet_angle',
  land_lengths_fixed: 'test.assumed.land_lengths_fixed',
  demand_as_edges: 'test.assumed.demand_as_edges',
  chamber_drained_freely: 'test.assumed.chamber_drained_freely',
  dry_friction: 'test.assumed.dry_friction',
  relief_without_flow_force: 'test.assumed.relief_without_flow_force',
  edges_rounded_alike: 'test.assumed.edges_rounded_alike',
  window_unrolled: 'test.assumed.window_unrolled',
  covered_window_film: 'test.assumed.covered_window_film',
  jet_of_window: 'test.assumed.jet_of_window',
  spring_torsion_only: 'test.assumed.spring_torsion_only',
  spring_near_solid: 'test.assumed.spring_near_solid',
  spring_straight: 'test.assumed.spring_straight',
  expansion_from_handbook: 'test.assumed.expansion_from_handbook',
  round_between_directions: 'test.assumed.round_between_directions',
  gauge_error_shared: 'test.assumed.gauge_error_shared',
  relief_flow_force: 'test.assumed.relief_flow_force',
  relief_seat_area: 'test.assumed.relief_seat_area',
  air_stays_free: 'test.assumed.air_stays_free',
  friction_constant: 'test.assumed.friction_constant',
  faces_share_force: 'test.assumed.faces_share_force',
  oil_turns_with_drum: 'test.assumed.oil_turns_with_drum',
  copper_at_one_temperature: 'test.assumed.copper_at_one_temperature',
  solenoid_kind_typical: 'test.assumed.solenoid_kind_typical',
  pump_slip_laminar: 'test.assumed.pump_slip_laminar',
  solenoid_at_most_feed: 'test.assumed.solenoid_at_most_feed',
  relief_without_mass: 'test.assumed.relief_without_mass',
  stops_without_rebound: 'test.assumed.stops_without_rebound',
  flow_force_steady: 'test.assumed.flow_force_steady',
  passages_without_waves: 'test.assumed.passages_without_waves',
} as const satisfies Record<Assumed, PlainKey>;
