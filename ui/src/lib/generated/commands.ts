/*
 * Generated from the schemas of the command table by `npm run types`. Don't edit.
 */

/**
 * The closed set of codes. The interface has words for each: what happened, what it means, what
 * to do.
 */
export type ErrorCode =
  | 'bad_request'
  | 'unknown_command'
  | 'not_found'
  | 'no_store'
  | 'store_locked'
  | 'store_read_only'
  | 'disk_full'
  | 'newer_schema'
  | 'not_a_store'
  | 'store_damaged'
  | 'io'
  | 'no_author'
  | 'no_decision'
  | 'nothing_to_undo'
  | 'out_of_range'
  | 'no_solution'
  | 'not_a_bundle'
  | 'bundle_truncated'
  | 'bundle_damaged'
  | 'bundle_newer'
  | 'bundle_signature'
  | 'bundle_sealed'
  | 'wrong_passphrase'
  | 'short_passphrase'
  | 'seal_too_costly'
  | 'seal_broken'
  | 'file_too_large'
  | 'file_unreadable'
  | 'file_unwritable'
  | 'built_upon'
  | 'internal';
/**
 * What an instrument measures.
 */
export type InstrumentKind = 'vacuum_gauge' | 'micrometer' | 'bore_gauge' | 'barometer';
/**
 * Units of force.
 */
export type ForceUnit = 'lbf' | 'N';
/**
 * Units of length.
 */
export type LengthUnit = 'in' | 'mm';
/**
 * Units of pressure.
 */
export type PressureUnit = 'psi' | 'kPa' | 'bar';
/**
 * Units of temperature.
 */
export type TemperatureUnit = '°F' | '°C';
/**
 * The look.
 */
export type Theme = 'light' | 'dark' | 'system';
/**
 * Units of vacuum.
 */
export type VacuumUnit = 'inHg' | 'kPa';
/**
 * A named place in the circuit, for ports and for what lies on either side of a land.
 */
export type Node = 'line' | 'feed' | 'reaction' | 'spring_chamber' | 'sump';
/**
 * On which side of the drawing a port enters.
 */
export type PortSide = 'above' | 'below';
/**
 * Every finding that the core can make. Closed: a new one breaks the build of the interface until
 * it has words.
 */
export type FindingCode =
  | 'missing'
  | 'out_of_range'
  | 'deeper_than_barometer'
  | 'dead_head_worse_than_reading'
  | 'orifice_better_than_dead_head'
  | 'blank_worse_than_reading'
  | 'as_tight_as_blank'
  | 'oiled_reads_deeper'
  | 'barometer_looks_sea_level'
  | 'one_orifice_only'
  | 'stand_fit_poor'
  | 'not_independent_repeats'
  | 'single_reading'
  | 'readings_scatter'
  | 'no_blank'
  | 'orifice_share_large'
  | 'setup_differs'
  | 'gauge_unknown'
  | 'no_limit'
  | 'profile_incomplete'
  | 'opening_reversed'
  | 'dimensions_contradict'
  | 'calibration_overdue'
  | 'clearance_outside_model'
  | 'concurrent_edit'
  | 'untested_seal'
  | 'viscosity_extrapolated'
  | 'seat_larger_than_ball'
  | 'source_missing'
  | 'relief_limit_missing'
  | 'relief_limit_below_regulation'
  | 'cracks_below_regulation'
  | 'cracks_within_specification'
  | 'cracks_above_limit'
  | 'relief_capacity_too_small'
  | 'cross_leak_unknown'
  | 'relief_stays_shut'
  | 'valve_larger_than_bore'
  | 'clearance_implausible'
  | 'dimension_missing'
  | 'bore_from_test'
  | 'diameter_uncertainty_unknown'
  | 'spring_as_before'
  | 'spring_does_not_fit'
  | 'body_as_new'
  | 'relief_not_checked'
  | 'no_test_before'
  | 'profile_as_repaired';
/**
 * How much a finding matters to the person reading it.
 */
export type Severity = 'note' | 'doubt' | 'wrong';
/**
 * What a part is made of: it decides how a clearance changes with temperature.
 */
export type Material = 'aluminium_die_cast' | 'aluminium_wrought' | 'steel' | 'cast_iron';
/**
 * Which edges meter: the land's and the port's left ones, or both right ones.
 */
export type Edge = 'left' | 'right';
/**
 * What an opening does.
 */
export type OpeningRole = 'supply' | 'exhaust';
/**
 * By which law the leak behind a limit behaves when the barometer changes.
 */
export type LeakLaw = 'gap' | 'hole';
/**
 * How the balance orifice stands to the air during the test.
 */
export type OrificePath = 'blocked' | 'in_series' | 'in_parallel';
/**
 * Where the spool stands during a test.
 */
export type ValvePosition = 'at_rest' | 'held_regulating' | 'spring_out' | 'valve_absent';
/**
 * Where a job stands.
 */
export type JobState =
  | 'not_tested'
  | 'not_decided'
  | 'within_limit'
  | 'too_close_to_call'
  | 'outside_limit'
  | 'repaired_not_tested';
/**
 * A three-way decision.
 */
export type Verdict = 'within_limit' | 'too_close_to_call' | 'outside_limit';
/**
 * Which way out was taken.
 */
export type RepairOption =
  | 'cleaned'
  | 'new_valve'
  | 'sleeve_smaller_valve'
  | 'reamed_oversize'
  | 'relief_added'
  | 'body_replaced'
  | 'other';
/**
 * A hazard that stands before a kind of work. Acknowledged once per job.
 */
export type Hazard =
  'hot_oil' | 'retained_springs' | 'compressed_air' | 'solvent' | 'vacuum_pump' | 'high_voltage';
/**
 * A part of a job that can be changed by itself.
 */
export type JobPart =
  | {
      body: Vehicle;
      part: 'vehicle';
    }
  | {
      body: Complaint;
      part: 'complaint';
    }
  | {
      body: Notes;
      part: 'notes';
    }
  | {
      body: Customer;
      part: 'customer';
    };
/**
 * Something that the answer rests on. Closed: the interface has words for each.
 */
export type Assumed =
  | 'engaged_at_regulating'
  | 'untested_seals_band'
  | 'thermal_expansion'
  | 'gauge_error_on_reading_alone'
  | 'far_side_open'
  | 'areas_as_new'
  | 'limit_for_this_stand'
  | 'supply_land_as_tested'
  | 'solenoids_shut'
  | 'repair_expands_alike'
  | 'lands_share_clearance'
  | 'dry_ideal_air'
  | 'isothermal'
  | 'barometer_from_altitude'
  | 'laminar_film'
  | 'possibly_turbulent_film'
  | 'entry_exit_loss'
  | 'choked_gap'
  | 'eccentricity_unknown'
  | 'shared_clearance'
  | 'assumed_discharge'
  | 'hose_neglected'
  | 'dead_head_follows_barometer'
  | 'dead_head_fixed'
  | 'constant_pull'
  | 'blank_neglected'
  | 'blank_as_hole'
  | 'blank_as_gap'
  | 'series_orifice_neglected'
  | 'series_orifice_corrected'
  | 'parallel_orifice_subtracted'
  | 'carried_as_gap'
  | 'carried_as_hole'
  | 'inertia_neglected'
  | 'valves_sit_alike'
  | 'orifice_law'
  | 'orifice_laws_differ'
  | 'viscosity_extrapolated'
  | 'pressures_over_sump'
  | 'square_lands'
  | 'jet_angle'
  | 'land_lengths_fixed'
  | 'demand_as_edges'
  | 'chamber_drained_freely'
  | 'dry_friction'
  | 'relief_without_flow_force';
/**
 * What the leak does, or why that can't be told.
 */
export type ConsequenceAnswer =
  | (Consequence & {
      answer: 'computed';
    })
  | {
      answer: 'withheld';
      reason: ConsequenceRefusal;
    };
/**
 * What makes a predicted band wide.
 */
export type BandSource =
  'eccentricity' | 'reading' | 'untested_seals' | 'friction' | 'orifice_model';
/**
 * What the valve does.
 */
export type RegulationState = 'regulating' | 'follows_line' | 'lost_control';
/**
 * Where a predicted span stands to the specified one.
 */
export type SpecificationAnswer = 'inside' | 'likely_inside' | 'likely_outside' | 'outside';
/**
 * Why there is no pressure prediction.
 */
export type ConsequenceRefusal = 'no_leak' | 'profile_incomplete' | 'no_balance' | 'no_dimensions';
/**
 * The leak, or a plain refusal.
 */
export type LeakAnswer =
  | (Leak & {
      answer: 'known';
    })
  | {
      answer: 'refused';
      reason: LeakRefusal;
    };
/**
 * Why a reading says nothing about the gap.
 */
export type LeakRefusal =
  | 'no_barometer'
  | 'no_setup'
  | 'no_calibrated_stand'
  | 'oiled'
  | 'orifice_takes_drop'
  | 'valve_absent'
  | 'reading_contradicts'
  | 'too_tight'
  | 'profile_incomplete'
  | 'outside_model';
/**
 * Sources of uncertainty of a reading.
 */
export type UncertaintySource = 'gauge_error' | 'gauge_resolution' | 'repeats' | 'barometer';
/**
 * What the air was.
 */
export type Ambient =
  | {
      by: 'barometer';
      /**
       * Station pressure, Pa absolute.
       */
      pressure_pa: number;
    }
  | {
      /**
       * Geometric altitude, m.
       */
      altitude_m: number;
      by: 'altitude';
    };
/**
 * What was on the surfaces.
 */
export type Surface = 'dry' | 'oiled';
/**
 * A part of a test.
 */
export type TestPart =
  | {
      body: Setup;
      part: 'setup';
    }
  | {
      body: StandCheck;
      part: 'stand_check';
    }
  | {
      body: Blank;
      part: 'blank';
    }
  | {
      body: Reading;
      part: 'reading';
    }
  | {
      body: {
        /**
         * The stand.
         */
        stand?: string | null;
      };
      part: 'stand';
    };
/**
 * Where cracking lies between normal regulation and what the parts stand.
 */
export type WindowAnswer = 'inside' | 'below_regulation' | 'above_limit' | 'unknown';
/**
 * Where a clearance comes from.
 */
export type ClearanceSource = 'entered' | 'last_test';
/**
 * Whether the relief is there.
 */
export type ReliefPresence = 'fitted' | 'to_be_added';
/**
 * What a repair leaves open.
 */
export type OpenPoint =
  | 'no_test_before'
  | 'not_predicted'
  | 'predicted_outside_specification'
  | 'not_tested_again'
  | 'after_not_judged'
  | 'after_limit_not_met'
  | 'after_outside_specification'
  | 'after_outside_prediction'
  | 'after_not_decided'
  | 'leak_remains';
/**
 * Whether a record stands.
 */
export type RecordStanding = 'stands' | 'replaced' | 'voided';
/**
 * Who gets a bundle.
 */
