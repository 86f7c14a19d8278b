import type { ShownFinding, Severity } from '../shared/finding';
import type { Finding, FindingCode } from '$lib/generated/commands';
import { t, tLoose, type MessageKey } from '$lib/messages';
import type { Quantity } from '$lib/quantity';
import { show } from '$lib/quantity/show';

/** Each finding of the core in words. */
export const FINDING_WORDS = {
  missing: 'found.missing',
  out_of_range: 'found.out_of_range',
  deeper_than_barometer: 'found.deeper_than_barometer',
  dead_head_worse_than_reading: 'found.dead_head_worse_than_reading',
  orifice_better_than_dead_head: 'found.orifice_better_than_dead_head',
  blank_worse_than_reading: 'found.blank_worse_than_reading',
  as_tight_as_blank: 'found.as_tight_as_blank',
  oiled_reads_deeper: 'found.oiled_reads_deeper',
  barometer_looks_sea_level: 'found.barometer_looks_sea_level',
  one_orifice_only: 'found.one_orifice_only',
  stand_fit_poor: 'found.stand_fit_poor',
  not_independent_repeats: 'found.not_independent_repeats',
  single_reading: 'found.single_reading',
  readings_scatter: 'found.readings_scatter',
  no_blank: 'found.no_blank',
  orifice_share_large: 'found.orifice_share_large',
  no_limit: 'found.no_limit',
  profile_incomplete: 'found.profile_incomplete',
  opening_reversed: 'found.opening_reversed',
  dimensions_contradict: 'found.dimensions_contradict',
  calibration_overdue: 'found.calibration_overdue',
  clearance_outside_model: 'found.clearance_outside_model',
  concurrent_edit: 'found.concurrent_edit',
  untested_seal: 'found.untested_seal',
  setup_differs: 'found.setup_differs',
  gauge_unknown: 'found.gauge_unknown',
  viscosity_extrapolated: 'found.viscosity_extrapolated',
  seat_larger_than_ball: 'found.seat_larger_than_ball',
  source_missing: 'found.source_missing',
  relief_limit_missing: 'found.relief_limit_missing',
  relief_limit_below_regulation: 'found.relief_limit_below_regulation',
  cracks_below_regulation: 'found.cracks_below_regulation',
  cracks_within_specification: 'found.cracks_within_specification',
  cracks_above_limit: 'found.cracks_above_limit',
  relief_capacity_too_small: 'found.relief_capacity_too_small',
  cross_leak_unknown: 'found.cross_leak_unknown',
  relief_stays_shut: 'found.relief_stays_shut',
  valve_larger_than_bore: 'found.valve_larger_than_bore',
  clearance_implausible: 'found.clearance_implausible',
  dimension_missing: 'found.dimension_missing',
  bore_from_test: 'found.bore_from_test',
  diameter_uncertainty_unknown: 'found.diameter_uncertainty_unknown',
  spring_as_before: 'found.spring_as_before',
  spring_does_not_fit: 'found.spring_does_not_fit',
  body_as_new: 'found.body_as_new',
  relief_not_checked: 'found.relief_not_checked',
  no_test_before: 'found.no_test_before',
  profile_as_repaired: 'found.profile_as_repaired',
  instrument_unknown: 'found.instrument_unknown',
  land_unknown: 'found.land_unknown',
  lands_overlap: 'found.lands_overlap',
  land_wider_than_bore: 'found.land_wider_than_bore',
  outside_bore: 'found.outside_bore',
  ports_overlap: 'found.ports_overlap',
  end_before_start: 'found.end_before_start',
  seal_not_covered: 'found.seal_not_covered',
  supply_shut_at_rest: 'found.supply_shut_at_rest',
  supply_open_at_full_travel: 'found.supply_open_at_full_travel',
  exhaust_never_opens: 'found.exhaust_never_opens',
  exhaust_opens_early: 'found.exhaust_opens_early',
  spring_holds_other: 'found.spring_holds_other',
  setpoint_outside_window: 'found.setpoint_outside_window',
  window_reversed: 'found.window_reversed',
  name_twice: 'found.name_twice',
  name_unknown: 'found.name_unknown',
  window_larger_than_port: 'found.window_larger_than_port',
  windows_wider_than_bore: 'found.windows_wider_than_bore',
  isolates_nothing: 'found.isolates_nothing',
  outside_instrument: 'found.outside_instrument',
  coil_outside_limits: 'found.coil_outside_limits',
  coil_too_close_to_call: 'found.coil_too_close_to_call',
  no_orifice_to_change: 'found.no_orifice_to_change',
  stock_too_large: 'found.stock_too_large',
  stock_too_small: 'found.stock_too_small',
  cut_takes_nothing: 'found.cut_takes_nothing',
  last_cut_misses_size: 'found.last_cut_misses_size',
  does_not_clean_up: 'found.does_not_clean_up',
  wall_left_too_thin: 'found.wall_left_too_thin',
  pilot_wont_enter: 'found.pilot_wont_enter',
  pilot_play_large: 'found.pilot_play_large',
  pilot_not_checked: 'found.pilot_not_checked',
  depth_too_short: 'found.depth_too_short',
  seat_fit_other: 'found.seat_fit_other',
  cut_not_on_sheet: 'found.cut_not_on_sheet',
  ports_shut: 'found.ports_shut',
  class_contradicts: 'found.class_contradicts',
  class_unknown: 'found.class_unknown',
  temperature_missing: 'found.temperature_missing',
  step_without_measurement: 'found.step_without_measurement',
  size_outside_limits: 'found.size_outside_limits',
  size_too_close_to_call: 'found.size_too_close_to_call',
  caution_unread: 'found.caution_unread',
  line_not_noted: 'found.line_not_noted',
  oil_temperature_not_noted: 'found.oil_temperature_not_noted',
  oil_not_hot: 'found.oil_not_hot',
  other_oil: 'found.other_oil',
  feed_above_line: 'found.feed_above_line',
  line_above_highest: 'found.line_above_highest',
  tap_unknown: 'found.tap_unknown',
  directions_look_swapped: 'found.directions_look_swapped',
} as const satisfies Record<FindingCode, MessageKey>;

