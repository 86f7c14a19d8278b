/** One of each way to write numbers and days, offered beside the device's own. */
export const LOCALES = ['en-US', 'en-GB', 'es-ES', 'es-MX', 'fr-FR', 'de-DE', 'de-CH'] as const;

/** A locale's name in the language of the page's words, e.g. "German (Germany)". */
export function localeName(locale: string): string {
  return new Intl.DisplayNames(document.documentElement.lang || 'en', { type: 'language' }).of(locale) ?? locale;
}
