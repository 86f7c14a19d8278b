/**
 * Units people read and type, with exact factors to SI.
 *
 * Factors: inch 0.0254 m, pound-force 4.4482216152605 N, US gallon 231 in³, foot 0.3048 m,
 * conventional inch of mercury at 0 °C 3386.388640341 Pa (NIST SP 811, appendix B; mercury
 * 13595.1 kg/m³ and standard gravity 9.80665 m/s²).
 */

const INCH = 0.0254;
const POUND_FORCE = 4.4482216152605;
const FOOT = 0.3048;

interface UnitRow {
  /** What stands behind the number. */
  readonly symbol: string;
  /** SI = (value + offset) × factor. */
  readonly factor: number;
  readonly offset?: number;
  /** Decimals that a reading in this unit is usually given with. */
  readonly decimals: number;
}

export const UNITS = {
  psi: { symbol: 'psi', factor: POUND_FORCE / (INCH * INCH), decimals: 1 },
  kPa: { symbol: 'kPa', factor: 1e3, decimals: 0 },
  bar: { symbol: 'bar', factor: 1e5, decimals: 2 },
  hPa: { symbol: 'hPa', factor: 100, decimals: 0 },
  inHg: { symbol: 'inHg', factor: 3386.388640341, decimals: 1 },
  vacuum_kPa: { symbol: 'kPa', factor: 1e3, decimals: 1 },
  barometer_inHg: { symbol: 'inHg', factor: 3386.388640341, decimals: 2 },
  barometer_kPa: { symbol: 'kPa', factor: 1e3, decimals: 1 },
  in: { symbol: 'in', factor: INCH, decimals: 4 },
  mm: { symbol: 'mm', factor: 1e-3, decimals: 4 },
  thou: { symbol: 'thou', factor: INCH * 1e-3, decimals: 1 },
  um: { symbol: 'µm', factor: 1e-6, decimals: 0 },
  m: { symbol: 'm', factor: 1, decimals: 0 },
  ft: { symbol: 'ft', factor: FOOT, decimals: 0 },
  km: { symbol: 'km', factor: 1e3, decimals: 0 },
  mi: { symbol: 'mi', factor: 5280 * FOOT, decimals: 0 },
  lbf: { symbol: 'lbf', factor: POUND_FORCE, decimals: 1 },
  N: { symbol: 'N', factor: 1, decimals: 1 },
  lbf_per_in: { symbol: 'lbf/in', factor: POUND_FORCE / INCH, decimals: 1 },
  N_per_mm: { symbol: 'N/mm', factor: 1e3, decimals: 2 },
  lbf_ft: { symbol: 'lbf·ft', factor: POUND_FORCE * FOOT, decimals: 0 },
  N_m: { symbol: 'N·m', factor: 1, decimals: 0 },
  in2: { symbol: 'in²', factor: INCH * INCH, decimals: 3 },
  mm2: { symbol: 'mm²', factor: 1e-6, decimals: 1 },
  thou3: { symbol: 'thou³', factor: (INCH * 1e-3) ** 3, decimals: 2 },
  um3: { symbol: 'µm³', factor: 1e-18, decimals: -2 },
  mbar_L_per_s: { symbol: 'mbar·L/s', factor: 0.1, decimals: 1 },
  celsius: { symbol: '°C', factor: 1, offset: 273.15, decimals: 0 },
  fahrenheit: { symbol: '°F', factor: 5 / 9, offset: 459.67, decimals: 0 },
  celsius_step: { symbol: '°C', factor: 1, decimals: 0 },
  fahrenheit_step: { symbol: '°F', factor: 5 / 9, decimals: 0 },
  L_per_min: { symbol: 'L/min', factor: 1e-3 / 60, decimals: 2 },
  mL_per_min: { symbol: 'mL/min', factor: 1e-6 / 60, decimals: 0 },
  gal_per_min: { symbol: 'gal/min', factor: (231 * INCH ** 3) / 60, decimals: 2 },
  in3_per_min: { symbol: 'in³/min', factor: INCH ** 3 / 60, decimals: 1 },
  dm3_per_s_bar: { symbol: 'dm³/(s·bar)', factor: 1e-8, decimals: 4 },
  mPa_s: { symbol: 'mPa·s', factor: 1e-3, decimals: 1 },
  mm2_per_s: { symbol: 'mm²/s', factor: 1e-6, decimals: 1 },
  kg_per_m3: { symbol: 'kg/m³', factor: 1, decimals: 0 },
  g: { symbol: 'g', factor: 1e-3, decimals: 1 },
  ohm: { symbol: 'Ω', factor: 1, decimals: 2 },
  s: { symbol: 's', factor: 1, decimals: 1 },
  count: { symbol: '', factor: 1, decimals: 0 },
  percent: { symbol: '%', factor: 0.01, decimals: 0 },
  ratio: { symbol: '', factor: 1, decimals: 2 },
  money: { symbol: '', factor: 1, decimals: 2 },
} as const satisfies Record<string, UnitRow>;

