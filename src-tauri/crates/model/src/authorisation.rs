//! What the customer agreed to. It names a private person, so it stays behind when a job is passed
//! on and goes with the customer when that is erased.

use chrono::{DateTime, Utc};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::estimate::{Estimate, currency, whole_in_range};
use crate::limits::{self, Check, text_required};
use crate::{Finding, Id};

/// An authorisation. Kind `job.authorisation`: personal.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Authorisation {
    /// Who agreed.
    pub who: String,
    /// How.
    pub how: AuthorisedHow,
    /// When, as whoever wrote it down says.
    pub given_at: DateTime<Utc>,
    /// Up to what amount, smallest units.
    pub up_to_minor: i64,
    /// The currency of that.
    pub currency: String,
    /// Its decimals.
    pub decimals: u8,
    /// The record of the estimate that was agreed to.
    pub estimate: Id,
    /// Anything worth keeping.
    #[serde(default)]
    pub note: String,
}

/// How somebody agreed.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum AuthorisedHow {
    /// Standing there.
    InPerson,
    /// By telephone.
    ByPhone,
    /// In writing.
    InWriting,
}

/// How an estimate's total lies to the amount that was agreed to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "covers", rename_all = "snake_case")]
pub enum Covers {
    /// It is within it.
    Within,
    /// It is more.
    Exceeded {
        /// By so many smallest units.
        by_minor: i64,
    },
    /// They are in two currencies and can't be compared.
    OtherCurrency,
}

impl Authorisation {
    /// Whether an estimate's total lies within the amount.
    #[must_use]
    pub fn covers(&self, estimate: &Estimate) -> Covers {
        let same =
            self.currency.trim() == estimate.currency.trim() && self.decimals == estimate.decimals;
        if !same {
            return Covers::OtherCurrency;
        }
        let by_minor = estimate.sums().total_minor.saturating_sub(self.up_to_minor);
        if by_minor > 0 {
            Covers::Exceeded { by_minor }
        } else {
            Covers::Within
        }
    }
}

impl Check for Authorisation {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        text_required(&self.who, at, "who", findings);
        currency(&self.currency, self.decimals, at, findings);
        let range = limits::Range {
            low: 0.0,
            ..limits::AMOUNT_MINOR
        };
        whole_in_range(self.up_to_minor, range, at, "up_to_minor", findings);
    }
}
