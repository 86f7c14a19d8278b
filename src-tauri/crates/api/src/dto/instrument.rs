//! Instruments and stands of the shop.

use chrono::NaiveDate;
use model::bench::{Instrument, Stand};
use model::{Finding, Id};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{ReadBy, UndoState};

/// The shop's instruments and stands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct InstrumentList {
    /// Instruments, by name.
    pub instruments: Vec<InstrumentOnRecord>,
    /// Stands, by name.
    pub stands: Vec<StandOnRecord>,
    /// The day by which "overdue" is told.
    pub today: NaiveDate,
    /// What undo and redo would do.
    pub undo: UndoState,
}

/// An instrument on record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct InstrumentOnRecord {
    /// Its subject.
    pub id: Id,
    /// The instrument.
    pub instrument: Instrument,
    /// True when its calibration is overdue.
    pub overdue: bool,
    /// Who recorded it and when.
    pub by: ReadBy,
    /// What is odd about it.
    pub findings: Vec<Finding>,
}

/// A stand on record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct StandOnRecord {
    /// Its subject.
    pub id: Id,
    /// The stand.
    pub stand: Stand,
    /// Its gauge's name; empty when that isn't on record.
    pub gauge_name: String,
    /// Who recorded it and when.
    pub by: ReadBy,
    /// What is odd about it.
    pub findings: Vec<Finding>,
}

/// Record an instrument, or say what is odd about it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct InstrumentRecord {
    /// The one that this changes; none: a new one.
    #[serde(default)]
    pub id: Option<Id>,
    /// The instrument.
    pub instrument: Instrument,
    /// True: only say what is odd.
    #[serde(default)]
    pub dry_run: bool,
}

/// Record a stand, or say what is odd about it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StandRecord {
    /// The one that this changes; none: a new one.
    #[serde(default)]
    pub id: Option<Id>,
    /// The stand.
    pub stand: Stand,
    /// True: only say what is odd.
    #[serde(default)]
    pub dry_run: bool,
}

/// What came of recording an instrument or a stand.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct InstrumentRecorded {
    /// True when it is on record.
    pub saved: bool,
    /// Its subject, once it is on record.
    pub id: Option<Id>,
    /// What is odd, at its fields.
    pub findings: Vec<Finding>,
}
