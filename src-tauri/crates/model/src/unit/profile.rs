//! The parts of a unit put together again, and the digest that pins them in a judgement.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{
    BalanceOrifice, Bore, Circuit, Land, Opening, OpeningRole, Relief, Spring, TestPoint, Unit,
};
use crate::Id;

/// Everything about one bore that a judgement needs, its unit and circuit included.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BoreProfile {
    /// The bore's subject.
    pub id: Id,
    /// The unit it belongs to.
    pub unit: Unit,
    /// The circuit it serves.
    pub circuit: Circuit,
    /// The bore.
    pub bore: Bore,
    /// Lands from left to right.
    pub lands: Vec<Land>,
    /// Its spring, if entered.
    #[serde(default)]
    pub spring: Option<Spring>,
    /// Its openings.
    pub openings: Vec<Opening>,
    /// The balance orifice, if entered.
    #[serde(default)]
    pub balance_orifice: Option<BalanceOrifice>,
    /// A relief on the circuit, if there is one.
    #[serde(default)]
    pub relief: Option<Relief>,
    /// Test points with their subjects.
    pub test_points: Vec<(Id, TestPoint)>,
}

impl BoreProfile {
    /// The opening of one role.
    #[must_use]
    pub fn opening(&self, role: OpeningRole) -> Option<&Opening> {
        self.openings.iter().find(|opening| opening.role == role)
    }

    /// A land by its name.
    #[must_use]
    pub fn land(&self, name: &str) -> Option<&Land> {
        self.lands.iter().find(|land| land.name == name)
    }

    /// The land whose face the reaction pressure pushes: the one next to the reaction chamber.
    #[must_use]
    pub fn reaction_land(&self) -> Option<&Land> {
        if self.bore.spring_on_left {
            self.lands.last()
        } else {
            self.lands.first()
        }
    }

    /// The land next to the spring.
    #[must_use]
    pub fn spring_land(&self) -> Option<&Land> {
        if self.bore.spring_on_left {
            self.lands.first()
        } else {
            self.lands.last()
        }
    }

    /// BLAKE3 of the profile's canonical JSON: two judgements with one digest used one profile.
    #[must_use]
    pub fn digest(&self) -> String {
        // Struct fields serialise in their declared order, so the bytes are the same everywhere.
        let bytes = serde_json::to_vec(self).unwrap_or_default();
        blake3::hash(&bytes).to_hex().to_string()
    }
}

/// A whole unit: its circuits and the profiles of their bores, in order.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct UnitProfile {
    /// The unit's subject.
    pub id: Id,
    /// The unit.
    pub unit: Unit,
    /// Bores with all their parts, circuit by circuit.
    pub bores: Vec<BoreProfile>,
}
