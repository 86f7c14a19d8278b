//! A bore in section: what the interface needs to draw it to scale. All positions are metres along
//! the bore, rising to the right; the interface only scales them.

use model::unit::{Node, PortSide};
use model::{Finite, Id};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A bore with its valve at one stroke.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BoreDrawing {
    /// The bore.
    pub bore: Id,
    /// Its name.
    pub name: String,
    /// Bore diameter, m.
    pub diameter_m: Finite,
    /// Left end, m.
    pub start_m: Finite,
    /// Right end (or plug face), m.
    pub end_m: Finite,
    /// True when the spring is at the left.
    pub spring_on_left: bool,
    /// Stem diameter, m.
    pub stem_diameter_m: Finite,
    /// Stroke at which it is drawn, m.
    pub stroke_m: Finite,
    /// Ports from left to right.
    pub ports: Vec<DrawnPort>,
    /// Lands at that stroke, from left to right.
    pub lands: Vec<DrawnLand>,
    /// Metering openings.
    pub openings: Vec<DrawnOpening>,
    /// Sealing stretches; those with a leak are drawn as such.
    pub seals: Vec<DrawnSeal>,
    /// The balance orifice, m, if there is one.
    pub balance_orifice_m: Option<Finite>,
    /// True when the circuit has a relief.
    pub relief: bool,
}

/// A port.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct DrawnPort {
    /// Name within the bore.
    pub name: String,
    /// What it connects to.
    pub node: Node,
    /// Left edge, m.
    pub start_m: Finite,
    /// Right edge, m.
    pub end_m: Finite,
    /// Above or below.
    pub side: PortSide,
}

/// A land where it stands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct DrawnLand {
    /// Name.
    pub name: String,
    /// Left face, m.
    pub start_m: Finite,
    /// Right face, m.
    pub end_m: Finite,
    /// Diameter, m.
    pub diameter_m: Finite,
}

/// A metering opening.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct DrawnOpening {
    /// True for the supply, false for the exhaust.
    pub supply: bool,
    /// Port.
    pub port: String,
    /// How far open, m; negative is overlap.
    pub open_m: Finite,
}

/// A sealing stretch.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct DrawnSeal {
    /// The land.
    pub land: String,
    /// Left end, m.
    pub start_m: Finite,
    /// Right end, m.
    pub end_m: Finite,
    /// Place on the left.
    pub left: Node,
    /// Place on the right.
    pub right: Node,
    /// True when the test shows its leak.
    pub tested: bool,
}
