//! The shop's statistics: which repairs held, with how many cases each figure has.

use chrono::NaiveDate;
use model::comeback::FaultAgain;
use model::repair::RepairOption;
use model::{Finite, Id};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// With fewer cases than this nothing is summed up: the single cases alone are told. A convention
/// of this program, no source: with four cases the interval of a share spans more than half of
/// all there is.
pub const LEAST_CASES: u32 = 5;

/// Ask for the statistics. What is left out doesn't narrow them.
#[derive(Debug, Clone, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
#[serde(default, deny_unknown_fields)]
pub struct StatisticsGet {
    /// Of one unit.
    pub unit: Option<Id>,
    /// Of one bore.
    pub bore: Option<Id>,
    /// Of one way.
    pub option: Option<RepairOption>,
    /// How many single cases to pass over.
    pub skip: u32,
    /// How many of them to answer with at most; none: a hundred.
    pub limit: Option<u32>,
}

/// The statistics.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct StatisticsView {
    /// One for each bore and way, those with most cases first.
    pub groups: Vec<RepairGroup>,
    /// Single cases, the newest first.
    pub cases: Vec<RepairCase>,
    /// All that were found.
    pub found: u32,
    /// With fewer cases than this nothing is summed up.
    pub least_cases: u32,
}

/// The repairs of one bore by one way.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RepairGroup {
    /// The unit.
    pub unit: Id,
    /// Its name.
    pub unit_name: String,
    /// The bore.
    pub bore: Id,
    /// Its name; empty: it isn't on this device.
    pub bore_name: String,
    /// Which way.
    pub option: RepairOption,
    /// How many repairs.
    pub cases: u32,
    /// How many of these came back.
    pub came_back: u32,
    /// Of these, how many without that the fault or the bore was told.
    pub not_told: u32,
    /// What can be said of all together; none with too few cases.
    pub summary: Option<GroupSummary>,
}

/// What can be said of enough cases.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct GroupSummary {
    /// Share of comebacks with its 95 % interval.
    pub share: ComebackShare,
    /// Days from the repair to its comeback, or to today.
    pub watched_days: CaseSpread,
    /// Vacuum as read before, Pa below ambient; none with too few cases.
    pub vacuum_before_pa: Option<CaseSpread>,
    /// Vacuum as read after.
    pub vacuum_after_pa: Option<CaseSpread>,
    /// Gap factor before, m³, as decided.
    pub gap_before_m3: Option<CaseSpread>,
    /// Gap factor after.
    pub gap_after_m3: Option<CaseSpread>,
}

/// A share with the interval of Clopper and Pearson at 95 %.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct ComebackShare {
    /// As seen, 0 to 1.
    pub share: Finite,
    /// Lower end.
    pub low: Finite,
    /// Upper end.
    pub high: Finite,
}

/// Median and range of so many cases.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CaseSpread {
    /// Of how many cases.
    pub cases: u32,
    /// Lowest.
    pub low: Finite,
    /// Median; of an even number of cases the mean of the two in the middle.
    pub median: Finite,
    /// Highest.
    pub high: Finite,
}

/// One repair.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct RepairCase {
    /// The job.
    pub job: Id,
    /// Its number.
    pub job_number: String,
    /// The bore.
    pub bore: Id,
    /// Its name; empty: it isn't on this device.
    pub bore_name: String,
    /// The repair.
    pub repair: Id,
    /// Which way.
    pub option: RepairOption,
    /// The day it was put on record, by that device's clock (UTC).
    pub on: NaiveDate,
    /// The last test before it.
    pub before: Option<CaseMeasured>,
    /// The last test of the same test point since.
    pub after: Option<CaseMeasured>,
    /// Days from the repair to its comeback, or to today.
    pub watched_days: u32,
    /// The first comeback that counts against it.
    pub comeback: Option<CaseComeback>,
}

/// A comeback that counts against a repair.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CaseComeback {
    /// The later job.
    pub job: Id,
    /// Its number.
    pub job_number: String,
    /// The day it was opened.
    pub on: NaiveDate,
    /// Whether the fault is the same: the same or not known.
    pub fault: FaultAgain,
    /// False: which bore came back wasn't told.
    pub bore_told: bool,
}

/// What a test measured.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CaseMeasured {
    /// The test.
    pub test: Id,
    /// Mean of the readings that count, Pa below ambient; as read, on the day's air and stand.
    pub vacuum_pa: Finite,
    /// Gap factor as decided, m³; none where it wasn't told or nothing was decided.
    pub gap_factor_m3: Option<Finite>,
}
