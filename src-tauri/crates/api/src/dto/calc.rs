//! Single calculations of the physics, without a store. Pressures in air are absolute; in oil they
//! are drops or over sump. Ranges are those of the physics; outside them the answer is the error
//! `out_of_range` with the field and its bounds.

use diagnosis::Assumed;
use diagnosis::judgement::{RegulationState, Span};
use model::unit::{BoreProfile, LeakLaw, Oil};
use model::{Finite, Id};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// An oil at a temperature.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OilArgs {
    /// The oil.
    pub oil: Oil,
    /// Temperature, K.
    pub temperature_k: Finite,
}

/// Viscosity by ASTM D341 and density by ASTM D1250.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OilAnswer {
    /// Dynamic viscosity, Pa·s.
    pub viscosity_pa_s: Finite,
    /// Density, kg/m³.
    pub density_kg_m3: Finite,
    /// True outside the two points that are known.
    pub extrapolated: bool,
}

/// A spring against a pressure on an area: give the load or the pressure.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SpringArgs {
    /// Reaction area, m².
    pub area_m2: Finite,
    /// What is known.
    pub known: SpringKnown,
}

/// One side of P = F / A.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SpringKnown {
    /// Load of the spring, N.
    LoadN(Finite),
    /// Pressure, Pa.
    PressurePa(Finite),
}

/// Both sides of the balance.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SpringAnswer {
    /// Load, N.
    pub load_n: Finite,
    /// Pressure that it balances, Pa.
    pub pressure_pa: Finite,
}

/// A drilled orifice in oil.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OrificeArgs {
    /// Bore, m.
    pub diameter_m: Finite,
    /// Length, m; 0 for a knife edge.
    pub length_m: Finite,
    /// Pressure drop, Pa.
    pub drop_pa: Finite,
    /// Dynamic viscosity, Pa·s.
    pub viscosity_pa_s: Finite,
    /// Density, kg/m³.
    pub density_kg_m3: Finite,
}

/// What an orifice passes, with the spread of the published laws.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OrificeAnswer {
    /// Flow, m³/s.
    pub flow_m3_s: Span,
    /// Discharge coefficient.
    pub coefficient: Finite,
    /// Reynolds number of the mean speed.
    pub reynolds: Finite,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// An annular gap.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GapShape {
    /// Mean diameter of land and bore, m.
    pub mean_diameter_m: Finite,
    /// Radial clearance, m.
    pub radial_clearance_m: Finite,
    /// Engaged length, m.
    pub engaged_length_m: Finite,
    /// 0 centred, 1 touching.
    pub eccentricity: Finite,
}

/// Oil through a gap.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GapOilArgs {
    /// The gap.
    pub gap: GapShape,
    /// Pressure drop, Pa.
    pub drop_pa: Finite,
    /// Dynamic viscosity, Pa·s.
    pub viscosity_pa_s: Finite,
    /// Density, kg/m³.
    pub density_kg_m3: Finite,
}

/// Oil that passes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct GapOilAnswer {
    /// Flow, m³/s.
    pub flow_m3_s: Finite,
    /// Flow by the laminar law alone, m³/s.
    pub laminar_flow_m3_s: Finite,
    /// Reynolds number.
    pub reynolds: Finite,
    /// Gap factor K = D c³ (1 + 1.5 e²) / L, m³.
    pub gap_factor_m3: Finite,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// Air through a gap.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GapAirArgs {
    /// The gap.
    pub gap: GapShape,
    /// Absolute pressure before it, Pa.
    pub upstream_pa: Finite,
    /// Absolute pressure behind it, Pa.
    pub downstream_pa: Finite,
    /// Temperature of the air, K.
    pub air_temperature_k: Finite,
}

/// Air that passes.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct GapAirAnswer {
    /// pV flow, Pa·m³/s.
    pub throughput_w: Finite,
    /// True where a lower pressure behind would draw no more.
    pub choked: bool,
    /// Reynolds number.
    pub reynolds: Finite,
    /// Share that slip adds.
    pub slip_fraction: Finite,
    /// Share of the drop that entry and exit take.
    pub inertia_fraction: Finite,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// The clearance behind a flow of air.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct GapClearanceArgs {
    /// pV flow, Pa·m³/s.
    pub throughput_w: Finite,
    /// Mean diameter, m.
    pub mean_diameter_m: Finite,
    /// Engaged length, m.
    pub engaged_length_m: Finite,
    /// 0 centred, 1 touching.
    pub eccentricity: Finite,
    /// Absolute pressure before it, Pa.
    pub upstream_pa: Finite,
    /// Absolute pressure behind it, Pa.
    pub downstream_pa: Finite,
    /// Temperature of the air, K.
    pub air_temperature_k: Finite,
}