export type Audience = 'colleague' | 'stranger';
/**
 * What becomes of something.
 */
export type Brought = 'new' | 'changed' | 'same';
/**
 * One side of P = F / A.
 */
export type SpringKnown =
  | {
      load_n: number;
    }
  | {
      pressure_pa: number;
    };
/**
 * Which way the spool last moved: friction opposes it.
 */
export type SpoolBranch = 'frictionless' | 'rising' | 'falling';

/**
 * Each command: what it takes and what it answers.
 */
export interface Commands {
  /**
   * Version of the program and whether its store opened
   */
  'app.state': {
    args: Nothing;
    answer: AppState;
  };
  /**
   * Shop, people, units, stands, settings, undo
   */
  'shop.overview': {
    args: Nothing;
    answer: Overview;
  };
  /**
   * Choose who works on this device
   */
  'person.choose': {
    args: PersonChoose;
    answer: Overview;
  };
  /**
   * Add a person and choose them
   */
  'person.add': {
    args: PersonAdd;
    answer: Overview;
  };
  /**
   * Keep this device's settings
   */
  'settings.put': {
    args: Settings;
    answer: Settings;
  };
  /**
   * A unit's profile with drawings and findings
   */
  'unit.get': {
    args: UnitGet;
    answer: UnitView;
  };
  /**
   * The jobs, all or searched, newest first
   */
  'job.list': {
    args: JobListArgs;
    answer: JobList;
  };
  /**
   * Open a job
   */
  'job.open': {
    args: JobOpen;
    answer: JobOpened;
  };
  /**
   * One job
   */
  'job.get': {
    args: JobGet;
    answer: JobView;
  };
  /**
   * Change one part of a job
   */
  'job.edit': {
    args: JobEdit;
    answer: JobView;
  };
  /**
   * Say that cautions were read
   */
  'caution.read': {
    args: CautionReadArgs;
    answer: JobView;
  };
  /**
   * Begin a vacuum test
   */
  'test.begin': {
    args: TestBegin;
    answer: TestBegun;
  };
  /**
   * One vacuum test with its judgement
   */
  'test.get': {
    args: TestGet;
    answer: TestView;
  };
  /**
   * Record one part of a vacuum test
   */
  'test.record': {
    args: TestRecord;
    answer: TestRecorded;
  };
  /**
   * Correct a reading
   */
  'test.correct': {
    args: ReadingCorrect;
    answer: TestRecorded;
  };
  /**
   * Strike a reading
   */
  'test.strike': {
    args: ReadingStrike;
    answer: TestView;
  };
  /**
   * Put the decision on record
   */
  'test.decide': {
    args: TestDecide;
    answer: TestView;
  };
  /**
   * The relief of a bore's circuit, checked in a job
   */
  'relief.get': {
    args: ReliefGet;
    answer: ReliefView;
  };
  /**
   * Record a relief check
   */
  'relief.record': {
    args: ReliefRecord;
    answer: ReliefRecorded;
  };
  /**
   * A repair with before, predicted and after
   */
  'repair.get': {
    args: RepairGet;
    answer: RepairView;
  };
  /**
   * Record a repair
   */
  'repair.record': {
    args: RepairRecord;
    answer: RepairRecorded;
  };
  /**
   * Write the printable report of a job
   */
  'report.write': {
    args: ReportWrite;
    answer: ReportMade;
  };
  /**
   * Undo this device's last change
   */
  'undo.last': {
    args: Nothing;
    answer: UndoDone;
  };
  /**
   * Bring back the last undone change
   */
  'redo.last': {
    args: Nothing;
    answer: UndoDone;
  };
  /**
   * Every record of a subject
   */
  'history.get': {
    args: HistoryGet;
    answer: History;
  };
  /**
   * Check and replay the store
   */
  'store.check': {
    args: Nothing;
    answer: StoreCheck;
  };
  /**
   * Keep half-typed input
   */
  'draft.put': {
    args: DraftPut;
    answer: Nothing;
  };
  /**
   * Find half-typed input again
   */
  'draft.get': {
    args: DraftKey;
    answer: DraftAnswer;
  };
  /**
   * Drop half-typed input
   */
  'draft.clear': {
    args: DraftKey;
    answer: Nothing;
  };
  /**
   * Make a bundle of jobs or of the whole shop
   */
  'bundle.make': {
    args: BundleMake;
    answer: BundleMade;
  };
  /**
   * What taking a bundle in would do; changes nothing
   */
  'bundle.look': {
    args: FileName;
    answer: BundlePlan;
  };
  /**
   * Take a bundle in
   */
  'bundle.take_in': {
    args: FileName;
    answer: BundleTaken;
  };
  /**
   * The devices that signed something here
   */
  'device.list': {
    args: Nothing;
    answer: DeviceList;
  };
  /**
   * Trust a device's key no longer, or again; on this device only
   */
  'device.trust': {
    args: DeviceTrust;
    answer: Nothing;
  };
  /**
   * What was taken in from elsewhere
   */
  'import.list': {
    args: Nothing;
    answer: ImportList;
  };
  /**
   * Take an import out again, on this device only
   */
  'import.remove': {
    args: ImportName;
    answer: Nothing;
  };
  /**
   * Bring the demo shop back
   */
  'demo.bring': {
    args: Nothing;
    answer: BundleTaken;
  };
  /**
   * Begin to carry a file in
   */
  'file.begin': {
    args: FileBegin;
    answer: FileHeld;
  };
  /**
   * Carry in one piece of a file
   */
  'file.add': {
    args: FileAdd;
    answer: FileHeld;
  };
  /**
   * Take a file from a path
   */
  'file.open': {
    args: FileOpen;
    answer: FileHeld;
  };
  /**
   * Open a file that is sealed with a passphrase
   */
  'file.unseal': {
    args: FileUnseal;
    answer: FileHeld;
  };
  /**
   * One piece of a file that was made here
   */
  'file.read': {
    args: FileRead;
    answer: FilePiece;
  };
  /**
   * Write a file that was made here to a path
   */
  'file.save': {
    args: FileSave;
    answer: Nothing;
  };
  /**
   * Forget a file
   */
  'file.drop': {
    args: FileName;
    answer: Nothing;
  };
  /**
   * Judge a vacuum test from its parts
   */
  'judgement.compute': {
    args: JudgeArgs;
    answer: Judgement;
  };
  /**
   * Check a relief from its figures
   */
  'relief.compute': {
    args: ReliefArgs;
    answer: ReliefAnswer;
  };
  /**
   * Predict a repair from its dimensions
   */
  'repair.compute': {
    args: RepairArgs;
    answer: RepairForecast;
  };
  /**
   * Barometer from altitude, or the altitude of a barometer
   */
  'air.barometer': {
    args: BarometerArgs;
    answer: BarometerAnswer;
  };
  /**
   * Air through an annular gap
   */
  'air.gap': {
    args: GapAirArgs;
    answer: GapAirAnswer;
  };
  /**
   * The clearance behind a flow of air
   */
  'air.clearance': {
    args: GapClearanceArgs;
    answer: GapClearanceAnswer;
  };
  /**
   * Air through a hole (ISO 6358)
   */
  'air.hole': {
    args: HoleAirArgs;
    answer: HoleAirAnswer;
  };
  /**
   * A vacuum limit carried to another barometer
   */
  'air.limit': {
    args: LimitArgs;
    answer: LimitAnswer;
  };
  /**
   * Viscosity and density of an oil
   */
  'oil.state': {
    args: OilArgs;
    answer: OilAnswer;
  };
  /**
   * P = F / A, either way
   */
  'oil.spring': {
    args: SpringArgs;
    answer: SpringAnswer;
  };
  /**
   * Oil through a drilled orifice
   */
  'oil.orifice': {
    args: OrificeArgs;
    answer: OrificeAnswer;
  };
  /**
   * Oil through an annular gap
   */
  'oil.gap': {
    args: GapOilArgs;
    answer: GapOilAnswer;
  };
  /**
   * A reducing regulator at one line pressure
   */
  'oil.regulator': {
    args: RegulatorArgs;
    answer: RegulatorAnswer;
  };
}
/**
 * No arguments, or nothing to say.
 */
export interface Nothing {}
/**
 * The program itself: whether it can work, and if not, why.
 */
export interface AppState {
  /**
   * Where its store is; empty without one.
   */
  store_path: string;
  /**
   * Why the store didn't open; none: it did.
   */
  trouble?: ApiError | null;
  /**
   * Version of the program.
   */
  version: string;
}
/**
 * An error as it crosses the boundary.
 */
export interface ApiError {
  code: ErrorCode;
  /**
   * The argument at fault, if one is.
   */
  field?: string | null;
  /**
   * What the words need: a path, a version, a field's name, a detail for the log.
   */
  params: {
    [k: string]: string;
  };
  /**
   * True when the same call may succeed later as it is.
   */
  retry: boolean;
}
/**
 * Everything that the first screen needs.
 */
export interface Overview {
  /**
   * Who is working on this device; none: nobody chosen yet.
   */
  author?: string | null;
  /**
   * True while the demo shop is loaded.
   */
  demo: boolean;
  /**
   * Instruments.
   */
  instruments: InstrumentEntry[];
  /**
   * People who can sign readings.
   */
  people: PersonEntry[];
  settings: Settings;
  /**
   * Name of the shop; empty before it is named.
   */
  shop_name: string;
  /**
   * Vacuum stands.
   */
  stands: StandEntry[];
  /**
   * Today by this device's clock.
   */
  today: string;
  undo: UndoState;
  /**
   * Units that the shop has entered.
   */
  units: UnitEntry[];
}
/**
 * An instrument with its subject.
 */
export interface InstrumentEntry {
  /**
   * Subject.
   */
  id: string;
  instrument: Instrument;
  /**
   * True when its calibration is overdue today.
   */
  overdue: boolean;
}
/**
 * An instrument. Kind `instrument`. Its figures are SI in the unit of what it measures.
 */
export interface Instrument {
  /**
   * Last calibration.
   */
  calibrated_on?: string | null;
  /**
   * When the next one is due.
   */
  calibration_due?: string | null;
  kind: InstrumentKind;
  /**
   * Limits of error, ±, as its data sheet or its certificate has them.
   */
  limits_of_error_si: number;
  /**
   * Name in the shop's words.
   */
  name: string;
  /**
   * Smallest step that can be read.
   */
  resolution_si: number;
  /**
   * Where the limits of error come from.
   */
  source: string;
}
/**
 * A person of the shop.
 */
export interface PersonEntry {
  /**
   * Subject.
   */
  id: string;
  /**
   * Name.
   */
  name: string;
}
/**
 * Units and look. Local to the device, not in the journal.
 */
