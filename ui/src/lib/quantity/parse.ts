import { type Unit, toSi } from './units';

/** What a person typed, kept beside the SI value so that no digit of it is lost. */
export interface AsTyped {
  readonly text: string;
  /** The number in digits with a point, as a record stores it. */
  readonly decimal: string;
  readonly unit: Unit;
}

export type TypedFinding =
  | { readonly code: 'empty' }
  | { readonly code: 'not_a_number' }
  /** "1,234" with a comma that groups here and is a decimal mark elsewhere: both readings. */
  | { readonly code: 'ambiguous_mark'; readonly grouped: string; readonly decimal: string }
  /** A decimal mark that this locale does not have. */
  | { readonly code: 'wrong_decimal_mark'; readonly expected: string }
  | { readonly code: 'negative' }
  | { readonly code: 'too_many_digits'; readonly limit: number };

export type Parsed =
  | { readonly ok: true; readonly si: number; readonly value: number; readonly asTyped: AsTyped }
  | { readonly ok: false; readonly finding: TypedFinding };

export interface NumberMarks {
  readonly decimal: string;
  readonly group: string;
}

/** A double holds fifteen decimal digits whatever they are. */
const DIGIT_LIMIT = 15;

/** The locale's decimal mark and grouping mark. */
export function numberMarks(locale: string): NumberMarks {
  const parts = new Intl.NumberFormat(locale, {
    numberingSystem: 'latn',
    useGrouping: true,
  }).formatToParts(-1234567.8);
  const find = (type: string) => parts.find((part) => part.type === type)?.value;
  return { decimal: find('decimal') ?? '.', group: find('group') ?? '' };
}

const isSpace = (mark: string) => /^\s$/u.test(mark);
const fail = (finding: TypedFinding): Parsed => ({ ok: false, finding });

/** Digits in threes, as grouping has them: "1,234", "12,345,678". */
function isGrouped(whole: string, mark: string): boolean {
  const groups = whole.split(mark);
  const [first = '', ...rest] = groups;
  return /^[1-9]\d{0,2}$/.test(first) && rest.length > 0 && rest.every((g) => /^\d{3}$/.test(g));
}

/**
 * Reads a typed number the way the locale writes it, and refuses rather than guesses.
 *
 * One grouping mark followed by three digits could be meant as a decimal mark by someone used to
 * the other convention, so it is a finding, not a number a thousand times off. A mark that is not
 * the locale's own is a finding too.
 */
export function parseTyped(text: string, unit: Unit, locale: string, signed = true): Parsed {
  const marks = numberMarks(locale);
  let rest = text.trim().replace(/[\u2212\u2013]/g, '-').replace(/[\u2018\u2019]/g, '’');
  if (rest === '') return fail({ code: 'empty' });
  let sign = '';
  if (/^[+-]/.test(rest)) {
    if (rest.startsWith('-')) sign = '-';
    rest = rest.slice(1).trimStart();
  }
  if (!/^[\d.,’'\s]+$/u.test(rest) || !/\d/.test(rest)) return fail({ code: 'not_a_number' });

  const cut = rest.split(marks.decimal);
  if (cut.length > 2) {
    return fail({ code: 'not_a_number' });
  }
  let whole = cut[0] ?? '';
  const fraction = cut[1];
  if (fraction !== undefined && !/^\d*$/.test(fraction)) {
    return fail({ code: 'not_a_number' });
  }

  if (!/^\d*$/.test(whole)) {
    const found = [...new Set(whole.replace(/\d/g, ''))];
    const mark = found[0] ?? '';
    const ours = mark === marks.group || (isSpace(mark) && isSpace(marks.group));
    const grouped = found.length === 1 && isGrouped(whole, mark);
    if (!ours || !grouped) {
      // A lone mark could be the other convention's decimal mark: say which one counts here.
      const lone = whole.split(mark).length === 2 && fraction === undefined;
      const decimalElsewhere = (mark === '.' || mark === ',') && lone;
      return fail(
        decimalElsewhere
          ? { code: 'wrong_decimal_mark', expected: marks.decimal }
          : { code: 'not_a_number' },
      );
    }
    const couldBeDecimal = (mark === '.' || mark === ',') && fraction === undefined;
    if (couldBeDecimal && whole.split(mark).length === 2) {
      return fail({
        code: 'ambiguous_mark',
        grouped: sign + whole.replace(mark, ''),
        decimal: sign + whole.replace(mark, marks.decimal),
      });
    }
    whole = whole.split(mark).join('');
  }

  const significant = (whole + (fraction ?? '')).replace(/^0+/, '');
  if (significant.length > DIGIT_LIMIT) {
    return fail({ code: 'too_many_digits', limit: DIGIT_LIMIT });
  }
  const integer = whole.replace(/^0+(?=\d)/, '') || '0';
  const decimal = `${sign}${integer}${fraction ? `.${fraction}` : ''}`;
  const value = Number(decimal);
  if (value < 0 && !signed) return fail({ code: 'negative' });
  const si = toSi(value, unit);
  if (!Number.isFinite(si)) return fail({ code: 'not_a_number' });
  return { ok: true, si, value: value === 0 ? 0 : value, asTyped: { text, decimal, unit } };
}

/** A stored decimal ("0.3138") the way the locale types it: no grouping, its own mark. */
export function typeDecimal(decimal: string, locale: string): string {
  return decimal.replace('.', numberMarks(locale).decimal).replace('-', '\u2212');
}

/**
 * An SI value as text to edit in `unit`: all the digits it has there, noise of the conversion
 * left off, no grouping.
 */
export function typeSi(value: number, locale: string): string {
  const plain = Number(value.toPrecision(12));
  const text = new Intl.NumberFormat('en-US', {
    useGrouping: false,
    maximumSignificantDigits: 12,
  }).format(plain);
  return typeDecimal(text, locale);
}
