import type { Material, PartItem, PartName, ShopPart } from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';
import type { Entry, Quantity } from '$lib/quantity';
import { entryOf, valueOf } from '$lib/quantity/entered';

export const PART_KINDS = {
  valve: 'parts.kind.valve',
  sleeve: 'parts.kind.sleeve',
  spring: 'parts.kind.spring',
  reamer: 'parts.kind.reamer',
} as const satisfies Record<PartName, PlainKey>;

interface Asked {
  readonly label: PlainKey;
  readonly quantity: Quantity;
  readonly needed: boolean;
  readonly note?: PlainKey;
}

/** Every size that some part has. */
export const PART_NUMBERS = {
  diameter_m: { label: 'parts.valve_diameter', quantity: 'length', needed: true },
  diameter_tolerance_m: {
    label: 'parts.diameter_tolerance',
    quantity: 'clearance',
    needed: true,
    note: 'parts.tolerance_note',
  },
  stroke_m: { label: 'parts.stroke', quantity: 'length', needed: false },
  outer_diameter_m: { label: 'parts.outer', quantity: 'length', needed: true },
  outer_tolerance_m: {
    label: 'parts.outer_tolerance',
    quantity: 'clearance',
    needed: true,
    note: 'parts.tolerance_note',
  },
  inner_diameter_m: { label: 'parts.inner', quantity: 'length', needed: true },
  inner_tolerance_m: {
    label: 'parts.inner_tolerance',
    quantity: 'clearance',
    needed: true,
    note: 'parts.tolerance_note',
  },
  length_m: { label: 'parts.length', quantity: 'length', needed: false },
  load_n: { label: 'parts.load', quantity: 'force', needed: true },
  load_tolerance_n: {
    label: 'parts.load_tolerance',
    quantity: 'force',
    needed: true,
    note: 'parts.tolerance_note',
  },
  rate_n_per_m: { label: 'parts.rate', quantity: 'spring_rate', needed: true },
  height_m: { label: 'parts.height', quantity: 'length', needed: false, note: 'parts.height_note' },
} as const satisfies Record<string, Asked>;

export type PartNumber = keyof typeof PART_NUMBERS;
const NAMES = Object.keys(PART_NUMBERS) as PartNumber[];

/** What is asked of each kind, in the order in which it is asked. */
export const ASKED = {
  valve: ['diameter_m', 'diameter_tolerance_m', 'stroke_m'],
  sleeve: ['outer_diameter_m', 'outer_tolerance_m', 'inner_diameter_m', 'inner_tolerance_m', 'length_m'],
  spring: ['load_n', 'load_tolerance_n', 'rate_n_per_m', 'height_m'],
  reamer: ['diameter_m', 'diameter_tolerance_m'],
} as const satisfies Record<PartName, readonly PartNumber[]>;

export function labelOf(kind: PartName, name: PartNumber): PlainKey {
  if (kind === 'reamer' && name === 'diameter_m') return 'parts.reamer_diameter';
  return PART_NUMBERS[name].label;
}

/** What the form holds, as typed. */
export interface PartForm {
  name: string;
  kind: PartName;
  numbers: Record<PartNumber, Entry>;
  material: Material;
  grooved: 'yes' | 'no';
  /** The bore that it is made for; empty: any. */
  bore: string;
  source: string;
  notes: string;
  had: 'yes' | 'no';
}

export function partForm(part?: ShopPart): PartForm {
  const item: Partial<Record<string, unknown>> = part ? { ...part.item } : {};
  const numbers = NAMES.map((name) => {
    const value = item[name];
    return [name, entryOf(typeof value === 'number' ? value : null, PART_NUMBERS[name].quantity)];
  });
  return {
    name: part?.name ?? '',
    kind: part?.item.part ?? 'valve',
    numbers: Object.fromEntries(numbers) as PartForm['numbers'],
    material: part && 'material' in part.item ? part.item.material : 'aluminium_wrought',
    grooved: part && 'grooved' in part.item && part.item.grooved ? 'yes' : 'no',
    bore: part?.bore ?? '',
    source: part?.source ?? '',
    notes: part?.notes ?? '',
    had: part?.withdrawn ? 'no' : 'yes',
  };
}

/** The part as the core takes it, and what it can't do without. */
export function partOf(form: PartForm): {
  part: ShopPart | undefined;
  missing: readonly PartNumber[];
} {
  const values: Partial<Record<PartNumber, number>> = {};
  const missing: PartNumber[] = [];
  let unreadable = false;
  for (const name of ASKED[form.kind]) {
    const value = valueOf(form.numbers[name], PART_NUMBERS[name].quantity);
    if (value === 'unreadable') unreadable = true;
    else if (value !== null) values[name] = value;
    else if (PART_NUMBERS[name].needed) missing.push(name);
  }
  if (unreadable || missing.length > 0) return { part: undefined, missing };
  const item = {
    part: form.kind,
    ...values,
    ...(form.kind === 'valve' || form.kind === 'sleeve' ? { material: form.material } : {}),
    ...(form.kind === 'valve' ? { grooved: form.grooved === 'yes' } : {}),
  } as PartItem;
  return {
    missing,
    part: {
      name: form.name.trim(),
      item,
      ...(form.bore ? { bore: form.bore } : {}),
      source: form.source.trim(),
      notes: form.notes.trim(),
      withdrawn: form.had === 'no',
    },
  };
}
