import type { PlainKey } from '$lib/messages';
import type { Entry, Quantity } from '$lib/quantity';
import { entryOf, valueOf } from '$lib/quantity/entered';

/** Something that a form can ask for, and where it stands in the body. */
export type Spec =
  | {
      readonly as: 'number';
      readonly at: string;
      readonly label: PlainKey;
      readonly note?: PlainKey;
      readonly quantity: Quantity;
      /** It can't be left out. */
      readonly needed?: true;
    }
  | {
      readonly as: 'text';
      readonly at: string;
      readonly label: PlainKey;
      readonly note?: PlainKey;
    }
  | {
      readonly as: 'choice';
      readonly at: string;
      readonly label: PlainKey;
      readonly note?: PlainKey;
      readonly options: readonly (readonly [value: string, label: PlainKey])[];
    }
  | {
      /** One land or port of the bore. */
      readonly as: 'name';
      readonly at: string;
      readonly label: PlainKey;
      readonly of: 'lands' | 'ports';
      /** What none of them means; absent: one must be chosen. */
      readonly none?: PlainKey;
    }
  | {
      /** Any number of the bore's lands. */
      readonly as: 'names';
      readonly at: string;
      readonly label: PlainKey;
      readonly note?: PlainKey;
      readonly of: 'lands';
    }
  | {
      /** Several fields that are there together or not at all. */
      readonly as: 'group';
      readonly at: string;
      readonly label: PlainKey;
      readonly note?: PlainKey;
      readonly fields: readonly Spec[];
      readonly optional?: true;
    }
  | {
      /** One of several sets of fields, as `{chosen: {…}}`, or nothing. */
      readonly as: 'variant';
      readonly at: string;
      readonly label: PlainKey;
      readonly note?: PlainKey;
      readonly none: PlainKey;
      readonly options: readonly (readonly [value: string, label: PlainKey, fields: readonly Spec[]])[];
    }
  | {
      readonly as: 'list';
      readonly at: string;
      readonly label: PlainKey;
      readonly add: PlainKey;
      readonly fields: readonly Spec[];
      /** What a new line starts from. */
      readonly fresh: Readonly<Record<string, unknown>>;
    };

/** A form as it stands on the screen: like the body, with each number as it was typed. */
export interface Tree {
  [at: string]: Entry | string | string[] | Tree | Tree[];
}

type Body = Readonly<Record<string, unknown>>;
const isBody = (value: unknown): value is Body =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const part = (body: unknown, at: string): unknown => (isBody(body) ? body[at] : undefined);
const text = (value: unknown): string =>
  typeof value === 'string' ? value : typeof value === 'boolean' ? String(value) : '';

/** A body as a form shows it. */
export function enter(fields: readonly Spec[], body: unknown): Tree {
  const tree: Tree = {};
  for (const field of fields) {
    const value = part(body, field.at);
    switch (field.as) {
      case 'number':
        tree[field.at] = entryOf(typeof value === 'number' ? value : null, field.quantity);
        break;
      case 'names':
        tree[field.at] = Array.isArray(value) ? value.map(text) : [];
        break;
      case 'group':
        tree[field.at] = enter(field.fields, value);
        break;
      case 'variant': {
        const chosen = field.options.find(([name]) => isBody(part(value, name)))?.[0] ?? '';
        const inner: Tree = { chosen };
        for (const [name, , within] of field.options) inner[name] = enter(within, part(value, name));
        tree[field.at] = inner;
        break;
      }
      case 'list':
        tree[field.at] = Array.isArray(value) ? value.map((line) => enter(field.fields, line)) : [];
        break;
      case 'choice': {
        // What was never asked starts from the first answer.
        const said = text(value);
        const known = field.options.some(([name]) => name === said);
        tree[field.at] = known ? said : (field.options[0]?.[0] ?? '');
        break;
      }
      default:
        tree[field.at] = text(value);
    }
  }
  return tree;
}

/** What a form says: the body, and the fields that keep it from being one. */
export interface Read {
  readonly body: Record<string, unknown>;
  /** Fields with a text that is no number. */
  readonly unreadable: readonly string[];
  /** Fields that can't be left out and were. */
  readonly missing: readonly string[];
}

