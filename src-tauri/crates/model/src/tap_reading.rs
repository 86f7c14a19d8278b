//! A pressure read at a tap, in the car or on the bench.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::caution::{BENCH_PRESSURE_HAZARDS, CAR_HAZARDS, Hazard};
use crate::inspection::Occasion;
use crate::limits::{self, Check, in_range, in_range_if_known};
use crate::{Finding, Finite, Id};

/// A reading at a pressure tap of the unit. Kind `tap_reading` on the job: each one adds; a
/// wrong one is taken back and read anew.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TapReading {
    /// The tap of the unit's profile.
    pub tap: Id,
    /// What was read and how.
    pub figures: TapFigures,
}

/// Where a pressure was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum TapPlace {
    /// In the car, engine idling, as the service information allows.
    Idle,
    /// In the car while it is driven, with a second person.
    Driving,
    /// On a bench that feeds the circuit.
    Bench,
}

impl TapPlace {
    /// The hazards that must have been read of before pressure is read there.
    #[must_use]
    pub fn hazards(self) -> &'static [Hazard] {
        match self {
            Self::Idle | Self::Driving => &CAR_HAZARDS,
            Self::Bench => &BENCH_PRESSURE_HAZARDS,
        }
    }
}

/// What was read at a tap. What wasn't noted is missing, and a finding says what that costs.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TapFigures {
    /// When in the job: before or after a repair.
    pub occasion: Occasion,
    /// Where.
    pub place: TapPlace,
    /// Pressure at the tap, Pa above ambient.
    pub pressure_pa: Finite,
    /// Temperature of the oil, K.
    #[serde(default)]
    pub oil_temperature_k: Option<Finite>,
    /// Line pressure at that moment, Pa above ambient.
    #[serde(default)]
    pub line_pa: Option<Finite>,
    /// Gear and what was commanded, in words.
    #[serde(default)]
    pub command: String,
    /// Speed and load, in words.
    #[serde(default)]
    pub load: String,
    /// The gauge at the tap.
    #[serde(default)]
    pub gauge: Option<Id>,
    /// The gauge of the line pressure; the same one moved over, or another.
    #[serde(default)]
    pub line_gauge: Option<Id>,
    /// Anything worth keeping.
    #[serde(default)]
    pub note: String,
}

impl Check for TapFigures {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        let pressure = limits::TAP_PRESSURE_PA;
        in_range(*self.pressure_pa, pressure, at, "pressure_pa", findings);
        in_range_if_known(self.line_pa, pressure, at, "line_pa", findings);
        in_range_if_known(
            self.oil_temperature_k,
            limits::OIL_TEMPERATURE_K,
            at,
            "oil_temperature_k",
            findings,
        );
    }
}
