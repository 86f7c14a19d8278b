import type { BoreView, ProfileView } from '$lib/generated/commands';

/** One bore of the demo's six-speed unit, as the core tells it. */
export const bore: BoreView = {
  id: 'bore-1',
  body: {
    circuit: 'circuit-1',
    order: 'a',
    name: 'Solenoid feed regulator',
    diameter_m: 8.0065e-3,
    start_m: 0,
    end_m: 46.5e-3,
    material: 'aluminium_die_cast',
    spring_on_left: true,
    ports: [
      { name: 'exhaust', node: 'sump', start_m: 14e-3, end_m: 17.8e-3, side: 'above' },
      { name: 'line', node: 'line', start_m: 24e-3, end_m: 28e-3, side: 'above' },
    ],
    spool: { material: 'aluminium_wrought', stem_diameter_m: 4.4e-3, stroke_m: 4e-3, friction_n: 0.3 },
    source: 'Measuring sheet 12',
  },
  lands: [
    {
      id: 'land-1',
      body: {
        bore: 'bore-1',
        order: 'a',
        name: 'supply land',
        diameter_m: 7.9705e-3,
        start_m: 26e-3,
        end_m: 33e-3,
        seals: [{ left: 'line', left_port: 'line', right: 'sump' }],
      },
    },
  ],
  openings: [
    {
      id: 'opening-1',
      body: {
        bore: 'bore-1',
        role: 'supply',
        land: 'supply land',
        port: 'line',
        edge: 'left',
        circumference_fraction: 1,
      },
    },
  ],
  spring: {
    id: 'spring-1',
    body: { bore: 'bore-1', rate_n_per_m: 2600, load_regulating_n: 22.4, source: 'Measuring sheet 12' },
  },
  balance_orifice: {
    id: 'orifice-1',
    body: { bore: 'bore-1', diameter_m: 0.6e-3, length_m: 1.2e-3, source: 'Measuring sheet 12' },
  },
  test_points: [
    {
      id: 'point-1',
      body: {
        bore: 'bore-1',
        order: 'a',
        name: 'Reaction side',
        evacuates: 'reaction',
        isolates: ['supply land'],
        valve_position: 'at_rest',
        orifice: 'blocked',
        limit: { vacuum_pa: 67_727.8, law: 'gap', source: 'Shop rule' },
      },
    },
  ],
  drawing: {
    bore: 'bore-1',
    name: 'Solenoid feed regulator',
    diameter_m: 8.0065e-3,
    start_m: 0,
    end_m: 46.5e-3,
    spring_on_left: true,
    stem_diameter_m: 4.4e-3,
    stroke_m: 2e-3,
    ports: [],
    lands: [],
    openings: [],
    seals: [],
    relief: false,
  },
  can: ['limit', 'leak', 'pressure', 'spring_load'],
  costs: [],
};

/** A unit with that bore. */
export const unit: ProfileView = {
  id: 'unit-1',
  body: {
    name: 'Larkmoor L6',
    summary: 'Six speeds',
    oil: {
      name: 'Shop fluid',
      viscosity_40c_m2_s: 29.5e-6,
      viscosity_100c_m2_s: 5.9e-6,
      density_15c_kg_m3: 849,
    },
    hot_oil_temperature_k: 363.15,
    line_idle_pa: 551_580.5835,
    line_highest_pa: 1_723_689.3233,
    source: 'Service information, table 4',
  },
  circuits: [
    {
      id: 'circuit-1',
      body: {
        unit: 'unit-1',
        order: 'a',
        name: 'Solenoid feed',
        setpoint_pa: 448_159.2241,
        specified_low_pa: 420_580.1949,
        specified_high_pa: 475_738.2532,
        demand_m3_s: 2e-5,
        solenoids: 6,
        solenoid_kind: 'bleed',
        source: 'Service information, table 4',
      },
      taps: [],
      clutches: [],
      bores: [bore],
    },
  ],
  findings: [],
  removed: [],
  jobs: 0,
  undo: {},
};
