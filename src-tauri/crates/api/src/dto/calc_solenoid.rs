//! Solenoids: the winding's resistance and temperature, and the shift that one passes on.

use diagnosis::Assumed;
use model::Finite;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Bounds;

/// A winding: by a measurement, or by its wire.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case", deny_unknown_fields)]
pub enum WindingKnown {
    /// A resistance at a temperature.
    Measured {
        /// Resistance, ohm.
        resistance_ohm: Finite,
        /// Temperature of the winding then, K.
        temperature_k: Finite,
    },
    /// Bare copper wire.
    Wire {
        /// Length, m.
        length_m: Finite,
        /// Bare diameter, m.
        diameter_m: Finite,
    },
}

/// A copper winding at a temperature.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SolenoidResistanceArgs {
    /// The winding.
    pub winding: WindingKnown,
    /// Temperature at which the resistance is wanted, K.
    pub temperature_k: Finite,
    /// Voltage across it, V; none: no current is told.
    #[serde(default)]
    pub voltage_v: Option<Finite>,
}

/// Resistance and current there.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SolenoidResistanceAnswer {
    /// Resistance, ohm.
    pub resistance_ohm: Finite,
    /// Resistance at 20 °C, ohm.
    pub resistance_20c_ohm: Finite,
    /// Current, A, when a voltage was given.
    pub current_a: Option<Finite>,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// Which line copper's resistance follows.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum CopperLine {
    /// 235 K, as IEC 60034-1.
    #[default]
    Iec60034,
    /// By the coefficient of IEC 60028.
    Iec60028,
    /// Another offset, K.
    OffsetK(Finite),
}

/// A winding measured cold and hot.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SolenoidTemperatureArgs {
    /// Resistance at the known temperature, ohm.
    pub first_resistance_ohm: Finite,
    /// That temperature, K.
    pub first_temperature_k: Finite,
    /// Resistance at the unknown temperature, ohm.
    pub second_resistance_ohm: Finite,
    /// Line of the resistance.
    #[serde(default)]
    pub line: CopperLine,
}

/// The winding's temperature.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SolenoidTemperatureAnswer {
    /// Mean temperature of the winding, K.
    pub temperature_k: Finite,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}

/// How a solenoid makes its pressure.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum PressureSolenoid {
    /// A bleed behind an orifice.
    Bleed,
    /// Full on and off at a duty.
    PulseWidth,
    /// A spool that weighs its output against the magnet.
    ClosedLoop,
}

/// A shift of the feed, as a clutch sees it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PassedShiftArgs {
    /// The solenoid.
    pub kind: PressureSolenoid,
    /// Pressure that is commanded, Pa over sump.
    pub commanded_pa: Finite,
    /// Feed of the solenoid, Pa over sump.
    pub feed_pa: Finite,
    /// Shift of the feed, Pa.
    pub shift_pa: Finite,
    /// Clutch pressure over the solenoid's.
    pub gain_ratio: Finite,
}

/// What is passed on.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PassedShiftAnswer {
    /// Likely shift, Pa.
    pub shift_pa: Finite,
    /// Its bounds over how solenoids of the kind differ, Pa.
    pub span_pa: Bounds,
    /// True when the command lies so near the feed that the output may follow it.
    pub near_feed: bool,
    /// What it rests on.
    pub assumptions: Vec<Assumed>,
}
