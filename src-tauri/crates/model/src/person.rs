//! People of the shop and their devices.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Someone who takes readings and signs them. Kind `person`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Person {
    /// The name shown beside this person's readings.
    pub name: String,
}

/// The shop itself. Kind `shop`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Shop {
    /// The shop's name.
    pub name: String,
    /// True for the demo shop that comes with the app.
    #[serde(default)]
    pub demo: bool,
}
