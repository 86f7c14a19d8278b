//! A valve tried out with other parts than were measured.

use diagnosis::explore::Explored;
use diagnosis::judgement::Span;
use model::unit::{BoreProfile, Relief};
use model::what_if::Setting;
use model::{Finding, Finite, Id};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{BoreDrawing, ReadBy, SealsFound, UndoState};

/// Ask for a bore to try out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ExploreStart {
    /// The bore.
    pub bore: Id,
    /// The job in which it was found; none: as the profile has it.
    #[serde(default)]
    pub job: Option<Id>,
}

/// A bore as it was found, with all that [`ExploreArgs`] ask for.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ExploreView {
    /// The bore.
    pub bore: Id,
    /// Its name.
    pub bore_name: String,
    /// Its circuit.
    pub circuit_name: String,
    /// Its unit.
    pub unit_name: String,
    /// The job's number, of one in which it was found.
    pub job_number: Option<String>,
    /// The profile with its parts as measured, or as it is.
    pub profile: BoreProfile,
    /// What a test or the diameters say of its seals; none: they count as new.
    pub seals: Option<SealsFound>,
    /// The relief that is to be added, by the job's check, where the unit has none.
    pub relief: Option<Relief>,
    /// What can be set, in order.
    pub figures: Vec<ExploreFigure>,
    /// True when the valve has an exhaust to shut off.
    pub has_exhaust: bool,
    /// Settings that somebody keeps, oldest first.
    pub kept: Vec<KeptSetting>,
    /// What undo and redo would do.
    pub undo: UndoState,
}

/// A figure that can be set.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ExploreFigure {
    /// Which.
    pub field: ExploreField,
    /// Where it stands.
    pub now: Finite,
    /// From where it is worth trying.
    pub low: Finite,
    /// To where.
    pub high: Finite,
}

/// A figure of a setting, by its field.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum ExploreField {
    /// Clearance of all lands on the diameter, m.
    ClearanceM,
    /// Spring load at the regulating position, N.
    SpringLoadN,
    /// Spring rate, N/m.
    SpringRateNPerM,
    /// Bore of the balance orifice, m.
    OrificeM,
    /// What the solenoids take, m³/s.
    DemandM3S,
    /// Sliding friction, N.
    FrictionN,
    /// Temperature of the oil, K.
    OilTemperatureK,
    /// Line pressure, Pa.
    LinePa,
}

/// A setting on record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct KeptSetting {
    /// The record's subject.
    pub what_if: Id,
    /// What it shows.
    pub note: String,
    /// The setting.
    pub setting: Setting,
    /// Who keeps it, and since when.
    pub by: ReadBy,
}

/// Try a valve out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ExploreArgs {
    /// The profile, its parts as measured.
    pub profile: BoreProfile,
    /// What is known of its seals; none: they count as new.
    #[serde(default)]
    pub seals: Option<SealsFound>,
    /// The relief to add where the setting asks for one and the profile has none.
    #[serde(default)]
    pub relief: Option<Relief>,
    /// What is set.
    pub setting: Setting,
}

/// What the valve does as it is set.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ExploreAnswer {
    /// The pressure with its band, findings, assumptions.
    pub explored: Explored,
    /// The profile as set: what the calculations of motion take.
    pub profile: BoreProfile,
    /// Radial clearance at 20 °C for them, m; none: as new.
    pub radial_clearance_m: Option<Finite>,
    /// The lands of that clearance, where a test reached only some; the calculations of motion take
    /// the others between new and it, as the curve does. None: all lands.
    pub tested_lands: Option<Vec<String>>,
    /// The bore where it stands under the line pressure that is set; none while that is nowhere.
    pub drawing: Option<BoreDrawing>,
    /// The regulated pressure there, with the band of the curve, Pa.
    pub feed_pa: Option<Span>,
}

/// Keep a setting.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WhatIfKeep {
    /// The bore.
    pub bore: Id,
    /// What it shows.
    #[serde(default)]
    pub note: String,
    /// The setting.
    pub setting: Setting,
}

/// What came of keeping it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct WhatIfKept {
    /// The record's subject; none: something can't be true, and it isn't kept.
    pub what_if: Option<Id>,
    /// What can't be true, at the setting's fields.
    pub findings: Vec<Finding>,
}

/// Take a kept setting away.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WhatIfRemove {
    /// The record's subject.
    pub what_if: Id,
}
