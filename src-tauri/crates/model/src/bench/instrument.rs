//! Instruments and how far they can be trusted.

use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::limits::{self, Check, in_range, text_required};
use crate::{Finding, Finite};

/// What an instrument measures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum InstrumentKind {
    /// Vacuum below ambient; its figures are in Pa.
    VacuumGauge,
    /// Outside diameters; metres.
    Micrometer,
    /// Inside diameters; metres.
    BoreGauge,
    /// Air pressure; Pa absolute.
    Barometer,
}

/// An instrument. Kind `instrument`. Its figures are SI in the unit of what it measures.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Instrument {
    /// Name in the shop's words.
    pub name: String,
    /// What it measures.
    pub kind: InstrumentKind,
    /// Limits of error, ±, as its data sheet or its certificate has them.
    pub limits_of_error_si: Finite,
    /// Smallest step that can be read.
    pub resolution_si: Finite,
    /// Last calibration.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub calibrated_on: Option<NaiveDate>,
    /// When the next one is due.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub calibration_due: Option<NaiveDate>,
    /// Where the limits of error come from.
    pub source: String,
}

impl Check for Instrument {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        text_required(&self.name, at, "name", findings);
        if matches!(
            self.kind,
            InstrumentKind::VacuumGauge | InstrumentKind::Barometer
        ) {
            in_range(
                *self.limits_of_error_si,
                limits::GAUGE_ERROR_PA,
                at,
                "limits_of_error_si",
                findings,
            );
            in_range(
                *self.resolution_si,
                limits::GAUGE_STEP_PA,
                at,
                "resolution_si",
                findings,
            );
        }
    }
}
