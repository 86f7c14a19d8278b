//! A regulator in motion: what is asked, and the transient, modes and curve that come of it.

use diagnosis::Assumed;
use diagnosis::judgement::RegulationState;
use model::Finite;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{RegulatorSource, SpoolBranch};

/// What moves. Every figure may be left out: the answer says which were and what was taken.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct MovingFigures {
    /// Spool with a third of its spring, kg. Typical: 0.02.
    pub spool_mass_kg: Option<Finite>,
    /// Viscous damping, N·s/m. Left out: the oil films of the lands that leak (Petroff) and nothing
    /// else. That is the least there is: a spool may swing less than such an answer says.
    pub damping_n_s_per_m: Option<Finite>,
    /// Break-away friction over sliding friction, 1 to 5. Typical: 1.3.
    pub breakaway_ratio: Option<Finite>,
    /// Oil between regulator and outlets, m³. Typical: 3e-5 (30 mL).
    pub feed_volume_m3: Option<Finite>,
    /// Reaction chamber with the spool at 0, m³. Typical: 4e-7 (0.4 mL).
    pub reaction_volume_m3: Option<Finite>,
    /// Spring chamber with the spool at the end of its stroke, m³. Typical: 6e-7 (0.6 mL).
    pub chamber_volume_m3: Option<Finite>,
    /// Bulk modulus of the oil itself, Pa. Typical: 1.4e9.
    pub liquid_bulk_modulus_pa: Option<Finite>,
    /// Free air by volume at the barometer, 0 to 0.3. Typical: 0.01.
    pub entrained_air_ratio: Option<Finite>,
    /// Exponent of the bubbles' compression, 1 to 1.4. Typical: 1 (isothermal).
    pub air_exponent_ratio: Option<Finite>,
    /// Barometer, Pa. Typical: 101325.
    pub barometer_pa: Option<Finite>,
}

/// A figure of [`MovingFigures`].
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum MovingFigure {
    /// Spool mass.
    SpoolMass,
    /// Viscous damping.
    Damping,
    /// Break-away friction.
    Breakaway,
    /// Feed volume.
    FeedVolume,
    /// Reaction chamber.
    ReactionVolume,
    /// Spring chamber.
    ChamberVolume,
    /// Bulk modulus.
    LiquidBulkModulus,
    /// Free air.
    EntrainedAir,
    /// Exponent of the bubbles.
    AirExponent,
    /// Barometer.
    Barometer,
}

/// Line pressure with time, Pa over sump.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum LineCourse {
    /// Always the same.
    Constant {
        /// Line, Pa.
        line_pa: Finite,
    },
    /// One value until a moment, another from then on.
    Step {
        /// Before, Pa.
        from_pa: Finite,
        /// After, Pa.
        to_pa: Finite,
        /// When, s.
        at_s: Finite,
    },
    /// Straight from one value to another.
    Ramp {
        /// Until the start, Pa.
        from_pa: Finite,
        /// From the end on, Pa.
        to_pa: Finite,
        /// Start, s.
        start_s: Finite,
        /// End, s.
        end_s: Finite,
    },
    /// Recorded values in the order of time, straight between and held beyond; at most 20,000.
    Trace {
        /// Moments, s.
        time_s: Vec<Finite>,
        /// Line at each, Pa.
        line_pa: Vec<Finite>,
    },
}

/// The pump's ripple on top of the line's course: frequency = speed × elements.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PumpRipple {
    /// Height of a crest above the mean, Pa.
    pub amplitude_pa: Finite,
    /// Turns of the pump a second, Hz.
    pub pump_speed_hz: Finite,
    /// Vanes or teeth.
    pub elements: u32,
}

