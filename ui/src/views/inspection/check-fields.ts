import type { CheckName, InstrumentKind } from '$lib/generated/commands';
import type { PlainKey } from '$lib/messages';
import type { Quantity } from '$lib/quantity';

/** A check that a form records; the vacuum test has screens of its own. */
export type FormCheck = Exclude<CheckName, 'vacuum'>;

interface Named {
  /** As the core names it. */
  readonly name: string;
  readonly label: PlainKey;
  readonly note?: PlainKey;
}

export interface ChoiceField extends Named {
  readonly is: 'choice';
  readonly options: readonly { readonly value: string; readonly label: PlainKey }[];
  /** True: it may stay without an answer. */
  readonly optional?: boolean;
}

export interface NumberField extends Named {
  readonly is: 'number';
  readonly quantity: Quantity;
  /** True: every row starts with what the row before holds. */
  readonly carried?: boolean;
  /** True: a time that the form's stopwatch takes. */
  readonly timed?: boolean;
}

export interface TextField extends Named {
  readonly is: 'text';
}

export interface CountField extends Named {
  readonly is: 'count';
}

export interface InstrumentField extends Named {
  readonly is: 'instrument';
  readonly kinds: readonly InstrumentKind[];
}

/** One of the bore's lands. */
export interface LandField extends Named {
  readonly is: 'land';
}

/** Several of one sort: marks, loads, diameters. */
export interface RowsField extends Named {
  readonly is: 'rows';
  readonly fields: readonly SimpleField[];
  /** What one line is called. */
  readonly each: PlainKey;
  /** Said while there is no line. */
  readonly none?: PlainKey;
  /** None: the lines that stand there are all there are. */
  readonly add?: PlainKey;
  /** How many stand there at first; by lands: one for each land of the bore. */
  readonly first: number | 'lands';
}

export type SimpleField =
  | ChoiceField
  | NumberField
  | TextField
  | CountField
  | InstrumentField
  | LandField;
export type CheckField = SimpleField | RowsField;

const choice = (
  name: string,
  label: PlainKey,
  options: readonly (readonly [string, PlainKey])[],
  optional = false,
): ChoiceField => ({
  is: 'choice',
  name,
  label,
  options: options.map(([value, words]) => ({ value, label: words })),
  optional,
});

const number = (
  name: string,
  label: PlainKey,
  quantity: Quantity,
  note?: PlainKey,
): NumberField => ({ is: 'number', name, label, quantity, ...(note ? { note } : {}) });

const text = (name: string, label: PlainKey, note?: PlainKey): TextField => ({
  is: 'text',
  name,
  label,
  ...(note ? { note } : {}),
});

/** How long a hold was watched. */
const watched: NumberField = {
  ...number('watched_s', 'check.watched', 'duration', 'check.watched_note'),
  timed: true,
};

const instrument = (
  name: string,
  label: PlainKey,
  ...kinds: readonly InstrumentKind[]
): InstrumentField => ({ is: 'instrument', name, label, kinds });

const MOVEMENT = [
  ['free', 'check.free'],
  ['drags', 'check.drags'],
  ['sticks', 'check.sticks'],
] as const;

const SEEN = [
  ['none', 'check.seen_none'],
  ['faint', 'check.seen_faint'],
  ['clear', 'check.seen_clear'],
] as const;

const FELT = [
  ['none', 'check.felt_none'],
  ['faint', 'check.felt_slight'],
  ['clear', 'check.felt_clear'],
] as const;

const CONDITION = [
  ['good', 'check.good'],
  ['worn', 'check.worn'],
  ['damaged', 'check.damaged'],
  ['missing', 'check.missing'],
] as const;

const HOLD = [
  ['holds', 'check.holds'],
  ['loses_slowly', 'check.loses_slowly'],
  ['does_not_hold', 'check.does_not_hold'],
] as const;

