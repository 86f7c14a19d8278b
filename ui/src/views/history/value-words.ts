import type { HistoryEntry } from '$lib/generated/commands';
import { t } from '$lib/messages';
import type { Quantity } from '$lib/quantity';
import { show } from '$lib/quantity/show';
import { bodyWords } from './body-words';

type Body = HistoryEntry['body'];

/** What a record says: its gist, else each of its fields by name. */
export function valueWords(kind: string, body: Body): string {
  return versionWords(kind, [body])[0] ?? '';
}

/**
 * What each of several versions of one value says: its gist, and by name the fields in which they
 * differ, so that a person can tell them apart.
 */
export function versionWords(kind: string, bodies: readonly Body[]): string[] {
  const gists = bodies.map((body) => bodyWords({ kind, body } as HistoryEntry));
  const lists = bodies.map((body) => new Map(body ? fields(body) : []));
  const differ = (name: string) =>
    lists.length < 2 || new Set(lists.map((list) => list.get(name))).size > 1;
  const apart = new Set(gists).size === gists.length;
  return bodies.map((body, index) => {
    if (!body) return t('history.withheld');
    const gist = gists[index] ?? '';
    if (gist && apart) return gist;
    const named = [...(lists[index] ?? [])]
      .filter(([name]) => differ(name))
      .map(([name, value]) => `${name}: ${value}`);
    return [gist, ...named].filter(Boolean).join('\n');
  });
}

/** Fields that name other things, or say where among its like a thing stands, tell a person nothing. */
const ID = /^[0-9a-f]{8}-[0-9a-f-]{27}$/;
const UNSAID = new Set(['order']);

function fields(value: object, under = ''): [string, string][] {
  return Object.entries(value).flatMap(([name, inner]: [string, unknown]): [string, string][] => {
    if (UNSAID.has(name)) return [];
    if (typeof inner === 'object' && inner !== null) {
      return fields(inner, joined(under, Array.isArray(value) ? `${Number(name) + 1}` : spaced(name)));
    }
    if (typeof inner === 'number') {
      const [plain, words] = withUnit(name, inner);
      return [[joined(under, plain), words]];
    }
    if (typeof inner === 'boolean') {
      return [[joined(under, spaced(name)), t(inner ? 'history.yes' : 'history.no')]];
    }
    if (typeof inner !== 'string' || ID.test(inner)) return [];
    return [[joined(under, spaced(name)), inner]];
  });
}

const spaced = (name: string) => name.replaceAll('_', ' ');
const joined = (under: string, name: string) => (under ? `${under}, ${name}` : name);

/** Endings of field names, longest first, and what they measure. */
const ENDINGS: readonly (readonly [string, Quantity])[] = [
  ['odometer_m', 'distance'],
  ['altitude_m', 'altitude'],
  ['clearance_m', 'clearance'],
  ['vacuum_pa', 'vacuum'],
  ['barometer_pa', 'barometer'],
  ['_n_per_m', 'spring_rate'],
  ['_m3_s', 'flow'],
  ['_kg_m3', 'density'],
  ['_m2_s', 'kinematic_viscosity'],
  ['_ohm', 'resistance'],
  ['_pa', 'pressure'],
  ['_m2', 'area'],
  ['_m', 'length'],
  ['_n', 'force'],
  ['_k', 'temperature'],
];

function withUnit(name: string, value: number): [string, string] {
  const quantity = ENDINGS.find(([ending]) => name.endsWith(ending))?.[1];
  if (!quantity) return [spaced(name), `${value}`];
  // The unit goes; a word that chose the quantity stays.
  return [spaced(name.replace(/_(n_per_m|m3_s|kg_m3|m2_s|ohm|pa|m2|m|n|k)$/, '')), show(value, quantity)];
}