/// What of the demand is open with time, over the stated one (0 to 10).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum OutletCourse {
    /// Always the same.
    Constant {
        /// Share.
        open_ratio: Finite,
    },
    /// One value until a moment, another from then on.
    Step {
        /// Before.
        from_ratio: Finite,
        /// After.
        to_ratio: Finite,
        /// When, s.
        at_s: Finite,
    },
    /// Straight from one value to another.
    Ramp {
        /// Until the start.
        from_ratio: Finite,
        /// From the end on.
        to_ratio: Finite,
        /// Start, s.
        start_s: Finite,
        /// End, s.
        end_s: Finite,
    },
    /// Values in the order of time, straight between and held beyond.
    Trace {
        /// Moments, s.
        time_s: Vec<Finite>,
        /// Share at each.
        open_ratio: Vec<Finite>,
    },
}

/// Where everything is at the start.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum MotionStart {
    /// At rest under what stands before the start.
    Rest(SpoolBranch),
    /// No pressure anywhere, the spool on its open stop.
    Empty,
}

impl Default for MotionStart {
    fn default() -> Self {
        Self::Rest(SpoolBranch::Frictionless)
    }
}

/// What a regulator is put through.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MotionScenario {
    /// Line.
    pub line: LineCourse,
    /// Ripple on it, if any.
    #[serde(default)]
    pub ripple: Option<PumpRipple>,
    /// Demand; none: all of it, always.
    #[serde(default)]
    pub demand: Option<OutletCourse>,
    /// Where it starts.
    #[serde(default)]
    pub start: MotionStart,
    /// How long, s.
    pub duration_s: Finite,
    /// Points of the trace, 2 to 5,000; none: 1,000.
    #[serde(default)]
    pub points: Option<u32>,
    /// Relative error that a step may make, 1e-10 to 1e-2; none: 1e-6.
    #[serde(default)]
    pub relative_tolerance: Option<Finite>,
    /// How near to its last value feed counts as settled, Pa; none: 10 kPa.
    #[serde(default)]
    pub settling_band_pa: Option<Finite>,
}

/// A regulator followed through time.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TransientArgs {
    /// The regulator.
    pub valve: RegulatorSource,
    /// What moves.
    #[serde(default)]
    pub moving: MovingFigures,
    /// What it is put through.
    pub scenario: MotionScenario,
}

/// Everything against time: lists of one length.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct MotionTrace {
    /// Time, s.
    pub time_s: Vec<Finite>,
    /// Line, Pa.
    pub line_pa: Vec<Finite>,
    /// Feed, Pa.
    pub feed_pa: Vec<Finite>,
    /// Reaction chamber, Pa.
    pub reaction_pa: Vec<Finite>,
    /// Spring chamber, Pa.
    pub spring_chamber_pa: Vec<Finite>,
    /// Spool position, m.
    pub spool_position_m: Vec<Finite>,
    /// Spool speed toward the closed stop, m/s.
    pub spool_speed_m_per_s: Vec<Finite>,
    /// What the solenoids take, m³/s.
    pub demand_m3_s: Vec<Finite>,
}

/// Whether feed swings by itself, the pump's ripple taken off.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SelfOscillation {
    /// No.
    None,
    /// It dies away.
    Dying,
    /// It lasts.
    Lasting {
        /// Swings a second, Hz.
        frequency_hz: Finite,
        /// Crest to trough, Pa.
        peak_to_peak_pa: Finite,
    },
    /// It still grows at the end.
    Growing {
        /// Swings a second, Hz.
        frequency_hz: Finite,
        /// Crest to trough so far, Pa.
        peak_to_peak_pa: Finite,
    },
    /// Too short to tell.
    TooShort,
}

/// What the solver did.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SolverCounts {
    /// Steps that held the tolerance.
    pub accepted: u32,
    /// Steps taken again, shorter.
    pub rejected: u32,
    /// Evaluations of the rates.
    pub rate_evaluations: u32,
    /// How often the spool met a stop.
    pub stop_contacts: u32,
    /// How often it stuck.
    pub sticks: u32,
    /// How often it broke away.
    pub break_aways: u32,
    /// Shortest step, s; none before the first.
    pub shortest_step_s: Option<Finite>,
    /// Longest step, s.
    pub longest_step_s: Finite,
}

