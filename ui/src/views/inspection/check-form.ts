import type { CoilOf, Found } from '$lib/generated/commands';
import { standing, type Stopwatch } from '$lib/app/stopwatch';
import { typeSi, type Entry, type Quantity } from '$lib/quantity';
import { entryOf, valueOf } from '$lib/quantity/entered';
import { t } from '$lib/messages';
import { settings } from '$lib/settings/settings.svelte';
import { CHECK_FIELDS, type CheckField, type FormCheck, type SimpleField } from './check-fields';

/** The answer to one question, as it stands in the form. */
export type Answer = string | Entry;
/** One line of several. */
export type Row = Record<string, Answer>;

/** What a form holds, as typed. */
export interface CheckForm {
  occasion: 'as_found' | 'after_cleaning' | 'after_repair';
  note: string;
  answers: Record<string, Answer>;
  rows: Record<string, Row[]>;
  /** Of a check that is timed. */
  timer: Stopwatch;
}

/** A time as if it had been typed. */
export function timeEntry(seconds: number): Entry {
  return { text: typeSi(seconds, settings.locale), unit: 's', storedSi: null };
}

type Body = Readonly<Record<string, unknown>>;
const asText = (value: unknown): string => (typeof value === 'string' ? value : '');

/** A direction on the wire as its answer in a form. */
export function directionDegrees(value: unknown): string {
  return String(Math.round(((typeof value === 'number' ? value : 0) * 180) / Math.PI));
}

function answerOf(field: SimpleField, value: unknown): Answer {
  switch (field.is) {
    case 'number':
      return entryOf(typeof value === 'number' ? value : null, field.quantity);
    case 'count':
      return typeof value === 'number' ? String(value) : '';
    case 'choice':
      // A direction is an angle on the wire and one of two answers in the form.
      return field.name === 'direction_rad'
        ? directionDegrees(value)
        : asText(value);
    default:
      return asText(value);
  }
}

/** A fresh line. */
export function emptyRow(fields: readonly SimpleField[], land = ''): Row {
  return Object.fromEntries(
    fields.map((field) => [field.name, field.is === 'land' ? land : answerOf(field, undefined)]),
  );
}

/** A form with what is on record, or an empty one. `lands`: names of the bore's lands. */
export function checkForm(
  check: FormCheck,
  lands: readonly string[],
  record?: { occasion: CheckForm['occasion']; note?: string; found: Found },
): CheckForm {
  const body: Body = (record?.found ?? {}) as Body;
  const answers: CheckForm['answers'] = {};
  const rows: CheckForm['rows'] = {};
  for (const field of CHECK_FIELDS[check]) {
    if (field.is !== 'rows') {
      answers[field.name] = answerOf(field, body[field.name]);
      continue;
    }
    const known = body[field.name];
    if (Array.isArray(known)) {
      rows[field.name] = known.map((line: Body) =>
        Object.fromEntries(field.fields.map((one) => [one.name, answerOf(one, line[one.name])])),
      );
    } else if (field.first === 'lands') {
      rows[field.name] = lands.map((land) => emptyRow(field.fields, land));
    } else {
      rows[field.name] = Array.from({ length: field.first }, () => emptyRow(field.fields));
    }
  }
  return { occasion: record?.occasion ?? 'as_found', note: record?.note ?? '', answers, rows, timer: standing() };
}

/** Answers with the limits that the profile has for a coil. */
export function limitAnswers(coil: CoilOf | undefined): Record<string, Answer> {
  if (!coil) return {};
  const { low_ohm, high_ohm, limits_at_k, source } = coil.limits;
  return {
    low_ohm: entryOf(low_ohm ?? null, 'resistance'),
    high_ohm: entryOf(high_ohm ?? null, 'resistance'),
    limits_at_k: entryOf(limits_at_k ?? null, 'temperature'),
    source: source ?? '',
  };
}

/** A new check of a solenoid starts from the limits of the unit's only coil. */
export function withLimits(
  check: FormCheck,
  coils: readonly CoilOf[],
): { occasion: CheckForm['occasion']; found: Found } | undefined {
  const [only] = coils;
  if (check !== 'solenoid' || !only || coils.length > 1) return undefined;
  return { occasion: 'as_found', found: { check, solenoid: '', ...only.limits } };
}

const isEntry = (answer: Answer | undefined): answer is Entry => typeof answer === 'object';

