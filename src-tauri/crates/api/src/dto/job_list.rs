//! The list of jobs, and what it is searched by.

use chrono::NaiveDate;
use model::Id;
use model::bench::Verdict;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// Which jobs to list. What is left out doesn't narrow the list.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct JobListArgs {
    /// Words that must all be found in the job's number, vehicle, complaint, notes, customer, in
    /// its unit, or in the words of its tests and repairs; parts of words count, case doesn't.
    pub text: String,
    /// Only jobs on this unit.
    pub unit: Option<Id>,
    /// Only jobs in which this bore was tested or repaired.
    pub bore: Option<Id>,
    /// Only jobs that this person opened.
    pub person: Option<Id>,
    /// Only jobs opened on this day or later.
    pub from: Option<NaiveDate>,
    /// Only jobs opened on this day or earlier.
    pub to: Option<NaiveDate>,
    /// Only jobs in this state.
    pub state: Option<JobState>,
    /// How many of the jobs found to pass over.
    pub skip: u32,
    /// How many to answer with at most; none: all.
    pub limit: Option<u32>,
}

/// Where a job stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum JobState {
    /// No test was begun.
    NotTested,
    /// A bore was tested and nothing is decided.
    NotDecided,
    /// Every decision that counts says within its limit.
    WithinLimit,
    /// The worst that counts is too close to call.
    TooCloseToCall,
    /// The worst that counts lies outside its limit.
    OutsideLimit,
    /// A bore was repaired and not tested since.
    RepairedNotTested,
}

/// The jobs found, newest first.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct JobList {
    /// The jobs, as many as were asked for.
    pub jobs: Vec<JobEntry>,
    /// How many there are in all.
    pub found: u32,
}

/// One job in the list.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct JobEntry {
    /// Subject.
    pub id: Id,
    /// The shop's number.
    pub number: String,
    /// Day opened.
    pub opened_on: NaiveDate,
    /// The unit's name.
    pub unit_name: String,
    /// The vehicle.
    pub vehicle: String,
    /// The complaint.
    pub complaint: String,
    /// Who opened it.
    pub opened_by: String,
    /// Tests begun.
    pub tests: u32,
    /// Repairs on record.
    pub repairs: u32,
    /// Where it stands.
    pub state: JobState,
    /// The worst of the last decisions at each test point; none that a later repair of the bore has
    /// overtaken.
    pub worst: Option<Verdict>,
}
