import type { ProfilePartName } from '$lib/app/route';
import type { PlainKey } from '$lib/messages';
import type { Spec } from './form';

const NODES = [
  ['line', 'node.line'],
  ['feed', 'node.feed'],
  ['reaction', 'node.reaction'],
  ['spring_chamber', 'node.spring_chamber'],
  ['sump', 'node.sump'],
] as const;
const MATERIALS = [
  ['aluminium_die_cast', 'material.aluminium_die_cast'],
  ['aluminium_wrought', 'material.aluminium_wrought'],
  ['steel', 'material.steel'],
  ['cast_iron', 'material.cast_iron'],
] as const;
const SOLENOID_KINDS = [
  ['bleed', 'profile.solenoid.bleed'],
  ['pulse_width', 'profile.solenoid.pulse_width'],
  ['closed_loop', 'profile.solenoid.closed_loop'],
] as const;
const NAME: Spec = { as: 'text', at: 'name', label: 'profile.name' };
const SOURCE: Spec = { as: 'text', at: 'source', label: 'profile.source', note: 'profile.source_note' };
const number = (
  at: string,
  label: PlainKey,
  quantity: Extract<Spec, { as: 'number' }>['quantity'],
  more: { note?: PlainKey; needed?: true } = {},
): Spec => ({ as: 'number', at, label, quantity, ...more });

/** What the service information allows a solenoid's coil. */
const COIL: readonly Spec[] = [
  number('low_ohm', 'check.resistance_low', 'resistance'),
  number('high_ohm', 'check.resistance_high', 'resistance'),
  number('limits_at_k', 'check.limits_at', 'temperature'),
  { as: 'text', at: 'source', label: 'check.source' },
];

type FormPart = Exclude<ProfilePartName, 'shape'>;