export interface Settings {
  force: ForceUnit;
  length: LengthUnit;
  /**
   * BCP 47 language tag for numbers and dates; none: as the device has it.
   */
  locale?: string | null;
  pressure: PressureUnit;
  temperature: TemperatureUnit;
  theme: Theme;
  vacuum: VacuumUnit;
}
/**
 * A stand with its subject.
 */
export interface StandEntry {
  /**
   * Subject.
   */
  id: string;
  stand: Stand;
}
/**
 * A vacuum stand. Kind `stand`.
 */
export interface Stand {
  /**
   * Altitude of the place where it stands, m; offered when a test starts.
   */
  altitude_m?: number | null;
  /**
   * True when the absolute pressure with the hose closed rises and falls with the barometer, in
   * proportion (a pump whose dead volume expands back, a venturi); false when it is the same on
   * any day (a pump at its end pressure).
   */
  dead_head_follows_barometer: boolean;
  /**
   * Its gauge.
   */
  gauge: string;
  /**
   * Name in the shop's words.
   */
  name: string;
  /**
   * The orifices kept with it.
   */
  orifices: CalibratedOrifice[];
}
/**
 * An orifice of known bore that fits the hose end, to calibrate the stand.
 */
export interface CalibratedOrifice {
  /**
   * Critical pressure ratio by ISO 6358.
   */
  critical_ratio: number;
  /**
   * Bore, m.
   */
  diameter_m: number;
  /**
   * What is engraved on it; unique on the stand.
   */
  label: string;
  /**
   * Sonic conductance by ISO 6358, m³/(s·Pa), from its certificate.
   */
  sonic_conductance_m3_s_pa: number;
}
/**
 * What undo and redo would do on this device.
 */
export interface UndoState {
  /**
   * The last undone change that can be brought back.
   */
  redo?: UndoStep | null;
  /**
   * The last change that can be undone.
   */
  undo?: UndoStep | null;
}
/**
 * One change.
 */
export interface UndoStep {
  /**
   * When.
   */
  at: string;
  /**
   * Kind of its main record, e.g. `test.reading`: the interface has words for each.
   */
  kind: string;
  /**
   * How many records it wrote.
   */
  records: number;
  /**
   * The subject that it touched first.
   */
  subject: string;
}
/**
 * A unit, for choosing.
 */
export interface UnitEntry {
  /**
   * Its bores.
   */
  bores: BoreEntry[];
  /**
   * Subject.
   */
  id: string;
  /**
   * Name.
   */
  name: string;
  /**
   * One line about it.
   */
  summary: string;
}
/**
 * A bore, for choosing.
 */
export interface BoreEntry {
  /**
   * Subject.
   */
  id: string;
  /**
   * Name.
   */
  name: string;
}
/**
 * Choose who is working.
 */
export interface PersonChoose {
  /**
   * The person.
   */
  person: string;
}
/**
 * Add a person to the shop; the new person is then the one who works.
 */
export interface PersonAdd {
  /**
   * Name.
   */
  name: string;
}
/**
 * Ask for one unit.
 */
export interface UnitGet {
  /**
   * The unit.
   */
  unit: string;
}
/**
 * A unit's profile with a drawing of each bore where it regulates, and what its dimensions
 * contradict.
 */
export interface UnitView {
  /**
   * One drawing per bore, in the profile's order.
   */
  drawings: BoreDrawing[];
  /**
   * What is missing or contradictory.
   */
  findings: Finding[];
  profile: UnitProfile;
}
/**
 * A bore with its valve at one stroke.
 */
export interface BoreDrawing {
  /**
   * The balance orifice, m, if there is one.
   */
  balance_orifice_m?: number | null;
  /**
   * The bore.
   */
  bore: string;
  /**
   * Bore diameter, m.
   */
  diameter_m: number;
  /**
   * Right end (or plug face), m.
   */
  end_m: number;
  /**
   * Lands at that stroke, from left to right.
   */
  lands: DrawnLand[];
  /**
   * Its name.
   */
  name: string;
  /**
   * Metering openings.
   */
  openings: DrawnOpening[];
  /**
   * Ports from left to right.
   */
  ports: DrawnPort[];
  /**
   * True when the circuit has a relief.
   */
  relief: boolean;
  /**
   * Sealing stretches; those with a leak are drawn as such.
   */
  seals: DrawnSeal[];
  /**
   * True when the spring is at the left.
   */
  spring_on_left: boolean;
  /**
   * Left end, m.
   */
  start_m: number;
  /**
   * Stem diameter, m.
   */
  stem_diameter_m: number;
  /**
   * Stroke at which it is drawn, m.
   */
  stroke_m: number;
}
/**
 * A land where it stands.
 */
export interface DrawnLand {
  /**
   * Diameter, m.
   */
  diameter_m: number;
  /**
   * Right face, m.
   */
  end_m: number;
  /**
   * Name.
   */
  name: string;
  /**
   * Left face, m.
   */
  start_m: number;
}
/**
 * A metering opening.
 */
export interface DrawnOpening {
  /**
   * How far open, m; negative is overlap.
   */
  open_m: number;
  /**
   * Port.
   */
  port: string;
  /**
   * True for the supply, false for the exhaust.
   */
  supply: boolean;
}
/**
 * A port.
 */
export interface DrawnPort {
  /**
   * Right edge, m.
   */
  end_m: number;
  /**
   * Name within the bore.
   */
  name: string;
  node: Node;
  side: PortSide;
  /**
   * Left edge, m.
   */
  start_m: number;
}
/**
 * A sealing stretch.
 */
export interface DrawnSeal {
  /**
   * Right end, m.
   */
  end_m: number;
  /**
   * The land.
   */
  land: string;
  left: Node;
  right: Node;
  /**
   * Left end, m.
   */
  start_m: number;
  /**
   * True when the test shows its leak.
   */
  tested: boolean;
}
/**
 * One finding about one place. The interface has words for every code.
 */
export interface Finding {
  code: FindingCode;
  /**
   * The field it stands at, as named on the wire, e.g. `readings[1].vacuum_pa`; empty when it
   * is about the whole.
   */
  field: string;
  /**
   * Upper bound, SI.
   */
  high?: number | null;
  /**
   * The lower bound, the upper bound, or the value that the words need; SI.
   */
  low?: number | null;
  severity: Severity;
}
/**
 * A whole unit: its circuits and the profiles of their bores, in order.
 */
export interface UnitProfile {
  /**
   * Bores with all their parts, circuit by circuit.
   */
  bores: BoreProfile[];
  /**
   * The unit's subject.
   */
  id: string;
  unit: Unit;
}
/**
 * Everything about one bore that a judgement needs, its unit and circuit included.
 */
export interface BoreProfile {
  /**
   * The balance orifice, if entered.
   */
  balance_orifice?: BalanceOrifice | null;
  bore: Bore;
  circuit: Circuit;
  /**
   * The bore's subject.
   */
  id: string;
  /**
   * Lands from left to right.
   */
  lands: Land[];
  /**
   * Its openings.
   */
  openings: Opening[];
  /**
   * A relief on the circuit, if there is one.
   */
  relief?: Relief | null;
  /**
   * Its spring, if entered.
   */
  spring?: Spring | null;
  /**
   * Test points with their subjects.
   */
  test_points: [string, TestPoint][];
  unit: Unit;
}
/**
 * The orifice between feed and the reaction chamber. Kind `balance_orifice`.
 */
export interface BalanceOrifice {
  /**
   * The bore.
   */
  bore: string;
  /**
   * Bore of the orifice, m.
   */
  diameter_m: number;
  /**
   * Length of the orifice, usually the plate's thickness, m.
   */
  length_m: number;
  /**
   * Where the figures come from.
   */
  source: string;
}
/**
 * A bore of the valve body with its spool. Kind `bore`.
 */
export interface Bore {
  /**
   * The circuit that it serves.
   */
  circuit: string;
  /**
   * Bore diameter as new at 20 °C, m.
   */
  diameter_m: number;
  /**
   * Right end, the inner face of the plug, m.
   */
  end_m: number;
  material: Material;
  /**
   * Name in the trade's words, e.g. "Solenoid feed regulator".
   */
  name: string;
  /**
   * Fractional order key among the circuit's bores.
   */
  order: string;
  /**
   * Ports from left to right.
   */
  ports: Port[];
  /**
   * Where the dimensions come from.
   */
  source: string;
  spool: Spool;
  /**
   * True when the spring sits at the left end and the reaction chamber at the right.
   */
  spring_on_left: boolean;
  /**
   * Left end of the bore, m.
   */
  start_m: number;
}
/**
 * A port or groove that opens into the bore.
 */
export interface Port {
  /**
   * Right edge, m.
   */
  end_m: number;
  /**
   * Short name, unique within the bore, that openings and seals refer to.
   */
  name: string;
  node: Node;
  side: PortSide;
  /**
   * Left edge, m.
   */
  start_m: number;
}
/**
 * What all lands of one spool share.
 */
export interface Spool {
  /**
   * Sliding friction when free, N.
   */
  friction_n: number;
  material: Material;
  /**
   * Diameter of the stem between lands, m, for the drawing.
   */
  stem_diameter_m: number;
  /**
   * Full travel against the spring, m.
   */
  stroke_m: number;
}
/**
 * A circuit of a unit. Kind `circuit`.
 */
export interface Circuit {
  /**
   * What the solenoids together take at the setpoint, hot, m³/s.
   */
  demand_m3_s: number;
  /**
   * Name, e.g. "Solenoid feed".
   */
  name: string;
  /**
   * Fractional order key.
   */
  order: string;
  /**
   * Pressure that it is meant to hold, Pa above ambient.
   */
  setpoint_pa: number;
  /**
   * Through how many solenoids.
   */
  solenoids: number;
  /**
   * Where the specification comes from.
   */
  source: string;
  /**
   * Highest, Pa.
   */
  specified_high_pa: number;
  /**
   * Lowest pressure that the service information allows while regulating, Pa.
   */
  specified_low_pa: number;
  /**
   * The unit.
   */
  unit: string;
}
/**
 * A land of the spool. Kind `land`.
 */
export interface Land {
  /**
   * The bore.
   */
  bore: string;
  /**
   * Diameter as new at 20 °C, m.
   */
  diameter_m: number;
  /**
   * Right face at zero stroke, m.
   */
  end_m: number;
  /**
   * Name, unique within the bore.
   */
  name: string;
  /**
   * Fractional order key, left to right.
   */
  order: string;
  /**
   * The stretches along which it seals one place from another (metering edges are openings,
   * not seals).
   */
  seals: Seal[];
  /**
   * Left face at zero stroke, m.
   */
  start_m: number;
}
/**
 * What lies on either side of a sealing stretch of a land, and between which ports it runs.
 */
export interface Seal {
  left: Node;
  /**
   * Port whose right edge bounds the stretch on the left; none: the land's own left edge does.
   */
  left_port?: string | null;
  right: Node;
  /**
   * Port whose left edge bounds it on the right; none: the land's own right edge does.
   */
  right_port?: string | null;
}
/**
 * A metering opening. Kind `opening`.
 */
