import type { EditablePart } from '$lib/app/route';
import type { JobPart, JobView } from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';
import { emptyEntry, storedEntry, type Entry, type Unit } from '$lib/quantity';
import { odometerOf } from '$lib/app/new-job';

/** Parts of a job that are changed by themselves. */
export const PART_WORDS = {
  vehicle: 'job.vehicle',
  complaint: 'job.complaint',
  notes: 'job.notes',
  customer: 'job.customer',
} as const satisfies Record<EditablePart, PlainKey>;

/** Whether a finding's field is a part, shown at its row. */
export function isPart(field: string): field is EditablePart {
  return Object.hasOwn(PART_WORDS, field);
}

/** What the form of any part holds, as typed. Each part uses its own fields. */
export interface PartForm {
  text: string;
  odometer: Entry;
  customer: { name: string; phone: string; plate: string };
}

export function partForm(job: JobView, part: EditablePart, distance: Unit, locale: string): PartForm {
  const odometer = job.vehicle.odometer_m;
  const text = {
    vehicle: job.vehicle.description,
    complaint: job.complaint.text,
    notes: job.notes.text,
    customer: '',
  };
  return {
    text: text[part],
    odometer:
      part === 'vehicle' && typeof odometer === 'number'
        ? storedEntry(odometer, distance, locale)
        : emptyEntry(distance),
    customer: {
      name: job.customer?.name ?? '',
      phone: job.customer?.phone ?? '',
      plate: job.customer?.plate ?? '',
    },
  };
}

/** The part as the core takes it; nothing while a needed text is missing or a number unreadable. */
export function partOf(form: PartForm, part: EditablePart, locale: string): JobPart | undefined {
  const text = form.text.trim();
  switch (part) {
    case 'vehicle': {
      const odometer = odometerOf(form.odometer, locale);
      if (text === '' || odometer === 'unreadable') return undefined;
      return { part, body: { description: text, odometer_m: odometer } };
    }
    case 'complaint':
      return text === '' ? undefined : { part, body: { text } };
    case 'notes':
      return { part, body: { text } };
    case 'customer': {
      const { name, phone, plate } = form.customer;
      return { part, body: { name: name.trim(), phone: phone.trim(), plate: plate.trim() } };
    }
  }
}
