//! Hazards of the work and their acknowledgement.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A hazard that stands before a kind of work. Acknowledged once per job.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Hazard {
    /// Hot oil under pressure, when the body comes off or a gauge hose bursts.
    HotOil,
    /// Springs, plugs and balls that fly when their retainer goes.
    RetainedSprings,
    /// Compressed air: keep to the pressure limit, shield the eyes, never at skin.
    CompressedAir,
    /// Cleaning solvent: vapour, skin, fire; never into the vacuum pump.
    Solvent,
    /// Vacuum pump and hoses: oil mist, hot casing, implosion of glass.
    VacuumPump,
    /// High voltage of a hybrid drive: isolated by a trained person before anything is opened.
    HighVoltage,
    /// Reaming and deburring: chips in eyes and passages, sharp edges, a tool that grabs.
    Chips,
    /// Wheels raised and turning: stands, chocks, nobody near belts, shafts and wheels.
    RaisedWheels,
    /// Gauges read on the road: one drives, another reads.
    RoadTest,
}

/// The hazards of bench work on a valve body, in the order in which they are shown.
pub const BENCH_HAZARDS: [Hazard; 6] = [
    Hazard::HighVoltage,
    Hazard::HotOil,
    Hazard::RetainedSprings,
    Hazard::CompressedAir,
    Hazard::Solvent,
    Hazard::VacuumPump,
];

/// The hazards of reaming and fitting a sleeve, in the order in which they are shown on a sheet.
pub const MACHINING_HAZARDS: [Hazard; 4] = [
    Hazard::Chips,
    Hazard::CompressedAir,
    Hazard::Solvent,
    Hazard::RetainedSprings,
];

/// The hazards of reading pressure in a car, in the order in which they are shown.
pub const CAR_HAZARDS: [Hazard; 4] = [
    Hazard::HighVoltage,
    Hazard::HotOil,
    Hazard::RaisedWheels,
    Hazard::RoadTest,
];

/// The hazards of feeding a circuit with hot oil on the bench.
pub const BENCH_PRESSURE_HAZARDS: [Hazard; 2] = [Hazard::HotOil, Hazard::RetainedSprings];

/// Somebody has read the caution about one hazard, for one job. Kind `caution` on the job.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct CautionRead {
    /// Which hazard.
    pub hazard: Hazard,
    /// Which wording was shown: it rises when the words change in substance.
    pub wording: u32,
}

/// The wording that the interface shows now.
pub const CAUTION_WORDING: u32 = 1;
