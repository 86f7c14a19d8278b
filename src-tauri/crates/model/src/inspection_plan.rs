//! Which bores and checks a job asks for, and in which order.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::finding::{FindingCode, Severity};
use crate::inspection::CheckName;
use crate::limits::Check;
use crate::{Finding, Id};

/// The plan of a job's inspection, where a person changed what the app proposed. Kind
/// `inspection_plan`, on the job's own subject.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct InspectionPlan {
    /// The bores to inspect, first one first. Others of the unit are not part of the plan.
    pub bores: Vec<Id>,
    /// Checks that are left out on purpose.
    #[serde(default)]
    pub left_out: Vec<LeftOut>,
    /// Checks of the body and the case that are part of it.
    #[serde(default)]
    pub body: Vec<CheckName>,
}

/// A check that is left out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LeftOut {
    /// Of which bore.
    pub bore: Id,
    /// Which check.
    pub check: CheckName,
    /// Why, in the shop's words.
    #[serde(default)]
    pub why: String,
}

impl InspectionPlan {
    /// Whether a check of a bore was left out on purpose.
    #[must_use]
    pub fn leaves_out(&self, bore: Id, check: CheckName) -> bool {
        self.left_out
            .iter()
            .any(|left| left.bore == bore && left.check == check)
    }
}

impl Check for InspectionPlan {
    fn check(&self, _: &str, findings: &mut Vec<Finding>) {
        for (i, left) in self.left_out.iter().enumerate() {
            if !left.check.is_of_a_bore() {
                findings.push(Finding::at(
                    Severity::Wrong,
                    FindingCode::OutOfRange,
                    format!("left_out[{i}].check"),
                ));
            }
            if left.why.trim().is_empty() {
                findings.push(Finding::at(
                    Severity::Doubt,
                    FindingCode::Missing,
                    format!("left_out[{i}].why"),
                ));
            }
        }
        for (i, bore) in self.bores.iter().enumerate() {
            if self.bores[..i].contains(bore) {
                findings.push(Finding::at(
                    Severity::Wrong,
                    FindingCode::DimensionsContradict,
                    format!("bores[{i}]"),
                ));
            }
        }
        for (i, check) in self.body.iter().enumerate() {
            if check.is_of_a_bore() {
                findings.push(Finding::at(
                    Severity::Wrong,
                    FindingCode::OutOfRange,
                    format!("body[{i}]"),
                ));
            }
        }
    }
}
