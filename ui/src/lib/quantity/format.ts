import { type Quantity, type Unit, type UnitChoice, fromSi, shownUnit, unitRow } from './units';

/** A number as written, and the unit beside it, apart so that the unit can be set small. */
export interface Written {
  readonly number: string;
  readonly unit: string;
}

export interface FormatOptions {
  /** Decimals, where the unit's usual ones don't fit. */
  readonly decimals?: number;
  /** Show a plus sign before a positive number: a shift, a difference. */
  readonly signed?: boolean;
  /** The unit, where it is not the one that the shop's choice gives. */
  readonly unit?: Unit;
}

const NARROW_SPACE = '\u00a0';
const formatters = new Map<string, Intl.NumberFormat>();

/** A plain number in the locale's digits, grouped; a minus is the true minus sign. */
export function formatNumber(
  value: number,
  locale: string,
  decimals: number,
  signed = false,
): string {
  // Negative decimals: round to tens, hundreds, …
  const step = decimals < 0 ? 10 ** -decimals : 1;
  const rounded = Math.round(value / step) * step;
  const shown = decimals < 0 ? rounded : value;
  const digits = Math.max(0, decimals);
  const key = `${locale} ${digits} ${signed}`;
  let format = formatters.get(key);
  if (!format) {
    format = new Intl.NumberFormat(locale, {
      numberingSystem: 'latn',
      minimumFractionDigits: digits,
      maximumFractionDigits: digits,
      signDisplay: signed ? 'exceptZero' : 'negative',
    });
    formatters.set(key, format);
  }
  return format.format(shown).replace('-', '\u2212');
}

/** An SI value in the shop's unit, as number and unit apart. */
export function write(
  si: number,
  quantity: Quantity,
  units: UnitChoice,
  locale: string,
  options: FormatOptions = {},
): Written {
  const unit = options.unit ?? shownUnit(quantity, units);
  const decimals = options.decimals ?? unitRow(unit).decimals;
  return {
    number: formatNumber(fromSi(si, unit), locale, decimals, options.signed),
    unit: unitRow(unit).symbol,
  };
}

const joined = (number: string, unit: string) => `${number}${NARROW_SPACE}${unit}`;

/** An SI value in the shop's unit: "23.5 inHg". */
export function format(
  si: number,
  quantity: Quantity,
  units: UnitChoice,
  locale: string,
  options: FormatOptions = {},
): string {
  const written = write(si, quantity, units, locale, options);
  return joined(written.number, written.unit);
}

/**
 * Decimals for an uncertainty, and so for the value beside it.
 *
 * Rule of the Particle Data Group (Review of Particle Physics, introduction, "Rounding"): with the
 * three highest digits from 100 to 354 two digits are kept, from 355 to 949 one, from 950 to 999
 * it rounds up to 1000 and two are kept.
 */
export function uncertaintyDecimals(u: number): number {
  const size = Math.abs(u);
  if (!(size > 0) || !Number.isFinite(size)) return 0;
  let exponent = Math.floor(Math.log10(size));
  let head = Math.round((size / 10 ** exponent) * 100);
  if (head >= 1000) {
    head = 100;
    exponent += 1;
  }
  // From 950 the number is rounded up to the next power of ten and keeps two digits, which is the
  // same decimal as one digit below it.
  return head <= 354 ? 1 - exponent : 0 - exponent;
}

/** The size of `si` as a difference in `unit`: an offset (°F) has no part in it. */
function differenceIn(si: number, unit: Unit): number {
  return si / unitRow(unit).factor;
}

/** "15.9 ± 0.4", digits matched, with the unit apart. `u` is in SI, as a difference. */
export function writeWithUncertainty(
  si: number,
  u: number,
  quantity: Quantity,
  units: UnitChoice,
  locale: string,
  options: FormatOptions = {},
): Written {
  const unit = options.unit ?? shownUnit(quantity, units);
  const spread = Math.abs(differenceIn(u, unit));
  const row = unitRow(unit);
  const decimals = spread > 0 ? Math.min(uncertaintyDecimals(spread), row.decimals + 2) : row.decimals;
  const value = formatNumber(fromSi(si, unit), locale, decimals, options.signed);
  return { number: `${value} ± ${formatNumber(spread, locale, decimals)}`, unit: row.symbol };
}

/** "15.9 ± 0.4 inHg". */
export function formatWithUncertainty(
  si: number,
  u: number,
  quantity: Quantity,
  units: UnitChoice,
  locale: string,
  options: FormatOptions = {},
): string {
  const written = writeWithUncertainty(si, u, quantity, units, locale, options);
  return joined(written.number, written.unit);
}

/** The two ends of an interval as written, rounded outward so that it never looks narrower. */
export interface WrittenInterval {
  readonly low: string;
  readonly high: string;
  readonly unit: string;
}

/** Rounding noise that must not push an end outward by a whole last digit. */
const NOISE = 1e-6;

/** Up to a width of a thousand the ones stay: outward to the tens would blow 1 to 43 up to 0 to 50. */
function intervalDecimals(width: number): number {
  const decimals = uncertaintyDecimals(width);
  return width < 1000 ? Math.max(decimals, 0) : decimals;
}

export function writeInterval(
  lowSi: number,
  highSi: number,
  quantity: Quantity,
  units: UnitChoice,
  locale: string,
  options: FormatOptions = {},
): WrittenInterval {
  const unit = options.unit ?? shownUnit(quantity, units);
  const row = unitRow(unit);
  const low = fromSi(Math.min(lowSi, highSi), unit);
  const high = fromSi(Math.max(lowSi, highSi), unit);
  const width = high - low;
  const decimals =
    options.decimals ??
    (width > 0 ? Math.min(intervalDecimals(width), row.decimals + 1) : row.decimals);
  const step = 10 ** -decimals;
  return {
    low: formatNumber(Math.floor(low / step + NOISE) * step, locale, decimals, options.signed),
    high: formatNumber(Math.ceil(high / step - NOISE) * step, locale, decimals, options.signed),
    unit: row.symbol,
  };
}