export interface Opening {
  /**
   * The bore.
   */
  bore: string;
  /**
   * Share of the circumference that is open; 1 for a full annular groove.
   */
  circumference_fraction: number;
  edge: Edge;
  /**
   * Name of the metering land.
   */
  land: string;
  /**
   * Name of the port.
   */
  port: string;
  role: OpeningRole;
}
/**
 * A ball relief on the feed circuit. Kind `relief`.
 */
export interface Relief {
  /**
   * Ball diameter, m.
   */
  ball_diameter_m: number;
  /**
   * The circuit it guards.
   */
  circuit: string;
  /**
   * How far the ball can lift, m.
   */
  lift_stop_m: number;
  /**
   * Spring load on the seated ball, N.
   */
  load_seated_n: number;
  /**
   * Spring rate, N/m.
   */
  rate_n_per_m: number;
  /**
   * Bore of the sharp-edged seat, m.
   */
  seat_diameter_m: number;
  /**
   * Where the figures come from.
   */
  source: string;
}
/**
 * The spring of a bore. Kind `spring`.
 */
export interface Spring {
  /**
   * The bore.
   */
  bore: string;
  /**
   * Load with the spool at the regulating position (the supply just closed), N.
   */
  load_regulating_n: number;
  /**
   * Rate, N/m.
   */
  rate_n_per_m: number;
  /**
   * Where the figures come from.
   */
  source: string;
}
/**
 * A place where the stand connects. Kind `test_point`.
 */
export interface TestPoint {
  /**
   * The bore.
   */
  bore: string;
  evacuates: Node;
  /**
   * Names of the lands whose leak the reading shows.
   */
  isolates: string[];
  /**
   * The limit; none: the reading can't be judged, only the leak computed.
   */
  limit?: VacuumLimit | null;
  /**
   * Name, e.g. "Reaction side".
   */
  name: string;
  /**
   * Fractional order key.
   */
  order: string;
  orifice: OrificePath;
  valve_position: ValvePosition;
}
/**
 * The least vacuum that the service information accepts.
 */
export interface VacuumLimit {
  law: LeakLaw;
  /**
   * Who says so.
   */
  source: string;
  /**
   * Least vacuum at sea level, Pa below ambient.
   */
  vacuum_pa: number;
}
/**
 * A transmission as the shop knows it. Kind `unit`.
 */
export interface Unit {
  /**
   * Running temperature of the oil for judgements, K.
   */
  hot_oil_temperature_k: number;
  /**
   * Highest line pressure in service, Pa above ambient.
   */
  line_highest_pa: number;
  /**
   * Line pressure at hot idle, Pa above ambient.
   */
  line_idle_pa: number;
  /**
   * The shop's name for it.
   */
  name: string;
  oil: Oil;
  /**
   * Where these figures come from.
   */
  source: string;
  /**
   * One line about it.
   */
  summary?: string;
}
/**
 * An oil by its data sheet.
 */
export interface Oil {
  /**
   * Density at 15 °C, kg/m³.
   */
  density_15c_kg_m3: number;
  /**
   * Name in the shop's words.
   */
  name: string;
  /**
   * Kinematic viscosity at 100 °C, m²/s.
   */
  viscosity_100c_m2_s: number;
  /**
   * Kinematic viscosity at 40 °C, m²/s.
   */
  viscosity_40c_m2_s: number;
}
/**
 * Which jobs to list. What is left out doesn't narrow the list.
 */
export interface JobListArgs {
  /**
   * Only jobs in which this bore was tested or repaired.
   */
  bore?: string | null;
  /**
   * Only jobs opened on this day or later.
   */
  from?: string | null;
  /**
   * How many to answer with at most; none: all.
   */
  limit?: number | null;
  /**
   * Only jobs that this person opened.
   */
  person?: string | null;
  /**
   * How many of the jobs found to pass over.
   */
  skip?: number;
  /**
   * Only jobs in this state.
   */
  state?: JobState | null;
  /**
   * Words that must all be found in the job's number, vehicle, complaint, notes, customer, in
   * its unit, or in the words of its tests and repairs; parts of words count, case doesn't.
   */
  text?: string;
  /**
   * Only jobs opened on this day or earlier.
   */
  to?: string | null;
  /**
   * Only jobs on this unit.
   */
  unit?: string | null;
}
/**
 * The jobs found, newest first.
 */
export interface JobList {
  /**
   * How many there are in all.
   */
  found: number;
  /**
   * The jobs, as many as were asked for.
   */
  jobs: JobEntry[];
}
/**
 * One job in the list.
 */
export interface JobEntry {
  /**
   * The complaint.
   */
  complaint: string;
  /**
   * Subject.
   */
  id: string;
  /**
   * The shop's number.
   */
  number: string;
  /**
   * Who opened it.
   */
  opened_by: string;
  /**
   * Day opened.
   */
  opened_on: string;
  /**
   * Repairs on record.
   */
  repairs: number;
  state: JobState;
  /**
   * Tests begun.
   */
  tests: number;
  /**
   * The unit's name.
   */
  unit_name: string;
  /**
   * The vehicle.
   */
  vehicle: string;
  /**
   * The worst of the last decisions at each test point; none that a later repair of the bore has
   * overtaken.
   */
  worst?: Verdict | null;
}
/**
 * Open a job.
 */
export interface JobOpen {
  complaint: Complaint;
  /**
   * The customer, if recorded.
   */
  customer?: Customer | null;
  /**
   * True: only say what is wrong with it.
   */
  dry_run?: boolean;
  notes?: Notes;
  /**
   * The shop's number; empty: the next free one.
   */
  number?: string;
  /**
   * The unit.
   */
  unit: string;
  vehicle: Vehicle;
}
/**
 * What the customer complains of. Kind `job.complaint`.
 */
export interface Complaint {
  /**
   * In the customer's or the technician's words.
   */
  text: string;
}
/**
 * Who owns the vehicle. Kind `job.customer`: personal, left out of bundles unless asked for.
 */
export interface Customer {
  /**
   * Name.
   */
  name?: string;
  /**
   * Telephone.
   */
  phone?: string;
  /**
   * Licence plate.
   */
  plate?: string;
}
/**
 * Free notes. Kind `job.notes`.
 */
export interface Notes {
  /**
   * Anything worth keeping.
   */
  text: string;
}
/**
 * What the vehicle is, without anything that names a person. Kind `job.vehicle`.
 */
export interface Vehicle {
  /**
   * Year, make and model in the shop's words.
   */
  description: string;
  /**
   * Distance covered, m.
   */
  odometer_m?: number | null;
}
/**
 * What came of opening a job.
 */
export interface JobOpened {
  /**
   * What is wrong or odd.
   */
  findings: Finding[];
  /**
   * The new job; none when a finding forbids it or it was a dry run.
   */
  job?: string | null;
}
/**
 * Ask for one job.
 */
export interface JobGet {
  /**
   * The job.
   */
  job: string;
}
/**
 * A job as its screen shows it.
 */
export interface JobView {
  /**
   * The bores of the unit and what was done on each.
   */
  bores: BoreState[];
  complaint: Complaint;
  /**
   * The customer, if recorded.
   */
  customer?: Customer | null;
  /**
   * Two people at once, and the like.
   */
  findings: Finding[];
  /**
   * The hazards of bench work and who has read each.
   */
  hazards: HazardState[];
  /**
   * Subject.
   */
  id: string;
  job: Job;
  notes: Notes;
  /**
   * Who opened it.
   */
  opened_by: string;
  undo: UndoState;
  /**
   * The unit's name.
   */
  unit_name: string;
  vehicle: Vehicle;
}
/**
 * A bore within a job.
 */
export interface BoreState {
  /**
   * The bore.
   */
  bore: string;
  /**
   * The circuit's name.
   */
  circuit_name: string;
  /**
   * Its name.
   */
  name: string;
  relief: ReliefEntry;
  /**
   * Repairs of it in this job, oldest first.
   */
  repairs: RepairEntry[];
  /**
   * Its vacuum test points.
   */
  test_points: TestPointState[];
}
/**
 * The relief of a bore's circuit within a job.
 */
export interface ReliefEntry {
  /**
   * Who checked it in this job; none: nobody yet.
   */
  checked?: ReadBy | null;
  /**
   * True when the profile has one.
   */
  in_profile: boolean;
}
/**
 * Who did something, and when by that device's clock.
 */
export interface ReadBy {
  /**
   * When.
   */
  at: string;
  /**
   * Name of the person.
   */
  by: string;
}
/**
 * A repair in the list of a bore.
 */
export interface RepairEntry {
  by: ReadBy;
  option: RepairOption;
  /**
   * Parts, in words.
   */
  parts: string;
  /**
   * The repair.
   */
  repair: string;
  /**
   * Whether the bore was tested since.
   */
  tested_since: boolean;
}
/**
 * A test point within a job.
 */
export interface TestPointState {
  /**
   * Its name.
   */
  name: string;
  /**
   * The test point.
   */
  test_point: string;
  /**
   * Tests of it in this job, oldest first.
   */
  tests: TestEntry[];
}
/**
 * A vacuum test in a list.
 */
export interface TestEntry {
  begun: ReadBy;
  /**
   * Decision on record.
   */
  decided?: Verdict | null;
  /**
   * The mean of those that count as repeats, Pa below ambient.
   */
  mean_vacuum_pa?: number | null;
  /**
   * Readings that stand.
   */
  readings: number;
  /**
   * The test.
   */
  test: string;
}
/**
 * A hazard and whether its caution was read for this job.
 */
export interface HazardState {
  hazard: Hazard;
  /**
   * Who read it and when; none: not yet.
   */
  read?: ReadBy | null;
}
/**
 * The job itself. Kind `job`.
 */
export interface Job {
  /**
   * The shop's own job number, as the shop writes it.
   */
  number: string;
  /**
   * The day the job was opened.
   */
  opened_on: string;
  /**
   * The unit profile it is about.
   */
  unit: string;
}
/**
 * Change one part of a job.
 */
export interface JobEdit {
  /**
   * The job.
   */
  job: string;
  part: JobPart;
}
/**
 * Say that a caution was read.
 */
export interface CautionReadArgs {
  /**
   * The hazards read, one or more at once.
   */
  hazards: Hazard[];
  /**
   * The job.
   */
  job: string;
}
/**
 * Begin a test.
 */
export interface TestBegin {
  /**
   * The bore.
   */
  bore: string;
  /**
   * The job.
   */
  job: string;
  /**
   * The stand, if one that the shop has entered.
   */
  stand?: string | null;
  /**
   * The test point.
   */
  test_point: string;
}
/**
 * The new test.
 */
export interface TestBegun {
  /**
   * The test.
   */
  test: string;
}
/**
 * Ask for one test.
 */