/** What each form asks, from top to bottom. */
export const FIELDS: Readonly<Record<FormPart, readonly Spec[]>> = {
  unit: [
    NAME,
    { as: 'text', at: 'summary', label: 'profile.summary' },
    number('line_idle_pa', 'unit.line_idle', 'pressure'),
    number('line_highest_pa', 'unit.line_highest', 'pressure'),
    number('hot_oil_temperature_k', 'unit.oil_hot', 'temperature', { needed: true }),
    {
      as: 'group',
      at: 'oil',
      label: 'unit.oil',
      note: 'profile.oil_note',
      optional: true,
      fields: [
        { as: 'text', at: 'name', label: 'profile.oil_name' },
        number('viscosity_40c_m2_s', 'profile.viscosity_40', 'kinematic_viscosity', { needed: true }),
        number('viscosity_100c_m2_s', 'profile.viscosity_100', 'kinematic_viscosity', { needed: true }),
        number('density_15c_kg_m3', 'profile.density', 'density', { needed: true }),
      ],
    },
    SOURCE,
  ],
  circuit: [
    NAME,
    number('setpoint_pa', 'profile.setpoint', 'pressure'),
    number('specified_low_pa', 'profile.specified_low', 'pressure'),
    number('specified_high_pa', 'profile.specified_high', 'pressure'),
    number('demand_m3_s', 'unit.demand', 'flow', { note: 'profile.demand_note' }),
    number('solenoids', 'profile.solenoids', 'count'),
    {
      as: 'choice',
      at: 'solenoid_kind',
      label: 'profile.solenoid_kind',
      note: 'profile.solenoid_kind_note',
      options: [
        ['', 'profile.unknown'],
        ...SOLENOID_KINDS,
      ],
    },
    {
      as: 'group',
      at: 'coil',
      label: 'profile.coil',
      note: 'profile.coil_note',
      optional: true,
      fields: COIL,
    },
    SOURCE,
  ],
  tap: [
    NAME,
    { as: 'choice', at: 'node', label: 'profile.tap_node', options: NODES },
    { as: 'text', at: 'condition', label: 'profile.condition', note: 'profile.condition_note' },
    number('low_pa', 'profile.low', 'pressure'),
    number('high_pa', 'profile.high', 'pressure'),
    SOURCE,
  ],
  clutch: [
    NAME,
    {
      as: 'choice',
      at: 'solenoid_kind',
      label: 'profile.clutch_solenoid',
      note: 'profile.solenoid_kind_note',
      options: [['', 'profile.as_circuit'], ...SOLENOID_KINDS],
    },
    {
      as: 'group',
      at: 'coil',
      label: 'profile.coil',
      note: 'profile.coil_note',
      optional: true,
      fields: COIL,
    },
    number('command_idle_pa', 'profile.command_idle', 'pressure', { note: 'profile.command_note' }),
    number('command_highest_pa', 'profile.command_highest', 'pressure'),
    number('gain_ratio', 'profile.gain', 'ratio', { note: 'profile.gain_note', needed: true }),
    number('piston_outer_m', 'profile.piston_outer', 'length', { note: 'profile.piston_note' }),
    number('piston_inner_m', 'profile.piston_inner', 'length'),
    number('return_spring_n', 'profile.return_spring', 'force', { note: 'profile.return_spring_note' }),
    number('face_outer_m', 'profile.face_outer', 'length'),
    number('face_inner_m', 'profile.face_inner', 'length'),
    number('faces', 'profile.faces', 'count', { note: 'profile.faces_note' }),
    number('friction_coefficient', 'profile.friction_coefficient', 'ratio'),
    { as: 'text', at: 'friction_source', label: 'profile.friction_source' },
    SOURCE,
  ],
  relief: [
    number('ball_diameter_m', 'relief.ball', 'length', { needed: true }),
    number('seat_diameter_m', 'relief.seat', 'length', { note: 'relief.seat_note', needed: true }),
    number('load_seated_n', 'relief.load', 'force', { needed: true }),
    number('rate_n_per_m', 'relief.rate', 'spring_rate', { needed: true }),
    number('lift_stop_m', 'relief.lift', 'length', { note: 'relief.lift_note', needed: true }),
    SOURCE,
  ],
  bore: [
    NAME,
    number('diameter_m', 'unit.bore_diameter', 'length', { needed: true }),
    number('start_m', 'profile.bore_start', 'displacement', { note: 'profile.position_note', needed: true }),
    number('end_m', 'profile.bore_end', 'displacement', { needed: true }),
    {
      as: 'choice',
      at: 'spring_on_left',
      label: 'profile.spring_side',
      options: [
        ['true', 'profile.left'],
        ['false', 'profile.right'],
      ],
    },
    { as: 'choice', at: 'material', label: 'profile.body_material', options: MATERIALS },
    {
      as: 'group',
      at: 'spool',
      label: 'profile.spool',
      fields: [
        { as: 'choice', at: 'material', label: 'unit.valve_material', options: MATERIALS },
        number('stem_diameter_m', 'profile.stem', 'length', { needed: true }),
        number('stroke_m', 'unit.travel', 'length', { note: 'profile.travel_note' }),
        number('friction_n', 'unit.friction', 'force', { note: 'profile.friction_note' }),
      ],
    },
    SOURCE,
  ],
  ports: [
    {
      as: 'list',
      at: 'ports',
      label: 'profile.ports',
      add: 'profile.add_port',
      fresh: { name: '', node: 'sump', side: 'above' },
      fields: [
        NAME,
        { as: 'choice', at: 'node', label: 'profile.port_node', options: NODES },
        number('start_m', 'profile.left_edge', 'displacement', { needed: true }),
        number('end_m', 'profile.right_edge', 'displacement', { needed: true }),
        {
          as: 'choice',
          at: 'side',
          label: 'profile.side',
          options: [
            ['above', 'profile.above'],
            ['below', 'profile.below'],
          ],
        },
      ],
    },
  ],
  land: [
    NAME,
    number('diameter_m', 'profile.diameter', 'length', { note: 'profile.land_diameter_note' }),
    number('start_m', 'profile.left_face', 'displacement', { note: 'profile.land_position_note', needed: true }),
    number('end_m', 'profile.right_face', 'displacement', { needed: true }),
    {
      as: 'list',
      at: 'seals',
      label: 'profile.seals',
      add: 'profile.add_seal',
      fresh: { left: 'sump', right: 'sump' },
      fields: [
        { as: 'choice', at: 'left', label: 'profile.seal_left', options: NODES },
        { as: 'name', at: 'left_port', label: 'profile.seal_left_port', of: 'ports', none: 'profile.own_face' },
        { as: 'choice', at: 'right', label: 'profile.seal_right', options: NODES },
        { as: 'name', at: 'right_port', label: 'profile.seal_right_port', of: 'ports', none: 'profile.own_face' },
      ],
    },
  ],
  opening: [
    {
      as: 'choice',
      at: 'role',
      label: 'profile.role',
      options: [
        ['supply', 'profile.role.supply'],
        ['exhaust', 'profile.role.exhaust'],
      ],
    },
    { as: 'name', at: 'land', label: 'profile.metering_land', of: 'lands' },
    { as: 'name', at: 'port', label: 'profile.metered_port', of: 'ports' },
    {
      as: 'choice',
      at: 'edge',
      label: 'profile.edge',
      note: 'profile.edge_note',
      options: [
        ['left', 'profile.edge.left'],
        ['right', 'profile.edge.right'],
      ],
    },
    number('circumference_fraction', 'profile.fraction', 'share', { note: 'profile.fraction_note', needed: true }),
    {
      as: 'variant',
      at: 'window',
      label: 'profile.window',
      note: 'profile.window_note',
      none: 'profile.window.groove',
      options: [
        [
          'round_holes',
          'profile.window.holes',
          [
            number('count', 'profile.window.count', 'count', { needed: true }),
            number('diameter_m', 'profile.diameter', 'length', { needed: true }),
          ],
        ],
        [
          'notches',
          'profile.window.notches',
          [
            number('count', 'profile.window.count', 'count', { needed: true }),
            number('width_m', 'profile.window.width', 'length', { needed: true }),
            number('length_m', 'profile.window.length', 'length', { needed: true }),
          ],
        ],
      ],
    },
  ],
  spring: [
    number('load_regulating_n', 'unit.spring_load', 'force', { note: 'profile.load_note' }),
    number('rate_n_per_m', 'unit.spring_rate', 'spring_rate'),
    SOURCE,
  ],
  balance_orifice: [
    number('diameter_m', 'profile.diameter', 'length', { needed: true }),
    number('length_m', 'profile.orifice_length', 'length', { note: 'profile.orifice_length_note' }),
    SOURCE,
  ],
  test_point: [
    NAME,
    { as: 'choice', at: 'evacuates', label: 'profile.evacuates', options: NODES },
    { as: 'names', at: 'isolates', label: 'profile.isolates', note: 'profile.isolates_note', of: 'lands' },
    {
      as: 'choice',
      at: 'valve_position',
      label: 'profile.valve_position',
      options: [
        ['at_rest', 'profile.valve.at_rest'],
        ['held_regulating', 'profile.valve.held_regulating'],
        ['spring_out', 'profile.valve.spring_out'],
        ['valve_absent', 'profile.valve.valve_absent'],
      ],
    },
    {
      as: 'choice',
      at: 'orifice',
      label: 'profile.orifice_path',
      options: [
        ['blocked', 'profile.orifice.blocked'],
        ['in_series', 'profile.orifice.in_series'],
        ['in_parallel', 'profile.orifice.in_parallel'],
      ],
    },
    {
      as: 'group',
      at: 'limit',
      label: 'profile.limit',
      note: 'profile.limit_note',
      optional: true,
      fields: [
        number('vacuum_pa', 'profile.limit_vacuum', 'vacuum', { needed: true }),
        {
          as: 'choice',
          at: 'law',
          label: 'profile.limit_law',
          note: 'profile.limit_law_note',
          options: [
            ['gap', 'profile.law.gap'],
            ['hole', 'profile.law.hole'],
          ],
        },
        { as: 'text', at: 'source', label: 'profile.limit_source' },
      ],
    },
  ],
};

