//! Clearance from a leak, over all that is unknown of how the valve sits; and from two valves.

use diagnosis::Assumed;
use model::Finite;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Bounds;

/// A land that seals.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SealingLand {
    /// Mean diameter, m.
    pub mean_diameter_m: Finite,
    /// Engaged length, m.
    pub engaged_length_m: Finite,
}

/// A leak of oil through lands of one clearance.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OilSpanArgs {
    /// Flow, m³/s.
    pub flow_m3_s: Finite,
    /// The lands, side by side, 1 to 16.
    pub lands: Vec<SealingLand>,
    /// Pressure drop, Pa.
    pub drop_pa: Finite,
    /// Dynamic viscosity, Pa·s.
    pub viscosity_pa_s: Finite,
    /// Density, kg/m³.
    pub density_kg_m3: Finite,
    /// How far each engaged length may be off, as a part of it.
    pub length_tolerance_ratio: Finite,
}

/// A land that seals against a pressure of air.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AirSealingLand {
    /// Mean diameter, m.
    pub mean_diameter_m: Finite,
    /// Engaged length, m.
    pub engaged_length_m: Finite,
    /// Absolute pressure from which air comes, Pa.
    pub far_side_pa: Finite,
}

/// A leak of air through lands of one clearance.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AirSpanArgs {
    /// pV flow, Pa·m³/s.
    pub throughput_w: Finite,
    /// The lands, side by side, 1 to 16.
    pub lands: Vec<AirSealingLand>,
    /// Absolute pressure of the chamber, Pa.
    pub chamber_pa: Finite,
    /// Temperature of the air, K.
    pub air_temperature_k: Finite,
    /// How far each engaged length may be off, as a part of it.
    pub length_tolerance_ratio: Finite,
}

/// Radial clearances that explain a leak.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ClearanceSpanAnswer {
    /// With the valve centred, m.
    pub centred_m: Finite,
    /// With the valve touching all along, m.
    pub touching_m: Finite,
    /// Over eccentricity, engaged length and entry loss together, m.
    pub span_m: Bounds,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// What is known of the stand of a two-valve test.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum TwoValveStand {
    /// Its dead-headed reading alone.
    DeadHead {
        /// Pa below ambient, on the day of the tests.
        vacuum_pa: Finite,
        /// Whether it follows the barometer.
        follows_barometer: bool,
    },
    /// Its calibration.
    Calibrated {
        /// Dead-headed reading, Pa below ambient, on the day of the tests.
        dead_head_vacuum_pa: Finite,
        /// Whether it follows the barometer.
        follows_barometer: bool,
        /// Pull, m³/s.
        pull_m3_s: Finite,
        /// Hose resistance, Pa·s/m³.
        hose_resistance_pa_s_m3: Finite,
        /// Mean diameter of the gap, m.
        mean_diameter_m: Finite,
    },
}

/// A bore tested with two valves of known difference.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TwoValvesArgs {
    /// Reading with the larger valve, Pa below ambient.
    pub larger_vacuum_pa: Finite,
    /// Reading with the smaller valve, Pa below ambient.
    pub smaller_vacuum_pa: Finite,
    /// How far each reading may be off, Pa.
    pub reading_tolerance_pa: Finite,
    /// Larger less smaller diameter, m.
    pub diameter_difference_m: Finite,
    /// How far that may be off, as a part of itself; none: a third.
    #[serde(default)]
    pub difference_tolerance_ratio: Option<Finite>,
    /// The stand.
    pub stand: TwoValveStand,
    /// Barometer, Pa.
    pub barometer_pa: Finite,
    /// Temperature of the air, K.
    pub air_temperature_k: Finite,
}

/// The clearance of the larger valve.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TwoValvesAnswer {
    /// Radial clearance, m.
    pub radial_clearance_m: Finite,
    /// Its lower bound over the tolerances, m.
    pub low_m: Finite,
    /// Its upper bound, m; none when the readings may be equal.
    pub high_m: Option<Finite>,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}
