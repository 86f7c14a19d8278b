/** Every answer of the core about repair options, in words. Total: a new one breaks the build. */
import type {
  Effort,
  MotionStands,
  NamedCheck,
  Obstacle,
  OptionWarning,
  RankReason,
  ReadingRefusal,
  Risk,
  Standing,
  UndecidedWhat,
  Unmeasured,
  Way,
} from '$lib/generated/commands';
import type { PageId } from '$lib/guide/page';
import type { PlainKey } from '$lib/messages';
import type { Judgement } from '../shared/judgement';

export const WAYS = {
  leave: { label: 'options.way.leave', note: 'options.way.leave_note', page: 'judgement' },
  clean: { label: 'options.way.clean', note: 'options.way.clean_note', page: 'after_cleaning' },
  other_valve: {
    label: 'options.way.other_valve',
    note: 'options.way.other_valve_note',
    page: 'diameters',
  },
  sleeve: { label: 'options.way.sleeve', note: 'options.way.sleeve_note', page: 'spring' },
  ream: { label: 'options.way.ream', note: 'options.way.ream_note', page: 'repair' },
  add_relief: {
    label: 'options.way.add_relief',
    note: 'options.way.add_relief_note',
    page: 'relief',
  },
  replace_body: {
    label: 'options.way.replace_body',
    note: 'options.way.replace_body_note',
    page: 'proof',
  },
  change_orifice: {
    label: 'options.way.change_orifice',
    note: 'options.way.change_orifice_note',
    page: 'orifice_bore',
  },
} as const satisfies Record<Way, { label: PlainKey; note: PlainKey; page: PageId }>;

export const STANDINGS = {
  holds: { words: 'options.standing.holds', mark: 'within' },
  likely_holds: { words: 'options.standing.likely_holds', mark: 'close' },
  unknown: { words: 'options.standing.unknown', mark: 'not_judged' },
  contained: { words: 'options.standing.contained', mark: 'close' },
  likely_not: { words: 'options.standing.likely_not', mark: 'close' },
  breaks_limit: { words: 'options.standing.breaks_limit', mark: 'outside' },
  cant_be_done: { words: 'options.standing.cant_be_done', mark: 'not_judged' },
} as const satisfies Record<Standing, { words: PlainKey; mark: Judgement }>;

export const REASONS = {
  cant_be_done: 'options.reason.cant_be_done',
  measurement_missing: 'options.reason.measurement_missing',
  loses_control: 'options.reason.loses_control',
  outside_specification: 'options.reason.outside_specification',
  likely_outside_specification: 'options.reason.likely_outside_specification',
  may_leave_specification: 'options.reason.may_leave_specification',
  holds_specification: 'options.reason.holds_specification',
  pressure_unknown: 'options.reason.pressure_unknown',
  parts_dont_hold: 'options.reason.parts_dont_hold',
  reading_outside_limit: 'options.reason.reading_outside_limit',
  reading_too_close: 'options.reason.reading_too_close',
  would_miss_limit: 'options.reason.would_miss_limit',
  might_miss_limit: 'options.reason.might_miss_limit',
  pressure_holds_anyway: 'options.reason.pressure_holds_anyway',
  valve_sticks: 'options.reason.valve_sticks',
  may_hunt: 'options.reason.may_hunt',
  hunts: 'options.reason.hunts',
  only_contains: 'options.reason.only_contains',
  wall_unknown: 'options.reason.wall_unknown',
  nothing_to_do: 'options.reason.nothing_to_do',
  less_effort: 'options.reason.less_effort',
} as const satisfies Record<RankReason, PlainKey>;

