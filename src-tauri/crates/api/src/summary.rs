//! What the lists show of a job, a test and a unit, from the records that stand for them and their
//! parts. The store keeps it with the records that it follows from.

use std::collections::{BTreeMap, BTreeSet};

use chrono::Datelike;
use diagnosis::evidence::repeats;
use model::bench::{Decision, Reading, VacuumTest, Verdict};
use model::comeback::Comeback;
use model::job::{Complaint, Job, Vehicle};
use model::repair::{Repair, RepairOption};
use model::{Id, Kind};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Serialize};
use store::{Member, StandingRecord, Summary};

use crate::dto::{CaseMeasured, JobState};
use crate::journal_io::{id, kind_name, subject};
use crate::usecase::job::mean;

/// To be raised whenever a summary comes out otherwise.
pub(crate) const VERSION: u32 = 2;

/// The kinds of record that summaries are made from.
pub(crate) const KINDS: [&str; 11] = [
    "job",
    "job.vehicle",
    "job.complaint",
    "test",
    "test.decision",
    "test.stand_check",
    "repair",
    "unit",
    "circuit",
    "test.reading",
    "job.comeback",
];

/// Facets by which jobs and tests are found.
pub(crate) const UNIT: &str = "unit";
pub(crate) const BORE: &str = "bore";
pub(crate) const PERSON: &str = "person";
pub(crate) const STATE: &str = "state";
pub(crate) const STAND: &str = "stand";
/// The bores that a job repaired.
pub(crate) const REPAIRED: &str = "repaired";
/// The job that one is a comeback of.
pub(crate) const COMEBACK_OF: &str = "comeback_of";
/// Whether it is one at all, or repaired something: [`YES`].
pub(crate) const IS_COMEBACK: &str = "is_comeback";
pub(crate) const HAS_REPAIR: &str = "has_repair";
pub(crate) const YES: &[u8] = b"yes";

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
    /// The repairs with what was measured before and after each, oldest first.
    #[serde(default)]
    pub repaired: Vec<RepairLine>,
    /// That it is a comeback.
    #[serde(default)]
    pub comeback: Option<Comeback>,
}

/// A repair as the statistics take it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(crate) struct RepairLine {
    pub repair: Id,
    pub bore: Id,
    pub option: RepairOption,
    /// When it was put on record, ms of Unix time.
    pub at_ms: i64,
    pub before: Option<CaseMeasured>,
    pub after: Option<CaseMeasured>,
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
    let repaired = work.repair_lines();
    facets.extend(
        repaired
            .iter()
            .map(|line| (REPAIRED.to_owned(), line.bore.as_bytes().to_vec())),
    );
    if !repaired.is_empty() {
        facets.insert((HAS_REPAIR.to_owned(), YES.to_vec()));
    }
    let comeback: Option<Comeback> = lead(member, Kind::JobComeback);
    let comeback = comeback.filter(|it| it.earlier.is_some());
    if let Some(earlier) = comeback.as_ref().and_then(|it| it.earlier) {
        facets.insert((COMEBACK_OF.to_owned(), earlier.as_bytes().to_vec()));
        facets.insert((IS_COMEBACK.to_owned(), YES.to_vec()));
    }
    let summary = JobSummary {
        vehicle: vehicle.unwrap_or_default().description,
        complaint: complaint.unwrap_or_default().text,
        opened_by,
        tests: count(work.tests.len()),
        repairs: count(work.repairs.len()),
        state,
        worst: work.worst(),
        repaired,
        comeback,
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
    /// The same repairs, with which and when.
    recorded: Vec<(Id, i64)>,
    measured: BTreeMap<Id, CaseMeasured>,
}

impl Work {
    fn of(parts: &[Member<'_>]) -> Self {
        let mut work = Self {
            tests: Vec::new(),
            repairs: Vec::new(),
            recorded: Vec::new(),
            measured: BTreeMap::new(),
        };
        for part in parts {
            if let Some(test) = lead::<VacuumTest>(part, Kind::Test) {
                let decided: Option<Decision> = lead(part, Kind::TestDecision);
                work.measured
                    .extend(measured(part, decided.as_ref()).map(|it| (it.test, it)));
                let verdict = decided.map(|decision| decision.verdict);
                work.tests.push((id(part.id), test, verdict));
            }
            if let Some(record) = records(part, Kind::Repair).next()
                && let Some(repair) = lead::<Repair>(part, Kind::Repair)
            {
                work.repairs.push(repair);
                work.recorded
                    .push((id(part.id), record.wall_time.unix_ms()));
            }
        }
        work
    }

    /// Each repair with the last test that it knew of, and with the last test of the same test
    /// point that came after it and before the next repair of the bore.
    fn repair_lines(&self) -> Vec<RepairLine> {
        let mut lines = Vec::new();
        for (repair, (of, at_ms)) in self.repairs.iter().zip(&self.recorded) {
            let read: Vec<_> = self
                .tests
                .iter()
                .filter(|(test, body, _)| {
                    body.bore == repair.bore && self.measured.contains_key(test)
                })
                .collect();
            let known = |test: &Id| repair.tests_before.contains(test);
            // Subjects are numbered as they are made, and parts come in that order.
            let before = read.iter().rfind(|(test, ..)| known(test));
            // What a later repair knew, and this one didn't, lies between them.
            let next = self.repairs.iter().find(|other| {
                other.bore == repair.bore
                    && repair
                        .tests_before
                        .iter()
                        .all(|test| other.tests_before.contains(test))
                    && read
                        .iter()
                        .any(|(test, ..)| other.tests_before.contains(test) && !known(test))
            });
            let after = read.iter().rfind(|(test, body, _)| {
                let in_time = next.is_none_or(|next| next.tests_before.contains(test));
                let same = before.is_none_or(|(_, first, _)| first.test_point == body.test_point);
                !known(test) && in_time && same
            });
            let measured = |test: Option<&&(Id, VacuumTest, Option<Verdict>)>| {
                test.and_then(|(test, ..)| self.measured.get(test).copied())
            };
            lines.push(RepairLine {
                repair: *of,
                bore: repair.bore,
                option: repair.work.option,
                at_ms: *at_ms,
                before: measured(before),
                after: measured(after),
            });
        }
        lines
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

/// What a test measured: its readings that count, and the gap that its decision pinned.
fn measured(part: &Member<'_>, decided: Option<&Decision>) -> Option<CaseMeasured> {
    let readings: Vec<Reading> = records(part, Kind::TestReading)
        .filter_map(|record| serde_json::from_slice(record.body?).ok())
        .collect();
    Some(CaseMeasured {
        test: id(part.id),
        vacuum_pa: mean(&repeats(&readings))?,
        gap_factor_m3: decided.and_then(|it| it.gap_factor_m3).map(|gap| gap[1]),
    })
}

fn badness(verdict: &Verdict) -> u8 {
    match verdict {
        Verdict::WithinLimit => 0,
        Verdict::TooCloseToCall => 1,
        Verdict::OutsideLimit => 2,
    }
}
