//! What is agreed in a job and handed over with it.

use model::authorisation::{Authorisation, Covers};
use model::comeback::Comeback;
use model::estimate::{Estimate, Sums, Tax};
use model::fitted_part::FittedPart;
use model::sign_off::{OpenItem, SignOff};
use model::warranty::Warranty;
use model::{Finding, Id, Kind};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{BoreEntry, ReadBy, UndoState};

/// Ask for what is agreed in a job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct HandoverGet {
    /// The job.
    pub job: Id,
}

/// What is agreed in a job and handed over with it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HandoverView {
    /// The job.
    pub job: Id,
    /// Its number.
    pub job_number: String,
    /// The bores of its unit.
    pub bores: Vec<BoreEntry>,
    /// The estimate.
    pub estimate: Option<EstimateOnRecord>,
    /// What the customer agreed to.
    pub authorisation: AuthorisationState,
    /// Parts that were fitted, as they were put on record.
    pub fitted: Vec<FittedEntry>,
    /// The warranty.
    pub warranty: Option<WarrantyOnRecord>,
    /// The sign-off.
    pub sign_off: Option<SignOffOnRecord>,
    /// What is open now.
    pub open: Vec<OpenItem>,
    /// That this job is a comeback.
    pub comeback: Option<ComebackOnRecord>,
    /// Jobs that are said to be comebacks of this one.
    pub came_back: Vec<JobName>,
    /// What this device proposes for a new estimate and warranty.
    pub terms: ShopTerms,
    /// Two people at once: at the name of each such thing.
    pub findings: Vec<Finding>,
    /// What undo and redo would do.
    pub undo: UndoState,
}

/// An estimate on record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct EstimateOnRecord {
    /// Its record, which an authorisation names.
    pub record: Id,
    /// The estimate.
    pub estimate: Estimate,
    /// Its sums.
    pub sums: Sums,
    /// Who wrote it.
    pub by: ReadBy,
}

/// What is known of an authorisation.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "state", rename_all = "snake_case")]
pub enum AuthorisationState {
    /// None is on record.
    NotGiven,
    /// One is, and its content isn't on this device.
    NotHere {
        /// Who wrote it down.
        by: ReadBy,
    },
    /// One was, and its content was erased on request.
    Erased {
        /// Who erased it.
        by: ReadBy,
    },
    /// It is here.
    Given(Box<AuthorisationOnRecord>),
}

/// An authorisation on record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct AuthorisationOnRecord {
    /// The authorisation.
    pub authorisation: Authorisation,
    /// True when the estimate that stands is another record than the one that was agreed to.
    pub estimate_changed: bool,
    /// How the estimate that stands lies to the amount; none: no estimate is readable here.
    pub covers: Option<Covers>,
    /// Who wrote it down.
    pub by: ReadBy,
}

/// A fitted part on record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct FittedEntry {
    /// Its subject.
    pub fitted: Id,
    /// The part.
    pub part: FittedPart,
    /// Its name in the shop's own list, where it is on it.
    pub shop_part_name: Option<String>,
    /// Who wrote it down.
    pub by: ReadBy,
}

/// A warranty on record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct WarrantyOnRecord {
    /// The terms.
    pub warranty: Warranty,
    /// Who wrote them down.
    pub by: ReadBy,
}

/// A sign-off on record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SignOffOnRecord {
    /// The sign-off.
    pub sign_off: SignOff,
    /// The kinds of record that were added or changed since, each once.
    pub added_since: Vec<String>,
    /// The kinds of record that stood then and stand no longer.
    pub gone_since: Vec<String>,
    /// Who wrote it down.
    pub by: ReadBy,
}

/// A comeback on record.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ComebackOnRecord {
    /// What was said.
    pub comeback: Comeback,
    /// The earlier job; none: it isn't on this device.
    pub earlier: Option<JobName>,
    /// Who wrote it down.
    pub by: ReadBy,
}

/// A job by its name.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct JobName {
    /// The job.
    pub job: Id,
    /// Its number.
    pub number: String,
    /// Day opened.
    pub opened_on: chrono::NaiveDate,
    /// The vehicle.
    pub vehicle: String,
}

/// What this device proposes for new estimates and warranties. Kept by hand, on this device.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct ShopTerms {
    /// The currency; empty: none yet.
    pub currency: String,
    /// Its decimals; none: not said.
    pub decimals: Option<u8>,
    /// Tax.
    pub tax: Option<Tax>,
    /// The standing warranty.
    pub warranty: Option<Warranty>,
}

