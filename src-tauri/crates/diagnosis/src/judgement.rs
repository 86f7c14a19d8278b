//! What a judgement says: the shapes that the interface draws. SI, finite, named with their unit.

use crate::assumed::Assumed;
use model::bench::Verdict;
use model::unit::LeakLaw;
use model::{Finding, Finite};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A low, a likely and a high value of one quantity. Asymmetric on purpose: a predicted shift is
/// never a bare ±.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Span {
    /// Low end.
    pub low: Finite,
    /// Likely value.
    pub likely: Finite,
    /// High end.
    pub high: Finite,
}

/// Everything that one vacuum test says.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Judgement {
    /// The barometer that was used, Pa absolute; none until the air is known.
    pub barometer_pa: Option<Finite>,
    /// Mean and spread of the readings; none without readings.
    pub readings: Option<ReadingSummary>,
    /// The limit carried to the day; none where the profile has none.
    pub limit: Option<LimitOfTheDay>,
    /// The decision; none without a limit or readings.
    pub decision: Option<LimitDecision>,
    /// The stand as calibrated on the day; none without enough orifice readings.
    pub stand: Option<StandFit>,
    /// The leak, or why it can't be told; none without readings.
    pub leak: Option<LeakAnswer>,
    /// What the leak does to the pressure, or why that can't be told; none without readings.
    pub consequence: Option<ConsequenceAnswer>,
    /// What is odd.
    pub findings: Vec<Finding>,
    /// What was assumed.
    pub assumptions: Vec<Assumed>,
    /// Digest of the profile that was used.
    pub profile_digest: String,
    /// Version of the physics that was used.
    pub physics_version: String,
}

/// Mean, spread and uncertainty of the readings that count.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ReadingSummary {
    /// All readings that stand.
    pub count: u32,
    /// Those that count as repeats.
    pub independent_count: u32,
    /// Mean, Pa below ambient.
    pub mean_vacuum_pa: Finite,
    /// Largest less smallest, Pa.
    pub spread_pa: Finite,
    /// Standard uncertainty of the mean, gauge included, Pa.
    pub standard_uncertainty_pa: Finite,
    /// Uncertainty expanded to 95 %, Pa.
    pub expanded_uncertainty_pa: Finite,
    /// Where the uncertainty comes from, largest first; shares of the variance add to 1.
    pub contributions: Vec<Contribution>,
}

/// One source of uncertainty.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Contribution {
    /// What contributes.
    pub source: UncertaintySource,
    /// Share of the variance, 0 to 1.
    pub share: Finite,
}

/// Sources of uncertainty of a reading.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum UncertaintySource {
    /// The gauge's limits of error.
    GaugeError,
    /// The smallest step that can be read.
    GaugeResolution,
    /// Scatter of the repeats.
    Repeats,
    /// The barometer, through the limit.
    Barometer,
}

/// The limit at sea level and on the day.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LimitOfTheDay {
    /// As the service information has it, Pa below ambient at sea level.
    pub sea_level_vacuum_pa: Finite,
    /// Carried to the day's barometer, Pa below ambient.
    pub today_vacuum_pa: Finite,
    /// By which law.
    pub law: LeakLaw,
    /// Who set it.
    pub source: String,
}

/// Three-way decision with its probability.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LimitDecision {
    /// The verdict.
    pub verdict: Verdict,
    /// Probability that the true reading meets the limit.
    pub conformity_probability: Finite,
    /// Uncertainty that the decision used, gauge, repeats and barometer together, Pa.
    pub standard_uncertainty_pa: Finite,
}

/// The stand as its orifices show it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct StandFit {
    /// Pull, m³/s.
    pub pull_m3_s: Finite,
    /// Absolute pressure with the hose closed, Pa.
    pub dead_head_pressure_pa: Finite,
    /// Hose resistance, Pa·s/m³ (p_port² = p_gauge² + R q).
    pub hose_resistance_pa_s_m3: Finite,
    /// What the fitted stand would read less what it did, per orifice, Pa.
    pub residuals: Vec<StandResidual>,
}

/// How well one orifice fits.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct StandResidual {
    /// The orifice.
    pub label: String,
    /// Fitted less read, Pa.
    pub residual_pa: Finite,
}

/// The leak, or a plain refusal.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "answer", rename_all = "snake_case")]
pub enum LeakAnswer {
    /// The leak is known.
    Known(Leak),
    /// It can't be told.
    Refused {
        /// Why.
        reason: LeakRefusal,
    },
}

/// Why a reading says nothing about the gap.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum LeakRefusal {
    /// The air isn't known yet.
    NoBarometer,
    /// The set-up isn't recorded.
    NoSetup,
    /// The stand was not calibrated on the day.
    NoCalibratedStand,
    /// Oil on the lands.
    Oiled,
    /// The balance orifice takes nearly the whole drop.
    OrificeTakesDrop,
    /// No valve in the bore.
    ValveAbsent,
    /// The reading contradicts the stand or the blank: see the findings.
    ReadingContradicts,
    /// The reading is so near the dead head that only an upper bound could be given.
    TooTight,
    /// The profile lacks the lands that the test isolates.
    ProfileIncomplete,
    /// No gap within the model's range gives this reading.
    OutsideModel,
}

