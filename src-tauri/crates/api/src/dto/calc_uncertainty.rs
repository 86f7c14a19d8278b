//! Uncertainty: contributions, repeats, instruments, and decisions. A quantity here is in one unit
//! that the caller keeps, its uncertainty in the same.

use model::Finite;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// One independent contribution, in the result's unit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct UncertaintyPart {
    /// What it is.
    pub name: String,
    /// Standard uncertainty.
    pub standard_uncertainty: Finite,
    /// How well that is known; none: exactly.
    #[serde(default)]
    pub degrees_of_freedom: Option<Finite>,
}

/// Contributions to combine.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CombineArgs {
    /// The contributions, 1 to 32.
    pub components: Vec<UncertaintyPart>,
    /// Confidence of the expanded uncertainty, 0.01 to 0.9999.
    pub confidence_ratio: Finite,
}

/// A contribution's share of the variance.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PartShare {
    /// Which.
    pub name: String,
    /// Share, 0 to 1.
    pub share_ratio: Finite,
}

/// Contributions combined.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CombineAnswer {
    /// Combined standard uncertainty.
    pub standard_uncertainty: Finite,
    /// Effective degrees of freedom; none for infinitely many.
    pub degrees_of_freedom: Option<Finite>,
    /// Expanded uncertainty at the confidence.
    pub expanded_uncertainty: Finite,
    /// Each share of the variance, largest first.
    pub shares: Vec<PartShare>,
}

/// A spread known from earlier work.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PooledSpread {
    /// Standard deviation of one reading.
    pub standard_deviation: Finite,
    /// Its degrees of freedom.
    pub degrees_of_freedom: Finite,
}

/// Repeated readings.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RepeatsArgs {
    /// The readings, 1 to 1000.
    pub readings: Vec<Finite>,
    /// Confidence of the half-width, 0.01 to 0.9999.
    pub confidence_ratio: Finite,
    /// A spread known from earlier work, in the place of the readings' own.
    #[serde(default)]
    pub pooled: Option<PooledSpread>,
}

/// Mean and spread of repeats.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RepeatsAnswer {
    /// How many.
    pub count: u32,
    /// Mean.
    pub mean: Finite,
    /// Largest less smallest.
    pub range: Finite,
    /// Standard deviation of one reading; none for a single one.
    pub standard_deviation: Option<Finite>,
    /// Standard uncertainty of the mean; none when nothing tells the spread.
    pub standard_uncertainty: Option<Finite>,
    /// Its degrees of freedom.
    pub degrees_of_freedom: Option<Finite>,
    /// Half-width of the interval for the mean at the confidence.
    pub half_width: Option<Finite>,
}

/// On which side of a limit a good value lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum LimitSide {
    /// The limit is the lowest good value.
    AtLeast,
    /// The limit is the highest good value.
    AtMost,
}

/// A measured value against a limit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DecideArgs {
    /// Measured value.
    pub measured: Finite,
    /// Its standard uncertainty.
    pub standard_uncertainty: Finite,
    /// Degrees of freedom of that; none: exactly known.
    #[serde(default)]
    pub degrees_of_freedom: Option<Finite>,
    /// The limit.
    pub limit: Finite,
    /// On which side good values lie.
    pub side: LimitSide,
    /// Confidence of the decision, 0.5 to 0.9999; none: 0.95.
    #[serde(default)]
    pub confidence_ratio: Option<Finite>,
}

/// The three answers.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ThreeWay {
    /// Conforms, with the confidence.
    WithinLimit,
    /// Neither can be said with it.
    TooCloseToCall,
    /// Doesn't conform, with the confidence.
    OutsideLimit,
}

/// The decision.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct DecideAnswer {
    /// The answer.
    pub verdict: ThreeWay,
    /// Probability that the true value conforms.
    pub probability_ratio: Finite,
    /// Guard band.
    pub guard_band: Finite,
    /// Measured values on the good side of this are within.
    pub acceptance_limit: Finite,
    /// Measured values on the bad side of this are outside.
    pub rejection_limit: Finite,
    /// Distance from the limit, positive on the good side.
    pub margin: Finite,
}

/// The largest error that is stated of an instrument.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum StatedError {
    /// So much either way, in the reading's unit.
    PlusMinus(Finite),
    /// Percent of span.
    ClassOfSpan {
        /// Percent.
        class_percent: Finite,
        /// Span, in the reading's unit.
        span: Finite,
    },
    /// A dial gauge's accuracy grade (ASME B40.100).
    Grade {
        /// The grade.
        grade: DialGrade,
        /// Span, in the reading's unit.
        span: Finite,
    },
}

