//! What two people wrote without knowing of each other, and which of it stands.

use chrono::{DateTime, Utc};
use model::Id;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::Value;

use super::UndoState;

/// Ask what is to be settled.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SettleGet {
    /// Of this job, test or unit alone; none: of the whole shop.
    #[serde(default)]
    pub within: Option<Id>,
}

/// What is to be settled.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SettleList {
    /// Each value of which more than one version stands.
    pub items: Vec<ToSettle>,
}

/// One value of which more than one version stands.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ToSettle {
    /// What it is a value of.
    pub subject: Id,
    /// Its kind, e.g. `job.complaint`.
    pub kind: String,
    /// What the subject is called, as far as it has a name.
    pub of: String,
    /// The job that it belongs to.
    pub job: Option<Id>,
    /// The test that it belongs to.
    pub test: Option<Id>,
    /// The unit that it belongs to.
    pub unit: Option<Id>,
    /// The versions, oldest first.
    pub versions: Vec<Version>,
}

/// One version of a value.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Version {
    /// Its record.
    pub record: Id,
    /// Who wrote it.
    pub by: String,
    /// When, by that device's clock.
    pub at: DateTime<Utc>,
    /// Fingerprint of the device.
    pub device: String,
    /// What this shop calls the device; empty: nothing.
    pub device_name: String,
    /// True for this very device.
    pub own: bool,
    /// True for the one that is shown until it is settled; of readings all count.
    pub shown: bool,
    /// What was written; none when withheld or erased: it can't be chosen then.
    pub body: Option<Value>,
}

/// Say which version stands.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SettleChoose {
    /// The subject.
    pub subject: Id,
    /// The kind.
    pub kind: String,
    /// The record of the version that stands.
    pub choose: Id,
    /// The records of all versions that were shown. Should there be others by now, nothing is
    /// settled.
    pub seen: Vec<Id>,
}

/// It is settled.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Settled {
    /// What can be undone: the settlement.
    pub undo: UndoState,
}