/// A leak that no longer depends on the stand or the altitude.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Leak {
    /// Gap factor K = D c³ (1 + 1.5 e²) / L of all tested seals together, m³: from the reading's
    /// uncertainty.
    pub gap_factor_m3: Span,
    /// Diameter of the hole that would leak as much air, m.
    pub equivalent_hole_m: Finite,
    /// Diametral clearance if the valve lies fully off-centre, m.
    pub clearance_off_centre_m: Span,
    /// Diametral clearance if it lies centred, m.
    pub clearance_centred_m: Span,
    /// Diametral clearance as new, m, by the profile.
    pub clearance_new_m: Finite,
    /// pV flow through the lands, Pa·m³/s.
    pub throughput_w: Finite,
    /// Absolute pressure in the evacuated chamber, Pa.
    pub chamber_pressure_pa: Finite,
    /// Share of the drop that the balance orifice takes, 0 to 1.
    pub orifice_drop_share: Finite,
    /// Share of the whole flow that is plug and plate, 0 to 1.
    pub blank_share: Finite,
    /// The reading that this bore would give at sea level on the reference stand, Pa below ambient.
    pub reference_vacuum_pa: Finite,
}

/// What the leak does, or why that can't be told.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "answer", rename_all = "snake_case")]
pub enum ConsequenceAnswer {
    /// Computed.
    Computed(Box<Consequence>),
    /// Withheld.
    Withheld {
        /// Why.
        reason: ConsequenceRefusal,
    },
}

/// Why there is no pressure prediction.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ConsequenceRefusal {
    /// The leak isn't known.
    NoLeak,
    /// The profile lacks a dimension, or two contradict each other.
    ProfileIncomplete,
    /// The model found no balance for these figures.
    NoBalance,
    /// The repair's dimensions weren't entered.
    NoDimensions,
}

/// Regulated pressure against line pressure, hot, as new and as measured.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Consequence {
    /// Oil temperature, K.
    pub oil_temperature_k: Finite,
    /// Dynamic viscosity of the oil there, Pa·s.
    pub oil_viscosity_pa_s: Finite,
    /// What the circuit is meant to hold, Pa.
    pub setpoint_pa: Finite,
    /// Lowest specified, Pa.
    pub specified_low_pa: Finite,
    /// Highest specified, Pa.
    pub specified_high_pa: Finite,
    /// The valve as new, and as measured, over the range of line pressures.
    pub curve: Vec<CurvePoint>,
    /// At hot idle.
    pub idle: OperatingPoint,
    /// At the highest line pressure.
    pub highest_line: OperatingPoint,
    /// What was varied to get the band.
    pub band_from: Vec<BandSource>,
    /// Spool stroke while regulating at the highest line, as measured, m.
    pub stroke_m: Finite,
    /// Oil that leaks through the tested seals at the highest line, m³/s.
    pub leak_flow_m3_s: Span,
}

/// One line pressure of the plot.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CurvePoint {
    /// Line pressure, Pa.
    pub line_pa: Finite,
    /// Feed as new, Pa; low and high by friction.
    pub new_feed_pa: Span,
    /// State as new.
    pub new_state: RegulationState,
    /// Feed as measured, Pa.
    pub measured_feed_pa: Span,
    /// State as measured (of the likely curve).
    pub measured_state: RegulationState,
}

/// What the valve does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum RegulationState {
    /// It holds the pressure.
    Regulating,
    /// Line is below the setpoint: the supply is wide open and feed follows line.
    FollowsLine,
    /// It has lost control: the supply is shut and feed climbs all the same.
    LostControl,
}

/// Pressure at one working point and how far the wear moves it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OperatingPoint {
    /// Line pressure, Pa.
    pub line_pa: Finite,
    /// Feed as new, Pa.
    pub new_feed_pa: Span,
    /// State as new.
    pub new_state: RegulationState,
    /// Feed as measured, Pa.
    pub measured_feed_pa: Span,
    /// State as measured, of the likely value.
    pub measured_state: RegulationState,
    /// The worst state that the unknowns allow, all seals leaking most at once included.
    pub worst_state: RegulationState,
    /// Shift, Pa; none where either is not regulating.
    pub shift_pa: Option<Span>,
    /// Where the measured feed stands to the specification; none where it isn't regulating.
    pub against_specification: Option<SpecificationAnswer>,
}

/// Where a predicted span stands to the specified one.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SpecificationAnswer {
    /// The whole span lies inside.
    Inside,
    /// The likely value lies inside, an end of the span outside.
    LikelyInside,
    /// The likely value lies outside, an end of the span inside.
    LikelyOutside,
    /// The whole span lies outside.
    Outside,
}

/// What makes a predicted band wide.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum BandSource {
    /// How far off-centre the valve lay in the test and lies in service.
    Eccentricity,
    /// The uncertainty of the reading.
    Reading,
    /// Seals that the test doesn't reach.
    UntestedSeals,
    /// Sliding friction.
    Friction,
    /// The published laws of small orifices differ.
    OrificeModel,
    /// How well the spring's load is known: as measured, or by its tolerance.
    SpringLoad,
    /// How well the bore of the balance orifice was measured.
    OrificeBore,
    /// How loosely a sleeve sits in its bore.
    SleeveSeat,
}