/** What the bounds of a finding are, where its words name them. */
const BOUNDS: Partial<Record<FindingCode, readonly [Quantity, Quantity]>> = {
  relief_limit_below_regulation: ['pressure', 'pressure'],
  cracks_below_regulation: ['pressure', 'pressure'],
  cracks_within_specification: ['pressure', 'pressure'],
  cracks_above_limit: ['pressure', 'pressure'],
  relief_capacity_too_small: ['pressure', 'pressure'],
  clearance_implausible: ['clearance', 'clearance'],
  diameter_uncertainty_unknown: ['clearance', 'clearance'],
  spring_does_not_fit: ['force', 'pressure'],
  land_wider_than_bore: ['length', 'length'],
  outside_bore: ['length', 'length'],
  supply_open_at_full_travel: ['length', 'length'],
  exhaust_never_opens: ['length', 'length'],
  spring_holds_other: ['pressure', 'force'],
  coil_outside_limits: ['resistance', 'resistance'],
  coil_too_close_to_call: ['resistance', 'resistance'],
  stock_too_large: ['clearance', 'clearance'],
  stock_too_small: ['clearance', 'clearance'],
  cut_takes_nothing: ['length', 'length'],
  last_cut_misses_size: ['length', 'length'],
  does_not_clean_up: ['length', 'length'],
  wall_left_too_thin: ['length', 'length'],
  pilot_wont_enter: ['length', 'length'],
  pilot_play_large: ['clearance', 'clearance'],
  depth_too_short: ['length', 'length'],
  seat_fit_other: ['clearance', 'clearance'],
  ports_shut: ['length', 'length'],
  class_contradicts: ['length', 'length'],
  oil_not_hot: ['temperature', 'temperature'],
  line_above_highest: ['pressure', 'pressure'],
};

const SEVERITY = {
  note: 'note',
  doubt: 'warning',
  wrong: 'blocking',
} as const satisfies Record<Finding['severity'], Severity>;

/** A finding in words. `quantity`: how its bounds are shown; without one they are left out. */
export function findingShown(finding: Finding, quantity?: Quantity): ShownFinding {
  const severity = SEVERITY[finding.severity];
  const { low, high } = finding;
  if (finding.code === 'out_of_range') {
    if (quantity === undefined || typeof low !== 'number' || typeof high !== 'number') {
      return { severity, text: t('found.out_of_range') };
    }
    const bounds = { low: show(low, quantity), high: show(high, quantity) };
    return { severity, text: t('found.out_of_range_bounds', bounds) };
  }
  const bounds = BOUNDS[finding.code];
  const values: Record<string, string> =
    bounds && typeof low === 'number' && typeof high === 'number'
      ? { low: show(low, bounds[0]), high: show(high, bounds[1]) }
      : {};
  return { severity, text: tLoose(FINDING_WORDS[finding.code], values) };
}

/** The findings at one field, or at anything below it. */
export function findingsAt(
  findings: readonly Finding[],
  field: string,
  quantity?: Quantity,
): ShownFinding[] {
  return findings
    .filter(({ field: at }) => at === field || at.startsWith(`${field}.`) || at.startsWith(`${field}[`))
    .map((finding) => findingShown(finding, quantity));
}

/** Whether anything stands in the way of going on. */
export function isBlocked(findings: readonly Finding[]): boolean {
  return findings.some(({ severity }) => severity === 'wrong');
}
