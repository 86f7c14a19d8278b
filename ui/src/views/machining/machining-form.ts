import type {
  MachinedSize,
  MachiningSheet,
  MachiningStep,
  MachiningWay,
  Material,
  RepairWork,
} from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';
import type { Entry, Quantity } from '$lib/quantity';
import { entryOf, valueOf } from '$lib/quantity/entered';

interface Asked {
  readonly label: PlainKey;
  readonly quantity: Quantity;
  readonly note?: PlainKey;
}

/** Every figure of a sheet. */
export const SHEET_NUMBERS = {
  start_smallest_m: { label: 'machining.start_smallest', quantity: 'length' },
  start_largest_m: { label: 'machining.start_largest', quantity: 'length' },
  unworn_m: { label: 'machining.unworn', quantity: 'length' },
  pilot_m: { label: 'machining.pilot', quantity: 'length' },
  pilot_tolerance_m: { label: 'machining.pilot_tolerance', quantity: 'clearance' },
  most_pilot_play_m: { label: 'machining.most_play', quantity: 'clearance' },
  depth_m: { label: 'machining.depth', quantity: 'length' },
  most_rough_stock_m: { label: 'machining.most_rough', quantity: 'clearance' },
  most_finish_stock_m: { label: 'machining.most_finish', quantity: 'clearance' },
  least_finish_stock_m: { label: 'machining.least_finish', quantity: 'clearance' },
  finished_nominal_m: { label: 'machining.nominal', quantity: 'length' },
  finished_low_m: {
    label: 'machining.low',
    quantity: 'length',
    note: 'machining.by_class_note',
  },
  finished_high_m: {
    label: 'machining.high',
    quantity: 'length',
    note: 'machining.by_class_note',
  },
  sleeve_outer_m: { label: 'machining.sleeve_outer', quantity: 'length' },
  sleeve_outer_tolerance_m: { label: 'machining.sleeve_outer_tolerance', quantity: 'clearance' },
  sleeve_inner_m: { label: 'machining.sleeve_inner', quantity: 'length' },
  sleeve_inner_tolerance_m: { label: 'machining.sleeve_inner_tolerance', quantity: 'clearance' },
  sleeve_length_m: { label: 'machining.sleeve_length', quantity: 'length' },
  valve_m: { label: 'machining.valve', quantity: 'length' },
  valve_tolerance_m: { label: 'machining.valve_tolerance', quantity: 'clearance' },
  wall_m: { label: 'machining.wall_m', quantity: 'length' },
  least_wall_m: { label: 'machining.least_wall', quantity: 'length' },
  bolt_torque_nm: { label: 'machining.bolt_torque', quantity: 'torque' },
} as const satisfies Record<string, Asked>;

export type SheetNumber = keyof typeof SHEET_NUMBERS;
const NUMBERS = Object.keys(SHEET_NUMBERS) as SheetNumber[];

export const STOCK_NUMBERS = [
  'most_rough_stock_m',
  'most_finish_stock_m',
  'least_finish_stock_m',
] as const satisfies readonly SheetNumber[];

const TEXTS = [
  'pilot_source',
  'stock_source',
  'finished_class',
  'least_wall_source',
  'plug',
  'bolt_sequence',
  'bolt_source',
  'notes',
] as const satisfies readonly (keyof MachiningSheet)[];
export type SheetText = (typeof TEXTS)[number];

export interface CutForm {
  reamer: string;
  diameter: Entry;
  tolerance: Entry;
  finishing: 'yes' | 'no';
}

export interface MeasurementForm {
  size: MachinedSize;
  read: Entry;
  temperature: Entry;
  instrument: string;
  /** After which cut of the form: of one after a cut; none: not said, or that cut was removed. */
  cut?: number | undefined;
}

/** What the form holds, as typed. */
export interface MachiningForm {
  way: MachiningWay;
  numbers: Record<SheetNumber, Entry>;
  texts: Record<SheetText, string>;
  /** Empty: as the body. */
  sleeve_material: Material | '';
  /** Empty: not said. */
  seat: 'slip' | 'press' | '';
  cuts: CutForm[];
  done: MachiningStep[];
  measurements: MeasurementForm[];
  /** The repair that it belongs to, as the option planned it; kept as it came. */
  planned: string;
}

/** How a size is read. */
export const sizeQuantity = (size: MachinedSize): Quantity =>
  size === 'port_offset' ? 'displacement' : 'length';

export function emptyCut(): CutForm {
  return {
    reamer: '',
    diameter: entryOf(null, 'length'),
    tolerance: entryOf(null, 'clearance'),
    finishing: 'yes',
  };
}

export function emptyMeasurement(
  size: MachinedSize,
  like?: MeasurementForm,
  cut?: number,
): MeasurementForm {
  return {
    size,
    cut,
    read: entryOf(null, sizeQuantity(size)),
    temperature: like?.temperature ?? entryOf(null, 'temperature'),
    instrument: like?.instrument ?? '',
  };
}

