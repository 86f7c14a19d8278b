import { describe, expect, test } from 'vitest';
import { entryOf } from '$lib/quantity/entered';
import { checkForm, fieldAt, foundOf, limitAnswers, numbersOf, withLimits } from './check-form';

const LANDS = ['exhaust land', 'reaction land'];

describe('a check as it is typed', () => {
  test('lines that nobody filled aren’t sent, and findings still stand at their own lines', () => {
    const form = checkForm('diameters', LANDS);
    const second = form.rows['bore']?.[1];
    if (!second) throw new Error('the form starts with two diameters of the bore');
    second['diameter_m'] = entryOf(8e-3, 'length');
    second['station_m'] = entryOf(30e-3, 'length');
    const { found, sent, missing } = foundOf('diameters', form);
    expect(missing).toEqual([]);
    expect(found).toEqual({
      check: 'diameters',
      bore: [{ diameter_m: 8e-3, station_m: 30e-3, direction_rad: 0 }],
      valve: [],
    });
    expect(fieldAt('bore', sent, 1, 'diameter_m')).toBe('bore[0].diameter_m');
  });

  test('a diameter without its depth can’t be sent, and says which is missing', () => {
    const form = checkForm('diameters', LANDS);
    const first = form.rows['bore']?.[0];
    if (first) first['diameter_m'] = entryOf(8e-3, 'length');
    const { found, missing } = foundOf('diameters', form);
    expect(found).toBeUndefined();
    expect(missing).toEqual(['bore[0].station_m']);
  });

  test('what is on record comes back as it was', () => {
    const found = {
      check: 'spring',
      free_length_m: 30e-3,
      loads: [{ height_m: 22e-3, load_n: 17.2 }],
    } as const;
    const form = checkForm('spring', [], {
      occasion: 'after_cleaning',
      note: 'By the tester',
      found: { ...found, loads: [...found.loads] },
    });
    expect(form.occasion).toBe('after_cleaning');
    expect(foundOf('spring', form).found).toEqual(found);
  });

  test('the pad goes through all numbers, from list to list', () => {
    const { after } = numbersOf('diameters', checkForm('diameters', LANDS));
    expect(after('bore[1].station_m')?.path).toBe('valve[0].diameter_m');
    expect(after('valve[1].diameter_m')?.path).toBe('temperature_k');
    expect(after('temperature_k')).toBeUndefined();
  });

  test('of a solenoid starts from the limits of the unit’s only coil, and of several from none', () => {
    const limits = { low_ohm: 4.9, high_ohm: 5.7, limits_at_k: 293.15, source: 'service information' };
    const coil = { name: 'Solenoid feed', limits };
    const form = checkForm('solenoid', [], withLimits('solenoid', [coil]));
    form.answers['solenoid'] = 'A';
    form.answers['resistance_ohm'] = entryOf(5.3, 'resistance');
    expect(foundOf('solenoid', form).found).toMatchObject({ ...limits, resistance_ohm: 5.3 });
    expect(withLimits('solenoid', [coil, coil])).toBeUndefined();
    expect(withLimits('spring', [coil])).toBeUndefined();
    // Of several, one tap takes those of one.
    const chosen = checkForm('solenoid', []);
    Object.assign(chosen.answers, { solenoid: 'B', shut: 'good' }, limitAnswers(coil));
    expect(foundOf('solenoid', chosen).found).toMatchObject(limits);
  });
});
