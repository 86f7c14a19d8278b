import type { RepairOption, RepairView, RepairWork } from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';
import type { Entry, Quantity } from '$lib/quantity';
import { entryOf, valueOf } from '$lib/quantity/entered';

/** The numbers of a repair, as they stand in the form. */
export const REPAIR_NUMBERS = {
  bore_diameter_m: { label: 'repair.bore', quantity: 'length' },
  bore_uncertainty_m: { label: 'repair.bore_u', quantity: 'clearance' },
  valve_diameter_m: { label: 'repair.valve', quantity: 'length' },
  valve_uncertainty_m: { label: 'repair.valve_u', quantity: 'clearance' },
  spring_load_n: { label: 'repair.spring', quantity: 'force' },
  spring_rate_n_per_m: { label: 'repair.rate', quantity: 'spring_rate' },
} as const satisfies Record<string, { label: PlainKey; quantity: Quantity }>;

export type RepairNumber = keyof typeof REPAIR_NUMBERS;
export const REPAIR_NAMES = Object.keys(REPAIR_NUMBERS) as RepairNumber[];

/** What the form holds, as typed. */
export interface RepairForm {
  option: RepairOption | '';
  parts: string;
  numbers: Record<RepairNumber, Entry>;
  notes: string;
}

export function repairForm({ work }: Pick<RepairView, 'work'>): RepairForm {
  const numbers = REPAIR_NAMES.map((name) => [
    name,
    entryOf(work?.[name], REPAIR_NUMBERS[name].quantity),
  ]);
  return {
    option: work?.option ?? '',
    parts: work?.parts ?? '',
    numbers: Object.fromEntries(numbers) as Record<RepairNumber, Entry>,
    notes: work?.notes ?? '',
  };
}

/** The numbers that this way out may leave otherwise than it found them: a cleaned valve may get
 * another spring, a relief changes nothing of the bore. */
export function numbersOf(option: RepairOption | ''): readonly RepairNumber[] {
  if (option === '' || option === 'relief_added') return [];
  return option === 'cleaned' ? ['spring_load_n', 'spring_rate_n_per_m'] : REPAIR_NAMES;
}

/** The work as the core takes it; nothing before it is said what was done. */
export function workOf(form: RepairForm): { work: RepairWork | undefined; unreadable: boolean } {
  if (form.option === '') return { work: undefined, unreadable: false };
  let unreadable = false;
  const work: RepairWork = {
    option: form.option,
    parts: form.parts.trim(),
    notes: form.notes.trim(),
  };
  for (const name of numbersOf(form.option)) {
    const value = valueOf(form.numbers[name], REPAIR_NUMBERS[name].quantity);
    if (value === 'unreadable') unreadable = true;
    else work[name] = value;
  }
  return { work, unreadable };
}
