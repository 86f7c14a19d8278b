import type { PlanFigures } from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';
import type { Entry, Quantity } from '$lib/quantity';
import { entryOf, valueOf } from '$lib/quantity/entered';

/** The figures for planning, as they stand in the form. */
export const PLAN_NUMBERS = {
  wall_m: { label: 'plan_figures.wall', note: 'plan_figures.wall_note', quantity: 'length' },
  least_wall_m: { label: 'plan_figures.least_wall', note: undefined, quantity: 'length' },
  layer_m: { label: 'plan_figures.layer', note: undefined, quantity: 'clearance' },
  polish_off_m: { label: 'plan_figures.polish_off', note: undefined, quantity: 'clearance' },
  wanted_clearance_m: {
    label: 'plan_figures.wanted_clearance',
    note: 'plan_figures.wanted_clearance_note',
    quantity: 'clearance',
  },
  most_out_of_round_m: {
    label: 'plan_figures.most_out_of_round',
    note: undefined,
    quantity: 'clearance',
  },
  most_shim_m: {
    label: 'plan_figures.most_shim',
    note: 'plan_figures.most_shim_note',
    quantity: 'length',
  },
  cold_oil_temperature_k: {
    label: 'plan_figures.cold',
    note: 'plan_figures.cold_note',
    quantity: 'temperature',
  },
} as const satisfies Record<
  string,
  { label: PlainKey; note: PlainKey | undefined; quantity: Quantity }
>;

export type PlanNumber = keyof typeof PLAN_NUMBERS;
export const PLAN_NAMES = Object.keys(PLAN_NUMBERS) as PlanNumber[];

/** What the form holds, as typed. */
export interface PlanForm {
  numbers: Record<PlanNumber, Entry>;
  least_wall_source: string;
}

export function emptyPlan(): PlanForm {
  const numbers = PLAN_NAMES.map((name) => [name, entryOf(null, PLAN_NUMBERS[name].quantity)]);
  return { numbers: Object.fromEntries(numbers) as PlanForm['numbers'], least_wall_source: '' };
}

/** The figures as the core takes them; what can't be read counts as not entered. */
export function planOf(form: PlanForm): PlanFigures {
  const figures: PlanFigures = { least_wall_source: form.least_wall_source.trim() };
  for (const name of PLAN_NAMES) {
    const value = valueOf(form.numbers[name], PLAN_NUMBERS[name].quantity);
    if (typeof value === 'number') figures[name] = value;
  }
  return figures;
}
