import type { ReliefFigures, ReliefPresence } from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';
import type { Entry, Quantity } from '$lib/quantity';
import { entryOf, valueOf } from '$lib/quantity/entered';

/** The numbers of a relief check, as they stand in the form. */
export const RELIEF_NUMBERS = {
  ball_diameter_m: { label: 'relief.ball', quantity: 'length' },
  seat_diameter_m: { label: 'relief.seat', note: 'relief.seat_note', quantity: 'length' },
  load_seated_n: { label: 'relief.load', quantity: 'force' },
  rate_n_per_m: { label: 'relief.rate', quantity: 'spring_rate' },
  lift_stop_m: { label: 'relief.lift', note: 'relief.lift_note', quantity: 'length' },
  limit_pa: { label: 'relief.limit', note: 'relief.limit_note', quantity: 'pressure' },
  clearance_m: { label: 'relief.clearance', note: 'relief.clearance_note', quantity: 'clearance' },
} as const satisfies Record<string, { label: PlainKey; note?: PlainKey; quantity: Quantity }>;

export type ReliefNumber = keyof typeof RELIEF_NUMBERS;
const NAMES = Object.keys(RELIEF_NUMBERS) as ReliefNumber[];

/** What the form holds, as typed. */
export interface ReliefForm {
  presence: ReliefPresence;
  numbers: Record<ReliefNumber, Entry>;
  source: string;
  limitSource: string;
}

export function reliefForm(figures: ReliefFigures): ReliefForm {
  const numbers = NAMES.map((name) => [name, entryOf(figures[name], RELIEF_NUMBERS[name].quantity)]);
  return {
    presence: figures.presence ?? 'fitted',
    numbers: Object.fromEntries(numbers) as Record<ReliefNumber, Entry>,
    source: figures.source ?? '',
    limitSource: figures.limit_source ?? '',
  };
}

/** The figures as the core takes them, and whether any number can't be read. */
export function figuresOf(form: ReliefForm): { figures: ReliefFigures; unreadable: boolean } {
  let unreadable = false;
  const figures: ReliefFigures = {
    presence: form.presence,
    source: form.source.trim(),
    limit_source: form.limitSource.trim(),
  };
  for (const name of NAMES) {
    const value = valueOf(form.numbers[name], RELIEF_NUMBERS[name].quantity);
    if (value === 'unreadable') unreadable = true;
    else figures[name] = value;
  }
  return { figures, unreadable };
}
