//! What is held about a customer, and erasing it.

use chrono::{DateTime, NaiveDate, Utc};
use model::Id;
use model::authorisation::Authorisation;
use model::job::Customer;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{BackupEntry, BackupReason, ReadBy};

/// Ask what is held about a job's customer.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CustomerHeldGet {
    /// The job.
    pub job: Id,
}

/// What is held about a customer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CustomerHeld {
    /// The job that was asked about first, then others that look like the same customer's, oldest
    /// first. A person says which are.
    pub jobs: Vec<HeldJob>,
}

/// By what two jobs look like the same customer's.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum SameBy {
    /// The name, but for case and spaces.
    Name,
    /// The telephone's digits.
    Phone,
    /// The plate's letters and digits.
    Plate,
}

/// What one job holds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HeldJob {
    /// The job.
    pub job: Id,
    /// Its number.
    pub number: String,
    /// Day opened.
    pub opened_on: NaiveDate,
    /// The vehicle.
    pub vehicle: String,
    /// Why it is listed; empty for the job that was asked about.
    pub same_by: Vec<SameBy>,
    /// What was ever written down of the customer, replaced entries too, the latest first.
    pub customers: Vec<Customer>,
    /// Records that hold these.
    pub customer_records: u32,
    /// What was ever written down of what was agreed to, the latest first. It goes with the
    /// customer's name.
    pub authorisations: Vec<Authorisation>,
    /// The complaint; none: nothing is held.
    pub complaint: Option<HeldText>,
    /// The notes; none: nothing is held.
    pub notes: Option<HeldText>,
    /// Words of tests, repairs and photos of the work that name the customer. They stay, since they
    /// are part of what was measured and done.
    pub elsewhere: Vec<HeldElsewhere>,
    /// Photos of the job, its tests and its repairs that may show a person or a plate, oldest first.
    /// They go with the customer's name.
    pub photos: Vec<HeldPhoto>,
}

/// A photo that may show a person.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct HeldPhoto {
    /// The photo.
    pub photo: Id,
    /// Its caption; empty: none.
    pub caption: String,
    /// When it was taken.
    pub taken_at: DateTime<Utc>,
    /// True when it was removed; it is kept for undo.
    pub removed: bool,
    /// Records that hold it and its captions.
    pub records: u32,
}

/// Words that may be about a customer.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct HeldText {
    /// As they stand; empty: only earlier ones are held.
    pub text: String,
    /// Records that hold these and earlier ones.
    pub records: u32,
    /// True when any of them name the customer.
    pub names_customer: bool,
}

/// Words that stay.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct HeldElsewhere {
    /// The kind of their record.
    pub kind: String,
    /// They.
    pub text: String,
}

/// Erase what is held about a customer, or say what that would take.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct CustomerErase {
    /// The jobs that are this customer's.
    pub jobs: Vec<EraseJob>,
    /// True: change nothing.
    #[serde(default)]
    pub dry_run: bool,
}

/// What of one job. The customer's name, telephone and plate go in any case, and the photos that may
/// show a person.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct EraseJob {
    /// The job.
    pub job: Id,
    /// The complaint goes too.
    #[serde(default)]
    pub complaint: bool,
    /// The notes go too.
    #[serde(default)]
    pub notes: bool,
}

/// What was erased, or would be.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CustomerErased {
    /// The record of it; none: nothing was changed.
    pub erasure: Option<Id>,
    /// Records that lose their content, by kind.
    pub goes: Vec<GoesOfKind>,
    /// Half-typed entries that went.
    pub drafts: u32,
    /// Where it was looked for afterwards.
    pub proof: Option<Proof>,
    /// Copies on this device from before this or an earlier erasure.
    pub older: Vec<OlderCopy>,
}

/// Records of one kind.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct GoesOfKind {
    /// The kind.
    pub kind: String,
    /// How many.
    pub records: u32,
}

/// Whether texts are still found, byte by byte.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Proof {
    /// True once the shop's file was written anew and its log emptied. False: another program has
    /// it open; this is done at the next start.
    pub rewritten: bool,
    /// Texts that were looked for.
    pub texts: u32,
    /// Texts that are too short to be looked for: they are met by chance.
    pub too_short: u32,
    /// What was looked through.
    pub places: Vec<ProofPlace>,
    /// Records here that still say one of the texts.
    pub still_said: Vec<StillSaid>,
    /// Files of erased photos that were here and are no longer.
    pub pictures_gone: u32,
    /// Files of erased photos that are still here: another photo has the same picture, or another
    /// program hindered it, and it is done at the next start.
    pub pictures_left: u32,
}

/// What kind of thing was looked through.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum PlaceKind {
    /// The shop's file, its log or the log's index.
    Store,
    /// A backup from after the erasure.
    Backup,
    /// A backup or a file put aside from before it.
    OlderCopy,
    /// A bundle of the whole shop with its customers, made for this and not kept.
    Bundle,
}

/// One thing that was looked through.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct ProofPlace {
    /// What it is.
    pub place: PlaceKind,
    /// Its file's name; empty for a bundle.
    pub name: String,
    /// Bytes.
    pub bytes: u64,
    /// True when a text is in it.
    pub found: bool,
}

/// A record that still says one of the texts.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema)]
pub struct StillSaid {
    /// The number of its job, if it is part of one.
    pub job: Option<String>,
    /// Its kind.
    pub kind: String,
}

/// A copy from before an erasure.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct OlderCopy {
    /// Its file's name.
    pub name: String,
    /// When it was made, by this device's clock.
    pub made_at: DateTime<Utc>,
    /// Why.
    pub reason: BackupReason,
    /// Its size.
    pub bytes: u64,
}

/// The erasures known here, the latest first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ErasureList {
    /// They.
    pub erasures: Vec<ErasureEntry>,
    /// True while bytes of something that was erased may still lie in the shop's file.
    pub pending: bool,
    /// Copies on this device from before an erasure.
    pub older: Vec<OlderCopy>,
}

/// One erasure.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ErasureEntry {
    /// The record of it.
    pub erasure: Id,
    /// Who and when.
    pub by: ReadBy,
    /// True when it was done on this device.
    pub own: bool,
    /// The jobs that it is about.
    pub jobs: Vec<ErasedJob>,
    /// Records that lost their content where it was done.
    pub records: u32,
    /// Photos that it is about.
    pub photos: u32,
}

/// A job of which something was erased.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct ErasedJob {
    /// The job.
    pub job: Id,
    /// Its number; empty: it isn't here.
    pub number: String,
    /// The kinds that were erased.
    pub kinds: Vec<String>,
}

/// Look whether texts are found on this device. They are not kept.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ErasureLook {
    /// The texts.
    pub texts: Vec<String>,
}

/// Delete backups or files put aside.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BackupDrop {
    /// Their names.
    pub names: Vec<String>,
    /// True: a new backup is made and checked first, and nothing is deleted if that fails.
    #[serde(default)]
    pub fresh: bool,
}

/// What was deleted.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct BackupDropped {
    /// The backup made first.
    pub made: Option<BackupEntry>,
    /// How many were deleted.
    pub dropped: u32,
    /// Their bytes.
    pub bytes: u64,
}
