//! The printable report of a job.

use model::Id;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Write a job's report.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReportWrite {
    /// The job.
    pub job: Id,
    /// With the customer's name, telephone and plate.
    #[serde(default)]
    pub personal: bool,
    /// How this device writes numbers (BCP 47), for settings that leave that to the device.
    #[serde(default)]
    pub locale: Option<String>,
}

/// A report, ready to be saved.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct ReportMade {
    /// The file.
    pub file: u32,
    /// A name for it.
    pub name: String,
    /// Its length.
    pub bytes: u64,
}