/// What can be read from a transient, without its trace.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct MotionSummary {
    /// Lowest feed, Pa.
    pub feed_lowest_pa: Finite,
    /// Highest feed, Pa.
    pub feed_highest_pa: Finite,
    /// Mean feed at the end, Pa.
    pub feed_final_pa: Finite,
    /// Until feed stays in the band, s; none: it doesn't.
    pub settling_time_s: Option<Finite>,
    /// How far feed goes beyond where it ends up, Pa.
    pub overshoot_pa: Finite,
    /// Line at the end, crest to trough, Pa; none: too few points a period.
    pub ripple_in_pa: Option<Finite>,
    /// Feed at the end, crest to trough, Pa.
    pub ripple_out_pa: Option<Finite>,
    /// Whether feed swings by itself.
    pub oscillation: SelfOscillation,
    /// What the solver did.
    pub solver: SolverCounts,
}

/// The transient.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TransientAnswer {
    /// Everything against time.
    pub trace: MotionTrace,
    /// What can be read from it.
    pub summary: MotionSummary,
    /// Every figure of what moves, as taken.
    pub moving: MovingFigures,
    /// Those of them that weren't given: typical, or the films' damping.
    pub typical: Vec<MovingFigure>,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// Small motions about rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StabilityArgs {
    /// The regulator.
    pub valve: RegulatorSource,
    /// What moves.
    #[serde(default)]
    pub moving: MovingFigures,
    /// Line, Pa over sump.
    pub line_pa: Finite,
    /// What of the demand is open, over the stated one (0 to 10); none: all.
    #[serde(default)]
    pub open_ratio: Option<Finite>,
}

/// One way in which a small disturbance goes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct MotionMode {
    /// It goes as exp(growth t), 1/s; negative dies out.
    pub growth_per_s: Finite,
    /// Swings a second, Hz; 0: it creeps.
    pub frequency_hz: Finite,
    /// Natural frequency, Hz.
    pub natural_frequency_hz: Finite,
    /// 1 creeps, 0 swings for ever, below 0 grows.
    pub damping_ratio: Finite,
}

/// The modes at a state of rest; dry friction left out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RestModes {
    /// Line, Pa.
    pub line_pa: Finite,
    /// Feed at rest, Pa.
    pub feed_pa: Finite,
    /// Spool position at rest, m.
    pub spool_position_m: Finite,
    /// The spool rests on a stop and takes no part.
    pub on_stop: bool,
    /// Slowest to die first.
    pub modes: Vec<MotionMode>,
    /// Whether all die out.
    pub stable: bool,
}

/// Small motions about rest, and what they rest on.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct StabilityAnswer {
    /// Where it rests and how it moves there.
    pub rest: RestModes,
    /// Every figure of what moves, as taken.
    pub moving: MovingFigures,
    /// Those of them that weren't given.
    pub typical: Vec<MovingFigure>,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// Feed against line, at rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FeedCurveArgs {
    /// The regulator.
    pub valve: RegulatorSource,
    /// Lowest line, Pa.
    pub line_from_pa: Finite,
    /// Highest line, Pa.
    pub line_to_pa: Finite,
    /// How many line pressures, 2 to 2,000; none: 41.
    #[serde(default)]
    pub points: Option<u32>,
}

/// Feed at one line pressure, the spool having come from either side.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FeedCurvePoint {
    /// Line, Pa.
    pub line_pa: Finite,
    /// Feed while line rises, Pa.
    pub rising_pa: Finite,
    /// Feed while line falls, Pa.
    pub falling_pa: Finite,
    /// What the spool does while line rises.
    pub rising_state: RegulationState,
    /// What it does while line falls.
    pub falling_state: RegulationState,
}

/// The curve.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FeedCurveAnswer {
    /// In the order of line.
    pub points: Vec<FeedCurvePoint>,
    /// From and to which line it regulates on both branches, Pa; none: nowhere.
    pub regulating_pa: Option<[Finite; 2]>,
    /// Highest less lowest feed there, Pa.
    pub droop_pa: Option<Finite>,
    /// Widest gap between the branches there, Pa.
    pub hysteresis_pa: Option<Finite>,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}