/** What each check asks, in the order in which the hands do it. */
export const CHECK_FIELDS: Readonly<Record<FormCheck, readonly CheckField[]>> = {
  valve_train: [
    choice('state', 'check.train_state', [
      ['as_shown', 'check.train_as_shown'],
      ['wrong_way', 'check.train_wrong_way'],
      ['part_missing', 'check.train_part_missing'],
      ['not_known', 'check.train_not_known'],
    ]),
  ],
  free_movement: [
    { ...choice('dry', 'check.dry', MOVEMENT, true), note: 'check.free_note' },
    choice('wet', 'check.wet', MOVEMENT, true),
    choice('bolted', 'check.bolted', MOVEMENT, true),
    number('friction_n', 'check.friction', 'force', 'check.friction_note'),
  ],
  wear_marks: [
    {
      is: 'rows',
      name: 'marks',
      label: 'check.marks',
      each: 'check.mark',
      none: 'check.no_marks',
      add: 'check.add_mark',
      first: 0,
      fields: [
        choice('on', 'check.mark_on', [
          ['bore', 'check.on_bore'],
          ['valve', 'check.on_valve'],
        ]),
        choice('depth', 'check.mark_depth', [
          ['seen', 'check.depth_seen'],
          ['felt', 'check.depth_felt'],
          ['caught', 'check.depth_caught'],
        ]),
        number('position_m', 'check.mark_position', 'displacement'),
      ],
    },
  ],
  light: [
    {
      is: 'rows',
      name: 'lands',
      label: 'check.lands',
      each: 'check.land',
      first: 'lands',
      fields: [
        { is: 'land', name: 'land', label: 'check.land' },
        choice('seen', 'check.light_seen', SEEN, true),
      ],
    },
  ],
  wiggle: [
    choice('feel', 'check.wiggle_feel', FELT),
    number('play_m', 'check.play', 'clearance', 'check.play_note'),
  ],
  diameters: [
    {
      is: 'rows',
      name: 'bore',
      label: 'check.bore_diameters',
      each: 'check.bore_diameters',
      add: 'check.add_diameter',
      first: 2,
      fields: [
        number('diameter_m', 'check.diameter', 'length'),
        { ...number('station_m', 'check.station', 'length', 'check.station_note'), carried: true },
        choice('direction_rad', 'check.direction', [
          ['0', 'check.direction_along'],
          ['90', 'check.direction_across'],
        ]),
      ],
    },
    {
      is: 'rows',
      name: 'valve',
      label: 'check.valve_diameters',
      each: 'check.valve_diameters',
      add: 'check.add_diameter',
      first: 'lands',
      fields: [
        { is: 'land', name: 'land', label: 'check.land' },
        number('diameter_m', 'check.diameter', 'length'),
        choice('direction_rad', 'check.direction', [
          ['0', 'check.direction_along'],
          ['90', 'check.direction_across'],
        ]),
      ],
    },
    instrument('bore_gauge', 'check.bore_gauge', 'bore_gauge', 'micrometer'),
    instrument('micrometer', 'check.micrometer', 'micrometer'),
    number('temperature_k', 'check.parts_temperature', 'temperature', 'check.parts_temperature_note'),
  ],
  spring: [
    number('height_regulating_m', 'check.height_regulating', 'length', 'check.height_regulating_note'),
    {
      is: 'rows',
      name: 'loads',
      label: 'check.loads',
      each: 'check.load',
      add: 'check.add_load',
      first: 2,
      fields: [
        number('height_m', 'check.height', 'length'),
        number('load_n', 'check.load', 'force'),
      ],
    },
    number('free_length_m', 'check.free_length', 'length'),
    instrument('tester', 'check.tester', 'spring_tester'),
  ],
  orifice_bore: [
    number('go_m', 'check.go', 'length', 'check.go_note'),
    number('no_go_m', 'check.no_go', 'length', 'check.no_go_note'),
    instrument('pins', 'check.pins', 'pin_gauges'),
  ],
  end_plug: [
    choice('plug', 'check.plug', CONDITION),
    choice('seal', 'check.seal', CONDITION, true),
  ],
  flatness: [
    text('face', 'check.face'),
    number('gap_m', 'check.gap', 'clearance'),
    number('limit_m', 'check.gap_limit', 'clearance'),
    text('source', 'check.source'),
  ],
  plate_and_balls: [
    choice('plate', 'check.plate', CONDITION),
    choice('seats', 'check.seats', CONDITION),
    { is: 'count', name: 'balls_shown', label: 'check.balls_shown' },
    { is: 'count', name: 'balls_found', label: 'check.balls_found' },
  ],
  cross_passages: [
    text('between', 'check.between'),
    choice('hold', 'check.hold', HOLD),
    number('vacuum_pa', 'check.vacuum_held', 'vacuum'),
    watched,
  ],
  feed_screens: [
    choice('state', 'check.screens', [
      ['clean', 'check.screens_clean'],
      ['debris', 'check.screens_debris'],
      ['torn', 'check.screens_torn'],
      ['missing', 'check.screens_missing'],
    ]),
  ],
  solenoid: [
    text('solenoid', 'check.solenoid'),
    number('resistance_ohm', 'check.resistance', 'resistance'),
    number('temperature_k', 'check.coil_temperature', 'temperature', 'check.coil_temperature_note'),
    number('low_ohm', 'check.resistance_low', 'resistance'),
    number('high_ohm', 'check.resistance_high', 'resistance'),
    number('limits_at_k', 'check.limits_at', 'temperature'),
    text('source', 'check.source'),
    instrument('ohmmeter', 'check.ohmmeter', 'ohmmeter'),
    choice('shut', 'check.solenoid_shut', HOLD, true),
    watched,
  ],
  clutch_air: [
    text('clutch', 'check.clutch'),
    choice('hold', 'check.hold', HOLD),
    number('pressure_pa', 'check.air_pressure', 'pressure', 'check.air_pressure_note'),
    watched,
  ],
};
