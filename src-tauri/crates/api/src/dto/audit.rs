//! Undo, and who changed what.

use chrono::{DateTime, Utc};
use model::Id;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::Value;

/// What undo and redo would do on this device.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize, JsonSchema)]
pub struct UndoState {
    /// The last change that can be undone.
    pub undo: Option<UndoStep>,
    /// The last undone change that can be brought back.
    pub redo: Option<UndoStep>,
}

/// One change.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct UndoStep {
    /// Kind of its main record, e.g. `test.reading`: the interface has words for each.
    pub kind: String,
    /// How many records it wrote.
    pub records: u32,
    /// When.
    pub at: DateTime<Utc>,
    /// The subject that it touched first.
    pub subject: Id,
}

/// What undo or redo did.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct UndoDone {
    /// The change that was undone or brought back.
    pub step: UndoStep,
    /// What can be done next.
    pub undo: UndoState,
}

/// Ask for a subject's history.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct HistoryGet {
    /// The subject: a job or a test.
    pub subject: Id,
}

/// Name one record.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct RecordName {
    /// The record.
    pub record: Id,
}

/// Every record of a subject, oldest first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct History {
    /// The records.
    pub entries: Vec<HistoryEntry>,
}

/// One record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HistoryEntry {
    /// The record.
    pub record: Id,
    /// Its kind.
    pub kind: String,
    /// Who.
    pub by: String,
    /// When, by that device's clock.
    pub at: DateTime<Utc>,
    /// Fingerprint of the device.
    pub device: String,
    /// Whether it stands.
    pub standing: RecordStanding,
    /// True when it can be taken back by itself.
    pub can_take_back: bool,
    /// Its body; none when withheld or erased.
    pub body: Option<Value>,
    /// True when its body was erased.
    pub erased: bool,
}

/// Whether a record stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum RecordStanding {
    /// It stands.
    Stands,
    /// A later one replaced it.
    Replaced,
    /// It was struck or undone.
    Voided,
}

/// Ask for a check of the store.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct StoreCheckGet {
    /// True: the file's structure alone, without hashes, signatures and a replay of the journal.
    #[serde(default)]
    pub quick: bool,
}

/// What the check of the store found.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct StoreCheck {
    /// True when nothing is wrong.
    pub clean: bool,
    /// Records in the journal.
    pub records: u32,
    /// BLAKE3 digest of the journal and its projections.
    pub digest: String,
    /// What is wrong, for whoever repairs it.
    pub problems: Vec<String>,
    /// The files of photos; not looked at by a quick check.
    pub pictures: PictureCheck,
}

/// What the check of the photos' files found. Of these the missing and the damaged are problems.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct PictureCheck {
    /// Were here and aren't any more.
    pub missing: u32,
    /// Are here with other content.
    pub damaged: u32,
    /// Came from elsewhere without their file.
    pub not_passed_on: u32,
    /// Files that no record names. They go by themselves.
    pub stray: u32,
}
