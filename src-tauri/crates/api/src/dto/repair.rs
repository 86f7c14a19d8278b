//! Checking a relief, and a repair with what it was predicted to do and what it did.

use diagnosis::judgement::{ConsequenceAnswer, LimitDecision};
use diagnosis::pressure::SealEvidence;
use diagnosis::relief::ReliefAnswer;
use diagnosis::repair::{OpenPoint, RepairForecast};
use model::bench::Verdict;
use model::relief_check::ReliefFigures;
use model::repair::{RepairOption, RepairWork};
use model::unit::{BoreProfile, Relief};
use model::{Finding, Finite, Id};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{HazardState, OilCheckBeside, ReadBy, UndoState};

/// Ask for the relief check of a bore's circuit in a job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReliefGet {
    /// The job.
    pub job: Id,
    /// The bore.
    pub bore: Id,
}

/// Record a relief check, or say what it would give.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReliefRecord {
    /// The job.
    pub job: Id,
    /// The bore.
    pub bore: Id,
    /// What was entered.
    pub figures: ReliefFigures,
    /// True: say what it would give and what is wrong with it, write nothing.
    #[serde(default)]
    pub dry_run: bool,
}

/// What came of recording a relief check.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ReliefRecorded {
    /// True when it is on record.
    pub saved: bool,
    /// The check with the figures (also in a dry run, or when they can't be used).
    pub view: ReliefView,
}

/// A relief check as its screen shows it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ReliefView {
    /// The job.
    pub job: Id,
    /// Its number.
    pub job_number: String,
    /// The bore.
    pub bore: Id,
    /// Its name.
    pub bore_name: String,
    /// The circuit's name.
    pub circuit_name: String,
    /// True when the profile has a relief on this circuit.
    pub in_profile: bool,
    /// The figures: on record, or the profile's as long as nothing is.
    pub figures: ReliefFigures,
    /// Who recorded them; none: not on record.
    pub by: Option<ReadBy>,
    /// What they say.
    pub answer: ReliefAnswer,
    /// The job's hazards, for the line that stays in view.
    pub hazards: Vec<HazardState>,
    /// What undo and redo would do.
    pub undo: UndoState,
}

/// Check a relief without a store.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReliefArgs {
    /// The bore.
    pub profile: BoreProfile,
    /// The relief, the limit, and the clearance.
    pub figures: ReliefFigures,
}

/// Predict a repair without a store.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RepairArgs {
    /// The bore before the repair.
    pub profile: BoreProfile,
    /// The work.
    pub work: RepairWork,
    /// What the test before found.
    #[serde(default)]
    pub before: Option<SealsFound>,
    /// The relief, for a repair that adds one.
    #[serde(default)]
    pub relief: Option<Relief>,
}

/// Clearances on the diameter that a test found, each low, likely and high, m.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SealsFound {
    /// Names of the tested lands.
    pub tested_lands: Vec<String>,
    /// If the valve lay centred.
    pub centred_m: [Finite; 3],
    /// If it lay against one side.
    pub off_centre_m: [Finite; 3],
}

impl From<SealsFound> for SealEvidence {
    fn from(found: SealsFound) -> Self {
        use uom::si::f64::Length;
        use uom::si::length::meter;
        let radial = |ends: [Finite; 3]| ends.map(|end| Length::new::<meter>(*end / 2.0));
        Self {
            centred: radial(found.centred_m),
            off_centre: radial(found.off_centre_m),
            tested_lands: found.tested_lands,
        }
    }
}

impl TryFrom<&SealEvidence> for SealsFound {
    type Error = model::number::NotFinite;

    fn try_from(seals: &SealEvidence) -> Result<Self, Self::Error> {
        use uom::si::f64::Length;
        use uom::si::length::meter;
        let diametral = |[low, likely, high]: [Length; 3]| {
            let end = |radial: Length| Finite::try_from(2.0 * radial.get::<meter>());
            Ok::<_, Self::Error>([end(low)?, end(likely)?, end(high)?])
        };
        Ok(Self {
            tested_lands: seals.tested_lands.clone(),
            centred_m: diametral(seals.centred)?,
            off_centre_m: diametral(seals.off_centre)?,
        })
    }
}

