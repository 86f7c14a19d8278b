//! Inspecting: the plan of a job, its checks, and the card of a bore.

use diagnosis::card::{BoreCard, Conclusion};
use model::inspection::{CheckName, Found, Inspection, Occasion, Outcome};
use model::inspection_plan::{InspectionPlan, LeftOut};
use model::unit::CoilLimits;
use model::{Finding, Id};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{BoreDrawing, HazardState, InstrumentEntry, ReadBy, TestEntry, UndoState};

/// Ask for the plan of a job's inspection.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlanGet {
    /// The job.
    pub job: Id,
}

/// Change the plan.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PlanChange {
    /// The job.
    pub job: Id,
    /// The whole plan as it should be.
    pub plan: InspectionPlan,
}

/// What came of changing the plan.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PlanChanged {
    /// True when it is on record.
    pub saved: bool,
    /// What is odd, at the fields of the plan.
    pub findings: Vec<Finding>,
    /// The plan that stands.
    pub view: PlanView,
}

/// What a job's inspection asks for, what is done and what is open.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PlanView {
    /// The job.
    pub job: Id,
    /// Its number.
    pub job_number: String,
    /// The plan that stands: a person's, or the proposed one.
    pub plan: InspectionPlan,
    /// Who changed it; none: it is as proposed.
    pub by: Option<ReadBy>,
    /// The bores of the plan, in its order, then the unit's others.
    pub bores: Vec<PlannedBore>,
    /// The checks of the body and the case.
    pub body: Vec<BodyCheck>,
    /// Checks that decide and are open, in all bores of the plan.
    pub open: u32,
    /// The job's hazards.
    pub hazards: Vec<HazardState>,
    /// What undo and redo would do.
    pub undo: UndoState,
    /// The unit's limits for the coils of its solenoids, circuits before their clutches: where a
    /// check of a solenoid starts from.
    pub coils: Vec<CoilOf>,
}

/// What a coil of the unit may measure.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CoilOf {
    /// Name of the circuit or of the clutch whose solenoid it is.
    pub name: String,
    /// Its limits.
    pub limits: CoilLimits,
}

/// One bore of the unit in the plan.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PlannedBore {
    /// The bore.
    pub bore: Id,
    /// Its name.
    pub name: String,
    /// Its circuit's name.
    pub circuit_name: String,
    /// How many solenoids hang on its circuit: the more, the more goes wrong at once.
    pub solenoids: u32,
    /// False: the unit has it, the plan leaves it out.
    pub in_plan: bool,
    /// What its checks say together; none when it is not in the plan.
    pub conclusion: Option<Conclusion>,
    /// Its checks.
    pub checks: Vec<diagnosis::card::CheckLine>,
}

/// A check of the body or the case.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BodyCheck {
    /// Which.
    pub check: CheckName,
    /// False: on record, though the plan doesn't ask for it.
    pub in_plan: bool,
    /// What was recorded, oldest first: one for each face, passage, solenoid, clutch.
    pub entries: Vec<InspectionEntry>,
}

/// A check on record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct InspectionEntry {
    /// Its subject.
    pub inspection: Id,
    /// What was recorded.
    pub record: Inspection,
    /// What it says by itself.
    pub outcome: Outcome,
    /// Who recorded it and when.
    pub by: ReadBy,
    /// What is odd about it.
    pub findings: Vec<Finding>,
}

/// Record a check, or say what it would give.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct InspectionRecord {
    /// The job.
    pub job: Id,
    /// The bore; none: of the body or the case.
    #[serde(default)]
    pub bore: Option<Id>,
    /// The check that this corrects; none: a new one.
    #[serde(default)]
    pub inspection: Option<Id>,
    /// When in the job.
    pub occasion: Occasion,
    /// What was found.
    pub found: Found,
    /// Anything worth keeping.
    #[serde(default)]
    pub note: String,
    /// True: say what it would give and what is wrong with it, write nothing.
    #[serde(default)]
    pub dry_run: bool,
}

/// What came of recording a check.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct InspectionRecorded {
    /// True when it is on record.
    pub saved: bool,
    /// Its subject, once it is on record.
    pub inspection: Option<Id>,
    /// What it says by itself.
    pub outcome: Outcome,
    /// What is odd, at the fields of `found`.
    pub findings: Vec<Finding>,
    /// The card of its bore with it; none for a check of the body.
    pub card: Option<Box<BoreCard>>,
}

/// Take a check off the record: it stays in the journal, struck out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct InspectionStrike {
    /// The check.
    pub inspection: Id,
}

/// Ask for the card of a bore.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CardGet {
    /// The job.
    pub job: Id,
    /// The bore.
    pub bore: Id,
}

/// Everything about a bore in a job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CardView {
    /// The job.
    pub job: Id,
    /// Its number.
    pub job_number: String,
    /// The bore.
    pub bore: Id,
    /// Its name.
    pub bore_name: String,
    /// Its circuit's name.
    pub circuit_name: String,
    /// Names of its lands, left to right.
    pub lands: Vec<String>,
    /// What all checks say together.
    pub card: BoreCard,
    /// The checks on record, oldest first.
    pub entries: Vec<InspectionEntry>,
    /// Its vacuum tests in this job, oldest first, with the test point's name.
    pub tests: Vec<CardTest>,
    /// Its test points.
    pub test_points: Vec<CardTestPoint>,
    /// When in the job a new check would be.
    pub occasion: Occasion,
    /// The bore drawn to scale, at the stroke where it regulates.
    pub drawing: BoreDrawing,
    /// Its checks that were left out on purpose, with the reasons.
    pub left_out: Vec<LeftOut>,
    /// Instruments that it can be measured with.
    pub instruments: Vec<InstrumentEntry>,
    /// The job's hazards.
    pub hazards: Vec<HazardState>,
    /// What undo and redo would do.
    pub undo: UndoState,
}

/// A vacuum test of the bore.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CardTest {
    /// The test point's name.
    pub test_point_name: String,
    /// The test.
    pub test: TestEntry,
    /// True when the card is made from it: the last one of its test point since the last repair.
    pub counts: bool,
}

/// A test point of the bore.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CardTestPoint {
    /// The test point.
    pub test_point: Id,
    /// Its name.
    pub name: String,
}
