//! Half-typed input, kept on this device until it is sent or dropped.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use serde_json::Value;

/// Keep a draft.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DraftPut {
    /// Which form, e.g. `job.new` or `test:<id>:reading`.
    pub key: String,
    /// What was typed, as typed: it need not be valid.
    pub value: Value,
}

/// Name a draft.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct DraftKey {
    /// Which form.
    pub key: String,
}

/// A draft, if there is one.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct DraftAnswer {
    /// What was typed; none: no draft.
    pub value: Option<Value>,
}
