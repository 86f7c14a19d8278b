//! The unit, its circuits, and the parts of a circuit that are not spools.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Node;
use crate::{Finite, Id};

/// An oil by its data sheet.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Oil {
    /// Name in the shop's words.
    pub name: String,
    /// Kinematic viscosity at 40 °C, m²/s.
    pub viscosity_40c_m2_s: Finite,
    /// Kinematic viscosity at 100 °C, m²/s.
    pub viscosity_100c_m2_s: Finite,
    /// Density at 15 °C, kg/m³.
    pub density_15c_kg_m3: Finite,
}

/// A transmission as the shop knows it. Kind `unit`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Unit {
    /// The shop's name for it.
    pub name: String,
    /// One line about it.
    #[serde(default)]
    pub summary: String,
    /// The oil it runs on.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub oil: Option<Oil>,
    /// Running temperature of the oil for judgements, K.
    pub hot_oil_temperature_k: Finite,
    /// Line pressure at hot idle, Pa above ambient.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub line_idle_pa: Option<Finite>,
    /// Highest line pressure in service, Pa above ambient.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub line_highest_pa: Option<Finite>,
    /// Where these figures come from.
    pub source: String,
}

/// How a solenoid makes its pressure from the feed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum SolenoidKind {
    /// A bleed behind an orifice: the output is a share of the feed.
    Bleed,
    /// Full on and off at a duty: the mean output is a share of the feed.
    PulseWidth,
    /// A spool that weighs its output against the magnet.
    ClosedLoop,
}

/// What the service information allows a solenoid's coil.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CoilLimits {
    /// Least resistance, ohm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub low_ohm: Option<Finite>,
    /// Most, ohm.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub high_ohm: Option<Finite>,
    /// At which coil temperature these hold, K.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub limits_at_k: Option<Finite>,
    /// Who says so.
    #[serde(default)]
    pub source: String,
}

/// A circuit of a unit. Kind `circuit`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Circuit {
    /// The unit.
    pub unit: Id,
    /// Fractional order key.
    pub order: String,
    /// Name, e.g. "Solenoid feed".
    pub name: String,
    /// Pressure that it is meant to hold, Pa above ambient.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub setpoint_pa: Option<Finite>,
    /// Lowest pressure that the service information allows while regulating, Pa.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub specified_low_pa: Option<Finite>,
    /// Highest, Pa.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub specified_high_pa: Option<Finite>,
    /// What the solenoids together take at the setpoint, hot, m³/s.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub demand_m3_s: Option<Finite>,
    /// Through how many solenoids.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub solenoids: Option<u32>,
    /// How they make their pressures, and so how far a shift of the feed reaches a clutch.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub solenoid_kind: Option<SolenoidKind>,
    /// What their coils may measure, if it is known.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub coil: Option<CoilLimits>,
    /// Where the specification comes from.
    pub source: String,
}

/// A place where a gauge can be screwed in. Kind `tap`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Tap {
    /// The circuit.
    pub circuit: Id,
    /// Fractional order key.
    pub order: String,
    /// Name, e.g. as cast on the case.
    pub name: String,
    /// Where in the circuit it taps.
    pub node: Node,
    /// When the window holds, e.g. "hot idle, in drive".
    #[serde(default)]
    pub condition: String,
    /// Lowest pressure that the service information allows there, Pa above ambient.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub low_pa: Option<Finite>,
    /// Highest, Pa above ambient.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub high_pa: Option<Finite>,
    /// Who says so.
    pub source: String,
}

/// The spring of a bore. Kind `spring`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Spring {
    /// The bore.
    pub bore: Id,
    /// Rate, N/m.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rate_n_per_m: Option<Finite>,
    /// Load with the spool at the regulating position (the supply just closed), N.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub load_regulating_n: Option<Finite>,
    /// Where the figures come from.
    pub source: String,
}

/// The orifice between feed and the reaction chamber. Kind `balance_orifice`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BalanceOrifice {
    /// The bore.
    pub bore: Id,
    /// Bore of the orifice, m.
    pub diameter_m: Finite,
    /// Length of the orifice, usually the plate's thickness, m.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub length_m: Option<Finite>,
    /// Where the figures come from.
    pub source: String,
}

/// A ball relief on the feed circuit. Kind `relief`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Relief {
    /// The circuit it guards.
    pub circuit: Id,
    /// Ball diameter, m.
    pub ball_diameter_m: Finite,
    /// Bore of the sharp-edged seat, m.
    pub seat_diameter_m: Finite,
    /// Spring load on the seated ball, N.
    pub load_seated_n: Finite,
    /// Spring rate, N/m.
    pub rate_n_per_m: Finite,
    /// How far the ball can lift, m.
    pub lift_stop_m: Finite,
    /// Where the figures come from.
    pub source: String,
}