/** One answer as the core takes it; undefined where there is none. */
function valueOfAnswer(field: SimpleField, answer: Answer | undefined): unknown {
  switch (field.is) {
    case 'number':
      return isEntry(answer) ? (valueOf(answer, field.quantity) ?? undefined) : undefined;
    case 'count': {
      if (isEntry(answer) || answer === undefined || answer.trim() === '') return undefined;
      const count = Number(answer.trim());
      return Number.isInteger(count) && count >= 0 ? count : 'unreadable';
    }
    default: {
      if (isEntry(answer) || answer === undefined || answer.trim() === '') return undefined;
      if (field.name === 'direction_rad') return (Number(answer) * Math.PI) / 180;
      return answer.trim();
    }
  }
}

/** Whether a line holds anything that a person entered. */
function isEmpty(fields: readonly SimpleField[], row: Row): boolean {
  return fields.every((field) => {
    // A land's name and a direction stand there from the start.
    if (field.is === 'land' || field.name === 'direction_rad') return true;
    return valueOfAnswer(field, row[field.name]) === undefined;
  });
}

/** What the core is asked, and whether it can be asked yet. */
export interface Entered {
  found: Found | undefined;
  /** A number that can't be read. */
  unreadable: boolean;
  /** Questions without an answer that the core can't do without. */
  missing: string[];
  /** Of each list: the form's line of each line that is sent, since empty ones are left out. */
  sent: Record<string, number[]>;
}

/** What the form says, as the core takes it. */
export function foundOf(check: FormCheck, form: CheckForm): Entered {
  const body: Record<string, unknown> = { check };
  const missing: string[] = [];
  const sent: Record<string, number[]> = {};
  let unreadable = false;
  const put = (into: Record<string, unknown>, field: SimpleField, answer: Answer | undefined, at: string) => {
    const value = valueOfAnswer(field, answer);
    if (value === 'unreadable') unreadable = true;
    else if (value !== undefined) into[field.name] = value;
    else if (isNeeded(check, field)) missing.push(at);
  };
  for (const field of CHECK_FIELDS[check]) {
    if (field.is !== 'rows') {
      put(body, field, form.answers[field.name], field.name);
      continue;
    }
    const lines: Record<string, unknown>[] = [];
    const indices: number[] = [];
    for (const [index, row] of (form.rows[field.name] ?? []).entries()) {
      if (isEmpty(field.fields, row)) continue;
      const line: Record<string, unknown> = {};
      for (const one of field.fields) put(line, one, row[one.name], `${field.name}[${index}].${one.name}`);
      lines.push(line);
      indices.push(index);
    }
    body[field.name] = lines;
    sent[field.name] = indices;
  }
  const complete = !unreadable && missing.length === 0;
  return { found: complete ? (body as unknown as Found) : undefined, unreadable, missing, sent };
}

/** Fields that the core's shape has no empty form of. */
const OPTIONAL: Readonly<Record<string, true>> = {
  'wear_marks.position_m': true,
};
const NEEDED_NUMBERS: Readonly<Record<string, true>> = {
  'diameters.diameter_m': true,
  'diameters.station_m': true,
  'spring.height_m': true,
  'spring.load_n': true,
  'flatness.gap_m': true,
};

function isNeeded(check: FormCheck, field: SimpleField): boolean {
  const key = `${check}.${field.name}`;
  switch (field.is) {
    case 'choice':
      return field.optional !== true;
    case 'number':
      return key in NEEDED_NUMBERS && !(key in OPTIONAL);
    case 'land':
      return true;
    case 'text':
      // The core says what a missing text costs; it takes an empty one only where it may be.
      return field.name !== 'source';
    default:
      return false;
  }
}

/** The core's field of a question in the form: empty lines aren't sent, so lines count otherwise. */
export function fieldAt(field: string, sent: Entered['sent'], row?: number, name?: string): string {
  if (row === undefined || name === undefined) return field;
  const index = sent[field]?.indexOf(row) ?? -1;
  return `${field}[${index}].${name}`;
}

/** The quantity of a field, for the words of its findings. */
export function quantityOf(field: CheckField): Quantity | undefined {
  return field.is === 'number' ? field.quantity : undefined;
}

/** The numbers of a form in the order in which the pad goes through them. */
export function numbersOf(
  check: FormCheck,
  form: CheckForm,
): { after: (path: string) => { path: string; label: string } | undefined } {
  const all: { path: string; label: string }[] = [];
  for (const field of CHECK_FIELDS[check]) {
    if (field.is === 'number') all.push({ path: field.name, label: t(field.label) });
    if (field.is !== 'rows') continue;
    for (const index of (form.rows[field.name] ?? []).keys()) {
      for (const one of field.fields) {
        if (one.is === 'number') {
          all.push({ path: `${field.name}[${index}].${one.name}`, label: t(one.label) });
        }
      }
    }
  }
  return {
    after: (path) => {
      const at = all.findIndex((one) => one.path === path);
      return at < 0 ? undefined : all[at + 1];
    },
  };
}
