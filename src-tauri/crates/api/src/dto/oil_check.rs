//! Hot-oil checks of a bore's circuit.

use diagnosis::oil_check::OilCheckAnswer;
use model::bench::Verdict;
use model::oil_check::{LineDirection, OilCheckFigures};
use model::{Finding, Finite, Id};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{HazardState, InstrumentEntry, ReadBy, UndoState};

/// Ask for a hot-oil check, or for what stands before a new one.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OilCheckGet {
    /// The job.
    pub job: Id,
    /// The bore.
    pub bore: Id,
    /// The check; none: a new one.
    #[serde(default)]
    pub oil_check: Option<Id>,
}

/// Record a hot-oil check, or say what it would give.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OilCheckRecord {
    /// The job.
    pub job: Id,
    /// The bore.
    pub bore: Id,
    /// The check to change; none: a new one.
    #[serde(default)]
    pub oil_check: Option<Id>,
    /// What was read.
    pub figures: OilCheckFigures,
    /// True: say what it would give and what is wrong with it, write nothing.
    #[serde(default)]
    pub dry_run: bool,
}

/// What came of recording a hot-oil check.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OilCheckRecorded {
    /// True when it is on record.
    pub saved: bool,
    /// The check with the figures (also in a dry run, or when they can't be used).
    pub view: OilCheckView,
}

/// A hot-oil check as its screen shows it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OilCheckView {
    /// The check; none: not on record.
    pub id: Option<Id>,
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
    /// The repair that it proves; none: the circuit as it was found.
    pub repair: Option<Id>,
    /// What was read; of a new one the unit's hot oil temperature.
    pub figures: OilCheckFigures,
    /// Who recorded it; none: not on record.
    pub by: Option<ReadBy>,
    /// What it says; without points the prediction alone.
    pub answer: OilCheckAnswer,
    /// Lowest specified, Pa.
    pub specified_low_pa: Option<Finite>,
    /// Highest specified, Pa.
    pub specified_high_pa: Option<Finite>,
    /// Line at hot idle, Pa.
    pub line_idle_pa: Option<Finite>,
    /// Highest line, Pa.
    pub line_highest_pa: Option<Finite>,
    /// What is odd about the record itself.
    pub findings: Vec<Finding>,
    /// Pressure gauges and thermometers of the shop.
    pub instruments: Vec<InstrumentEntry>,
    /// The hazards of this work: all must have been read of before it goes on record.
    pub hazards: Vec<HazardState>,
    /// What undo and redo would do.
    pub undo: UndoState,
}

/// A hot-oil check in the list of a bore.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OilCheckEntry {
    /// The check.
    pub oil_check: Id,
    /// The repair that it proves.
    pub repair: Option<Id>,
    /// How many points were read.
    pub points: u32,
    /// Who recorded it and when.
    pub by: ReadBy,
}

/// A hot-oil check beside a repair.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OilCheckBeside {
    /// The check.
    pub oil_check: Id,
    /// Who recorded it and when.
    pub by: ReadBy,
    /// Temperature of the oil, K.
    pub oil_temperature_k: Option<Finite>,
    /// Whether the circuit holds.
    pub verdict: Verdict,
    /// Its points.
    pub points: Vec<OilPointBeside>,
}

/// A point of a hot-oil check in the plot of a repair.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OilPointBeside {
    /// Line pressure, Pa.
    pub line_pa: Finite,
    /// Regulated pressure, Pa.
    pub feed_pa: Finite,
    /// Which way line was going.
    pub direction: LineDirection,
    /// How far it may be off (95 %), Pa.
    pub expanded_uncertainty_pa: Finite,
    /// Against the prediction at the oil's temperature.
    pub against_prediction: Option<Verdict>,
}
