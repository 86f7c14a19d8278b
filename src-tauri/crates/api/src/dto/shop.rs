//! The shop at a glance: its people, units, stands and instruments.

use chrono::NaiveDate;
use model::Id;
use model::bench::{Instrument, Stand};
use model::unit::UnitProfile;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::ApiError;

use super::{BoreDrawing, Settings, UndoState};

/// The program itself: whether it can work, and if not, why.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct AppState {
    /// Version of the program.
    pub version: String,
    /// Where its store is; empty without one.
    pub store_path: String,
    /// Why the store didn't open; none: it did.
    pub trouble: Option<ApiError>,
}

/// Everything that the first screen needs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Overview {
    /// Name of the shop; empty before it is named.
    pub shop_name: String,
    /// True while the demo shop is loaded.
    pub demo: bool,
    /// People who can sign readings.
    pub people: Vec<PersonEntry>,
    /// Who is working on this device; none: nobody chosen yet.
    pub author: Option<Id>,
    /// Units that the shop has entered.
    pub units: Vec<UnitEntry>,
    /// Vacuum stands.
    pub stands: Vec<StandEntry>,
    /// Instruments.
    pub instruments: Vec<InstrumentEntry>,
    /// This device's settings.
    pub settings: Settings,
    /// What undo and redo would do.
    pub undo: UndoState,
    /// Today by this device's clock.
    pub today: NaiveDate,
}

/// A person of the shop.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PersonEntry {
    /// Subject.
    pub id: Id,
    /// Name.
    pub name: String,
}

/// A unit, for choosing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct UnitEntry {
    /// Subject.
    pub id: Id,
    /// Name.
    pub name: String,
    /// One line about it.
    pub summary: String,
    /// Its bores.
    pub bores: Vec<BoreEntry>,
}

/// A bore, for choosing.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BoreEntry {
    /// Subject.
    pub id: Id,
    /// Name.
    pub name: String,
}

/// A stand with its subject.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct StandEntry {
    /// Subject.
    pub id: Id,
    /// The stand.
    pub stand: Stand,
}

/// An instrument with its subject.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct InstrumentEntry {
    /// Subject.
    pub id: Id,
    /// The instrument.
    pub instrument: Instrument,
    /// True when its calibration is overdue today.
    pub overdue: bool,
}

/// Choose who is working.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PersonChoose {
    /// The person.
    pub person: Id,
}

/// Add a person to the shop; the new person is then the one who works.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PersonAdd {
    /// Name.
    pub name: String,
}

/// Ask for one unit.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct UnitGet {
    /// The unit.
    pub unit: Id,
}

/// A unit's profile with a drawing of each bore where it regulates, and what its dimensions
/// contradict.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct UnitView {
    /// The profile.
    pub profile: UnitProfile,
    /// One drawing per bore, in the profile's order.
    pub drawings: Vec<BoreDrawing>,
    /// What is missing or contradictory.
    pub findings: Vec<model::Finding>,
}