export interface TestGet {
  /**
   * Oil temperature for the prediction, K; none: the unit's running temperature.
   */
  oil_temperature_k?: number | null;
  /**
   * The test.
   */
  test: string;
}
/**
 * A test as its screens show it.
 */
export interface TestView {
  /**
   * The blank.
   */
  blank?: Blank | null;
  /**
   * The bore's name.
   */
  bore_name: string;
  /**
   * The decision on record.
   */
  decision?: DecisionEntry | null;
  drawing: BoreDrawing;
  /**
   * Its gauge, if known.
   */
  gauge?: Instrument | null;
  /**
   * The job's hazards, for the line that stays in view.
   */
  hazards: HazardState[];
  /**
   * Subject.
   */
  id: string;
  /**
   * The job's number.
   */
  job_number: string;
  judgement: Judgement;
  /**
   * Readings that stand, oldest first, each with what it replaced.
   */
  readings: ReadingEntry[];
  /**
   * How it was set up.
   */
  setup?: Setup | null;
  /**
   * The stand, if one is named.
   */
  stand?: Stand | null;
  /**
   * The stand checked.
   */
  stand_check?: StandCheck | null;
  /**
   * The stand check of the same stand on the same day in another test, to take over by one tap.
   */
  stand_check_today?: StandCheck | null;
  suggested: SetupSuggestion;
  test: VacuumTest;
  test_point: TestPoint;
  undo: UndoState;
}
/**
 * The blank: plug and plate without the bore. Kind `test.blank`.
 */
export interface Blank {
  /**
   * As typed, with its unit.
   */
  as_typed?: string | null;
  /**
   * Reading, Pa below ambient; none: no blank was taken, said on purpose.
   */
  vacuum_pa?: number | null;
}
/**
 * A decision on record.
 */
export interface DecisionEntry {
  /**
   * When.
   */
  at: string;
  /**
   * Who made it.
   */
  by: string;
  decision: Decision;
  /**
   * True when the readings, the set-up or the profile have changed since.
   */
  outdated: boolean;
  /**
   * Its record.
   */
  record: string;
}
/**
 * A decision that somebody put on record. Kind `test.decision`. It pins what it was made from, so
 * that a later change of a limit never rewrites it.
 */
export interface Decision {
  /**
   * Probability that the bore conforms.
   */
  conformity_probability: number;
  /**
   * The records that it used.
   */
  inputs: string[];
  /**
   * Limit carried to the day's barometer, Pa below ambient.
   */
  limit_vacuum_pa: number;
  /**
   * Mean reading, Pa below ambient.
   */
  mean_vacuum_pa: number;
  /**
   * The person's own words.
   */
  note?: string;
  /**
   * Version of the physics.
   */
  physics_version: string;
  /**
   * Digest of the bore's profile.
   */
  profile_digest: string;
  /**
   * The same at the highest line pressure.
   *
   * @minItems 3
   * @maxItems 3
   */
  shift_highest_line_pa?: number[] | null;
  /**
   * Shift of the regulated pressure at hot idle, Pa: low, likely, high; none where it was not
   * computed or does not regulate.
   *
   * @minItems 3
   * @maxItems 3
   */
  shift_idle_pa?: number[] | null;
  /**
   * Its standard uncertainty, Pa.
   */
  standard_uncertainty_pa: number;
  verdict: Verdict;
}
/**
 * Everything that one vacuum test says.
 */
export interface Judgement {
  /**
   * What was assumed.
   */
  assumptions: Assumed[];
  /**
   * The barometer that was used, Pa absolute; none until the air is known.
   */
  barometer_pa?: number | null;
  /**
   * What the leak does to the pressure, or why that can't be told; none without readings.
   */
  consequence?: ConsequenceAnswer | null;
  /**
   * The decision; none without a limit or readings.
   */
  decision?: LimitDecision | null;
  /**
   * What is odd.
   */
  findings: Finding[];
  /**
   * The leak, or why it can't be told; none without readings.
   */
  leak?: LeakAnswer | null;
  /**
   * The limit carried to the day; none where the profile has none.
   */
  limit?: LimitOfTheDay | null;
  /**
   * Version of the physics that was used.
   */
  physics_version: string;
  /**
   * Digest of the profile that was used.
   */
  profile_digest: string;
  /**
   * Mean and spread of the readings; none without readings.
   */
  readings?: ReadingSummary | null;
  /**
   * The stand as calibrated on the day; none without enough orifice readings.
   */
  stand?: StandFit | null;
}
/**
 * Regulated pressure against line pressure, hot, as new and as measured.
 */
export interface Consequence {
  /**
   * What was varied to get the band.
   */
  band_from: BandSource[];
  /**
   * The valve as new, and as measured, over the range of line pressures.
   */
  curve: CurvePoint[];
  highest_line: OperatingPoint;
  idle: OperatingPoint;
  leak_flow_m3_s: Span;
  /**
   * Oil temperature, K.
   */
  oil_temperature_k: number;
  /**
   * Dynamic viscosity of the oil there, Pa·s.
   */
  oil_viscosity_pa_s: number;
  /**
   * What the circuit is meant to hold, Pa.
   */
  setpoint_pa: number;
  /**
   * Highest specified, Pa.
   */
  specified_high_pa: number;
  /**
   * Lowest specified, Pa.
   */
  specified_low_pa: number;
  /**
   * Spool stroke while regulating at the highest line, as measured, m.
   */
  stroke_m: number;
}
/**
 * One line pressure of the plot.
 */
export interface CurvePoint {
  /**
   * Line pressure, Pa.
   */
  line_pa: number;
  measured_feed_pa: Span;
  measured_state: RegulationState;
  new_feed_pa: Span;
  new_state: RegulationState;
}
/**
 * A low, a likely and a high value of one quantity. Asymmetric on purpose: a predicted shift is
 * never a bare ±.
 */
export interface Span {
  /**
   * High end.
   */
  high: number;
  /**
   * Likely value.
   */
  likely: number;
  /**
   * Low end.
   */
  low: number;
}
/**
 * Pressure at one working point and how far the wear moves it.
 */
export interface OperatingPoint {
  /**
   * Where the measured feed stands to the specification; none where it isn't regulating.
   */
  against_specification?: SpecificationAnswer | null;
  /**
   * Line pressure, Pa.
   */
  line_pa: number;
  measured_feed_pa: Span;
  measured_state: RegulationState;
  new_feed_pa: Span;
  new_state: RegulationState;
  /**
   * Shift, Pa; none where either is not regulating.
   */
  shift_pa?: Span | null;
  worst_state: RegulationState;
}
/**
 * Three-way decision with its probability.
 */
export interface LimitDecision {
  /**
   * Probability that the true reading meets the limit.
   */
  conformity_probability: number;
  /**
   * Uncertainty that the decision used, gauge, repeats and barometer together, Pa.
   */
  standard_uncertainty_pa: number;
  verdict: Verdict;
}
/**
 * A leak that no longer depends on the stand or the altitude.
 */
export interface Leak {
  /**
   * Share of the whole flow that is plug and plate, 0 to 1.
   */
  blank_share: number;
  /**
   * Absolute pressure in the evacuated chamber, Pa.
   */
  chamber_pressure_pa: number;
  clearance_centred_m: Span;
  /**
   * Diametral clearance as new, m, by the profile.
   */
  clearance_new_m: number;
  clearance_off_centre_m: Span;
  /**
   * Diameter of the hole that would leak as much air, m.
   */
  equivalent_hole_m: number;
  gap_factor_m3: Span;
  /**
   * Share of the drop that the balance orifice takes, 0 to 1.
   */
  orifice_drop_share: number;
  /**
   * The reading that this bore would give at sea level on the reference stand, Pa below ambient.
   */
  reference_vacuum_pa: number;
  /**
   * pV flow through the lands, Pa·m³/s.
   */
  throughput_w: number;
}
/**
 * The limit at sea level and on the day.
 */
export interface LimitOfTheDay {
  law: LeakLaw;
  /**
   * As the service information has it, Pa below ambient at sea level.
   */
  sea_level_vacuum_pa: number;
  /**
   * Who set it.
   */
  source: string;
  /**
   * Carried to the day's barometer, Pa below ambient.
   */
  today_vacuum_pa: number;
}
/**
 * Mean, spread and uncertainty of the readings that count.
 */
export interface ReadingSummary {
  /**
   * Where the uncertainty comes from, largest first; shares of the variance add to 1.
   */
  contributions: Contribution[];
  /**
   * All readings that stand.
   */
  count: number;
  /**
   * Uncertainty expanded to 95 %, Pa.
   */
  expanded_uncertainty_pa: number;
  /**
   * Those that count as repeats.
   */
  independent_count: number;
  /**
   * Mean, Pa below ambient.
   */
  mean_vacuum_pa: number;
  /**
   * Largest less smallest, Pa.
   */
  spread_pa: number;
  /**
   * Standard uncertainty of the mean, gauge included, Pa.
   */
  standard_uncertainty_pa: number;
}
/**
 * One source of uncertainty.
 */
export interface Contribution {
  /**
   * Share of the variance, 0 to 1.
   */
  share: number;
  source: UncertaintySource;
}
/**
 * The stand as its orifices show it.
 */
export interface StandFit {
  /**
   * Absolute pressure with the hose closed, Pa.
   */
  dead_head_pressure_pa: number;
  /**
   * Hose resistance, Pa·s/m³ (p_port² = p_gauge² + R q).
   */
  hose_resistance_pa_s_m3: number;
  /**
   * Pull, m³/s.
   */
  pull_m3_s: number;
  /**
   * What the fitted stand would read less what it did, per orifice, Pa.
   */
  residuals: StandResidual[];
}
/**
 * How well one orifice fits.
 */
export interface StandResidual {
  /**
   * The orifice.
   */
  label: string;
  /**
   * Fitted less read, Pa.
   */
  residual_pa: number;
}
/**
 * A reading on record.
 */
export interface ReadingEntry {
  /**
   * When, by that device's clock.
   */
  at: string;
  /**
   * Who took it.
   */
  by: string;
  /**
   * What it corrected, latest first.
   */
  corrected: Reading[];
  reading: Reading;
  /**
   * Its record.
   */
  record: string;
}
/**
 * One reading of the bore. Kind `test.reading`; a correction supersedes it and both are kept.
 */
export interface Reading {
  /**
   * As typed, with its unit.
   */
  as_typed?: string | null;
  /**
   * True when the valve was turned and the plug seated anew before it: only such readings
   * count as repeats. The first of a test needs neither.
   */
  reseated: boolean;
  /**
   * Reading, Pa below ambient.
   */
  vacuum_pa: number;
}
/**
 * How the bore was set up. Kind `test.setup`.
 */
export interface Setup {
  /**
   * Temperature at the bench, K.
   */
  air_temperature_k: number;
  ambient: Ambient;
  orifice: OrificePath;
  surface: Surface;
  valve_position: ValvePosition;
}
/**
 * The stand checked on the day. Kind `test.stand_check`.
 */