const isEmpty = (fields: readonly Spec[], tree: Tree): boolean =>
  fields.every((field) => {
    if (field.as === 'number') return (tree[field.at] as Entry).text.trim() === '';
    return field.as !== 'text' || (tree[field.at] as string).trim() === '';
  });

/** Reads a form. What it doesn't ask for stays as it is in `base`. */
export function read(fields: readonly Spec[], tree: Tree, base: unknown, at = ''): Read {
  const body: Record<string, unknown> = isBody(base) ? { ...base } : {};
  const unreadable: string[] = [];
  const missing: string[] = [];
  const within = (inner: Read) => {
    unreadable.push(...inner.unreadable);
    missing.push(...inner.missing);
    return inner.body;
  };
  for (const field of fields) {
    const here = at === '' ? field.at : `${at}.${field.at}`;
    const typed = tree[field.at];
    switch (field.as) {
      case 'number': {
        const value = valueOf(typed as Entry, field.quantity);
        if (value === 'unreadable') unreadable.push(here);
        else if (value === null) {
          body[field.at] = undefined;
          if (field.needed) missing.push(here);
        } else body[field.at] = field.quantity === 'count' ? Math.round(value) : value;
        break;
      }
      case 'names':
        body[field.at] = typed;
        break;
      case 'name':
        if (typed === '') {
          body[field.at] = undefined;
          if (field.none === undefined) missing.push(here);
        } else body[field.at] = typed;
        break;
      case 'choice': {
        const yes = field.options.some(([value]) => value === 'true');
        if (typed === '') body[field.at] = undefined;
        else body[field.at] = yes ? typed === 'true' : typed;
        break;
      }
      case 'group':
        if (field.optional && isEmpty(field.fields, typed as Tree)) body[field.at] = undefined;
        else body[field.at] = within(read(field.fields, typed as Tree, part(base, field.at), here));
        break;
      case 'variant': {
        const inner = typed as Tree;
        const chosen = field.options.find(([name]) => name === inner['chosen']);
        if (!chosen) {
          body[field.at] = undefined;
          break;
        }
        const [name, , fieldsOf] = chosen;
        const old = part(part(base, field.at), name);
        const said = within(read(fieldsOf, inner[name] as Tree, old, `${here}.${name}`));
        body[field.at] = { [name]: said };
        break;
      }
      case 'list': {
        body[field.at] = (typed as Tree[]).map((line, index) =>
          within(read(field.fields, line, {}, `${here}[${index}]`)),
        );
        break;
      }
      default:
        body[field.at] = (typed as string).trim();
    }
  }
  return { body, unreadable, missing };
}

/** The number fields of a form in the order in which they stand, for going from one to the next. */
export function numbersOf(fields: readonly Spec[], tree: Tree, at = ''): string[] {
  return fields.flatMap((field) => {
    const here = at === '' ? field.at : `${at}.${field.at}`;
    switch (field.as) {
      case 'number':
        return [here];
      case 'group':
        return numbersOf(field.fields, tree[field.at] as Tree, here);
      case 'variant': {
        const inner = tree[field.at] as Tree;
        const chosen = field.options.find(([name]) => name === inner['chosen']);
        return chosen ? numbersOf(chosen[2], inner[chosen[0]] as Tree, `${here}.${chosen[0]}`) : [];
      }
      case 'list':
        return (tree[field.at] as Tree[]).flatMap((line, index) =>
          numbersOf(field.fields, line, `${here}[${index}]`),
        );
      default:
        return [];
    }
  });
}

/** The field of a path, and its words. */
export function labelOf(fields: readonly Spec[], path: string): PlainKey | undefined {
  const [head = '', ...rest] = path.replace(/\[\d+\]/g, '').split('.');
  const field = fields.find(({ at }) => at === head);
  if (!field) return undefined;
  if (rest.length === 0) return field.label;
  if (field.as === 'group' || field.as === 'list') {
    return labelOf(field.fields, rest.join('.')) ?? field.label;
  }
  if (field.as === 'variant') {
    const chosen = field.options.find(([name]) => name === rest[0]);
    return (chosen && labelOf(chosen[2], rest.slice(1).join('.'))) ?? field.label;
  }
  return field.label;
}
