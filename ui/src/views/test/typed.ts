import { type Entry, type Quantity, UNITS, readEntry } from '$lib/quantity';
import { settings } from '$lib/settings/settings.svelte';

/** A number as a record takes it: SI, and the text it was typed as, with its unit. */
export interface Typed {
  readonly si: number;
  readonly asTyped: string | null;
}

/** What stands in a field; none while it can't be read. `before`: as typed when it was stored. */
export function typed(entry: Entry, quantity: Quantity, before?: string | null): Typed | undefined {
  const parsed = readEntry(entry, quantity, settings.locale);
  if (!parsed.ok) return undefined;
  if (entry.storedSi !== null) return { si: parsed.si, asTyped: before ?? null };
  return { si: parsed.si, asTyped: `${entry.text.trim()} ${UNITS[entry.unit].symbol}` };
}
