//! A job that is the comeback of an earlier one: the same vehicle again. A person says so; nothing
//! makes it one by itself.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::Id;

/// That a job is a comeback. Kind `job.comeback`, on the later job.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Comeback {
    /// The earlier job; none: it was said to be a comeback and isn't.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub earlier: Option<Id>,
    /// Whether the fault is the same.
    pub fault: FaultAgain,
    /// Who found it.
    pub found_by: FoundBy,
    /// The bore whose repair came back; none: not told.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub bore: Option<Id>,
    /// Anything worth keeping.
    #[serde(default)]
    pub note: String,
}

/// Whether the fault is that of the earlier job.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum FaultAgain {
    /// The same.
    Same,
    /// Another one.
    Different,
    /// Not known yet.
    NotKnown,
}

/// Who found that a vehicle came back.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum FoundBy {
    /// The customer.
    Customer,
    /// This shop.
    ThisShop,
    /// Another shop.
    AnotherShop,
}

impl Comeback {
    /// Whether it counts against the repair of a bore that was done in the earlier job. Where the
    /// bore or the fault isn't told it does, so that a share of comebacks errs high.
    #[must_use]
    pub fn counts_against(&self, bore: Id) -> bool {
        self.earlier.is_some()
            && self.fault != FaultAgain::Different
            && self.bore.is_none_or(|it| it == bore)
    }
}
