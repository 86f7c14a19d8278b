import { type Parsed, parseTyped, typeSi } from './parse';
import { type Quantity, type Unit, fromSi, isSigned, unitRow } from './units';

/**
 * A number field's content. Either typed text, or a stored value shown in some unit: changing the
 * unit of a stored value changes the text only, changing the unit of typed text says what was
 * meant by it.
 */
export interface Entry {
  readonly text: string;
  readonly unit: Unit;
  /** The stored value, as long as nobody typed over it. */
  readonly storedSi: number | null;
}

export function emptyEntry(unit: Unit): Entry {
  return { text: '', unit, storedSi: null };
}

/**
 * A stored value shown in a unit: two digits more than the unit is usually read to, so that
 * what was typed in this unit comes back as typed, and a conversion shows no noise. The value itself
 * stays whole beside its text.
 */
export function storedEntry(si: number, unit: Unit, locale: string): Entry {
  const decimals = Math.max(unitRow(unit).decimals + 2, 0);
  const shown = Number(fromSi(si, unit).toFixed(decimals));
  return { text: typeSi(shown, locale), unit, storedSi: si };
}

export function typeInto(entry: Entry, text: string): Entry {
  return { text, unit: entry.unit, storedSi: text === entry.text ? entry.storedSi : null };
}

export function changeUnit(entry: Entry, unit: Unit, locale: string): Entry {
  return entry.storedSi === null ? { ...entry, unit } : storedEntry(entry.storedSi, unit, locale);
}

/** The entry's value in SI, or what is wrong with it. */
export function readEntry(entry: Entry, quantity: Quantity, locale: string): Parsed {
  const parsed = parseTyped(entry.text, entry.unit, locale, isSigned(quantity));
  return parsed.ok && entry.storedSi !== null ? { ...parsed, si: entry.storedSi } : parsed;
}

/** Puts one key of the pad at the end of the text. A second decimal mark is not taken. */
export function pressKey(text: string, key: string, decimalMark: string): string {
  if (key === decimalMark) {
    if (text.includes(decimalMark)) return text;
    return /\d$/.test(text) ? text + key : `${text}0${key}`;
  }
  return text + key;
}

export function dropLast(text: string): string {
  return text.slice(0, -1);
}

export function flipSign(text: string): string {
  return /^[-\u2212]/.test(text) ? text.slice(1) : `\u2212${text}`;
}
