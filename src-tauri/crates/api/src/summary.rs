//! What the lists show of a job, a test and a unit, from the records that stand for them and their
//! parts. The store keeps it with the records that it follows from.

use std::collections::{BTreeMap, BTreeSet};

use chrono::Datelike;
use model::bench::{Decision, VacuumTest, Verdict};
use model::job::{Complaint, Job, Vehicle};
use model::repair::Repair;
use model::{Id, Kind};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use store::{Member, StandingRecord, Summary};

use crate::dto::JobState;
use crate::journal_io::{id, kind_name, subject};

/// To be raised whenever a summary comes out otherwise.
pub(crate) const VERSION: u32 = 1;

/// The kinds of record that summaries are made from.
pub(crate) const KINDS: [&str; 9] = [
    "job",
    "job.vehicle",
    "job.complaint",
    "test",
    "test.decision",
    "test.stand_check",
    "repair",
    "unit",
    "circuit",
];

/// Facets by which jobs and tests are found.
pub(crate) const UNIT: &str = "unit";
pub(crate) const BORE: &str = "bore";
pub(crate) const PERSON: &str = "person";
pub(crate) const STATE: &str = "state";
pub(crate) const STAND: &str = "stand";

/// A job as its line in the list shows it, but for names that others may change.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct JobSummary {
    pub job: Job,
    pub vehicle: String,
    pub complaint: String,
    pub opened_by: Id,
    pub tests: u32,
    pub repairs: u32,
    pub state: JobState,
    pub worst: Option<Verdict>,
}

/// A day as the store counts moments of jobs.
pub(crate) fn day(day: chrono::NaiveDate) -> i64 {
    day.num_days_from_ce().into()
}

/// A state as the store's facet.
pub(crate) fn state_facet(state: JobState) -> Vec<u8> {
    let name = match state {
        JobState::NotTested => "not_tested",
        JobState::NotDecided => "not_decided",
        JobState::WithinLimit => "within_limit",
        JobState::TooCloseToCall => "too_close_to_call",
        JobState::OutsideLimit => "outside_limit",
        JobState::RepairedNotTested => "repaired_not_tested",
    };
    name.as_bytes().to_vec()
}

/// The summary of a subject; none if it is in no list.
pub(crate) fn of(member: &Member<'_>, parts: &[Member<'_>]) -> Option<Summary> {
    if !member.removed {
        if records(member, Kind::Job).next().is_some() {
            return job(member, parts);
        }
        if records(member, Kind::Test).next().is_some() {
            return test(member);
        }
    }
    // A unit's jobs are found by its circuits even when it was taken away itself.
    let is_unit = |member: &Member<'_>| records(member, Kind::Unit).next().is_some();
    let is_circuit = |member: &Member<'_>| records(member, Kind::Circuit).next().is_some();
    (is_unit(member) || parts.iter().any(is_circuit)).then(|| Summary {
        searched: true,
        ..empty(Kind::Unit)
    })
}

fn empty(kind: Kind) -> Summary {
    Summary {
        kind: kind_name(kind),
        at: None,
        number: None,
        within: None,
        facets: BTreeSet::new(),
        searched: false,
        json: String::new(),
    }
}

fn records<'a, 'b>(
    member: &'b Member<'a>,
    kind: Kind,
) -> impl DoubleEndedIterator<Item = &'b StandingRecord<'a>> {
    member
        .standing
        .iter()
        .filter(move |record| record.kind.as_str() == kind.name())
}

fn lead<T: DeserializeOwned>(member: &Member<'_>, kind: Kind) -> Option<T> {
    let record = records(member, kind).next_back()?;
    serde_json::from_slice(record.body?).ok()
}

