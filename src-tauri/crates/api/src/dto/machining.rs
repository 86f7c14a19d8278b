//! The machining sheet of a bore in a job.

use diagnosis::machining::MachiningAnswer;
use diagnosis::repair::RepairForecast;
use model::Id;
use model::machining::{MachiningSheet, MachiningSignOff, MachiningWay};
use model::planning::PlanFigures;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{HazardState, InstrumentEntry, ReadBy, UndoState};

/// Ask for the machining sheet of a bore in a job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MachiningGet {
    /// The job.
    pub job: Id,
    /// The bore.
    pub bore: Id,
}

/// Ask for a sheet filled in from a repair option. Nothing is written.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MachiningPropose {
    /// The job.
    pub job: Id,
    /// The bore.
    pub bore: Id,
    /// Which option.
    pub way: MachiningWay,
    /// What is known for planning.
    #[serde(default)]
    pub figures: PlanFigures,
}

/// Record a machining sheet, or say what it would give. A signature under it lapses.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MachiningRecord {
    /// The job.
    pub job: Id,
    /// The bore.
    pub bore: Id,
    /// The sheet.
    pub sheet: MachiningSheet,
    /// True: say what it would give and what is wrong with it, write nothing.
    #[serde(default)]
    pub dry_run: bool,
}

/// Sign the sheet on record, with what isn't as it asks.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct MachiningSign {
    /// The job.
    pub job: Id,
    /// The bore.
    pub bore: Id,
    /// Anything worth keeping.
    #[serde(default)]
    pub note: String,
}

/// What came of recording or signing a sheet.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct MachiningRecorded {
    /// True when it is on record.
    pub saved: bool,
    /// The sheet (also in a dry run, or when it can't be used).
    pub view: MachiningView,
}

/// A machining sheet as its page shows it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct MachiningView {
    /// The sheet's subject; none: not on record.
    pub id: Option<Id>,
    /// The job.
    pub job: Id,
    /// Its number.
    pub job_number: String,
    /// The bore.
    pub bore: Id,
    /// Its name.
    pub bore_name: String,
    /// The sheet: on record, or one that holds what the inspection measured.
    pub sheet: MachiningSheet,
    /// Who recorded it last; none: not on record.
    pub by: Option<ReadBy>,
    /// The signature under it; none: not signed, or changed since.
    pub signed: Option<MachiningSignOff>,
    /// What it says.
    pub answer: MachiningAnswer,
    /// What the repair should do as planned.
    pub planned: RepairForecast,
    /// What it should do as machined; none while the bore isn't measured.
    pub machined: Option<RepairForecast>,
    /// Instruments that measure lengths.
    pub instruments: Vec<InstrumentEntry>,
    /// The hazards of machining.
    pub hazards: Vec<HazardState>,
    /// What undo and redo would do.
    pub undo: UndoState,
}
