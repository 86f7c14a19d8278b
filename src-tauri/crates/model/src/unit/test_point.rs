//! A vacuum test point: where the stand connects, what it isolates, and the limit that stands there.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Node;
use crate::{Finite, Id};

/// Where the spool stands during a test.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum ValvePosition {
    /// Where the spring puts it. The vacuum itself pulls the spool, so it must be watched.
    AtRest,
    /// Held where it regulates.
    HeldRegulating,
    /// The spring is out and the spool lies free.
    SpringOut,
    /// There is no valve in the bore: nothing about clearance can be told.
    ValveAbsent,
}

/// How the balance orifice stands to the air during the test.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum OrificePath {
    /// Blocked, or not on the way.
    Blocked,
    /// The stand pulls through it.
    InSeries,
    /// It leaks into the chamber beside the lands.
    InParallel,
}

/// By which law the leak behind a limit behaves when the barometer changes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum LeakLaw {
    /// A clearance: laminar.
    Gap,
    /// A hole: choked or nearly so.
    Hole,
}

/// The least vacuum that the service information accepts.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct VacuumLimit {
    /// Least vacuum at sea level, Pa below ambient.
    pub vacuum_pa: Finite,
    /// By which law it is carried to another barometer.
    pub law: LeakLaw,
    /// Who says so.
    pub source: String,
}

/// A place where the stand connects. Kind `test_point`.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TestPoint {
    /// The bore.
    pub bore: Id,
    /// Fractional order key.
    pub order: String,
    /// Name, e.g. "Reaction side".
    pub name: String,
    /// The place that the stand evacuates.
    pub evacuates: Node,
    /// Names of the lands whose leak the reading shows.
    pub isolates: Vec<String>,
    /// Where the valve must stand.
    pub valve_position: ValvePosition,
    /// How the balance orifice stands to the test.
    pub orifice: OrificePath,
    /// The limit; none: the reading can't be judged, only the leak computed.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub limit: Option<VacuumLimit>,
}
