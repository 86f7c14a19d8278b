//! The printable report of a job.

use model::Id;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// For whom a report is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ReportVersion {
    /// For those who work on it or check it: everything on record.
    #[default]
    Technical,
    /// For the customer: one page in plain words.
    Customer,
}

/// As what kind of file it is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ReportFormat {
    /// A page for a browser, that needs nothing beside it.
    #[default]
    Html,
    /// Set in pages, tagged, its fonts inside.
    Pdf,
}

/// Write a job's report.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ReportWrite {
    /// The job.
    pub job: Id,
    /// With the customer's name, telephone and plate.
    #[serde(default)]
    pub personal: bool,
    /// For whom it is.
    #[serde(default)]
    pub version: ReportVersion,
    /// As what kind of file.
    #[serde(default)]
    pub format: ReportFormat,
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