/** Takes a cut off the sheet. What was read after it stays, and says no cut any more. */
export function removeCut(form: Pick<MachiningForm, 'cuts' | 'measurements'>, at: number): void {
  form.cuts.splice(at, 1);
  for (const measured of form.measurements) {
    if (measured.cut === undefined || measured.cut < at) continue;
    measured.cut = measured.cut === at ? undefined : measured.cut - 1;
  }
}

/**
 * The cuts after which the bore is measured, by their places in the form: those that rough, and
 * those that something was read after.
 */
export function cutsMeasured(form: Pick<MachiningForm, 'cuts' | 'measurements'>): number[] {
  const read = new Set(form.measurements.filter(isAfterCut).map(({ cut }) => cut));
  return [...form.cuts.keys()].filter(
    (at) => form.cuts[at]?.finishing === 'no' || read.has(at),
  );
}

export const isAfterCut = ({ size }: MeasurementForm): boolean => size === 'after_cut';

export function machiningForm(sheet: MachiningSheet): MachiningForm {
  const numbers = NUMBERS.map((name) => [
    name,
    entryOf(sheet[name], SHEET_NUMBERS[name].quantity),
  ]);
  const onSheet = (cut: number | null | undefined): cut is number =>
    typeof cut === 'number' && cut < (sheet.cuts ?? []).length;
  return {
    way: sheet.way ?? 'ream',
    numbers: Object.fromEntries(numbers) as MachiningForm['numbers'],
    texts: Object.fromEntries(TEXTS.map((name) => [name, sheet[name] ?? ''])) as MachiningForm['texts'],
    sleeve_material: sheet.sleeve_material ?? '',
    seat: sheet.seat ?? '',
    cuts: (sheet.cuts ?? []).map((cut) => ({
      reamer: cut.reamer ?? '',
      diameter: entryOf(cut.diameter_m, 'length'),
      tolerance: entryOf(cut.tolerance_m, 'clearance'),
      finishing: cut.finishing ? 'yes' : 'no',
    })),
    done: sheet.done ?? [],
    measurements: (sheet.measurements ?? []).map((measured) => ({
      size: measured.size,
      read: entryOf(measured.read_m, sizeQuantity(measured.size)),
      temperature: entryOf(measured.temperature_k, 'temperature'),
      instrument: measured.instrument ?? '',
      cut: onSheet(measured.cut) ? measured.cut : undefined,
    })),
    planned: sheet.planned ? JSON.stringify(sheet.planned) : '',
  };
}

export interface SheetEntered {
  readonly sheet: MachiningSheet;
  readonly unreadable: boolean;
  /** Where each cut of the form stands in the sheet; none while it lacks a figure. */
  readonly cutAt: readonly (number | undefined)[];
  readonly measuredAt: readonly (number | undefined)[];
}

/** The sheet as the core takes it. A cut or a measurement that lacks its figure waits. */
export function sheetOf(form: MachiningForm): SheetEntered {
  let unreadable = false;
  const read = (entry: Entry, quantity: Quantity): number | null => {
    const value = valueOf(entry, quantity);
    if (value === 'unreadable') {
      unreadable = true;
      return null;
    }
    return value;
  };
  const cuts: NonNullable<MachiningSheet['cuts']> = [];
  const cutAt = form.cuts.map((cut) => {
    const diameter = read(cut.diameter, 'length');
    const tolerance = read(cut.tolerance, 'clearance');
    if (diameter === null) return undefined;
    cuts.push({
      reamer: cut.reamer.trim(),
      diameter_m: diameter,
      tolerance_m: tolerance ?? 0,
      finishing: cut.finishing === 'yes',
    });
    return cuts.length - 1;
  });
  const measurements: NonNullable<MachiningSheet['measurements']> = [];
  const measuredAt = form.measurements.map((measured) => {
    const size = read(measured.read, sizeQuantity(measured.size));
    const temperature = read(measured.temperature, 'temperature');
    if (size === null) return undefined;
    measurements.push({
      size: measured.size,
      read_m: size,
      temperature_k: temperature,
      instrument: measured.instrument || null,
      ...(isAfterCut(measured) && { cut: cutAt[measured.cut ?? -1] ?? null }),
    });
    return measurements.length - 1;
  });
  const sheet: MachiningSheet = {
    way: form.way,
    sleeve_material: form.sleeve_material || null,
    seat: form.seat || null,
    cuts,
    done: [...form.done],
    measurements,
    planned: form.planned ? (JSON.parse(form.planned) as RepairWork) : null,
  };
  for (const name of NUMBERS) sheet[name] = read(form.numbers[name], SHEET_NUMBERS[name].quantity);
  for (const name of TEXTS) sheet[name] = form.texts[name].trim();
  return { sheet, unreadable, cutAt, measuredAt };
}