/// A radial clearance.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct GapClearanceAnswer {
    /// Radial clearance, m.
    pub radial_clearance_m: Finite,
}

/// Air through a hole by ISO 6358.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct HoleAirArgs {
    /// Sonic conductance, m³/(s·Pa).
    pub sonic_conductance_m3_s_pa: Finite,
    /// Critical pressure ratio.
    pub critical_ratio: Finite,
    /// Absolute pressure before it, Pa.
    pub upstream_pa: Finite,
    /// Absolute pressure behind it, Pa.
    pub downstream_pa: Finite,
    /// Temperature of the air, K.
    pub air_temperature_k: Finite,
}

/// Air through a hole, and the drilled hole of that conductance.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HoleAirAnswer {
    /// pV flow, Pa·m³/s.
    pub throughput_w: Finite,
    /// Diameter of a drilled hole of this conductance (discharge coefficient 0.8), m.
    pub equivalent_diameter_m: Finite,
}

/// A limit carried to another barometer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LimitArgs {
    /// The limit, Pa below ambient.
    pub vacuum_pa: Finite,
    /// Barometer at which it was stated, Pa absolute.
    pub from_pa: Finite,
    /// Barometer to which it is carried, Pa absolute.
    pub to_pa: Finite,
    /// By which law.
    pub law: LeakLaw,
    /// The stand's dead-headed reading, Pa below ambient, at `to_pa`.
    pub dead_head_vacuum_pa: Finite,
    /// Whether the dead head follows the barometer.
    pub dead_head_follows_barometer: bool,
    /// Temperature of the air, K.
    pub air_temperature_k: Finite,
}

/// The limit as a reading there.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LimitAnswer {
    /// Pa below ambient.
    pub vacuum_pa: Finite,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// A reducing regulator by its profile, all seals in one state, at one line pressure.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RegulatorArgs {
    /// The bore.
    pub profile: BoreProfile,
    /// Radial clearance of every land at 20 °C, m; none: as new.
    #[serde(default)]
    pub radial_clearance_m: Option<Finite>,
    /// 0 centred, 1 touching.
    #[serde(default)]
    pub eccentricity: Finite,
    /// Oil temperature, K.
    pub oil_temperature_k: Finite,
    /// Line pressure over sump, Pa.
    pub line_pa: Finite,
    /// Which way the spool last moved.
    #[serde(default)]
    pub branch: SpoolBranch,
}

/// Which way the spool last moved: friction opposes it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SpoolBranch {
    /// Friction left out.
    #[default]
    Frictionless,
    /// Line pressure rises.
    Rising,
    /// Line pressure falls.
    Falling,
}

/// The regulator at rest.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RegulatorAnswer {
    /// The bore.
    pub bore: Id,
    /// Regulated pressure over sump, Pa.
    pub feed_pa: Finite,
    /// Pressure on the reaction area, Pa.
    pub reaction_pa: Finite,
    /// Pressure in the spring chamber, Pa.
    pub spring_chamber_pa: Finite,
    /// Stroke, m.
    pub stroke_m: Finite,
    /// What the valve does.
    pub state: RegulationState,
    /// Line to feed, m³/s.
    pub supply_m3_s: Finite,
    /// Feed to sump through the exhaust opening, m³/s.
    pub exhaust_m3_s: Finite,
    /// Feed to the solenoids, m³/s.
    pub demand_m3_s: Finite,
    /// Feed to sump through the relief, m³/s.
    pub relief_m3_s: Finite,
    /// Each land leak, m³/s, in the profile's order, from its left place to its right.
    pub leaks_m3_s: Vec<Finite>,
    /// Net steady flow force, N, positive toward closing the supply.
    pub flow_force_n: Finite,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}
