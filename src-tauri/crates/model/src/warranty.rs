//! The warranty that the shop gives, in its own words. Nothing is worked out from it: what it
//! means is the shop's and the law's to say.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::finding::{FindingCode, Severity};
use crate::limits::{self, Check, in_range, in_range_if_known, join};
use crate::{Finding, Finite};

/// Warranty terms. Kind `job.warranty`.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Warranty {
    /// For how many months; none: not by time.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub months: Option<u32>,
    /// For what distance, m; none: not by distance.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub distance_m: Option<Finite>,
    /// The terms as the shop writes them.
    #[serde(default)]
    pub text: String,
}

impl Check for Warranty {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        let range = limits::WARRANTY_MONTHS;
        if let Some(months) = self.months {
            in_range(months.into(), range, at, "months", findings);
        }
        let range = limits::ODOMETER_M;
        in_range_if_known(self.distance_m, range, at, "distance_m", findings);
        let nothing = self.months.is_none() && self.distance_m.is_none();
        if nothing && self.text.trim().is_empty() {
            findings.push(Finding::at(
                Severity::Wrong,
                FindingCode::Missing,
                join(at, "text"),
            ));
        }
    }
}
