//! Looking at a file without taking it in.

use chrono::{DateTime, Utc};
use model::Id;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{
    BundleSigner, BundleUnknown, CardView, FileName, HandoverView, History, InstrumentEntry,
    JobList, JobView, OilCheckView, PhotoEntry, PhotoSize, PlanView, ReliefView, RepairView,
    SignerDoubt, TapsView, TestView,
};

/// Name a file that is looked at.
pub type LookFile = FileName;

/// The jobs in a file that is looked at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LookJobs {
    /// The file.
    pub file: u32,
    /// How many of its jobs to pass over.
    #[serde(default)]
    pub skip: u32,
    /// How many to answer with at most; none: all.
    #[serde(default)]
    pub limit: Option<u32>,
}

/// One job in a file that is looked at, or what was done in all of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LookJob {
    /// The file.
    pub file: u32,
    /// The job.
    pub job: Id,
}

/// One vacuum test in a file that is looked at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LookTest {
    /// The file.
    pub file: u32,
    /// The test.
    pub test: Id,
}

/// One repair in a file that is looked at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LookRepair {
    /// The file.
    pub file: u32,
    /// The job.
    pub job: Id,
    /// The bore.
    pub bore: Id,
    /// The repair.
    pub repair: Id,
}

/// A bore within a job of a file that is looked at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LookBore {
    /// The file.
    pub file: u32,
    /// The job.
    pub job: Id,
    /// The bore.
    pub bore: Id,
}

/// One hot-oil check in a file that is looked at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LookOilCheck {
    /// The file.
    pub file: u32,
    /// The job.
    pub job: Id,
    /// The bore.
    pub bore: Id,
    /// The check.
    pub oil_check: Id,
}

/// What was ever recorded about something in a file that is looked at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LookHistory {
    /// The file.
    pub file: u32,
    /// The subject: a job or a test.
    pub subject: Id,
}

/// Ask for a piece of a photo in a file that is looked at, always JPEG.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct LookPhoto {
    /// The file.
    pub file: u32,
    /// The photo.
    pub photo: Id,
    /// Which of its two files.
    pub size: PhotoSize,
    /// Where the piece begins.
    #[serde(default)]
    pub from: u64,
}

/// What the signature of a file says of who made it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum LookedCourier {
    /// It fits.
    Signed,
    /// It doesn't fit: anyone may have made the file.
    Misfit,
    /// There is none: anyone may have made the file.
    Unsigned,
}

/// What all that is shown of a file is worth. Every answer about the file has it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct LookedProof {
    /// The file's name.
    pub name: String,
    /// Its signature.
    pub courier: LookedCourier,
    /// Actions in it whose signature doesn't fit; nothing says who did them.
    pub misfit_actions: u32,
    /// Records in it that no fitting signature vouches for.
    pub unsigned_records: u32,
    /// False: taking it in is refused, for a signature is missing or doesn't fit.
    pub acceptable: bool,
    /// Devices with a fitting signature of which nothing is here.
    pub strangers: u32,
    /// What speaks against believing those who signed.
    pub doubts: Vec<SignerDoubt>,
}

/// A file that is looked at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LookedFile {
    /// What it is worth.
    pub proof: LookedProof,
    /// Whose shop it is of; empty: it doesn't say.
    pub shop: String,
    /// Who made it; empty: it doesn't say by name.
    pub made_by: String,
    /// Fingerprint of the key of the device that it says made it.
    pub made_on: String,
    /// When, by that device's clock.
    pub made_at: DateTime<Utc>,
    /// The devices with a fitting signature in it.
    pub signers: Vec<BundleSigner>,
    /// Records in it.
    pub records: u32,
    /// Those of them that are about a person.
    pub personal: u32,
    /// Those about a person whose content was left out.
    pub withheld: u32,
    /// Others whose content was left out: free text, or what its maker didn't have.
    pub withheld_text: u32,
    /// Photos that it has with their pictures.
    pub photos: u32,
    /// The bytes of these pictures.
    pub photo_bytes: u64,
    /// Its jobs.
    pub jobs: u32,
    /// Tests in it that belong to jobs which it doesn't hold.
    pub tests_without_job: u32,
    /// How much else it holds, by kind.
    pub things: Vec<LookedThings>,
    /// Records that only a later version of this program reads. They are not shown.
    pub unknown: Vec<BundleUnknown>,
}

/// Things of one kind in a file that is looked at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct LookedThings {
    /// The kind, e.g. `unit`.
    pub kind: String,
    /// How many.
    pub count: u32,
}

/// The jobs of a file that is looked at, newest first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LookedJobs {
    /// What they are worth.
    pub proof: LookedProof,
    /// They.
    pub list: JobList,
}

/// A part of a job that was written by itself, and may be left out of a file.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum LeftOutPart {
    /// The vehicle.
    Vehicle,
    /// The complaint.
    Complaint,
    /// The notes.
    Notes,
    /// The customer.
    Customer,
}

/// A job of a file that is looked at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LookedJob {
    /// What it is worth.
    pub proof: LookedProof,
    /// The job, as its own screen would show it.
    pub view: JobView,
    /// Its parts whose content was left out of the file.
    pub left_out: Vec<LeftOutPart>,
    /// False: the file doesn't hold the unit, without which no test of the job can be shown.
    pub unit_known: bool,
    /// Inspection checks in it.
    pub inspections: u32,
    /// Its photos, oldest first; `is_here`: the file has their pictures.
    pub photos: Vec<PhotoEntry>,
    /// Machining sheets in it. They are not shown.
    pub machining_sheets: u32,
}

/// A vacuum test of a file that is looked at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LookedTest {
    /// What it is worth.
    pub proof: LookedProof,
    /// The test, as its own screen would show it.
    pub view: TestView,
}

/// A repair of a file that is looked at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LookedRepair {
    /// What it is worth.
    pub proof: LookedProof,
    /// The repair, as its own screen would show it.
    pub view: RepairView,
}

/// The inspection of a job of a file that is looked at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LookedPlan {
    /// What it is worth.
    pub proof: LookedProof,
    /// The plan and what was done, as its own screen would show it.
    pub view: PlanView,
    /// The instruments that the file holds: what the checks were measured with.
    pub instruments: Vec<InstrumentEntry>,
}

/// A bore within a job of a file that is looked at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LookedBore {
    /// What it is worth.
    pub proof: LookedProof,
    /// The bore's card, as its own screen would show it.
    pub view: CardView,
}

/// The relief of a bore within a job of a file that is looked at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LookedRelief {
    /// What it is worth.
    pub proof: LookedProof,
    /// The check, as its own screen would show it.
    pub view: ReliefView,
}

/// What was read at the taps in a job of a file that is looked at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LookedTaps {
    /// What it is worth.
    pub proof: LookedProof,
    /// The taps, as their own screen would show them.
    pub view: TapsView,
}

/// A hot-oil check of a file that is looked at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LookedOilCheck {
    /// What it is worth.
    pub proof: LookedProof,
    /// The check, as its own screen would show it.
    pub view: OilCheckView,
}

/// What is agreed in a job of a file that is looked at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LookedHandover {
    /// What it is worth.
    pub proof: LookedProof,
    /// What is agreed, as its own screen would show it.
    pub view: HandoverView,
}

/// What was ever recorded about something in a file that is looked at.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct LookedHistory {
    /// What it is worth.
    pub proof: LookedProof,
    /// The records.
    pub view: History,
}
