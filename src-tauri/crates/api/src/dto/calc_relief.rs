//! A relief on its seat: pressure against flow, and the spring for a setpoint.

use diagnosis::Assumed;
use model::Finite;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::SpringLine;

/// What a relief seals with.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum ReliefSeat {
    /// A ball on the sharp edge of a drilled hole.
    BallOnEdge {
        /// Ball, m.
        ball_diameter_m: Finite,
        /// Hole, m.
        bore_diameter_m: Finite,
    },
    /// A ball in a conical seat.
    BallOnCone {
        /// Ball, m.
        ball_diameter_m: Finite,
        /// Half the cone's angle, from the axis, rad.
        half_angle_rad: Finite,
        /// Hole below the cone, m.
        bore_diameter_m: Finite,
    },
    /// A conical poppet on the sharp edge of a drilled hole.
    ConeOnEdge {
        /// Half the poppet's angle, from the axis, rad.
        half_angle_rad: Finite,
        /// Hole, m.
        bore_diameter_m: Finite,
    },
}

/// A relief that lets oil out to sump.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SeatedReliefParts {
    /// Its seat.
    pub seat: ReliefSeat,
    /// Its spring.
    pub spring: SpringLine,
    /// How far it can lift, m.
    pub lift_stop_m: Finite,
    /// Discharge coefficient of the opening.
    pub discharge_coefficient: Finite,
    /// Friction of the moving part, N.
    pub friction_n: Finite,
    /// Whether the jet's force counts.
    pub jet_force: bool,
}

/// Pressure against flow.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReliefOverrideArgs {
    /// The relief.
    pub relief: SeatedReliefParts,
    /// Flow up to which the curve goes, m³/s.
    pub flow_m3_s: Finite,
    /// Points on the curve, 2 to 200.
    pub points: u32,
    /// Dynamic viscosity, Pa·s.
    pub viscosity_pa_s: Finite,
    /// Density, kg/m³.
    pub density_kg_m3: Finite,
}

/// A relief at one flow.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ReliefAtFlow {
    /// Flow, m³/s.
    pub flow_m3_s: Finite,
    /// Pressure over sump, Pa.
    pub pressure_pa: Finite,
    /// Lift, m.
    pub lift_m: Finite,
    /// Opening, m².
    pub area_m2: Finite,
    /// True when it opens no further.
    pub wide_open: bool,
}

/// The curve.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ReliefOverrideAnswer {
    /// Where it cracks, Pa over sump.
    pub cracking_pa: Finite,
    /// Where it shuts again, Pa over sump; 0 when friction holds it open.
    pub reseat_pa: Finite,
    /// Pressure at the flow asked for less cracking pressure, Pa.
    pub override_pa: Finite,
    /// From no flow up.
    pub points: Vec<ReliefAtFlow>,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// The spring for a setpoint.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReliefSpringArgs {
    /// The relief, with the spring as it is.
    pub relief: SeatedReliefParts,
    /// Pressure at which it is to crack, Pa over sump.
    pub setpoint_pa: Finite,
    /// How far above that the flow may raise the pressure, Pa.
    pub override_pa: Finite,
    /// That flow, m³/s.
    pub flow_m3_s: Finite,
    /// Dynamic viscosity, Pa·s.
    pub viscosity_pa_s: Finite,
    /// Density, kg/m³.
    pub density_kg_m3: Finite,
}

/// The spring.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ReliefSpringAnswer {
    /// Load on the seat, and the highest rate that still does.
    pub spring: SpringLine,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}
