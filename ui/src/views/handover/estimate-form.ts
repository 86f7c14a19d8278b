import type { Estimate, EstimateLine, ShopTerms } from '$lib/generated/commands';
import type { Entry } from '$lib/quantity';
import { emptyEntry } from '$lib/quantity/entry';
import { moneyEntry, wholeOf, type Whole } from './money';

export interface LineForm {
  what: string;
  counted: EstimateLine['counted'];
  quantity: Entry;
  price: Entry;
  taxed: 'yes' | 'no';
}

/** What the form holds, as typed. */
export interface EstimateForm {
  currency: string;
  decimals: string;
  lines: LineForm[];
  tax: 'none' | 'on_top' | 'included';
  taxName: string;
  taxRate: Entry;
  note: string;
  keep: 'yes' | 'no';
}

/** A whole number with decimal places, as an entry to type over. */
function entryOfWhole(value: number, places: number, unit: Entry['unit']): Entry {
  return { ...moneyEntry(value, places), unit };
}

export function lineForm(line?: EstimateLine, decimals = 2): LineForm {
  return {
    what: line?.what ?? '',
    counted: line?.counted ?? 'hours',
    quantity: line ? entryOfWhole(line.quantity_thousandths, 3, 'count') : emptyEntry('count'),
    price: moneyEntry(line?.price_minor, decimals),
    taxed: line?.taxed === false ? 'no' : 'yes',
  };
}

export function estimateForm(estimate: Estimate | undefined, terms: ShopTerms): EstimateForm {
  const decimals = estimate?.decimals ?? terms.decimals ?? 2;
  const tax = estimate ? estimate.tax : terms.tax;
  return {
    currency: estimate?.currency ?? terms.currency ?? '',
    decimals: String(decimals),
    lines: estimate ? estimate.lines.map((line) => lineForm(line, decimals)) : [lineForm()],
    tax: tax ? (tax.included ? 'included' : 'on_top') : 'none',
    taxName: tax?.name ?? '',
    taxRate: tax ? entryOfWhole(tax.rate_millionths, 4, 'percent') : emptyEntry('percent'),
    note: estimate?.note ?? '',
    keep: 'no',
  };
}

/** What can't be read, by its field. */
export type Unread = Readonly<Record<string, Exclude<Whole, { ok: true }>['why']>>;

/** The estimate as the core takes it, or which fields can't be read. */
export function estimateOf(form: EstimateForm): { estimate?: Estimate; unread: Unread } {
  const unread: Record<string, Exclude<Whole, { ok: true }>['why']> = {};
  const decimals = Number(form.decimals);
  const read = (field: string, entry: Entry, places: number, signed: boolean): number => {
    const whole = wholeOf(entry, places, signed);
    if (whole.ok) return whole.value;
    unread[field] = whole.why;
    return 0;
  };
  const lines = form.lines.map((line, index) => ({
    what: line.what.trim(),
    counted: line.counted,
    quantity_thousandths: read(`lines[${index}].quantity_thousandths`, line.quantity, 3, false),
    price_minor: read(`lines[${index}].price_minor`, line.price, decimals, true),
    taxed: line.taxed === 'yes',
  }));
  const tax =
    form.tax === 'none'
      ? {}
      : {
          tax: {
            name: form.taxName.trim(),
            rate_millionths: read('tax.rate_millionths', form.taxRate, 4, false),
            included: form.tax === 'included',
          },
        };
  if (Object.keys(unread).length > 0) return { unread };
  return {
    unread,
    estimate: { currency: form.currency.trim(), decimals, lines, ...tax, note: form.note.trim() },
  };
}