export type Unit = keyof typeof UNITS;

/** The row of a unit, widened so that an absent offset reads as such. */
export function unitRow(unit: Unit): UnitRow {
  return UNITS[unit];
}

/** The five choices a shop makes. Everything else follows from them. */
export interface UnitChoice {
  readonly pressure: 'psi' | 'kPa' | 'bar';
  readonly vacuum: 'inHg' | 'kPa';
  readonly length: 'in' | 'mm';
  readonly force: 'lbf' | 'N';
  readonly temperature: 'F' | 'C';
}

export const UNIT_OPTIONS: { readonly [K in keyof UnitChoice]: readonly UnitChoice[K][] } = {
  pressure: ['psi', 'kPa', 'bar'],
  vacuum: ['inHg', 'kPa'],
  length: ['in', 'mm'],
  force: ['lbf', 'N'],
  temperature: ['F', 'C'],
};

export const INCH_UNITS: UnitChoice = {
  pressure: 'psi',
  vacuum: 'inHg',
  length: 'in',
  force: 'lbf',
  temperature: 'F',
};

export const METRIC_UNITS: UnitChoice = {
  pressure: 'kPa',
  vacuum: 'kPa',
  length: 'mm',
  force: 'N',
  temperature: 'C',
};

interface QuantityRow {
  /** Units one can type it in; the first that the shop's choice names is shown. */
  readonly units: readonly Unit[];
  readonly shown: (choice: UnitChoice) => Unit;
  /** Whether a minus sign can be meant. */
  readonly signed: boolean;
}

const byLength =
  (inch: Unit, metric: Unit) =>
  (choice: UnitChoice): Unit =>
    choice.length === 'in' ? inch : metric;

