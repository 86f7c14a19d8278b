import type { Occasion, TapFigures, TapPlace } from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';
import type { Entry, Quantity } from '$lib/quantity';
import { entryOf, valueOf } from '$lib/quantity/entered';

/** The numbers of a reading, as they stand in the form. */
export const TAP_NUMBERS = {
  pressure_pa: { label: 'tap.pressure', quantity: 'pressure' },
  line_pa: { label: 'tap.line', note: 'tap.line_note', quantity: 'pressure' },
  oil_temperature_k: { label: 'tap.oil', quantity: 'temperature' },
} as const satisfies Record<string, { label: PlainKey; note?: PlainKey; quantity: Quantity }>;

export type TapNumber = keyof typeof TAP_NUMBERS;
export const TAP_NAMES = Object.keys(TAP_NUMBERS) as TapNumber[];

/** What the form holds, as typed. */
export interface TapForm {
  place: TapPlace | '';
  occasion: Occasion;
  numbers: Record<TapNumber, Entry>;
  command: string;
  load: string;
  gauge: string;
  lineGauge: string;
  note: string;
}

export function tapForm(occasion: Occasion): TapForm {
  const numbers = TAP_NAMES.map((name) => [name, entryOf(null, TAP_NUMBERS[name].quantity)]);
  return {
    place: '',
    occasion,
    numbers: Object.fromEntries(numbers) as Record<TapNumber, Entry>,
    command: '',
    load: '',
    gauge: '',
    lineGauge: '',
    note: '',
  };
}

/** The reading as the core takes it; none while place or pressure is missing. */
export function figuresOf(form: TapForm): { figures?: TapFigures; unreadable: boolean } {
  let unreadable = false;
  const value = (name: TapNumber) => {
    const read = valueOf(form.numbers[name], TAP_NUMBERS[name].quantity);
    if (read === 'unreadable') unreadable = true;
    return read === 'unreadable' ? null : read;
  };
  const [pressure, line, oil] = [value('pressure_pa'), value('line_pa'), value('oil_temperature_k')];
  if (form.place === '' || pressure === null) return { unreadable };
  return {
    unreadable,
    figures: {
      occasion: form.occasion,
      place: form.place,
      pressure_pa: pressure,
      line_pa: line,
      oil_temperature_k: oil,
      command: form.command.trim(),
      load: form.load.trim(),
      gauge: form.gauge || null,
      line_gauge: form.lineGauge || null,
      note: form.note.trim(),
    },
  };
}
