//! Shapes that the calculations of single parts share.

use model::Finite;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Two bounds of one quantity, in the unit that the field's name ends in.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Bounds {
    /// Lower bound.
    pub low: Finite,
    /// Upper bound.
    pub high: Finite,
}

/// A value with its standard uncertainty, both in the unit that the field's name ends in.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct MeasuredValue {
    /// The value.
    pub value: Finite,
    /// Its standard uncertainty.
    pub standard_uncertainty: Finite,
}

/// A spring by its load at rest and its rate.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct SpringLine {
    /// Load with the spool at rest, or with the relief on its seat, N.
    pub load_at_rest_n: Finite,
    /// Rate, N/m.
    pub rate_n_m: Finite,
}
