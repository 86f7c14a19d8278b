//! Backups, and what a repair saved.

use chrono::{DateTime, Utc};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::ApiError;

/// Why a backup was made.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum BackupReason {
    /// A day had passed and something had changed.
    Daily,
    /// Somebody asked for it.
    ByHand,
    /// Before a newer program carried the store forward.
    BeforeMigration,
    /// Before something from elsewhere was taken in.
    BeforeImport,
    /// The store itself, put aside when another took its place.
    Replaced,
}

/// What a backup holds.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct BackupHolds {
    /// Records in its journal.
    pub records: u32,
    /// Jobs.
    pub jobs: u32,
    /// When its last change was made.
    pub last_change: Option<DateTime<Utc>>,
}

/// One backup.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct BackupEntry {
    /// Its file's name, which names it.
    pub name: String,
    /// When it was made, by this device's clock.
    pub made_at: DateTime<Utc>,
    /// Why.
    pub reason: BackupReason,
    /// Its size.
    pub bytes: u64,
    /// What it holds; none: it can't be read.
    pub holds: Option<BackupHolds>,
}

/// The backups of the store, newest first. Answered also when the store can't be opened.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct BackupList {
    /// The folder that they are in.
    pub folder: String,
    /// The backups.
    pub backups: Vec<BackupEntry>,
    /// Why the last one that was due could not be made.
    pub problem: Option<ApiError>,
}

/// Name one backup.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BackupName {
    /// Its name, as the list gives it.
    pub name: String,
}

/// A backup is the store now.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct StoreRestored {
    /// Records in the store now.
    pub records: u32,
    /// Contents in the backup that had been erased since, and were erased again.
    pub erased: u32,
    /// The backup that the store before it is now; none if there was none.
    pub aside: Option<String>,
}

/// Why something is not in a repaired store.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum LossReason {
    /// A record was found, but altered.
    Altered,
    /// A record was found, but nothing with a good signature lists it.
    Unsigned,
    /// A record is here, but its content was altered.
    ContentAltered,
    /// A record is here, but not its content: lost, or left out or erased before.
    ContentMissing,
    /// A signed list names a record that was not found: lost, or never passed on to this device.
    Missing,
}

/// Something that a repair could not save.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct StoreLoss {
    /// Why.
    pub reason: LossReason,
    /// What kind of record, if that can still be told.
    pub kind: Option<String>,
    /// The number of the job that it belongs to, if that can still be told.
    pub job: Option<String>,
    /// How many of them.
    pub count: u32,
}

/// What a repair saved and what it could not.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct StoreRepaired {
    /// Records saved.
    pub records: u32,
    /// Drafts saved.
    pub drafts: u32,
    /// Rows of any table, also of those that were made anew, that could not be read.
    pub unreadable_rows: u32,
    /// What could not be saved.
    pub lost: Vec<StoreLoss>,
    /// The backup that the damaged store is now.
    pub aside: Option<String>,
}
