import { emptyEntry, readEntry, storedEntry, type Entry } from './entry';
import { unitHere } from './show';
import { UNITS, type Quantity } from './units';
import { settings } from '$lib/settings/settings.svelte';

/** A stored value, or none, as an entry in this device's unit. */
export function entryOf(si: number | null | undefined, quantity: Quantity): Entry {
  const unit = unitHere(quantity);
  return typeof si === 'number' ? storedEntry(si, unit, settings.locale) : emptyEntry(unit);
}

/** A stored value as its form would show it, with its unit: to all digits that were typed. */
export function showStored(si: number, quantity: Quantity): string {
  const { text, unit } = entryOf(si, quantity);
  return `${text}\u00a0${UNITS[unit].symbol}`;
}

/** The value of an entry in SI; null while it is empty, `unreadable` when it is no number. */
export function valueOf(entry: Entry, quantity: Quantity): number | null | 'unreadable' {
  const parsed = readEntry(entry, quantity, settings.locale);
  if (parsed.ok) return parsed.si;
  return parsed.finding.code === 'empty' ? null : 'unreadable';
}