export interface StandCheck {
  /**
   * As typed, with its unit.
   */
  as_typed?: string | null;
  /**
   * Reading with the hose closed, Pa below ambient.
   */
  dead_head_vacuum_pa: number;
  /**
   * Readings on the calibrated orifices.
   */
  orifices: OrificeReading[];
}
/**
 * The stand's reading on one of its calibrated orifices.
 */
export interface OrificeReading {
  /**
   * As typed, with its unit.
   */
  as_typed?: string | null;
  /**
   * The orifice's label on the stand.
   */
  label: string;
  /**
   * Reading, Pa below ambient.
   */
  vacuum_pa: number;
}
/**
 * What a set-up would be if nothing is unusual.
 */
export interface SetupSuggestion {
  /**
   * True when the air comes from the stand's altitude; false when it is only sea level.
   */
  ambient_from_stand: boolean;
  setup: Setup;
}
/**
 * One vacuum test of one bore in one job. Kind `test`.
 */
export interface VacuumTest {
  /**
   * The bore.
   */
  bore: string;
  /**
   * The job.
   */
  job: string;
  /**
   * The stand; none: a reading from a stand that nobody entered.
   */
  stand?: string | null;
  /**
   * The test point.
   */
  test_point: string;
}
/**
 * Record one part of a test.
 */
export interface TestRecord {
  /**
   * True: say what it would give and what is wrong with it, write nothing.
   */
  dry_run?: boolean;
  part: TestPart;
  /**
   * The test.
   */
  test: string;
}
/**
 * What came of recording a part.
 */
export interface TestRecorded {
  /**
   * What is wrong or odd about the part, fields relative to it.
   */
  findings: Finding[];
  /**
   * True when it is on record.
   */
  saved: boolean;
  view: TestView;
}
/**
 * Correct a reading: the first stays in the record beside it.
 */
export interface ReadingCorrect {
  reading: Reading;
  /**
   * The reading's record.
   */
  record: string;
  /**
   * The test.
   */
  test: string;
}
/**
 * Strike a reading: it stays in the record, voided.
 */
export interface ReadingStrike {
  /**
   * The reading's record.
   */
  record: string;
  /**
   * The test.
   */
  test: string;
}
/**
 * Put the decision that the judgement shows now on record.
 */
export interface TestDecide {
  /**
   * Own words.
   */
  note?: string;
  /**
   * The test.
   */
  test: string;
}
/**
 * Ask for the relief check of a bore's circuit in a job.
 */
export interface ReliefGet {
  /**
   * The bore.
   */
  bore: string;
  /**
   * The job.
   */
  job: string;
}
/**
 * A relief check as its screen shows it.
 */
export interface ReliefView {
  answer: ReliefAnswer;
  /**
   * The bore.
   */
  bore: string;
  /**
   * Its name.
   */
  bore_name: string;
  /**
   * Who recorded them; none: not on record.
   */
  by?: ReadBy | null;
  /**
   * The circuit's name.
   */
  circuit_name: string;
  figures: ReliefFigures;
  /**
   * The job's hazards, for the line that stays in view.
   */
  hazards: HazardState[];
  /**
   * True when the profile has a relief on this circuit.
   */
  in_profile: boolean;
  /**
   * The job.
   */
  job: string;
  /**
   * Its number.
   */
  job_number: string;
  undo: UndoState;
}
/**
 * What a relief check says.
 */
export interface ReliefAnswer {
  /**
   * What was assumed.
   */
  assumptions: Assumed[];
  /**
   * What is odd, at the figures' fields.
   */
  findings: Finding[];
  /**
   * What the parts stand, Pa; none: not entered.
   */
  limit_pa?: number | null;
  /**
   * Oil temperature, K.
   */
  oil_temperature_k: number;
  /**
   * Where the valve as new regulates, friction and eccentricity included, Pa; none where the
   * profile can't tell or the valve regulates nowhere.
   */
  regulation_pa?: Span | null;
  /**
   * What the relief does; none while a dimension is missing or can't be.
   */
  relief?: ReliefBehaviour | null;
  /**
   * Upper end of the specified band, Pa.
   */
  specified_high_pa: number;
  /**
   * The worst cross leak; none while no clearance is known.
   */
  worst?: WorstLeak | null;
}
/**
 * Opening and override.
 */
export interface ReliefBehaviour {
  /**
   * Flow at what the parts stand, m³/s; none without a limit.
   */
  capacity_at_limit_m3_s?: number | null;
  /**
   * Pressure at which the ball just carries no load on its seat, Pa.
   */
  cracking_pa: number;
  /**
   * Lift there, m.
   */
  full_lift_m: number;
  /**
   * Pressure at which it is as open as it gets, Pa.
   */
  full_open_pa: number;
  /**
   * From just below cracking on.
   */
  override_curve: OverridePoint[];
  window: WindowAnswer;
}
/**
 * One pressure of the override curve.
 */
export interface OverridePoint {
  /**
   * Area that oil passes, m².
   */
  area_m2: number;
  /**
   * Flow, m³/s.
   */
  flow_m3_s: number;
  /**
   * Lift, m.
   */
  lift_m: number;
  /**
   * Pressure on the ball, Pa above sump.
   */
  pressure_pa: number;
}
/**
 * The worst cross leak: line into feed past the worn supply land, highest line pressure, hot,
 * every solenoid shut.
 */
export interface WorstLeak {
  clearance_from: ClearanceSource;
  clearance_m: Span;
  /**
   * Feed with this relief, Pa; none while the relief isn't known.
   */
  feed_with_pa?: Span | null;
  feed_without_pa: Span;
  /**
   * Whether the worst stays below what the parts stand; none when either isn't known.
   */
  holds?: boolean | null;
  /**
   * What crosses from line into feed with this relief, m³/s: it remains.
   */
  leak_flow_m3_s?: Span | null;
  /**
   * Line pressure, Pa.
   */
  line_pa: number;
  /**
   * What goes over the relief to the sump, m³/s: pump flow that is lost.
   */
  lost_flow_m3_s?: Span | null;
}
/**
 * What is known of a relief and of what it guards. Every figure may be missing; a finding says
 * what that costs.
 */
export interface ReliefFigures {
  /**
   * Ball diameter, m.
   */
  ball_diameter_m?: number | null;
  /**
   * Clearance of the supply land on the diameter, m; none: that of the last judged test.
   */
  clearance_m?: number | null;
  /**
   * How far the ball can lift, m.
   */
  lift_stop_m?: number | null;
  /**
   * Highest pressure that the parts on the circuit stand, Pa above ambient.
   */
  limit_pa?: number | null;
  /**
   * Who says so.
   */
  limit_source?: string;
  /**
   * Spring load on the seated ball, N.
   */
  load_seated_n?: number | null;
  presence?: ReliefPresence;
  /**
   * Spring rate, N/m.
   */
  rate_n_per_m?: number | null;
  /**
   * Bore of the sharp-edged seat, m.
   */
  seat_diameter_m?: number | null;
  /**
   * Where the relief's figures come from.
   */
  source?: string;
}
/**
 * Record a relief check, or say what it would give.
 */
export interface ReliefRecord {
  /**
   * The bore.
   */
  bore: string;
  /**
   * True: say what it would give and what is wrong with it, write nothing.
   */
  dry_run?: boolean;
  figures: ReliefFigures;
  /**
   * The job.
   */
  job: string;
}
/**
 * What came of recording a relief check.
 */
export interface ReliefRecorded {
  /**
   * True when it is on record.
   */
  saved: boolean;
  view: ReliefView;
}
/**
 * Ask for a repair, or for what stands before a new one.
 */
export interface RepairGet {
  /**
   * The bore.
   */
  bore: string;
  /**
   * The job.
   */
  job: string;
  /**
   * The repair; none: a new one.
   */
  repair?: string | null;
}
/**
 * A repair as its screens show it: before, predicted, after.
 */
export interface RepairView {
  /**
   * The test since.
   */
  after?: RepairStage | null;
  /**
   * The last test before.
   */
  before?: RepairStage | null;
  /**
   * The bore.
   */
  bore: string;
  /**
   * Its name.
   */
  bore_name: string;
  /**
   * Who recorded it; none: not on record.
   */
  by?: ReadBy | null;
  /**
   * What is odd.
   */
  findings: Finding[];
  /**
   * What the work should do; none without work.
   */
  forecast?: RepairForecast | null;
  /**
   * The job's hazards, for the line that stays in view.
   */
  hazards: HazardState[];
  /**
   * The repair; none: not on record.
   */
  id?: string | null;
  /**
   * The job.
   */
  job: string;
  /**
   * Its number.
   */
  job_number: string;
  /**
   * What is still open; empty without work.
   */
  open: OpenPoint[];
  parts_before: PartsBefore;
  /**
   * A test begun since, without a reading yet.
   */
  test_begun?: string | null;
  /**
   * At which test point to test again.
   */
  test_point?: string | null;
  undo: UndoState;
  /**
   * The work; none: not entered yet.
   */
  work?: RepairWork | null;
}
/**
 * One test beside a repair.
 */
export interface RepairStage {
  begun: ReadBy;
  /**
   * The pressure; none without readings.
   */
  consequence?: ConsequenceAnswer | null;
  /**
   * Decision on record.
   */
  decided?: Verdict | null;
  /**
   * What the reading says to its limit now.
   */
  decision?: LimitDecision | null;
  /**
   * Mean reading, Pa below ambient; none: no reading that can be true.
   */
  mean_vacuum_pa?: number | null;
  /**
   * The test.
   */
  test: string;
}
/**
 * What a repair is predicted to do.
 */
export interface RepairForecast {
  /**
   * What was assumed.
   */
  assumptions: Assumed[];
  /**
   * Clearance on the diameter after the repair, m; none while it isn't known.
   */
  clearance_m?: Span | null;
  /**
   * What is odd, and what missing dimensions cost, at the fields of the work.
   */
  findings: Finding[];
  /**
   * Spring load at the regulating position that holds the circuit's pressure on that area, N.
   */
  fitting_load_n?: number | null;
  prediction: ConsequenceAnswer;
  /**
   * Reaction area, m².
   */
  reaction_area_m2?: number | null;
  /**
   * Pressure that the spring holds on that area by P = F / A, Pa.
   */
  spring_holds_pa?: number | null;
}
/**
 * The dimensions that a repair found in place, by the profile and earlier repairs.
 */
export interface PartsBefore {
  /**
   * Bore, m.
   */
  bore_diameter_m: number;
  /**
   * What the circuit is meant to hold, Pa.
   */
  setpoint_pa: number;
  /**
   * Spring load at the regulating position, N.
   */
  spring_load_n?: number | null;
  /**
   * Spring rate, N/m.
   */
  spring_rate_n_per_m?: number | null;
  /**
   * Reaction land, m; none: the profile has no lands.
   */
  valve_diameter_m?: number | null;
}
/**
 * What was done and what it left. Each dimension may be missing; a finding says what that costs.
 */
