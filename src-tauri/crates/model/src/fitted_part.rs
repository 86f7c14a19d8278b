//! A part that was fitted in a job, with what is needed to find it again when its maker or
//! supplier calls a lot back.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::estimate::{currency, whole_in_range};
use crate::limits::{self, Check, text_required};
use crate::{Finding, Id};

/// A part that was fitted. Kind `job.fitted`, a subject of its own under the job.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct FittedPart {
    /// The job.
    pub job: Id,
    /// The bore that it is in; none: of the body.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bore: Option<Id>,
    /// The part of the shop's own list; none: one that isn't on it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub shop_part: Option<Id>,
    /// Name in the shop's words.
    pub name: String,
    /// What its maker printed on it or its box.
    #[serde(default)]
    pub maker_text: String,
    /// Lot, batch or serial number, as printed.
    #[serde(default)]
    pub lot: String,
    /// How many.
    pub quantity: u32,
    /// Where it came from.
    #[serde(default)]
    pub source: String,
    /// What one cost the shop; none: not entered.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cost: Option<Cost>,
    /// Anything worth keeping.
    #[serde(default)]
    pub note: String,
}

/// An amount of money.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Cost {
    /// Smallest units.
    pub amount_minor: i64,
    /// The currency as the shop writes it.
    pub currency: String,
    /// Its decimals.
    pub decimals: u8,
}

impl Check for FittedPart {
    fn check(&self, at: &str, findings: &mut Vec<Finding>) {
        text_required(&self.name, at, "name", findings);
        whole_in_range(
            self.quantity.into(),
            limits::FITTED_PIECES,
            at,
            "quantity",
            findings,
        );
        if let Some(cost) = &self.cost {
            let at = &limits::join(at, "cost");
            currency(&cost.currency, cost.decimals, at, findings);
            let range = limits::AMOUNT_MINOR;
            whole_in_range(cost.amount_minor, range, at, "amount_minor", findings);
        }
    }
}
