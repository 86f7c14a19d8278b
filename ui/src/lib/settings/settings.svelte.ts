import { INCH_UNITS, METRIC_UNITS, type UnitChoice } from '$lib/quantity/units';

export type Theme = 'light' | 'dark' | 'system';

/** What this person set on this device. Units and language change the showing, never the stored. */
class Settings {
  locale = $state('en-US');
  units = $state<UnitChoice>(INCH_UNITS);
  theme = $state<Theme>('system');
}

export const settings = new Settings();

/** Regions whose trade reads inches and psi; everywhere else starts metric. From memory. */
const INCH_REGIONS: readonly string[] = ['US', 'LR', 'MM'];

/** A locale's usual units, until the shop says otherwise. */
export function unitsForLocale(locale: string): UnitChoice {
  const region = new Intl.Locale(locale).maximize().region;
  return region !== undefined && INCH_REGIONS.includes(region) ? INCH_UNITS : METRIC_UNITS;
}

/** Takes the first of the device's languages that Intl knows. */
export function startLocale(languages: readonly string[]): string {
  return languages.flatMap(known)[0] ?? 'en-US';
}

function known(language: string): string[] {
  try {
    return Intl.NumberFormat.supportedLocalesOf(language);
  } catch {
    // Not every web view keeps to the standard's spelling: the plain POSIX locale comes as "C".
    return [];
  }
}
