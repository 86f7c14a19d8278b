import type { StandCheck, TestView } from '$lib/generated/commands';
import { type Entry, emptyEntry, storedEntry } from '$lib/quantity';
import { unitHere } from '$lib/quantity/show';
import { settings } from '$lib/settings/settings.svelte';
import { typed } from './typed';

/** What is typed for the stand check: the closed hose, and one field for each orifice's label. */
export interface CheckForm {
  deadHead: Entry;
  orifices: Record<string, Entry>;
}

const stored = (si: number) => storedEntry(si, unitHere('vacuum'), settings.locale);

export function checkForm({ stand, stand_check: check }: TestView): CheckForm {
  const read = new Map(check?.orifices.map(({ label, vacuum_pa }) => [label, vacuum_pa]));
  // An orifice that was read stays, also when it has left the stand since.
  const labels = new Set([...(stand?.orifices.map(({ label }) => label) ?? []), ...read.keys()]);
  return {
    deadHead: check ? stored(check.dead_head_vacuum_pa) : emptyEntry(unitHere('vacuum')),
    orifices: Object.fromEntries(
      [...labels].map((label) => {
        const value = read.get(label);
        return [label, value === undefined ? emptyEntry(unitHere('vacuum')) : stored(value)];
      }),
    ),
  };
}

/** The check as a record takes it, from the fields that can be read; none without the closed hose. */
export function checkOf(form: CheckForm, before?: StandCheck | null): StandCheck | undefined {
  const deadHead = typed(form.deadHead, 'vacuum', before?.as_typed);
  if (!deadHead) return undefined;
  const orifices = Object.entries(form.orifices).flatMap(([label, entry]) => {
    const old = before?.orifices.find((orifice) => orifice.label === label);
    const reading = typed(entry, 'vacuum', old?.as_typed);
    return reading ? [{ label, vacuum_pa: reading.si, as_typed: reading.asTyped }] : [];
  });
  return { dead_head_vacuum_pa: deadHead.si, as_typed: deadHead.asTyped, orifices };
}

/** True when something stands in a field that can't be read as a number. */
export function isGarbled(form: CheckForm): boolean {
  return [form.deadHead, ...Object.values(form.orifices)].some(
    (entry) => entry.text.trim() !== '' && !typed(entry, 'vacuum'),
  );
}
