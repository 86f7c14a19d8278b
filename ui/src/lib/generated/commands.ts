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
  | 'bundle_unsigned'
  | 'look_incomplete'
  | 'look_closed'
  | 'signer_unanswered'
  | 'signer_in_doubt'
  | 'device_name_taken'
  | 'settle_changed'
  | 'cannot_take_back'
  | 'bundle_sealed'
  | 'wrong_passphrase'
  | 'short_passphrase'
  | 'seal_too_costly'
  | 'seal_broken'
  | 'file_too_large'
  | 'file_unreadable'
  | 'file_unwritable'
  | 'not_a_picture'
  | 'picture_heic'
  | 'picture_too_large'
  | 'picture_damaged'
  | 'picture_missing'
  | 'table_too_long'
  | 'table_too_wide'
  | 'table_quote_open'
  | 'table_not_text'
  | 'table_empty'
  | 'table_not_ready'
  | 'built_upon'
  | 'in_use'
  | 'backup_unsound'
  | 'nothing_readable'
  | 'too_many_tasks'
  | 'report_not_set'
  | 'internal';
/**
 * What an instrument measures.
 */
export type InstrumentKind =
  | 'vacuum_gauge'
  | 'micrometer'
  | 'bore_gauge'
  | 'barometer'
  | 'pin_gauges'
  | 'spring_tester'
  | 'thermometer'
  | 'pressure_gauge'
  | 'feeler_gauges'
  | 'ohmmeter';
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
  | 'profile_as_repaired'
  | 'instrument_unknown'
  | 'land_unknown'
  | 'lands_overlap'
  | 'land_wider_than_bore'
  | 'outside_bore'
  | 'ports_overlap'
  | 'end_before_start'
  | 'seal_not_covered'
  | 'supply_shut_at_rest'
  | 'supply_open_at_full_travel'
  | 'exhaust_never_opens'
  | 'exhaust_opens_early'
  | 'spring_holds_other'
  | 'setpoint_outside_window'
  | 'window_reversed'
  | 'name_twice'
  | 'name_unknown'
  | 'window_larger_than_port'
  | 'windows_wider_than_bore'
  | 'isolates_nothing'
  | 'outside_instrument'
  | 'coil_outside_limits'
  | 'coil_too_close_to_call'
  | 'no_orifice_to_change'
  | 'stock_too_large'
  | 'stock_too_small'
  | 'cut_takes_nothing'
  | 'last_cut_misses_size'
  | 'does_not_clean_up'
  | 'wall_left_too_thin'
  | 'pilot_wont_enter'
  | 'pilot_play_large'
  | 'pilot_not_checked'
  | 'depth_too_short'
  | 'seat_fit_other'
  | 'ports_shut'
  | 'class_contradicts'
  | 'class_unknown'
  | 'temperature_missing'
  | 'step_without_measurement'
  | 'size_outside_limits'
  | 'size_too_close_to_call'
  | 'caution_unread'
  | 'line_not_noted'
  | 'oil_temperature_not_noted'
  | 'oil_not_hot'
  | 'other_oil'
  | 'feed_above_line'
  | 'line_above_highest'
  | 'tap_unknown'
  | 'directions_look_swapped'
  | 'cut_not_on_sheet';
/**
 * How much a finding matters to the person reading it.
 */
export type Severity = 'note' | 'doubt' | 'wrong';
/**
 * What a part is made of: it decides how a clearance changes with temperature.
 */
export type Material = 'aluminium_die_cast' | 'aluminium_wrought' | 'steel' | 'cast_iron';
/**
 * How a solenoid makes its pressure from the feed.
 */
export type SolenoidKind = 'bleed' | 'pulse_width' | 'closed_loop';
/**
 * Which edges meter: the land's and the port's left ones, or both right ones.
 */
export type Edge = 'left' | 'right';
/**
 * What an opening does.
 */
export type OpeningRole = 'supply' | 'exhaust';
/**
 * Holes or notches that the land uncovers one by one along the bore.
 */
export type OpeningWindow =
  | {
      round_holes: {
        /**
         * How many.
         */
        count: number;
        /**
         * Diameter of each, m.
         */
        diameter_m: number;
      };
    }
  | {
      notches: {
        /**
         * How many.
         */
        count: number;
        /**
         * Length along the bore, m.
         */
        length_m: number;
        /**
         * Width around the bore, m.
         */
        width_m: number;
      };
    };
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
 * A judgement that a whole profile carries.
 */
export type Judged = 'limit' | 'leak' | 'pressure' | 'spring_load' | 'clutch_torque';
/**
 * A record kind. Its name on the wire never changes; its meaning changes only with its version.
 */
export type Kind =
  | 'shop'
  | 'person'
  | 'instrument'
  | 'stand'
  | 'unit'
  | 'circuit'
  | 'bore'
  | 'land'
  | 'spring'
  | 'opening'
  | 'tap'
  | 'clutch'
  | 'balance_orifice'
  | 'relief'
  | 'test_point'
  | 'job'
  | 'job.vehicle'
  | 'job.complaint'
  | 'job.notes'
  | 'job.customer'
  | 'caution'
  | 'test'
  | 'test.setup'
  | 'test.stand_check'
  | 'test.blank'
  | 'test.reading'
  | 'test.decision'
  | 'relief_check'
  | 'repair'
  | 'photo'
  | 'erasure'
  | 'inspection'
  | 'inspection_plan'
  | 'what_if'
  | 'removal'
  | 'shop_part'
  | 'machining'
  | 'job.estimate'
  | 'job.authorisation'
  | 'job.fitted'
  | 'job.warranty'
  | 'job.sign_off'
  | 'job.comeback'
  | 'tap_reading'
  | 'oil_check';
/**
 * One part of a profile. It names its parent; an empty order key puts it last.
 */
export type ProfilePart =
  | {
      body: Unit;
      part: 'unit';
    }
  | {
      body: Circuit;
      part: 'circuit';
    }
  | {
      body: Tap;
      part: 'tap';
    }
  | {
      body: Clutch;
      part: 'clutch';
    }
  | {
      body: Relief;
      part: 'relief';
    }
  | {
      body: Bore;
      part: 'bore';
    }
  | {
      body: Land;
      part: 'land';
    }
  | {
      body: Opening;
      part: 'opening';
    }
  | {
      body: Spring;
      part: 'spring';
    }
  | {
      body: BalanceOrifice;
      part: 'balance_orifice';
    }
  | {
      body: TestPoint;
      part: 'test_point';
    };
/**
 * What a bore starts from.
 */
export type BoreShape = 'two_lands' | 'three_lands_exhaust' | 'empty';
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
  | 'other'
  | 'orifice_changed';
/**
 * Whether what the customer agreed to covers an estimate.
 */
export type Agreed = 'not_yet' | 'covered' | 'not_covered' | 'not_here';
/**
 * A hazard that stands before a kind of work. Acknowledged once per job.
 */
export type Hazard =
  | 'hot_oil'
  | 'retained_springs'
  | 'compressed_air'
  | 'solvent'
  | 'vacuum_pump'
  | 'high_voltage'
  | 'chips'
  | 'raised_wheels'
  | 'road_test';
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
  | 'clutch_faces_run_in'
  | 'clutch_oil_at_rest'
  | 'motion_typical'
  | 'grooves_not_counted'
  | 'cleaned_gap_as_tested'
  | 'sleeve_seat_centred'
  | 'other_body_as_profile'
  | 'friction_as_profile'
  | 'orifice_kept'
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
  | 'relief_without_flow_force'
  | 'edges_rounded_alike'
  | 'window_unrolled'
  | 'covered_window_film'
  | 'spring_torsion_only'
  | 'spring_near_solid'
  | 'spring_straight'
  | 'expansion_from_handbook'
  | 'round_between_directions'
  | 'gauge_error_shared'
  | 'relief_flow_force'
  | 'relief_seat_area'
  | 'air_stays_free'
  | 'friction_constant'
  | 'faces_share_force'
  | 'oil_turns_with_drum'
  | 'copper_at_one_temperature'
  | 'solenoid_kind_typical'
  | 'pump_slip_laminar'
  | 'solenoid_at_most_feed'
  | 'relief_without_mass'
  | 'stops_without_rebound'
  | 'flow_force_steady'
  | 'passages_without_waves'
  | 'jet_of_window';
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
  | 'eccentricity'
  | 'reading'
  | 'untested_seals'
  | 'friction'
  | 'orifice_model'
  | 'spring_load'
  | 'orifice_bore'
  | 'sleeve_seat';
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
 * Which way line pressure was going before a point was read.
 */
export type LineDirection = 'rising' | 'falling';
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
  | 'leak_remains'
  | 'oil_check_outside'
  | 'oil_check_open';
/**
 * What to look at while doing it.
 */
export type NamedCheck =
  | 'ports_aligned'
  | 'sealing_face'
  | 'lands_match'
  | 'guide_and_pilot'
  | 'wall_left'
  | 'clean_after_machining'
  | 'free_movement'
  | 'spring_at_height'
  | 'relief_cracking'
  | 'measure_other_body'
  | 'test_again'
  | 'orifice_by_pins';
/**
 * How much work a way is, least first.
 */
export type Effort = 'nothing' | 'clean' | 'change_parts' | 'add_parts' | 'machine' | 'change_body';
/**
 * Whether a way can be taken.
 */
export type Feasibility =
  | {
      answer: 'feasible';
    }
  | {
      answer: 'infeasible';
      /**
       * Why.
       */
      obstacles: Obstacle[];
    }
  | {
      answer: 'untold';
      /**
       * What is missing.
       */
      missing: Unmeasured[];
    };
/**
 * What stands in the way.
 */
export type Obstacle =
  | 'no_valve_in_list'
  | 'no_sleeve_in_list'
  | 'no_reamer_in_list'
  | 'no_spring_in_list'
  | 'wall_too_thin'
  | 'sleeve_wall_too_thin'
  | 'stock_does_not_clean_up'
  | 'stock_too_much'
  | 'valve_wont_enter'
  | 'seizes_hot'
  | 'out_of_round'
  | 'stroke_too_short'
  | 'sleeve_too_short'
  | 'relief_outside_window'
  | 'relief_too_small'
  | 'no_orifice';
/**
 * What is missing.
 */
export type Unmeasured =
  'clearance' | 'diameters' | 'spring_height' | 'profile' | 'relief' | 'relief_limit';
/**
 * Whether the valve would swing.
 */
export type MotionAhead =
  | {
      answer: 'known';
      /**
       * Swings a second there, Hz.
       */
      frequency_hz: number;
      /**
       * The least damping ratio of all that was tried; below zero swings grow.
       */
      least_damping_ratio: number;
      stands: MotionStands;
    }
  | {
      answer: 'withheld';
    };
/**
 * How small swings go.
 */
export type MotionStands = 'settles' | 'may_hunt' | 'hunts';
/**
 * What a part is, without its sizes.
 */
export type PartName = 'valve' | 'sleeve' | 'spring' | 'reamer';
/**
 * The reading that the last test's stand would give.
 */
export type ReadingAhead =
  | {
      /**
       * Where it would stand to that limit.
       */
      against_limit?: ReadingStands | null;
      answer: 'foreseen';
      /**
       * The limit of the day, Pa below ambient; none without one.
       */
      limit_pa?: number | null;
      vacuum_pa: Span;
    }
  | {
      answer: 'refused';
      reason: ReadingRefusal;
    };
/**
 * Where a predicted reading stands to its limit.
 */
export type ReadingStands = 'meets' | 'likely_meets' | 'likely_misses' | 'misses';
/**
 * Why a reading can't be foreseen.
 */
export type ReadingRefusal =
  | 'no_test'
  | 'no_calibrated_stand'
  | 'no_setup'
  | 'other_setup'
  | 'no_clearance'
  | 'profile_incomplete'
  | 'outside_model';
/**
 * Why a way stands where it does.
 */
export type RankReason =
  | 'cant_be_done'
  | 'measurement_missing'
  | 'loses_control'
  | 'outside_specification'
  | 'likely_outside_specification'
  | 'may_leave_specification'
  | 'holds_specification'
  | 'pressure_unknown'
  | 'parts_dont_hold'
  | 'reading_outside_limit'
  | 'reading_too_close'
  | 'would_miss_limit'
  | 'might_miss_limit'
  | 'pressure_holds_anyway'
  | 'valve_sticks'
  | 'may_hunt'
  | 'hunts'
  | 'only_contains'
  | 'wall_unknown'
  | 'nothing_to_do'
  | 'less_effort';
/**
 * What may go wrong with a way, or stays wrong.
 */
export type Risk =
  | 'wear_goes_on'
  | 'cant_be_undone'
  | 'chips'
  | 'sleeve_seat'
  | 'hard_layer'
  | 'fault_remains'
  | 'other_body_unknown'
  | 'less_damping';
/**
 * How a way stands, best first.
 */
export type Standing =
  | 'holds'
  | 'likely_holds'
  | 'unknown'
  | 'contained'
  | 'likely_not'
  | 'breaks_limit'
  | 'cant_be_done';
/**
 * What speaks against the figures of a way.
 */
export type OptionWarning =
  | 'layer_through'
  | 'layer_unknown'
  | 'layer_through_already'
  | 'wall_unknown'
  | 'bore_scored'
  | 'out_of_round_unknown'
  | 'may_bind_hot'
  | 'seat_leaks'
  | 'sizes_supposed';
/**
 * A way out.
 */
export type Way =
  | 'leave'
  | 'clean'
  | 'other_valve'
  | 'sleeve'
  | 'ream'
  | 'add_relief'
  | 'replace_body'
  | 'change_orifice';
/**
 * What would settle an unsettled bore.
 */
export type Settle =
  | 'repeat'
  | 'better_gauge'
  | 'finer_scale'
  | 'read_barometer'
  | 'measure_diameters'
  | 'measure_friction'
  | 'clean_and_test_again'
  | 'find_other_leak'
  | 'test_other_seals'
  | 'clean_and_move_again'
  | 'measure_spring'
  | 'measure_orifice'
  | 'measure_pressure';
/**
 * What can't be decided.
 */
export type UndecidedWhat = 'whether_to_repair' | 'between_the_first';
/**
 * What a part is. Sizes are at 20 °C; a tolerance is what a size may be off either way.
 */
export type PartItem =
  | {
      /**
       * Diameter of its reaction land, m.
       */
      diameter_m: number;
      /**
       * Tolerance of that, m.
       */
      diameter_tolerance_m: number;
      /**
       * Grooves around its lands.
       */
      grooved?: boolean;
      material: Material;
      part: 'valve';
      /**
       * Travel that it leaves, m; none: as the old valve.
       */
      stroke_m?: number | null;
    }
  | {
      /**
       * Inner diameter, in place, m.
       */
      inner_diameter_m: number;
      /**
       * Tolerance of that, m.
       */
      inner_tolerance_m: number;
      /**
       * Length, m; none: not entered.
       */
      length_m?: number | null;
      material: Material;
      /**
       * Outer diameter, m.
       */
      outer_diameter_m: number;
      /**
       * Tolerance of that, m.
       */
      outer_tolerance_m: number;
      part: 'sleeve';
    }
  | {
      /**
       * Compressed height at which it carries the load, m; none: where the valve regulates.
       */
      height_m?: number | null;
      /**
       * Load, N: at `height_m`, or in the bore where the valve regulates.
       */
      load_n: number;
      /**
       * Tolerance of that, N.
       */
      load_tolerance_n: number;
      part: 'spring';
      /**
       * Rate, N/m.
       */
      rate_n_per_m: number;
    }
  | {
      /**
       * Diameter that it leaves, m.
       */
      diameter_m: number;
      /**
       * Tolerance of that, m.
       */
      diameter_tolerance_m: number;
      part: 'reamer';
    };
/**
 * Whether a person might be known by a photo. Nothing looks into the picture to find out.
 */
export type PhotoShows = 'maybe_personal' | 'work_alone';
/**
 * Which of a photo's two files.
 */
export type PhotoSize = 'thumbnail' | 'picture';
/**
 * The checks that there are. A vacuum test is one too; its records are those of kind `test`.
 */
export type CheckName =
  | 'valve_train'
  | 'free_movement'
  | 'wear_marks'
  | 'light'
  | 'wiggle'
  | 'vacuum'
  | 'diameters'
  | 'spring'
  | 'orifice_bore'
  | 'end_plug'
  | 'flatness'
  | 'plate_and_balls'
  | 'cross_passages'
  | 'feed_screens'
  | 'solenoid'
  | 'clutch_air';
/**
 * What a check says by itself, before anything is computed from it.
 */
export type Outcome = 'good' | 'measured' | 'doubtful' | 'bad';
/**
 * What a check found.
 */
export type Found =
  | (ValveTrain & {
      check: 'valve_train';
    })
  | (FreeMovement & {
      check: 'free_movement';
    })
  | (WearMarks & {
      check: 'wear_marks';
    })
  | (LightCheck & {
      check: 'light';
    })
  | (WiggleCheck & {
      check: 'wiggle';
    })
  | (Diameters & {
      check: 'diameters';
    })
  | (SpringCheck & {
      check: 'spring';
    })
  | (OrificeBore & {
      check: 'orifice_bore';
    })
  | (EndPlug & {
      check: 'end_plug';
    })
  | (Flatness & {
      check: 'flatness';
    })
  | (PlateAndBalls & {
      check: 'plate_and_balls';
    })
  | (CrossPassages & {
      check: 'cross_passages';
    })
  | (FeedScreens & {
      check: 'feed_screens';
    })
  | (SolenoidCheck & {
      check: 'solenoid';
    })
  | (ClutchAir & {
      check: 'clutch_air';
    });
/**
 * How a valve train lay.
 */
export type TrainState = 'as_shown' | 'wrong_way' | 'part_missing' | 'not_known';
/**
 * How a valve moves by its own weight or a light push.
 */
export type Movement = 'free' | 'drags' | 'sticks';
/**
 * How deep a mark is.
 */
export type MarkDepth = 'seen' | 'felt' | 'caught';
/**
 * What is marked.
 */
export type MarkedSurface = 'bore' | 'valve';
/**
 * How much light.
 */
export type LightSeen = 'none' | 'faint' | 'clear';
/**
 * How good or bad a part looks, in one word.
 */
export type Condition = 'good' | 'worn' | 'damaged' | 'missing';
/**
 * How something holds.
 */
export type Hold = 'holds' | 'loses_slowly' | 'does_not_hold';
/**
 * How screens were.
 */
export type ScreenState = 'clean' | 'debris' | 'torn' | 'missing';
/**
 * When in a job a check was done.
 */
export type Occasion = 'as_found' | 'after_cleaning' | 'after_repair';
/**
 * How a check stands.
 */
export type CheckState = 'open' | 'done' | 'left_out';
/**
 * A bore in one word.
 */
export type Conclusion = 'unfinished' | 'sound' | 'unsettled' | 'faulty';
/**
 * One thing that two checks say together.
 */
export type Accord =
  | {
      by_diameters_m: Span;
      /**
       * By vacuum, narrowest to widest, on the diameter, m.
       *
       * @minItems 2
       * @maxItems 2
       */
      by_vacuum_m: number[];
      says: 'leak_fits_diameters';
    }
  | {
      by_diameters_m: Span;
      /**
       * By vacuum, narrowest to widest, on the diameter, m.
       *
       * @minItems 2
       * @maxItems 2
       */
      by_vacuum_m: number[];
      says: 'leak_beyond_diameters';
    }
  | {
      by_diameters_m: Span;
      /**
       * By vacuum, narrowest to widest, on the diameter, m.
       *
       * @minItems 2
       * @maxItems 2
       */
      by_vacuum_m: number[];
      says: 'tighter_than_diameters';
    }
  | {
      holds_pa: Span;
      says: 'spring_holds';
    }
  | {
      holds_pa: Span;
      says: 'spring_may_not_hold';
    }
  | {
      holds_pa: Span;
      says: 'spring_cannot_hold';
    }
  | {
      says: 'moves_badly';
    }
  | {
      /**
       * True when that is more than the specified band is wide.
       */
      beyond_band: boolean;
      /**
       * True when it was measured on a cleaned valve: what is left is no dirt.
       */
      cleaned: boolean;
      says: 'friction_swings';
      /**
       * Between line rising and falling, 2 F / A, Pa.
       */
      swing_pa: number;
    }
  | {
      says: 'orifice_as_profile';
    }
  | {
      measured_m: Span;
      /**
       * By the profile, m.
       */
      profile_m: number;
      says: 'orifice_off';
    }
  | {
      says: 'seen_but_tight';
    }
  | {
      /**
       * Their names.
       */
      lands: string[];
      says: 'seen_untested';
    }
  | {
      says: 'plug_in_the_reading';
    }
  | {
      says: 'tap_fits_leak';
      tap: TapBeside;
    }
  | {
      says: 'tap_contradicts_leak';
      tap: TapBeside;
    }
  | {
      says: 'tap_too_close';
      tap: TapBeside;
    };
/**
 * From what the clearance of a card was taken.
 */
export type GapSource = 'vacuum' | 'diameters';
/**
 * What to do next.
 */
export type NextStep =
  | {
      check: CheckName;
      step: 'check';
    }
  | {
      by: Settle;
      step: 'settle';
    }
  | {
      step: 'repair';
    }
  | {
      step: 'decide';
    };
/**
 * A figure of a setting, by its field.
 */
export type ExploreField =
  | 'clearance_m'
  | 'spring_load_n'
  | 'spring_rate_n_per_m'
  | 'orifice_m'
  | 'demand_m3_s'
  | 'friction_n'
  | 'oil_temperature_k'
  | 'line_pa';
/**
 * A step of the work, in its order.
 */
export type MachiningStep =
  | 'measure_start'
  | 'guide_and_pilot'
  | 'clamp'
  | 'rough'
  | 'finish'
  | 'measure_finished'
  | 'deburr'
  | 'clean_after'
  | 'measure_sleeve'
  | 'fit_sleeve'
  | 'align_ports'
  | 'sealing_face'
  | 'measure_in_place'
  | 'measure_valve'
  | 'free_movement'
  | 'plug_and_clip'
  | 'bolt_down';
/**
 * What is measured on the way.
 */
export type MachinedSize =
  | 'start_bore'
  | 'unworn_bore'
  | 'after_cut'
  | 'finished_bore'
  | 'depth'
  | 'sleeve_outer'
  | 'port_offset'
  | 'sleeve_inner'
  | 'valve';
/**
 * What fit two tolerances make.
 */
export type FitAnswer = 'clearance' | 'transition' | 'interference';
/**
 * How a sleeve is to sit.
 */
export type SeatFit = 'slip' | 'press';
/**
 * What is machined.
 */
export type MachiningWay = 'ream' | 'sleeve';
/**
 * As what kind of file it is written.
 */
export type ReportFormat = 'html' | 'pdf';
/**
 * For whom a report is.
 */
export type ReportVersion = 'technical' | 'customer';
/**
 * By what jobs are known to be of one vehicle.
 */
export type VehicleKnownBy = 'plate' | 'job_alone' | 'nothing';
/**
 * What happened.
 */
export type BoreHappening =
  | (BoreTested & {
      is: 'test';
    })
  | {
      is: 'repair';
      option: RepairOption;
      /**
       * Parts, in the person's words.
       */
      parts: string;
      /**
       * The repair.
       */
      repair: string;
    };
/**
 * How somebody agreed.
 */
export type AuthorisedHow = 'in_person' | 'by_phone' | 'in_writing';
/**
 * By what two jobs look like the same customer's.
 */
export type SameBy = 'name' | 'phone' | 'plate';
/**
 * Why a backup was made.
 */
export type BackupReason = 'daily' | 'by_hand' | 'before_migration' | 'before_import' | 'replaced';
/**
 * What kind of thing was looked through.
 */
export type PlaceKind = 'store' | 'backup' | 'older_copy' | 'bundle';
/**
 * Whether a record stands.
 */
export type RecordStanding = 'stands' | 'replaced' | 'voided';
/**
 * Why something is not in a repaired store.
 */
export type LossReason = 'altered' | 'unsigned' | 'content_altered' | 'content_missing' | 'missing';
/**
 * Where the uncertainty of a pressure that was read comes from.
 */
export type PressureSource = 'gauge_error' | 'gauge_step' | 'line_gauge' | 'temperature';
/**
 * Where a pressure was read.
 */
export type TapPlace = 'idle' | 'driving' | 'bench';
/**
 * From what the prediction was made.
 */
export type OilBasis = 'repair' | 'measured' | 'as_new';
/**
 * What would settle a hot-oil check.
 */
export type OilSettle =
  | 'measure_highest_line'
  | 'measure_idle_line'
  | 'measure_rising'
  | 'measure_falling'
  | 'heat_oil'
  | 'use_unit_oil'
  | 'enter_dimensions'
  | 'enter_specification'
  | 'better_gauge'
  | 'free_valve'
  | 'test_again';
/**
 * Who gets a bundle.
 */
export type Audience = 'colleague' | 'stranger';
/**
 * What becomes of something.
 */
export type Brought = 'new' | 'changed' | 'same';
/**
 * What speaks against believing that a signer is who it says.
 */
export type SignerDoubt = 'known_name_unknown_key' | 'not_trusted' | 'own_key_elsewhere';
/**
 * What the signature of a file says of who made it.
 */
export type LookedCourier = 'signed' | 'misfit' | 'unsigned';
/**
 * A part of a job that was written by itself, and may be left out of a file.
 */
export type LeftOutPart = 'vehicle' | 'complaint' | 'notes' | 'customer';
/**
 * What is known of an authorisation.
 */
export type AuthorisationState =
  | {
      state: 'not_given';
    }
  | {
      by: ReadBy;
      state: 'not_here';
    }
  | {
      by: ReadBy;
      state: 'erased';
    }
  | (AuthorisationOnRecord & {
      state: 'given';
    });
/**
 * How an estimate's total lies to the amount that was agreed to.
 */
export type Covers =
  | {
      covers: 'within';
    }
  | {
      /**
       * By so many smallest units.
       */
      by_minor: number;
      covers: 'exceeded';
    }
  | {
      covers: 'other_currency';
    };
/**
 * Whether the fault is that of the earlier job.
 */
export type FaultAgain = 'same' | 'different' | 'not_known';
/**
 * Who found that a vehicle came back.
 */
export type FoundBy = 'customer' | 'this_shop' | 'another_shop';
/**
 * What a quantity counts.
 */
export type Counted = 'hours' | 'pieces';
/**
 * Something that is still open in a job.
 */
export type OpenItem =
  | {
      /**
       * Which.
       */
      bore: string;
      open: 'bore_untested';
    }
  | {
      /**
       * Which.
       */
      bore: string;
      open: 'bore_outside_limit';
    }
  | {
      /**
       * Of which bore.
       */
      bore: string;
      open: 'repair_untested';
      option: RepairOption;
      /**
       * Which repair.
       */
      repair: string;
    }
  | {
      /**
       * Of which bore.
       */
      bore: string;
      check: CheckName;
      open: 'check_left_out';
    }
  | {
      hazard: Hazard;
      open: 'caution_unread';
    }
  | {
      open: 'estimate_unauthorised';
    }
  | {
      open: 'authorisation_not_here';
    }
  | {
      open: 'estimate_changed';
    }
  | {
      /**
       * By so many smallest units of the estimate's currency.
       */
      by_minor: number;
      open: 'amount_exceeded';
    }
  | {
      open: 'other_currency';
    }
  | {
      /**
       * Of which bore.
       */
      bore: string;
      open: 'machining_unsigned';
    };
/**
 * What stands before the decimals.
 */
export type Decimal = 'point' | 'comma';
/**
 * What a column holds.
 */
export type ColumnRole =
  | 'nothing'
  | 'vacuum'
  | 'gauge_pressure'
  | 'reseated'
  | 'record'
  | 'kind'
  | 'test'
  | 'job'
  | 'bore'
  | 'test_point';
/**
 * What stands between two cells.
 */
export type Delimiter = 'comma' | 'semicolon' | 'tab';
/**
 * How letters are written as bytes.
 */
export type Encoding = 'utf8' | 'utf16' | 'windows1252';
/**
 * What is still to be said before the rows can be looked at.
 */
export type ReadingsLack = 'vacuum' | 'one_column_each' | 'unit' | 'job' | 'bore' | 'test_point';
/**
 * Why a row can't be taken.
 */
export type RowProblem =
  | 'no_reading'
  | 'not_a_number'
  | 'other_decimal_sign'
  | 'unknown_unit'
  | 'not_yes_or_no'
  | 'no_such_job'
  | 'several_jobs'
  | 'no_such_bore'
  | 'no_such_test_point'
  | 'test_of_another'
  | 'differs_from_record'
  | 'findings';
/**
 * Why a device is not trusted any more.
 */
export type DistrustReason = 'lost' | 'stolen' | 'copied';
/**
 * By what two jobs look like one vehicle's.
 */
export type AlikeBy = 'plate' | 'vehicle';
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
 * Which way an opening goes as the spool advances.
 */
export type WindowTravel = 'closes' | 'opens';
/**
 * What a land uncovers.
 */
