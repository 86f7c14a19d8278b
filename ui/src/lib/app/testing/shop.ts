/** An invented shop for tests of the interface. */
import type {
  HazardState,
  JobView,
  Overview,
  UnitView,
  UndoStep,
} from '$lib/generated/commands';

export const PERSON = { id: 'p-1', name: 'Maro Ilves' };
export const UNIT = 'u-1';
export const JOB = 'j-1';

export function overview(change: Partial<Overview> = {}): Overview {
  return {
    shop_name: 'Harrow Lane Transmissions',
    demo: true,
    author: PERSON.id,
    people: [PERSON, { id: 'p-2', name: 'Wen Okafor-Lindqvist' }],
    instruments: [],
    stands: [
      {
        id: 's-1',
        stand: {
          name: 'Bench stand',
          altitude_m: 1480,
          dead_head_follows_barometer: true,
          gauge: 'i-1',
          orifices: [
            { label: 'A', diameter_m: 0.0005, critical_ratio: 0.4, sonic_conductance_m3_s_pa: 3e-10 },
            { label: 'B', diameter_m: 0.0008, critical_ratio: 0.4, sonic_conductance_m3_s_pa: 8e-10 },
          ],
        },
      },
      {
        id: 's-2',
        stand: {
          name: 'Van stand',
          dead_head_follows_barometer: false,
          gauge: 'i-1',
          orifices: [],
        },
      },
    ],
    units: [
      {
        id: UNIT,
        name: 'Kestrel six-speed',
        summary: 'Regulator with an exhaust opening, small balance orifice',
        bores: [{ id: 'bore-1', name: 'Solenoid feed regulator' }],
      },
    ],
    settings: {
      pressure: 'psi',
      vacuum: 'inHg',
      length: 'in',
      force: 'lbf',
      temperature: '°F',
      theme: 'system',
      locale: 'en-US',
    },
    today: '2026-11-25',
    undo: {},
    ...change,
  };
}

export function step(kind: string, subject = JOB): UndoStep {
  return { kind, subject, at: '2026-11-25T09:30:00Z', records: 1 };
}

export const HAZARDS: HazardState[] = [
  { hazard: 'high_voltage' },
  { hazard: 'hot_oil' },
  { hazard: 'retained_springs' },
  { hazard: 'compressed_air' },
  { hazard: 'solvent' },
  { hazard: 'vacuum_pump' },
];

export function readAll(hazards: readonly HazardState[] = HAZARDS): HazardState[] {
  const read = { by: PERSON.name, at: '2026-11-25T08:10:00Z' };
  return hazards.map((state) => ({ ...state, read }));
}

export function jobView(change: Partial<JobView> = {}): JobView {
  return {
    id: JOB,
    job: { number: '0147', opened_on: '2026-11-24', unit: UNIT },
    unit_name: 'Kestrel six-speed',
    opened_by: PERSON.name,
    vehicle: { description: '2014 Tarn estate, diesel', odometer_m: 214_000_000 },
    complaint: { text: 'Harsh 2-3 when hot, fine when cold.' },
    notes: { text: '' },
    handover: {
      agreed: 'not_yet',
      came_back: 0,
      changed_since: false,
      currency: '',
      decimals: 0,
      fitted: 0,
      open: 0,
      warranty: false,
    },
    erased: [],
    findings: [],
    hazards: HAZARDS,
    bores: [
      {
        bore: 'b-1',
        name: 'Solenoid feed regulator',
        circuit_name: 'Solenoid feed',
      relief: { in_profile: false },
      repairs: [],
      oil_checks: [],
        test_points: [
          {
            test_point: 'tp-1',
            name: 'Reaction side',
            tests: [
              {
                test: 't-1',
                begun: { by: PERSON.name, at: '2026-11-24T15:02:00Z' },
                readings: 3,
                mean_vacuum_pa: 53_900,
                decided: 'outside_limit',
              },
            ],
          },
        ],
      },
    ],
    undo: {},
    taps: { taps: 0, readings: 0, outside: 0, too_close: 0 },
    ...change,
  };
}

