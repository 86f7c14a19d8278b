//! A regulator as it is told to a calculation: by its bore's profile, or part by part. Pressures
//! are over sump; positions are 0 where the spring has pushed the spool to its stop.

use model::Finite;
use model::unit::BoreProfile;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{GapShape, WindowShape};

/// A reducing regulator in its oil.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum RegulatorSource {
    /// By the profile of its bore.
    Profile(Box<ProfileRegulator>),
    /// Part by part.
    Parts(Box<PartsRegulator>),
}

/// The regulator of a profile, its seals as new or with one clearance.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ProfileRegulator {
    /// The bore.
    pub profile: BoreProfile,
    /// Temperature of the oil, K.
    pub oil_temperature_k: Finite,
    /// Radial clearance of all lands at 20 °C, m; none: as new.
    #[serde(default)]
    pub radial_clearance_m: Option<Finite>,
    /// The lands of that clearance, the others lying between new and it, as a judgement takes lands
    /// that no test reached; none: all lands.
    #[serde(default)]
    pub tested_lands: Option<Vec<String>>,
    /// Eccentricity of all lands, 0 to 1.
    #[serde(default)]
    pub eccentricity: Finite,
}

/// A regulator told part by part, and its oil.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PartsRegulator {
    /// The regulator.
    pub regulator: RegulatorParts,
    /// The oil at its temperature.
    pub oil: OilFigures,
}

/// An oil at one temperature.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OilFigures {
    /// Dynamic viscosity, Pa·s.
    pub viscosity_pa_s: Finite,
    /// Density, kg/m³.
    pub density_kg_m3: Finite,
}

/// A metering edge. Which way it opens follows from what it is for.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct EdgeParts {
    /// Diameter of the land, m.
    pub land_diameter_m: Finite,
    /// Share of the circumference that opens, 0 to 1.
    pub circumference_fraction: Finite,
    /// Holes or notches instead of a groove; the fraction then counts for nothing.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub window: Option<WindowShape>,
    /// Width of the opening with the spool at its stop, m; negative for an overlap.
    pub width_at_rest_m: Finite,
    /// Radial clearance of the land, m.
    pub radial_clearance_m: Finite,
}

/// A drilled orifice.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OrificeParts {
    /// Bore, m.
    pub diameter_m: Finite,
    /// Length, m; 0 for a knife edge.
    pub length_m: Finite,
}

/// A passage beside a land of a reducing regulator.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum RegulatorPlace {
    /// Line.
    Line,
    /// The regulated outlet.
    Feed,
    /// The chamber behind the balance orifice.
    Reaction,
    /// The chamber with the spring.
    SpringChamber,
    /// Sump.
    Sump,
    /// A neighbour held at a pressure, Pa.
    FixedPa(Finite),
}

/// Oil that passes a land of a reducing regulator.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RegulatorLeak {
    /// The gap where the spool regulates.
    pub gap: GapShape,
    /// Where flow counts as positive from.
    pub from: RegulatorPlace,
    /// Where to.
    pub to: RegulatorPlace,
}

/// How the spring chamber is emptied.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ChamberDrain {
    /// Open to sump.
    #[default]
    Open,
    /// Shut.
    Blocked,
    /// Through an orifice.
    Orifice(OrificeParts),
}

/// What is taken from a passage, by equal sharp-edged outlets.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OutletDemand {
    /// Flow of all together, m³/s.
    pub flow_m3_s: Finite,
    /// The pressure at which it was stated, Pa.
    pub at_pressure_pa: Finite,
    /// How many outlets.
    pub outlets: u32,
    /// The oil in which it was stated.
    pub stated_in: OilFigures,
}

/// A coil spring behind a spool or a ball.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SpringParts {
    /// Load at position 0, N.
    pub load_at_rest_n: Finite,
    /// Rate, N/m.
    pub rate_n_per_m: Finite,
}

/// A ball relief.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReliefParts {
    /// Ball, m.
    pub ball_diameter_m: Finite,
    /// Seat, m.
    pub seat_diameter_m: Finite,
    /// Spring.
    pub spring: SpringParts,
    /// Highest lift, m.
    pub lift_stop_m: Finite,
    /// Discharge coefficient.
    pub discharge_coefficient: Finite,
}

/// A reducing regulator, part by part.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RegulatorParts {
    /// Area that the reaction chamber acts on, m².
    pub reaction_area_m2: Finite,
    /// Area that the spring chamber acts on, m².
    pub spring_side_area_m2: Finite,
    /// The spring.
    pub spring: SpringParts,
    /// Travel, m.
    pub stroke_m: Finite,
    /// Line to feed.
    pub supply: EdgeParts,
    /// Feed to sump, if there is one.
    #[serde(default)]
    pub exhaust: Option<EdgeParts>,
    /// Between feed and reaction chamber; none: one space.
    #[serde(default)]
    pub balance_orifice: Option<OrificeParts>,
    /// Every land that leaks.
    #[serde(default)]
    pub leaks: Vec<RegulatorLeak>,
    /// How the spring chamber is emptied.
    #[serde(default)]
    pub drain: ChamberDrain,
    /// Dry friction while sliding, N.
    #[serde(default)]
    pub friction_n: Finite,
    /// What the solenoids take.
    pub demand: OutletDemand,
    /// Relief from feed to sump, if there is one.
    #[serde(default)]
    pub relief: Option<ReliefParts>,
}
