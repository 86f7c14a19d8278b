import { afterEach, describe, expect, it } from 'vitest';
import type { Entry } from '$lib/quantity';
import { INCH_UNITS, METRIC_UNITS, UNITS, changeUnit, unitsOf } from '$lib/quantity';
import { settings } from '$lib/settings/settings.svelte';
import { FIELDS, fresh } from './fields';
import { enter, labelOf, numbersOf, read, type Spec, type Tree } from './form';
import { find, newIn, nextPart, placeOf } from './parts';
import { bore, unit } from './testing/unit';

afterEach(() => {
  settings.units = INCH_UNITS;
});

/** Every part of the unit, as the core has it. */
const PARTS = [
  ['unit', unit.body],
  ['circuit', unit.circuits[0]?.body],
  ['bore', bore.body],
  ['ports', bore.body],
  ['land', bore.lands[0]?.body],
  ['opening', bore.openings[0]?.body],
  ['spring', bore.spring?.body],
  ['balance_orifice', bore.balance_orifice?.body],
  ['test_point', bore.test_points[0]?.body],
] as const;

describe('the form of a part', () => {
  it.each(PARTS)('%s: opened and saved says what it said, in any unit', (part, body) => {
    for (const units of [INCH_UNITS, METRIC_UNITS]) {
      settings.units = units;
      const tree = enter(FIELDS[part], body);
      expect(read(FIELDS[part], tree, body)).toEqual({ body, unreadable: [], missing: [] });
      // The unit of each number is changed to every other and back: the values stay to the bit.
      const turned = turn(FIELDS[part], tree);
      expect(read(FIELDS[part], turned, body).body).toEqual(body);
    }
  });

  it('says which fields keep it from being saved, at their paths', () => {
    const tree = enter(FIELDS.ports, { ports: [{ name: 'line', node: 'line', side: 'above', start_m: 0.024 }] });
    const line = (tree['ports'] as Tree[])[0] as Tree;
    line['start_m'] = { ...(line['start_m'] as Entry), text: 'about 24', storedSi: null };
    const said = read(FIELDS.ports, tree, {});
    expect(said.unreadable).toEqual(['ports[0].start_m']);
    expect(said.missing).toEqual(['ports[0].end_m']);
  });

  it('leaves a group out that nobody entered, and wants the whole of one that somebody began', () => {
    const tree = enter(FIELDS.unit, fresh('unit', ''));
    expect(read(FIELDS.unit, tree, {}).body['oil']).toBeUndefined();
    const oil = tree['oil'] as Tree;
    oil['viscosity_40c_m2_s'] = { ...(oil['viscosity_40c_m2_s'] as Entry), text: '29.5' };
    expect(read(FIELDS.unit, tree, {}).missing).toEqual([
      'oil.viscosity_100c_m2_s',
      'oil.density_15c_kg_m3',
    ]);
  });

  it('begins a limit that a test point never had with an answer to each question', () => {
    const { limit: _, ...without } = bore.test_points[0]?.body ?? {};
    const tree = enter(FIELDS.test_point, without);
    expect(read(FIELDS.test_point, tree, without).body['limit']).toBeUndefined();
    const limit = tree['limit'] as Tree;
    limit['vacuum_pa'] = { text: '20', unit: 'inHg', storedSi: null };
    expect(read(FIELDS.test_point, tree, without).body['limit']).toMatchObject({ law: 'gap', source: '' });
  });

  it('writes holes for a groove and takes them back', () => {
    const body = bore.openings[0]?.body;
    const tree = enter(FIELDS.opening, body);
    const window = tree['window'] as Tree;
    window['chosen'] = 'round_holes';
    const holes = window['round_holes'] as Tree;
    holes['count'] = { ...(holes['count'] as Entry), text: '4' };
    holes['diameter_m'] = { text: '1.5', unit: 'mm', storedSi: null };
    const said = read(FIELDS.opening, tree, body).body['window'];
    expect(said).toEqual({ round_holes: { count: 4, diameter_m: expect.closeTo(0.0015, 9) as number } });
    window['chosen'] = '';
    expect(read(FIELDS.opening, tree, body).body['window']).toBeUndefined();
  });

  it('goes from number to number in the order of the screen', () => {
    const tree = enter(FIELDS.bore, bore.body);
    expect(numbersOf(FIELDS.bore, tree)).toEqual([
      'diameter_m',
      'start_m',
      'end_m',
      'spool.stem_diameter_m',
      'spool.stroke_m',
      'spool.friction_n',
    ]);
    expect(labelOf(FIELDS.bore, 'spool.stroke_m')).toBe('unit.travel');
    expect(labelOf(FIELDS.ports, 'ports[3].start_m')).toBe('profile.left_edge');
    expect(labelOf(FIELDS.opening, 'window.notches.width_m')).toBe('profile.window.width');
  });
});

describe('the parts of a unit', () => {
  it('finds a part, and a new one by what it will belong to', () => {
    const land = bore.lands[0];
    expect(find(unit, 'land', land?.id ?? '')?.body).toBe(land?.body);
    expect(find(unit, 'land', newIn(bore.id))).toMatchObject({ body: undefined, bore: { id: bore.id } });
    expect(find(unit, 'land', 'nowhere')).toBeUndefined();
  });

  it('leads to what is missing, a whole part to its own form', () => {
    expect(nextPart({ ...unit, circuits: [] })?.route).toMatchObject({ part: 'circuit', target: newIn(unit.id) });
    const cost = { id: bore.id, kind: 'bore', field: 'spring', costs: ['pressure'] } as const;
    expect(placeOf(unit, cost)).toEqual({
      route: { at: 'unit_part', unit: unit.id, part: 'spring', target: newIn(bore.id) },
      words: 'Spring',
    });
    expect(placeOf(unit, { id: bore.id, kind: 'bore', field: 'ports[1].start_m' })).toEqual({
      route: { at: 'unit_part', unit: unit.id, part: 'ports', target: bore.id },
      words: 'Solenoid feed regulator: Left edge',
    });
  });
});

/** The tree with each number told in every other unit and then in its first again. */
function turn(fields: readonly Spec[], tree: Tree): Tree {
  const turned: Tree = { ...tree };
  for (const field of fields) {
    const value = tree[field.at];
    if (field.as === 'number') {
      let entry = value as Entry;
      const { unit: first } = entry;
      for (const one of [...unitsOf(field.quantity), first]) entry = changeUnit(entry, one, 'en');
      expect(UNITS[entry.unit]).toBe(UNITS[first]);
      turned[field.at] = entry;
    } else if (field.as === 'group') turned[field.at] = turn(field.fields, value as Tree);
    else if (field.as === 'list') {
      turned[field.at] = (value as Tree[]).map((line) => turn(field.fields, line));
    }
  }
  return turned;
}
