import type { ProfilePartName, Route } from '$lib/app/route';
import type {
  BoreView,
  CircuitView,
  Finding,
  Judged,
  PartCost,
  PartFinding,
  ProfilePart,
  ProfileView,
} from '$lib/generated/commands';
import { t, type PlainKey } from '$lib/messages';
import { FIELDS, PART_WORDS } from './fields';
import { labelOf, numbersOf, enter } from './form';

export type FormPart = Exclude<ProfilePartName, 'shape'>;

/** How a part that isn't there yet is named in an address: by what it will belong to. */
export const newIn = (parent: string) => `new-${parent}`;
export const parentOf = (target: string) =>
  target.startsWith('new-') ? target.slice('new-'.length) : undefined;

/** The subject of what isn't saved yet. */
export const NIL = '00000000-0000-0000-0000-000000000000';

/** A part of a unit with what it lies in. */
export interface Found {
  readonly body: unknown;
  readonly circuit?: CircuitView | undefined;
  readonly bore?: BoreView | undefined;
}

/** A part by its subject; a new one by that of its parent, without a body. */
export function find(view: ProfileView, part: FormPart, target: string): Found | undefined {
  const parent = parentOf(target);
  if (part === 'unit') return { body: view.body };
  if (parent === view.id) return { body: undefined };
  for (const circuit of view.circuits) {
    if (circuit.id === parent) return { body: undefined, circuit };
    if (circuit.id === target) return { body: circuit.body, circuit };
    const beside = [...circuit.taps, ...circuit.clutches];
    for (const one of [...beside, ...(circuit.relief ? [circuit.relief] : [])]) {
      if (one.id === target) return { body: one.body, circuit };
    }
    for (const bore of circuit.bores) {
      if (bore.id === parent) return { body: undefined, circuit, bore };
      if (bore.id === target) return { body: bore.body, circuit, bore };
      const inside = [
        ...bore.lands,
        ...bore.openings,
        ...bore.test_points,
        ...(bore.spring ? [bore.spring] : []),
        ...(bore.balance_orifice ? [bore.balance_orifice] : []),
      ].find(({ id }) => id === target);
      if (inside) return { body: inside.body, circuit, bore };
    }
  }
  return undefined;
}

/** The name of the core for what a form writes. */
export const corePart = (part: FormPart): ProfilePart['part'] => (part === 'ports' ? 'bore' : part);

/** The form in which a field of a part is entered. */
function formOf(kind: string, field: string): FormPart {
  if (kind === 'bore' && field.startsWith('ports')) return 'ports';
  return kind as FormPart;
}

/** What a missing part of a bore or a circuit is called on the wire. */
const WHOLE_PARTS: Readonly<Record<string, FormPart>> = {
  spring: 'spring',
  balance_orifice: 'balance_orifice',
  lands: 'land',
  openings: 'opening',
  test_points: 'test_point',
  clutches: 'clutch',
};

/** Where a field of a part is entered, what it is called, and where it lies. */
export interface Place {
  readonly route: Route;
  readonly words: string;
}

/** The place of a finding or of something missing. */
export function placeOf(view: ProfileView, at: { id: string; kind: string; field: string }): Place {
  const unit = view.id;
  const whole = at.kind === 'bore' || at.kind === 'circuit' ? WHOLE_PARTS[at.field] : undefined;
  if (whole) {
    const route = { at: 'unit_part', unit, part: whole, target: newIn(at.id) } as const;
    return { route, words: t(PART_WORDS[whole]) };
  }
  const part = formOf(at.kind, at.field);
  const found = find(view, part, at.id);
  const name = nameOf(found?.body);
  const label = labelOf(FIELDS[part], at.field);
  const words = [name || t(PART_WORDS[part]), ...(label ? [t(label)] : [])].join(': ');
  return { route: { at: 'unit_part', unit, part, target: at.id }, words };
}

/** The name that a body gives itself. */
export function nameOf(body: unknown): string {
  const name = typeof body === 'object' && body !== null && 'name' in body ? body.name : '';
  return typeof name === 'string' ? name : '';
}

/** The findings of one part, with their fields. */
export function findingsOf(view: ProfileView, part: FormPart, id: string): Finding[] {
  return view.findings
    .filter((found) => found.id === id && formOf(found.kind, found.finding.field) === part)
    .map(({ finding }) => finding);
}

const WEIGHT = { wrong: 0, doubt: 1, note: 2 } as const satisfies Record<Finding['severity'], number>;

/** All findings, what weighs most first. */
export const weighed = (findings: readonly PartFinding[]): PartFinding[] =>
  [...findings].sort((a, b) => WEIGHT[a.finding.severity] - WEIGHT[b.finding.severity]);

export const JUDGED_WORDS = {
  limit: 'profile.judged.limit',
  leak: 'profile.judged.leak',
  pressure: 'profile.judged.pressure',
  spring_load: 'profile.judged.spring_load',
  clutch_torque: 'profile.judged.clutch_torque',
} as const satisfies Record<Judged, PlainKey>;

/** Judgements in a sentence. */
export const judgedWords = (judged: readonly Judged[]): string =>
  judged.map((one) => t(JUDGED_WORDS[one])).join(', ');

/** The next thing to enter: what is not there yet, from the unit inwards. */
export function nextPart(view: ProfileView): { readonly route: Route; readonly words: string } | undefined {
  const unit = view.id;
  const to = (part: ProfilePartName, target: string, words = t(PART_WORDS[part])) => ({
    route: { at: 'unit_part', unit, part, target } as const,
    words,
  });
  if (view.circuits.length === 0) return to('circuit', newIn(unit));
  for (const circuit of view.circuits) {
    if (circuit.bores.length === 0) return to('shape', circuit.id);
    for (const bore of circuit.bores) {
      const bare = bore.costs.find(({ kind }) => kind === 'bore' || kind === 'land');
      const cost = bare ?? bore.costs.find(({ kind }) => kind === 'test_point' || kind === 'spring');
      if (cost) return costPlace(view, cost);
    }
  }
  return undefined;
}

/** Where something missing is entered; the words name the part alone. */
export function costPlace(view: ProfileView, cost: PartCost): Place {
  const place = placeOf(view, cost);
  const { route } = place;
  if (route.at !== 'unit_part') return place;
  const name = parentOf(route.target) === undefined ? nameOf(find(view, route.part as FormPart, route.target)?.body) : '';
  return { route, words: name || t(PART_WORDS[route.part]) };
}

/** How many numbers of a part are entered. */
export function entered(part: FormPart, body: unknown): number {
  return numbersOf(FIELDS[part], enter(FIELDS[part], body)).length;
}
