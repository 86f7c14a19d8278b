//! Jobs: opening one, its parts, its cautions.

use chrono::{DateTime, Utc};
use model::bench::Verdict;
use model::caution::Hazard;
use model::job::{Complaint, Customer, Job, Notes, Vehicle};
use model::{Finding, Finite, Id};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{HandoverBrief, OilCheckEntry, ReliefEntry, RepairEntry, TapSummary, UndoState};

/// Open a job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct JobOpen {
    /// The unit.
    pub unit: Id,
    /// The shop's number; empty: the next free one.
    #[serde(default)]
    pub number: String,
    /// The vehicle.
    pub vehicle: Vehicle,
    /// The complaint.
    pub complaint: Complaint,
    /// Notes.
    #[serde(default)]
    pub notes: Notes,
    /// The customer, if recorded.
    #[serde(default)]
    pub customer: Option<Customer>,
    /// True: only say what is wrong with it.
    #[serde(default)]
    pub dry_run: bool,
}

/// What came of opening a job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct JobOpened {
    /// The new job; none when a finding forbids it or it was a dry run.
    pub job: Option<Id>,
    /// What is wrong or odd.
    pub findings: Vec<Finding>,
}

/// Ask for one job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct JobGet {
    /// The job.
    pub job: Id,
}

/// Change one part of a job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct JobEdit {
    /// The job.
    pub job: Id,
    /// The part, whole.
    pub part: JobPart,
}

/// What came of changing a part.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct JobEdited {
    /// False when a finding forbids it: nothing was recorded.
    pub saved: bool,
    /// What is wrong with the part.
    pub findings: Vec<Finding>,
    /// The job as it stands.
    pub view: JobView,
    /// What undo would do now.
    pub undo: UndoState,
}

/// A part of a job that can be changed by itself.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "part", content = "body", rename_all = "snake_case")]
pub enum JobPart {
    /// The vehicle.
    Vehicle(Vehicle),
    /// The complaint.
    Complaint(Complaint),
    /// The notes.
    Notes(Notes),
    /// The customer.
    Customer(Customer),
}

/// A job as its screen shows it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct JobView {
    /// Subject.
    pub id: Id,
    /// The job.
    pub job: Job,
    /// The unit's name.
    pub unit_name: String,
    /// The vehicle.
    pub vehicle: Vehicle,
    /// The complaint.
    pub complaint: Complaint,
    /// The notes.
    pub notes: Notes,
    /// The customer, if recorded.
    pub customer: Option<Customer>,
    /// Who opened it.
    pub opened_by: String,
    /// The hazards of bench work and who has read each.
    pub hazards: Vec<HazardState>,
    /// The bores of the unit and what was done on each.
    pub bores: Vec<BoreState>,
    /// What is agreed and handed over.
    pub handover: HandoverBrief,
    /// Its parts whose content was erased.
    pub erased: Vec<ErasedPart>,
    /// Two people at once, and the like.
    pub findings: Vec<Finding>,
    /// What undo and redo would do.
    pub undo: UndoState,
    /// Its unit's pressure taps and what was read there.
    pub taps: TapSummary,
}

/// A part of a job whose content was erased.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ErasedPart {
    /// `customer`, `complaint`, `notes` or `authorisation`.
    pub part: String,
    /// Who erased it, and when.
    pub by: ReadBy,
}

/// A hazard and whether its caution was read for this job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HazardState {
    /// The hazard.
    pub hazard: Hazard,
    /// Who read it and when; none: not yet.
    pub read: Option<ReadBy>,
}

/// Who did something, and when by that device's clock.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ReadBy {
    /// Name of the person.
    pub by: String,
    /// When.
    pub at: DateTime<Utc>,
}

/// A bore within a job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BoreState {
    /// The bore.
    pub bore: Id,
    /// Its name.
    pub name: String,
    /// The circuit's name.
    pub circuit_name: String,
    /// Its vacuum test points.
    pub test_points: Vec<TestPointState>,
    /// The relief of its circuit.
    pub relief: ReliefEntry,
    /// Repairs of it in this job, oldest first.
    pub repairs: Vec<RepairEntry>,
    /// Hot-oil checks of its circuit in this job, oldest first.
    pub oil_checks: Vec<OilCheckEntry>,
}

/// A test point within a job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TestPointState {
    /// The test point.
    pub test_point: Id,
    /// Its name.
    pub name: String,
    /// Tests of it in this job, oldest first.
    pub tests: Vec<TestEntry>,
}

/// A vacuum test in a list.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TestEntry {
    /// The test.
    pub test: Id,
    /// Who began it and when.
    pub begun: ReadBy,
    /// Readings that stand.
    pub readings: u32,
    /// The mean of those that count as repeats, Pa below ambient.
    pub mean_vacuum_pa: Option<Finite>,
    /// Decision on record.
    pub decided: Option<Verdict>,
}

/// Say that a caution was read.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CautionReadArgs {
    /// The job.
    pub job: Id,
    /// The hazards read, one or more at once.
    pub hazards: Vec<Hazard>,
}
