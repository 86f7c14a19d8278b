import type { Material, RepairOption, RepairView, RepairWork } from '$lib/generated/commands';
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
  spring_tolerance_n: { label: 'repair.spring_tolerance', quantity: 'force' },
  sleeve_outer_m: { label: 'repair.sleeve_outer', quantity: 'length' },
  seat_gap_m: { label: 'repair.seat_gap', quantity: 'displacement' },
  seat_gap_uncertainty_m: { label: 'repair.seat_gap_u', quantity: 'clearance' },
  stroke_m: { label: 'repair.stroke', quantity: 'length' },
  polished_off_m: { label: 'repair.polished_off', quantity: 'clearance' },
  orifice_m: { label: 'repair.orifice', quantity: 'length' },
} as const satisfies Record<string, { label: PlainKey; quantity: Quantity }>;

export type RepairNumber = keyof typeof REPAIR_NUMBERS;
export const REPAIR_NAMES = Object.keys(REPAIR_NUMBERS) as RepairNumber[];

/** What the form holds, as typed. */
export interface RepairForm {
  option: RepairOption | '';
  parts: string;
  numbers: Record<RepairNumber, Entry>;
  /** Empty: as before. */
  sleeve_material: Material | '';
  valve_material: Material | '';
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
    sleeve_material: work?.sleeve_material ?? '',
    valve_material: work?.valve_material ?? '',
    notes: work?.notes ?? '',
  };
}

const BORE_AND_VALVE = [
  'bore_diameter_m',
  'bore_uncertainty_m',
  'valve_diameter_m',
  'valve_uncertainty_m',
] as const;
const SPRING = ['spring_load_n', 'spring_rate_n_per_m', 'spring_tolerance_n'] as const;
const ASKED = {
  cleaned: ['polished_off_m', ...SPRING],
  new_valve: [...BORE_AND_VALVE, 'stroke_m', ...SPRING],
  sleeve_smaller_valve: [
    ...BORE_AND_VALVE,
    'stroke_m',
    'sleeve_outer_m',
    'seat_gap_m',
    'seat_gap_uncertainty_m',
    ...SPRING,
  ],
  reamed_oversize: [...BORE_AND_VALVE, 'stroke_m', ...SPRING],
  relief_added: [],
  body_replaced: [...BORE_AND_VALVE, ...SPRING],
  other: [...BORE_AND_VALVE, 'stroke_m', ...SPRING, 'orifice_m'],
  orifice_changed: ['orifice_m'],
} as const satisfies Record<RepairOption, readonly RepairNumber[]>;

/** The numbers that this way out may leave otherwise than it found them: a cleaned valve may get
 * another spring, a relief changes nothing of the bore. */
export function numbersOf(option: RepairOption | ''): readonly RepairNumber[] {
  return option === '' ? [] : ASKED[option];
}

/** The parts whose metal this way out may change. */
export function metalsOf(
  option: RepairOption | '',
): readonly ('sleeve_material' | 'valve_material')[] {
  if (option === 'sleeve_smaller_valve') return ['sleeve_material', 'valve_material'];
  return option === 'new_valve' || option === 'reamed_oversize' ? ['valve_material'] : [];
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
    // What few repairs have is left out where it isn't there: older programs read the rest.
    else if (value !== null) work[name] = value;
  }
  for (const name of metalsOf(form.option)) {
    const metal = form[name];
    if (metal) work[name] = metal;
  }
  return { work, unreadable };
}
