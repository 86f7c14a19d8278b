import { t } from '$lib/messages';
import type { ShownFinding } from '../../components/shared';
import type { Whole } from './money';

/**
 * Why an amount can't be read, at its field. What isn't a number is told by the field itself as it
 * is typed.
 */
export function unreadFinding(
  why: Exclude<Whole, { ok: true }>['why'] | undefined,
  text = t('handover.amount_decimals'),
): ShownFinding[] {
  if (why === 'empty') return [{ severity: 'blocking', text: t('handover.amount_needed') }];
  if (why === 'too_many_decimals') return [{ severity: 'blocking', text }];
  return [];
}
