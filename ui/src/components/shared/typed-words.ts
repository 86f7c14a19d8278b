import { t } from '$lib/messages';
import type { TypedFinding } from '$lib/quantity';

/** A typed number's finding in words. */
export function typedFindingText(finding: TypedFinding): string {
  switch (finding.code) {
    case 'empty':
      return t('typed.empty');
    case 'not_a_number':
      return t('typed.not_a_number');
    case 'ambiguous_mark':
      return t('typed.ambiguous_mark', { grouped: finding.grouped, decimal: finding.decimal });
    case 'wrong_decimal_mark':
      return t('typed.wrong_decimal_mark', { expected: finding.expected });
    case 'negative':
      return t('typed.negative');
    case 'too_many_digits':
      return t('typed.too_many_digits', { limit: finding.limit });
  }
}
