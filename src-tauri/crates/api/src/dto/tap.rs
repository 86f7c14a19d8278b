//! Pressures read at the taps of a unit.

use diagnosis::judgement::Span;
use diagnosis::tap::TapAnswer;
use model::bench::Verdict;
use model::inspection::Occasion;
use model::tap_reading::TapFigures;
use model::unit::Tap;
use model::{Finite, Id};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{HazardState, InstrumentEntry, ReadBy, UndoState};

/// Ask for the taps of a job's unit with what was read there.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TapsGet {
    /// The job.
    pub job: Id,
}

/// Record a reading, or say what it would give.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TapRecord {
    /// The job.
    pub job: Id,
    /// The tap.
    pub tap: Id,
    /// What was read.
    pub figures: TapFigures,
    /// True: say what it would give and what is wrong with it, write nothing.
    #[serde(default)]
    pub dry_run: bool,
}

/// What came of recording a reading.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TapRecorded {
    /// True when it is on record.
    pub saved: bool,
    /// What it says of its window, and what is odd.
    pub answer: TapAnswer,
    /// What a bore's leak says of it; none where the model can't say.
    pub beside: Option<TapBesideBore>,
}

/// The taps of a job's unit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TapsView {
    /// The job.
    pub job: Id,
    /// Its number.
    pub job_number: String,
    /// The unit.
    pub unit: Id,
    /// The unit's name.
    pub unit_name: String,
    /// Its taps, circuit by circuit, and those that were read and are no longer in the profile.
    pub taps: Vec<TapState>,
    /// Pressure gauges of the shop.
    pub instruments: Vec<InstrumentEntry>,
    /// The hazards of reading pressure in the car.
    pub car_hazards: Vec<HazardState>,
    /// The hazards of feeding a circuit on the bench.
    pub bench_hazards: Vec<HazardState>,
    /// When in the job a new reading would be.
    pub occasion: Occasion,
    /// What undo and redo would do.
    pub undo: UndoState,
}

/// A tap within a job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TapState {
    /// The tap.
    pub tap: Id,
    /// What the profile says of it; none: it is no longer there.
    pub body: Option<Tap>,
    /// Its circuit's name.
    pub circuit_name: String,
    /// What was read, oldest first.
    pub readings: Vec<TapEntry>,
}

/// A reading on record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TapEntry {
    /// The record.
    pub record: Id,
    /// What was read.
    pub figures: TapFigures,
    /// What it says of its window; none: the tap is no longer in the profile.
    pub answer: Option<TapAnswer>,
    /// What a bore's leak says of it: of the last reading of a tap only, and where the model can.
    pub beside: Option<TapBesideBore>,
    /// Who read it and when.
    pub by: ReadBy,
}

/// A reading beside what a bore of its circuit is predicted to hold.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TapBesideBore {
    /// The bore.
    pub bore: Id,
    /// Its name.
    pub bore_name: String,
    /// Within the predicted band, outside it, or too close to call.
    pub verdict: Verdict,
    /// As predicted, Pa.
    pub predicted_pa: Span,
    /// How far the reading may be off, line's gauge included (95 %), Pa.
    pub expanded_uncertainty_pa: Finite,
}

/// The taps of a job's unit in short.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TapSummary {
    /// Taps of the unit.
    pub taps: u32,
    /// Readings on record.
    pub readings: u32,
    /// Of the last reading at each tap, those outside their window.
    pub outside: u32,
    /// Likewise, those too close to call.
    pub too_close: u32,
}
