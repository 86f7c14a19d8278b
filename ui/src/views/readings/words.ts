import type {
  ColumnRole,
  ReadingsLack,
  RowProblem,
  WrongRow,
} from '$lib/generated/commands';
import { t, tLoose, type MessageKey, type PlainKey } from '$lib/messages';
import { findingShown } from '../../components/words/finding';

export const ROLE_WORDS = {
  nothing: 'readings.role_nothing',
  vacuum: 'readings.role_vacuum',
  gauge_pressure: 'readings.role_gauge_pressure',
  reseated: 'readings.role_reseated',
  job: 'readings.role_job',
  bore: 'readings.role_bore',
  test_point: 'readings.role_test_point',
  test: 'readings.role_test',
  record: 'readings.role_record',
  kind: 'readings.role_kind',
} as const satisfies Record<ColumnRole, PlainKey>;

export const LACK_WORDS = {
  vacuum: 'readings.lack_vacuum',
  one_column_each: 'readings.lack_one_column_each',
  unit: 'readings.lack_unit',
  job: 'readings.lack_job',
  bore: 'readings.lack_bore',
  test_point: 'readings.lack_test_point',
} as const satisfies Record<ReadingsLack, PlainKey>;

const PROBLEM_WORDS = {
  no_reading: 'readings.bad_no_reading',
  not_a_number: 'readings.bad_not_a_number',
  other_decimal_sign: 'readings.bad_other_decimal_sign',
  unknown_unit: 'readings.bad_unknown_unit',
  not_yes_or_no: 'readings.bad_not_yes_or_no',
  no_such_job: 'readings.bad_no_such_job',
  several_jobs: 'readings.bad_several_jobs',
  no_such_bore: 'readings.bad_no_such_bore',
  no_such_test_point: 'readings.bad_no_such_test_point',
  test_of_another: 'readings.bad_test_of_another',
  differs_from_record: 'readings.bad_differs_from_record',
  findings: 'readings.bad_findings',
} as const satisfies Record<RowProblem, MessageKey>;

/** Units that a gauge may log in; the core knows the same ones by these signs. */
export const LOGGED_UNITS = ['inHg', 'kPa', 'hPa', 'mbar', 'bar', 'Pa', 'psi', 'mmHg', 'Torr'] as const;

/** Why a line can't be brought in. */
export function wrongWords({ line, problem, cell, findings }: WrongRow): string {
  const found = findings.map((finding) => findingShown(finding, 'vacuum').text).join(' ');
  return t('readings.wrong_line', { line, why: tLoose(PROBLEM_WORDS[problem], { cell, found }) });
}
