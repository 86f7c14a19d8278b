//! Openings that a land uncovers: area against stroke, and flow.

use diagnosis::Assumed;
use model::Finite;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What a land uncovers.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum WindowShape {
    /// A groove around the bore, or a part of its circumference.
    AnnularSlot {
        /// Diameter of the land, m.
        land_diameter_m: Finite,
        /// Part of the circumference that opens.
        circumference_ratio: Finite,
    },
    /// Round holes.
    RoundHoles {
        /// How many.
        count: u32,
        /// Diameter of each, m.
        diameter_m: Finite,
    },
    /// Rectangular windows or notches.
    Slots {
        /// How many.
        count: u32,
        /// Width around the bore, m.
        width_m: Finite,
        /// Length along the bore, m.
        length_m: Finite,
    },
    /// Slots that begin with a half circle.
    RoundEndedSlots {
        /// How many.
        count: u32,
        /// Width around the bore, m.
        width_m: Finite,
        /// Length along the bore with the round end, m.
        length_m: Finite,
    },
    /// Triangular notches that open from their tip.
    VNotches {
        /// How many.
        count: u32,
        /// Half the angle at the tip, rad.
        half_angle_rad: Finite,
        /// Length along the bore from the tip, m.
        length_m: Finite,
    },
}

/// Which way an opening goes as the spool advances.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum WindowTravel {
    /// Its width falls.
    Closes,
    /// Its width grows.
    Opens,
}

/// A window, the land's clearance, and how the spool moves over it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WindowEdge {
    /// The window.
    pub window: WindowShape,
    /// Radial clearance of the land, m.
    pub radial_clearance_m: Finite,
    /// Radius of both edges, m; 0 for sharp ones.
    pub edge_radius_m: Finite,
    /// Width with the spool at rest, m; negative is overlap.
    pub width_at_rest_m: Finite,
    /// Which way the width goes.
    pub travel: WindowTravel,
}

/// Area of an opening over the stroke.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OpeningAreaArgs {
    /// The opening.
    pub opening: WindowEdge,
    /// Strokes of the spool from rest, m; 1 to 200.
    pub strokes_m: Vec<Finite>,
}

/// An opening at one stroke.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OpeningAtStroke {
    /// Stroke, m.
    pub stroke_m: Finite,
    /// Signed width, m; negative is overlap.
    pub width_m: Finite,
    /// Area that oil passes, m²; never 0, for the clearance stays.
    pub area_m2: Finite,
    /// How the area grows with the width, m²/m.
    pub slope_m: Finite,
    /// Gap between the edges, m.
    pub gap_m: Finite,
}

/// Areas over the stroke.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OpeningAreaAnswer {
    /// At each stroke, in the order asked.
    pub points: Vec<OpeningAtStroke>,
    /// Area of the whole window, m²; none for a groove.
    pub full_area_m2: Option<Finite>,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// Oil through an opening over the stroke.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OpeningFlowArgs {
    /// The opening.
    pub opening: WindowEdge,
    /// Strokes of the spool from rest, m; 1 to 200.
    pub strokes_m: Vec<Finite>,
    /// Pressure drop, Pa.
    pub drop_pa: Finite,
    /// Dynamic viscosity, Pa·s.
    pub viscosity_pa_s: Finite,
    /// Density, kg/m³.
    pub density_kg_m3: Finite,
}

/// Flow at one stroke.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OpeningFlowAtStroke {
    /// Stroke, m.
    pub stroke_m: Finite,
    /// Flow, m³/s.
    pub flow_m3_s: Finite,
    /// Flow that the film alone would pass, m³/s.
    pub film_m3_s: Finite,
}

/// Flows over the stroke.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OpeningFlowAnswer {
    /// At each stroke, in the order asked.
    pub points: Vec<OpeningFlowAtStroke>,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}
