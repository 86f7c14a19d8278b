import type { Settings } from '$lib/generated/commands';
import type { UnitChoice } from '$lib/quantity';
import { settings, startLocale, unitsForLocale } from '$lib/settings/settings.svelte';

/** Units as the formatters name them. */
export function unitsOf(choice: Settings): UnitChoice {
  return {
    pressure: choice.pressure,
    vacuum: choice.vacuum,
    length: choice.length,
    force: choice.force,
    temperature: choice.temperature === '°F' ? 'F' : 'C',
  };
}

/** Shows everything as this device's settings say, from now on. Nothing stored changes. */
export function showSettings(choice: Settings): void {
  settings.units = unitsOf(choice);
  settings.theme = choice.theme;
  settings.locale = startLocale(choice.locale ? [choice.locale] : navigator.languages);
}

/** The two usual choices, as settings name them. */
export function settingsOf(units: UnitChoice): Omit<Settings, 'locale' | 'theme'> {
  return {
    pressure: units.pressure,
    vacuum: units.vacuum,
    length: units.length,
    force: units.force,
    temperature: units.temperature === 'F' ? '°F' : '°C',
  };
}

/** Units as the country of this device reads them. */
export const usualUnits = () => settingsOf(unitsForLocale(settings.locale));