export type WindowShape =
  | {
      annular_slot: {
        /**
         * Part of the circumference that opens.
         */
        circumference_ratio: number;
        /**
         * Diameter of the land, m.
         */
        land_diameter_m: number;
      };
    }
  | {
      round_holes: {
        /**
         * How many.
         */
        count: number;
        /**
         * Diameter of each, m.
         */
        diameter_m: number;
      };
    }
  | {
      slots: {
        /**
         * How many.
         */
        count: number;
        /**
         * Length along the bore, m.
         */
        length_m: number;
        /**
         * Width around the bore, m.
         */
        width_m: number;
      };
    }
  | {
      round_ended_slots: {
        /**
         * How many.
         */
        count: number;
        /**
         * Length along the bore with the round end, m.
         */
        length_m: number;
        /**
         * Width around the bore, m.
         */
        width_m: number;
      };
    }
  | {
      v_notches: {
        /**
         * How many.
         */
        count: number;
        /**
         * Half the angle at the tip, rad.
         */
        half_angle_rad: number;
        /**
         * Length along the bore from the tip, m.
         */
        length_m: number;
      };
    };
/**
 * How a spring is held at its ends.
 */
export type SpringMounting = 'fixed_fixed' | 'fixed_pivoted' | 'pivoted' | 'fixed_free';
/**
 * How a spring's ends are made.
 */
export type SpringEnds = 'plain' | 'plain_ground' | 'closed' | 'closed_ground';
/**
 * What is known of a shim.
 */
export type ShimKnown =
  | {
      pressure_pa: number;
    }
  | {
      thickness_m: number;
    };
/**
 * The metal of a part, by kind.
 */
export type PartMetal =
  | 'die_cast_aluminium'
  | 'cast_aluminium'
  | 'wrought_aluminium'
  | 'carbon_steel'
  | 'bearing_steel'
  | 'austenitic_steel'
  | 'martensitic_steel'
  | 'grey_iron';
/**
 * What two classes make.
 */
export type ClassFitKind = 'clearance' | 'transition' | 'interference';
/**
 * What a relief seals with.
 */
export type ReliefSeat =
  | {
      ball_on_edge: {
        /**
         * Ball, m.
         */
        ball_diameter_m: number;
        /**
         * Hole, m.
         */
        bore_diameter_m: number;
      };
    }
  | {
      ball_on_cone: {
        /**
         * Ball, m.
         */
        ball_diameter_m: number;
        /**
         * Hole below the cone, m.
         */
        bore_diameter_m: number;
        /**
         * Half the cone's angle, from the axis, rad.
         */
        half_angle_rad: number;
      };
    }
  | {
      cone_on_edge: {
        /**
         * Hole, m.
         */
        bore_diameter_m: number;
        /**
         * Half the poppet's angle, from the axis, rad.
         */
        half_angle_rad: number;
      };
    };
/**
 * A winding: by a measurement, or by its wire.
 */
export type WindingKnown =
  | {
      measured: {
        /**
         * Resistance, ohm.
         */
        resistance_ohm: number;
        /**
         * Temperature of the winding then, K.
         */
        temperature_k: number;
      };
    }
  | {
      wire: {
        /**
         * Bare diameter, m.
         */
        diameter_m: number;
        /**
         * Length, m.
         */
        length_m: number;
      };
    };
/**
 * Which line copper's resistance follows.
 */
export type CopperLine =
  | 'iec60034'
  | 'iec60028'
  | {
      offset_k: number;
    };
/**
 * How a solenoid makes its pressure.
 */
export type PressureSolenoid = 'bleed' | 'pulse_width' | 'closed_loop';
/**
 * What is known of the stand of a two-valve test.
 */
export type TwoValveStand =
  | {
      dead_head: {
        /**
         * Whether it follows the barometer.
         */
        follows_barometer: boolean;
        /**
         * Pa below ambient, on the day of the tests.
         */
        vacuum_pa: number;
      };
    }
  | {
      calibrated: {
        /**
         * Dead-headed reading, Pa below ambient, on the day of the tests.
         */
        dead_head_vacuum_pa: number;
        /**
         * Whether it follows the barometer.
         */
        follows_barometer: boolean;
        /**
         * Hose resistance, Pa·s/m³.
         */
        hose_resistance_pa_s_m3: number;
        /**
         * Mean diameter of the gap, m.
         */
        mean_diameter_m: number;
        /**
         * Pull, m³/s.
         */
        pull_m3_s: number;
      };
    };
/**
 * On which side of a limit a good value lies.
 */
export type LimitSide = 'at_least' | 'at_most';
/**
 * The three answers.
 */
export type ThreeWay = 'within_limit' | 'too_close_to_call' | 'outside_limit';
/**
 * The largest error that is stated of an instrument.
 */
export type StatedError =
  | {
      plus_minus: number;
    }
  | {
      class_of_span: {
        /**
         * Percent.
         */
        class_percent: number;
        /**
         * Span, in the reading's unit.
         */
        span: number;
      };
    }
  | {
      grade: {
        grade: DialGrade;
        /**
         * Span, in the reading's unit.
         */
        span: number;
      };
    };
/**
 * Accuracy grades of dial gauges (ASME B40.100).
 */
export type DialGrade = '4a' | '3a' | '2a' | '1a' | 'a' | 'b' | 'c' | 'd';
/**
 * Whether a calibration still stands.
 */
export type CalibrationStanding =
  | {
      days_left: number;
    }
  | {
      days_overdue: number;
    }
  | 'no_interval'
  | 'never_calibrated';
/**
 * How wide a guard band is wanted.
 */
export type GuardWanted =
  | 'none'
  | {
      of_expanded_ratio: number;
    }
  | {
      probability_ratio: number;
    };
/**
 * What of the demand is open with time, over the stated one (0 to 10).
 */
export type OutletCourse =
  | {
      constant: {
        /**
         * Share.
         */
        open_ratio: number;
      };
    }
  | {
      step: {
        /**
         * When, s.
         */
        at_s: number;
        /**
         * Before.
         */
        from_ratio: number;
        /**
         * After.
         */
        to_ratio: number;
      };
    }
  | {
      ramp: {
        /**
         * End, s.
         */
        end_s: number;
        /**
         * Until the start.
         */
        from_ratio: number;
        /**
         * Start, s.
         */
        start_s: number;
        /**
         * From the end on.
         */
        to_ratio: number;
      };
    }
  | {
      trace: {
        /**
         * Share at each.
         */
        open_ratio: number[];
        /**
         * Moments, s.
         */
        time_s: number[];
      };
    };
/**
 * Line pressure with time, Pa over sump.
 */
export type LineCourse =
  | {
      constant: {
        /**
         * Line, Pa.
         */
        line_pa: number;
      };
    }
  | {
      step: {
        /**
         * When, s.
         */
        at_s: number;
        /**
         * Before, Pa.
         */
        from_pa: number;
        /**
         * After, Pa.
         */
        to_pa: number;
      };
    }
  | {
      ramp: {
        /**
         * End, s.
         */
        end_s: number;
        /**
         * Until the start, Pa.
         */
        from_pa: number;
        /**
         * Start, s.
         */
        start_s: number;
        /**
         * From the end on, Pa.
         */
        to_pa: number;
      };
    }
  | {
      trace: {
        /**
         * Line at each, Pa.
         */
        line_pa: number[];
        /**
         * Moments, s.
         */
        time_s: number[];
      };
    };
/**
 * Where everything is at the start.
 */
export type MotionStart =
  | {
      rest: SpoolBranch;
    }
  | 'empty';
/**
 * A reducing regulator in its oil.
 */
export type RegulatorSource =
  | {
      profile: ProfileRegulator;
    }
  | {
      parts: PartsRegulator;
    };
/**
 * How the spring chamber is emptied.
 */
export type ChamberDrain =
  | 'open'
  | 'blocked'
  | {
      orifice: OrificeParts;
    };
/**
 * A passage beside a land of a reducing regulator.
 */
export type RegulatorPlace =
  | 'line'
  | 'feed'
  | 'reaction'
  | 'spring_chamber'
  | 'sump'
  | {
      fixed_pa: number;
    };
/**
 * Whether feed swings by itself, the pump's ripple taken off.
 */
export type SelfOscillation =
  | 'none'
  | 'dying'
  | {
      lasting: {
        /**
         * Swings a second, Hz.
         */
        frequency_hz: number;
        /**
         * Crest to trough, Pa.
         */
        peak_to_peak_pa: number;
      };
    }
  | {
      growing: {
        /**
         * Swings a second, Hz.
         */
        frequency_hz: number;
        /**
         * Crest to trough so far, Pa.
         */
        peak_to_peak_pa: number;
      };
    }
  | 'too_short';
/**
 * A figure of [`MovingFigures`].
 */
export type MovingFigure =
  | 'spool_mass'
  | 'damping'
  | 'breakaway'
  | 'feed_volume'
  | 'reaction_volume'
  | 'chamber_volume'
  | 'liquid_bulk_modulus'
  | 'entrained_air'
  | 'air_exponent'
  | 'barometer';
/**
 * What is unknown of a valve.
 */
export type BandInput =
  | 'eccentricity_in_test'
  | 'eccentricity_tested'
  | 'eccentricity_untested'
  | 'reading'
  | 'blank'
  | 'untested_clearance'
  | 'engaged_length_tested'
  | 'engaged_length_untested'
  | 'orifice_flow'
  | 'orifice_law'
  | 'entry_exit_loss'
  | 'spring_load'
  | 'friction';
/**
 * A passage beside a land of a main regulator.
 */
export type MainPlace =
  | 'line'
  | 'reaction'
  | 'boost'
  | 'sump'
  | {
      fixed_pa: number;
    };
/**
 * What the spool of a main regulator does.
 */
export type MainSpoolState = 'regulating' | 'pump_starved' | 'edges_too_small';
/**
 * How the pressure-control solenoid makes its output.
 */
export type SolenoidMakes =
  | {
      command_pa: number;
    }
  | {
      share_ratio: number;
    };
/**
 * Where control is lost. Closed: the interface has words for each.
 */
export type ControlLost =
  | 'pump_starved'
  | 'main_edges_too_small'
  | 'feed_follows_line'
  | 'feed_by_leaks'
  | 'feed_exhaust_too_small'
  | 'solenoid_gives_feed';
/**
 * A calculation, each of its figures as it is spread. The result's unit is in the name of the
 * calculation's own answer.
 */
export type SpreadModel =
  | {
      spring_pressure: {
        area_m2: SpreadLaw;
        load_n: SpreadLaw;
      };
    }
  | {
      oil_orifice: {
        density_kg_m3: SpreadLaw;
        diameter_m: SpreadLaw;
        drop_pa: SpreadLaw;
        length_m: SpreadLaw;
        viscosity_pa_s: SpreadLaw;
      };
    }
  | {
      oil_gap: {
        density_kg_m3: SpreadLaw;
        drop_pa: SpreadLaw;
        eccentricity: SpreadLaw;
        engaged_length_m: SpreadLaw;
        mean_diameter_m: SpreadLaw;
        radial_clearance_m: SpreadLaw;
        viscosity_pa_s: SpreadLaw;
      };
    }
  | {
      air_clearance: {
        air_temperature_k: SpreadLaw;
        downstream_pa: SpreadLaw;
        eccentricity: SpreadLaw;
        engaged_length_m: SpreadLaw;
        mean_diameter_m: SpreadLaw;
        throughput_w: SpreadLaw;
        upstream_pa: SpreadLaw;
      };
    };
/**
 * How one quantity is spread, in its own unit.
 */
export type SpreadLaw =
  | {
      exactly: number;
    }
  | {
      normal: {
        /**
         * Standard uncertainty.
         */
        deviation: number;
        /**
         * Estimate.
         */
        mean: number;
      };
    }
  | {
      student: {
        /**
         * n - 1.
         */
        degrees_of_freedom: number;
        /**
         * Mean.
         */
        mean: number;
        /**
         * s / √n.
         */
        scale: number;
      };
    }
  | {
      rectangular: {
        /**
         * Upper limit.
         */
        high: number;
        /**
         * Lower limit.
         */
        low: number;
      };
    }
  | {
      triangular: {
        /**
         * Upper limit.
         */
        high: number;
        /**
         * Lower limit.
         */
        low: number;
      };
    }
  | {
      u_shaped: {
        /**
         * Upper limit.
         */
        high: number;
        /**
         * Lower limit.
         */
        low: number;
      };
    }
  | {
      log_uniform: {
        /**
         * Upper limit.
         */
        high: number;
        /**
         * Lower limit.
         */
        low: number;
      };
    };
/**
 * The kinds of long work.
 */
export type LongWork =
  | {
      transient: TransientArgs;
    }
  | {
      sweep: SweepArgs;
    }
  | {
      band: FeedBandArgs;
    }
  | {
      monte_carlo: MonteCarloArgs;
    }
  | {
      bundle_make: BundleMake;
    }
  | {
      bundle_look: FileName;
    }
  | {
      bundle_take_in: BundleTakeIn;
    }
  | {
      store_check: StoreCheckGet;
    }
  | 'backup_make';
/**
 * Which part changes, and its values: 1 to 200 of them.
 */
export type SweepOver =
  | {
      orifice_diameter: {
        /**
         * Diameters, m.
         */
        diameter_m: number[];
      };
    }
  | {
      clearance: {
        /**
         * Its place, from 0.
         */
        leak: number;
        /**
         * Clearances, m.
         */
        radial_clearance_m: number[];
      };
    }
  | {
      friction: {
        /**
         * Frictions, N.
         */
        friction_n: number[];
      };
    };
/**
 * Where a task stands.
 */
export type TaskState =
  | 'running'
  | 'cancelling'
  | 'cancelled'
  | {
      finished: LongResult;
    }
  | {
      failed: ApiError;
    };
/**
 * What long work came to.
 */
