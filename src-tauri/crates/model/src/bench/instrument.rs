//! Instruments and how far they can be trusted.

use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::finding::{FindingCode, Severity};
use crate::limits::{self, Check, Range, in_range, join, text_required};
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
    /// A set of pins for small bores; metres.
    PinGauges,
    /// A spring's load at a height; newton.
    SpringTester,
    /// Temperature; kelvin.
    Thermometer,
    /// Oil or air pressure above ambient; Pa.
    PressureGauge,
    /// Feeler gauges and straightedge; metres.
    FeelerGauges,
    /// Electrical resistance; ohm.
    Ohmmeter,
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
    /// The least that it measures; none: not entered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub range_low_si: Option<Finite>,
    /// The most that it measures; none: not entered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub range_high_si: Option<Finite>,
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
        let (error, step) = self.kind.legal();
        in_range(
            *self.limits_of_error_si,
            error,
            at,
            "limits_of_error_si",
            findings,
        );
        in_range(*self.resolution_si, step, at, "resolution_si", findings);
        if let (Some(low), Some(high)) = (self.range_low_si, self.range_high_si)
            && *low >= *high
        {
            findings.push(Finding::at(
                Severity::Wrong,
                FindingCode::DimensionsContradict,
                join(at, "range_high_si"),
            ));
        }
        if let (Some(done), Some(due)) = (self.calibrated_on, self.calibration_due)
            && due < done
        {
            findings.push(Finding::at(
                Severity::Wrong,
                FindingCode::DimensionsContradict,
                join(at, "calibration_due"),
            ));
        }
    }
}

impl InstrumentKind {
    /// What can be true of such an instrument's limits of error and of its smallest step, in the
    /// unit of what it measures.
    #[must_use]
    pub fn legal(self) -> (Range, Range) {
        let same = |range| (range, range);
        match self {
            Self::VacuumGauge | Self::Barometer => (limits::GAUGE_ERROR_PA, limits::GAUGE_STEP_PA),
            Self::Micrometer | Self::BoreGauge | Self::PinGauges | Self::FeelerGauges => {
                same(limits::LENGTH_ERROR_M)
            }
            Self::SpringTester => same(limits::LOAD_ERROR_N),
            Self::Thermometer => same(limits::TEMPERATURE_ERROR_K),
            Self::PressureGauge => same(limits::PRESSURE_ERROR_PA),
            Self::Ohmmeter => same(limits::RESISTANCE_ERROR_OHM),
        }
    }
}

impl Instrument {
    /// True when a figure lies outside what it measures, as far as that was entered.
    #[must_use]
    pub fn is_beyond(&self, value_si: f64) -> bool {
        self.range_low_si.is_some_and(|low| value_si < *low)
            || self.range_high_si.is_some_and(|high| value_si > *high)
    }
}