/// Ask for a repair, or for what stands before a new one.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RepairGet {
    /// The job.
    pub job: Id,
    /// The bore.
    pub bore: Id,
    /// The repair; none: a new one.
    #[serde(default)]
    pub repair: Option<Id>,
}

/// Record a repair, or say what it would give.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RepairRecord {
    /// The job.
    pub job: Id,
    /// The bore.
    pub bore: Id,
    /// The repair to change; none: a new one.
    #[serde(default)]
    pub repair: Option<Id>,
    /// What was done.
    pub work: RepairWork,
    /// True: say what it would give and what is wrong with it, write nothing.
    #[serde(default)]
    pub dry_run: bool,
}

/// What came of recording a repair.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RepairRecorded {
    /// True when it is on record.
    pub saved: bool,
    /// The repair with the work (also in a dry run, or when it can't be used).
    pub view: RepairView,
}

/// A repair as its screens show it: before, predicted, after.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RepairView {
    /// The repair; none: not on record.
    pub id: Option<Id>,
    /// The job.
    pub job: Id,
    /// Its number.
    pub job_number: String,
    /// The bore.
    pub bore: Id,
    /// Its name.
    pub bore_name: String,
    /// What the repair found in place.
    pub parts_before: PartsBefore,
    /// The work; none: not entered yet.
    pub work: Option<RepairWork>,
    /// Who recorded it; none: not on record.
    pub by: Option<ReadBy>,
    /// The last test before.
    pub before: Option<RepairStage>,
    /// What the work should do; none without work.
    pub forecast: Option<RepairForecast>,
    /// The test since.
    pub after: Option<RepairStage>,
    /// A test begun since, without a reading yet.
    pub test_begun: Option<Id>,
    /// At which test point to test again.
    pub test_point: Option<Id>,
    /// What is still open; empty without work.
    pub open: Vec<OpenPoint>,
    /// What is odd.
    pub findings: Vec<Finding>,
    /// The job's hazards, for the line that stays in view.
    pub hazards: Vec<HazardState>,
    /// What undo and redo would do.
    pub undo: UndoState,
    /// The hot-oil checks that prove it, oldest first.
    pub oil_checks: Vec<OilCheckBeside>,
}

/// The dimensions that a repair found in place, by the profile and earlier repairs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PartsBefore {
    /// Bore, m.
    pub bore_diameter_m: Finite,
    /// Reaction land, m; none: the profile lacks it.
    pub valve_diameter_m: Option<Finite>,
    /// Spring load at the regulating position, N.
    pub spring_load_n: Option<Finite>,
    /// Spring rate, N/m.
    pub spring_rate_n_per_m: Option<Finite>,
    /// What the circuit is meant to hold, Pa; none: nobody entered it.
    pub setpoint_pa: Option<Finite>,
}

/// One test beside a repair.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RepairStage {
    /// The test.
    pub test: Id,
    /// Who began it and when.
    pub begun: ReadBy,
    /// Mean reading, Pa below ambient; none: no reading that can be true.
    pub mean_vacuum_pa: Option<Finite>,
    /// What the reading says to its limit now.
    pub decision: Option<LimitDecision>,
    /// Decision on record.
    pub decided: Option<Verdict>,
    /// The pressure; none without readings.
    pub consequence: Option<ConsequenceAnswer>,
}

/// A repair in the list of a bore.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RepairEntry {
    /// The repair.
    pub repair: Id,
    /// Which way.
    pub option: RepairOption,
    /// Parts, in words.
    pub parts: String,
    /// Who recorded it.
    pub by: ReadBy,
    /// Whether the bore was tested since.
    pub tested_since: bool,
}

/// The relief of a bore's circuit within a job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ReliefEntry {
    /// True when the profile has one.
    pub in_profile: bool,
    /// Who checked it in this job; none: nobody yet.
    pub checked: Option<ReadBy>,
}