export type LongResult =
  | {
      transient: TransientAnswer;
    }
  | {
      sweep: SweepAnswer;
    }
  | {
      band: FeedBandAnswer;
    }
  | {
      monte_carlo: MonteCarloAnswer;
    }
  | {
      bundle_make: BundleMade;
    }
  | {
      bundle_look: BundlePlan;
    }
  | {
      bundle_take_in: BundleTaken;
    }
  | {
      store_check: StoreCheck;
    }
  | {
      backup_make: BackupEntry;
    };

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
   * A unit as it is edited: its parts, findings, and what is missing
   */
  'profile.get': {
    args: ProfileGet;
    answer: ProfileView;
  };
  /**
   * Make or change one part of a unit's profile, or only try it
   */
  'profile.put': {
    args: ProfilePut;
    answer: ProfileSaved;
  };
  /**
   * Make a bore from a shape to start from
   */
  'profile.shape': {
    args: ProfileShape;
    answer: ProfileSaved;
  };
  /**
   * Copy a unit, a circuit or a bore
   */
  'profile.copy': {
    args: ProfileCopy;
    answer: ProfileSaved;
  };
  /**
   * Change places with a neighbour
   */
  'profile.move': {
    args: ProfileMove;
    answer: ProfileView;
  };
  /**
   * Remove a part of a unit's profile, or a whole unit
   */
  'profile.remove': {
    args: ProfileRemove;
    answer: Nothing;
  };
  /**
   * Bring a removed part back
   */
  'profile.restore': {
    args: ProfileRemove;
    answer: ProfileView;
  };
  /**
   * Units that were removed
   */
  'profile.removed': {
    args: Nothing;
    answer: RemovedUnits;
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
    answer: JobEdited;
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
   * The repair options of a bore, side by side
   */
  'options.list': {
    args: OptionsList;
    answer: OptionsView;
  };
  /**
   * The shop's own list of parts
   */
  'part.list': {
    args: Nothing;
    answer: PartList;
  };
  /**
   * Record a part
   */
  'part.record': {
    args: PartRecord;
    answer: PartRecorded;
  };
  /**
   * The photos of a job
   */
  'photo.list': {
    args: PhotoListGet;
    answer: PhotoList;
  };
  /**
   * Add a photo from a file that was carried in
   */
  'photo.add': {
    args: PhotoAdd;
    answer: PhotoList;
  };
  /**
   * Change a photo's caption, or whether it is personal
   */
  'photo.edit': {
    args: PhotoEdit;
    answer: PhotoList;
  };
  /**
   * Remove a photo
   */
  'photo.remove': {
    args: PhotoName;
    answer: PhotoList;
  };
  /**
   * One piece of a photo's picture or thumbnail
   */
  'photo.read': {
    args: PhotoRead;
    answer: FilePiece;
  };
  /**
   * What a job's inspection asks for, done and open
   */
  'inspection.plan': {
    args: PlanGet;
    answer: PlanView;
  };
  /**
   * Change the plan of a job's inspection
   */
  'inspection.change': {
    args: PlanChange;
    answer: PlanChanged;
  };
  /**
   * Record one check, or say what it would give
   */
  'inspection.record': {
    args: InspectionRecord;
    answer: InspectionRecorded;
  };
  /**
   * Strike a check
   */
  'inspection.strike': {
    args: InspectionStrike;
    answer: Nothing;
  };
  /**
   * What all checks of a bore say together
   */
  'bore.card': {
    args: CardGet;
    answer: CardView;
  };
  /**
   * A bore as it was found, to be tried with other parts
   */
  'bore.explore': {
    args: ExploreStart;
    answer: ExploreView;
  };
  /**
   * Keep a setting of a bore with a note
   */
  'what_if.keep': {
    args: WhatIfKeep;
    answer: WhatIfKept;
  };
  /**
   * Take a kept setting away
   */
  'what_if.remove': {
    args: WhatIfRemove;
    answer: Nothing;
  };
  /**
   * The machining sheet of a bore in a job
   */
  'machining.get': {
    args: MachiningGet;
    answer: MachiningView;
  };
  /**
   * A machining sheet filled in from a repair option
   */
  'machining.propose': {
    args: MachiningPropose;
    answer: MachiningSheet;
  };
  /**
   * Record a machining sheet, or say what it would give
   */
  'machining.record': {
    args: MachiningRecord;
    answer: MachiningRecorded;
  };
  /**
   * Sign the machining sheet on record
   */
  'machining.sign': {
    args: MachiningSign;
    answer: MachiningRecorded;
  };
  /**
   * The shop's instruments and stands
   */
  'instrument.list': {
    args: Nothing;
    answer: InstrumentList;
  };
  /**
   * Record an instrument
   */
  'instrument.record': {
    args: InstrumentRecord;
    answer: InstrumentRecorded;
  };
  /**
   * Record a vacuum stand
   */
  'stand.record': {
    args: StandRecord;
    answer: InstrumentRecorded;
  };
  /**
   * Write the printable report of a job
   */
  'report.write': {
    args: ReportWrite;
    answer: ReportMade;
  };
  /**
   * A bore's tests and repairs across jobs
   */
  'bore.history': {
    args: BoreHistoryGet;
    answer: BoreHistory;
  };
  /**
   * What is held about a job's customer, here and in other jobs
   */
  'customer.held': {
    args: CustomerHeldGet;
    answer: CustomerHeld;
  };
  /**
   * Erase what is held about a customer, for good, and look whether it is gone
   */
  'customer.erase': {
    args: CustomerErase;
    answer: CustomerErased;
  };
  /**
   * The erasures known here, and copies from before them
   */
  'erasure.list': {
    args: Nothing;
    answer: ErasureList;
  };
  /**
   * Look for texts in all that is kept on this device
   */
  'erasure.look': {
    args: ErasureLook;
    answer: Proof;
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
    args: StoreCheckGet;
    answer: StoreCheck;
  };
  /**
   * The store's backups
   */
  'backup.list': {
    args: Nothing;
    answer: BackupList;
  };
  /**
   * Make a backup now
   */
  'backup.make': {
    args: Nothing;
    answer: BackupEntry;
  };
  /**
   * Delete backups or files put aside
   */
  'backup.drop': {
    args: BackupDrop;
    answer: BackupDropped;
  };
  /**
   * Put a backup in the store's place
   */
  'backup.restore': {
    args: BackupName;
    answer: StoreRestored;
  };
  /**
   * Save what can be read of a damaged store
   */
  'store.repair': {
    args: Nothing;
    answer: StoreRepaired;
  };
  /**
   * The pressure taps of a job's unit and what was read there
   */
  'tap_reading.get': {
    args: TapsGet;
    answer: TapsView;
  };
  /**
   * Record a pressure read at a tap, or say what it would give
   */
  'tap_reading.record': {
    args: TapRecord;
    answer: TapRecorded;
  };
  /**
   * A hot-oil check of a bore's circuit, or what stands before one
   */
  'oil_check.get': {
    args: OilCheckGet;
    answer: OilCheckView;
  };
  /**
   * Record a hot-oil check, or say what it would give
   */
  'oil_check.record': {
    args: OilCheckRecord;
    answer: OilCheckRecorded;
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
    args: BundleTakeIn;
    answer: BundleTaken;
  };
  /**
   * Look at a file without taking it in: what it is and who signed it
   */
  'look.file': {
    args: FileName;
    answer: LookedFile;
  };
  /**
   * The jobs of a file that is looked at
   */
  'look.jobs': {
    args: LookJobs;
    answer: LookedJobs;
  };
  /**
   * One job of a file that is looked at
   */
  'look.job': {
    args: LookJob;
    answer: LookedJob;
  };
  /**
   * One vacuum test of a file that is looked at, with its judgement
   */
  'look.test': {
    args: LookTest;
    answer: LookedTest;
  };
  /**
   * One repair of a file that is looked at
   */
  'look.repair': {
    args: LookRepair;
    answer: LookedRepair;
  };
  /**
   * The inspection of a job of a file that is looked at: its plan and its checks
   */
  'look.plan': {
    args: LookJob;
    answer: LookedPlan;
  };
  /**
   * The card of a bore in a job of a file that is looked at
   */
  'look.bore': {
    args: LookBore;
    answer: LookedBore;
  };
  /**
   * The check of a bore's relief in a file that is looked at
   */
  'look.relief': {
    args: LookBore;
    answer: LookedRelief;
  };
  /**
   * What was read at the taps in a job of a file that is looked at
   */
  'look.taps': {
    args: LookJob;
    answer: LookedTaps;
  };
  /**
   * One hot-oil check of a file that is looked at
   */
  'look.oil_check': {
    args: LookOilCheck;
    answer: LookedOilCheck;
  };
  /**
   * What is agreed in a job of a file that is looked at
   */
  'look.handover': {
    args: LookJob;
    answer: LookedHandover;
  };
  /**
   * What was ever recorded about something in a file that is looked at
   */
  'look.history': {
    args: LookHistory;
    answer: LookedHistory;
  };
  /**
   * A piece of a photo's picture in a file that is looked at
   */
  'look.photo': {
    args: LookPhoto;
    answer: FilePiece;
  };
  /**
   * End looking at a file, which can still be taken in
   */
  'look.close': {
    args: FileName;
    answer: Nothing;
  };
  /**
   * Write readings as a table
   */
  'readings.write': {
    args: ReadingsWrite;
    answer: ReadingsWritten;
  };
  /**
   * What taking a table of readings in would do; changes nothing
   */
  'readings.look': {
    args: ReadingsLook;
    answer: ReadingsPlan;
  };
  /**
   * Take readings in from a table, as one action
   */
  'readings.take_in': {
    args: ReadingsLook;
    answer: ReadingsTaken;
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
   * Give a device a name; on this device only
   */
  'device.rename': {
    args: DeviceName;
    answer: DeviceList;
  };
  /**
   * Go on as a new device, under a key that nobody else has
   */
  'device.start_over': {
    args: Nothing;
    answer: DeviceList;
  };
  /**
   * What two people wrote without knowing of each other
   */
  'settle.list': {
    args: SettleGet;
    answer: SettleList;
  };
  /**
   * Say which of several values stands
   */
  'settle.choose': {
    args: SettleChoose;
    answer: Settled;
  };
  /**
   * Take one record back
   */
  'record.take_back': {
    args: RecordName;
    answer: UndoState;
  };
  /**
   * Bring back a record that was taken back
   */
  'record.bring_back': {
    args: RecordName;
    answer: UndoState;
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
   * What is agreed in a job and handed over with it
   */
  'handover.get': {
    args: HandoverGet;
    answer: HandoverView;
  };
  /**
   * Record a job's estimate, or only work it out
   */
  'estimate.record': {
    args: EstimateRecord;
    answer: EstimateRecorded;
  };
  /**
   * Record what the customer agreed to
   */
  'authorisation.record': {
    args: AuthorisationRecord;
    answer: HandoverRecorded;
  };
  /**
   * Record a part that was fitted
   */
  'fitted.record': {
    args: FittedRecord;
    answer: HandoverRecorded;
  };
  /**
   * Take a fitted part off the record
   */
  'fitted.remove': {
    args: FittedRemove;
    answer: HandoverView;
  };
  /**
   * Record a job's warranty
   */
  'warranty.record': {
    args: WarrantyRecord;
    answer: HandoverRecorded;
  };
  /**
   * Sign a job off with what is open
   */
  'job.sign_off': {
    args: SignOffRecord;
    answer: HandoverRecorded;
  };
  /**
   * Earlier jobs that look like the same vehicle's
   */
  'comeback.suggest': {
    args: HandoverGet;
    answer: ComebackSuggestions;
  };
  /**
   * Say that a job is a comeback of an earlier one
   */
  'comeback.record': {
    args: ComebackRecord;
    answer: HandoverRecorded;
  };
  /**
   * Which repairs held, with how many cases each figure has
   */
  'shop.statistics': {
    args: StatisticsGet;
    answer: StatisticsView;
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
  /**
   * Area of an opening over the spool's stroke
   */
  'opening.area': {
    args: OpeningAreaArgs;
    answer: OpeningAreaAnswer;
  };
  /**
   * Oil through an opening over the spool's stroke
   */
  'opening.flow': {
    args: OpeningFlowArgs;
    answer: OpeningFlowAnswer;
  };
  /**
   * Rate, stress factors and buckling of a coil spring
   */
  'spring.geometry': {
    args: SpringGeometryArgs;
    answer: SpringGeometryAnswer;
  };
  /**
   * Load and stress of a coil spring at a height
   */
  'spring.at_height': {
    args: SpringAtHeightArgs;
    answer: SpringAtHeightAnswer;
  };
  /**
   * A spring by its measured loads, and its sag
   */
  'spring.fit': {
    args: SpringFitArgs;
    answer: SpringFitAnswer;
  };
  /**
   * The shim for a pressure, or the pressure with a shim
   */
  'spring.shim': {
    args: SpringShimArgs;
    answer: SpringShimAnswer;
  };
  /**
   * The spring for a valve of another area
   */
  'spring.rerate': {
    args: SpringRerateArgs;
    answer: SpringRerateAnswer;
  };
  /**
   * Clearance, taper and out-of-round from measured diameters
   */
  'fit.clearance': {
    args: FitClearanceArgs;
    answer: FitClearanceAnswer;
  };
  /**
   * Clearance of a valve in its bore away from 20 °C
   */
  'fit.temperature': {
    args: FitTemperatureArgs;
    answer: FitTemperatureAnswer;
  };
  /**
   * Limits of a tolerance class, and the fit of two (ISO 286)
   */
  'fit.iso286': {
    args: FitIsoArgs;
    answer: FitIsoAnswer;
  };
  /**
   * Whether a sleeve has room in a reamed bore
   */
  'fit.sleeve': {
    args: FitSleeveArgs;
    answer: FitSleeveAnswer;
  };
  /**
   * Pressure of a relief against its flow, and where it reseats
   */
  'relief.override': {
    args: ReliefOverrideArgs;
    answer: ReliefOverrideAnswer;
  };
  /**
   * The spring with which a relief keeps its setpoint
   */
  'relief.spring_for': {
    args: ReliefSpringArgs;
    answer: ReliefSpringAnswer;
  };
  /**
   * The viscosity line of an oil, read both ways
   */
  'oil.chart': {
    args: OilChartArgs;
    answer: OilChartAnswer;
  };
  /**
   * Viscosity index of an oil (ASTM D2270)
   */
  'oil.viscosity_index': {
    args: ViscosityIndexArgs;
    answer: ViscosityIndexAnswer;
  };
  /**
   * Stiffness of oil with air in it
   */
  'oil.stiffness': {
    args: OilStiffnessArgs;
    answer: OilStiffnessAnswer;
  };
  /**
   * Torque that a clutch pack holds
   */
  'clutch.capacity': {
    args: ClutchCapacityArgs;
    answer: ClutchCapacityAnswer;
  };
  /**
   * What a shift of the pressure does to a clutch's torque
   */
  'clutch.shift': {
    args: ClutchShiftArgs;
    answer: ClutchShiftAnswer;
  };
  /**
   * The pressure with which a clutch holds a torque
   */
  'clutch.pressure': {
    args: ClutchPressureArgs;
    answer: ClutchPressureAnswer;
  };
  /**
   * Resistance and current of a winding at a temperature
   */
  'solenoid.resistance': {
    args: SolenoidResistanceArgs;
    answer: SolenoidResistanceAnswer;
  };
  /**
   * Temperature of a winding from its resistance
   */
  'solenoid.temperature': {
    args: SolenoidTemperatureArgs;
    answer: SolenoidTemperatureAnswer;
  };
  /**
   * The shift of its feed that a solenoid passes on
   */
  'solenoid.passed_shift': {
    args: PassedShiftArgs;
    answer: PassedShiftAnswer;
  };
  /**
   * The clearances that explain a leak of oil
   */
  'gap.oil_span': {
    args: OilSpanArgs;
    answer: ClearanceSpanAnswer;
  };
  /**
   * The clearances that explain a leak of air
   */
  'gap.air_span': {
    args: AirSpanArgs;
    answer: ClearanceSpanAnswer;
  };
  /**
   * The clearance of a bore from tests with two valves
   */
  'air.two_valves': {
    args: TwoValvesArgs;
    answer: TwoValvesAnswer;
  };
  /**
   * Independent contributions combined
   */
  'uncertainty.combine': {
    args: CombineArgs;
    answer: CombineAnswer;
  };
  /**
   * Mean and spread of repeated readings
   */
  'uncertainty.repeats': {
    args: RepeatsArgs;
    answer: RepeatsAnswer;
  };
  /**
   * A measured value against a limit: within, too close, outside
   */
  'uncertainty.decide': {
    args: DecideArgs;
    answer: DecideAnswer;
  };
  /**
   * An instrument's uncertainty, with drift since its calibration
   */
  'uncertainty.instrument': {
    args: InstrumentArgs;
    answer: InstrumentAnswer;
  };
  /**
   * Limits of acceptance for a tolerance
   */
  'uncertainty.guard_band': {
    args: GuardBandArgs;
    answer: GuardBandAnswer;
  };
  /**
   * A reducing regulator followed through time
   */
  'regulator.transient': {
    args: TransientArgs;
    answer: TransientAnswer;
  };
  /**
   * Small motions of a reducing regulator about rest
   */
  'regulator.stability': {
    args: StabilityArgs;
    answer: StabilityAnswer;
  };
  /**
   * Feed against line at rest, with both branches of friction
   */
  'regulator.curve': {
    args: FeedCurveArgs;
    answer: FeedCurveAnswer;
  };
  /**
   * A profile's valve with some of its parts set otherwise
   */
  'regulator.explore': {
    args: ExploreArgs;
    answer: ExploreAnswer;
  };
  /**
   * The regulated pressure with all that is unknown drawn together
   */
  'regulator.band': {
    args: FeedBandArgs;
    answer: FeedBandAnswer;
  };
  /**
   * A main regulator of the bypass kind with its pump
   */
  'line.main_regulator': {
    args: MainRegulatorArgs;
    answer: MainRegulatorAnswer;
  };
  /**
   * Line, feed, solenoid and boost as one solved circuit
   */
  'line.circuit': {
    args: SupplyCircuitArgs;
    answer: SupplyCircuitAnswer;
  };
  /**
   * Uncertain figures carried through a calculation
   */
  'uncertainty.monte_carlo': {
    args: MonteCarloArgs;
    answer: MonteCarloAnswer;
  };
  /**
   * Begin long work: a transient, a sweep, a band, a Monte Carlo run
   */
  'task.begin': {
    args: TaskBegin;
    answer: TaskRef;
  };
  /**
   * How far a task is, and its result
   */
  'task.state': {
    args: TaskRef;
    answer: TaskView;
  };
  /**
   * Tell a task to stop
   */
  'task.cancel': {
    args: TaskRef;
    answer: TaskView;
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
   * The most that it measures; none: not entered.
   */
  range_high_si?: number | null;
  /**
   * The least that it measures; none: not entered.
   */
  range_low_si?: number | null;
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
  length_m?: number | null;
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
  friction_n?: number | null;
  material: Material;
  /**
   * Diameter of the stem between lands, m, for the drawing.
   */
  stem_diameter_m: number;
  /**
   * Full travel against the spring, m.
   */
  stroke_m?: number | null;
}
/**
 * A circuit of a unit. Kind `circuit`.
 */
export interface Circuit {
  /**
   * What their coils may measure, if it is known.
   */
  coil?: CoilLimits | null;
  /**
   * What the solenoids together take at the setpoint, hot, m³/s.
   */
  demand_m3_s?: number | null;
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
  setpoint_pa?: number | null;
  /**
   * How they make their pressures, and so how far a shift of the feed reaches a clutch.
   */
  solenoid_kind?: SolenoidKind | null;
  /**
   * Through how many solenoids.
   */
  solenoids?: number | null;
  /**
   * Where the specification comes from.
   */
  source: string;
  /**
   * Highest, Pa.
   */
  specified_high_pa?: number | null;
  /**
   * Lowest pressure that the service information allows while regulating, Pa.
   */
  specified_low_pa?: number | null;
  /**
   * The unit.
   */
  unit: string;
}
/**
 * What the service information allows a solenoid's coil.
 */
export interface CoilLimits {
  /**
   * Most, ohm.
   */
  high_ohm?: number | null;
  /**
   * At which coil temperature these hold, K.
   */
  limits_at_k?: number | null;
  /**
   * Least resistance, ohm.
   */
  low_ohm?: number | null;
  /**
   * Who says so.
   */
  source?: string;
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
  diameter_m?: number | null;
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
  /**
   * Holes or notches instead of a groove; the fraction then counts for nothing.
   */
  window?: OpeningWindow | null;
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
  load_regulating_n?: number | null;
  /**
   * Rate, N/m.
   */
  rate_n_per_m?: number | null;
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
  line_highest_pa?: number | null;
  /**
   * Line pressure at hot idle, Pa above ambient.
   */
  line_idle_pa?: number | null;
  /**
   * The shop's name for it.
   */
  name: string;
  /**
   * The oil it runs on.
   */
  oil?: Oil | null;
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
 * Ask for a unit as it is edited.
 */
export interface ProfileGet {
  /**
   * The unit.
   */
  unit: string;
}
/**
 * A unit as it is edited.
 */
export interface ProfileView {
  body: Unit;
  /**
   * Its circuits, in order.
   */
  circuits: CircuitView[];
  /**
   * What is odd, each at its part.
   */
  findings: PartFinding[];
  /**
   * The unit; nil while it isn't saved.
   */
  id: string;
  /**
   * How many jobs there are on it.
   */
  jobs: number;
  /**
   * Parts that were removed and can be brought back.
   */
  removed: RemovedPart[];
  undo: UndoState;
}
/**
 * A circuit as it is edited.
 */
export interface CircuitView {
  body: Circuit;
  /**
   * Its bores.
   */
  bores: BoreView[];
  /**
   * Its clutches and brakes.
   */
  clutches: ClutchPart[];
  /**
   * The circuit.
   */
  id: string;
  /**
   * Its relief.
   */
  relief?: ReliefPart | null;
  /**
   * Its taps.
   */
  taps: TapPart[];
}
/**
 * A bore as it is edited.
 */
export interface BoreView {
  /**
   * Its balance orifice.
   */
  balance_orifice?: BalanceOrificePart | null;
  body: Bore;
  /**
   * The judgements that it carries.
   */
  can: Judged[];
  /**
   * What is missing, and what that costs.
   */
  costs: PartCost[];
  drawing: BoreDrawing;
  /**
   * The bore.
   */
  id: string;
  /**
   * Its lands from left to right.
   */
  lands: LandPart[];
  /**
   * Its openings.
   */
  openings: OpeningPart[];
  /**
   * Its spring.
   */
  spring?: SpringPart | null;
  /**
   * Its test points.
   */
  test_points: TestPointPart[];
}
/**
 * An orifice with its subject.
 */
export interface BalanceOrificePart {
  body: BalanceOrifice;
  /**
   * Its subject; nil while it isn't saved.
   */
  id: string;
}
/**
 * A missing dimension and what it costs.
 */
export interface PartCost {
  /**
   * The judgements that can't be had without it.
   */
  costs: Judged[];
  /**
   * Field of the part, without indices: `diameter_m`, `balance_orifice`.
   */
  field: string;
  /**
   * The part that lacks it; its bore for a whole part that is missing.
   */
  id: string;
  kind: Kind;
}
/**
 * A land with its subject.
 */
export interface LandPart {
  body: Land;
  /**
   * Its subject; nil while it isn't saved.
   */
  id: string;
}
/**
 * An opening with its subject.
 */
export interface OpeningPart {
  body: Opening;
  /**
   * Its subject; nil while it isn't saved.
   */
  id: string;
}
/**
 * A spring with its subject.
 */
export interface SpringPart {
  body: Spring;
  /**
   * Its subject; nil while it isn't saved.
   */
  id: string;
}
/**
 * A test point with its subject.
 */
export interface TestPointPart {
  body: TestPoint;
  /**
   * Its subject; nil while it isn't saved.
   */
  id: string;
}
/**
 * A clutch with its subject.
 */
export interface ClutchPart {
  body: Clutch;
  /**
   * Its subject; nil while it isn't saved.
   */
  id: string;
}
/**
 * A clutch or brake of a circuit. Kind `clutch`. Without its solenoid's kind and what that is told
 * to give, no shift of its pressure can be told; without the rest, no torque.
 */
export interface Clutch {
  /**
   * The circuit.
   */
  circuit: string;
  /**
   * What its solenoid's coil may measure, where that differs from the circuit's.
   */
  coil?: CoilLimits | null;
  /**
   * The same at the highest line pressure, Pa above ambient.
   */
  command_highest_pa?: number | null;
  /**
   * What the solenoid gives, out of a feed as specified, where the clutch has to hold at hot
   * idle, Pa above ambient.
   */
  command_idle_pa?: number | null;
  /**
   * Inner diameter of the friction faces, m.
   */
  face_inner_m?: number | null;
  /**
   * Outer diameter of the friction faces, m.
   */
  face_outer_m?: number | null;
  /**
   * How many faces rub: two for each lined plate.
   */
  faces?: number | null;
  /**
   * Coefficient of friction in oil.
   */
  friction_coefficient?: number | null;
  /**
   * Who says so.
   */
  friction_source?: string;
  /**
   * Pressure of the clutch over that of its solenoid: 1 where the solenoid feeds the clutch
   * itself, more where it moves a valve that does.
   */
  gain_ratio: number;
  /**
   * Name, e.g. "2-6 brake".
   */
  name: string;
  /**
   * Fractional order key.
   */
  order: string;
  /**
   * Inner diameter of the piston, m.
   */
  piston_inner_m?: number | null;
  /**
   * Outer diameter of the piston, m.
   */
  piston_outer_m?: number | null;
  /**
   * Load of the return springs with the pack closed, N.
   */
  return_spring_n?: number | null;
  /**
   * How its solenoid makes its pressure; none: as the circuit's do.
   */
  solenoid_kind?: SolenoidKind | null;
  /**
   * Where the dimensions come from.
   */
  source: string;
}
/**
 * A relief with its subject.
 */
export interface ReliefPart {
  body: Relief;
  /**
   * Its subject; nil while it isn't saved.
   */
  id: string;
}
/**
 * A tap with its subject.
 */
export interface TapPart {
  body: Tap;
  /**
   * Its subject; nil while it isn't saved.
   */
  id: string;
}
/**
 * A place where a gauge can be screwed in. Kind `tap`.
 */
export interface Tap {
  /**
   * The circuit.
   */
  circuit: string;
  /**
   * When the window holds, e.g. "hot idle, in drive".
   */
  condition?: string;
  /**
   * Highest, Pa above ambient.
   */
  high_pa?: number | null;
  /**
   * Lowest pressure that the service information allows there, Pa above ambient.
   */
  low_pa?: number | null;
  /**
   * Name, e.g. as cast on the case.
   */
  name: string;
  node: Node;
  /**
   * Fractional order key.
   */
  order: string;
  /**
   * Who says so.
   */
  source: string;
}
/**
 * Something odd about a part.
 */
export interface PartFinding {
  finding: Finding;
  /**
   * The part; nil while it isn't saved.
   */
  id: string;
  kind: Kind;
}
/**
 * A part that was removed.
 */
export interface RemovedPart {
  /**
   * The part.
   */
  id: string;
  kind: Kind;
  /**
   * Its name; empty for what has none.
   */
  name: string;
}
/**
 * Make or change one part.
 */
export interface ProfilePut {
  /**
   * True: only says what it would give.
   */
  dry_run?: boolean;
  /**
   * The part; none: a new one.
   */
  id?: string | null;
  part: ProfilePart;
}
/**
 * What became of an entry.
 */
export interface ProfileSaved {
  /**
   * The part, once it is saved.
   */
  id?: string | null;
  /**
   * False when it was only tried, or one of its numbers can't be true.
   */
  saved: boolean;
  view: ProfileView;
}
/**
 * A bore to start from.
 */
export interface ProfileShape {
  /**
   * The circuit that it serves.
   */
  circuit: string;
  /**
   * Its diameter, m.
   */
  diameter_m: number;
  /**
   * True: only shows it.
   */
  dry_run?: boolean;
  /**
   * Its name.
   */
  name: string;
  shape: BoreShape;
}
/**
 * Copy a unit, a circuit or a bore with all its parts.
 */
export interface ProfileCopy {
  /**
   * What to copy.
   */
  id: string;
  /**
   * The copy's name.
   */
  name: string;
}
/**
 * Put a circuit, tap, clutch, bore or test point before or after its neighbour.
 */
export interface ProfileMove {
  /**
   * The part.
   */
  id: string;
  /**
   * True: one place towards the end.
   */
  later: boolean;
}
/**
 * Remove a part with all that belongs to it, or bring it back.
 */
export interface ProfileRemove {
  /**
   * The part.
   */
  id: string;
}
/**
 * Units that were removed and can be brought back.
 */
export interface RemovedUnits {
  /**
   * Newest last.
   */
  units: RemovedPart[];
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
   * Its parts whose content was erased.
   */
  erased: ErasedPart[];
  /**
   * Two people at once, and the like.
   */
  findings: Finding[];
  handover: HandoverBrief;
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
  taps: TapSummary;
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
  /**
   * Hot-oil checks of its circuit in this job, oldest first.
   */
  oil_checks: OilCheckEntry[];
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
 * A hot-oil check in the list of a bore.
 */
export interface OilCheckEntry {
  by: ReadBy;
  /**
   * The check.
   */
  oil_check: string;
  /**
   * How many points were read.
   */
  points: number;
  /**
   * The repair that it proves.
   */
  repair?: string | null;
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
 * A part of a job whose content was erased.
 */
export interface ErasedPart {
  by: ReadBy;
  /**
   * `customer`, `complaint`, `notes` or `authorisation`.
   */
  part: string;
}
/**
 * A line or two about what is agreed, for the job's page. Nothing in it names a person outside
 * the shop.
 */
export interface HandoverBrief {
  agreed: Agreed;
  /**
   * How many jobs are comebacks of it.
   */
  came_back: number;
  /**
   * True when something changed since.
   */
  changed_since: boolean;
  /**
   * The job that it is a comeback of, by its number; empty number: it isn't on this device.
   */
  comeback_of?: string | null;
  /**
   * Its currency.
   */
  currency: string;
  /**
   * Its decimals.
   */
  decimals: number;
  /**
   * Fitted parts on record.
   */
  fitted: number;
  /**
   * How much is open.
   */
  open: number;
  /**
   * Who signed it off.
   */
  signed?: string | null;
  /**
   * Total of the estimate, smallest units; none: no estimate.
   */
  total_minor?: number | null;
  /**
   * True when warranty terms are on record.
   */
  warranty: boolean;
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
 * The taps of a job's unit in short.
 */
export interface TapSummary {
  /**
   * Of the last reading at each tap, those outside their window.
   */
  outside: number;
  /**
   * Readings on record.
   */
  readings: number;
  /**
   * Taps of the unit.
   */
  taps: number;
  /**
   * Likewise, those too close to call.
   */
  too_close: number;
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
 * What came of changing a part.
 */
export interface JobEdited {
  /**
   * What is wrong with the part.
   */
  findings: Finding[];
  /**
   * False when a finding forbids it: nothing was recorded.
   */
  saved: boolean;
  undo: UndoState;
  view: JobView;
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
   * Gap factor K = D c³ (1 + 1.5 e²) / L of the tested seals, m³: low, likely, high; none where
   * the reading didn't tell it.
   *
   * @minItems 3
   * @maxItems 3
   */
  gap_factor_m3?: number[] | null;
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
   * The reading that this bore would give at sea level on the reference stand, Pa below ambient;
   * none where the gap isn't known.
   */
  reference_vacuum_pa?: number | null;
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
   * Upper end of the specified band, Pa; none: nobody entered it.
   */
  specified_high_pa?: number | null;
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
   * The hot-oil checks that prove it, oldest first.
   */
  oil_checks: OilCheckBeside[];
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
 * A hot-oil check beside a repair.
 */
export interface OilCheckBeside {
  by: ReadBy;
  /**
   * The check.
   */
  oil_check: string;
  /**
   * Temperature of the oil, K.
   */
  oil_temperature_k?: number | null;
  /**
   * Its points.
   */
  points: OilPointBeside[];
  verdict: Verdict;
}
/**
 * A point of a hot-oil check in the plot of a repair.
 */
export interface OilPointBeside {
  /**
   * Against the prediction at the oil's temperature.
   */
  against_prediction?: Verdict | null;
  direction: LineDirection;
  /**
   * How far it may be off (95 %), Pa.
   */
  expanded_uncertainty_pa: number;
  /**
   * Regulated pressure, Pa.
   */
  feed_pa: number;
  /**
   * Line pressure, Pa.
   */
  line_pa: number;
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
   * What the circuit is meant to hold, Pa; none: nobody entered it.
   */
  setpoint_pa?: number | null;
  /**
   * Spring load at the regulating position, N.
   */
  spring_load_n?: number | null;
  /**
   * Spring rate, N/m.
   */
  spring_rate_n_per_m?: number | null;
  /**
   * Reaction land, m; none: the profile lacks it.
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
   * Bore of the balance orifice that was put in, m; none: the old one stays.
   */
  orifice_m?: number | null;
  /**
   * Parts, in words.
   */
  parts?: string;
  /**
   * What polishing took off the surface of the bore, m.
   */
  polished_off_m?: number | null;
  /**
   * Gap around the sleeve on the diameter at 20 °C, m; below zero it is a press fit. None:
   * nothing is taken to pass around it.
   */
  seat_gap_m?: number | null;
  /**
   * How far that may be off either way (95 %), m.
   */
  seat_gap_uncertainty_m?: number | null;
  /**
   * What the sleeve is made of; none: as the body.
   */
  sleeve_material?: Material | null;
  /**
   * Outer diameter of the sleeve at 20 °C, m.
   */
  sleeve_outer_m?: number | null;
  /**
   * Spring load at the regulating position, N.
   */
  spring_load_n?: number | null;
  /**
   * Spring rate, N/m.
   */
  spring_rate_n_per_m?: number | null;
  /**
   * How far the spring's load may be off either way, N; none: taken as stated.
   */
  spring_tolerance_n?: number | null;
  /**
   * Travel that the valve leaves, m; none: as the old one.
   */
  stroke_m?: number | null;
  /**
   * Diameter of the valve's reaction land at 20 °C, m.
   */
  valve_diameter_m?: number | null;
  /**
   * What the valve is made of; none: as the old one.
   */
  valve_material?: Material | null;
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
 * Ask for the repair options of a bore in a job.
 */
export interface OptionsList {
  /**
   * The bore.
   */
  bore: string;
  figures?: PlanFigures;
  /**
   * The job.
   */
  job: string;
}
/**
 * Figures for planning a repair of one bore. They are no record: they are entered anew, or kept
 * as a draft.
 */
export interface PlanFigures {
  /**
   * Oil temperature of the cold prediction, K; none: 20 °C.
   */
  cold_oil_temperature_k?: number | null;
  /**
   * Thickness of the bore's hard-anodised layer, m.
   */
  layer_m?: number | null;
  /**
   * The least that must be left of it, m.
   */
  least_wall_m?: number | null;
  /**
   * Who says so.
   */
  least_wall_source?: string;
  /**
   * The most that a bore may be out of round for a valve without reaming, m.
   */
  most_out_of_round_m?: number | null;
  /**
   * The thickest shim that the spring has travel for, m.
   */
  most_shim_m?: number | null;
  /**
   * What polishing takes off the surface of the bore, m.
   */
  polish_off_m?: number | null;
  /**
   * Thinnest metal between the bore as new and the next passage or face, m.
   */
  wall_m?: number | null;
  /**
   * Clearance on the diameter that another valve should have, m; none: that of the profile.
   */
  wanted_clearance_m?: number | null;
}
/**
 * The repair options of a bore, as their page shows them.
 */
export interface OptionsView {
  /**
   * The bore.
   */
  bore: string;
  /**
   * Its name.
   */
  bore_name: string;
  /**
   * The job's hazards, for the line that stays in view.
   */
  hazards: HazardState[];
  /**
   * The job.
   */
  job: string;
  /**
   * Its number.
   */
  job_number: string;
  options: RepairOptions;
  /**
   * How many parts of the shop's list may be proposed.
   */
  parts: number;
  /**
   * The test that they were worked out from; none: no test with a reading.
   */
  test?: string | null;
  undo: UndoState;
}
/**
 * Every way out of a bore's wear, the best supported first.
 */
export interface RepairOptions {
  /**
   * What is odd about the figures entered for planning.
   */
  findings: Finding[];
  /**
   * One answer for each way, in the order of their rank.
   */
  options: RepairOutlook[];
  /**
   * What the measurements can't decide; none: they decide.
   */
  undecided?: Undecided | null;
}
/**
 * One way worked out.
 */
export interface RepairOutlook {
  /**
   * What was assumed.
   */
  assumptions: Assumed[];
  /**
   * What to look at while doing it.
   */
  checks: NamedCheck[];
  /**
   * Clearance on the diameter at 20 °C, m; none while it isn't known.
   */
  clearance_cold_m?: Span | null;
  /**
   * Clearance on the diameter in hot oil, m; zero or less: the valve seizes.
   */
  clearance_hot_m?: Span | null;
  cold: ConsequenceAnswer;
  effort: Effort;
  feasibility: Feasibility;
  /**
   * What is odd, at the fields of the work.
   */
  findings: Finding[];
  hot: ConsequenceAnswer;
  motion: MotionAhead;
  needs: Needs;
  /**
   * Its place, from 1.
   */
  rank: number;
  reading: ReadingAhead;
  /**
   * Why it stands there, the weightiest first.
   */
  reasons: RankReason[];
  /**
   * What may go wrong, or stays wrong.
   */
  risks: Risk[];
  standing: Standing;
  /**
   * What speaks against the figures.
   */
  warnings: OptionWarning[];
  way: Way;
  /**
   * What choosing it would record; none: nothing is done.
   */
  work?: RepairWork | null;
}
/**
 * Parts and dimensions of a way.
 */
export interface Needs {
  /**
   * The finished bore, m.
   */
  bore_diameter_m?: number | null;
  /**
   * The bore must become larger than this to clean up, m.
   */
  cleans_up_above_m?: number | null;
  /**
   * Hard layer that polishing leaves, m; zero or less: it goes through.
   */
  layer_left_m?: number | null;
  /**
   * The balance orifice.
   */
  orifice?: OrificeNeeds | null;
  /**
   * How many other sets of the list would do.
   */
  other_sets: number;
  /**
   * Parts of the shop's list.
   */
  parts: PartUse[];
  /**
   * Reaction area of the valve, m².
   */
  reaction_area_m2?: number | null;
  /**
   * The relief.
   */
  relief?: ReliefNeeds | null;
  /**
   * Gap of the sleeve on the diameter, m; below zero it is a press fit.
   */
  seat_gap_m?: Span | null;
  /**
   * Shim under the chosen spring, m.
   */
  shim_m?: number | null;
  /**
   * Outer diameter of the sleeve, m.
   */
  sleeve_outer_m?: number | null;
  /**
   * True when the spring that is there stays.
   */
  spring_kept: boolean;
  /**
   * Spring load where it regulates, re-rated by area, N.
   */
  spring_load_n?: number | null;
  /**
   * Spring rate, re-rated by area, N/m.
   */
  spring_rate_n_per_m?: number | null;
  /**
   * What the reamer takes off the diameter where the bore is smallest, m.
   */
  stock_m?: number | null;
  /**
   * True when the sizes are those that it would take, for no part of the list has them.
   */
  supposed: boolean;
  /**
   * The valve, m.
   */
  valve_diameter_m?: number | null;
  /**
   * Metal left around the bore, m.
   */
  wall_left_m?: number | null;
}
/**
 * A balance orifice of another size, beside the one that is there.
 */
export interface OrificeNeeds {
  changed: OrificeStands;
  kept: OrificeStands;
  /**
   * True when the other size is the profile's, and the one that is there isn't.
   */
  restores: boolean;
}
/**
 * What a balance orifice does with the bore as it is, in hot oil at the highest line.
 */
export interface OrificeStands {
  /**
   * Its bore, m.
   */
  diameter_m: number;
  motion: MotionAhead;
  /**
   * What the leak shifts the pressure by, Pa; none: it can't be told.
   */
  shift_pa?: Span | null;
}
/**
 * A part of the list in its use.
 */
export interface PartUse {
  kind: PartName;
  /**
   * Its name in the shop's words.
   */
  name: string;
  /**
   * The part.
   */
  part: string;
  /**
   * Who says what it measures.
   */
  source: string;
}
/**
 * The relief of a way.
 */
export interface ReliefNeeds {
  /**
   * Ball, m.
   */
  ball_diameter_m: number;
  /**
   * Pressure at which it opens, Pa; none while it can't be told.
   */
  cracking_pa?: number | null;
  /**
   * Load on the seated ball, N.
   */
  load_seated_n: number;
  /**
   * Oil that goes over it to the sump in the worst case, m³/s.
   */
  lost_flow_m3_s?: Span | null;
  /**
   * Rate, N/m.
   */
  rate_n_per_m: number;
  /**
   * Seat, m.
   */
  seat_diameter_m: number;
}
/**
 * What the measurements can't decide.
 */
export interface Undecided {
  /**
   * What would settle it, the best first.
   */
  settle: Settle[];
  /**
   * Between which ways.
   */
  ways: Way[];
  what: UndecidedWhat;
}
/**
 * The shop's parts.
 */
export interface PartList {
  /**
   * Parts, by kind and name; those no longer to be had last.
   */
  parts: PartOnRecord[];
  undo: UndoState;
}
/**
 * A part on record.
 */
export interface PartOnRecord {
  /**
   * Name of the bore that it is made for; none: for any, or not on this device.
   */
  bore_name?: string | null;
  by: ReadBy;
  /**
   * What is odd about it.
   */
  findings: Finding[];
  /**
   * Its subject.
   */
  id: string;
  part: ShopPart;
}
/**
 * A part of the shop. Kind `shop_part`.
 */
export interface ShopPart {
  /**
   * The bore that it is made for; none: any that its sizes fit.
   */
  bore?: string | null;
  item: PartItem;
  /**
   * Name in the shop's words.
   */
  name: string;
  /**
   * Anything worth keeping.
   */
  notes?: string;
  /**
   * Where its sizes come from.
   */
  source: string;
  /**
   * No longer to be had: it stays on record and is no longer proposed.
   */
  withdrawn?: boolean;
}
/**
 * Record a part, or say what is odd about it.
 */
export interface PartRecord {
  /**
   * True: only say what is odd.
   */
  dry_run?: boolean;
  /**
   * The one that this changes; none: a new one.
   */
  id?: string | null;
  part: ShopPart;
}
/**
 * What came of recording a part.
 */
export interface PartRecorded {
  /**
   * What is odd, at its fields.
   */
  findings: Finding[];
  /**
   * Its subject, once it is on record.
   */
  id?: string | null;
  /**
   * True when it is on record.
   */
  saved: boolean;
}
/**
 * Ask for the photos of a job.
 */
export interface PhotoListGet {
  /**
   * The job.
   */
  job: string;
}
/**
 * The photos of a job, of its tests and of its repairs, oldest first.
 */
export interface PhotoList {
  /**
   * The photos.
   */
  photos: PhotoEntry[];
  undo: UndoState;
}
/**
 * One photo.
 */
export interface PhotoEntry {
  /**
   * When.
   */
  at: string;
  /**
   * The bore that it shows, if it is of one.
   */
  bore?: string | null;
  /**
   * That bore's name.
   */
  bore_name?: string | null;
  /**
   * Who added it, or changed it last.
   */
  by: string;
  /**
   * How long the picture's file is.
   */
  bytes: number;
  /**
   * What it shows, in words; empty: nobody said.
   */
  caption: string;
  /**
   * Two people changed it without knowing of each other; this is the later one.
   */
  concurrent: boolean;
  /**
   * Names what is to be seen: another photo, another name.
   */
  hash: string;
  /**
   * The picture's height in pixels.
   */
  height_px: number;
  /**
   * Whether picture and thumbnail are on this device.
   */
  is_here: boolean;
  /**
   * The photo.
   */
  photo: string;
  /**
   * The repair that it belongs to, if it does.
   */
  repair?: string | null;
  shows: PhotoShows;
  /**
   * When it was taken, by the device that it came from.
   */
  taken_at: string;
  /**
   * The test that it belongs to, if it does.
   */
  test?: string | null;
  /**
   * The picture's width in pixels.
   */
  width_px: number;
}
/**
 * Add a photo.
 */
export interface PhotoAdd {
  /**
   * The bore that it shows, if it is of one. That of the test or the repair, if one is named.
   */
  bore?: string | null;
  /**
   * What it shows, in words.
   */
  caption?: string;
  /**
   * The file, carried in by `file.begin` and `file.add`. Forgotten once the photo is added.
   */
  file: number;
  /**
   * The job.
   */
  job: string;
  /**
   * The repair of the job that it belongs to, if it does.
   */
  repair?: string | null;
  shows?: PhotoShows;
  /**
   * When it was taken, as its file says; now, if that is missing or still to come.
   */
  taken_at?: string | null;
  /**
   * The test of the job that it belongs to, if it does.
   */
  test?: string | null;
}
/**
 * Change what is said of a photo.
 */
export interface PhotoEdit {
  /**
   * What it shows, in words.
   */
  caption: string;
  /**
   * The photo.
   */
  photo: string;
  shows: PhotoShows;
}
/**
 * Name one photo.
 */
export interface PhotoName {
  /**
   * The photo.
   */
  photo: string;
}
/**
 * Ask for a piece of a photo's file, always JPEG.
 */
export interface PhotoRead {
  /**
   * Where the piece begins.
   */
  from?: number;
  /**
   * The photo.
   */
  photo: string;
  size: PhotoSize;
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
 * Ask for the plan of a job's inspection.
 */
export interface PlanGet {
  /**
   * The job.
   */
  job: string;
}
/**
 * What a job's inspection asks for, what is done and what is open.
 */
export interface PlanView {
  /**
   * The checks of the body and the case.
   */
  body: BodyCheck[];
  /**
   * The bores of the plan, in its order, then the unit's others.
   */
  bores: PlannedBore[];
  /**
   * Who changed it; none: it is as proposed.
   */
  by?: ReadBy | null;
  /**
   * The unit's limits for the coils of its solenoids, circuits before their clutches: where a
   * check of a solenoid starts from.
   */
  coils: CoilOf[];
  /**
   * The job's hazards.
   */
  hazards: HazardState[];
  /**
   * The job.
   */
  job: string;
  /**
   * Its number.
   */
  job_number: string;
  /**
   * Checks that decide and are open, in all bores of the plan.
   */
  open: number;
  plan: InspectionPlan;
  undo: UndoState;
}
/**
 * A check of the body or the case.
 */
export interface BodyCheck {
  check: CheckName;
  /**
   * What was recorded, oldest first: one for each face, passage, solenoid, clutch.
   */
  entries: InspectionEntry[];
  /**
   * False: on record, though the plan doesn't ask for it.
   */
  in_plan: boolean;
}
/**
 * A check on record.
 */
export interface InspectionEntry {
  by: ReadBy;
  /**
   * What is odd about it.
   */
  findings: Finding[];
  /**
   * Its subject.
   */
  inspection: string;
  outcome: Outcome;
  record: Inspection;
}
/**
 * One check in one job. Kind `inspection`.
 */
export interface Inspection {
  /**
   * The bore; none: the check is of the body or the case.
   */
  bore?: string | null;
  found: Found;
  /**
   * The job.
   */
  job: string;
  /**
   * Anything worth keeping.
   */
  note?: string;
  occasion: Occasion;
}
/**
 * Order and orientation of the valve train, seen before it comes out.
 */
export interface ValveTrain {
  state: TrainState;
}
/**
 * Free movement. What wasn't tried stays empty.
 */
export interface FreeMovement {
  /**
   * With the body bolted to its torque: castings distort.
   */
  bolted?: Movement | null;
  /**
   * Washed and dry.
   */
  dry?: Movement | null;
  /**
   * Force that it took to move it, N, where it was measured.
   */
  friction_n?: number | null;
  /**
   * With oil on it.
   */
  wet?: Movement | null;
}
/**
 * Marks of wear.
 */
export interface WearMarks {
  /**
   * Each mark; none: looked at, and nothing seen.
   */
  marks: WearMark[];
}
/**
 * One mark.
 */
export interface WearMark {
  depth: MarkDepth;
  on: MarkedSurface;
  /**
   * Where along the bore, m from the drawing's zero.
   */
  position_m?: number | null;
}
/**
 * Light past the lands.
 */
export interface LightCheck {
  /**
   * What was seen at each land that was looked at.
   */
  lands: LandLight[];
}
/**
 * Light at one land.
 */
export interface LandLight {
  /**
   * The land's name in the profile.
   */
  land: string;
  seen: LightSeen;
}
/**
 * Play felt by hand.
 */
export interface WiggleCheck {
  feel: LightSeen;
  /**
   * Play across the valve by an indicator, m, where it was measured.
   */
  play_m?: number | null;
}
/**
 * Diameters of bore and valve, at stations and directions.
 */
export interface Diameters {
  /**
   * Of the bore.
   */
  bore?: BoreDiameter[];
  /**
   * What the bore was measured with.
   */
  bore_gauge?: string | null;
  /**
   * What the valve was measured with.
   */
  micrometer?: string | null;
  /**
   * Temperature of the parts, K; none: 20 °C.
   */
  temperature_k?: number | null;
  /**
   * Of the valve's lands.
   */
  valve?: LandDiameter[];
}
/**
 * One diameter of the bore.
 */
export interface BoreDiameter {
  /**
   * Diameter, m.
   */
  diameter_m: number;
  /**
   * Across which direction, rad.
   */
  direction_rad: number;
  /**
   * How deep, m from the plug's end.
   */
  station_m: number;
}
/**
 * One diameter of a land.
 */
export interface LandDiameter {
  /**
   * Diameter, m.
   */
  diameter_m: number;
  /**
   * Across which direction, rad.
   */
  direction_rad: number;
  /**
   * The land's name in the profile.
   */
  land: string;
}
/**
 * The spring measured.
 */
export interface SpringCheck {
  /**
   * Free length, m.
   */
  free_length_m?: number | null;
  /**
   * Height at the regulating position (the supply just closed), m; without it no load there can
   * be told.
   */
  height_regulating_m?: number | null;
  /**
   * Loads at heights.
   */
  loads?: SpringLoad[];
  /**
   * What it was measured with.
   */
  tester?: string | null;
}
/**
 * One load at one height.
 */
export interface SpringLoad {
  /**
   * Compressed height, m.
   */
  height_m: number;
  /**
   * Load, N.
   */
  load_n: number;
}
/**
 * The bore of the balance orifice, by pin gauges.
 */
export interface OrificeBore {
  /**
   * The largest pin that goes, m; none: not even the smallest one tried.
   */
  go_m?: number | null;
  /**
   * The smallest pin that doesn't, m; none: the largest one tried went.
   */
  no_go_m?: number | null;
  /**
   * The set of pins.
   */
  pins?: string | null;
}
/**
 * End plug and its seal.
 */
export interface EndPlug {
  plug: Condition;
  /**
   * Its seal; none: it has none.
   */
  seal?: Condition | null;
}
/**
 * Flatness of a face, by straightedge and feeler gauge.
 */
export interface Flatness {
  /**
   * Which face.
   */
  face: string;
  /**
   * The widest gap found, m.
   */
  gap_m: number;
  /**
   * The widest that the service information allows, m.
   */
  limit_m?: number | null;
  /**
   * Who says so.
   */
  source?: string;
}
/**
 * Separator plate and check balls.
 */
export interface PlateAndBalls {
  /**
   * How many were there.
   */
  balls_found?: number | null;
  /**
   * How many balls the service information shows.
   */
  balls_shown?: number | null;
  plate: Condition;
  seats: Condition;
}
/**
 * From one passage to the next: porous or cracked castings, a plate that doesn't seal.
 */
export interface CrossPassages {
  /**
   * Which passages.
   */
  between: string;
  hold: Hold;
  /**
   * Vacuum that it held, Pa below ambient, where the stand was used.
   */
  vacuum_pa?: number | null;
  /**
   * For how long it was watched, s.
   */
  watched_s?: number | null;
}
/**
 * Screens ahead of valves and solenoids.
 */
export interface FeedScreens {
  state: ScreenState;
}
/**
 * A solenoid on the bench.
 */
export interface SolenoidCheck {
  /**
   * Most, ohm.
   */
  high_ohm?: number | null;
  /**
   * At which coil temperature these hold, K.
   */
  limits_at_k?: number | null;
  /**
   * Least resistance that the service information allows, ohm.
   */
  low_ohm?: number | null;
  /**
   * What the resistance was measured with.
   */
  ohmmeter?: string | null;
  /**
   * Resistance as read, ohm.
   */
  resistance_ohm?: number | null;
  /**
   * Whether it shuts tight with no current, by air or vacuum.
   */
  shut?: Hold | null;
  /**
   * Which one, in the shop's words.
   */
  solenoid: string;
  /**
   * Who says so.
   */
  source?: string;
  /**
   * Whether it passes and shuts off as it is switched.
   */
  switches?: boolean | null;
  /**
   * Temperature of the coil then, K.
   */
  temperature_k?: number | null;
  /**
   * For how long that was watched, s.
   */
  watched_s?: number | null;
}
/**
 * A clutch held by air at the case.
 */
export interface ClutchAir {
  /**
   * Which clutch, in the shop's words.
   */
  clutch: string;
  /**
   * What limited the air, if a regulator was used.
   */
  gauge?: string | null;
  hold: Hold;
  /**
   * Air pressure used, Pa above ambient.
   */
  pressure_pa?: number | null;
  /**
   * For how long it was watched, s.
   */
  watched_s?: number | null;
}
/**
 * One bore of the unit in the plan.
 */
export interface PlannedBore {
  /**
   * The bore.
   */
  bore: string;
  /**
   * Its checks.
   */
  checks: CheckLine[];
  /**
   * Its circuit's name.
   */
  circuit_name: string;
  /**
   * What its checks say together; none when it is not in the plan.
   */
  conclusion?: Conclusion | null;
  /**
   * False: the unit has it, the plan leaves it out.
   */
  in_plan: boolean;
  /**
   * Its name.
   */
  name: string;
  /**
   * How many solenoids hang on its circuit: the more, the more goes wrong at once.
   */
  solenoids: number;
}
/**
 * One check of the bore.
 */
export interface CheckLine {
  check: CheckName;
  /**
   * True when the bore can't be passed without it.
   */
  decides: boolean;
  /**
   * What it says by itself; none while open.
   */
  outcome?: Outcome | null;
  state: CheckState;
}
/**
 * What a coil of the unit may measure.
 */
export interface CoilOf {
  limits: CoilLimits;
  /**
   * Name of the circuit or of the clutch whose solenoid it is.
   */
  name: string;
}
/**
 * The plan of a job's inspection, where a person changed what the app proposed. Kind
 * `inspection_plan`, on the job's own subject.
 */
export interface InspectionPlan {
  /**
   * Checks of the body and the case that are part of it.
   */
  body?: CheckName[];
  /**
   * The bores to inspect, first one first. Others of the unit are not part of the plan.
   */
  bores: string[];
  /**
   * Checks that are left out on purpose.
   */
  left_out?: LeftOut[];
}
/**
 * A check that is left out.
 */
export interface LeftOut {
  /**
   * Of which bore.
   */
  bore: string;
  check: CheckName;
  /**
   * Why, in the shop's words.
   */
  why?: string;
}
/**
 * Change the plan.
 */
export interface PlanChange {
  /**
   * The job.
   */
  job: string;
  plan: InspectionPlan;
}
/**
 * What came of changing the plan.
 */
export interface PlanChanged {
  /**
   * What is odd, at the fields of the plan.
   */
  findings: Finding[];
  /**
   * True when it is on record.
   */
  saved: boolean;
  view: PlanView;
}
/**
 * Record a check, or say what it would give.
 */
export interface InspectionRecord {
  /**
   * The bore; none: of the body or the case.
   */
  bore?: string | null;
  /**
   * True: say what it would give and what is wrong with it, write nothing.
   */
  dry_run?: boolean;
  found: Found;
  /**
   * The check that this corrects; none: a new one.
   */
  inspection?: string | null;
  /**
   * The job.
   */
  job: string;
  /**
   * Anything worth keeping.
   */
  note?: string;
  occasion: Occasion;
}
/**
 * What came of recording a check.
 */
export interface InspectionRecorded {
  /**
   * The card of its bore with it; none for a check of the body.
   */
  card?: BoreCard | null;
  /**
   * What is odd, at the fields of `found`.
   */
  findings: Finding[];
  /**
   * Its subject, once it is on record.
   */
  inspection?: string | null;
  outcome: Outcome;
  /**
   * True when it is on record.
   */
  saved: boolean;
}
/**
 * What all checks of a bore say together.
 */
export interface BoreCard {
  /**
   * Where the checks agree, and where they don't.
   */
  accord: Accord[];
  /**
   * What was assumed.
   */
  assumptions: Assumed[];
  /**
   * Every check of a bore: done, left out, or open.
   */
  checks: CheckLine[];
  /**
   * From what its clearance was taken.
   */
  clearance_from?: GapSource | null;
  /**
   * What that does to each clutch of the circuit; empty while no pressure is known.
   */
  clutches: ClutchEffect[];
  conclusion: Conclusion;
  /**
   * What the bore does as it was measured; none while no clearance is known.
   */
  consequence?: ConsequenceAnswer | null;
  /**
   * What is odd about the checks, at `check.field`.
   */
  findings: Finding[];
  measured: MeasuredParts;
  /**
   * What to do next, first one first.
   */
  next: NextStep[];
  /**
   * What would settle it, the best first; empty when nothing is unsettled.
   */
  settle: Settle[];
}
/**
 * A reading at a tap beside what is predicted there.
 */
export interface TapBeside {
  /**
   * How far that may be off, gauges of tap and line together (95 %), Pa.
   */
  expanded_uncertainty_pa: number;
  /**
   * Line pressure at that moment, Pa.
   */
  line_pa: number;
  /**
   * The tap's name.
   */
  name: string;
  /**
   * Temperature of the oil, K.
   */
  oil_temperature_k: number;
  predicted_pa: Span;
  /**
   * As read, Pa.
   */
  read_pa: number;
  /**
   * True when the spring's load was measured, so that another cause comes first.
   */
  spring_measured: boolean;
}
/**
 * What the bore does to one clutch.
 */
export interface ClutchEffect {
  /**
   * At the highest line pressure.
   */
  highest_line?: ClutchAt | null;
  /**
   * At hot idle; none where a figure that it needs is missing, the new valve doesn't regulate, or
   * a figure lies outside what the laws hold for.
   */
  idle?: ClutchAt | null;
  /**
   * Fields of the clutch that nobody entered, and that cost one of these or the torque.
   */
  lacks: string[];
  /**
   * Its name.
   */
  name: string;
  /**
   * How its solenoid makes its pressure; none: nobody entered that.
   */
  solenoid_kind?: SolenoidKind | null;
}
/**
 * A clutch at one line pressure.
 */
export interface ClutchAt {
  /**
   * Its pressure with the bore as new, Pa.
   */
  before_pa: number;
  /**
   * True where the solenoid is told to give nearly all the feed, so that its output may follow
   * the feed whatever its kind.
   */
  near_feed: boolean;
  shift_pa: Span;
  /**
   * What that does to its torque; none where a dimension is missing.
   */
  torque?: ClutchTorque | null;
}
/**
 * The torque that a clutch loses (less than zero) or gains.
 */
export interface ClutchTorque {
  /**
   * What it holds with the bore as new, N m.
   */
  before_n_m: number;
  change_n_m: Span;
  /**
   * The same as a part of that before; none where it held nothing.
   */
  share?: Span | null;
}
/**
 * What the checks of a bore measured.
 */
export interface MeasuredParts {
  /**
   * Clearance by diameters, on the land where it is widest; none: not measured on both.
   */
  clearance?: MeasuredClearance | null;
  /**
   * Friction as measured, N.
   */
  friction_n?: number | null;
  /**
   * Clearance on every land that was measured, by name.
   */
  lands: MeasuredClearance[];
  /**
   * How the valve moves; none: not tried.
   */
  movement?: Movement | null;
  /**
   * The balance orifice; none: not measured.
   */
  orifice?: MeasuredOrifice | null;
  /**
   * The spring; none: not measured, or not where it regulates.
   */
  spring?: MeasuredSpring | null;
}
/**
 * Clearance by diameters.
 */
export interface MeasuredClearance {
  bore_m: Span;
  diametral_m: Span;
  /**
   * The land.
   */
  land: string;
  land_m: Span;
  /**
   * From the smallest bore and the largest land reading, m.
   */
  least_m: number;
  /**
   * From the largest bore and the smallest land reading, m.
   */
  most_m: number;
  /**
   * Largest difference between directions at one station of the bore, m; none with one
   * direction.
   */
  out_of_round_m?: number | null;
  /**
   * Change of the bore's diameter from the first to the last station, m; none with one station.
   */
  taper_m?: number | null;
}
/**
 * The balance orifice by pins.
 */
export interface MeasuredOrifice {
  diameter_m: Span;
  /**
   * As the profile has it, m; none: it has none.
   */
  profile_m?: number | null;
}
/**
 * The spring measured.
 */
export interface MeasuredSpring {
  holds_pa: Span;
  load_n: Span;
  /**
   * Load as new less load as measured, N; none: the profile lacks the load as new.
   */
  lost_n?: number | null;
  /**
   * True when the rate was measured; false: the profile's.
   */
  rate_measured: boolean;
  /**
   * Rate that was used, N/m.
   */
  rate_n_per_m: number;
  /**
   * True when the tester's limits of error are on record; false: usual ones were taken.
   */
  tester_known: boolean;
}
/**
 * Take a check off the record: it stays in the journal, struck out.
 */
export interface InspectionStrike {
  /**
   * The check.
   */
  inspection: string;
}
/**
 * Ask for the card of a bore.
 */
export interface CardGet {
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
 * Everything about a bore in a job.
 */
export interface CardView {
  /**
   * The bore.
   */
  bore: string;
  /**
   * Its name.
   */
  bore_name: string;
  card: BoreCard;
  /**
   * Its circuit's name.
   */
  circuit_name: string;
  drawing: BoreDrawing;
  /**
   * The checks on record, oldest first.
   */
  entries: InspectionEntry[];
  /**
   * The job's hazards.
   */
  hazards: HazardState[];
  /**
   * Instruments that it can be measured with.
   */
  instruments: InstrumentEntry[];
  /**
   * The job.
   */
  job: string;
  /**
   * Its number.
   */
  job_number: string;
  /**
   * Names of its lands, left to right.
   */
  lands: string[];
  /**
   * Its checks that were left out on purpose, with the reasons.
   */
  left_out: LeftOut[];
  occasion: Occasion;
  /**
   * Its test points.
   */
  test_points: CardTestPoint[];
  /**
   * Its vacuum tests in this job, oldest first, with the test point's name.
   */
  tests: CardTest[];
  undo: UndoState;
}
/**
 * A test point of the bore.
 */
export interface CardTestPoint {
  /**
   * Its name.
   */
  name: string;
  /**
   * The test point.
   */
  test_point: string;
}
/**
 * A vacuum test of the bore.
 */
export interface CardTest {
  /**
   * True when the card is made from it: the last one of its test point since the last repair.
   */
  counts: boolean;
  test: TestEntry;
  /**
   * The test point's name.
   */
  test_point_name: string;
}
/**
 * Ask for a bore to try out.
 */
export interface ExploreStart {
  /**
   * The bore.
   */
  bore: string;
  /**
   * The job in which it was found; none: as the profile has it.
   */
  job?: string | null;
}
/**
 * A bore as it was found, with all that [`ExploreArgs`] ask for.
 */
export interface ExploreView {
  /**
   * The bore.
   */
  bore: string;
  /**
   * Its name.
   */
  bore_name: string;
  /**
   * Its circuit.
   */
  circuit_name: string;
  /**
   * What can be set, in order.
   */
  figures: ExploreFigure[];
  /**
   * True when the valve has an exhaust to shut off.
   */
  has_exhaust: boolean;
  /**
   * The job's number, of one in which it was found.
   */
  job_number?: string | null;
  /**
   * Settings that somebody keeps, oldest first.
   */
  kept: KeptSetting[];
  profile: BoreProfile;
  /**
   * The relief that is to be added, by the job's check, where the unit has none.
   */
  relief?: Relief | null;
  /**
   * What a test or the diameters say of its seals; none: they count as new.
   */
  seals?: SealsFound | null;
  undo: UndoState;
  /**
   * Its unit.
   */
  unit_name: string;
}
/**
 * A figure that can be set.
 */
export interface ExploreFigure {
  field: ExploreField;
  /**
   * To where.
   */
  high: number;
  /**
   * From where it is worth trying.
   */
  low: number;
  /**
   * Where it stands.
   */
  now: number;
}
/**
 * A setting on record.
 */
export interface KeptSetting {
  by: ReadBy;
  /**
   * What it shows.
   */
  note: string;
  setting: Setting;
  /**
   * The record's subject.
   */
  what_if: string;
}
/**
 * What is set; each figure that isn't stays as it was measured, or as the profile has it.
 */
export interface Setting {
  /**
   * Clearance of all lands on the diameter at 20 °C, m.
   */
  clearance_m?: number | null;
  /**
   * What the solenoids take at the setpoint, hot, m³/s.
   */
  demand_m3_s?: number | null;
  /**
   * False: the exhaust, where the valve has one, is shut off.
   */
  exhaust?: boolean | null;
  /**
   * Sliding friction of the spool, N.
   */
  friction_n?: number | null;
  /**
   * Line pressure that the spool is looked at under, Pa.
   */
  line_pa?: number | null;
  /**
   * Temperature of the oil, K.
   */
  oil_temperature_k?: number | null;
  /**
   * Bore of the balance orifice, m.
   */
  orifice_m?: number | null;
  /**
   * False: without the relief; true: with it, the profile's or the one that is to be added.
   */
  relief?: boolean | null;
  /**
   * Spring load at the regulating position, N.
   */
  spring_load_n?: number | null;
  /**
   * Spring rate, N/m.
   */
  spring_rate_n_per_m?: number | null;
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
 * Keep a setting.
 */
export interface WhatIfKeep {
  /**
   * The bore.
   */
  bore: string;
  /**
   * What it shows.
   */
  note?: string;
  setting: Setting;
}
/**
 * What came of keeping it.
 */
export interface WhatIfKept {
  /**
   * What can't be true, at the setting's fields.
   */
  findings: Finding[];
  /**
   * The record's subject; none: something can't be true, and it isn't kept.
   */
  what_if?: string | null;
}
/**
 * Take a kept setting away.
 */
export interface WhatIfRemove {
  /**
   * The record's subject.
   */
  what_if: string;
}
/**
 * Ask for the machining sheet of a bore in a job.
 */
export interface MachiningGet {
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
 * A machining sheet as its page shows it.
 */
export interface MachiningView {
  answer: MachiningAnswer;
  /**
   * The bore.
   */
  bore: string;
  /**
   * Its name.
   */
  bore_name: string;
  /**
   * Who recorded it last; none: not on record.
   */
  by?: ReadBy | null;
  /**
   * The hazards of machining.
   */
  hazards: HazardState[];
  /**
   * The sheet's subject; none: not on record.
   */
  id?: string | null;
  /**
   * Instruments that measure lengths.
   */
  instruments: InstrumentEntry[];
  /**
   * The job.
   */
  job: string;
  /**
   * Its number.
   */
  job_number: string;
  /**
   * What it should do as machined; none while the bore isn't measured.
   */
  machined?: RepairForecast | null;
  planned: RepairForecast;
  sheet: MachiningSheet;
  /**
   * The signature under it; none: not signed, or changed since.
   */
  signed?: MachiningSignOff | null;
  undo: UndoState;
}
/**
 * What a sheet says.
 */
export interface MachiningAnswer {
  /**
   * Each cut, in the sheet's order.
   */
  cuts: CutAnswer[];
  /**
   * How deep the reamer must go from the plug's end, past the last port and land, m.
   */
  depth_needed_m?: number | null;
  /**
   * What is odd, at the sheet's fields.
   */
  findings: Finding[];
  /**
   * Limits of the finished bore; none: neither limits nor a class say them.
   */
  finished?: SizeLimits | null;
  /**
   * The repair as it was machined; none while the bore that the valve runs in isn't measured.
   */
  machined?: RepairWork | null;
  /**
   * Each measurement, in the sheet's order.
   */
  measurements: MeasurementAnswer[];
  open: MachiningSignOff;
  pilot: PilotAnswer;
  planned: RepairWork;
  /**
   * The ports, from the plug's end: where the sleeve's openings must stand.
   */
  ports: PortPlace[];
  /**
   * Gap of the sleeve on the diameter by its limits; below zero it is a press fit.
   */
  seat?: SeatAnswer | null;
  /**
   * The sleeve's own wall at its thinnest, m.
   */
  sleeve_wall_m?: number | null;
  /**
   * The steps in their order.
   */
  steps: StepAnswer[];
  stock: StockLimits;
  /**
   * Clearance of the valve on the diameter by the limits, m.
   */
  valve_clearance_m?: Interval | null;
  /**
   * Metal left around the bore at its largest, m.
   */
  wall_left_m?: number | null;
}
/**
 * What a cut takes off.
 */
export interface CutAnswer {
  /**
   * Diameter before it, m: as measured after the cut before, else as that is to leave it; none:
   * not known.
   */
  before_m?: number | null;
  /**
   * What it takes off the worn bore where that is largest, at the reamer's least size, m; zero
   * or less: it leaves worn places untouched. None: not known.
   */
  cleans_up_by_m?: number | null;
  /**
   * What it takes off that diameter, m; where the bore was smallest for the first cut.
   */
  stock_m?: number | null;
}
/**
 * Limits of a size.
 */
export interface SizeLimits {
  /**
   * The class of ISO 286 that has these limits, with its nominal size; none: no class does.
   */
  class?: IsoClass | null;
  /**
   * Largest, m.
   */
  high_m: number;
  /**
   * Smallest, m.
   */
  low_m: number;
}
/**
 * A class of ISO 286 at a nominal size.
 */
export interface IsoClass {
  /**
   * The class, as it is written.
   */
  name: string;
  /**
   * Nominal size, m.
   */
  nominal_m: number;
}
/**
 * A measurement, judged.
 */
export interface MeasurementAnswer {
  /**
   * At 20 °C, m; none: a figure can't be true.
   */
  at_20c_m?: number | null;
  /**
   * Probability that the size lies within them.
   */
  conformity_probability?: number | null;
  /**
   * Largest size allowed, m.
   */
  high_m?: number | null;
  /**
   * Smallest size allowed, m; none: none is.
   */
  low_m?: number | null;
  /**
   * Standard uncertainty: instrument, step, and what the expansion may be off, m.
   */
  standard_uncertainty_m?: number | null;
  /**
   * What it is to these limits; none without any.
   */
  verdict?: Verdict | null;
}
/**
 * A signature under a sheet: its record says who and when.
 */
export interface MachiningSignOff {
  /**
   * Steps that weren't ticked.
   */
  not_done: MachiningStep[];
  /**
   * What was measured and isn't sure to lie inside its tolerance.
   */
  not_inside: MachinedSize[];
  /**
   * What the sheet asks to be measured and nobody did.
   */
  not_measured: MachinedSize[];
  /**
   * Anything worth keeping.
   */
  note?: string;
}
/**
 * The pilot in the unworn bore.
 */
export interface PilotAnswer {
  /**
   * How far its axis may lie beside the bore's, half the play, m.
   */
  beside_m?: number | null;
  /**
   * True: the unworn bore was measured for this sheet.
   */
  measured: boolean;
  /**
   * Its play on the diameter, m; none: the pilot or the unworn bore isn't known.
   */
  play_m?: Interval | null;
}
/**
 * Two ends.
 */
export interface Interval {
  /**
   * The most.
   */
  high: number;
  /**
   * The least.
   */
  low: number;
}
/**
 * Where a port lies, from the plug's end.
 */
export interface PortPlace {
  /**
   * Its near edge, m.
   */
  from_m: number;
  /**
   * Its name in the profile.
   */
  name: string;
  /**
   * Its far edge, m.
   */
  to_m: number;
}
/**
 * How a sleeve sits by its limits.
 */
export interface SeatAnswer {
  fit: FitAnswer;
  gap_m: Interval;
}
/**
 * A step.
 */
export interface StepAnswer {
  /**
   * Whether it is ticked.
   */
  done: boolean;
  /**
   * What is to be measured at it.
   */
  measures: MachinedSize[];
  step: MachiningStep;
}
/**
 * What a cut may take off the diameter, m.
 */
export interface StockLimits {
  /**
   * The least of a finishing cut.
   */
  least_finish_m: number;
  /**
   * The most of a finishing cut.
   */
  most_finish_m: number;
  /**
   * The most of a roughing cut.
   */
  most_rough_m: number;
  /**
   * True: at least one of them is the usual one, common practice without a source.
   */
  usual: boolean;
}
/**
 * A machining sheet. Sizes are at 20 °C; each may be missing, which the answer says.
 */
export interface MachiningSheet {
  /**
   * In which order the bolts are tightened, by the service information.
   */
  bolt_sequence?: string;
  /**
   * Which service information that is.
   */
  bolt_source?: string;
  /**
   * Their torque by the service information, N·m.
   */
  bolt_torque_nm?: number | null;
  /**
   * The cuts, in their order.
   */
  cuts?: Cut[];
  /**
   * How deep the reamer goes, from the plug's end, m.
   */
  depth_m?: number | null;
  /**
   * Steps that are done.
   */
  done?: MachiningStep[];
  /**
   * Its class of ISO 286, such as H7; empty: none is said.
   */
  finished_class?: string;
  /**
   * Largest size of it, m; none: that of the class.
   */
  finished_high_m?: number | null;
  /**
   * Smallest size of the finished bore, m; none: that of the class.
   */
  finished_low_m?: number | null;
  /**
   * Nominal size of the finished bore, for its class, m.
   */
  finished_nominal_m?: number | null;
  /**
   * The least that it takes off, m.
   */
  least_finish_stock_m?: number | null;
  /**
   * The least that must be left of it, m.
   */
  least_wall_m?: number | null;
  /**
   * Who says so.
   */
  least_wall_source?: string;
  /**
   * What was measured, in the order in which it was.
   */
  measurements?: MachiningMeasurement[];
  /**
   * The most that a finishing cut takes off the diameter, m.
   */
  most_finish_stock_m?: number | null;
  /**
   * The most play on the diameter that the pilot may have, m.
   */
  most_pilot_play_m?: number | null;
  /**
   * The most that a roughing cut takes off the diameter, m; none: a usual figure is taken.
   */
  most_rough_stock_m?: number | null;
  /**
   * Anything worth keeping.
   */
  notes?: string;
  /**
   * Pilot, m.
   */
  pilot_m?: number | null;
  /**
   * Who says so.
   */
  pilot_source?: string;
  /**
   * How far that may be off either way, m.
   */
  pilot_tolerance_m?: number | null;
  /**
   * The repair that the sheet belongs to, as planned: its parts, valve and spring.
   */
  planned?: RepairWork | null;
  /**
   * End plug and clip: which, how they go in.
   */
  plug?: string;
  /**
   * How it is to sit.
   */
  seat?: SeatFit | null;
  /**
   * Its inner diameter in place, m.
   */
  sleeve_inner_m?: number | null;
  /**
   * How far that may be off either way, m.
   */
  sleeve_inner_tolerance_m?: number | null;
  /**
   * Its length, m.
   */
  sleeve_length_m?: number | null;
  /**
   * What it is made of; none: as the body.
   */
  sleeve_material?: Material | null;
  /**
   * The sleeve's outer diameter, m.
   */
  sleeve_outer_m?: number | null;
  /**
   * How far that may be off either way, m.
   */
  sleeve_outer_tolerance_m?: number | null;
  /**
   * Where it is largest, m.
   */
  start_largest_m?: number | null;
  /**
   * The worn bore where it is smallest, m.
   */
  start_smallest_m?: number | null;
  /**
   * Who says so.
   */
  stock_source?: string;
  /**
   * The unworn part of the bore that guides the pilot, m.
   */
  unworn_m?: number | null;
  /**
   * The valve's reaction land, m.
   */
  valve_m?: number | null;
  /**
   * How far that may be off either way, m.
   */
  valve_tolerance_m?: number | null;
  /**
   * Thinnest metal between the bore as new and the next passage or face, m.
   */
  wall_m?: number | null;
  way?: MachiningWay;
}
/**
 * One cut of a reamer.
 */
export interface Cut {
  /**
   * Diameter that it leaves at 20 °C, m.
   */
  diameter_m: number;
  /**
   * True: it finishes; false: it roughs.
   */
  finishing?: boolean;
  /**
   * The reamer, in the shop's words.
   */
  reamer?: string;
  /**
   * How far that may be off either way, m.
   */
  tolerance_m: number;
}
/**
 * One measurement on the way.
 */
export interface MachiningMeasurement {
  /**
   * After which cut, from 0: of [`MachinedSize::AfterCut`].
   */
  cut?: number | null;
  /**
   * What it was measured with.
   */
  instrument?: string | null;
  /**
   * As it was read, m.
   */
  read_m: number;
  size: MachinedSize;
  /**
   * Temperature of the part, K; none: taken as 20 °C.
   */
  temperature_k?: number | null;
}
/**
 * Ask for a sheet filled in from a repair option. Nothing is written.
 */
export interface MachiningPropose {
  /**
   * The bore.
   */
  bore: string;
  figures?: PlanFigures;
  /**
   * The job.
   */
  job: string;
  way: MachiningWay;
}
/**
 * Record a machining sheet, or say what it would give. A signature under it lapses.
 */
export interface MachiningRecord {
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
  sheet: MachiningSheet;
}
/**
 * What came of recording or signing a sheet.
 */
export interface MachiningRecorded {
  /**
   * True when it is on record.
   */
  saved: boolean;
  view: MachiningView;
}
/**
 * Sign the sheet on record, with what isn't as it asks.
 */
export interface MachiningSign {
  /**
   * The bore.
   */
  bore: string;
  /**
   * The job.
   */
  job: string;
  /**
   * Anything worth keeping.
   */
  note?: string;
}
/**
 * The shop's instruments and stands.
 */
export interface InstrumentList {
  /**
   * Instruments, by name.
   */
  instruments: InstrumentOnRecord[];
  /**
   * Stands, by name.
   */
  stands: StandOnRecord[];
  /**
   * The day by which "overdue" is told.
   */
  today: string;
  undo: UndoState;
}
/**
 * An instrument on record.
 */
export interface InstrumentOnRecord {
  by: ReadBy;
  /**
   * What is odd about it.
   */
  findings: Finding[];
  /**
   * Its subject.
   */
  id: string;
  instrument: Instrument;
  /**
   * True when its calibration is overdue.
   */
  overdue: boolean;
}
/**
 * A stand on record.
 */
export interface StandOnRecord {
  by: ReadBy;
  /**
   * What is odd about it.
   */
  findings: Finding[];
  /**
   * Its gauge's name; empty when that isn't on record.
   */
  gauge_name: string;
  /**
   * Its subject.
   */
  id: string;
  stand: Stand;
}
/**
 * Record an instrument, or say what is odd about it.
 */
export interface InstrumentRecord {
  /**
   * True: only say what is odd.
   */
  dry_run?: boolean;
  /**
   * The one that this changes; none: a new one.
   */
  id?: string | null;
  instrument: Instrument;
}
/**
 * What came of recording an instrument or a stand.
 */
export interface InstrumentRecorded {
  /**
   * What is odd, at its fields.
   */
  findings: Finding[];
  /**
   * Its subject, once it is on record.
   */
  id?: string | null;
  /**
   * True when it is on record.
   */
  saved: boolean;
}
/**
 * Record a stand, or say what is odd about it.
 */
export interface StandRecord {
  /**
   * True: only say what is odd.
   */
  dry_run?: boolean;
  /**
   * The one that this changes; none: a new one.
   */
  id?: string | null;
  stand: Stand;
}
/**
 * Write a job's report.
 */
export interface ReportWrite {
  format?: ReportFormat;
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
  version?: ReportVersion;
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
 * Ask for the history of a bore.
 */
export interface BoreHistoryGet {
  /**
   * The bore, as its unit's profile names it.
   */
  bore: string;
  /**
   * The job whose vehicle is told apart from others; none: all are told together.
   */
  job?: string | null;
  /**
   * How many tests of other vehicles at most, the newest of them; a hundred if absent.
   */
  most?: number | null;
}
/**
 * The history of a bore, oldest first in each group.
 */
export interface BoreHistory {
  /**
   * The bore's name.
   */
  bore_name: string;
  /**
   * The number of the job that was asked about.
   */
  job_number?: string | null;
  known_by: VehicleKnownBy;
  /**
   * Older tests of other units that are not in the list.
   */
  left_out: number;
  /**
   * Of other units of the same profile.
   */
  others: BoreEvent[];
  /**
   * Of the vehicle of the job that was asked about.
   */
  this_vehicle: BoreEvent[];
  /**
   * The unit's name.
   */
  unit_name: string;
}
/**
 * Something that happened to a bore.
 */
export interface BoreEvent {
  /**
   * When, by that device's clock.
   */
  at: string;
  /**
   * Who.
   */
  by: string;
  /**
   * The job.
   */
  job: string;
  /**
   * Its number.
   */
  job_number: string;
  /**
   * Its vehicle.
   */
  vehicle: string;
  what: BoreHappening;
}
/**
 * A vacuum test in a bore's history. The reading is as it was read: it isn't carried to another
 * day's air, since that needs the law of the leak, which a reading doesn't tell. Each day's limit
 * stands beside it.
 */
export interface BoreTested {
  /**
   * True when that was taken from the altitude, not read.
   */
  barometer_from_altitude: boolean;
  /**
   * The air that day, Pa.
   */
  barometer_pa?: number | null;
  /**
   * True when the verdict and the limit are those that were put on record.
   */
  decided: boolean;
  /**
   * Its uncertainty expanded to 95 %, gauge and repeats, Pa.
   */
  expanded_uncertainty_pa?: number | null;
  /**
   * The limit carried to that air, Pa below ambient.
   */
  limit_vacuum_pa?: number | null;
  /**
   * Their mean, Pa below ambient; none: no reading that can be true.
   */
  mean_vacuum_pa?: number | null;
  /**
   * Readings that count as repeats.
   */
  readings: number;
  /**
   * The stand's name; none: a stand that nobody entered.
   */
  stand?: string | null;
  /**
   * The test.
   */
  test: string;
  /**
   * The test point's name.
   */
  test_point: string;
  /**
   * The decision on record, else what the reading gives now.
   */
  verdict?: Verdict | null;
}
/**
 * Ask what is held about a job's customer.
 */
export interface CustomerHeldGet {
  /**
   * The job.
   */
  job: string;
}
/**
 * What is held about a customer.
 */
export interface CustomerHeld {
  /**
   * The job that was asked about first, then others that look like the same customer's, oldest
   * first. A person says which are.
   */
  jobs: HeldJob[];
}
/**
 * What one job holds.
 */
export interface HeldJob {
  /**
   * What was ever written down of what was agreed to, the latest first. It goes with the
   * customer's name.
   */
  authorisations: Authorisation[];
  /**
   * The complaint; none: nothing is held.
   */
  complaint?: HeldText | null;
  /**
   * Records that hold these.
   */
  customer_records: number;
  /**
   * What was ever written down of the customer, replaced entries too, the latest first.
   */
  customers: Customer[];
  /**
   * Words of tests, repairs and photos of the work that name the customer. They stay, since they
   * are part of what was measured and done.
   */
  elsewhere: HeldElsewhere[];
  /**
   * The job.
   */
  job: string;
  /**
   * The notes; none: nothing is held.
   */
  notes?: HeldText | null;
  /**
   * Its number.
   */
  number: string;
  /**
   * Day opened.
   */
  opened_on: string;
  /**
   * Photos of the job, its tests and its repairs that may show a person or a plate, oldest first.
   * They go with the customer's name.
   */
  photos: HeldPhoto[];
  /**
   * Why it is listed; empty for the job that was asked about.
   */
  same_by: SameBy[];
  /**
   * The vehicle.
   */
  vehicle: string;
}
/**
 * An authorisation. Kind `job.authorisation`: personal.
 */
export interface Authorisation {
  /**
   * The currency of that.
   */
  currency: string;
  /**
   * Its decimals.
   */
  decimals: number;
  /**
   * The record of the estimate that was agreed to.
   */
  estimate: string;
  /**
   * When, as whoever wrote it down says.
   */
  given_at: string;
  how: AuthorisedHow;
  /**
   * Anything worth keeping.
   */
  note?: string;
  /**
   * Up to what amount, smallest units.
   */
  up_to_minor: number;
  /**
   * Who agreed.
   */
  who: string;
}
/**
 * Words that may be about a customer.
 */
export interface HeldText {
  /**
   * True when any of them name the customer.
   */
  names_customer: boolean;
  /**
   * Records that hold these and earlier ones.
   */
  records: number;
  /**
   * As they stand; empty: only earlier ones are held.
   */
  text: string;
}
/**
 * Words that stay.
 */
export interface HeldElsewhere {
  /**
   * The kind of their record.
   */
  kind: string;
  /**
   * They.
   */
  text: string;
}
/**
 * A photo that may show a person.
 */
export interface HeldPhoto {
  /**
   * Its caption; empty: none.
   */
  caption: string;
  /**
   * The photo.
   */
  photo: string;
  /**
   * Records that hold it and its captions.
   */
  records: number;
  /**
   * True when it was removed; it is kept for undo.
   */
  removed: boolean;
  /**
   * When it was taken.
   */
  taken_at: string;
}
/**
 * Erase what is held about a customer, or say what that would take.
 */
export interface CustomerErase {
  /**
   * True: change nothing.
   */
  dry_run?: boolean;
  /**
   * The jobs that are this customer's.
   */
  jobs: EraseJob[];
}
/**
 * What of one job. The customer's name, telephone and plate go in any case, and the photos that may
 * show a person.
 */
export interface EraseJob {
  /**
   * The complaint goes too.
   */
  complaint?: boolean;
  /**
   * The job.
   */
  job: string;
  /**
   * The notes go too.
   */
  notes?: boolean;
}
/**
 * What was erased, or would be.
 */
export interface CustomerErased {
  /**
   * Half-typed entries that went.
   */
  drafts: number;
  /**
   * The record of it; none: nothing was changed.
   */
  erasure?: string | null;
  /**
   * Records that lose their content, by kind.
   */
  goes: GoesOfKind[];
  /**
   * Copies on this device from before this or an earlier erasure.
   */
  older: OlderCopy[];
  /**
   * Where it was looked for afterwards.
   */
  proof?: Proof | null;
}
/**
 * Records of one kind.
 */
export interface GoesOfKind {
  /**
   * The kind.
   */
  kind: string;
  /**
   * How many.
   */
  records: number;
}
/**
 * A copy from before an erasure.
 */
export interface OlderCopy {
  /**
   * Its size.
   */
  bytes: number;
  /**
   * When it was made, by this device's clock.
   */
  made_at: string;
  /**
   * Its file's name.
   */
  name: string;
  reason: BackupReason;
}
/**
 * Whether texts are still found, byte by byte.
 */
export interface Proof {
  /**
   * Files of erased photos that were here and are no longer.
   */
  pictures_gone: number;
  /**
   * Files of erased photos that are still here: another photo has the same picture, or another
   * program hindered it, and it is done at the next start.
   */
  pictures_left: number;
  /**
   * What was looked through.
   */
  places: ProofPlace[];
  /**
   * True once the shop's file was written anew and its log emptied. False: another program has
   * it open; this is done at the next start.
   */
  rewritten: boolean;
  /**
   * Records here that still say one of the texts.
   */
  still_said: StillSaid[];
  /**
   * Texts that were looked for.
   */
  texts: number;
  /**
   * Texts that are too short to be looked for: they are met by chance.
   */
  too_short: number;
}
/**
 * One thing that was looked through.
 */
export interface ProofPlace {
  /**
   * Bytes.
   */
  bytes: number;
  /**
   * True when a text is in it.
   */
  found: boolean;
  /**
   * Its file's name; empty for a bundle.
   */
  name: string;
  place: PlaceKind;
}
/**
 * A record that still says one of the texts.
 */
export interface StillSaid {
  /**
   * The number of its job, if it is part of one.
   */
  job?: string | null;
  /**
   * Its kind.
   */
  kind: string;
}
/**
 * The erasures known here, the latest first.
 */
export interface ErasureList {
  /**
   * They.
   */
  erasures: ErasureEntry[];
  /**
   * Copies on this device from before an erasure.
   */
  older: OlderCopy[];
  /**
   * True while bytes of something that was erased may still lie in the shop's file.
   */
  pending: boolean;
}
/**
 * One erasure.
 */
export interface ErasureEntry {
  by: ReadBy;
  /**
   * The record of it.
   */
  erasure: string;
  /**
   * The jobs that it is about.
   */
  jobs: ErasedJob[];
  /**
   * True when it was done on this device.
   */
  own: boolean;
  /**
   * Photos that it is about.
   */
  photos: number;
  /**
   * Records that lost their content where it was done.
   */
  records: number;
}
/**
 * A job of which something was erased.
 */
export interface ErasedJob {
  /**
   * The job.
   */
  job: string;
  /**
   * The kinds that were erased.
   */
  kinds: string[];
  /**
   * Its number; empty: it isn't here.
   */
  number: string;
}
/**
 * Look whether texts are found on this device. They are not kept.
 */
export interface ErasureLook {
  /**
   * The texts.
   */
  texts: string[];
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
   * True when it can be taken back by itself.
   */
  can_take_back: boolean;
  /**
   * Fingerprint of the device.
   */
  device: string;
  /**
   * True when its body was erased.
   */
  erased: boolean;
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
 * Ask for a check of the store.
 */
export interface StoreCheckGet {
  /**
   * True: the file's structure alone, without hashes, signatures and a replay of the journal.
   */
  quick?: boolean;
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
  pictures: PictureCheck;
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
 * What the check of the photos' files found. Of these the missing and the damaged are problems.
 */
export interface PictureCheck {
  /**
   * Are here with other content.
   */
  damaged: number;
  /**
   * Were here and aren't any more.
   */
  missing: number;
  /**
   * Came from elsewhere without their file.
   */
  not_passed_on: number;
  /**
   * Files that no record names. They go by themselves.
   */
  stray: number;
}
/**
 * The backups of the store, newest first. Answered also when the store can't be opened.
 */
export interface BackupList {
  /**
   * The backups.
   */
  backups: BackupEntry[];
  /**
   * The folder that they are in.
   */
  folder: string;
  /**
   * Why the last one that was due could not be made.
   */
  problem?: ApiError | null;
}
/**
 * One backup.
 */
export interface BackupEntry {
  /**
   * Its size.
   */
  bytes: number;
  /**
   * What it holds; none: it can't be read.
   */
  holds?: BackupHolds | null;
  /**
   * When it was made, by this device's clock.
   */
  made_at: string;
  /**
   * Its file's name, which names it.
   */
  name: string;
  reason: BackupReason;
}
/**
 * What a backup holds.
 */
export interface BackupHolds {
  /**
   * Jobs.
   */
  jobs: number;
  /**
   * When its last change was made.
   */
  last_change?: string | null;
  /**
   * Records in its journal.
   */
  records: number;
}
/**
 * Delete backups or files put aside.
 */
export interface BackupDrop {
  /**
   * True: a new backup is made and checked first, and nothing is deleted if that fails.
   */
  fresh?: boolean;
  /**
   * Their names.
   */
  names: string[];
}
/**
 * What was deleted.
 */
export interface BackupDropped {
  /**
   * Their bytes.
   */
  bytes: number;
  /**
   * How many were deleted.
   */
  dropped: number;
  /**
   * The backup made first.
   */
  made?: BackupEntry | null;
}
/**
 * Name one backup.
 */
export interface BackupName {
  /**
   * Its name, as the list gives it.
   */
  name: string;
}
/**
 * A backup is the store now.
 */
export interface StoreRestored {
  /**
   * The backup that the store before it is now; none if there was none.
   */
  aside?: string | null;
  /**
   * Contents in the backup that had been erased since, and were erased again.
   */
  erased: number;
  /**
   * Records in the store now.
   */
  records: number;
}
/**
 * What a repair saved and what it could not.
 */
export interface StoreRepaired {
  /**
   * The backup that the damaged store is now.
   */
  aside?: string | null;
  /**
   * Drafts saved.
   */
  drafts: number;
  /**
   * What could not be saved.
   */
  lost: StoreLoss[];
  /**
   * Records saved.
   */
  records: number;
  /**
   * Rows of any table, also of those that were made anew, that could not be read.
   */
  unreadable_rows: number;
}
/**
 * Something that a repair could not save.
 */
export interface StoreLoss {
  /**
   * How many of them.
   */
  count: number;
  /**
   * The number of the job that it belongs to, if that can still be told.
   */
  job?: string | null;
  /**
   * What kind of record, if that can still be told.
   */
  kind?: string | null;
  reason: LossReason;
}
/**
 * Ask for the taps of a job's unit with what was read there.
 */
export interface TapsGet {
  /**
   * The job.
   */
  job: string;
}
/**
 * The taps of a job's unit.
 */
export interface TapsView {
  /**
   * The hazards of feeding a circuit on the bench.
   */
  bench_hazards: HazardState[];
  /**
   * The hazards of reading pressure in the car.
   */
  car_hazards: HazardState[];
  /**
   * Pressure gauges of the shop.
   */
  instruments: InstrumentEntry[];
  /**
   * The job.
   */
  job: string;
  /**
   * Its number.
   */
  job_number: string;
  occasion: Occasion;
  /**
   * Its taps, circuit by circuit, and those that were read and are no longer in the profile.
   */
  taps: TapState[];
  undo: UndoState;
  /**
   * The unit.
   */
  unit: string;
  /**
   * The unit's name.
   */
  unit_name: string;
}
/**
 * A tap within a job.
 */
export interface TapState {
  /**
   * What the profile says of it; none: it is no longer there.
   */
  body?: Tap | null;
  /**
   * Its circuit's name.
   */
  circuit_name: string;
  /**
   * What was read, oldest first.
   */
  readings: TapEntry[];
  /**
   * The tap.
   */
  tap: string;
}
/**
 * A reading on record.
 */
export interface TapEntry {
  /**
   * What it says of its window; none: the tap is no longer in the profile.
   */
  answer?: TapAnswer | null;
  /**
   * What a bore's leak says of it: of the last reading of a tap only, and where the model can.
   */
  beside?: TapBesideBore | null;
  by: ReadBy;
  figures: TapFigures;
  /**
   * The record.
   */
  record: string;
}
/**
 * What a reading says of its tap's window.
 */
export interface TapAnswer {
  /**
   * Expanded to 95 %, Pa.
   */
  expanded_uncertainty_pa: number;
  /**
   * What is odd, at the fields of the reading.
   */
  findings: Finding[];
  /**
   * Where it comes from, largest first.
   */
  shares: PressureShare[];
  /**
   * Standard uncertainty of the reading, Pa.
   */
  standard_uncertainty_pa: number;
  /**
   * Inside its window, outside, or too close to call; none: the profile has no window there.
   */
  verdict?: Verdict | null;
  /**
   * Probability that the true pressure lies inside.
   */
  within_probability?: number | null;
}
/**
 * A share of an uncertainty.
 */
export interface PressureShare {
  /**
   * Its share of the variance, 0 to 1.
   */
  share: number;
  source: PressureSource;
}
/**
 * A reading beside what a bore of its circuit is predicted to hold.
 */
export interface TapBesideBore {
  /**
   * The bore.
   */
  bore: string;
  /**
   * Its name.
   */
  bore_name: string;
  /**
   * How far the reading may be off, line's gauge included (95 %), Pa.
   */
  expanded_uncertainty_pa: number;
  predicted_pa: Span;
  verdict: Verdict;
}
/**
 * What was read at a tap. What wasn't noted is missing, and a finding says what that costs.
 */
export interface TapFigures {
  /**
   * Gear and what was commanded, in words.
   */
  command?: string;
  /**
   * The gauge at the tap.
   */
  gauge?: string | null;
  /**
   * The gauge of the line pressure; the same one moved over, or another.
   */
  line_gauge?: string | null;
  /**
   * Line pressure at that moment, Pa above ambient.
   */
  line_pa?: number | null;
  /**
   * Speed and load, in words.
   */
  load?: string;
  /**
   * Anything worth keeping.
   */
  note?: string;
  occasion: Occasion;
  /**
   * Temperature of the oil, K.
   */
  oil_temperature_k?: number | null;
  place: TapPlace;
  /**
   * Pressure at the tap, Pa above ambient.
   */
  pressure_pa: number;
}
/**
 * Record a reading, or say what it would give.
 */
export interface TapRecord {
  /**
   * True: say what it would give and what is wrong with it, write nothing.
   */
  dry_run?: boolean;
  figures: TapFigures;
  /**
   * The job.
   */
  job: string;
  /**
   * The tap.
   */
  tap: string;
}
/**
 * What came of recording a reading.
 */
export interface TapRecorded {
  answer: TapAnswer;
  /**
   * What a bore's leak says of it; none where the model can't say.
   */
  beside?: TapBesideBore | null;
  /**
   * True when it is on record.
   */
  saved: boolean;
}
/**
 * Ask for a hot-oil check, or for what stands before a new one.
 */
export interface OilCheckGet {
  /**
   * The bore.
   */
  bore: string;
  /**
   * The job.
   */
  job: string;
  /**
   * The check; none: a new one.
   */
  oil_check?: string | null;
}
/**
 * A hot-oil check as its screen shows it.
 */
export interface OilCheckView {
  answer: OilCheckAnswer;
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
   * Its circuit's name.
   */
  circuit_name: string;
  figures: OilCheckFigures;
  /**
   * What is odd about the record itself.
   */
  findings: Finding[];
  /**
   * The hazards of this work: all must have been read of before it goes on record.
   */
  hazards: HazardState[];
  /**
   * The check; none: not on record.
   */
  id?: string | null;
  /**
   * Pressure gauges and thermometers of the shop.
   */
  instruments: InstrumentEntry[];
  /**
   * The job.
   */
  job: string;
  /**
   * Its number.
   */
  job_number: string;
  /**
   * Highest line, Pa.
   */
  line_highest_pa?: number | null;
  /**
   * Line at hot idle, Pa.
   */
  line_idle_pa?: number | null;
  /**
   * The repair that it proves; none: the circuit as it was found.
   */
  repair?: string | null;
  /**
   * Highest specified, Pa.
   */
  specified_high_pa?: number | null;
  /**
   * Lowest specified, Pa.
   */
  specified_low_pa?: number | null;
  undo: UndoState;
}
/**
 * What a hot-oil check says.
 */
export interface OilCheckAnswer {
  /**
   * The points against what the model predicts; none: no prediction.
   */
  against_prediction?: Verdict | null;
  /**
   * The points where the valve regulates against what is specified; none: not entered, or no
   * such point.
   */
  against_specification?: Verdict | null;
  /**
   * What was assumed.
   */
  assumptions: Assumed[];
  /**
   * What makes its band wide at the highest line, widest first.
   */
  band_from: BandSource[];
  /**
   * From what the prediction was made; none: there is none.
   */
  basis?: OilBasis | null;
  /**
   * The predicted curve at this temperature; empty without a prediction.
   */
  curve: OilCurvePoint[];
  /**
   * What is odd, at the fields of the check.
   */
  findings: Finding[];
  /**
   * Between line rising and falling; none without a point that has its counterpart.
   */
  hysteresis?: Hysteresis | null;
  /**
   * Each point, in the order in which they were read.
   */
  points: OilPointAnswer[];
  /**
   * What would settle it, the first first; empty when nothing is open.
   */
  settle: OilSettle[];
  verdict: Verdict;
  /**
   * Why nothing is predicted.
   */
  withheld?: ConsequenceRefusal | null;
}
/**
 * One line pressure of the predicted curve.
 */
export interface OilCurvePoint {
  falling_pa: Span;
  /**
   * Line pressure, Pa.
   */
  line_pa: number;
  rising_pa: Span;
  state: RegulationState;
}
/**
 * Feed with line rising less feed with line falling, where they differ most.
 */
export interface Hysteresis {
  /**
   * At this line pressure, Pa.
   */
  line_pa: number;
  /**
   * Rising less falling, Pa. The falling value is taken on the straight line between the two
   * falling points on either side.
   */
  measured_pa: number;
  /**
   * The most that the valve's friction makes there, Pa; none: no prediction.
   */
  predicted_most_pa?: number | null;
  /**
   * Its standard uncertainty, Pa: what a gauge reads wrong both ways falls out; its own lag
   * between the two and its steps don't.
   */
  standard_uncertainty_pa: number;
  /**
   * Whether friction explains it: no more than that by its standard uncertainty; more, with enough
   * probability (ISO 14253-1); or neither. None: no prediction.
   */
  verdict?: Verdict | null;
}
/**
 * What a point says.
 */
export interface OilPointAnswer {
  /**
   * Fits that band, lies outside, or neither can be said.
   */
  against_prediction?: Verdict | null;
  /**
   * Against what is specified; none where the valve doesn't regulate yet.
   */
  against_specification?: Verdict | null;
  /**
   * Expanded to 95 %, Pa.
   */
  expanded_uncertainty_pa: number;
  /**
   * As predicted with line going that way, Pa; none: no prediction.
   */
  predicted_pa?: Span | null;
  /**
   * Where it comes from, largest first.
   */
  shares: PressureShare[];
  /**
   * Standard uncertainty, gauges and thermometer together, Pa.
   */
  standard_uncertainty_pa: number;
}
/**
 * What a hot-oil check read.
 */
export interface OilCheckFigures {
  /**
   * The gauge of the regulated pressure.
   */
  feed_gauge?: string | null;
  /**
   * Which, in words.
   */
  fluid?: string;
  /**
   * The gauge of the line pressure; it may be the same.
   */
  line_gauge?: string | null;
  /**
   * Anything worth keeping.
   */
  note?: string;
  /**
   * Temperature of the oil, K.
   */
  oil_temperature_k?: number | null;
  /**
   * True when it was another oil than the unit's own.
   */
  other_oil?: boolean;
  /**
   * The points in the order in which they were read.
   */
  points?: OilPoint[];
  /**
   * The thermometer.
   */
  thermometer?: string | null;
}
/**
 * One step of a hot-oil check.
 */
export interface OilPoint {
  direction: LineDirection;
  /**
   * Regulated pressure, Pa above ambient.
   */
  feed_pa: number;
  /**
   * Line pressure, Pa above ambient.
   */
  line_pa: number;
}
/**
 * Record a hot-oil check, or say what it would give.
 */
export interface OilCheckRecord {
  /**
   * The bore.
   */
  bore: string;
  /**
   * True: say what it would give and what is wrong with it, write nothing.
   */
  dry_run?: boolean;
  figures: OilCheckFigures;
  /**
   * The job.
   */
  job: string;
  /**
   * The check to change; none: a new one.
   */
  oil_check?: string | null;
}
/**
 * What came of recording a hot-oil check.
 */
export interface OilCheckRecorded {
  /**
   * True when it is on record.
   */
  saved: boolean;
  view: OilCheckView;
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
   * With the pictures of photos that go along; without them, what was said of each goes alone.
   */
  photos?: boolean;
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
   * The bytes of these pictures.
   */
  photo_bytes: number;
  /**
   * Photos in it with their pictures.
   */
  photos: number;
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
   * Contents here that erasures in it would take for good.
   */
  erases: number;
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
   * Those of them whose pictures are not all here yet.
   */
  new_photos: number;
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
   * The bytes of all pictures in it.
   */
  photo_bytes: number;
  /**
   * Photos that it has with their pictures.
   */
  photos: number;
  /**
   * Contents in it that were erased and are not taken in.
   */
  refused: number;
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
   * True when the file is taken in only with an answer about this device.
   */
  asks: boolean;
  /**
   * True when all that it signed is of the demo shop that comes with the app.
   */
  demo: boolean;
  /**
   * Fingerprint of its key.
   */
  device: string;
  /**
   * Since when this device's key is not trusted any more here.
   */
  distrusted_since?: string | null;
  /**
   * What speaks against believing it: then the answer has to say so a second time.
   */
  doubts: SignerDoubt[];
  /**
   * True for the one that made the file.
   */
  made_it: boolean;
  /**
   * What this shop calls it; empty: nothing yet.
   */
  name: string;
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
 * Take a bundle in.
 */
export interface BundleTakeIn {
  /**
   * The file.
   */
  file: number;
  /**
   * What was decided about each signer that asks. Stays on this device.
   */
  signers?: SignerAnswer[];
}
/**
 * A signer is accepted.
 */
export interface SignerAnswer {
  /**
   * True: accepted in spite of what speaks against it.
   */
  despite_doubts?: boolean;
  /**
   * Fingerprint of its key.
   */
  device: string;
  /**
   * What the device is called from now on; none: as before.
   */
  name?: string | null;
}
/**
 * What was taken in.
 */
export interface BundleTaken {
  /**
   * Contents here that erasures in it took.
   */
  erased: number;
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
 * A file that is looked at.
 */
export interface LookedFile {
  /**
   * Its jobs.
   */
  jobs: number;
  /**
   * When, by that device's clock.
   */
  made_at: string;
  /**
   * Who made it; empty: it doesn't say by name.
   */
  made_by: string;
  /**
   * Fingerprint of the key of the device that it says made it.
   */
  made_on: string;
  /**
   * Those of them that are about a person.
   */
  personal: number;
  /**
   * The bytes of these pictures.
   */
  photo_bytes: number;
  /**
   * Photos that it has with their pictures.
   */
  photos: number;
  proof: LookedProof;
  /**
   * Records in it.
   */
  records: number;
  /**
   * Whose shop it is of; empty: it doesn't say.
   */
  shop: string;
  /**
   * The devices with a fitting signature in it.
   */
  signers: BundleSigner[];
  /**
   * Tests in it that belong to jobs which it doesn't hold.
   */
  tests_without_job: number;
  /**
   * How much else it holds, by kind.
   */
  things: LookedThings[];
  /**
   * Records that only a later version of this program reads. They are not shown.
   */
  unknown: BundleUnknown[];
  /**
   * Those about a person whose content was left out.
   */
  withheld: number;
  /**
   * Others whose content was left out: free text, or what its maker didn't have.
   */
  withheld_text: number;
}
/**
 * What all that is shown of a file is worth. Every answer about the file has it.
 */
export interface LookedProof {
  /**
   * False: taking it in is refused, for a signature is missing or doesn't fit.
   */
  acceptable: boolean;
  courier: LookedCourier;
  /**
   * What speaks against believing those who signed.
   */
  doubts: SignerDoubt[];
  /**
   * Actions in it whose signature doesn't fit; nothing says who did them.
   */
  misfit_actions: number;
  /**
   * The file's name.
   */
  name: string;
  /**
   * Devices with a fitting signature of which nothing is here.
   */
  strangers: number;
  /**
   * Records in it that no fitting signature vouches for.
   */
  unsigned_records: number;
}
/**
 * Things of one kind in a file that is looked at.
 */
export interface LookedThings {
  /**
   * How many.
   */
  count: number;
  /**
   * The kind, e.g. `unit`.
   */
  kind: string;
}
/**
 * The jobs in a file that is looked at.
 */
export interface LookJobs {
  /**
   * The file.
   */
  file: number;
  /**
   * How many to answer with at most; none: all.
   */
  limit?: number | null;
  /**
   * How many of its jobs to pass over.
   */
  skip?: number;
}
/**
 * The jobs of a file that is looked at, newest first.
 */
export interface LookedJobs {
  list: JobList;
  proof: LookedProof;
}
/**
 * One job in a file that is looked at, or what was done in all of it.
 */
export interface LookJob {
  /**
   * The file.
   */
  file: number;
  /**
   * The job.
   */
  job: string;
}
/**
 * A job of a file that is looked at.
 */
export interface LookedJob {
  /**
   * Inspection checks in it.
   */
  inspections: number;
  /**
   * Its parts whose content was left out of the file.
   */
  left_out: LeftOutPart[];
  /**
   * Machining sheets in it. They are not shown.
   */
  machining_sheets: number;
  /**
   * Its photos, oldest first; `is_here`: the file has their pictures.
   */
  photos: PhotoEntry[];
  proof: LookedProof;
  /**
   * False: the file doesn't hold the unit, without which no test of the job can be shown.
   */
  unit_known: boolean;
  view: JobView;
}
/**
 * One vacuum test in a file that is looked at.
 */
export interface LookTest {
  /**
   * The file.
   */
  file: number;
  /**
   * The test.
   */
  test: string;
}
/**
 * A vacuum test of a file that is looked at.
 */
export interface LookedTest {
  proof: LookedProof;
  view: TestView;
}
/**
 * One repair in a file that is looked at.
 */
export interface LookRepair {
  /**
   * The bore.
   */
  bore: string;
  /**
   * The file.
   */
  file: number;
  /**
   * The job.
   */
  job: string;
  /**
   * The repair.
   */
  repair: string;
}
/**
 * A repair of a file that is looked at.
 */
export interface LookedRepair {
  proof: LookedProof;
  view: RepairView;
}
/**
 * The inspection of a job of a file that is looked at.
 */
export interface LookedPlan {
  /**
   * The instruments that the file holds: what the checks were measured with.
   */
  instruments: InstrumentEntry[];
  proof: LookedProof;
  view: PlanView;
}
/**
 * A bore within a job of a file that is looked at.
 */
export interface LookBore {
  /**
   * The bore.
   */
  bore: string;
  /**
   * The file.
   */
  file: number;
  /**
   * The job.
   */
  job: string;
}
/**
 * A bore within a job of a file that is looked at.
 */
export interface LookedBore {
  proof: LookedProof;
  view: CardView;
}
/**
 * The relief of a bore within a job of a file that is looked at.
 */
export interface LookedRelief {
  proof: LookedProof;
  view: ReliefView;
}
/**
 * What was read at the taps in a job of a file that is looked at.
 */
export interface LookedTaps {
  proof: LookedProof;
  view: TapsView;
}
/**
 * One hot-oil check in a file that is looked at.
 */
export interface LookOilCheck {
  /**
   * The bore.
   */
  bore: string;
  /**
   * The file.
   */
  file: number;
  /**
   * The job.
   */
  job: string;
  /**
   * The check.
   */
  oil_check: string;
}
/**
 * A hot-oil check of a file that is looked at.
 */
export interface LookedOilCheck {
  proof: LookedProof;
  view: OilCheckView;
}
/**
 * What is agreed in a job of a file that is looked at.
 */
export interface LookedHandover {
  proof: LookedProof;
  view: HandoverView;
}
/**
 * What is agreed in a job and handed over with it.
 */
export interface HandoverView {
  authorisation: AuthorisationState;
  /**
   * The bores of its unit.
   */
  bores: BoreEntry[];
  /**
   * Jobs that are said to be comebacks of this one.
   */
  came_back: JobName[];
  /**
   * That this job is a comeback.
   */
  comeback?: ComebackOnRecord | null;
  /**
   * The estimate.
   */
  estimate?: EstimateOnRecord | null;
  /**
   * Two people at once: at the name of each such thing.
   */
  findings: Finding[];
  /**
   * Parts that were fitted, as they were put on record.
   */
  fitted: FittedEntry[];
  /**
   * The job.
   */
  job: string;
  /**
   * Its number.
   */
  job_number: string;
  /**
   * What is open now.
   */
  open: OpenItem[];
  /**
   * The sign-off.
   */
  sign_off?: SignOffOnRecord | null;
  terms: ShopTerms;
  undo: UndoState;
  /**
   * The warranty.
   */
  warranty?: WarrantyOnRecord | null;
}
/**
 * An authorisation on record.
 */
export interface AuthorisationOnRecord {
  authorisation: Authorisation;
  by: ReadBy;
  /**
   * How the estimate that stands lies to the amount; none: no estimate is readable here.
   */
  covers?: Covers | null;
  /**
   * True when the estimate that stands is another record than the one that was agreed to.
   */
  estimate_changed: boolean;
}
/**
 * A job by its name.
 */
export interface JobName {
  /**
   * The job.
   */
  job: string;
  /**
   * Its number.
   */
  number: string;
  /**
   * Day opened.
   */
  opened_on: string;
  /**
   * The vehicle.
   */
  vehicle: string;
}
/**
 * A comeback on record.
 */
export interface ComebackOnRecord {
  by: ReadBy;
  comeback: Comeback;
  /**
   * The earlier job; none: it isn't on this device.
   */
  earlier?: JobName | null;
}
/**
 * That a job is a comeback. Kind `job.comeback`, on the later job.
 */
export interface Comeback {
  /**
   * The bore whose repair came back; none: not told.
   */
  bore?: string | null;
  /**
   * The earlier job; none: it was said to be a comeback and isn't.
   */
  earlier?: string | null;
  fault: FaultAgain;
  found_by: FoundBy;
  /**
   * Anything worth keeping.
   */
  note?: string;
}
/**
 * An estimate on record.
 */
export interface EstimateOnRecord {
  by: ReadBy;
  estimate: Estimate;
  /**
   * Its record, which an authorisation names.
   */
  record: string;
  sums: Sums;
}
/**
 * The estimate of a job. Kind `job.estimate`.
 */
export interface Estimate {
  /**
   * The currency as the shop writes it.
   */
  currency: string;
  /**
   * Decimals of an amount: how many smallest units make one, as a power of ten.
   */
  decimals: number;
  /**
   * What is to be paid for.
   */
  lines: EstimateLine[];
  /**
   * Anything worth keeping.
   */
  note?: string;
  /**
   * Tax; none: the shop writes none.
   */
  tax?: Tax | null;
}
/**
 * One line of an estimate.
 */
export interface EstimateLine {
  counted: Counted;
  /**
   * Price of one hour or piece, smallest units; below zero for something taken off.
   */
  price_minor: number;
  /**
   * Quantity, thousandths.
   */
  quantity_thousandths: number;
  /**
   * Whether tax is on it.
   */
  taxed?: boolean;
  /**
   * What.
   */
  what: string;
}
/**
 * A tax as the shop writes it.
 */
export interface Tax {
  /**
   * True when the prices hold it already.
   */
  included: boolean;
  /**
   * Its name.
   */
  name: string;
  /**
   * Its rate, millionths: 200000 is a fifth.
   */
  rate_millionths: number;
}
/**
 * The sums of an estimate, smallest units.
 */
export interface Sums {
  /**
   * Each line, rounded to the smallest unit.
   */
  lines_minor: number[];
  /**
   * All without tax.
   */
  net_minor: number;
  /**
   * Tax, worked out once on the sum of what is taxed.
   */
  tax_minor: number;
  /**
   * What is to be paid.
   */
  total_minor: number;
}
/**
 * A fitted part on record.
 */
export interface FittedEntry {
  by: ReadBy;
  /**
   * Its subject.
   */
  fitted: string;
  part: FittedPart;
  /**
   * Its name in the shop's own list, where it is on it.
   */
  shop_part_name?: string | null;
}
/**
 * A part that was fitted. Kind `job.fitted`, a subject of its own under the job.
 */
export interface FittedPart {
  /**
   * The bore that it is in; none: of the body.
   */
  bore?: string | null;
  /**
   * What one cost the shop; none: not entered.
   */
  cost?: Cost | null;
  /**
   * The job.
   */
  job: string;
  /**
   * Lot, batch or serial number, as printed.
   */
  lot?: string;
  /**
   * What its maker printed on it or its box.
   */
  maker_text?: string;
  /**
   * Name in the shop's words.
   */
  name: string;
  /**
   * Anything worth keeping.
   */
  note?: string;
  /**
   * How many.
   */
  quantity: number;
  /**
   * The part of the shop's own list; none: one that isn't on it.
   */
  shop_part?: string | null;
  /**
   * Where it came from.
   */
  source?: string;
}
/**
 * An amount of money.
 */
export interface Cost {
  /**
   * Smallest units.
   */
  amount_minor: number;
  /**
   * The currency as the shop writes it.
   */
  currency: string;
  /**
   * Its decimals.
   */
  decimals: number;
}
/**
 * A sign-off on record.
 */
export interface SignOffOnRecord {
  /**
   * The kinds of record that were added or changed since, each once.
   */
  added_since: string[];
  by: ReadBy;
  /**
   * The kinds of record that stood then and stand no longer.
   */
  gone_since: string[];
  sign_off: SignOff;
}
/**
 * A sign-off. Kind `job.sign_off`.
 */
export interface SignOff {
  /**
   * What was open, as the core found it and the signer saw it.
   */
  open: OpenItem[];
  /**
   * The records of the job that stood then. Whatever stands otherwise now has changed since.
   */
  records: string[];
  /**
   * Who signs.
   */
  signed_by: string;
  /**
   * What they say.
   */
  statement?: string;
}
/**
 * What this device proposes for new estimates and warranties. Kept by hand, on this device.
 */
export interface ShopTerms {
  /**
   * The currency; empty: none yet.
   */
  currency?: string;
  /**
   * Its decimals; none: not said.
   */
  decimals?: number | null;
  /**
   * Tax.
   */
  tax?: Tax | null;
  /**
   * The standing warranty.
   */
  warranty?: Warranty | null;
}
/**
 * Warranty terms. Kind `job.warranty`.
 */
export interface Warranty {
  /**
   * For what distance, m; none: not by distance.
   */
  distance_m?: number | null;
  /**
   * For how many months; none: not by time.
   */
  months?: number | null;
  /**
   * The terms as the shop writes them.
   */
  text?: string;
}
/**
 * A warranty on record.
 */
export interface WarrantyOnRecord {
  by: ReadBy;
  warranty: Warranty;
}
/**
 * What was ever recorded about something in a file that is looked at.
 */
export interface LookHistory {
  /**
   * The file.
   */
  file: number;
  /**
   * The subject: a job or a test.
   */
  subject: string;
}
/**
 * What was ever recorded about something in a file that is looked at.
 */
export interface LookedHistory {
  proof: LookedProof;
  view: History;
}
/**
 * Ask for a piece of a photo in a file that is looked at, always JPEG.
 */
export interface LookPhoto {
  /**
   * The file.
   */
  file: number;
  /**
   * Where the piece begins.
   */
  from?: number;
  /**
   * The photo.
   */
  photo: string;
  size: PhotoSize;
}
/**
 * Write readings as a table.
 */
export interface ReadingsWrite {
  /**
   * True: a byte order mark stands first. Spreadsheets need it to read UTF-8 as such, other
   * programs stumble over it.
   */
  byte_order_mark: boolean;
  decimal: Decimal;
  /**
   * Of these jobs; none: of all.
   */
  jobs?: string[] | null;
}
/**
 * A table, ready to be saved.
 */
export interface ReadingsWritten {
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
  /**
   * Rows that are vacuum readings of a bore.
   */
  readings: number;
  /**
   * Rows, without the one that names the columns.
   */
  rows: number;
}
/**
 * Look at a table without taking it in, or take it in as it was looked at.
 */
export interface ReadingsLook {
  /**
   * What each column is, from the left; none: as it was the last time with such columns, else
   * guessed.
   */
  columns?: ColumnUse[] | null;
  /**
   * The file.
   */
  file: number;
  /**
   * How it is written; none: guessed.
   */
  form?: Form | null;
  into?: ReadingsInto;
}
/**
 * How one column is used.
 */
export interface ColumnUse {
  role: ColumnRole;
  /**
   * The unit of its numbers where a cell names none: `inHg`, `kPa`, `hPa`, `mbar`, `bar`, `Pa`,
   * `psi`, `mmHg` or `Torr`.
   */
  unit?: string | null;
}
/**
 * How a table is written down.
 */
export interface Form {
  decimal: Decimal;
  delimiter: Delimiter;
  encoding: Encoding;
  /**
   * True when the first line names the columns.
   */
  header: boolean;
}
/**
 * Where readings belong, as far as no column says so.
 */
export interface ReadingsInto {
  /**
   * The bore.
   */
  bore?: string | null;
  /**
   * The job.
   */
  job?: string | null;
  /**
   * Leave out the rows that can't be taken.
   */
  leave_out_wrong?: boolean;
  /**
   * The valve was turned and the plug seated anew before each reading.
   */
  reseated?: boolean;
  /**
   * The stand of the tests that are begun.
   */
  stand?: string | null;
  /**
   * Take rows whose reading looks the same as one that is here already.
   */
  take_alike?: boolean;
  /**
   * The test point of the bore; none: its only one.
   */
  test_point?: string | null;
}
/**
 * What a table is and what taking it in would do.
 */
export interface ReadingsPlan {
  /**
   * Those of them that only look the same as a reading that is here.
   */
  alike: number;
  /**
   * How each column was used.
   */
  columns: ColumnUse[];
  form: Form;
  /**
   * Names of the columns; empty where the file has none.
   */
  header: string[];
  /**
   * Rows that are here already.
   */
  here: number;
  /**
   * What is still to be said; while there is any, no row was looked at.
   */
  lacks: ReadingsLack[];
  /**
   * The file's name.
   */
  name: string;
  /**
   * Rows whose reading is new here.
   */
  new_readings: number;
  /**
   * The first of them.
   */
  new_sample: NewReading[];
  /**
   * Tests that are begun for them.
   */
  new_tests: number;
  /**
   * Rows of other kinds.
   */
  other: number;
  /**
   * True when it can be taken in as it stands.
   */
  ready: boolean;
  /**
   * True when that is remembered from the last file with such columns.
   */
  remembered: boolean;
  /**
   * All rows.
   */
  rows: number;
  /**
   * The first rows.
   */
  sample: SampleRow[];
  /**
   * Rows that can't be taken.
   */
  wrong: number;
  /**
   * The first hundred of them.
   */
  wrong_rows: WrongRow[];
}
/**
 * A reading that would be taken.
 */
export interface NewReading {
  /**
   * The bore's name.
   */
  bore_name: string;
  /**
   * The job's number.
   */
  job_number: string;
  /**
   * Line of the file on which its row begins.
   */
  line: number;
  /**
   * The test point's name.
   */
  test_point_name: string;
  /**
   * The reading, Pa below ambient.
   */
  vacuum_pa: number;
}
/**
 * A row of the file as it is.
 */
export interface SampleRow {
  /**
   * Its cells, cut where they are long.
   */
  cells: string[];
  /**
   * Line of the file on which it begins.
   */
  line: number;
}
/**
 * A row that can't be taken.
 */
export interface WrongRow {
  /**
   * The cell at fault.
   */
  cell: string;
  /**
   * What a typed reading would be told.
   */
  findings: Finding[];
  /**
   * Line of the file on which it begins.
   */
  line: number;
  problem: RowProblem;
}
/**
 * What was taken in, in one action.
 */
export interface ReadingsTaken {
  /**
   * Readings.
   */
  readings: number;
  /**
   * The tests that hold them.
   */
  tests: string[];
  undo: UndoState;
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
   * True when its key writes in two places.
   */
  copied: boolean;
  /**
   * True for one that made the demo shop.
   */
  demo: boolean;
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
   * When it signed the last action to arrive here, by its own clock.
   */
  last_signed?: string | null;
  /**
   * What this shop calls it; empty: nothing yet.
   */
  name: string;
  /**
   * True for this very device.
   */
  own: boolean;
  /**
   * Who worked on it, by name.
   */
  people: string[];
  /**
   * Why, if it was said.
   */
  reason?: DistrustReason | null;
  /**
   * Records here that it signed.
   */
  records: number;
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
   * Why not.
   */
  reason?: DistrustReason | null;
  /**
   * Since when not, from the start of this day; none: since now, or as said before.
   */
  since?: string | null;
  /**
   * False: what it signs from then on is warned of.
   */
  trusted: boolean;
}
/**
 * Give a device a name. Stays on this device.
 */
export interface DeviceName {
  /**
   * Fingerprint of its key.
   */
  device: string;
  /**
   * The name; no other device may have it.
   */
  name: string;
}
/**
 * Ask what is to be settled.
 */
export interface SettleGet {
  /**
   * Of this job, test or unit alone; none: of the whole shop.
   */
  within?: string | null;
}
/**
 * What is to be settled.
 */
export interface SettleList {
  /**
   * Each value of which more than one version stands.
   */
  items: ToSettle[];
}
/**
 * One value of which more than one version stands.
 */
export interface ToSettle {
  /**
   * The job that it belongs to.
   */
  job?: string | null;
  /**
   * Its kind, e.g. `job.complaint`.
   */
  kind: string;
  /**
   * What the subject is called, as far as it has a name.
   */
  of: string;
  /**
   * What it is a value of.
   */
  subject: string;
  /**
   * The test that it belongs to.
   */
  test?: string | null;
  /**
   * The unit that it belongs to.
   */
  unit?: string | null;
  /**
   * The versions, oldest first.
   */
  versions: Version[];
}
/**
 * One version of a value.
 */
export interface Version {
  /**
   * When, by that device's clock.
   */
  at: string;
  /**
   * What was written; none when withheld or erased: it can't be chosen then.
   */
  body?: {
    [k: string]: unknown;
  };
  /**
   * Who wrote it.
   */
  by: string;
  /**
   * Fingerprint of the device.
   */
  device: string;
  /**
   * What this shop calls the device; empty: nothing.
   */
  device_name: string;
  /**
   * True for this very device.
   */
  own: boolean;
  /**
   * Its record.
   */
  record: string;
  /**
   * True for the one that is shown until it is settled; of readings all count.
   */
  shown: boolean;
}
/**
 * Say which version stands.
 */
export interface SettleChoose {
  /**
   * The record of the version that stands.
   */
  choose: string;
  /**
   * The kind.
   */
  kind: string;
  /**
   * The records of all versions that were shown. Should there be others by now, nothing is
   * settled.
   */
  seen: string[];
  /**
   * The subject.
   */
  subject: string;
}
/**
 * It is settled.
 */
export interface Settled {
  undo: UndoState;
}
/**
 * Name one record.
 */
export interface RecordName {
  /**
   * The record.
   */
  record: string;
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
 * Write a file that was made here to a path of this device.
 */
export interface FileSave {
  /**
   * The file.
   */
  file: number;
  /**
   * Its path; the name must end as the file was made: `.vvb`, `.html` for a report, `.csv` for
   * a table.
   */
  path: string;
}
/**
 * Ask for what is agreed in a job.
 */
export interface HandoverGet {
  /**
   * The job.
   */
  job: string;
}
/**
 * Record the estimate of a job, or only work it out.
 */
export interface EstimateRecord {
  /**
   * True: write nothing.
   */
  dry_run?: boolean;
  estimate: Estimate;
  /**
   * The job.
   */
  job: string;
  /**
   * True: keep currency and tax as this device's own.
   */
  keep_terms?: boolean;
}
/**
 * What came of recording an estimate.
 */
export interface EstimateRecorded {
  /**
   * What is odd, at the fields of the estimate.
   */
  findings: Finding[];
  /**
   * True when it is on record.
   */
  saved: boolean;
  sums: Sums;
}
/**
 * Record what the customer agreed to.
 */
export interface AuthorisationRecord {
  authorisation: Authorisation;
  /**
   * The job.
   */
  job: string;
}
/**
 * What came of recording something of a handover.
 */
export interface HandoverRecorded {
  /**
   * What is odd, at its fields.
   */
  findings: Finding[];
  /**
   * True when it is on record.
   */
  saved: boolean;
  view: HandoverView;
}
/**
 * Record a fitted part.
 */
export interface FittedRecord {
  /**
   * The one that this changes; none: a new one.
   */
  fitted?: string | null;
  part: FittedPart;
}
/**
 * Take a fitted part off the record; undo brings it back.
 */
export interface FittedRemove {
  /**
   * Its subject.
   */
  fitted: string;
}
/**
 * Record the warranty of a job.
 */
export interface WarrantyRecord {
  /**
   * The job.
   */
  job: string;
  /**
   * True: keep them as this device's standing terms.
   */
  keep_terms?: boolean;
  warranty: Warranty;
}
/**
 * Sign a job off.
 */
export interface SignOffRecord {
  /**
   * The job.
   */
  job: string;
  /**
   * What was shown to them as open. Another list now is shown first, and nothing is signed.
   */
  open: OpenItem[];
  /**
   * Who signs.
   */
  signed_by: string;
  /**
   * What they say.
   */
  statement?: string;
}
/**
 * Earlier jobs that this one may be a comeback of.
 */
export interface ComebackSuggestions {
  /**
   * The newest first.
   */
  jobs: ComebackSuggestion[];
}
/**
 * An earlier job that this one may be a comeback of.
 */
export interface ComebackSuggestion {
  by: AlikeBy;
  name: JobName;
  /**
   * The bores that were repaired in it.
   */
  repaired: BoreEntry[];
}
/**
 * Say that a job is a comeback.
 */
export interface ComebackRecord {
  comeback: Comeback;
  /**
   * The later job.
   */
  job: string;
}
/**
 * Ask for the statistics. What is left out doesn't narrow them.
 */
export interface StatisticsGet {
  /**
   * Of one bore.
   */
  bore?: string | null;
  /**
   * How many of them to answer with at most; none: a hundred.
   */
  limit?: number | null;
  /**
   * Of one way.
   */
  option?: RepairOption | null;
  /**
   * How many single cases to pass over.
   */
  skip?: number;
  /**
   * Of one unit.
   */
  unit?: string | null;
}
/**
 * The statistics.
 */
export interface StatisticsView {
  /**
   * Single cases, the newest first.
   */
  cases: RepairCase[];
  /**
   * All that were found.
   */
  found: number;
  /**
   * One for each bore and way, those with most cases first.
   */
  groups: RepairGroup[];
  /**
   * With fewer cases than this nothing is summed up.
   */
  least_cases: number;
}
/**
 * One repair.
 */
export interface RepairCase {
  /**
   * The last test of the same test point since.
   */
  after?: CaseMeasured | null;
  /**
   * The last test before it.
   */
  before?: CaseMeasured | null;
  /**
   * The bore.
   */
  bore: string;
  /**
   * Its name; empty: it isn't on this device.
   */
  bore_name: string;
  /**
   * The first comeback that counts against it.
   */
  comeback?: CaseComeback | null;
  /**
   * The job.
   */
  job: string;
  /**
   * Its number.
   */
  job_number: string;
  /**
   * The day it was put on record, by that device's clock (UTC).
   */
  on: string;
  option: RepairOption;
  /**
   * The repair.
   */
  repair: string;
  /**
   * Days from the repair to its comeback, or to today.
   */
  watched_days: number;
}
/**
 * What a test measured.
 */
export interface CaseMeasured {
  /**
   * Gap factor as decided, m³; none where it wasn't told or nothing was decided.
   */
  gap_factor_m3?: number | null;
  /**
   * The test.
   */
  test: string;
  /**
   * Mean of the readings that count, Pa below ambient; as read, on the day's air and stand.
   */
  vacuum_pa: number;
}
/**
 * A comeback that counts against a repair.
 */
export interface CaseComeback {
  /**
   * False: which bore came back wasn't told.
   */
  bore_told: boolean;
  fault: FaultAgain;
  /**
   * The later job.
   */
  job: string;
  /**
   * Its number.
   */
  job_number: string;
  /**
   * The day it was opened.
   */
  on: string;
}
/**
 * The repairs of one bore by one way.
 */
export interface RepairGroup {
  /**
   * The bore.
   */
  bore: string;
  /**
   * Its name; empty: it isn't on this device.
   */
  bore_name: string;
  /**
   * How many of these came back.
   */
  came_back: number;
  /**
   * How many repairs.
   */
  cases: number;
  /**
   * Of these, how many without that the fault or the bore was told.
   */
  not_told: number;
  option: RepairOption;
  /**
   * What can be said of all together; none with too few cases.
   */
  summary?: GroupSummary | null;
  /**
   * The unit.
   */
  unit: string;
  /**
   * Its name.
   */
  unit_name: string;
}
/**
 * What can be said of enough cases.
 */
export interface GroupSummary {
  /**
   * Gap factor after.
   */
  gap_after_m3?: CaseSpread | null;
  /**
   * Gap factor before, m³, as decided.
   */
  gap_before_m3?: CaseSpread | null;
  share: ComebackShare;
  /**
   * Vacuum as read after.
   */
  vacuum_after_pa?: CaseSpread | null;
  /**
   * Vacuum as read before, Pa below ambient; none with too few cases.
   */
  vacuum_before_pa?: CaseSpread | null;
  watched_days: CaseSpread;
}
/**
 * Median and range of so many cases.
 */
export interface CaseSpread {
  /**
   * Of how many cases.
   */
  cases: number;
  /**
   * Highest.
   */
  high: number;
  /**
   * Lowest.
   */
  low: number;
  /**
   * Median; of an even number of cases the mean of the two in the middle.
   */
  median: number;
}
/**
 * A share with the interval of Clopper and Pearson at 95 %.
 */
export interface ComebackShare {
  /**
   * Upper end.
   */
  high: number;
  /**
   * Lower end.
   */
  low: number;
  /**
   * As seen, 0 to 1.
   */
  share: number;
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
/**
 * Area of an opening over the stroke.
 */
export interface OpeningAreaArgs {
  opening: WindowEdge;
  /**
   * Strokes of the spool from rest, m; 1 to 200.
   */
  strokes_m: number[];
}
/**
 * A window, the land's clearance, and how the spool moves over it.
 */
export interface WindowEdge {
  /**
   * Radius of both edges, m; 0 for sharp ones.
   */
  edge_radius_m: number;
  /**
   * Radial clearance of the land, m.
   */
  radial_clearance_m: number;
  travel: WindowTravel;
  /**
   * Width with the spool at rest, m; negative is overlap.
   */
  width_at_rest_m: number;
  window: WindowShape;
}
/**
 * Areas over the stroke.
 */
export interface OpeningAreaAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * Area of the whole window, m²; none for a groove.
   */
  full_area_m2?: number | null;
  /**
   * At each stroke, in the order asked.
   */
  points: OpeningAtStroke[];
}
/**
 * An opening at one stroke.
 */
export interface OpeningAtStroke {
  /**
   * Area that oil passes, m²; never 0, for the clearance stays.
   */
  area_m2: number;
  /**
   * Gap between the edges, m.
   */
  gap_m: number;
  /**
   * How the area grows with the width, m²/m.
   */
  slope_m: number;
  /**
   * Stroke, m.
   */
  stroke_m: number;
  /**
   * Signed width, m; negative is overlap.
   */
  width_m: number;
}
/**
 * Oil through an opening over the stroke.
 */
export interface OpeningFlowArgs {
  /**
   * Density, kg/m³.
   */
  density_kg_m3: number;
  /**
   * Pressure drop, Pa.
   */
  drop_pa: number;
  opening: WindowEdge;
  /**
   * Strokes of the spool from rest, m; 1 to 200.
   */
  strokes_m: number[];
  /**
   * Dynamic viscosity, Pa·s.
   */
  viscosity_pa_s: number;
}
/**
 * Flows over the stroke.
 */
export interface OpeningFlowAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * At each stroke, in the order asked.
   */
  points: OpeningFlowAtStroke[];
}
/**
 * Flow at one stroke.
 */
export interface OpeningFlowAtStroke {
  /**
   * Flow that the film alone would pass, m³/s.
   */
  film_m3_s: number;
  /**
   * Flow, m³/s.
   */
  flow_m3_s: number;
  /**
   * Stroke, m.
   */
  stroke_m: number;
}
/**
 * What a spring's geometry makes of it.
 */
export interface SpringGeometryArgs {
  mounting: SpringMounting;
  spring: CoilForm;
}
/**
 * A helical compression spring of round wire.
 */
export interface CoilForm {
  /**
   * Active coils.
   */
  active_coils: number;
  ends: SpringEnds;
  /**
   * Height without load, m.
   */
  free_height_m: number;
  /**
   * Mean coil diameter, m.
   */
  mean_diameter_m: number;
  /**
   * Shear modulus of the wire, Pa.
   */
  shear_modulus_pa: number;
  /**
   * Density of the wire, kg/m³.
   */
  wire_density_kg_m3: number;
  /**
   * Wire diameter, m.
   */
  wire_m: number;
  /**
   * Young's modulus of the wire, Pa.
   */
  young_modulus_pa: number;
}
/**
 * A spring by its geometry.
 */
export interface SpringGeometryAnswer {
  /**
   * Mass of the active coils, kg.
   */
  active_mass_kg: number;
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * Bergsträsser's factor.
   */
  bergstrasser: number;
  /**
   * Deflection at which it buckles, m; none if never.
   */
  critical_deflection_m?: number | null;
  /**
   * Mean diameter over wire.
   */
  index: number;
  /**
   * Gap that EN 13906-1 wants left between the coils, all together, m.
   */
  least_gap_en_m: number;
  /**
   * First natural frequency between two plates, Hz.
   */
  natural_frequency_hz: number;
  /**
   * Rate by torsion alone, N/m.
   */
  rate_n_m: number;
  /**
   * Rate with direct shear, N/m.
   */
  rate_with_direct_shear_n_m: number;
  /**
   * Free height below which it can't buckle, m.
   */
  safe_free_height_m: number;
  /**
   * The same by EN 13906-1, m; none where it has none.
   */
  solid_height_en_m?: number | null;
  /**
   * Height with all coils shut, m.
   */
  solid_height_m: number;
  /**
   * Wahl's factor.
   */
  wahl: number;
}
/**
 * A spring held at a height.
 */
export interface SpringAtHeightArgs {
  /**
   * How far its dimensions may be off; none: no spread is told.
   */
  errors?: CoilOff | null;
  /**
   * Its height, m.
   */
  height_m: number;
  spring: CoilForm;
}
/**
 * How far the dimensions of a spring may be off: half-widths.
 */
export interface CoilOff {
  /**
   * Active coils.
   */
  active_coils: number;
  /**
   * Height without load, m.
   */
  free_height_m: number;
  /**
   * Mean coil diameter, m.
   */
  mean_diameter_m: number;
  /**
   * Shear modulus, as a share of it.
   */
  shear_modulus_ratio: number;
  /**
   * Wire, m.
   */
  wire_m: number;
}
/**
 * Load and stress there.
 */
export interface SpringAtHeightAnswer {
  /**
   * What it rests on; `spring_near_solid` where coils may touch.
   */
  assumptions: Assumed[];
  /**
   * Load, N.
   */
  load_n: number;
  /**
   * Rate, N/m.
   */
  rate_n_m: number;
  /**
   * Height with all coils shut, m.
   */
  solid_height_m: number;
  /**
   * How far rate and load may be off, where the errors of the dimensions were given.
   */
  spread?: CoilSpreadTold | null;
  /**
   * Shear stress with Bergsträsser's factor, Pa.
   */
  stress_bergstrasser_pa: number;
  /**
   * Shear stress with Wahl's factor, Pa.
   */
  stress_wahl_pa: number;
  /**
   * What is left until the coils shut, m.
   */
  to_solid_m: number;
}
/**
 * Half-widths of what follows from the dimensions.
 */
export interface CoilSpreadTold {
  /**
   * Load at the height, N.
   */
  load_n: number;
  /**
   * Rate, N/m.
   */
  rate_n_m: number;
}
/**
 * A line through measured loads.
 */
export interface SpringFitArgs {
  /**
   * Height at which the load is wanted, m.
   */
  height_m: number;
  /**
   * Load that the spring should have there, N; none: no sag is told.
   */
  nominal_load_n?: number | null;
  /**
   * Loads at heights, 2 to 100.
   */
  readings: LoadAtHeight[];
}
/**
 * One load of a spring at a height.
 */
export interface LoadAtHeight {
  /**
   * Height, m.
   */
  height_m: number;
  /**
   * Load, N.
   */
  load_n: number;
  /**
   * Standard uncertainty of the load, N.
   */
  uncertainty_n: number;
}
/**
 * A spring by its measured loads.
 */
export interface SpringFitAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * Readings beyond two.
   */
  degrees_of_freedom: number;
  /**
   * True when that height lies beyond the readings.
   */
  extrapolated: boolean;
  /**
   * Largest distance of a reading from the line, N.
   */
  largest_residual_n: number;
  load_n: MeasuredValue;
  rate_n_m: MeasuredValue;
  /**
   * Sag, when a nominal load was given.
   */
  sag?: SpringSag | null;
  /**
   * Scatter of the readings over what their uncertainties say; near 1 when both agree.
   */
  scatter: number;
}
/**
 * A value with its standard uncertainty, both in the unit that the field's name ends in.
 */
export interface MeasuredValue {
  /**
   * Its standard uncertainty.
   */
  standard_uncertainty: number;
  /**
   * The value.
   */
  value: number;
}
/**
 * How much a spring has sagged.
 */
export interface SpringSag {
  lost_height_m: MeasuredValue;
  /**
   * Nominal less measured load, N.
   */
  lost_load_n: number;
  /**
   * The same over the nominal load.
   */
  lost_ratio: number;
}
/**
 * A shim under a spring: give the pressure or the thickness.
 */
export interface SpringShimArgs {
  /**
   * Reaction area, m².
   */
  area_m2: number;
  known: ShimKnown;
  spring: SpringLine;
}
/**
 * A spring by its load at rest and its rate.
 */
export interface SpringLine {
  /**
   * Load with the spool at rest, or with the relief on its seat, N.
   */
  load_at_rest_n: number;
  /**
   * Rate, N/m.
   */
  rate_n_m: number;
}
/**
 * A shim and what it does.
 */
export interface SpringShimAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * Pressure with it, Pa.
   */
  pressure_pa: number;
  /**
   * Thickness, m.
   */
  thickness_m: number;
}
/**
 * The spring for a valve of another area, at the same pressure.
 */
export interface SpringRerateArgs {
  /**
   * Area of the new valve, m².
   */
  new_area_m2: number;
  /**
   * Area of the valve as it is, m².
   */
  old_area_m2: number;
  spring: SpringLine;
}
/**
 * The spring for it.
 */
export interface SpringRerateAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * Pressure that it holds at rest, Pa, as before.
   */
  pressure_pa: number;
  spring: SpringLine;
}
/**
 * A bore and its valve, measured.
 */
export interface FitClearanceArgs {
  /**
   * Readings of the bore, 1 to 200.
   */
  bore: DiameterReading[];
  bore_instrument: DiameterInstrument;
  /**
   * True when one instrument measured both, so that its own error drops out.
   */
  same_instrument: boolean;
  /**
   * Readings of the valve, 1 to 200.
   */
  valve: DiameterReading[];
  valve_instrument: DiameterInstrument;
}
/**
 * One diameter of a bore or a valve.
 */
export interface DiameterReading {
  /**
   * Diameter, m.
   */
  diameter_m: number;
  /**
   * In which direction across it, rad.
   */
  direction_rad: number;
  /**
   * Where along the part, m from its end.
   */
  station_m: number;
}
/**
 * Standard uncertainties of what the diameters were taken with.
 */
export interface DiameterInstrument {
  /**
   * Of each reading by itself, m.
   */
  each_m: number;
  /**
   * Of the error that all its readings share, m.
   */
  shared_m: number;
}
/**
 * Clearance of a valve in its bore.
 */
export interface FitClearanceAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  bore: PartShape;
  /**
   * Radial clearance of smallest bore and largest valve, m.
   */
  least_clearance_m: number;
  /**
   * Radial clearance of largest bore and smallest valve, m.
   */
  most_clearance_m: number;
  radial_clearance_m: MeasuredValue;
  valve: PartShape;
}
/**
 * The shape that readings show.
 */
export interface PartShape {
  /**
   * Largest reading, m.
   */
  largest_m: number;
  mean_m: MeasuredValue;
  /**
   * Out-of-round; none with one direction at each station.
   */
  out_of_round?: RoundnessFound | null;
  /**
   * Smallest reading, m.
   */
  smallest_m: number;
  /**
   * Taper; none with one station.
   */
  taper?: TaperFound | null;
}
/**
 * How far from round a part is.
 */
export interface RoundnessFound {
  /**
   * What readings of a round part would differ by on average, m.
   */
  by_chance_m: number;
  difference_m: MeasuredValue;
  /**
   * Where that is, m.
   */
  station_m: number;
}
/**
 * How a diameter changes along the part.
 */
export interface TaperFound {
  over_span_m: MeasuredValue;
  slope_ratio: MeasuredValue;
}
/**
 * A valve in its bore away from 20 °C.
 */
export interface FitTemperatureArgs {
  /**
   * Diameter of the bore at 20 °C, m.
   */
  bore_20c_m: number;
  bore_metal: PartMetal;
  /**
   * Temperature of both, K.
   */
  temperature_k: number;
  /**
   * Diameter of the valve at 20 °C, m.
   */
  valve_20c_m: number;
  valve_metal: PartMetal;
}
/**
 * The clearance there.
 */
export interface FitTemperatureAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * Radial clearance, m; negative when the valve would seize.
   */
  radial_clearance_m: number;
  span_m: Bounds;
}
/**
 * Two bounds of one quantity, in the unit that the field's name ends in.
 */
export interface Bounds {
  /**
   * Upper bound.
   */
  high: number;
  /**
   * Lower bound.
   */
  low: number;
}
/**
 * A tolerance class of ISO 286, or the fit of two.
 */
export interface FitIsoArgs {
  /**
   * Nominal size, m.
   */
  nominal_m: number;
  /**
   * The class of a shaft in a hole of that class; none: only the limits of the one.
   */
  shaft_class?: string | null;
  /**
   * A class, such as `H7` of a hole or `g6` of a shaft.
   */
  tolerance_class: string;
}
/**
 * Limits, and the fit.
 */
export interface FitIsoAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * The fit, when a shaft's class was given.
   */
  fit?: ClassFit | null;
  /**
   * True for the class of a hole.
   */
  hole: boolean;
  limits: ClassLimits;
}
/**
 * The fit of two classes.
 */
export interface ClassFit {
  clearance_m: Bounds;
  kind: ClassFitKind;
  shaft: ClassLimits;
}
/**
 * Limits of one class.
 */
export interface ClassLimits {
  deviations_m: Bounds;
  sizes_m: Bounds;
}
/**
 * A sleeve for a worn bore.
 */
export interface FitSleeveArgs {
  /**
   * Largest diameter of the worn bore, m.
   */
  bore_largest_m: number;
  /**
   * Smallest diameter of the worn bore, m.
   */
  bore_smallest_m: number;
  /**
   * Diameter to which it is reamed, m.
   */
  finished_bore_m: number;
  /**
   * Inner diameter of the sleeve in place, m.
   */
  inner_diameter_m: number;
  /**
   * Thinnest wall that the sleeve's maker allows, m.
   */
  minimum_wall_m: number;
  /**
   * Outer diameter of the sleeve, m.
   */
  outer_diameter_m: number;
  /**
   * Diameter of the valve that will run in it, m.
   */
  valve_diameter_m: number;
}
/**
 * Whether the sleeve has room.
 */
export interface FitSleeveAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * False when reaming leaves worn places untouched.
   */
  cleans_up: boolean;
  /**
   * Largest inner diameter that the thinnest wall allows, m.
   */
  largest_inner_diameter_m: number;
  /**
   * What it takes off where the bore is largest, m.
   */
  least_stock_m: number;
  /**
   * What the reamer takes off where the bore is smallest, on the diameter, m.
   */
  ream_stock_m: number;
  /**
   * Radial clearance of the sleeve in the bore, m; negative is interference.
   */
  seat_clearance_m: number;
  /**
   * Radial clearance of the valve in the sleeve, m.
   */
  valve_clearance_m: number;
  /**
   * False when the wall is thinner than its maker allows.
   */
  wall_holds: boolean;
  /**
   * Wall of the sleeve, m.
   */
  wall_m: number;
  /**
   * Wall less the thinnest allowed, m.
   */
  wall_margin_m: number;
}
/**
 * Pressure against flow.
 */
export interface ReliefOverrideArgs {
  /**
   * Density, kg/m³.
   */
  density_kg_m3: number;
  /**
   * Flow up to which the curve goes, m³/s.
   */
  flow_m3_s: number;
  /**
   * Points on the curve, 2 to 200.
   */
  points: number;
  relief: SeatedReliefParts;
  /**
   * Dynamic viscosity, Pa·s.
   */
  viscosity_pa_s: number;
}
/**
 * A relief that lets oil out to sump.
 */
export interface SeatedReliefParts {
  /**
   * Discharge coefficient of the opening.
   */
  discharge_coefficient: number;
  /**
   * Friction of the moving part, N.
   */
  friction_n: number;
  /**
   * Whether the jet's force counts.
   */
  jet_force: boolean;
  /**
   * How far it can lift, m.
   */
  lift_stop_m: number;
  seat: ReliefSeat;
  spring: SpringLine;
}
/**
 * The curve.
 */
export interface ReliefOverrideAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * Where it cracks, Pa over sump.
   */
  cracking_pa: number;
  /**
   * Pressure at the flow asked for less cracking pressure, Pa.
   */
  override_pa: number;
  /**
   * From no flow up.
   */
  points: ReliefAtFlow[];
  /**
   * Where it shuts again, Pa over sump; 0 when friction holds it open.
   */
  reseat_pa: number;
}
/**
 * A relief at one flow.
 */
export interface ReliefAtFlow {
  /**
   * Opening, m².
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
   * Pressure over sump, Pa.
   */
  pressure_pa: number;
  /**
   * True when it opens no further.
   */
  wide_open: boolean;
}
/**
 * The spring for a setpoint.
 */
export interface ReliefSpringArgs {
  /**
   * Density, kg/m³.
   */
  density_kg_m3: number;
  /**
   * That flow, m³/s.
   */
  flow_m3_s: number;
  /**
   * How far above that the flow may raise the pressure, Pa.
   */
  override_pa: number;
  relief: SeatedReliefParts;
  /**
   * Pressure at which it is to crack, Pa over sump.
   */
  setpoint_pa: number;
  /**
   * Dynamic viscosity, Pa·s.
   */
  viscosity_pa_s: number;
}
/**
 * The spring.
 */
export interface ReliefSpringAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  spring: SpringLine;
}
/**
 * The viscosity line of an oil, read both ways.
 */
export interface OilChartArgs {
  /**
   * What is known of the oil, 2 to 50 points.
   */
  points: ViscosityAt[];
  /**
   * Temperatures at which the viscosity is wanted, K; up to 200.
   */
  temperatures_k?: number[];
  /**
   * Viscosities whose temperature is wanted, m²/s; up to 200.
   */
  viscosities_m2_s?: number[];
}
/**
 * A viscosity that was measured or stated.
 */
export interface ViscosityAt {
  /**
   * Temperature, K.
   */
  temperature_k: number;
  /**
   * Kinematic viscosity, m²/s.
   */
  viscosity_m2_s: number;
}
/**
 * The line and what was read off it.
 */
export interface OilChartAnswer {
  /**
   * A of log10(log10(Z)) = A - B log10(T).
   */
  a: number;
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * At the temperatures asked for, in their order.
   */
  at_temperatures: OilChartReading[];
  /**
   * At the viscosities asked for, in their order.
   */
  at_viscosities: OilChartReading[];
  /**
   * B of the same.
   */
  b: number;
  /**
   * Largest distance of a point from the line, as a part of its viscosity.
   */
  misfit_ratio: number;
}
/**
 * One reading off the line.
 */
export interface OilChartReading {
  /**
   * True beyond the points.
   */
  extrapolated: boolean;
  /**
   * Temperature, K.
   */
  temperature_k: number;
  /**
   * Kinematic viscosity, m²/s.
   */
  viscosity_m2_s: number;
}
/**
 * Two viscosities for the index.
 */
export interface ViscosityIndexArgs {
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
 * Viscosity index by ASTM D2270.
 */
export interface ViscosityIndexAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * The index, not rounded.
   */
  viscosity_index: number;
}
/**
 * Oil with free air in it.
 */
export interface OilStiffnessArgs {
  /**
   * Free air over oil by volume at the reference pressure.
   */
  air_ratio: number;
  /**
   * Bulk modulus of the oil alone, Pa.
   */
  oil_bulk_modulus_pa: number;
  /**
   * 1 for slow changes, 1.4 for quick ones.
   */
  polytropic_exponent: number;
  /**
   * Absolute pressure, Pa.
   */
  pressure_pa: number;
  /**
   * Absolute pressure at which that holds, Pa.
   */
  reference_pressure_pa: number;
  /**
   * Bulk modulus of what holds the oil, Pa; none for rigid walls.
   */
  wall_bulk_modulus_pa?: number | null;
}
/**
 * How stiff it is.
 */
export interface OilStiffnessAnswer {
  /**
   * Air over the whole volume at this pressure.
   */
  air_ratio: number;
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * Effective bulk modulus, Pa.
   */
  bulk_modulus_pa: number;
}
/**
 * A pack under pressure.
 */
export interface ClutchCapacityArgs {
  pack: ClutchPackParts;
  /**
   * Apply pressure over sump, Pa.
   */
  pressure_pa: number;
  /**
   * The drum's turning; none: at rest.
   */
  turning?: TurningDrum | null;
}
/**
 * A clutch pack.
 */
export interface ClutchPackParts {
  face: RingFace;
  /**
   * How many faces rub: two for each lined plate.
   */
  faces: number;
  /**
   * Coefficient of friction.
   */
  friction_coefficient: number;
  piston: RingFace;
  /**
   * Load of the return springs with the pack closed, N.
   */
  return_spring_n: number;
}
/**
 * A ring between two radii.
 */
export interface RingFace {
  /**
   * Inner radius, m.
   */
  inner_radius_m: number;
  /**
   * Outer radius, m.
   */
  outer_radius_m: number;
}
/**
 * Oil that turns with the drum.
 */
export interface TurningDrum {
  /**
   * Balance chamber, if there is one.
   */
  balance?: BalanceChamber | null;
  /**
   * Density of the oil, kg/m³.
   */
  density_kg_m3: number;
  /**
   * Radius from which oil stands behind the piston, m.
   */
  from_radius_m: number;
  /**
   * Speed, rad/s.
   */
  speed_rad_s: number;
}
/**
 * A chamber that turns on the other side of the piston.
 */
export interface BalanceChamber {
  /**
   * Radius from which oil stands in it, m.
   */
  from_radius_m: number;
  ring: RingFace;
}
/**
 * What a pack holds.
 */
export interface ClutchCapacityAnswer {
  /**
   * Force that closes the pack, N; 0 while the return springs hold it open.
   */
  apply_force_n: number;
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * Of that, what the turning oil adds, N.
   */
  centrifugal_force_n: number;
  /**
   * Mean pressure on the faces, Pa.
   */
  face_pressure_pa: number;
  /**
   * Torque by uniform pressure, N·m.
   */
  uniform_pressure_n_m: number;
  /**
   * Torque by uniform wear, N·m: the one to count on.
   */
  uniform_wear_n_m: number;
}
/**
 * A pack whose pressure shifts.
 */
export interface ClutchShiftArgs {
  pack: ClutchPackParts;
  /**
   * Apply pressure over sump before, Pa.
   */
  pressure_pa: number;
  /**
   * Shift of it, Pa.
   */
  shift_pa: number;
  /**
   * The drum's turning; none: at rest.
   */
  turning?: TurningDrum | null;
}
/**
 * What the shift does.
 */
export interface ClutchShiftAnswer {
  after: ClutchCapacityAnswer;
  before: ClutchCapacityAnswer;
  /**
   * Change of the torque by uniform wear, N·m.
   */
  torque_n_m: number;
  /**
   * The same over that before; none when there was none.
   */
  torque_ratio?: number | null;
}
/**
 * A torque that a pack is to hold.
 */
export interface ClutchPressureArgs {
  pack: ClutchPackParts;
  /**
   * Torque, N·m.
   */
  torque_n_m: number;
  /**
   * The drum's turning; none: at rest.
   */
  turning?: TurningDrum | null;
}
/**
 * The pressure for it, by uniform wear.
 */
export interface ClutchPressureAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * Pressure over sump, Pa.
   */
  pressure_pa: number;
}
/**
 * A copper winding at a temperature.
 */
export interface SolenoidResistanceArgs {
  /**
   * Temperature at which the resistance is wanted, K.
   */
  temperature_k: number;
  /**
   * Voltage across it, V; none: no current is told.
   */
  voltage_v?: number | null;
  winding: WindingKnown;
}
/**
 * Resistance and current there.
 */
export interface SolenoidResistanceAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * Current, A, when a voltage was given.
   */
  current_a?: number | null;
  /**
   * Resistance at 20 °C, ohm.
   */
  resistance_20c_ohm: number;
  /**
   * Resistance, ohm.
   */
  resistance_ohm: number;
}
/**
 * A winding measured cold and hot.
 */
export interface SolenoidTemperatureArgs {
  /**
   * Resistance at the known temperature, ohm.
   */
  first_resistance_ohm: number;
  /**
   * That temperature, K.
   */
  first_temperature_k: number;
  line?: CopperLine;
  /**
   * Resistance at the unknown temperature, ohm.
   */
  second_resistance_ohm: number;
}
/**
 * The winding's temperature.
 */
export interface SolenoidTemperatureAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * Mean temperature of the winding, K.
   */
  temperature_k: number;
}
/**
 * A shift of the feed, as a clutch sees it.
 */
export interface PassedShiftArgs {
  /**
   * Pressure that is commanded, Pa over sump.
   */
  commanded_pa: number;
  /**
   * Feed of the solenoid, Pa over sump.
   */
  feed_pa: number;
  /**
   * Clutch pressure over the solenoid's.
   */
  gain_ratio: number;
  kind: PressureSolenoid;
  /**
   * Shift of the feed, Pa.
   */
  shift_pa: number;
}
/**
 * What is passed on.
 */
export interface PassedShiftAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * True when the command lies so near the feed that the output may follow it.
   */
  near_feed: boolean;
  /**
   * Likely shift, Pa.
   */
  shift_pa: number;
  span_pa: Bounds;
}
/**
 * A leak of oil through lands of one clearance.
 */
export interface OilSpanArgs {
  /**
   * Density, kg/m³.
   */
  density_kg_m3: number;
  /**
   * Pressure drop, Pa.
   */
  drop_pa: number;
  /**
   * Flow, m³/s.
   */
  flow_m3_s: number;
  /**
   * The lands, side by side, 1 to 16.
   */
  lands: SealingLand[];
  /**
   * How far each engaged length may be off, as a part of it.
   */
  length_tolerance_ratio: number;
  /**
   * Dynamic viscosity, Pa·s.
   */
  viscosity_pa_s: number;
}
/**
 * A land that seals.
 */
export interface SealingLand {
  /**
   * Engaged length, m.
   */
  engaged_length_m: number;
  /**
   * Mean diameter, m.
   */
  mean_diameter_m: number;
}
/**
 * Radial clearances that explain a leak.
 */
export interface ClearanceSpanAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * With the valve centred, m.
   */
  centred_m: number;
  span_m: Bounds;
  /**
   * With the valve touching all along, m.
   */
  touching_m: number;
}
/**
 * A leak of air through lands of one clearance.
 */
export interface AirSpanArgs {
  /**
   * Temperature of the air, K.
   */
  air_temperature_k: number;
  /**
   * Absolute pressure of the chamber, Pa.
   */
  chamber_pa: number;
  /**
   * The lands, side by side, 1 to 16.
   */
  lands: AirSealingLand[];
  /**
   * How far each engaged length may be off, as a part of it.
   */
  length_tolerance_ratio: number;
  /**
   * pV flow, Pa·m³/s.
   */
  throughput_w: number;
}
/**
 * A land that seals against a pressure of air.
 */
export interface AirSealingLand {
  /**
   * Engaged length, m.
   */
  engaged_length_m: number;
  /**
   * Absolute pressure from which air comes, Pa.
   */
  far_side_pa: number;
  /**
   * Mean diameter, m.
   */
  mean_diameter_m: number;
}
/**
 * A bore tested with two valves of known difference.
 */
export interface TwoValvesArgs {
  /**
   * Temperature of the air, K.
   */
  air_temperature_k: number;
  /**
   * Barometer, Pa.
   */
  barometer_pa: number;
  /**
   * Larger less smaller diameter, m.
   */
  diameter_difference_m: number;
  /**
   * How far that may be off, as a part of itself; none: a third.
   */
  difference_tolerance_ratio?: number | null;
  /**
   * Reading with the larger valve, Pa below ambient.
   */
  larger_vacuum_pa: number;
  /**
   * How far each reading may be off, Pa.
   */
  reading_tolerance_pa: number;
  /**
   * Reading with the smaller valve, Pa below ambient.
   */
  smaller_vacuum_pa: number;
  stand: TwoValveStand;
}
/**
 * The clearance of the larger valve.
 */
export interface TwoValvesAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * Its upper bound, m; none when the readings may be equal.
   */
  high_m?: number | null;
  /**
   * Its lower bound over the tolerances, m.
   */
  low_m: number;
  /**
   * Radial clearance, m.
   */
  radial_clearance_m: number;
}
/**
 * Contributions to combine.
 */
export interface CombineArgs {
  /**
   * The contributions, 1 to 32.
   */
  components: UncertaintyPart[];
  /**
   * Confidence of the expanded uncertainty, 0.01 to 0.9999.
   */
  confidence_ratio: number;
}
/**
 * One independent contribution, in the result's unit.
 */
export interface UncertaintyPart {
  /**
   * How well that is known; none: exactly.
   */
  degrees_of_freedom?: number | null;
  /**
   * What it is.
   */
  name: string;
  /**
   * Standard uncertainty.
   */
  standard_uncertainty: number;
}
/**
 * Contributions combined.
 */
export interface CombineAnswer {
  /**
   * Effective degrees of freedom; none for infinitely many.
   */
  degrees_of_freedom?: number | null;
  /**
   * Expanded uncertainty at the confidence.
   */
  expanded_uncertainty: number;
  /**
   * Each share of the variance, largest first.
   */
  shares: PartShare[];
  /**
   * Combined standard uncertainty.
   */
  standard_uncertainty: number;
}
/**
 * A contribution's share of the variance.
 */
export interface PartShare {
  /**
   * Which.
   */
  name: string;
  /**
   * Share, 0 to 1.
   */
  share_ratio: number;
}
/**
 * Repeated readings.
 */
export interface RepeatsArgs {
  /**
   * Confidence of the half-width, 0.01 to 0.9999.
   */
  confidence_ratio: number;
  /**
   * A spread known from earlier work, in the place of the readings' own.
   */
  pooled?: PooledSpread | null;
  /**
   * The readings, 1 to 1000.
   */
  readings: number[];
}
/**
 * A spread known from earlier work.
 */
export interface PooledSpread {
  /**
   * Its degrees of freedom.
   */
  degrees_of_freedom: number;
  /**
   * Standard deviation of one reading.
   */
  standard_deviation: number;
}
/**
 * Mean and spread of repeats.
 */
export interface RepeatsAnswer {
  /**
   * How many.
   */
  count: number;
  /**
   * Its degrees of freedom.
   */
  degrees_of_freedom?: number | null;
  /**
   * Half-width of the interval for the mean at the confidence.
   */
  half_width?: number | null;
  /**
   * Mean.
   */
  mean: number;
  /**
   * Largest less smallest.
   */
  range: number;
  /**
   * Standard deviation of one reading; none for a single one.
   */
  standard_deviation?: number | null;
  /**
   * Standard uncertainty of the mean; none when nothing tells the spread.
   */
  standard_uncertainty?: number | null;
}
/**
 * A measured value against a limit.
 */
export interface DecideArgs {
  /**
   * Confidence of the decision, 0.5 to 0.9999; none: 0.95.
   */
  confidence_ratio?: number | null;
  /**
   * Degrees of freedom of that; none: exactly known.
   */
  degrees_of_freedom?: number | null;
  /**
   * The limit.
   */
  limit: number;
  /**
   * Measured value.
   */
  measured: number;
  side: LimitSide;
  /**
   * Its standard uncertainty.
   */
  standard_uncertainty: number;
}
/**
 * The decision.
 */
export interface DecideAnswer {
  /**
   * Measured values on the good side of this are within.
   */
  acceptance_limit: number;
  /**
   * Guard band.
   */
  guard_band: number;
  /**
   * Distance from the limit, positive on the good side.
   */
  margin: number;
  /**
   * Probability that the true value conforms.
   */
  probability_ratio: number;
  /**
   * Measured values on the bad side of this are outside.
   */
  rejection_limit: number;
  verdict: ThreeWay;
}
/**
 * An instrument at a reading.
 */
export interface InstrumentArgs {
  /**
   * Certificate.
   */
  certificate?: StatedCertificate | null;
  /**
   * Calibration history; none: the uncertainty is that of the day of the calibration.
   */
  history?: StatedHistory | null;
  /**
   * Largest error stated.
   */
  max_error?: StatedError | null;
  /**
   * The reading.
   */
  reading: number;
  /**
   * Smallest step that can be read.
   */
  resolution?: number | null;
}
/**
 * A certificate's expanded uncertainty.
 */
export interface StatedCertificate {
  /**
   * Coverage factor.
   */
  coverage_factor: number;
  /**
   * Expanded uncertainty, in the reading's unit.
   */
  expanded_uncertainty: number;
}
/**
 * When an instrument was calibrated and how it drifts.
 */
export interface StatedHistory {
  /**
   * Days since the calibration; none: no record of one.
   */
  age_days?: number | null;
  /**
   * The most that it drifts in a year, in the reading's unit; none: not stated.
   */
  drift_per_year?: number | null;
  /**
   * After how many days it is due again; none: nobody said.
   */
  interval_days?: number | null;
}
/**
 * What the instrument adds.
 */
export interface InstrumentAnswer {
  /**
   * Whether the calibration stands; none without a history.
   */
  calibration?: CalibrationStanding | null;
  /**
   * False when drift is not in it, and the uncertainty may be understated.
   */
  drift_included: boolean;
  /**
   * Each share of the variance, largest first.
   */
  shares: PartShare[];
  /**
   * Standard uncertainty, with drift where it is known.
   */
  standard_uncertainty: number;
  /**
   * The same on the day of the calibration.
   */
  when_calibrated: number;
}
/**
 * A tolerance and what it is measured with.
 */
export interface GuardBandArgs {
  /**
   * Degrees of freedom of that; none: exactly known.
   */
  degrees_of_freedom?: number | null;
  guard: GuardWanted;
  /**
   * Lowest good value; none: no limit below.
   */
  lower?: number | null;
  /**
   * Standard uncertainty of the measurement.
   */
  standard_uncertainty: number;
  /**
   * Highest good value; none: no limit above.
   */
  upper?: number | null;
}
/**
 * Limits of acceptance and rejection.
 */
export interface GuardBandAnswer {
  /**
   * Measured values within conform; none when the uncertainty is too large for the tolerance.
   */
  accept?: OpenBounds | null;
  /**
   * Measuring capability: tolerance over four standard uncertainties; none with one limit or
   * without uncertainty.
   */
  capability_ratio?: number | null;
  /**
   * The guard band.
   */
  guard_band: number;
  /**
   * Largest probability with which an accepted part may be bad, at one limit; none without
   * uncertainty.
   */
  largest_risk_ratio?: number | null;
  reject_beyond: OpenBounds;
}
/**
 * A pair of limits, either of which may be open.
 */
export interface OpenBounds {
  /**
   * Lowest; none: open.
   */
  lower?: number | null;
  /**
   * Highest; none: open.
   */
  upper?: number | null;
}
/**
 * A regulator followed through time.
 */
export interface TransientArgs {
  moving?: MovingFigures;
  scenario: MotionScenario;
  valve: RegulatorSource;
}
/**
 * What moves. Every figure may be left out: the answer says which were and what was taken.
 */
export interface MovingFigures {
  /**
   * Exponent of the bubbles' compression, 1 to 1.4. Typical: 1 (isothermal).
   */
  air_exponent_ratio?: number | null;
  /**
   * Barometer, Pa. Typical: 101325.
   */
  barometer_pa?: number | null;
  /**
   * Break-away friction over sliding friction, 1 to 5. Typical: 1.3.
   */
  breakaway_ratio?: number | null;
  /**
   * Spring chamber with the spool at the end of its stroke, m³. Typical: 6e-7 (0.6 mL).
   */
  chamber_volume_m3?: number | null;
  /**
   * Viscous damping, N·s/m. Left out: the oil films of the lands that leak (Petroff) and nothing
   * else. That is the least there is: a spool may swing less than such an answer says.
   */
  damping_n_s_per_m?: number | null;
  /**
   * Free air by volume at the barometer, 0 to 0.3. Typical: 0.01.
   */
  entrained_air_ratio?: number | null;
  /**
   * Oil between regulator and outlets, m³. Typical: 3e-5 (30 mL).
   */
  feed_volume_m3?: number | null;
  /**
   * Bulk modulus of the oil itself, Pa. Typical: 1.4e9.
   */
  liquid_bulk_modulus_pa?: number | null;
  /**
   * Reaction chamber with the spool at 0, m³. Typical: 4e-7 (0.4 mL).
   */
  reaction_volume_m3?: number | null;
  /**
   * Spool with a third of its spring, kg. Typical: 0.02.
   */
  spool_mass_kg?: number | null;
}
/**
 * What a regulator is put through.
 */
export interface MotionScenario {
  /**
   * Demand; none: all of it, always.
   */
  demand?: OutletCourse | null;
  /**
   * How long, s.
   */
  duration_s: number;
  line: LineCourse;
  /**
   * Points of the trace, 2 to 5,000; none: 1,000.
   */
  points?: number | null;
  /**
   * Relative error that a step may make, 1e-10 to 1e-2; none: 1e-6.
   */
  relative_tolerance?: number | null;
  /**
   * Ripple on it, if any.
   */
  ripple?: PumpRipple | null;
  /**
   * How near to its last value feed counts as settled, Pa; none: 10 kPa.
   */
  settling_band_pa?: number | null;
  start?: MotionStart;
}
/**
 * The pump's ripple on top of the line's course: frequency = speed × elements.
 */
export interface PumpRipple {
  /**
   * Height of a crest above the mean, Pa.
   */
  amplitude_pa: number;
  /**
   * Vanes or teeth.
   */
  elements: number;
  /**
   * Turns of the pump a second, Hz.
   */
  pump_speed_hz: number;
}
/**
 * The regulator of a profile, its seals as new or with one clearance.
 */
export interface ProfileRegulator {
  /**
   * Eccentricity of all lands, 0 to 1.
   */
  eccentricity?: number;
  /**
   * Temperature of the oil, K.
   */
  oil_temperature_k: number;
  profile: BoreProfile;
  /**
   * Radial clearance of all lands at 20 °C, m; none: as new.
   */
  radial_clearance_m?: number | null;
  /**
   * The lands of that clearance, the others lying between new and it, as a judgement takes lands
   * that no test reached; none: all lands.
   */
  tested_lands?: string[] | null;
}
/**
 * A regulator told part by part, and its oil.
 */
export interface PartsRegulator {
  oil: OilFigures;
  regulator: RegulatorParts;
}
/**
 * An oil at one temperature.
 */
export interface OilFigures {
  /**
   * Density, kg/m³.
   */
  density_kg_m3: number;
  /**
   * Dynamic viscosity, Pa·s.
   */
  viscosity_pa_s: number;
}
/**
 * A reducing regulator, part by part.
 */
export interface RegulatorParts {
  /**
   * Between feed and reaction chamber; none: one space.
   */
  balance_orifice?: OrificeParts | null;
  demand: OutletDemand;
  drain?: ChamberDrain;
  /**
   * Feed to sump, if there is one.
   */
  exhaust?: EdgeParts | null;
  /**
   * Dry friction while sliding, N.
   */
  friction_n?: number;
  /**
   * Every land that leaks.
   */
  leaks?: RegulatorLeak[];
  /**
   * Area that the reaction chamber acts on, m².
   */
  reaction_area_m2: number;
  /**
   * Relief from feed to sump, if there is one.
   */
  relief?: ReliefParts | null;
  spring: SpringParts;
  /**
   * Area that the spring chamber acts on, m².
   */
  spring_side_area_m2: number;
  /**
   * Travel, m.
   */
  stroke_m: number;
  supply: EdgeParts;
}
/**
 * A drilled orifice.
 */
export interface OrificeParts {
  /**
   * Bore, m.
   */
  diameter_m: number;
  /**
   * Length, m; 0 for a knife edge.
   */
  length_m: number;
}
/**
 * What is taken from a passage, by equal sharp-edged outlets.
 */
export interface OutletDemand {
  /**
   * The pressure at which it was stated, Pa.
   */
  at_pressure_pa: number;
  /**
   * Flow of all together, m³/s.
   */
  flow_m3_s: number;
  /**
   * How many outlets.
   */
  outlets: number;
  stated_in: OilFigures;
}
/**
 * A metering edge. Which way it opens follows from what it is for.
 */
export interface EdgeParts {
  /**
   * Share of the circumference that opens, 0 to 1.
   */
  circumference_fraction: number;
  /**
   * Diameter of the land, m.
   */
  land_diameter_m: number;
  /**
   * Radial clearance of the land, m.
   */
  radial_clearance_m: number;
  /**
   * Width of the opening with the spool at its stop, m; negative for an overlap.
   */
  width_at_rest_m: number;
  /**
   * Holes or notches instead of a groove; the fraction then counts for nothing.
   */
  window?: WindowShape | null;
}
/**
 * Oil that passes a land of a reducing regulator.
 */
export interface RegulatorLeak {
  from: RegulatorPlace;
  gap: GapShape;
  to: RegulatorPlace;
}
/**
 * A ball relief.
 */
export interface ReliefParts {
  /**
   * Ball, m.
   */
  ball_diameter_m: number;
  /**
   * Discharge coefficient.
   */
  discharge_coefficient: number;
  /**
   * Highest lift, m.
   */
  lift_stop_m: number;
  /**
   * Seat, m.
   */
  seat_diameter_m: number;
  spring: SpringParts;
}
/**
 * A coil spring behind a spool or a ball.
 */
export interface SpringParts {
  /**
   * Load at position 0, N.
   */
  load_at_rest_n: number;
  /**
   * Rate, N/m.
   */
  rate_n_per_m: number;
}
/**
 * The transient.
 */
export interface TransientAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  moving: MovingFigures;
  summary: MotionSummary;
  trace: MotionTrace;
  /**
   * Those of them that weren't given: typical, or the films' damping.
   */
  typical: MovingFigure[];
}
/**
 * What can be read from a transient, without its trace.
 */
export interface MotionSummary {
  /**
   * Mean feed at the end, Pa.
   */
  feed_final_pa: number;
  /**
   * Highest feed, Pa.
   */
  feed_highest_pa: number;
  /**
   * Lowest feed, Pa.
   */
  feed_lowest_pa: number;
  oscillation: SelfOscillation;
  /**
   * How far feed goes beyond where it ends up, Pa.
   */
  overshoot_pa: number;
  /**
   * Line at the end, crest to trough, Pa; none: too few points a period.
   */
  ripple_in_pa?: number | null;
  /**
   * Feed at the end, crest to trough, Pa.
   */
  ripple_out_pa?: number | null;
  /**
   * Until feed stays in the band, s; none: it doesn't.
   */
  settling_time_s?: number | null;
  solver: SolverCounts;
}
/**
 * What the solver did.
 */
export interface SolverCounts {
  /**
   * Steps that held the tolerance.
   */
  accepted: number;
  /**
   * How often it broke away.
   */
  break_aways: number;
  /**
   * Longest step, s.
   */
  longest_step_s: number;
  /**
   * Evaluations of the rates.
   */
  rate_evaluations: number;
  /**
   * Steps taken again, shorter.
   */
  rejected: number;
  /**
   * Shortest step, s; none before the first.
   */
  shortest_step_s?: number | null;
  /**
   * How often it stuck.
   */
  sticks: number;
  /**
   * How often the spool met a stop.
   */
  stop_contacts: number;
}
/**
 * Everything against time: lists of one length.
 */
export interface MotionTrace {
  /**
   * What the solenoids take, m³/s.
   */
  demand_m3_s: number[];
  /**
   * Feed, Pa.
   */
  feed_pa: number[];
  /**
   * Line, Pa.
   */
  line_pa: number[];
  /**
   * Reaction chamber, Pa.
   */
  reaction_pa: number[];
  /**
   * Spool position, m.
   */
  spool_position_m: number[];
  /**
   * Spool speed toward the closed stop, m/s.
   */
  spool_speed_m_per_s: number[];
  /**
   * Spring chamber, Pa.
   */
  spring_chamber_pa: number[];
  /**
   * Time, s.
   */
  time_s: number[];
}
/**
 * Small motions about rest.
 */
export interface StabilityArgs {
  /**
   * Line, Pa over sump.
   */
  line_pa: number;
  moving?: MovingFigures;
  /**
   * What of the demand is open, over the stated one (0 to 10); none: all.
   */
  open_ratio?: number | null;
  valve: RegulatorSource;
}
/**
 * Small motions about rest, and what they rest on.
 */
export interface StabilityAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  moving: MovingFigures;
  rest: RestModes;
  /**
   * Those of them that weren't given.
   */
  typical: MovingFigure[];
}
/**
 * The modes at a state of rest; dry friction left out.
 */
export interface RestModes {
  /**
   * Feed at rest, Pa.
   */
  feed_pa: number;
  /**
   * Line, Pa.
   */
  line_pa: number;
  /**
   * Slowest to die first.
   */
  modes: MotionMode[];
  /**
   * The spool rests on a stop and takes no part.
   */
  on_stop: boolean;
  /**
   * Spool position at rest, m.
   */
  spool_position_m: number;
  /**
   * Whether all die out.
   */
  stable: boolean;
}
/**
 * One way in which a small disturbance goes.
 */
export interface MotionMode {
  /**
   * 1 creeps, 0 swings for ever, below 0 grows.
   */
  damping_ratio: number;
  /**
   * Swings a second, Hz; 0: it creeps.
   */
  frequency_hz: number;
  /**
   * It goes as exp(growth t), 1/s; negative dies out.
   */
  growth_per_s: number;
  /**
   * Natural frequency, Hz.
   */
  natural_frequency_hz: number;
}
/**
 * Feed against line, at rest.
 */
export interface FeedCurveArgs {
  /**
   * Lowest line, Pa.
   */
  line_from_pa: number;
  /**
   * Highest line, Pa.
   */
  line_to_pa: number;
  /**
   * How many line pressures, 2 to 2,000; none: 41.
   */
  points?: number | null;
  valve: RegulatorSource;
}
/**
 * The curve.
 */
export interface FeedCurveAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * Highest less lowest feed there, Pa.
   */
  droop_pa?: number | null;
  /**
   * Widest gap between the branches there, Pa.
   */
  hysteresis_pa?: number | null;
  /**
   * In the order of line.
   */
  points: FeedCurvePoint[];
  /**
   * From and to which line it regulates on both branches, Pa; none: nowhere.
   *
   * @minItems 2
   * @maxItems 2
   */
  regulating_pa?: number[] | null;
}
/**
 * Feed at one line pressure, the spool having come from either side.
 */
export interface FeedCurvePoint {
  /**
   * Feed while line falls, Pa.
   */
  falling_pa: number;
  falling_state: RegulationState;
  /**
   * Line, Pa.
   */
  line_pa: number;
  /**
   * Feed while line rises, Pa.
   */
  rising_pa: number;
  rising_state: RegulationState;
}
/**
 * Try a valve out.
 */
export interface ExploreArgs {
  profile: BoreProfile;
  /**
   * The relief to add where the setting asks for one and the profile has none.
   */
  relief?: Relief | null;
  /**
   * What is known of its seals; none: they count as new.
   */
  seals?: SealsFound | null;
  setting: Setting;
}
/**
 * What the valve does as it is set.
 */
export interface ExploreAnswer {
  /**
   * The bore where it stands under the line pressure that is set; none while that is nowhere.
   */
  drawing?: BoreDrawing | null;
  explored: Explored;
  /**
   * The regulated pressure there, with the band of the curve, Pa.
   */
  feed_pa?: Span | null;
  profile: BoreProfile;
  /**
   * Radial clearance at 20 °C for them, m; none: as new.
   */
  radial_clearance_m?: number | null;
  /**
   * The lands of that clearance, where a test reached only some; the calculations of motion take
   * the others between new and it, as the curve does. None: all lands.
   */
  tested_lands?: string[] | null;
}
/**
 * What a valve does as it is set.
 */
export interface Explored {
  /**
   * What was assumed.
   */
  assumptions: Assumed[];
  consequence: ConsequenceAnswer;
  /**
   * What can't be true of the setting, at its fields, and what the profile lacks.
   */
  findings: Finding[];
}
/**
 * The regulated pressure with all that is unknown of the valve drawn together.
 */
export interface FeedBandArgs {
  /**
   * Share of the test's flow that the blank took, 0 to 0.9; none: no blank.
   */
  blank_share?: number | null;
  /**
   * Line, Pa over sump.
   */
  line_pa: number;
  /**
   * Temperature of the oil, K.
   */
  oil_temperature_k: number;
  profile: BoreProfile;
  seals: SealsFound;
  /**
   * The same seed gives the same answer; none: the program's own.
   */
  seed?: number | null;
  /**
   * Trials of the ranking, each fifteen solutions, 100 to 20,000; none: 1,000; 0: no ranking.
   */
  share_trials?: number | null;
  /**
   * Trials, 100 to 200,000; none: 10,000.
   */
  trials?: number | null;
}
/**
 * The regulated pressure at one line pressure.
 */
export interface FeedBandAnswer {
  /**
   * Standard uncertainty, Pa.
   */
  deviation_pa: number;
  /**
   * Share of the trials without an answer; the rest is of the others.
   */
  failed_share: number;
  feed_pa: Span;
  /**
   * Line, Pa.
   */
  line_pa: number;
  /**
   * Mean, Pa.
   */
  mean_pa: number;
  /**
   * Share of the trials in which the spool regulates.
   */
  regulating_share: number;
  /**
   * The seed.
   */
  seed: number;
  /**
   * What makes the band wide, widest first; empty when not asked.
   */
  shares: BandShare[];
  /**
   * The shortest interval that holds 95 %, Pa.
   *
   * @minItems 2
   * @maxItems 2
   */
  shortest_pa: number[];
  /**
   * Skewness; none: nothing varies.
   */
  skewness?: number | null;
  /**
   * Trials made.
   */
  trials: number;
}
/**
 * What one unknown brings to the spread (Sobol's indices).
 */
export interface BandShare {
  /**
   * Share of the variance that would go if it were known.
   */
  alone: number;
  /**
   * Standard error of `alone`.
   */
  alone_error: number;
  input: BandInput;
  /**
   * Share that stays when all others are known.
   */
  total: number;
  /**
   * Standard error of `total`.
   */
  total_error: number;
}
/**
 * A main regulator with its pump, at a pressure of the solenoid.
 */
export interface MainRegulatorArgs {
  branch?: SpoolBranch;
  main: MainRegulatorParts;
  oil: OilFigures;
  pump: PumpParts;
  /**
   * What the solenoid gives to the boost chamber, Pa.
   */
  solenoid_output_pa: number;
}
/**
 * A main regulator of the bypass kind.
 */
export interface MainRegulatorParts {
  /**
   * Between line and reaction chamber; none: one space.
   */
  balance_orifice?: OrificeParts | null;
  /**
   * Area that boost acts on, m².
   */
  boost_area_m2: number;
  /**
   * Between the solenoid's output and the boost chamber; none: one space.
   */
  boost_orifice?: OrificeParts | null;
  demand: OutletDemand;
  dump: EdgeParts;
  /**
   * Dry friction, N.
   */
  friction_n?: number;
  /**
   * Every land that leaks.
   */
  leaks?: MainLeakParts[];
  /**
   * A passage fed before suction, if there is one.
   */
  overflow?: OverflowParts | null;
  /**
   * Area that the reaction chamber acts on, m².
   */
  reaction_area_m2: number;
  /**
   * Relief from line to sump, if there is one.
   */
  relief?: ReliefParts | null;
  spring: SpringParts;
  /**
   * Travel, m.
   */
  stroke_m: number;
}
/**
 * Oil that passes a land of a main regulator.
 */
export interface MainLeakParts {
  from: MainPlace;
  gap: GapShape;
  to: MainPlace;
}
/**
 * A passage fed with what the pump has left over.
 */
export interface OverflowParts {
  edge: EdgeParts;
  /**
   * At which pressure it stands, Pa.
   */
  pressure_pa: number;
}
/**
 * A pump of fixed displacement at one speed.
 */
export interface PumpParts {
  /**
   * The pressure at which the slip was stated, Pa.
   */
  at_pressure_pa: number;
  /**
   * Displacement times speed, m³/s.
   */
  ideal_flow_m3_s: number;
  /**
   * What slips back, m³/s.
   */
  slip_m3_s: number;
  stated_in: OilFigures;
}
/**
 * The main regulator at rest.
 */
export interface MainRegulatorAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  /**
   * Solenoid to boost chamber, m³/s.
   */
  boost_m3_s: number;
  /**
   * Boost chamber, Pa.
   */
  boost_pa: number;
  /**
   * Line to what takes from it, m³/s.
   */
  demand_m3_s: number;
  /**
   * Line back to suction, m³/s.
   */
  dump_m3_s: number;
  /**
   * Line to the feed regulator, m³/s; 0 where it isn't in the circuit.
   */
  feed_regulator_m3_s: number;
  /**
   * Steady flow force of the edges, N.
   */
  flow_force_n: number;
  /**
   * Each land's leak in the order asked, m³/s.
   */
  leaks_m3_s: number[];
  /**
   * Line, Pa.
   */
  line_pa: number;
  /**
   * Line to the overflow passage, m³/s.
   */
  overflow_m3_s: number;
  /**
   * What the pump delivers, m³/s.
   */
  pump_m3_s: number;
  /**
   * Reaction chamber, Pa.
   */
  reaction_pa: number;
  /**
   * Line to sump through the relief, m³/s.
   */
  relief_m3_s: number;
  state: MainSpoolState;
  /**
   * Spool position, m.
   */
  stroke_m: number;
}
/**
 * Pump, main regulator, feed regulator and pressure-control solenoid.
 */
export interface SupplyCircuitArgs {
  branch?: SpoolBranch;
  feed: RegulatorParts;
  main: MainRegulatorParts;
  oil: OilFigures;
  pump: PumpParts;
  solenoid: SolenoidMakes;
}
/**
 * Line, feed and boost at rest.
 */
export interface SupplyCircuitAnswer {
  /**
   * What it rests on.
   */
  assumptions: Assumed[];
  feed: FeedSideAnswer;
  /**
   * Where control is lost; empty: all is held.
   */
  lost: ControlLost[];
  main: MainRegulatorAnswer;
  /**
   * What it draws from feed, m³/s.
   */
  solenoid_draw_m3_s: number;
  /**
   * What it lets out of oil pushed back, m³/s.
   */
  solenoid_exhaust_m3_s: number;
  /**
   * What the solenoid gives, Pa.
   */
  solenoid_output_pa: number;
}
/**
 * The feed regulator of a circuit, at rest.
 */
export interface FeedSideAnswer {
  /**
   * Feed to the solenoids, m³/s.
   */
  demand_m3_s: number;
  /**
   * Feed to sump through the exhaust, m³/s.
   */
  exhaust_m3_s: number;
  /**
   * Feed, Pa.
   */
  feed_pa: number;
  /**
   * Reaction chamber, Pa.
   */
  reaction_pa: number;
  /**
   * Spool position, m.
   */
  stroke_m: number;
  /**
   * Line to feed, m³/s.
   */
  supply_m3_s: number;
}
/**
 * A calculation with uncertain figures.
 */
export interface MonteCarloArgs {
  /**
   * Share of the distribution that the intervals hold, 0.5 to 0.999; none: 0.95.
   */
  coverage?: number | null;
  model: SpreadModel;
  /**
   * The same seed gives the same answer; none: the program's own.
   */
  seed?: number | null;
  /**
   * Trials of the ranking, each as many solutions as there are figures and two, 100 to 20,000;
   * none: 2,000; 0: no ranking.
   */
  share_trials?: number | null;
  /**
   * Trials, 100 to 200,000; none: 20,000.
   */
  trials?: number | null;
}
/**
 * The distribution of the result, in the unit of the model's.
 */
export interface MonteCarloAnswer {
  /**
   * Standard uncertainty.
   */
  deviation: number;
  /**
   * Share of the trials that the calculation refused; the rest is of the others.
   */
  failed_share: number;
  /**
   * Mean.
   */
  mean: number;
  /**
   * Standard error of the mean, for want of more trials.
   */
  mean_error: number;
  /**
   * The seed.
   */
  seed: number;
  /**
   * What makes the spread, most first; empty when not asked.
   */
  shares: InputShare[];
  /**
   * The shortest interval.
   *
   * @minItems 2
   * @maxItems 2
   */
  shortest: number[];
  /**
   * Skewness; none: nothing varies.
   */
  skewness?: number | null;
  symmetric: Span;
  /**
   * Trials made.
   */
  trials: number;
}
/**
 * What one figure brings to the spread (Sobol's indices).
 */
export interface InputShare {
  /**
   * Share of the variance that would go if it were known.
   */
  alone: number;
  /**
   * Standard error of `alone`.
   */
  alone_error: number;
  /**
   * The figure's name in the model.
   */
  input: string;
  /**
   * Share that stays when all others are known.
   */
  total: number;
  /**
   * Standard error of `total`.
   */
  total_error: number;
}
/**
 * Begin long work.
 */
export interface TaskBegin {
  work: LongWork;
}
/**
 * The same transient with one part changed, on all cores. Damping that isn't given is that of the
 * regulator as told, for every value.
 */
export interface SweepArgs {
  moving?: MovingFigures;
  over: SweepOver;
  scenario: MotionScenario;
  valve: RegulatorSource;
}
/**
 * One task.
 */
export interface TaskRef {
  /**
   * Its handle.
   */
  task: number;
}
/**
 * How far a task is.
 */
export interface TaskView {
  /**
   * Steps done; never goes back.
   */
  done: number;
  state: TaskState;
  /**
   * Its handle.
   */
  task: number;
  /**
   * Steps in all; 0: nobody knows yet.
   */
  total: number;
}
/**
 * All values, in their order.
 */
export interface SweepAnswer {
  moving: MovingFigures;
  /**
   * Those of them that weren't given.
   */
  typical: MovingFigure[];
  /**
   * One for each value.
   */
  values: SweepValue[];
}
/**
 * What one value came to.
 */
export interface SweepValue {
  /**
   * Why there is no transient.
   */
  error?: ApiError | null;
  /**
   * Modes at the start's line and demand; none: they weren't found.
   */
  stability?: RestModes | null;
  /**
   * What can be read from its transient; none: see `error`.
   */
  summary?: MotionSummary | null;
  /**
   * The value, m or N.
   */
  value: number;
}
