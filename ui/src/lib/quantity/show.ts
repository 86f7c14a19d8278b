/** The formatters bound to this device's units and locale: what a view calls. */
import { settings } from '$lib/settings/settings.svelte';
import * as plain from './format';
import { type Quantity, type Unit, shownUnit } from './units';

export function show(si: number, quantity: Quantity, options?: plain.FormatOptions): string {
  return plain.format(si, quantity, settings.units, settings.locale, options);
}

export function showWritten(
  si: number,
  quantity: Quantity,
  options?: plain.FormatOptions,
): plain.Written {
  return plain.write(si, quantity, settings.units, settings.locale, options);
}

export function showWithUncertainty(
  si: number,
  u: number,
  quantity: Quantity,
  options?: plain.FormatOptions,
): string {
  return plain.formatWithUncertainty(si, u, quantity, settings.units, settings.locale, options);
}

export function showInterval(
  low: number,
  high: number,
  quantity: Quantity,
  options?: plain.FormatOptions,
): plain.WrittenInterval {
  return plain.writeInterval(low, high, quantity, settings.units, settings.locale, options);
}

export function showNumber(value: number, decimals: number, signed = false): string {
  return plain.formatNumber(value, settings.locale, decimals, signed);
}

export function unitHere(quantity: Quantity): Unit {
  return shownUnit(quantity, settings.units);
}
