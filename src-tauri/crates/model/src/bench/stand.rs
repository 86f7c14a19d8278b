//! A vacuum stand: a pump that pulls through a bleed, a gauge, a hose.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::limits::{self, Check, in_range, join, text_required};
use crate::{Finding, Finite, Id};

/// An orifice of known bore that fits the hose end, to calibrate the stand.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CalibratedOrifice {
    /// What is engraved on it; unique on the stand.
    pub label: String,
    /// Bore, m.
    pub diameter_m: Finite,
    /// Sonic conductance by ISO 6358, m³/(s·Pa), from its certificate.
    pub sonic_conductance_m3_s_pa: Finite,
    /// Critical pressure ratio by ISO 6358.
    pub critical_ratio: Finite,
}

/// A vacuum stand. Kind `stand`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Stand {
    /// Name in the shop's words.
    pub name: String,
    /// Its gauge.
    pub gauge: Id,
    /// The orifices kept with it.
    pub orifices: Vec<CalibratedOrifice>,
    /// True when the absolute pressure with the hose closed rises and falls with the barometer, in
    /// proportion (a pump whose dead volume expands back, a venturi); false when it is the same on
    /// any day (a pump at its end pressure).
    pub dead_head_follows_barometer: bool,
    /// Altitude of the place where it stands, m; offered when a test starts.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub altitude_m: Option<Finite>,
}

impl Check for Stand {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        text_required(&self.name, at, "name", findings);
        if let Some(altitude) = self.altitude_m {
            in_range(*altitude, limits::ALTITUDE_M, at, "altitude_m", findings);
        }
        for (i, orifice) in self.orifices.iter().enumerate() {
            let here = join(at, &format!("orifices[{i}]"));
            in_range(
                *orifice.diameter_m,
                limits::ORIFICE_M,
                &here,
                "diameter_m",
                findings,
            );
            in_range(
                *orifice.critical_ratio,
                limits::FRACTION,
                &here,
                "critical_ratio",
                findings,
            );
            in_range(
                *orifice.sonic_conductance_m3_s_pa,
                limits::SONIC_CONDUCTANCE_M3_S_PA,
                &here,
                "sonic_conductance_m3_s_pa",
                findings,
            );
        }
    }
}
