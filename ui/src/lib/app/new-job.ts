import type { JobOpen } from '$lib/generated/commands';
import { emptyEntry, readEntry, type Entry, type Unit } from '$lib/quantity';

/** What the new-job form holds, as typed. */
export interface NewJob {
  unit: string;
  number: string;
  vehicle: string;
  odometer: Entry;
  complaint: string;
  notes: string;
  customer: { name: string; phone: string; plate: string };
}

export function emptyNewJob(distance: Unit, onlyUnit = ''): NewJob {
  return {
    unit: onlyUnit,
    number: '',
    vehicle: '',
    odometer: emptyEntry(distance),
    complaint: '',
    notes: '',
    customer: { name: '', phone: '', plate: '' },
  };
}

/** The form as the core takes it; nothing when its number can't be read. */
export function jobOpenOf(form: NewJob, locale: string, dryRun: boolean): JobOpen | undefined {
  const odometer = odometerOf(form.odometer, locale);
  if (odometer === 'unreadable') return undefined;
  const { name, phone, plate } = form.customer;
  const named = [name, phone, plate].some((text) => text.trim() !== '');
  return {
    unit: form.unit,
    number: form.number.trim(),
    vehicle: { description: form.vehicle.trim(), odometer_m: odometer },
    complaint: { text: form.complaint.trim() },
    notes: { text: form.notes.trim() },
    customer: named ? { name: name.trim(), phone: phone.trim(), plate: plate.trim() } : null,
    dry_run: dryRun,
  };
}

/** A distance as typed, m; none when nothing is typed. */
export function odometerOf(entry: Entry, locale: string): number | null | 'unreadable' {
  if (entry.text.trim() === '') return null;
  const read = readEntry(entry, 'distance', locale);
  return read.ok ? read.si : 'unreadable';
}
