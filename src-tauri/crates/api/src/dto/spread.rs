//! What is uncertain, and what it makes of a result: Monte Carlo with a fixed seed.

use diagnosis::judgement::Span;
use model::Finite;
use model::unit::BoreProfile;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::SealsFound;

/// The regulated pressure with all that is unknown of the valve drawn together.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FeedBandArgs {
    /// The bore.
    pub profile: BoreProfile,
    /// What the test found of its seals.
    pub seals: SealsFound,
    /// Temperature of the oil, K.
    pub oil_temperature_k: Finite,
    /// Line, Pa over sump.
    pub line_pa: Finite,
    /// Share of the test's flow that the blank took, 0 to 0.9; none: no blank.
    #[serde(default)]
    pub blank_share: Option<Finite>,
    /// Trials, 100 to 200,000; none: 10,000.
    #[serde(default)]
    pub trials: Option<u32>,
    /// Trials of the ranking, each fifteen solutions, 100 to 20,000; none: 1,000; 0: no ranking.
    #[serde(default)]
    pub share_trials: Option<u32>,
    /// The same seed gives the same answer; none: the program's own.
    #[serde(default)]
    pub seed: Option<u32>,
}

/// What is unknown of a valve.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum BandInput {
    /// How far off-centre the valve lay in the test.
    EccentricityInTest,
    /// How far off-centre the tested lands lie in service.
    EccentricityTested,
    /// How far off-centre all others lie in service.
    EccentricityUntested,
    /// The vacuum reading.
    Reading,
    /// The blank that was subtracted.
    Blank,
    /// Clearance of the seals that the test doesn't reach.
    UntestedClearance,
    /// Engaged lengths of tested lands.
    EngagedLengthTested,
    /// Engaged lengths of all others.
    EngagedLengthUntested,
    /// What the balance orifice passes, its bore not being as drawn.
    OrificeFlow,
    /// The published laws of small orifices.
    OrificeLaw,
    /// Entry and exit loss of gaps.
    EntryExitLoss,
    /// Load of the spring.
    SpringLoad,
    /// Friction.
    Friction,
}

/// What one unknown brings to the spread (Sobol's indices).
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BandShare {
    /// Which.
    pub input: BandInput,
    /// Share of the variance that would go if it were known.
    pub alone: Finite,
    /// Share that stays when all others are known.
    pub total: Finite,
    /// Standard error of `alone`.
    pub alone_error: Finite,
    /// Standard error of `total`.
    pub total_error: Finite,
}

/// The regulated pressure at one line pressure.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FeedBandAnswer {
    /// Line, Pa.
    pub line_pa: Finite,
    /// The middle 95 % about the median, Pa.
    pub feed_pa: Span,
    /// The shortest interval that holds 95 %, Pa.
    pub shortest_pa: [Finite; 2],
    /// Mean, Pa.
    pub mean_pa: Finite,
    /// Standard uncertainty, Pa.
    pub deviation_pa: Finite,
    /// Skewness; none: nothing varies.
    pub skewness: Option<Finite>,
    /// Share of the trials in which the spool regulates.
    pub regulating_share: Finite,
    /// Share of the trials without an answer; the rest is of the others.
    pub failed_share: Finite,
    /// What makes the band wide, widest first; empty when not asked.
    pub shares: Vec<BandShare>,
    /// Trials made.
    pub trials: u32,
    /// The seed.
    pub seed: u32,
}

/// How one quantity is spread, in its own unit.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SpreadLaw {
    /// Known.
    Exactly(Finite),
    /// Normal.
    Normal {
        /// Estimate.
        mean: Finite,
        /// Standard uncertainty.
        deviation: Finite,
    },
    /// The mean of a few readings (Student).
    Student {
        /// Mean.
        mean: Finite,
        /// s / √n.
        scale: Finite,
        /// n - 1.
        degrees_of_freedom: Finite,
    },
    /// Anywhere between two limits.
    Rectangular {
        /// Lower limit.
        low: Finite,
        /// Upper limit.
        high: Finite,
    },
    /// Most likely in the middle.
    Triangular {
        /// Lower limit.
        low: Finite,
        /// Upper limit.
        high: Finite,
    },
    /// Cycling between two limits.
    UShaped {
        /// Lower limit.
        low: Finite,
        /// Upper limit.
        high: Finite,
    },
    /// Between two positive limits, each factor alike.
    LogUniform {
        /// Lower limit.
        low: Finite,
        /// Upper limit.
        high: Finite,
    },
}

