//! Springs: by their geometry, by their measured loads, shimmed, and for another area.

use diagnosis::Assumed;
use model::Finite;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{MeasuredValue, SpringLine};

/// How a spring's ends are made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SpringEnds {
    /// Cut off.
    Plain,
    /// Cut off and ground flat.
    PlainGround,
    /// Closed, not ground.
    Closed,
    /// Closed and ground flat.
    ClosedGround,
}

/// How a spring is held at its ends.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SpringMounting {
    /// Both ends on flat parallel faces.
    FixedFixed,
    /// One flat face, one pivoted.
    FixedPivoted,
    /// Both pivoted.
    Pivoted,
    /// One clamped, one free to go sideways.
    FixedFree,
}

/// A helical compression spring of round wire.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CoilForm {
    /// Wire diameter, m.
    pub wire_m: Finite,
    /// Mean coil diameter, m.
    pub mean_diameter_m: Finite,
    /// Active coils.
    pub active_coils: Finite,
    /// Height without load, m.
    pub free_height_m: Finite,
    /// Its ends.
    pub ends: SpringEnds,
    /// Shear modulus of the wire, Pa.
    pub shear_modulus_pa: Finite,
    /// Young's modulus of the wire, Pa.
    pub young_modulus_pa: Finite,
    /// Density of the wire, kg/m³.
    pub wire_density_kg_m3: Finite,
}

/// What a spring's geometry makes of it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SpringGeometryArgs {
    /// The spring.
    pub spring: CoilForm,
    /// How it is held.
    pub mounting: SpringMounting,
}

/// A spring by its geometry.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SpringGeometryAnswer {
    /// Rate by torsion alone, N/m.
    pub rate_n_m: Finite,
    /// Rate with direct shear, N/m.
    pub rate_with_direct_shear_n_m: Finite,
    /// Mean diameter over wire.
    pub index: Finite,
    /// Wahl's factor.
    pub wahl: Finite,
    /// Bergsträsser's factor.
    pub bergstrasser: Finite,
    /// Height with all coils shut, m.
    pub solid_height_m: Finite,
    /// The same by EN 13906-1, m; none where it has none.
    pub solid_height_en_m: Option<Finite>,
    /// Gap that EN 13906-1 wants left between the coils, all together, m.
    pub least_gap_en_m: Finite,
    /// Mass of the active coils, kg.
    pub active_mass_kg: Finite,
    /// First natural frequency between two plates, Hz.
    pub natural_frequency_hz: Finite,
    /// Free height below which it can't buckle, m.
    pub safe_free_height_m: Finite,
    /// Deflection at which it buckles, m; none if never.
    pub critical_deflection_m: Option<Finite>,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// A spring held at a height.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SpringAtHeightArgs {
    /// The spring.
    pub spring: CoilForm,
    /// Its height, m.
    pub height_m: Finite,
    /// How far its dimensions may be off; none: no spread is told.
    #[serde(default)]
    pub errors: Option<CoilOff>,
}

/// How far the dimensions of a spring may be off: half-widths.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CoilOff {
    /// Wire, m.
    pub wire_m: Finite,
    /// Mean coil diameter, m.
    pub mean_diameter_m: Finite,
    /// Active coils.
    pub active_coils: Finite,
    /// Height without load, m.
    pub free_height_m: Finite,
    /// Shear modulus, as a share of it.
    pub shear_modulus_ratio: Finite,
}

/// Half-widths of what follows from the dimensions.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CoilSpreadTold {
    /// Rate, N/m.
    pub rate_n_m: Finite,
    /// Load at the height, N.
    pub load_n: Finite,
}

/// Load and stress there.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SpringAtHeightAnswer {
    /// Load, N.
    pub load_n: Finite,
    /// Shear stress with Wahl's factor, Pa.
    pub stress_wahl_pa: Finite,
    /// Shear stress with Bergsträsser's factor, Pa.
    pub stress_bergstrasser_pa: Finite,
    /// What is left until the coils shut, m.
    pub to_solid_m: Finite,
    /// Rate, N/m.
    pub rate_n_m: Finite,
    /// Height with all coils shut, m.
    pub solid_height_m: Finite,
    /// How far rate and load may be off, where the errors of the dimensions were given.
    pub spread: Option<CoilSpreadTold>,
    /// What it rests on; `spring_near_solid` where coils may touch.
    pub assumptions: Vec<Assumed>,
}

/// One load of a spring at a height.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LoadAtHeight {
    /// Height, m.
    pub height_m: Finite,
    /// Load, N.
    pub load_n: Finite,
    /// Standard uncertainty of the load, N.
    pub uncertainty_n: Finite,
}

/// A line through measured loads.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SpringFitArgs {
    /// Loads at heights, 2 to 100.
    pub readings: Vec<LoadAtHeight>,
    /// Height at which the load is wanted, m.
    pub height_m: Finite,
    /// Load that the spring should have there, N; none: no sag is told.
    #[serde(default)]
    pub nominal_load_n: Option<Finite>,
}

/// How much a spring has sagged.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SpringSag {
    /// Nominal less measured load, N.
    pub lost_load_n: Finite,
    /// The same over the nominal load.
    pub lost_ratio: Finite,
    /// Height lost, m: the shim that gives it back.
    pub lost_height_m: MeasuredValue,
}

/// A spring by its measured loads.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SpringFitAnswer {
    /// Rate, N/m.
    pub rate_n_m: MeasuredValue,
    /// Load at the height asked for, N.
    pub load_n: MeasuredValue,
    /// True when that height lies beyond the readings.
    pub extrapolated: bool,
    /// Readings beyond two.
    pub degrees_of_freedom: u32,
    /// Scatter of the readings over what their uncertainties say; near 1 when both agree.
    pub scatter: Finite,
    /// Largest distance of a reading from the line, N.
    pub largest_residual_n: Finite,
    /// Sag, when a nominal load was given.
    pub sag: Option<SpringSag>,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// A shim under a spring: give the pressure or the thickness.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SpringShimArgs {
    /// The spring as it is.
    pub spring: SpringLine,
    /// Reaction area, m².
    pub area_m2: Finite,
    /// What is known.
    pub known: ShimKnown,
}

/// What is known of a shim.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ShimKnown {
    /// Pressure that is wanted, Pa.
    PressurePa(Finite),
    /// Thickness, m; negative when the spring's seat goes back.
    ThicknessM(Finite),
}

/// A shim and what it does.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SpringShimAnswer {
    /// Thickness, m.
    pub thickness_m: Finite,
    /// Pressure with it, Pa.
    pub pressure_pa: Finite,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// The spring for a valve of another area, at the same pressure.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SpringRerateArgs {
    /// The spring as it is.
    pub spring: SpringLine,
    /// Area of the valve as it is, m².
    pub old_area_m2: Finite,
    /// Area of the new valve, m².
    pub new_area_m2: Finite,
}

/// The spring for it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SpringRerateAnswer {
    /// The spring.
    pub spring: SpringLine,
    /// Pressure that it holds at rest, Pa, as before.
    pub pressure_pa: Finite,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}