export interface RepairWork {
  /**
   * Bore of the sleeve, or bore as reamed, at 20 °C, m.
   */
  bore_diameter_m?: number | null;
  /**
   * How far that may be off either way (95 %), m.
   */
  bore_uncertainty_m?: number | null;
  /**
   * Anything worth keeping.
   */
  notes?: string;
  option: RepairOption;
  /**
   * Parts, in words.
   */
  parts?: string;
  /**
   * Spring load at the regulating position, N.
   */
  spring_load_n?: number | null;
  /**
   * Spring rate, N/m.
   */
  spring_rate_n_per_m?: number | null;
  /**
   * Diameter of the valve's reaction land at 20 °C, m.
   */
  valve_diameter_m?: number | null;
  /**
   * How far that may be off either way (95 %), m.
   */
  valve_uncertainty_m?: number | null;
}
/**
 * Record a repair, or say what it would give.
 */
export interface RepairRecord {
  /**
   * The bore.
   */
  bore: string;
  /**
   * True: say what it would give and what is wrong with it, write nothing.
   */
  dry_run?: boolean;
  /**
   * The job.
   */
  job: string;
  /**
   * The repair to change; none: a new one.
   */
  repair?: string | null;
  work: RepairWork;
}
/**
 * What came of recording a repair.
 */
export interface RepairRecorded {
  /**
   * True when it is on record.
   */
  saved: boolean;
  view: RepairView;
}
/**
 * Write a job's report.
 */
export interface ReportWrite {
  /**
   * The job.
   */
  job: string;
  /**
   * How this device writes numbers (BCP 47), for settings that leave that to the device.
   */
  locale?: string | null;
  /**
   * With the customer's name, telephone and plate.
   */
  personal?: boolean;
}
/**
 * A report, ready to be saved.
 */
export interface ReportMade {
  /**
   * Its length.
   */
  bytes: number;
  /**
   * The file.
   */
  file: number;
  /**
   * A name for it.
   */
  name: string;
}
/**
 * What undo or redo did.
 */
export interface UndoDone {
  step: UndoStep;
  undo: UndoState;
}
/**
 * Ask for a subject's history.
 */
export interface HistoryGet {
  /**
   * The subject: a job or a test.
   */
  subject: string;
}
/**
 * Every record of a subject, oldest first.
 */
export interface History {
  /**
   * The records.
   */
  entries: HistoryEntry[];
}
/**
 * One record.
 */
export interface HistoryEntry {
  /**
   * When, by that device's clock.
   */
  at: string;
  /**
   * Its body; none when withheld or erased.
   */
  body?: {
    [k: string]: unknown;
  };
  /**
   * Who.
   */
  by: string;
  /**
   * Fingerprint of the device.
   */
  device: string;
  /**
   * Its kind.
   */
  kind: string;
  /**
   * The record.
   */
  record: string;
  standing: RecordStanding;
}
/**
 * What the check of the store found.
 */
export interface StoreCheck {
  /**
   * True when nothing is wrong.
   */
  clean: boolean;
  /**
   * BLAKE3 digest of the journal and its projections.
   */
  digest: string;
  /**
   * What is wrong, for whoever repairs it.
   */
  problems: string[];
  /**
   * Records in the journal.
   */
  records: number;
}
/**
 * Keep a draft.
 */
export interface DraftPut {
  /**
   * Which form, e.g. `job.new` or `test:<id>:reading`.
   */
  key: string;
  /**
   * What was typed, as typed: it need not be valid.
   */
  value: {
    [k: string]: unknown;
  };
}
/**
 * Name a draft.
 */
export interface DraftKey {
  /**
   * Which form.
   */
  key: string;
}
/**
 * A draft, if there is one.
 */
export interface DraftAnswer {
  /**
   * What was typed; none: no draft.
   */
  value?: {
    [k: string]: unknown;
  };
}
/**
 * Make a bundle.
 */
export interface BundleMake {
  audience?: Audience;
  /**
   * These jobs with everything that they refer to; none: the whole shop.
   */
  jobs?: string[] | null;
  /**
   * Seal it with this, so that nobody reads it without; none: anyone with the file can.
   */
  passphrase?: string | null;
  /**
   * With what names private persons.
   */
  personal?: boolean;
  /**
   * These units with their profiles and without the jobs that were done on them.
   */
  units?: string[] | null;
  /**
   * Only what this device isn't known to have: the fingerprint of its key, as a bundle's signer
   * has it.
   */
  unseen_by?: string | null;
}
/**
 * A bundle, ready to be saved.
 */
export interface BundleMade {
  /**
   * Records that were left out because the device has them already.
   */
  already_there: number;
  /**
   * Its length.
   */
  bytes: number;
  /**
   * The file.
   */
  file: number;
  /**
   * Jobs in it.
   */
  jobs: number;
  /**
   * Bodies about private persons that were left out.
   */
  left_out: number;
  /**
   * Bodies with free text that were left out.
   */
  left_out_text: number;
  /**
   * A name for it.
   */
  name: string;
  /**
   * Records in it.
   */
  records: number;
  /**
   * True if it is sealed with a passphrase.
   */
  sealed: boolean;
}
/**
 * Name a file.
 */
export interface FileName {
  /**
   * The file.
   */
  file: number;
}
/**
 * What a bundle is and what taking it in would do.
 */
export interface BundlePlan {
  /**
   * Values that would stand beside ones written here, neither knowing of the other.
   */
  concurrent: BundleValue[];
  /**
   * Its jobs.
   */
  jobs: BundleJob[];
  /**
   * When, by that device's clock.
   */
  made_at: string;
  /**
   * Who made it; empty: the bundle doesn't say by name.
   */
  made_by: string;
  /**
   * The file's name.
   */
  name: string;
  /**
   * Contents new here, for new records or ones that came without.
   */
  new_contents: number;
  /**
   * Records that are new here.
   */
  new_records: number;
  /**
   * Values here that it replaces with later ones.
   */
  newer: BundleValue[];
  /**
   * True when all of it is here already.
   */
  nothing_new: boolean;
  /**
   * Records that are here already.
   */
  same_records: number;
  /**
   * The device that made it and those that signed what is in it.
   */
  signers: BundleSigner[];
  /**
   * How much else it brings, by kind.
   */
  things: BundleThings[];
  /**
   * Records that only a later version of this program reads; kept and passed on.
   */
  unknown: BundleUnknown[];
  /**
   * Records that it holds without their content, which was left out.
   */
  withheld: number;
  /**
   * Those of them whose kind isn't about a person: free text, or what its maker didn't have.
   */
  withheld_text: number;
}
/**
 * One value.
 */
export interface BundleValue {
  /**
   * Its kind.
   */
  kind: string;
  /**
   * What it belongs to, as far as that has a name.
   */
  of: string;
}
/**
 * One job in a bundle.
 */
export interface BundleJob {
  brought: Brought;
  /**
   * Subject.
   */
  id: string;
  /**
   * The job's number.
   */
  number: string;
  /**
   * The vehicle.
   */
  vehicle: string;
}
/**
 * A device that signed.
 */
export interface BundleSigner {
  /**
   * User actions that it signed.
   */
  actions: number;
  /**
   * Fingerprint of its key.
   */
  device: string;
  /**
   * Since when this device's key is not trusted any more here.
   */
  distrusted_since?: string | null;
  /**
   * True for the one that made the file.
   */
  made_it: boolean;
  /**
   * True for this very device.
   */
  own: boolean;
  /**
   * Who worked on it, by name.
   */
  people: string[];
  /**
   * Of a stranger: those of its people whose work is here already, signed by other devices.
   * Somebody may be passing for them.
   */
  poses_as: string[];
  /**
   * Actions in the file that it signed after that, by its own clock. Whoever found or copied a
   * device can set that clock back, so none is no proof.
   */
  signed_after: number;
  /**
   * True when nothing here was signed by it yet.
   */
  stranger: boolean;
}
/**
 * Things of one kind.
 */
export interface BundleThings {
  /**
   * The kind, e.g. `unit`.
   */
  kind: string;
  /**
   * How many are here already.
   */
  known: number;
  /**
   * How many aren't here yet.
   */
  new: number;
}
/**
 * Records of a kind that this program doesn't read.
 */
export interface BundleUnknown {
  /**
   * Their kind.
   */
  kind: string;
  /**
   * How many.
   */
  records: number;
  /**
   * Its version.
   */
  version: number;
}
/**
 * What was taken in.
 */
export interface BundleTaken {
  /**
   * Names the import, for taking it out again; none: it brought nothing.
   */
  import?: number | null;
  /**
   * Records that were new.
   */
  new_records: number;
}
/**
 * The devices that signed something here.
 */
export interface DeviceList {
  /**
   * They.
   */
  devices: KnownDevice[];
}
/**
 * A device that signed something here.
 */
export interface KnownDevice {
  /**
   * Fingerprint of its key.
   */
  device: string;
  /**
   * Since when its key is not trusted any more.
   */
  distrusted_since?: string | null;
  /**
   * Records here that it is known to have; none: no bundle that it made was taken in yet.
   */
  known_to_have?: number | null;
  /**
   * True for this very device.
   */
  own: boolean;
  /**
   * Who worked on it, by name.
   */
  people: string[];
}
/**
 * Say that a device was lost or copied, or that it is trusted again. Stays on this device.
 */
export interface DeviceTrust {
  /**
   * Fingerprint of its key.
   */
  device: string;
  /**
   * False: what it signs from now on is warned of.
   */
  trusted: boolean;
}
/**
 * The imports that are here, the latest first.
 */
export interface ImportList {
  /**
   * True when the demo shop is here.
   */
  demo: boolean;
  /**
   * They.
   */
  imports: ImportEntry[];
}
/**
 * One import.
 */
export interface ImportEntry {
  /**
   * True for the demo shop.
   */
  demo: boolean;
  /**
   * Names it.
   */
  import: number;
  /**
   * Who made the file.
   */
  made_by: string;
  /**
   * The file's name.
   */
  name: string;
  /**
   * Records that it held.
   */
  records: number;
  /**
   * When it was taken in.
   */
  taken_in: string;
}
/**
 * Name an import.
 */
export interface ImportName {
  /**
   * The import.
   */
  import: number;
}
/**
 * Begin to carry a file in.
 */
export interface FileBegin {
  /**
   * Its name, for showing.
   */
  name: string;
}
/**
 * A file held for a while.
 */
export interface FileHeld {
  /**
   * Its length so far.
   */
  bytes: number;
  /**
   * Names it until it is dropped, or a fifth one comes.
   */
  file: number;
}
/**
 * Carry in one piece of a file.
 */
export interface FileAdd {
  /**
   * The piece, RFC 4648 with padding; at most 4 MiB of bytes.
   */
  base64: string;
  /**
   * The file.
   */
  file: number;
}
/**
 * Take a file from a path of this device.
 */
