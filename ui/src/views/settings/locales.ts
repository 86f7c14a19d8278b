import { settings } from '$lib/settings/settings.svelte';

/** One of each way to write numbers and days, offered beside the device's own. */
export const LOCALES = ['en-US', 'en-GB', 'es-ES', 'es-MX', 'fr-FR', 'de-DE', 'de-CH'] as const;

/** A locale's name in the language shown, e.g. "German (Switzerland)". */
export function localeName(locale: string): string {
  return new Intl.DisplayNames(settings.locale, { type: 'language' }).of(locale) ?? locale;
}
