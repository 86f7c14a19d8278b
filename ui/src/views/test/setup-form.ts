import type { Ambient, Setup, Surface, TestView, OrificePath, ValvePosition } from '$lib/generated/commands';
import { type Entry, type Unit, emptyEntry, fromSi, typeSi, unitRow } from '$lib/quantity';
import { unitHere } from '$lib/quantity/show';
import { settings } from '$lib/settings/settings.svelte';
import { typed } from './typed';

/** What is typed and chosen for the air and the set-up: two steps, one record. */
export interface SetupForm {
  by: string;
  barometer: Entry;
  altitude: Entry;
  temperature: Entry;
  /** True once the air was gone past: it waits for the set-up. */
  airHeld: boolean;
  valve: ValvePosition | '';
  orifice: OrificePath | '';
  surface: Surface | '';
}

/**
 * What the form starts with: what is on record, else the stand's place, else the shop's, and an
 * ordinary bench.
 */
export function setupForm(
  { setup, suggested }: TestView,
  shopAltitude_m: number | null = null,
): SetupForm {
  const stored = (si: number, quantity: 'barometer' | 'altitude' | 'temperature') =>
    roundedEntry(si, unitHere(quantity), settings.locale);
  const ofShop: Ambient | null =
    shopAltitude_m === null ? null : { by: 'altitude', altitude_m: shopAltitude_m };
  const ambient =
    setup?.ambient ?? (suggested.ambient_from_stand ? suggested.setup.ambient : ofShop);
  return {
    by: ambient?.by ?? 'barometer',
    barometer:
      ambient?.by === 'barometer'
        ? stored(ambient.pressure_pa, 'barometer')
        : emptyEntry(unitHere('barometer')),
    altitude:
      ambient?.by === 'altitude'
        ? stored(ambient.altitude_m, 'altitude')
        : emptyEntry(unitHere('altitude')),
    temperature: stored((setup ?? suggested.setup).air_temperature_k, 'temperature'),
    airHeld: false,
    valve: setup?.valve_position ?? '',
    orifice: setup?.orifice ?? '',
    surface: setup?.surface ?? '',
  };
}

/** A stored value shown to the digits its unit is read in; the value itself keeps them all. */
function roundedEntry(si: number, unit: Unit, locale: string): Entry {
  const { decimals } = unitRow(unit);
  const shown = Number(fromSi(si, unit).toFixed(Math.max(0, decimals)));
  return { text: typeSi(shown, locale), unit, storedSi: si };
}

export function ambientOf(form: SetupForm): Ambient | undefined {
  if (form.by === 'altitude') {
    const altitude = typed(form.altitude, 'altitude');
    return altitude && { by: 'altitude', altitude_m: altitude.si };
  }
  const pressure = typed(form.barometer, 'barometer');
  return pressure && { by: 'barometer', pressure_pa: pressure.si };
}

/** The set-up as a record takes it; none until all of it is answered. */
export function setupOf(form: SetupForm): Setup | undefined {
  const ambient = ambientOf(form);
  const temperature = typed(form.temperature, 'temperature');
  const { valve, orifice, surface } = form;
  if (!ambient || !temperature || valve === '' || orifice === '' || surface === '') return undefined;
  return {
    ambient,
    air_temperature_k: temperature.si,
    valve_position: valve,
    orifice,
    surface,
  };
}

/** The set-up to try before all is answered: the questions still open as they are suggested. */
export function setupToTry(form: SetupForm, suggested: Setup): Setup | undefined {
  return setupOf({
    ...form,
    valve: form.valve || suggested.valve_position,
    orifice: form.orifice || suggested.orifice,
    surface: form.surface || suggested.surface,
  });
}