/** Kinds of quantity. Pressure is above ambient; vacuum is below ambient and counted positive. */
export const QUANTITIES = {
  pressure: { units: ['psi', 'kPa', 'bar'], shown: (c) => c.pressure, signed: false },
  pressure_shift: { units: ['psi', 'kPa', 'bar'], shown: (c) => c.pressure, signed: true },
  vacuum: {
    units: ['inHg', 'vacuum_kPa'],
    shown: (c) => (c.vacuum === 'inHg' ? 'inHg' : 'vacuum_kPa'),
    signed: false,
  },
  barometer: {
    units: ['barometer_inHg', 'hPa', 'barometer_kPa'],
    shown: (c) => (c.vacuum === 'inHg' ? 'barometer_inHg' : 'hPa'),
    signed: false,
  },
  length: { units: ['in', 'mm'], shown: (c) => c.length, signed: false },
  displacement: { units: ['in', 'mm'], shown: (c) => c.length, signed: true },
  clearance: { units: ['thou', 'um'], shown: byLength('thou', 'um'), signed: false },
  altitude: { units: ['ft', 'm'], shown: byLength('ft', 'm'), signed: true },
  distance: { units: ['mi', 'km'], shown: byLength('mi', 'km'), signed: false },
  force: { units: ['lbf', 'N'], shown: (c) => c.force, signed: false },
  spring_rate: {
    units: ['lbf_per_in', 'N_per_mm'],
    shown: (c) => (c.force === 'lbf' ? 'lbf_per_in' : 'N_per_mm'),
    signed: false,
  },
  torque: {
    units: ['lbf_ft', 'N_m'],
    shown: (c) => (c.force === 'lbf' ? 'lbf_ft' : 'N_m'),
    signed: true,
  },
  area: { units: ['in2', 'mm2'], shown: byLength('in2', 'mm2'), signed: false },
  temperature: {
    units: ['fahrenheit', 'celsius'],
    shown: (c) => (c.temperature === 'F' ? 'fahrenheit' : 'celsius'),
    signed: true,
  },
  temperature_step: {
    units: ['fahrenheit_step', 'celsius_step'],
    shown: (c) => (c.temperature === 'F' ? 'fahrenheit_step' : 'celsius_step'),
    signed: true,
  },
  flow: {
    units: ['L_per_min', 'gal_per_min'],
    shown: byLength('gal_per_min', 'L_per_min'),
    signed: false,
  },
  leak_flow: {
    units: ['in3_per_min', 'mL_per_min'],
    shown: byLength('in3_per_min', 'mL_per_min'),
    signed: true,
  },
  gap_factor: { units: ['thou3', 'um3'], shown: byLength('thou3', 'um3'), signed: false },
  pv_flow: { units: ['mbar_L_per_s'], shown: () => 'mbar_L_per_s', signed: false },
  viscosity: { units: ['mPa_s'], shown: () => 'mPa_s', signed: false },
  /** By ISO 6358, as certificates give it. */
  sonic_conductance: { units: ['dm3_per_s_bar'], shown: () => 'dm3_per_s_bar', signed: false },
  pumping_speed: { units: ['L_per_min'], shown: () => 'L_per_min', signed: false },
  kinematic_viscosity: { units: ['mm2_per_s'], shown: () => 'mm2_per_s', signed: false },
  density: { units: ['kg_per_m3'], shown: () => 'kg_per_m3', signed: false },
  mass: { units: ['g'], shown: () => 'g', signed: false },
  resistance: { units: ['ohm'], shown: () => 'ohm', signed: false },
  duration: { units: ['s'], shown: () => 's', signed: false },
  count: { units: ['count'], shown: () => 'count', signed: false },
  share: { units: ['percent'], shown: () => 'percent', signed: false },
  share_shift: { units: ['percent'], shown: () => 'percent', signed: true },
  ratio: { units: ['ratio'], shown: () => 'ratio', signed: false },
  /** An amount in a currency, whose name stands beside it. */
  money: { units: ['money'], shown: () => 'money', signed: true },
} as const satisfies Record<string, QuantityRow>;

export type Quantity = keyof typeof QUANTITIES;

export function unitsOf(quantity: Quantity): readonly Unit[] {
  return QUANTITIES[quantity].units;
}

/** The unit in which a shop reads this quantity. */
export function shownUnit(quantity: Quantity, choice: UnitChoice): Unit {
  return (QUANTITIES[quantity] as QuantityRow).shown(choice);
}

export function isSigned(quantity: Quantity): boolean {
  return QUANTITIES[quantity].signed;
}

/** A number in `unit` as SI. */
export function toSi(value: number, unit: Unit): number {
  const row = unitRow(unit);
  return (value + (row.offset ?? 0)) * row.factor;
}

/** An SI number in `unit`. */
export function fromSi(si: number, unit: Unit): number {
  const row = unitRow(unit);
  return si / row.factor - (row.offset ?? 0);
}
