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
} as const satisfies Record<FindingCode, MessageKey>;

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
  return { severity, text: tLoose(FINDING_WORDS[finding.code], {}) };
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