/// Record the estimate of a job, or only work it out.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct EstimateRecord {
    /// The job.
    pub job: Id,
    /// The estimate, whole.
    pub estimate: Estimate,
    /// True: keep currency and tax as this device's own.
    #[serde(default)]
    pub keep_terms: bool,
    /// True: write nothing.
    #[serde(default)]
    pub dry_run: bool,
}

/// What came of recording an estimate.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct EstimateRecorded {
    /// True when it is on record.
    pub saved: bool,
    /// Its sums.
    pub sums: Sums,
    /// What is odd, at the fields of the estimate.
    pub findings: Vec<Finding>,
}

/// Record what the customer agreed to.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AuthorisationRecord {
    /// The job.
    pub job: Id,
    /// The authorisation, whole.
    pub authorisation: Authorisation,
}

/// Record a fitted part.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FittedRecord {
    /// The one that this changes; none: a new one.
    #[serde(default)]
    pub fitted: Option<Id>,
    /// The part, whole.
    pub part: FittedPart,
}

/// Take a fitted part off the record; undo brings it back.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FittedRemove {
    /// Its subject.
    pub fitted: Id,
}

/// Record the warranty of a job.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct WarrantyRecord {
    /// The job.
    pub job: Id,
    /// The terms, whole.
    pub warranty: Warranty,
    /// True: keep them as this device's standing terms.
    #[serde(default)]
    pub keep_terms: bool,
}

/// Sign a job off.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SignOffRecord {
    /// The job.
    pub job: Id,
    /// Who signs.
    pub signed_by: String,
    /// What they say.
    #[serde(default)]
    pub statement: String,
    /// What was shown to them as open. Another list now is shown first, and nothing is signed.
    pub open: Vec<OpenItem>,
}

/// Say that a job is a comeback.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct ComebackRecord {
    /// The later job.
    pub job: Id,
    /// What is said, whole.
    pub comeback: Comeback,
}

/// What came of recording something of a handover.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HandoverRecorded {
    /// True when it is on record.
    pub saved: bool,
    /// What is odd, at its fields.
    pub findings: Vec<Finding>,
    /// What is agreed now.
    pub view: HandoverView,
}

/// Earlier jobs that this one may be a comeback of.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ComebackSuggestions {
    /// The newest first.
    pub jobs: Vec<ComebackSuggestion>,
}

/// An earlier job that this one may be a comeback of.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ComebackSuggestion {
    /// The job.
    pub name: JobName,
    /// By what it looks like it.
    pub by: AlikeBy,
    /// The bores that were repaired in it.
    pub repaired: Vec<BoreEntry>,
}

/// By what two jobs look like one vehicle's.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum AlikeBy {
    /// The plate's letters and digits.
    Plate,
    /// The vehicle in the shop's words. Another one of the same kind has the same.
    Vehicle,
}

/// A line or two about what is agreed, for the job's page. Nothing in it names a person outside
/// the shop.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct HandoverBrief {
    /// Total of the estimate, smallest units; none: no estimate.
    pub total_minor: Option<i64>,
    /// Its currency.
    pub currency: String,
    /// Its decimals.
    pub decimals: u8,
    /// Whether the customer's word covers it.
    pub agreed: Agreed,
    /// Fitted parts on record.
    pub fitted: u32,
    /// True when warranty terms are on record.
    pub warranty: bool,
    /// Who signed it off.
    pub signed: Option<String>,
    /// True when something changed since.
    pub changed_since: bool,
    /// How much is open.
    pub open: u32,
    /// The job that it is a comeback of, by its number; empty number: it isn't on this device.
    pub comeback_of: Option<String>,
    /// How many jobs are comebacks of it.
    pub came_back: u32,
}

/// Whether what the customer agreed to covers an estimate.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Agreed {
    /// Nothing is on record.
    NotYet,
    /// It does, or there is nothing to cover.
    Covered,
    /// The estimate was changed since, is more, or is in another currency.
    NotCovered,
    /// The content isn't on this device, or was erased.
    NotHere,
}

/// The kinds of record that a handover is made of.
pub(crate) const HANDOVER_KINDS: [Kind; 5] = [
    Kind::JobEstimate,
    Kind::JobAuthorisation,
    Kind::JobWarranty,
    Kind::JobSignOff,
    Kind::JobComeback,
];
