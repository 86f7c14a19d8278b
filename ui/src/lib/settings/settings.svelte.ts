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

/** Takes the device's language, if it is one that Intl knows. */
export function startLocale(languages: readonly string[]): string {
  return Intl.NumberFormat.supportedLocalesOf([...languages])[0] ?? 'en-US';
}