export const OBSTACLES = {
  no_valve_in_list: 'options.obstacle.no_valve_in_list',
  no_sleeve_in_list: 'options.obstacle.no_sleeve_in_list',
  no_reamer_in_list: 'options.obstacle.no_reamer_in_list',
  no_spring_in_list: 'options.obstacle.no_spring_in_list',
  wall_too_thin: 'options.obstacle.wall_too_thin',
  sleeve_wall_too_thin: 'options.obstacle.sleeve_wall_too_thin',
  stock_does_not_clean_up: 'options.obstacle.stock_does_not_clean_up',
  stock_too_much: 'options.obstacle.stock_too_much',
  valve_wont_enter: 'options.obstacle.valve_wont_enter',
  seizes_hot: 'options.obstacle.seizes_hot',
  out_of_round: 'options.obstacle.out_of_round',
  stroke_too_short: 'options.obstacle.stroke_too_short',
  sleeve_too_short: 'options.obstacle.sleeve_too_short',
  relief_outside_window: 'options.obstacle.relief_outside_window',
  relief_too_small: 'options.obstacle.relief_too_small',
  no_orifice: 'options.obstacle.no_orifice',
} as const satisfies Record<Obstacle, PlainKey>;

export const MISSING = {
  clearance: 'options.missing.clearance',
  diameters: 'options.missing.diameters',
  spring_height: 'options.missing.spring_height',
  profile: 'options.missing.profile',
  relief: 'options.missing.relief',
  relief_limit: 'options.missing.relief_limit',
} as const satisfies Record<Unmeasured, PlainKey>;

export const EFFORTS = {
  nothing: 'options.effort.nothing',
  clean: 'options.effort.clean',
  change_parts: 'options.effort.change_parts',
  add_parts: 'options.effort.add_parts',
  machine: 'options.effort.machine',
  change_body: 'options.effort.change_body',
} as const satisfies Record<Effort, PlainKey>;

export const RISKS = {
  wear_goes_on: 'options.risk.wear_goes_on',
  cant_be_undone: 'options.risk.cant_be_undone',
  chips: 'options.risk.chips',
  sleeve_seat: 'options.risk.sleeve_seat',
  hard_layer: 'options.risk.hard_layer',
  fault_remains: 'options.risk.fault_remains',
  other_body_unknown: 'options.risk.other_body_unknown',
  less_damping: 'options.risk.less_damping',
} as const satisfies Record<Risk, PlainKey>;

export const CHECKS = {
  ports_aligned: 'options.check.ports_aligned',
  sealing_face: 'options.check.sealing_face',
  lands_match: 'options.check.lands_match',
  guide_and_pilot: 'options.check.guide_and_pilot',
  wall_left: 'options.check.wall_left',
  clean_after_machining: 'options.check.clean_after_machining',
  free_movement: 'options.check.free_movement',
  spring_at_height: 'options.check.spring_at_height',
  relief_cracking: 'options.check.relief_cracking',
  measure_other_body: 'options.check.measure_other_body',
  test_again: 'options.check.test_again',
  orifice_by_pins: 'options.check.orifice_by_pins',
} as const satisfies Record<NamedCheck, PlainKey>;

export const WARNINGS = {
  layer_through: 'options.warning.layer_through',
  layer_unknown: 'options.warning.layer_unknown',
  layer_through_already: 'options.warning.layer_through_already',
  wall_unknown: 'options.warning.wall_unknown',
  bore_scored: 'options.warning.bore_scored',
  out_of_round_unknown: 'options.warning.out_of_round_unknown',
  may_bind_hot: 'options.warning.may_bind_hot',
  seat_leaks: 'options.warning.seat_leaks',
  sizes_supposed: 'options.warning.sizes_supposed',
} as const satisfies Record<OptionWarning, PlainKey>;

export const MOTIONS = {
  settles: 'options.motion.settles',
  may_hunt: 'options.motion.may_hunt',
  hunts: 'options.motion.hunts',
} as const satisfies Record<MotionStands, PlainKey>;

export const READING_REFUSALS = {
  no_test: 'options.reading_refused.no_test',
  no_calibrated_stand: 'options.reading_refused.no_calibrated_stand',
  no_setup: 'options.reading_refused.no_setup',
  other_setup: 'options.reading_refused.other_setup',
  no_clearance: 'options.reading_refused.no_clearance',
  profile_incomplete: 'options.reading_refused.profile_incomplete',
  outside_model: 'options.reading_refused.outside_model',
} as const satisfies Record<ReadingRefusal, PlainKey>;

export const UNDECIDED = {
  whether_to_repair: 'options.undecided.whether_to_repair',
  between_the_first: 'options.undecided.between_the_first',
} as const satisfies Record<UndecidedWhat, PlainKey>;
