/** Sizes as a reamer and a gauge ask for: one digit more than elsewhere, where a tolerance is two
 * thousandths of a millimetre. */
import { show, showInterval, unitHere } from '$lib/quantity/show';

const DIGITS = { length: { in: 5, mm: 4 }, clearance: { thou: 2, um: 1 } } as const;

function digits(quantity: 'length' | 'clearance'): number {
  const unit = unitHere(quantity);
  return (DIGITS[quantity] as Partial<Record<string, number>>)[unit] ?? 4;
}

export const fine = (si: number, quantity: 'length' | 'clearance'): string =>
  show(si, quantity, { decimals: digits(quantity) });

export const fineInterval = (low: number, high: number, quantity: 'length' | 'clearance') =>
  showInterval(low, high, quantity, { decimals: digits(quantity) });
