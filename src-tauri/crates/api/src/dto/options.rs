//! Repair options of a bore, and the shop's own list of parts.

use diagnosis::options::RepairOptions;
use model::planning::PlanFigures;
use model::shop_part::ShopPart;
use model::{Finding, Id};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{HazardState, ReadBy, UndoState};

/// Ask for the repair options of a bore in a job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OptionsList {
    /// The job.
    pub job: Id,
    /// The bore.
    pub bore: Id,
    /// What is known for planning; none of it has to be.
    #[serde(default)]
    pub figures: PlanFigures,
}

/// The repair options of a bore, as their page shows them.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OptionsView {
    /// The job.
    pub job: Id,
    /// Its number.
    pub job_number: String,
    /// The bore.
    pub bore: Id,
    /// Its name.
    pub bore_name: String,
    /// The test that they were worked out from; none: no test with a reading.
    pub test: Option<Id>,
    /// How many parts of the shop's list may be proposed.
    pub parts: u32,
    /// Every way, the best supported first.
    pub options: RepairOptions,
    /// The job's hazards, for the line that stays in view.
    pub hazards: Vec<HazardState>,
    /// What undo and redo would do.
    pub undo: UndoState,
}

/// The shop's parts.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PartList {
    /// Parts, by kind and name; those no longer to be had last.
    pub parts: Vec<PartOnRecord>,
    /// What undo and redo would do.
    pub undo: UndoState,
}

/// A part on record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PartOnRecord {
    /// Its subject.
    pub id: Id,
    /// The part.
    pub part: ShopPart,
    /// Name of the bore that it is made for; none: for any, or not on this device.
    pub bore_name: Option<String>,
    /// Who recorded it and when.
    pub by: ReadBy,
    /// What is odd about it.
    pub findings: Vec<Finding>,
}

/// Record a part, or say what is odd about it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PartRecord {
    /// The one that this changes; none: a new one.
    #[serde(default)]
    pub id: Option<Id>,
    /// The part.
    pub part: ShopPart,
    /// True: only say what is odd.
    #[serde(default)]
    pub dry_run: bool,
}

/// What came of recording a part.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PartRecorded {
    /// True when it is on record.
    pub saved: bool,
    /// Its subject, once it is on record.
    pub id: Option<Id>,
    /// What is odd, at its fields.
    pub findings: Vec<Finding>,
}