fn job(member: &Member<'_>, parts: &[Member<'_>]) -> Option<Summary> {
    let job: Job = lead(member, Kind::Job)?;
    let author = records(member, Kind::Job).next()?.author;
    let opened_by = Id::from_bytes(*author.as_bytes());
    let vehicle: Option<Vehicle> = lead(member, Kind::JobVehicle);
    let complaint: Option<Complaint> = lead(member, Kind::JobComplaint);
    let work = Work::of(parts);
    let state = work.state();
    let mut facets = BTreeSet::from([
        (UNIT.to_owned(), job.unit.as_bytes().to_vec()),
        (PERSON.to_owned(), opened_by.as_bytes().to_vec()),
        (STATE.to_owned(), state_facet(state)),
    ]);
    facets.extend(
        work.bores()
            .map(|bore| (BORE.to_owned(), bore.as_bytes().to_vec())),
    );
    let summary = JobSummary {
        vehicle: vehicle.unwrap_or_default().description,
        complaint: complaint.unwrap_or_default().text,
        opened_by,
        tests: count(work.tests.len()),
        repairs: count(work.repairs.len()),
        state,
        worst: work.worst(),
        job,
    };
    Some(Summary {
        at: Some(day(summary.job.opened_on)),
        number: summary.job.number.parse::<u32>().ok().map(i64::from),
        within: Some(subject(summary.job.unit)),
        facets,
        searched: true,
        json: serde_json::to_string(&summary).ok()?,
        ..empty(Kind::Job)
    })
}

/// A test, as one looks for the day's check of a stand.
fn test(member: &Member<'_>) -> Option<Summary> {
    let test: VacuumTest = lead(member, Kind::Test)?;
    let stand = test.stand?;
    let check = records(member, Kind::TestStandCheck).next_back()?;
    Some(Summary {
        at: Some(check.wall_time.unix_ms()),
        facets: BTreeSet::from([(STAND.to_owned(), stand.as_bytes().to_vec())]),
        ..empty(Kind::Test)
    })
}

fn count(length: usize) -> u32 {
    u32::try_from(length).unwrap_or(u32::MAX)
}

/// What was done in a job, as far as the list tells.
struct Work {
    tests: Vec<(Id, VacuumTest, Option<Verdict>)>,
    repairs: Vec<Repair>,
}

impl Work {
    fn of(parts: &[Member<'_>]) -> Self {
        let mut tests = Vec::new();
        let mut repairs = Vec::new();
        for part in parts {
            if let Some(test) = lead::<VacuumTest>(part, Kind::Test) {
                let decided: Option<Decision> = lead(part, Kind::TestDecision);
                tests.push((id(part.id), test, decided.map(|decision| decision.verdict)));
            }
            repairs.extend(lead::<Repair>(part, Kind::Repair));
        }
        Self { tests, repairs }
    }

    fn bores(&self) -> impl Iterator<Item = Id> {
        let tested = self.tests.iter().map(|(_, test, _)| test.bore);
        tested.chain(self.repairs.iter().map(|repair| repair.bore))
    }

    /// Tests that no repair of their bore came after.
    fn standing(&self) -> impl Iterator<Item = &(Id, VacuumTest, Option<Verdict>)> {
        self.tests.iter().filter(|(of, test, _)| {
            let overtaken =
                |repair: &Repair| repair.bore == test.bore && repair.tests_before.contains(of);
            !self.repairs.iter().any(overtaken)
        })
    }

    /// The worst of what was decided last at each test point.
    fn worst(&self) -> Option<Verdict> {
        let mut last = BTreeMap::new();
        // Subjects are numbered as they are made, and parts come in that order.
        for (_, test, decided) in self.standing() {
            if let Some(decided) = decided {
                last.insert(test.test_point, *decided);
            }
        }
        last.into_values().max_by_key(badness)
    }

    fn state(&self) -> JobState {
        let untested =
            |repair: &Repair| !self.standing().any(|(_, test, _)| test.bore == repair.bore);
        if self.repairs.iter().any(untested) {
            return JobState::RepairedNotTested;
        }
        match self.worst() {
            Some(Verdict::WithinLimit) => JobState::WithinLimit,
            Some(Verdict::TooCloseToCall) => JobState::TooCloseToCall,
            Some(Verdict::OutsideLimit) => JobState::OutsideLimit,
            None if self.tests.is_empty() => JobState::NotTested,
            None => JobState::NotDecided,
        }
    }
}

fn badness(verdict: &Verdict) -> u8 {
    match verdict {
        Verdict::WithinLimit => 0,
        Verdict::TooCloseToCall => 1,
        Verdict::OutsideLimit => 2,
    }
}
