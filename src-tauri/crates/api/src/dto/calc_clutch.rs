//! Clutches: torque of a pack, what a pressure's shift costs it, pressure for a torque.

use diagnosis::Assumed;
use model::Finite;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A ring between two radii.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RingFace {
    /// Inner radius, m.
    pub inner_radius_m: Finite,
    /// Outer radius, m.
    pub outer_radius_m: Finite,
}

/// A clutch pack.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ClutchPackParts {
    /// The piston.
    pub piston: RingFace,
    /// The friction faces.
    pub face: RingFace,
    /// How many faces rub: two for each lined plate.
    pub faces: u32,
    /// Coefficient of friction.
    pub friction_coefficient: Finite,
    /// Load of the return springs with the pack closed, N.
    pub return_spring_n: Finite,
}

/// A chamber that turns on the other side of the piston.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BalanceChamber {
    /// The chamber.
    pub ring: RingFace,
    /// Radius from which oil stands in it, m.
    pub from_radius_m: Finite,
}

/// Oil that turns with the drum.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TurningDrum {
    /// Speed, rad/s.
    pub speed_rad_s: Finite,
    /// Density of the oil, kg/m³.
    pub density_kg_m3: Finite,
    /// Radius from which oil stands behind the piston, m.
    pub from_radius_m: Finite,
    /// Balance chamber, if there is one.
    #[serde(default)]
    pub balance: Option<BalanceChamber>,
}

/// A pack under pressure.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ClutchCapacityArgs {
    /// The pack.
    pub pack: ClutchPackParts,
    /// Apply pressure over sump, Pa.
    pub pressure_pa: Finite,
    /// The drum's turning; none: at rest.
    #[serde(default)]
    pub turning: Option<TurningDrum>,
}

/// What a pack holds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ClutchCapacityAnswer {
    /// Force that closes the pack, N; 0 while the return springs hold it open.
    pub apply_force_n: Finite,
    /// Of that, what the turning oil adds, N.
    pub centrifugal_force_n: Finite,
    /// Torque by uniform wear, N·m: the one to count on.
    pub uniform_wear_n_m: Finite,
    /// Torque by uniform pressure, N·m.
    pub uniform_pressure_n_m: Finite,
    /// Mean pressure on the faces, Pa.
    pub face_pressure_pa: Finite,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// A pack whose pressure shifts.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ClutchShiftArgs {
    /// The pack.
    pub pack: ClutchPackParts,
    /// Apply pressure over sump before, Pa.
    pub pressure_pa: Finite,
    /// Shift of it, Pa.
    pub shift_pa: Finite,
    /// The drum's turning; none: at rest.
    #[serde(default)]
    pub turning: Option<TurningDrum>,
}

/// What the shift does.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ClutchShiftAnswer {
    /// Before.
    pub before: ClutchCapacityAnswer,
    /// After.
    pub after: ClutchCapacityAnswer,
    /// Change of the torque by uniform wear, N·m.
    pub torque_n_m: Finite,
    /// The same over that before; none when there was none.
    pub torque_ratio: Option<Finite>,
}

/// A torque that a pack is to hold.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ClutchPressureArgs {
    /// The pack.
    pub pack: ClutchPackParts,
    /// Torque, N·m.
    pub torque_n_m: Finite,
    /// The drum's turning; none: at rest.
    #[serde(default)]
    pub turning: Option<TurningDrum>,
}

/// The pressure for it, by uniform wear.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ClutchPressureAnswer {
    /// Pressure over sump, Pa.
    pub pressure_pa: Finite,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}
