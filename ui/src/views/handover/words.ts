/** Every answer of the core about what is agreed, in words. Total: a new one breaks the build. */
import type {
  AlikeBy,
  AuthorisedHow,
  FaultAgain,
  FoundBy,
  HandoverView,
  OpenItem,
} from '$lib/generated/commands';
import { t, type PlainKey } from '$lib/messages';
import { REPAIR_OPTIONS } from '../../components/repair/words';
import { HAZARD_WORDS } from '../../components/shared/hazards';
import { CHECK_NAMES } from '../inspection/words';
import { money } from './money';

export const HOW = {
  in_person: 'handover.how.in_person',
  by_phone: 'handover.how.by_phone',
  in_writing: 'handover.how.in_writing',
} as const satisfies Record<AuthorisedHow, PlainKey>;

/** The same as an answer of its own. */
export const HOW_CHOICES = {
  in_person: 'handover.how_choice.in_person',
  by_phone: 'handover.how_choice.by_phone',
  in_writing: 'handover.how_choice.in_writing',
} as const satisfies Record<AuthorisedHow, PlainKey>;

export const FAULT = {
  same: 'comeback.fault.same',
  different: 'comeback.fault.different',
  not_known: 'comeback.fault.not_known',
} as const satisfies Record<FaultAgain, PlainKey>;

export const FOUND_BY = {
  customer: 'comeback.found_by.customer',
  this_shop: 'comeback.found_by.this_shop',
  another_shop: 'comeback.found_by.another_shop',
} as const satisfies Record<FoundBy, PlainKey>;

export const ALIKE_BY = {
  plate: 'comeback.by.plate',
  vehicle: 'comeback.by.vehicle',
} as const satisfies Record<AlikeBy, PlainKey>;

/** The options of a choice, from a table of words. */
export const choices = <Value extends string>(words: Readonly<Record<Value, PlainKey>>) =>
  (Object.keys(words) as Value[]).map((value) => ({ value, label: t(words[value] as never) }));

function whatIsOpen(item: OpenItem, view: HandoverView): string {
  switch (item.open) {
    case 'bore_untested':
      return t('handover.open.bore_untested');
    case 'bore_outside_limit':
      return t('handover.open.bore_outside_limit');
    case 'repair_untested':
      return t('handover.open.repair_untested', { option: t(REPAIR_OPTIONS[item.option].label) });
    case 'check_left_out':
      return t('handover.open.check_left_out', { check: t(CHECK_NAMES[item.check]) });
    case 'caution_unread':
      return t('handover.open.caution_unread', { hazard: t(HAZARD_WORDS[item.hazard].title) });
    case 'estimate_unauthorised':
      return t('handover.open.estimate_unauthorised');
    case 'authorisation_not_here':
      return t('handover.open.authorisation_not_here');
    case 'estimate_changed':
      return t('handover.open.estimate_changed');
    case 'amount_exceeded': {
      const { currency = '', decimals = 0 } = view.estimate?.estimate ?? {};
      return t('handover.open.amount_exceeded', { amount: money(item.by_minor, decimals, currency) });
    }
    case 'other_currency':
      return t('handover.open.other_currency');
    case 'machining_unsigned':
      return t('handover.open.machining_unsigned');
  }
}

/** Something that is open, with its bore. */
export function openWords(item: OpenItem, view: HandoverView): string {
  const what = whatIsOpen(item, view);
  if (!('bore' in item)) return what;
  const bore = view.bores.find(({ id }) => id === item.bore)?.name ?? t('statistics.bore_unknown');
  return t('handover.at_bore', { bore, what });
}