/// Accuracy grades of dial gauges (ASME B40.100).
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum DialGrade {
    /// 4A.
    #[serde(rename = "4a")]
    Grade4A,
    /// 3A.
    #[serde(rename = "3a")]
    Grade3A,
    /// 2A.
    #[serde(rename = "2a")]
    Grade2A,
    /// 1A.
    #[serde(rename = "1a")]
    Grade1A,
    /// A.
    A,
    /// B.
    B,
    /// C.
    C,
    /// D.
    D,
}

/// A certificate's expanded uncertainty.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StatedCertificate {
    /// Expanded uncertainty, in the reading's unit.
    pub expanded_uncertainty: Finite,
    /// Coverage factor.
    pub coverage_factor: Finite,
}

/// When an instrument was calibrated and how it drifts.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StatedHistory {
    /// Days since the calibration; none: no record of one.
    #[serde(default)]
    pub age_days: Option<Finite>,
    /// After how many days it is due again; none: nobody said.
    #[serde(default)]
    pub interval_days: Option<Finite>,
    /// The most that it drifts in a year, in the reading's unit; none: not stated.
    #[serde(default)]
    pub drift_per_year: Option<Finite>,
}

/// An instrument at a reading.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct InstrumentArgs {
    /// The reading.
    pub reading: Finite,
    /// Largest error stated.
    #[serde(default)]
    pub max_error: Option<StatedError>,
    /// Smallest step that can be read.
    #[serde(default)]
    pub resolution: Option<Finite>,
    /// Certificate.
    #[serde(default)]
    pub certificate: Option<StatedCertificate>,
    /// Calibration history; none: the uncertainty is that of the day of the calibration.
    #[serde(default)]
    pub history: Option<StatedHistory>,
}

/// Whether a calibration still stands.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum CalibrationStanding {
    /// So many days are left.
    DaysLeft(Finite),
    /// It was due so many days ago.
    DaysOverdue(Finite),
    /// Nobody said for how long it holds.
    NoInterval,
    /// No calibration on record.
    NeverCalibrated,
}

/// What the instrument adds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct InstrumentAnswer {
    /// Standard uncertainty, with drift where it is known.
    pub standard_uncertainty: Finite,
    /// The same on the day of the calibration.
    pub when_calibrated: Finite,
    /// Each share of the variance, largest first.
    pub shares: Vec<PartShare>,
    /// Whether the calibration stands; none without a history.
    pub calibration: Option<CalibrationStanding>,
    /// False when drift is not in it, and the uncertainty may be understated.
    pub drift_included: bool,
}

/// How wide a guard band is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum GuardWanted {
    /// None: shared risk.
    None,
    /// So many times the expanded uncertainty of factor 2.
    OfExpandedRatio(Finite),
    /// So wide that what is accepted conforms with this probability.
    ProbabilityRatio(Finite),
}

/// A tolerance and what it is measured with.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GuardBandArgs {
    /// Lowest good value; none: no limit below.
    #[serde(default)]
    pub lower: Option<Finite>,
    /// Highest good value; none: no limit above.
    #[serde(default)]
    pub upper: Option<Finite>,
    /// Standard uncertainty of the measurement.
    pub standard_uncertainty: Finite,
    /// Degrees of freedom of that; none: exactly known.
    #[serde(default)]
    pub degrees_of_freedom: Option<Finite>,
    /// The guard band.
    pub guard: GuardWanted,
}

/// A pair of limits, either of which may be open.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OpenBounds {
    /// Lowest; none: open.
    pub lower: Option<Finite>,
    /// Highest; none: open.
    pub upper: Option<Finite>,
}

/// Limits of acceptance and rejection.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct GuardBandAnswer {
    /// Measured values within conform; none when the uncertainty is too large for the tolerance.
    pub accept: Option<OpenBounds>,
    /// Measured values beyond these don't conform.
    pub reject_beyond: OpenBounds,
    /// The guard band.
    pub guard_band: Finite,
    /// Measuring capability: tolerance over four standard uncertainties; none with one limit or
    /// without uncertainty.
    pub capability_ratio: Option<Finite>,
    /// Largest probability with which an accepted part may be bad, at one limit; none without
    /// uncertainty.
    pub largest_risk_ratio: Option<Finite>,
}
