import { settings } from '$lib/settings/settings.svelte';
import { en } from './en';
import { type ArgumentNames, type Arguments, fill } from './format';

/** A catalogue: one text for each key. A second language is one more of these. */
export type Catalogue = Readonly<Record<MessageKey, string>>;
export type MessageKey = keyof typeof en;

type NamesIn<Key extends MessageKey> = ArgumentNames<(typeof en)[Key]>;
/** Keys whose text takes no arguments: those that can be passed around as words. */
export type PlainKey = { [Key in MessageKey]: [NamesIn<Key>] extends [never] ? Key : never }[MessageKey];

const catalogues: Readonly<Record<string, Catalogue>> = { en };

function catalogueFor(locale: string): Catalogue {
  return catalogues[locale.split('-')[0] ?? 'en'] ?? en;
}

/** The words of a key in the current language, its arguments checked by the compiler. */
export function t<Key extends MessageKey>(
  key: Key,
  ...values: [NamesIn<Key>] extends [never]
    ? []
    : [Readonly<Record<NamesIn<Key>, string | number>>]
): string {
  return fill(catalogueFor(settings.locale)[key], settings.locale, values[0]);
}

/**
 * The words of a key that is only known at run time, as a finding from the core brings it.
 * Arguments that the text needs and did not get would throw, so the text itself is shown then.
 */
export function tLoose(key: MessageKey, values: Arguments): string {
  const text = catalogueFor(settings.locale)[key];
  try {
    return fill(text, settings.locale, values);
  } catch {
    return text;
  }
}

const dateFormats = new Map<string, Intl.DateTimeFormat>();

/** Making one takes far longer than formatting with it, and a list has one in each row. */
function dateFormat(timeStyle?: 'short'): Intl.DateTimeFormat {
  const key = `${settings.locale} ${timeStyle ?? ''}`;
  let format = dateFormats.get(key);
  if (!format) {
    format = new Intl.DateTimeFormat(settings.locale, { dateStyle: 'medium', timeStyle });
    dateFormats.set(key, format);
  }
  return format;
}

/** A date and time of day, short, in the locale. */
export function formatMoment(moment: Date): string {
  return dateFormat('short').format(moment);
}

/** A calendar day in the locale. */
export function formatDay(moment: Date): string {
  return dateFormat().format(moment);
}

/** A share as a percentage: 0.93 is "93 %" or "93%", as the locale has it. */
export function formatShare(share: number, decimals = 0): string {
  return new Intl.NumberFormat(settings.locale, {
    style: 'percent',
    maximumFractionDigits: decimals,
  }).format(share);
}
