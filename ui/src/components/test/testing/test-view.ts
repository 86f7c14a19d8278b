/** A vacuum test of an invented shop, as the core answered it: three readings, outside the limit. */
import type { Consequence, Leak, TestView } from '$lib/generated/commands';

export const MEASURED: TestView = {
  blank: { as_typed: '27.8 inHg', vacuum_pa: 94141.6 },
  bore_name: 'Solenoid feed regulator',
  decision: null,
  drawing: {
    balance_orifice_m: 0.0006,
    bore: 'id-8',
    diameter_m: 0.0080065,
    end_m: 0.0465,
    lands: [
      {
        diameter_m: 0.0079705,
        end_m: 0.0180225,
        name: 'exhaust land',
        start_m: 0.0110225,
      },
      {
        diameter_m: 0.0079705,
        end_m: 0.0310225,
        name: 'supply land',
        start_m: 0.0240225,
      },
      {
        diameter_m: 0.0079705,
        end_m: 0.0415225,
        name: 'reaction land',
        start_m: 0.0340225,
      },
    ],
    name: 'Solenoid feed regulator',
    openings: [
      { open_m: 2.2482e-05, port: 'line', supply: true },
      { open_m: -0.000222482, port: 'exhaust', supply: false },
    ],
    ports: [
      { end_m: 0.0178, name: 'exhaust', node: 'sump', side: 'above', start_m: 0.014 },
      { end_m: 0.0225, name: 'feed', node: 'feed', side: 'below', start_m: 0.0195 },
      { end_m: 0.028, name: 'line', node: 'line', side: 'above', start_m: 0.024 },
      { end_m: 0.0375, name: 'vent', node: 'sump', side: 'above', start_m: 0.0335 },
      {
        end_m: 0.0455,
        name: 'reaction',
        node: 'reaction',
        side: 'below',
        start_m: 0.044,
      },
    ],
    relief: false,
    seals: [
      {
        end_m: 0.014,
        land: 'exhaust land',
        left: 'spring_chamber',
        right: 'sump',
        start_m: 0.0110225,
        tested: false,
      },
      {
        end_m: 0.0310225,
        land: 'supply land',
        left: 'line',
        right: 'sump',
        start_m: 0.028,
        tested: false,
      },
      {
        end_m: 0.0415225,
        land: 'reaction land',
        left: 'sump',
        right: 'reaction',
        start_m: 0.0375,
        tested: true,
      },
    ],
    spring_on_left: true,
    start_m: 0,
    stem_diameter_m: 0.0044,
    stroke_m: 0.00197752,
  },
  gauge: {
    calibrated_on: '2026-01-12',
    calibration_due: '2027-01-12',
    kind: 'vacuum_gauge',
    limits_of_error_si: 1015.92,
    name: 'Dial gauge 0 to 30 inHg, bench 1',
    resolution_si: 338.639,
    source: 'Shop certificate 26-004, compared with a mercury column',
  },
  hazards: [
    { hazard: 'high_voltage', read: { at: '2026-03-03T10:01:00Z', by: 'Tomás Wierzba' } },
    { hazard: 'hot_oil', read: { at: '2026-03-03T10:01:00Z', by: 'Tomás Wierzba' } },
    {
      hazard: 'retained_springs',
      read: { at: '2026-03-03T10:01:00Z', by: 'Tomás Wierzba' },
    },
    {
      hazard: 'compressed_air',
      read: { at: '2026-03-03T10:01:00Z', by: 'Tomás Wierzba' },
    },
    { hazard: 'solvent', read: { at: '2026-03-03T10:01:00Z', by: 'Tomás Wierzba' } },
    { hazard: 'vacuum_pump', read: { at: '2026-03-03T10:01:00Z', by: 'Tomás Wierzba' } },
  ],
  id: 't-1',
  job_number: '0101',
  judgement: {
    assumptions: [
      'engaged_at_regulating',
      'untested_seals_band',
      'thermal_expansion',
      'areas_as_new',
      'limit_for_this_stand',
      'dry_ideal_air',
      'isothermal',
      'laminar_film',
      'entry_exit_loss',
      'eccentricity_unknown',
      'assumed_discharge',
      'hose_neglected',
      'dead_head_follows_barometer',
      'constant_pull',
      'blank_as_hole',
      'carried_as_gap',
      'orifice_law',
      'pressures_over_sump',
      'square_lands',
      'jet_angle',
      'land_lengths_fixed',
      'demand_as_edges',
      'chamber_drained_freely',
      'dry_friction',
    ],
    barometer_pa: 100850,
    consequence: {
      answer: 'computed',
      band_from: ['eccentricity', 'reading', 'orifice_model', 'friction', 'untested_seals'],
      curve: [
        {
          line_pa: 268895,
          measured_feed_pa: { high: 268766, likely: 268750, low: 268711 },
          measured_state: 'follows_line',
          new_feed_pa: { high: 268779, likely: 268779, low: 268779 },
          new_state: 'follows_line',
        },
        {
          line_pa: 559854,
          measured_feed_pa: { high: 559854, likely: 497018, low: 451258 },
          measured_state: 'regulating',
          new_feed_pa: { high: 449583, likely: 443663, low: 437735 },
          new_state: 'regulating',
        },
        {
          line_pa: 850813,
          measured_feed_pa: { high: 742819, likely: 499578, low: 451762 },
          measured_state: 'regulating',
          new_feed_pa: { high: 450025, likely: 444025, low: 438025 },
          new_state: 'regulating',
        },
        {
          line_pa: 1141770,
          measured_feed_pa: { high: 744423, likely: 498625, low: 451032 },
          measured_state: 'regulating',
          new_feed_pa: { high: 449412, likely: 443415, low: 437418 },
          new_state: 'regulating',
        },
        {
          line_pa: 1432730,
          measured_feed_pa: { high: 741734, likely: 497526, low: 450246 },
          measured_state: 'regulating',
          new_feed_pa: { high: 448748, likely: 442757, low: 436768 },
          new_state: 'regulating',
        },
        {
          line_pa: 1723690,
          measured_feed_pa: { high: 738845, likely: 496474, low: 449515 },
          measured_state: 'regulating',
          new_feed_pa: { high: 448114, likely: 442130, low: 436148 },
          new_state: 'regulating',
        },
      ],
      highest_line: {
        against_specification: 'likely_outside',
        line_pa: 1723690,
        measured_feed_pa: { high: 738845, likely: 496474, low: 449515 },
        measured_state: 'regulating',
        new_feed_pa: { high: 448114, likely: 442130, low: 436148 },
        new_state: 'regulating',
        shift_pa: { high: 296590, likely: 54344.3, low: 7967.32 },
        worst_state: 'regulating',
      },
      idle: {
        against_specification: 'likely_outside',
        line_pa: 551581,
        measured_feed_pa: { high: 551581, likely: 496490, low: 451147 },
        measured_state: 'regulating',
        new_feed_pa: { high: 449473, likely: 443566, low: 437649 },
        new_state: 'regulating',
        shift_pa: { high: 108015, likely: 52924, low: 8108.57 },
        worst_state: 'regulating',
      },
      leak_flow_m3_s: { high: 6.1113e-06, likely: 2.55483e-06, low: 1.02601e-06 },
      oil_temperature_k: 363.15,
      oil_viscosity_pa_s: 0.00577645,
      setpoint_pa: 448159,
      specified_high_pa: 475738,
      specified_low_pa: 420580,
      stroke_m: 0.00197752,
    },
    decision: {
      conformity_probability: 0.000715111,
      standard_uncertainty_pa: 1145.06,
      verdict: 'outside_limit',
    },
    findings: [
      { code: 'readings_scatter', field: 'readings', severity: 'doubt' },
      { code: 'untested_seal', field: 'test_point.isolates', severity: 'note' },
    ],
    leak: {
      answer: 'known',
      blank_share: 0.036036,
      chamber_pressure_pa: 46378,
      clearance_centred_m: { high: 8.50587e-05, likely: 8.11338e-05, low: 7.73005e-05 },
      clearance_new_m: 3.6e-05,
      clearance_off_centre_m: { high: 6.38176e-05, likely: 6.07343e-05, low: 5.77388e-05 },
      equivalent_hole_m: 0.000625168,
      gap_factor_m3: { high: 1.0814e-13, likely: 9.32108e-14, low: 8.00879e-14 },
      orifice_drop_share: 0,
      reference_vacuum_pa: 60054.1,
      throughput_w: 4.91082,
    },
    limit: {
      law: 'gap',
      sea_level_vacuum_pa: 67727.8,
      source: 'Shop rule HL-3: 20 inHg at sea level, from our own good units',
      today_vacuum_pa: 67519.5,
    },
    physics_version: '1',
    profile_digest: 'digest',
    readings: {
      contributions: [
        { share: 0.729926, source: 'repeats' },
        { share: 0.262775, source: 'gauge_error' },
        { share: 0.00729926, source: 'gauge_resolution' },
      ],
      count: 3,
      expanded_uncertainty_pa: 3260.72,
      independent_count: 3,
      mean_vacuum_pa: 57907.2,
      spread_pa: 3386.39,
      standard_uncertainty_pa: 1144.21,
    },
    stand: {
      dead_head_pressure_pa: 5353.84,
      hose_resistance_pa_s_m3: 60229700,
      pull_m3_s: 0.000135529,
      residuals: [
        { label: '0.5', residual_pa: -150.584 },
        { label: '0.8', residual_pa: 102.108 },
        { label: '1.1', residual_pa: -36.1006 },
      ],
    },
  },
  readings: [
    {
      at: '2026-03-03T10:13:00Z',
      by: 'Tomás Wierzba',
      corrected: [],
      reading: { as_typed: '17.1 inHg', reseated: false, vacuum_pa: 57907.2 },
      record: 'r-1',
    },
    {
      at: '2026-03-03T10:15:00Z',
      by: 'Tomás Wierzba',
      corrected: [],
      reading: { as_typed: '16.6 inHg', reseated: true, vacuum_pa: 56214.1 },
      record: 'r-2',
    },
    {
      at: '2026-03-03T10:17:00Z',
      by: 'Tomás Wierzba',
      corrected: [],
      reading: { as_typed: '17.6 inHg', reseated: true, vacuum_pa: 59600.4 },
      record: 'r-3',
    },
  ],
  setup: {
    air_temperature_k: 292.15,
    ambient: { by: 'barometer', pressure_pa: 100850 },
    orifice: 'blocked',
    surface: 'dry',
    valve_position: 'at_rest',
  },
  stand: {
    altitude_m: 85,
    dead_head_follows_barometer: true,
    gauge: 'id-10',
    name: 'Bench stand',
    orifices: [
      {
        critical_ratio: 0.528,
        diameter_m: 0.0005,
        label: '0.5',
        sonic_conductance_m3_s_pa: 3.129e-10,
      },
      {
        critical_ratio: 0.528,
        diameter_m: 0.0008,
        label: '0.8',
        sonic_conductance_m3_s_pa: 8.01e-10,
      },
      {
        critical_ratio: 0.528,
        diameter_m: 0.0011,
        label: '1.1',
        sonic_conductance_m3_s_pa: 1.5144e-09,
      },
    ],
  },
  stand_check: {
    as_typed: '28.2 inHg',
    dead_head_vacuum_pa: 95496.2,
    orifices: [
      { as_typed: '21.4 inHg', label: '0.5', vacuum_pa: 72468.7 },
      { as_typed: '11.3 inHg', label: '0.8', vacuum_pa: 38266.2 },
      { as_typed: '5.1 inHg', label: '1.1', vacuum_pa: 17270.6 },
    ],
  },
  stand_check_today: null,
  suggested: {
    ambient_from_stand: true,
    setup: {
      air_temperature_k: 293.15,
      ambient: { altitude_m: 85, by: 'altitude' },
      orifice: 'blocked',
      surface: 'dry',
      valve_position: 'at_rest',
    },
  },
  test: { bore: 'id-8', job: 'j-1', stand: 's-1', test_point: 'id-13' },
  test_point: {
    bore: 'id-8',
    evacuates: 'reaction',
    isolates: ['reaction land'],
    limit: {
      law: 'gap',
      source: 'Shop rule HL-3: 20 inHg at sea level, from our own good units',
      vacuum_pa: 67727.8,
    },
    name: 'Reaction side',
    order: 'a',
    orifice: 'blocked',
    valve_position: 'at_rest',
  },
  undo: {},
};

/** The same test before anything was recorded. */
export function untouched(): TestView {
  return {
    ...structuredClone(MEASURED),
    setup: null,
    stand_check: null,
    blank: null,
    readings: [],
    judgement: {
      assumptions: [],
      findings: [],
      physics_version: '1',
      profile_digest: 'digest',
    },
  };
}

/** The same test with some of its judgement otherwise. */
export function judged(change: Partial<TestView['judgement']>): TestView {
  const view = structuredClone(MEASURED);
  return { ...view, judgement: { ...view.judgement, ...change } };
}

export function consequence(): Consequence {
  const answer = structuredClone(MEASURED.judgement.consequence);
  if (answer?.answer !== 'computed') throw new Error('the fixture has a consequence');
  return answer;
}

export function leak(): Leak {
  const answer = structuredClone(MEASURED.judgement.leak);
  if (answer?.answer !== 'known') throw new Error('the fixture has a leak');
  return answer;
}