/** What each part is called. */
export const PART_WORDS = {
  unit: 'profile.part.unit',
  circuit: 'profile.part.circuit',
  tap: 'profile.part.tap',
  clutch: 'profile.part.clutch',
  relief: 'profile.part.relief',
  shape: 'profile.part.bore',
  bore: 'profile.part.bore',
  ports: 'profile.part.ports',
  land: 'profile.part.land',
  opening: 'profile.part.opening',
  spring: 'profile.part.spring',
  balance_orifice: 'profile.part.balance_orifice',
  test_point: 'profile.part.test_point',
} as const satisfies Record<ProfilePartName, PlainKey>;

/** What a new part starts from. `parent` is what it belongs to. */
export function fresh(part: FormPart, parent: string): Record<string, unknown> {
  switch (part) {
    case 'unit':
      return { name: '', summary: '', hot_oil_temperature_k: 363.15, source: '' };
    case 'circuit':
      return { unit: parent, order: '', name: '', source: '' };
    case 'tap':
      return { circuit: parent, order: '', name: '', node: 'line', condition: '', source: '' };
    case 'clutch':
      return { circuit: parent, order: '', name: '', gain_ratio: 1, source: '' };
    case 'relief':
      return { circuit: parent, source: '' };
    case 'land':
      return { bore: parent, order: '', name: '', seals: [] };
    case 'opening':
      return { bore: parent, role: 'supply', edge: 'left', circumference_fraction: 1 };
    case 'test_point':
      return {
        bore: parent,
        order: '',
        name: '',
        evacuates: 'reaction',
        isolates: [],
        valve_position: 'at_rest',
        orifice: 'blocked',
        limit: { law: 'gap' },
      };
    case 'spring':
    case 'balance_orifice':
      return { bore: parent, source: '' };
    case 'bore':
    case 'ports':
      return {};
  }
}
