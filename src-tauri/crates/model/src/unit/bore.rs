//! The bore and its spool, as a section drawing has them. Positions are metres along the bore axis,
//! rising from left to right in the drawing; a land's position is the one it has at zero stroke.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::{Finite, Id};

/// A named place in the circuit, for ports and for what lies on either side of a land.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Node {
    /// Line pressure.
    Line,
    /// The regulated outlet that feeds the solenoids.
    Feed,
    /// The reaction chamber behind the balance orifice.
    Reaction,
    /// The chamber of the spring.
    SpringChamber,
    /// Open to the sump: exhausts and vents.
    Sump,
}

/// What a part is made of: it decides how a clearance changes with temperature.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Material {
    /// Die-cast aluminium, the usual valve body.
    AluminiumDieCast,
    /// Wrought aluminium, the usual anodised valve or sleeve.
    AluminiumWrought,
    /// Carbon or alloy steel.
    Steel,
    /// Grey cast iron.
    CastIron,
}

/// On which side of the drawing a port enters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum PortSide {
    /// Above the bore.
    Above,
    /// Below the bore.
    Below,
}

/// A port or groove that opens into the bore.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Port {
    /// Short name, unique within the bore, that openings and seals refer to.
    pub name: String,
    /// What it connects to.
    pub node: Node,
    /// Left edge, m.
    pub start_m: Finite,
    /// Right edge, m.
    pub end_m: Finite,
    /// Where the drawing shows it.
    pub side: PortSide,
}

/// What all lands of one spool share.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Spool {
    /// Material of the valve.
    pub material: Material,
    /// Diameter of the stem between lands, m, for the drawing.
    pub stem_diameter_m: Finite,
    /// Full travel against the spring, m.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub stroke_m: Option<Finite>,
    /// Sliding friction when free, N.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub friction_n: Option<Finite>,
}

/// A bore of the valve body with its spool. Kind `bore`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Bore {
    /// The circuit that it serves.
    pub circuit: Id,
    /// Fractional order key among the circuit's bores.
    pub order: String,
    /// Name in the trade's words, e.g. "Solenoid feed regulator".
    pub name: String,
    /// Bore diameter as new at 20 °C, m.
    pub diameter_m: Finite,
    /// Left end of the bore, m.
    pub start_m: Finite,
    /// Right end, the inner face of the plug, m.
    pub end_m: Finite,
    /// Material of the body.
    pub material: Material,
    /// True when the spring sits at the left end and the reaction chamber at the right.
    pub spring_on_left: bool,
    /// Ports from left to right.
    pub ports: Vec<Port>,
    /// The spool.
    pub spool: Spool,
    /// Where the dimensions come from.
    pub source: String,
}

/// What lies on either side of a sealing stretch of a land, and between which ports it runs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Seal {
    /// Place on the left of the stretch.
    pub left: Node,
    /// Port whose right edge bounds the stretch on the left; none: the land's own left edge does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub left_port: Option<String>,
    /// Place on the right of the stretch.
    pub right: Node,
    /// Port whose left edge bounds it on the right; none: the land's own right edge does.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub right_port: Option<String>,
}

/// A land of the spool. Kind `land`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Land {
    /// The bore.
    pub bore: Id,
    /// Fractional order key, left to right.
    pub order: String,
    /// Name, unique within the bore.
    pub name: String,
    /// Diameter as new at 20 °C, m.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub diameter_m: Option<Finite>,
    /// Left face at zero stroke, m.
    pub start_m: Finite,
    /// Right face at zero stroke, m.
    pub end_m: Finite,
    /// The stretches along which it seals one place from another (metering edges are openings,
    /// not seals).
    pub seals: Vec<Seal>,
}

/// What an opening does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum OpeningRole {
    /// Lets line into feed; must close as feed rises.
    Supply,
    /// Lets feed out to the sump; must open as feed rises.
    Exhaust,
}

/// Which edges meter: the land's and the port's left ones, or both right ones.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Edge {
    /// The land's left face over the port's left edge: open when the face stands right of it.
    Left,
    /// The land's right face over the port's right edge: open when the face stands left of it.
    Right,
}

/// Holes or notches that the land uncovers one by one along the bore.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum OpeningWindow {
    /// Round holes drilled through the wall.
    RoundHoles {
        /// How many.
        count: u32,
        /// Diameter of each, m.
        diameter_m: Finite,
    },
    /// Rectangular notches.
    Notches {
        /// How many.
        count: u32,
        /// Width around the bore, m.
        width_m: Finite,
        /// Length along the bore, m.
        length_m: Finite,
    },
}

/// A metering opening. Kind `opening`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Opening {
    /// The bore.
    pub bore: Id,
    /// What it does.
    pub role: OpeningRole,
    /// Name of the metering land.
    pub land: String,
    /// Name of the port.
    pub port: String,
    /// Which edges meter.
    pub edge: Edge,
    /// Share of the circumference that is open; 1 for a full annular groove.
    pub circumference_fraction: Finite,
    /// Holes or notches instead of a groove; the fraction then counts for nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub window: Option<OpeningWindow>,
}
