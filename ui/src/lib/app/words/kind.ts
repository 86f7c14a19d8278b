import type { UndoStep } from '$lib/generated/commands';
import { formatMoment, t, type PlainKey } from '$lib/messages';

/** Every kind of record that this program writes, in words. */
export const KIND_WORDS = {
  shop: 'kind.shop',
  person: 'kind.person',
  instrument: 'kind.instrument',
  stand: 'kind.stand',
  unit: 'kind.unit',
  circuit: 'kind.circuit',
  bore: 'kind.bore',
  land: 'kind.land',
  spring: 'kind.spring',
  opening: 'kind.opening',
  balance_orifice: 'kind.balance_orifice',
  relief: 'kind.relief',
  tap: 'kind.tap',
  clutch: 'kind.clutch',
  removal: 'kind.removal',
  test_point: 'kind.test_point',
  job: 'kind.job',
  'job.vehicle': 'kind.job.vehicle',
  'job.complaint': 'kind.job.complaint',
  'job.notes': 'kind.job.notes',
  'job.customer': 'kind.job.customer',
  caution: 'kind.caution',
  test: 'kind.test',
  'test.setup': 'kind.test.setup',
  'test.stand_check': 'kind.test.stand_check',
  'test.blank': 'kind.test.blank',
  'test.reading': 'kind.test.reading',
  'test.decision': 'kind.test.decision',
  relief_check: 'kind.relief_check',
  repair: 'kind.repair',
  photo: 'kind.photo',
  erasure: 'kind.erasure',
  inspection: 'kind.inspection',
  inspection_plan: 'kind.inspection_plan',
  what_if: 'kind.what_if',
  shop_part: 'kind.shop_part',
  machining: 'kind.machining',
  'job.estimate': 'kind.job.estimate',
  'job.authorisation': 'kind.job.authorisation',
  'job.fitted': 'kind.job.fitted',
  'job.warranty': 'kind.job.warranty',
  'job.sign_off': 'kind.job.sign_off',
  'job.comeback': 'kind.job.comeback',
  tap_reading: 'kind.tap_reading',
  oil_check: 'kind.oil_check',
  void: 'kind.void',
} as const satisfies Record<string, PlainKey>;

export type Kind = keyof typeof KIND_WORDS;

/** A kind in words. One that a newer program wrote is named as such, not guessed at. */
export function kindWords(kind: string): string {
  return Object.hasOwn(KIND_WORDS, kind)
    ? t(KIND_WORDS[kind as Kind])
    : t('kind.unknown', { kind });
}

/** A change that undo or redo would touch: what, and when it was made. */
export function changeWords(step: UndoStep): string {
  return t('undo.step', { kind: kindWords(step.kind), moment: formatMoment(new Date(step.at)) });
}
