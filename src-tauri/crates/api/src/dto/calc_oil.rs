//! Oil by itself: its viscosity line, viscosity index, and stiffness with air in it.

use diagnosis::Assumed;
use model::Finite;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A viscosity that was measured or stated.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ViscosityAt {
    /// Temperature, K.
    pub temperature_k: Finite,
    /// Kinematic viscosity, m²/s.
    pub viscosity_m2_s: Finite,
}

/// The viscosity line of an oil, read both ways.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OilChartArgs {
    /// What is known of the oil, 2 to 50 points.
    pub points: Vec<ViscosityAt>,
    /// Temperatures at which the viscosity is wanted, K; up to 200.
    #[serde(default)]
    pub temperatures_k: Vec<Finite>,
    /// Viscosities whose temperature is wanted, m²/s; up to 200.
    #[serde(default)]
    pub viscosities_m2_s: Vec<Finite>,
}

/// One reading off the line.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OilChartReading {
    /// Temperature, K.
    pub temperature_k: Finite,
    /// Kinematic viscosity, m²/s.
    pub viscosity_m2_s: Finite,
    /// True beyond the points.
    pub extrapolated: bool,
}

/// The line and what was read off it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OilChartAnswer {
    /// A of log10(log10(Z)) = A - B log10(T).
    pub a: Finite,
    /// B of the same.
    pub b: Finite,
    /// Largest distance of a point from the line, as a part of its viscosity.
    pub misfit_ratio: Finite,
    /// At the temperatures asked for, in their order.
    pub at_temperatures: Vec<OilChartReading>,
    /// At the viscosities asked for, in their order.
    pub at_viscosities: Vec<OilChartReading>,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// Two viscosities for the index.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ViscosityIndexArgs {
    /// Kinematic viscosity at 40 °C, m²/s.
    pub viscosity_40c_m2_s: Finite,
    /// Kinematic viscosity at 100 °C, m²/s.
    pub viscosity_100c_m2_s: Finite,
}

/// Viscosity index by ASTM D2270.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ViscosityIndexAnswer {
    /// The index, not rounded.
    pub viscosity_index: Finite,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// Oil with free air in it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OilStiffnessArgs {
    /// Bulk modulus of the oil alone, Pa.
    pub oil_bulk_modulus_pa: Finite,
    /// Free air over oil by volume at the reference pressure.
    pub air_ratio: Finite,
    /// Absolute pressure at which that holds, Pa.
    pub reference_pressure_pa: Finite,
    /// 1 for slow changes, 1.4 for quick ones.
    pub polytropic_exponent: Finite,
    /// Bulk modulus of what holds the oil, Pa; none for rigid walls.
    #[serde(default)]
    pub wall_bulk_modulus_pa: Option<Finite>,
    /// Absolute pressure, Pa.
    pub pressure_pa: Finite,
}

/// How stiff it is.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct OilStiffnessAnswer {
    /// Effective bulk modulus, Pa.
    pub bulk_modulus_pa: Finite,
    /// Air over the whole volume at this pressure.
    pub air_ratio: Finite,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}