export interface FileOpen {
  /**
   * Its path.
   */
  path: string;
}
/**
 * Open a file that is sealed with a passphrase.
 */
export interface FileUnseal {
  /**
   * The file. It stays under its handle and holds what was sealed from then on.
   */
  file: number;
  /**
   * The passphrase.
   */
  passphrase: string;
}
/**
 * Ask for one piece of a file that was made here.
 */
export interface FileRead {
  /**
   * The file.
   */
  file: number;
  /**
   * Where the piece begins.
   */
  from: number;
}
/**
 * One piece.
 */
export interface FilePiece {
  /**
   * Its bytes, RFC 4648 with padding; empty at the end.
   */
  base64: string;
  /**
   * Length of the whole file.
   */
  bytes: number;
}
/**
 * Write a file that was made here to a path of this device.
 */
export interface FileSave {
  /**
   * The file.
   */
  file: number;
  /**
   * Its path; the name must end as the file was made: `.vvb`, or `.html` for a report.
   */
  path: string;
}
/**
 * Judge without a store: everything is in the arguments.
 */
export interface JudgeArgs {
  /**
   * The blank.
   */
  blank?: Blank | null;
  /**
   * Its gauge.
   */
  gauge?: Instrument | null;
  /**
   * Oil temperature, K; none: the unit's.
   */
  oil_temperature_k?: number | null;
  profile: BoreProfile;
  /**
   * The readings.
   */
  readings?: Reading[];
  /**
   * How it was set up.
   */
  setup?: Setup | null;
  /**
   * The stand.
   */
  stand?: Stand | null;
  /**
   * The stand checked.
   */
  stand_check?: StandCheck | null;
  /**
   * Which of its test points, by index.
   */
  test_point_index: number;
}
/**
 * Check a relief without a store.
 */
export interface ReliefArgs {
  figures: ReliefFigures;
  profile: BoreProfile;
}
/**
 * Predict a repair without a store.
 */
export interface RepairArgs {
  /**
   * What the test before found.
   */
  before?: SealsFound | null;
  profile: BoreProfile;
  /**
   * The relief, for a repair that adds one.
   */
  relief?: Relief | null;
  work: RepairWork;
}
/**
 * Clearances on the diameter that a test found, each low, likely and high, m.
 */
export interface SealsFound {
  /**
   * If the valve lay centred.
   *
   * @minItems 3
   * @maxItems 3
   */
  centred_m: number[];
  /**
   * If it lay against one side.
   *
   * @minItems 3
   * @maxItems 3
   */
  off_centre_m: number[];
  /**
   * Names of the tested lands.
   */
  tested_lands: string[];
}
/**
 * Barometer from an altitude, or checked against one.
 */
export interface BarometerArgs {
  ambient: Ambient;
}
/**
 * The barometer and what it means for a gauge.
 */
export interface BarometerAnswer {
  /**
   * Station pressure, Pa absolute.
   */
  pressure_pa: number;
  /**
   * Geometric altitude with that pressure in the standard atmosphere, m.
   */
  standard_altitude_m: number;
}
/**
 * Air through a gap.
 */
export interface GapAirArgs {
  /**
   * Temperature of the air, K.
   */
  air_temperature_k: number;
  /**
   * Absolute pressure behind it, Pa.
   */
  downstream_pa: number;
  gap: GapShape;
  /**
   * Absolute pressure before it, Pa.
   */
  upstream_pa: number;
}
/**
 * An annular gap.
 */
export interface GapShape {
  /**
   * 0 centred, 1 touching.
   */
  eccentricity: number;
  /**
   * Engaged length, m.
   */
  engaged_length_m: number;
  /**
   * Mean diameter of land and bore, m.
   */
  mean_diameter_m: number;
  /**
   * Radial clearance, m.
   */
  radial_clearance_m: number;
}
/**
 * Air that passes.
 */
export interface GapAirAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * True where a lower pressure behind would draw no more.
   */
  choked: boolean;
  /**
   * Share of the drop that entry and exit take.
   */
  inertia_fraction: number;
  /**
   * Reynolds number.
   */
  reynolds: number;
  /**
   * Share that slip adds.
   */
  slip_fraction: number;
  /**
   * pV flow, Pa·m³/s.
   */
  throughput_w: number;
}
/**
 * The clearance behind a flow of air.
 */
export interface GapClearanceArgs {
  /**
   * Temperature of the air, K.
   */
  air_temperature_k: number;
  /**
   * Absolute pressure behind it, Pa.
   */
  downstream_pa: number;
  /**
   * 0 centred, 1 touching.
   */
  eccentricity: number;
  /**
   * Engaged length, m.
   */
  engaged_length_m: number;
  /**
   * Mean diameter, m.
   */
  mean_diameter_m: number;
  /**
   * pV flow, Pa·m³/s.
   */
  throughput_w: number;
  /**
   * Absolute pressure before it, Pa.
   */
  upstream_pa: number;
}
/**
 * A radial clearance.
 */
export interface GapClearanceAnswer {
  /**
   * Radial clearance, m.
   */
  radial_clearance_m: number;
}
/**
 * Air through a hole by ISO 6358.
 */
export interface HoleAirArgs {
  /**
   * Temperature of the air, K.
   */
  air_temperature_k: number;
  /**
   * Critical pressure ratio.
   */
  critical_ratio: number;
  /**
   * Absolute pressure behind it, Pa.
   */
  downstream_pa: number;
  /**
   * Sonic conductance, m³/(s·Pa).
   */
  sonic_conductance_m3_s_pa: number;
  /**
   * Absolute pressure before it, Pa.
   */
  upstream_pa: number;
}
/**
 * Air through a hole, and the drilled hole of that conductance.
 */
export interface HoleAirAnswer {
  /**
   * Diameter of a drilled hole of this conductance (discharge coefficient 0.8), m.
   */
  equivalent_diameter_m: number;
  /**
   * pV flow, Pa·m³/s.
   */
  throughput_w: number;
}
/**
 * A limit carried to another barometer.
 */
export interface LimitArgs {
  /**
   * Temperature of the air, K.
   */
  air_temperature_k: number;
  /**
   * Whether the dead head follows the barometer.
   */
  dead_head_follows_barometer: boolean;
  /**
   * The stand's dead-headed reading, Pa below ambient, at `to_pa`.
   */
  dead_head_vacuum_pa: number;
  /**
   * Barometer at which it was stated, Pa absolute.
   */
  from_pa: number;
  law: LeakLaw;
  /**
   * Barometer to which it is carried, Pa absolute.
   */
  to_pa: number;
  /**
   * The limit, Pa below ambient.
   */
  vacuum_pa: number;
}
/**
 * The limit as a reading there.
 */
export interface LimitAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * Pa below ambient.
   */
  vacuum_pa: number;
}
/**
 * An oil at a temperature.
 */
export interface OilArgs {
  oil: Oil;
  /**
   * Temperature, K.
   */
  temperature_k: number;
}
/**
 * Viscosity by ASTM D341 and density by ASTM D1250.
 */
export interface OilAnswer {
  /**
   * Density, kg/m³.
   */
  density_kg_m3: number;
  /**
   * True outside the two points that are known.
   */
  extrapolated: boolean;
  /**
   * Dynamic viscosity, Pa·s.
   */
  viscosity_pa_s: number;
}
/**
 * A spring against a pressure on an area: give the load or the pressure.
 */
export interface SpringArgs {
  /**
   * Reaction area, m².
   */
  area_m2: number;
  known: SpringKnown;
}
/**
 * Both sides of the balance.
 */
export interface SpringAnswer {
  /**
   * Load, N.
   */
  load_n: number;
  /**
   * Pressure that it balances, Pa.
   */
  pressure_pa: number;
}
/**
 * A drilled orifice in oil.
 */
export interface OrificeArgs {
  /**
   * Density, kg/m³.
   */
  density_kg_m3: number;
  /**
   * Bore, m.
   */
  diameter_m: number;
  /**
   * Pressure drop, Pa.
   */
  drop_pa: number;
  /**
   * Length, m; 0 for a knife edge.
   */
  length_m: number;
  /**
   * Dynamic viscosity, Pa·s.
   */
  viscosity_pa_s: number;
}
/**
 * What an orifice passes, with the spread of the published laws.
 */
export interface OrificeAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * Discharge coefficient.
   */
  coefficient: number;
  flow_m3_s: Span;
  /**
   * Reynolds number of the mean speed.
   */
  reynolds: number;
}
/**
 * Oil through a gap.
 */
export interface GapOilArgs {
  /**
   * Density, kg/m³.
   */
  density_kg_m3: number;
  /**
   * Pressure drop, Pa.
   */
  drop_pa: number;
  gap: GapShape;
  /**
   * Dynamic viscosity, Pa·s.
   */
  viscosity_pa_s: number;
}
/**
 * Oil that passes.
 */
export interface GapOilAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * Flow, m³/s.
   */
  flow_m3_s: number;
  /**
   * Gap factor K = D c³ (1 + 1.5 e²) / L, m³.
   */
  gap_factor_m3: number;
  /**
   * Flow by the laminar law alone, m³/s.
   */
  laminar_flow_m3_s: number;
  /**
   * Reynolds number.
   */
  reynolds: number;
}
/**
 * A reducing regulator by its profile, all seals in one state, at one line pressure.
 */
export interface RegulatorArgs {
  branch?: SpoolBranch;
  /**
   * 0 centred, 1 touching.
   */
  eccentricity?: number;
  /**
   * Line pressure over sump, Pa.
   */
  line_pa: number;
  /**
   * Oil temperature, K.
   */
  oil_temperature_k: number;
  profile: BoreProfile;
  /**
   * Radial clearance of every land at 20 °C, m; none: as new.
   */
  radial_clearance_m?: number | null;
}
/**
 * The regulator at rest.
 */
export interface RegulatorAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * The bore.
   */
  bore: string;
  /**
   * Feed to the solenoids, m³/s.
   */
  demand_m3_s: number;
  /**
   * Feed to sump through the exhaust opening, m³/s.
   */
  exhaust_m3_s: number;
  /**
   * Regulated pressure over sump, Pa.
   */
  feed_pa: number;
  /**
   * Net steady flow force, N, positive toward closing the supply.
   */
  flow_force_n: number;
  /**
   * Each land leak, m³/s, in the profile's order, from its left place to its right.
   */
  leaks_m3_s: number[];
  /**
   * Pressure on the reaction area, Pa.
   */
  reaction_pa: number;
  /**
   * Feed to sump through the relief, m³/s.
   */
  relief_m3_s: number;
  /**
   * Pressure in the spring chamber, Pa.
   */
  spring_chamber_pa: number;
  state: RegulationState;
  /**
   * Stroke, m.
   */
  stroke_m: number;
  /**
   * Line to feed, m³/s.
   */
  supply_m3_s: number;
}
