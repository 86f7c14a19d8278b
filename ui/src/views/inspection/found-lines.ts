import type { Found, InstrumentEntry } from '$lib/generated/commands';
import { t } from '$lib/messages';
import { showStored } from '$lib/quantity/entered';
import { CHECK_FIELDS, type FormCheck, type SimpleField } from './check-fields';
import { directionDegrees } from './check-form';

/** One answer of a check on record. */
export interface FoundLine {
  readonly label: string;
  readonly value: string;
}

type Body = Readonly<Record<string, unknown>>;

/** An answer in words; undefined where there is none. */
function words(
  field: SimpleField,
  value: unknown,
  instruments: readonly InstrumentEntry[],
): string | undefined {
  if (value === null || value === undefined || value === '') return undefined;
  switch (field.is) {
    case 'number':
      return typeof value === 'number' ? showStored(value, field.quantity) : undefined;
    case 'count':
      return typeof value === 'number' ? `${value}` : undefined;
    case 'choice': {
      const chosen = field.name === 'direction_rad' ? directionDegrees(value) : value;
      const option = field.options.find((one) => one.value === chosen);
      return option && t(option.label);
    }
    case 'instrument':
      return (
        instruments.find(({ id }) => id === value)?.instrument.name ?? t('look.instrument_unknown')
      );
    default:
      return typeof value === 'string' ? value : undefined;
  }
}

/** What a check found, question by question; of several of one sort each in one line. */
export function foundLines(found: Found, instruments: readonly InstrumentEntry[]): FoundLine[] {
  const body = { ...found } as Body;
  const lines: FoundLine[] = [];
  for (const field of CHECK_FIELDS[found.check as FormCheck]) {
    if (field.is !== 'rows') {
      const value = words(field, body[field.name], instruments);
      if (value !== undefined) lines.push({ label: t(field.label), value });
      continue;
    }
    const rows = body[field.name];
    if (!Array.isArray(rows) || rows.length === 0) {
      if (field.none) lines.push({ label: t(field.label), value: t(field.none) });
      continue;
    }
    for (const [index, row] of (rows as Body[]).entries()) {
      const told = field.fields.flatMap((one) => words(one, row[one.name], instruments) ?? []);
      if (told.length === 0) continue;
      lines.push({ label: `${t(field.each)} ${index + 1}`, value: told.join(', ') });
    }
  }
  return lines;
}
