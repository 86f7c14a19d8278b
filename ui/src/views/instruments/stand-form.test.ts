import { describe, expect, it } from 'vitest';
import { typeInto } from '$lib/quantity';
import { orificeRow, standForm, standOf } from './stand-form';

const GAUGE = '00000000-0000-7000-8000-000000000001';
const STAND = {
  name: 'Bench 2',
  gauge: GAUGE,
  orifices: [
    {
      label: '0.5',
      diameter_m: 0.0005,
      sonic_conductance_m3_s_pa: 3.129e-10,
      critical_ratio: 0.528,
    },
  ],
  dead_head_follows_barometer: false,
  altitude_m: 1480,
};

describe('the form of a stand', () => {
  it('gives back what is on record, bit for bit', () => {
    expect(standOf(standForm(STAND, ''))).toEqual({ stand: STAND, missing: [] });
  });

  it('shows a conductance as its certificate does', () => {
    // ISO 6358 gives C in dm³/(s·bar): 1e-3 m³ over 1e5 Pa, so 3.129e-10 is 0.03129.
    const [row] = standForm(STAND, '').orifices;
    expect(row?.numbers.sonic_conductance_m3_s_pa.text).toBe('0.03129');
  });

  it('names an orifice’s missing number and keeps the rest', () => {
    const form = standForm(STAND, '');
    form.orifices.push({ ...orificeRow(), label: '1.1' });
    const { stand, missing } = standOf(form);
    expect(stand).toBeUndefined();
    expect(missing).toEqual([
      'orifices[1].diameter_m',
      'orifices[1].sonic_conductance_m3_s_pa',
      'orifices[1].critical_ratio',
    ]);
  });

  it('keeps what is no number and saves nothing', () => {
    const form = standForm(STAND, '');
    form.altitude = typeInto(form.altitude, '14..80');
    expect(standOf(form).stand).toBeUndefined();
    expect(form.altitude.text).toBe('14..80');
  });
});
