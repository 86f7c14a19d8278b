import type { Stand } from '$lib/generated/commands';
import type { Entry, Quantity } from '$lib/quantity';
import { entryOf, valueOf } from '$lib/quantity/entered';

/** The numbers of a calibrated orifice. */
export const ORIFICE_NUMBERS = {
  diameter_m: 'length',
  sonic_conductance_m3_s_pa: 'sonic_conductance',
  critical_ratio: 'ratio',
} as const satisfies Record<string, Quantity>;
export type OrificeNumber = keyof typeof ORIFICE_NUMBERS;
const NUMBERS = Object.keys(ORIFICE_NUMBERS) as OrificeNumber[];

export interface OrificeRow {
  label: string;
  numbers: Record<OrificeNumber, Entry>;
}

/** What the form of a stand holds, as typed. */
export interface StandForm {
  name: string;
  gauge: string;
  follows: 'yes' | 'no';
  altitude: Entry;
  orifices: OrificeRow[];
}

export function orificeRow(record?: Stand['orifices'][number]): OrificeRow {
  const numbers = NUMBERS.map((name) => [name, entryOf(record?.[name], ORIFICE_NUMBERS[name])]);
  return {
    label: record?.label ?? '',
    numbers: Object.fromEntries(numbers) as OrificeRow['numbers'],
  };
}

/** A form with what is on record, or an empty one with a gauge chosen. */
export function standForm(record: Stand | undefined, gauge: string): StandForm {
  return {
    name: record?.name ?? '',
    gauge: record?.gauge ?? gauge,
    follows: record?.dead_head_follows_barometer === false ? 'no' : 'yes',
    altitude: entryOf(record?.altitude_m, 'altitude'),
    orifices: record?.orifices.map((orifice) => orificeRow(orifice)) ?? [],
  };
}

/** The stand as the core takes it; none while a number is missing or can't be read, with its place. */
export function standOf(form: StandForm): { stand: Stand | undefined; missing: readonly string[] } {
  const missing: string[] = [];
  let unreadable = false;
  const orifices = form.orifices.map((row, index) => {
    const values: Partial<Record<OrificeNumber, number>> = {};
    for (const name of NUMBERS) {
      const value = valueOf(row.numbers[name], ORIFICE_NUMBERS[name]);
      if (value === 'unreadable') unreadable = true;
      else if (value === null) missing.push(`orifices[${index}].${name}`);
      else values[name] = value;
    }
    return { label: row.label.trim(), ...values } as Stand['orifices'][number];
  });
  const altitude = valueOf(form.altitude, 'altitude');
  if (altitude === 'unreadable' || unreadable || missing.length > 0) {
    return { stand: undefined, missing };
  }
  return {
    missing,
    stand: {
      name: form.name.trim(),
      gauge: form.gauge,
      orifices,
      dead_head_follows_barometer: form.follows === 'yes',
      ...(altitude === null ? {} : { altitude_m: altitude }),
    },
  };
}
