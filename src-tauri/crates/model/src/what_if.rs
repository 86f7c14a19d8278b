//! A valve tried out: its parts set to other figures than were measured, to see what that would
//! do. A setting that somebody keeps is a record; nothing judges by it.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::limits::{self, Check, Range, in_range};
use crate::{Finding, Finite, Id};

/// A setting of one bore that somebody keeps. Kind `what_if`, a subject of its own under the bore.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct WhatIf {
    /// The bore.
    pub bore: Id,
    /// What it shows, in the keeper's words.
    #[serde(default)]
    pub note: String,
    /// The setting.
    pub setting: Setting,
}

/// What is set; each figure that isn't stays as it was measured, or as the profile has it.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct Setting {
    /// Clearance of all lands on the diameter at 20 °C, m.
    pub clearance_m: Option<Finite>,
    /// Spring load at the regulating position, N.
    pub spring_load_n: Option<Finite>,
    /// Spring rate, N/m.
    pub spring_rate_n_per_m: Option<Finite>,
    /// Bore of the balance orifice, m.
    pub orifice_m: Option<Finite>,
    /// What the solenoids take at the setpoint, hot, m³/s.
    pub demand_m3_s: Option<Finite>,
    /// Sliding friction of the spool, N.
    pub friction_n: Option<Finite>,
    /// Temperature of the oil, K.
    pub oil_temperature_k: Option<Finite>,
    /// Line pressure that the spool is looked at under, Pa.
    pub line_pa: Option<Finite>,
    /// False: the exhaust, where the valve has one, is shut off.
    pub exhaust: Option<bool>,
    /// False: without the relief; true: with it, the profile's or the one that is to be added.
    pub relief: Option<bool>,
}

impl Setting {
    /// Each figure with its field, and what can be true of it.
    #[must_use]
    pub fn figures(&self) -> [(&'static str, Option<Finite>, Range); 8] {
        [
            (
                "clearance_m",
                self.clearance_m,
                limits::DIAMETRAL_CLEARANCE_M,
            ),
            ("spring_load_n", self.spring_load_n, limits::SPRING_LOAD_N),
            (
                "spring_rate_n_per_m",
                self.spring_rate_n_per_m,
                limits::SPRING_RATE_N_PER_M,
            ),
            ("orifice_m", self.orifice_m, limits::ORIFICE_M),
            ("demand_m3_s", self.demand_m3_s, limits::FLOW_M3_S),
            ("friction_n", self.friction_n, limits::FRICTION_N),
            (
                "oil_temperature_k",
                self.oil_temperature_k,
                limits::OIL_TEMPERATURE_K,
            ),
            ("line_pa", self.line_pa, limits::PRESSURE_PA),
        ]
    }
}

impl Check for Setting {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        for (field, value, range) in self.figures() {
            if let Some(value) = value {
                in_range(*value, range, at, field, findings);
            }
        }
    }
}
