import { parseTyped } from '$lib/quantity/parse';
import { type Entry, storedEntry } from '$lib/quantity/entry';
import { showNumber } from '$lib/quantity/show';
import { settings } from '$lib/settings/settings.svelte';

/** An amount as it is read. Whole numbers go in; digits of the currency come out. */
export function money(minor: number, decimals: number, currency: string): string {
  return `${showNumber(minor / 10 ** decimals, decimals)}\u00a0${currency.trim()}`;
}

/** A whole number of parts (`places` decimal places each) without the zeros at its end. */
export function partsShown(value: number, places: number): string {
  const digits = String(Math.abs(value)).padStart(places + 1, '0');
  const used = digits.slice(-places).replace(/0+$/, '').length;
  return showNumber(value / 10 ** places, used);
}

/** A whole number of smallest units as an entry to type over. */
export function moneyEntry(minor: number | null | undefined, decimals: number): Entry {
  if (typeof minor !== 'number') return { text: '', unit: 'money', storedSi: null };
  const shown = storedEntry(minor / 10 ** decimals, 'money', settings.locale);
  // As text alone: an amount is read again from its digits, never from a float.
  return { ...shown, storedSi: null };
}

export type Whole =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly why: 'empty' | 'unreadable' | 'too_many_decimals' };

/**
 * What was typed, as a whole number of parts with so many decimal places. Digit by digit: no float
 * comes in between, so 1.15 are 115 hundredths and nothing else.
 */
export function wholeOf(entry: Entry, places: number, signed = true): Whole {
  const parsed = parseTyped(entry.text, entry.unit, settings.locale, signed);
  if (!parsed.ok) {
    return { ok: false, why: parsed.finding.code === 'empty' ? 'empty' : 'unreadable' };
  }
  const { decimal } = parsed.asTyped;
  const [whole = '0', fraction = ''] = decimal.replace('-', '').split('.');
  const used = fraction.replace(/0+$/, '');
  if (used.length > places) return { ok: false, why: 'too_many_decimals' };
  const value = Number(whole + used.padEnd(places, '0'));
  return { ok: true, value: decimal.startsWith('-') && value !== 0 ? -value : value };
}
