import type { FindingCode, TestView } from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';
import type { StepId } from './steps';

export interface Unjudged {
  readonly why: PlainKey;
  /** Where it can be put right, if it can be within the test. */
  readonly step?: StepId;
}

/** Why a test has no decision, by what it lacks first. */
export function whyUnjudged(view: TestView): Unjudged {
  const { judgement, setup } = view;
  if (!view.test_point.limit) return { why: 'test.unjudged.no_limit' };
  if (!setup) return { why: 'test.unjudged.no_setup', step: 'air' };
  if (setup.valve_position === 'valve_absent') {
    return { why: 'test.unjudged.valve_absent', step: 'setup' };
  }
  if (!view.stand_check) return { why: 'test.unjudged.no_check', step: 'check' };
  if (view.readings.length === 0) return { why: 'test.unjudged.no_readings', step: 'readings' };
  if (!judgement.readings) return { why: 'test.unjudged.reading_wrong' };
  const found = (code: FindingCode) => judgement.findings.some((finding) => finding.code === code);
  if (found('setup_differs')) return { why: 'test.unjudged.setup_differs', step: 'setup' };
  if (found('oiled_reads_deeper')) return { why: 'test.unjudged.oiled', step: 'setup' };
  return { why: 'test.unjudged.not_carried' };
}
