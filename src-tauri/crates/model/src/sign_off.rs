//! The end of a job: who signs for it, and what was open when they did.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::caution::Hazard;
use crate::inspection::CheckName;
use crate::limits::{Check, text_required};
use crate::repair::RepairOption;
use crate::{Finding, Id};

/// A sign-off. Kind `job.sign_off`.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SignOff {
    /// Who signs.
    pub signed_by: String,
    /// What they say.
    #[serde(default)]
    pub statement: String,
    /// What was open, as the core found it and the signer saw it.
    pub open: Vec<OpenItem>,
    /// The records of the job that stood then. Whatever stands otherwise now has changed since.
    pub records: Vec<Id>,
}

/// Something that is still open in a job.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize, JsonSchema,
)]
#[serde(tag = "open", rename_all = "snake_case")]
pub enum OpenItem {
    /// A bore of the plan that no vacuum reading was taken of.
    BoreUntested {
        /// Which.
        bore: Id,
    },
    /// A bore whose last decision is that it is outside its limit.
    BoreOutsideLimit {
        /// Which.
        bore: Id,
    },
    /// A repair that no reading was taken after.
    RepairUntested {
        /// Of which bore.
        bore: Id,
        /// Which repair.
        repair: Id,
        /// What was done.
        option: RepairOption,
    },
    /// A check that the plan leaves out.
    CheckLeftOut {
        /// Of which bore.
        bore: Id,
        /// Which.
        check: CheckName,
    },
    /// A caution that nobody has read in this job.
    CautionUnread {
        /// Of which hazard.
        hazard: Hazard,
    },
    /// An estimate that no authorisation is on record for.
    EstimateUnauthorised,
    /// The authorisation's content isn't on this device, so nothing can be compared with it.
    AuthorisationNotHere,
    /// The estimate was changed since it was agreed to.
    EstimateChanged,
    /// The estimate is more than what was agreed to.
    AmountExceeded {
        /// By so many smallest units of the estimate's currency.
        by_minor: i64,
    },
    /// The authorisation is in another currency.
    OtherCurrency,
    /// A machining sheet that nobody has signed as it stands.
    MachiningUnsigned {
        /// Of which bore.
        bore: Id,
    },
}

impl OpenItem {
    /// The bore that it is about.
    #[must_use]
    pub const fn bore(&self) -> Option<Id> {
        match self {
            Self::BoreUntested { bore }
            | Self::BoreOutsideLimit { bore }
            | Self::MachiningUnsigned { bore }
            | Self::RepairUntested { bore, .. }
            | Self::CheckLeftOut { bore, .. } => Some(*bore),
            _ => None,
        }
    }
}

impl Check for SignOff {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        text_required(&self.signed_by, at, "signed_by", findings);
    }
}
