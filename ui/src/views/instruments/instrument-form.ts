import type { Instrument, InstrumentKind } from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';
import type { Entry, Quantity } from '$lib/quantity';
import { entryOf, valueOf } from '$lib/quantity/entered';

/** Each kind with its words, and how its figures and its limits of error are shown. */
export const INSTRUMENT_KINDS = {
  vacuum_gauge: { label: 'instruments.kind.vacuum_gauge', value: 'vacuum', step: 'vacuum' },
  micrometer: { label: 'instruments.kind.micrometer', value: 'length', step: 'clearance' },
  bore_gauge: { label: 'instruments.kind.bore_gauge', value: 'length', step: 'clearance' },
  pin_gauges: { label: 'instruments.kind.pin_gauges', value: 'length', step: 'clearance' },
  feeler_gauges: { label: 'instruments.kind.feeler_gauges', value: 'length', step: 'clearance' },
  spring_tester: { label: 'instruments.kind.spring_tester', value: 'force', step: 'force' },
  pressure_gauge: { label: 'instruments.kind.pressure_gauge', value: 'pressure', step: 'pressure' },
  barometer: { label: 'instruments.kind.barometer', value: 'barometer', step: 'barometer' },
  thermometer: {
    label: 'instruments.kind.thermometer',
    value: 'temperature',
    step: 'temperature_step',
  },
  ohmmeter: { label: 'instruments.kind.ohmmeter', value: 'resistance', step: 'resistance' },
} as const satisfies Record<
  InstrumentKind,
  { label: PlainKey; value: Quantity; step: Quantity }
>;

const NUMBERS = ['limits_of_error_si', 'resolution_si', 'range_low_si', 'range_high_si'] as const;
export type InstrumentNumber = (typeof NUMBERS)[number];

/** What the form holds, as typed. */
export interface InstrumentForm {
  name: string;
  kind: InstrumentKind;
  numbers: Record<InstrumentNumber, Entry>;
  calibrated: string;
  due: string;
  source: string;
}

/** How a number of an instrument is shown. */
export function quantityOf(kind: InstrumentKind, name: InstrumentNumber): Quantity {
  const { value, step } = INSTRUMENT_KINDS[kind];
  return name === 'range_low_si' || name === 'range_high_si' ? value : step;
}

/** A form with what is on record, or an empty one of a kind. */
export function instrumentForm(record?: Instrument, kind: InstrumentKind = 'vacuum_gauge'): InstrumentForm {
  const of = record?.kind ?? kind;
  const numbers = NUMBERS.map((name) => [name, entryOf(record?.[name], quantityOf(of, name))]);
  return {
    name: record?.name ?? '',
    kind: of,
    numbers: Object.fromEntries(numbers) as InstrumentForm['numbers'],
    calibrated: record?.calibrated_on ?? '',
    due: record?.calibration_due ?? '',
    source: record?.source ?? '',
  };
}

/** Another kind counts in other units: the numbers start over. */
export function ofKind(form: InstrumentForm, kind: InstrumentKind): InstrumentForm {
  return { ...form, kind, numbers: instrumentForm(undefined, kind).numbers };
}

/** The instrument as the core takes it, what can't be read, and what it can't do without. */
export function instrumentOf(form: InstrumentForm): {
  instrument: Instrument | undefined;
  missing: readonly InstrumentNumber[];
} {
  const values: Partial<Record<InstrumentNumber, number>> = {};
  const missing: InstrumentNumber[] = [];
  let unreadable = false;
  for (const name of NUMBERS) {
    const value = valueOf(form.numbers[name], quantityOf(form.kind, name));
    if (value === 'unreadable') unreadable = true;
    else if (value !== null) values[name] = value;
    else if (name === 'limits_of_error_si' || name === 'resolution_si') missing.push(name);
  }
  const { limits_of_error_si: error, resolution_si: step, ...range } = values;
  if (unreadable || error === undefined || step === undefined) return { instrument: undefined, missing };
  return {
    missing,
    instrument: {
      name: form.name.trim(),
      kind: form.kind,
      limits_of_error_si: error,
      resolution_si: step,
      ...range,
      ...(form.calibrated ? { calibrated_on: form.calibrated } : {}),
      ...(form.due ? { calibration_due: form.due } : {}),
      source: form.source.trim(),
    },
  };
}
