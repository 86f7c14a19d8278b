//! The vacuum test: begin, record its parts, see its judgement, put a decision on record.

use chrono::{DateTime, Utc};
use diagnosis::judgement::Judgement;
use model::bench::{
    Ambient, Blank, Decision, Instrument, Reading, Setup, Stand, StandCheck, VacuumTest,
};
use model::unit::{BoreProfile, TestPoint};
use model::{Finding, Finite, Id};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{BoreDrawing, HazardState, UndoState};

/// Begin a test.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TestBegin {
    /// The job.
    pub job: Id,
    /// The bore.
    pub bore: Id,
    /// The test point.
    pub test_point: Id,
    /// The stand, if one that the shop has entered.
    #[serde(default)]
    pub stand: Option<Id>,
}

/// The new test.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TestBegun {
    /// The test.
    pub test: Id,
}

/// Ask for one test.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TestGet {
    /// The test.
    pub test: Id,
    /// Oil temperature for the prediction, K; none: the unit's running temperature.
    #[serde(default)]
    pub oil_temperature_k: Option<Finite>,
}

/// A test as its screens show it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TestView {
    /// Subject.
    pub id: Id,
    /// The test.
    pub test: VacuumTest,
    /// The job's number.
    pub job_number: String,
    /// The bore's name.
    pub bore_name: String,
    /// The test point.
    pub test_point: TestPoint,
    /// The stand, if one is named.
    pub stand: Option<Stand>,
    /// Its gauge, if known.
    pub gauge: Option<Instrument>,
    /// How it was set up.
    pub setup: Option<Setup>,
    /// What to offer before it is: from the test point and the stand's place.
    pub suggested: SetupSuggestion,
    /// The stand checked.
    pub stand_check: Option<StandCheck>,
    /// The stand check of the same stand on the same day in another test, to take over by one tap.
    pub stand_check_today: Option<StandCheck>,
    /// The blank.
    pub blank: Option<Blank>,
    /// Readings that stand, oldest first, each with what it replaced.
    pub readings: Vec<ReadingEntry>,
    /// The decision on record.
    pub decision: Option<DecisionEntry>,
    /// What it all says now.
    pub judgement: Judgement,
    /// The bore in section, with the leak.
    pub drawing: BoreDrawing,
    /// The job's hazards, for the line that stays in view.
    pub hazards: Vec<HazardState>,
    /// What undo and redo would do.
    pub undo: UndoState,
}

/// What a set-up would be if nothing is unusual.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SetupSuggestion {
    /// As the test point asks.
    pub setup: Setup,
    /// True when the air comes from the stand's altitude; false when it is only sea level.
    pub ambient_from_stand: bool,
}

/// A reading on record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ReadingEntry {
    /// Its record.
    pub record: Id,
    /// The reading.
    pub reading: Reading,
    /// Who took it.
    pub by: String,
    /// When, by that device's clock.
    pub at: DateTime<Utc>,
    /// What it corrected, latest first.
    pub corrected: Vec<Reading>,
}

/// A decision on record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct DecisionEntry {
    /// Its record.
    pub record: Id,
    /// The decision.
    pub decision: Decision,
    /// Who made it.
    pub by: String,
    /// When.
    pub at: DateTime<Utc>,
    /// True when the readings, the set-up or the profile have changed since.
    pub outdated: bool,
}

/// Record one part of a test.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TestRecord {
    /// The test.
    pub test: Id,
    /// The part.
    pub part: TestPart,
    /// True: say what it would give and what is wrong with it, write nothing.
    #[serde(default)]
    pub dry_run: bool,
}

/// A part of a test.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "part", content = "body", rename_all = "snake_case")]
pub enum TestPart {
    /// How it is set up.
    Setup(Setup),
    /// The stand on the day.
    StandCheck(StandCheck),
    /// Plug and plate alone.
    Blank(Blank),
    /// One more reading.
    Reading(Reading),
    /// Another stand, or none.
    Stand {
        /// The stand.
        stand: Option<Id>,
    },
}

/// What came of recording a part.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TestRecorded {
    /// True when it is on record.
    pub saved: bool,
    /// What is wrong or odd about the part, fields relative to it.
    pub findings: Vec<Finding>,
    /// The test with the part (also in a dry run), or as it was when the part can't be used.
    pub view: TestView,
}

/// Correct a reading: the first stays in the record beside it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReadingCorrect {
    /// The test.
    pub test: Id,
    /// The reading's record.
    pub record: Id,
    /// What it should have been.
    pub reading: Reading,
}

/// Strike a reading: it stays in the record, voided.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReadingStrike {
    /// The test.
    pub test: Id,
    /// The reading's record.
    pub record: Id,
}

/// Put the decision that the judgement shows now on record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TestDecide {
    /// The test.
    pub test: Id,
    /// Own words.
    #[serde(default)]
    pub note: String,
}

/// Judge without a store: everything is in the arguments.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct JudgeArgs {
    /// The bore.
    pub profile: BoreProfile,
    /// Which of its test points, by index.
    pub test_point_index: u32,
    /// The stand.
    #[serde(default)]
    pub stand: Option<Stand>,
    /// Its gauge.
    #[serde(default)]
    pub gauge: Option<Instrument>,
    /// How it was set up.
    #[serde(default)]
    pub setup: Option<Setup>,
    /// The stand checked.
    #[serde(default)]
    pub stand_check: Option<StandCheck>,
    /// The blank.
    #[serde(default)]
    pub blank: Option<Blank>,
    /// The readings.
    #[serde(default)]
    pub readings: Vec<Reading>,
    /// Oil temperature, K; none: the unit's.
    #[serde(default)]
    pub oil_temperature_k: Option<Finite>,
}

/// Barometer from an altitude, or checked against one.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BarometerArgs {
    /// The air.
    pub ambient: Ambient,
}

/// The barometer and what it means for a gauge.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BarometerAnswer {
    /// Station pressure, Pa absolute.
    pub pressure_pa: Finite,
    /// Geometric altitude with that pressure in the standard atmosphere, m.
    pub standard_altitude_m: Finite,
}
