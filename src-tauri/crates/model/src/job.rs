//! A job: one vehicle, one complaint, one unit on the bench. Each part is a record kind of its
//! own, so that two people who edit different parts at once lose nothing.

use chrono::NaiveDate;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::limits::{Check, text_required};
use crate::{Finding, Id};

/// The job itself. Kind `job`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Job {
    /// The unit profile it is about.
    pub unit: Id,
    /// The shop's own job number, as the shop writes it.
    pub number: String,
    /// The day the job was opened.
    pub opened_on: NaiveDate,
}

/// What the vehicle is, without anything that names a person. Kind `job.vehicle`.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
pub struct Vehicle {
    /// Year, make and model in the shop's words.
    pub description: String,
    /// Distance covered, m.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub odometer_m: Option<crate::Finite>,
}

/// What the customer complains of. Kind `job.complaint`.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
pub struct Complaint {
    /// In the customer's or the technician's words.
    pub text: String,
}

/// Free notes. Kind `job.notes`.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
pub struct Notes {
    /// Anything worth keeping.
    pub text: String,
}

/// Who owns the vehicle. Kind `job.customer`: personal, left out of bundles unless asked for.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
pub struct Customer {
    /// Name.
    #[serde(default)]
    pub name: String,
    /// Telephone.
    #[serde(default)]
    pub phone: String,
    /// Licence plate.
    #[serde(default)]
    pub plate: String,
}

impl Check for Job {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        text_required(&self.number, at, "number", findings);
    }
}

impl Check for Vehicle {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        text_required(&self.description, at, "description", findings);
    }
}

impl Check for Complaint {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        text_required(&self.text, at, "text", findings);
    }
}