export function unitView(): UnitView {
  const source = 'Invented for tests';
  const unit = {
    name: 'Kestrel six-speed',
    summary: 'Regulator with an exhaust opening, small balance orifice',
    hot_oil_temperature_k: 363.15,
    line_idle_pa: 500_000,
    line_highest_pa: 2_068_000,
    oil: {
      name: 'Shop oil 7',
      density_15c_kg_m3: 850,
      viscosity_40c_m2_s: 30e-6,
      viscosity_100c_m2_s: 6e-6,
    },
    source,
  };
  const lands = [
    { name: 'spring land', start_m: 0.012, end_m: 0.0185, diameter_m: 0.00797 },
    { name: 'metering land', start_m: 0.0245, end_m: 0.0308, diameter_m: 0.00797 },
    { name: 'reaction land', start_m: 0.0358, end_m: 0.0418, diameter_m: 0.00797 },
  ];
  const ports = [
    { name: 'exhaust', node: 'sump', side: 'above', start_m: 0.0128, end_m: 0.0172 },
    { name: 'feed', node: 'feed', side: 'below', start_m: 0.0195, end_m: 0.0238 },
    { name: 'line', node: 'line', side: 'above', start_m: 0.0256, end_m: 0.03 },
    { name: 'vent', node: 'sump', side: 'above', start_m: 0.0322, end_m: 0.0352 },
    { name: 'balance', node: 'reaction', side: 'below', start_m: 0.0462, end_m: 0.0474 },
  ] as const;
  const bore = {
    circuit: 'c-1',
    name: 'Solenoid feed regulator',
    order: 'a',
    diameter_m: 0.008,
    start_m: 0,
    end_m: 0.052,
    material: 'aluminium_die_cast' as const,
    ports: [...ports],
    source,
    spool: { friction_n: 0.5, material: 'aluminium_wrought' as const, stem_diameter_m: 0.0042, stroke_m: 0.005 },
    spring_on_left: true,
  };
  const circuit = {
    unit: UNIT,
    name: 'Solenoid feed',
    order: 'a',
    setpoint_pa: 820_000,
    specified_low_pa: 793_000,
    specified_high_pa: 848_000,
    demand_m3_s: 5e-5,
    solenoids: 6,
    source,
  };
  const point = {
    bore: 'b-1',
    name: 'Reaction side',
    order: 'a',
    evacuates: 'reaction' as const,
    isolates: ['reaction land'],
    orifice: 'blocked' as const,
    valve_position: 'held_regulating' as const,
    limit: { law: 'gap' as const, vacuum_pa: 67_728, source },
  };
  return {
    profile: {
      id: UNIT,
      unit,
      bores: [
        {
          id: 'b-1',
          bore,
          circuit,
          unit,
          lands: lands.map((land, index) => ({
            ...land,
            bore: 'b-1',
            order: String(index),
            seals: index === 2 ? [{ left: 'sump' as const, right: 'reaction' as const }] : [],
          })),
          openings: [],
          spring: { bore: 'b-1', load_regulating_n: 41, rate_n_per_m: 3200, source },
          balance_orifice: { bore: 'b-1', diameter_m: 0.00102, length_m: 0.0012, source },
          relief: null,
          test_points: [['tp-1', point]],
        },
      ],
    },
    findings: [],
    drawings: [
      {
        bore: 'b-1',
        name: bore.name,
        diameter_m: bore.diameter_m,
        start_m: 0,
        end_m: 0.052,
        lands,
        ports: [...ports],
        openings: [{ port: 'line', supply: true, open_m: 0.0001 }],
        seals: [],
        relief: false,
        spring_on_left: true,
        stem_diameter_m: 0.0042,
        stroke_m: 0.001,
        balance_orifice_m: 0.00102,
      },
    ],
  };
}
