import { settings } from '$lib/settings/settings.svelte';
import type { Entry, Unit } from '$lib/quantity';
import { UNITS } from '$lib/quantity';
import { KEPT } from './ahead';
import { benchDay } from './bench-day';

const KEY = KEPT.lastValues;
/** More than a day at the bench has fields. */
const MOST = 120;

/** A number as it was typed, and where and when that was. */
interface Kept {
  readonly text: string;
  readonly unit: Unit;
  readonly locale: string;
  readonly job: string;
  readonly day: string;
}

interface Store {
  read(name: 'draft.get', args: { key: string }): Promise<{ value?: unknown }>;
  read(name: 'draft.put', args: { key: string; value: Record<string, unknown> }): Promise<unknown>;
}

function isKept(value: unknown): value is Kept {
  const { text, unit, locale, job, day } = (value ?? {}) as Partial<Kept>;
  return (
    [text, locale, job, day].every((it) => typeof it === 'string') &&
    typeof unit === 'string' &&
    Object.hasOwn(UNITS, unit)
  );
}

/**
 * The last value typed for each thing that is measured. A form offers it on its number pad, on the
 * same job or on the same day, and never fills it in by itself. Readings of a bore aren't kept: a
 * repeat is measured, not copied.
 */
export class LastValues {
  /** The oldest first. */
  #kept = $state.raw<Readonly<Record<string, Kept>>>({});
  readonly #store: Store;

  constructor(store: unknown) {
    this.#store = store as Store;
  }

  /** Reads what was kept. A convenience: without it the app opens all the same. */
  async open(): Promise<void> {
    const answer = await this.#store.read('draft.get', { key: KEY }).catch(() => undefined);
    const found = (answer?.value ?? {}) as Record<string, unknown>;
    this.#kept = Object.fromEntries(
      Object.entries(found).filter((entry): entry is [string, Kept] => isKept(entry[1])),
    );
  }

  /** What may be offered for this thing now. */
  of(thing: string, job: string, today = benchDay()): Entry | undefined {
    const kept = Object.hasOwn(this.#kept, thing) ? this.#kept[thing] : undefined;
    // Typed with another decimal mark, it could be read as another number.
    if (!kept || kept.locale !== settings.locale) return undefined;
    if (kept.job !== job && kept.day !== today) return undefined;
    return { text: kept.text, unit: kept.unit, storedSi: null };
  }

  keep(thing: string, job: string, entry: Entry, today = benchDay()): void {
    const { text, unit } = entry;
    const kept: Kept = { text: text.trim(), unit, locale: settings.locale, job, day: today };
    const others = Object.entries(this.#kept).filter(([other]) => other !== thing);
    this.#kept = Object.fromEntries([...others.slice(1 - MOST), [thing, kept]]);
    const value = { ...this.#kept };
    void this.#store.read('draft.put', { key: KEY, value }).catch(() => undefined);
  }

  /** For one field of a form: what to offer, and where to keep what is typed. */
  recall(thing: string, job: string): { last: Entry | undefined; keep: (entry: Entry) => void } {
    return { last: this.of(thing, job), keep: (entry) => this.keep(thing, job, entry) };
  }
}
