//! A bore's tests and repairs across jobs.

use chrono::{DateTime, Utc};
use model::bench::Verdict;
use model::repair::RepairOption;
use model::{Finite, Id};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Ask for the history of a bore.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct BoreHistoryGet {
    /// The bore, as its unit's profile names it.
    pub bore: Id,
    /// The job whose vehicle is told apart from others; none: all are told together.
    #[serde(default)]
    pub job: Option<Id>,
    /// How many tests of other vehicles at most, the newest of them; a hundred if absent.
    #[serde(default)]
    pub most: Option<u32>,
}

/// By what jobs are known to be of one vehicle.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum VehicleKnownBy {
    /// The licence plate, which the job has.
    Plate,
    /// The job has no plate here, so only its own tests are known to be of this vehicle.
    JobAlone,
    /// No job was asked about.
    Nothing,
}

/// The history of a bore, oldest first in each group.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BoreHistory {
    /// The bore's name.
    pub bore_name: String,
    /// The unit's name.
    pub unit_name: String,
    /// The number of the job that was asked about.
    pub job_number: Option<String>,
    /// By what the first group was told.
    pub known_by: VehicleKnownBy,
    /// Of the vehicle of the job that was asked about.
    pub this_vehicle: Vec<BoreEvent>,
    /// Of other units of the same profile.
    pub others: Vec<BoreEvent>,
    /// Older tests of other units that are not in the list.
    pub left_out: u32,
}

/// Something that happened to a bore.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BoreEvent {
    /// The job.
    pub job: Id,
    /// Its number.
    pub job_number: String,
    /// Its vehicle.
    pub vehicle: String,
    /// Who.
    pub by: String,
    /// When, by that device's clock.
    pub at: DateTime<Utc>,
    /// What.
    pub what: BoreHappening,
}

/// What happened.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(tag = "is", rename_all = "snake_case")]
pub enum BoreHappening {
    /// A vacuum test.
    Test(BoreTested),
    /// A repair.
    Repair {
        /// The repair.
        repair: Id,
        /// Which way out was taken.
        option: RepairOption,
        /// Parts, in the person's words.
        parts: String,
    },
}

/// A vacuum test in a bore's history. The reading is as it was read: it isn't carried to another
/// day's air, since that needs the law of the leak, which a reading doesn't tell. Each day's limit
/// stands beside it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct BoreTested {
    /// The test.
    pub test: Id,
    /// The test point's name.
    pub test_point: String,
    /// The stand's name; none: a stand that nobody entered.
    pub stand: Option<String>,
    /// Readings that count as repeats.
    pub readings: u32,
    /// Their mean, Pa below ambient; none: no reading that can be true.
    pub mean_vacuum_pa: Option<Finite>,
    /// Its uncertainty expanded to 95 %, gauge and repeats, Pa.
    pub expanded_uncertainty_pa: Option<Finite>,
    /// The air that day, Pa.
    pub barometer_pa: Option<Finite>,
    /// True when that was taken from the altitude, not read.
    pub barometer_from_altitude: bool,
    /// The limit carried to that air, Pa below ambient.
    pub limit_vacuum_pa: Option<Finite>,
    /// The decision on record, else what the reading gives now.
    pub verdict: Option<Verdict>,
    /// True when the verdict and the limit are those that were put on record.
    pub decided: bool,
}