/// A calculation, each of its figures as it is spread. The result's unit is in the name of the
/// calculation's own answer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum SpreadModel {
    /// P = F / A; gives Pa.
    SpringPressure {
        /// Load, N.
        load_n: SpreadLaw,
        /// Area, m².
        area_m2: SpreadLaw,
    },
    /// Oil through a drilled orifice; gives m³/s.
    OilOrifice {
        /// Bore, m.
        diameter_m: SpreadLaw,
        /// Length, m.
        length_m: SpreadLaw,
        /// Drop, Pa.
        drop_pa: SpreadLaw,
        /// Viscosity, Pa·s.
        viscosity_pa_s: SpreadLaw,
        /// Density, kg/m³.
        density_kg_m3: SpreadLaw,
    },
    /// Oil through an annular gap; gives m³/s.
    OilGap {
        /// Mean diameter, m.
        mean_diameter_m: SpreadLaw,
        /// Radial clearance, m.
        radial_clearance_m: SpreadLaw,
        /// Engaged length, m.
        engaged_length_m: SpreadLaw,
        /// Eccentricity, 0 to 1.
        eccentricity: SpreadLaw,
        /// Drop, Pa.
        drop_pa: SpreadLaw,
        /// Viscosity, Pa·s.
        viscosity_pa_s: SpreadLaw,
        /// Density, kg/m³.
        density_kg_m3: SpreadLaw,
    },
    /// The clearance behind a flow of air; gives m.
    AirClearance {
        /// pV flow, Pa·m³/s.
        throughput_w: SpreadLaw,
        /// Mean diameter, m.
        mean_diameter_m: SpreadLaw,
        /// Engaged length, m.
        engaged_length_m: SpreadLaw,
        /// Eccentricity, 0 to 1.
        eccentricity: SpreadLaw,
        /// Before the gap, Pa absolute.
        upstream_pa: SpreadLaw,
        /// Behind it, Pa absolute.
        downstream_pa: SpreadLaw,
        /// Air, K.
        air_temperature_k: SpreadLaw,
    },
}

/// A calculation with uncertain figures.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MonteCarloArgs {
    /// The calculation.
    pub model: SpreadModel,
    /// Share of the distribution that the intervals hold, 0.5 to 0.999; none: 0.95.
    #[serde(default)]
    pub coverage: Option<Finite>,
    /// Trials, 100 to 200,000; none: 20,000.
    #[serde(default)]
    pub trials: Option<u32>,
    /// Trials of the ranking, each as many solutions as there are figures and two, 100 to 20,000;
    /// none: 2,000; 0: no ranking.
    #[serde(default)]
    pub share_trials: Option<u32>,
    /// The same seed gives the same answer; none: the program's own.
    #[serde(default)]
    pub seed: Option<u32>,
}

/// What one figure brings to the spread (Sobol's indices).
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct InputShare {
    /// The figure's name in the model.
    pub input: String,
    /// Share of the variance that would go if it were known.
    pub alone: Finite,
    /// Share that stays when all others are known.
    pub total: Finite,
    /// Standard error of `alone`.
    pub alone_error: Finite,
    /// Standard error of `total`.
    pub total_error: Finite,
}

/// The distribution of the result, in the unit of the model's.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct MonteCarloAnswer {
    /// Mean.
    pub mean: Finite,
    /// Standard error of the mean, for want of more trials.
    pub mean_error: Finite,
    /// Standard uncertainty.
    pub deviation: Finite,
    /// Skewness; none: nothing varies.
    pub skewness: Option<Finite>,
    /// Median, with the interval that leaves as much on either side.
    pub symmetric: Span,
    /// The shortest interval.
    pub shortest: [Finite; 2],
    /// Share of the trials that the calculation refused; the rest is of the others.
    pub failed_share: Finite,
    /// What makes the spread, most first; empty when not asked.
    pub shares: Vec<InputShare>,
    /// Trials made.
    pub trials: u32,
    /// The seed.
    pub seed: u32,
}
