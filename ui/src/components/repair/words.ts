/** Every answer of the core about a relief or a repair, in words. Total: a new one breaks the build. */
import type {
  ClearanceSource,
  OpenPoint,
  RepairOption,
  Verdict,
  WindowAnswer,
} from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';
import type { Judgement } from '../shared/judgement';

export const REPAIR_OPTIONS = {
  cleaned: { label: 'repair.option.cleaned', note: 'repair.option.cleaned_note' },
  new_valve: { label: 'repair.option.new_valve', note: 'repair.option.new_valve_note' },
  sleeve_smaller_valve: {
    label: 'repair.option.sleeve_smaller_valve',
    note: 'repair.option.sleeve_smaller_valve_note',
  },
  reamed_oversize: {
    label: 'repair.option.reamed_oversize',
    note: 'repair.option.reamed_oversize_note',
  },
  relief_added: { label: 'repair.option.relief_added', note: 'repair.option.relief_added_note' },
  body_replaced: { label: 'repair.option.body_replaced', note: 'repair.option.body_replaced_note' },
  other: { label: 'repair.option.other', note: 'repair.option.other_note' },
  orifice_changed: {
    label: 'repair.option.orifice_changed',
    note: 'repair.option.orifice_changed_note',
  },
} as const satisfies Record<RepairOption, { readonly label: PlainKey; readonly note: PlainKey }>;

export const OPEN_POINTS = {
  no_test_before: 'repair.open.no_test_before',
  not_predicted: 'repair.open.not_predicted',
  predicted_outside_specification: 'repair.open.predicted_outside_specification',
  not_tested_again: 'repair.open.not_tested_again',
  after_not_judged: 'repair.open.after_not_judged',
  after_limit_not_met: 'repair.open.after_limit_not_met',
  after_outside_specification: 'repair.open.after_outside_specification',
  after_outside_prediction: 'repair.open.after_outside_prediction',
  after_not_decided: 'repair.open.after_not_decided',
  leak_remains: 'repair.open.leak_remains',
  oil_check_outside: 'repair.open.oil_check_outside',
  oil_check_open: 'repair.open.oil_check_open',
} as const satisfies Record<OpenPoint, PlainKey>;

export const WINDOW_ANSWERS = {
  inside: { words: 'relief.window.inside', mark: 'within' },
  below_regulation: { words: 'relief.window.below_regulation', mark: 'outside' },
  above_limit: { words: 'relief.window.above_limit', mark: 'outside' },
  unknown: { words: 'relief.window.unknown', mark: 'not_judged' },
} as const satisfies Record<WindowAnswer, { readonly words: PlainKey; readonly mark: Judgement }>;

export const CLEARANCE_SOURCES = {
  entered: 'relief.source.entered',
  last_test: 'relief.source.last_test',
} as const satisfies Record<ClearanceSource, PlainKey>;

/** What a hot-oil check says of the circuit. */
export const OIL_VERDICTS = {
  within_limit: 'oil.verdict.within_limit',
  too_close_to_call: 'oil.verdict.too_close_to_call',
  outside_limit: 'oil.verdict.outside_limit',
} as const satisfies Record<Verdict, PlainKey>;
