//! The list of jobs worked out the plain way, from the records themselves: what the list must
//! answer, whatever is kept to answer it faster.

use std::collections::{BTreeMap, BTreeSet};

use api::dto::{JobEntry, JobList, JobListArgs, JobState};
use journal::{Kind as KindName, PersonId, SubjectId};
use model::bench::{Decision, VacuumTest, Verdict};
use model::job::{Complaint, Job, Vehicle};
use model::person::Person;
use model::repair::Repair;
use model::unit::Unit;
use model::{Id, Kind};
use serde::de::DeserializeOwned;
use store::{Standing, Store, StoreError, StoredRecord};

fn kind_name(kind: Kind) -> KindName {
    KindName::literal(kind.name())
}

fn subject(id: Id) -> SubjectId {
    SubjectId::from_bytes(*id.as_bytes())
}

fn id(subject: SubjectId) -> Id {
    Id::from_bytes(*subject.as_bytes())
}

fn person(id: Id) -> PersonId {
    PersonId::from_bytes(*id.as_bytes())
}

fn body<T: DeserializeOwned>(record: &StoredRecord) -> Option<T> {
    serde_json::from_slice(record.body()?).ok()
}

fn standing(store: &Store, of: SubjectId, kind: Kind) -> Result<Standing, StoreError> {
    store.standing(of, &kind_name(kind))
}

fn lead<T: DeserializeOwned>(
    store: &Store,
    of: SubjectId,
    kind: Kind,
) -> Result<Option<T>, StoreError> {
    Ok(standing(store, of, kind)?.lead().and_then(body))
}

fn unit_name(store: &Store, unit: Id) -> Result<String, StoreError> {
    let unit: Option<Unit> = lead(store, subject(unit), Kind::Unit)?;
    Ok(unit.map(|unit| unit.name).unwrap_or_default())
}

fn opened_by(store: &Store, of: SubjectId) -> Result<String, StoreError> {
    let records = standing(store, of, Kind::Job)?.records;
    let Some(first) = records.first() else {
        return Ok(String::new());
    };
    let author: Option<Person> = lead(
        store,
        SubjectId::from(first.envelope().author),
        Kind::Person,
    )?;
    Ok(author.map(|person| person.name).unwrap_or_default())
}

fn count(length: usize) -> u32 {
    u32::try_from(length).unwrap()
}

/// More subjects than a shop has that one word finds; beyond it a longer word is needed.
const HITS: u32 = 100_000;

/// The jobs, newest first.
pub fn list_of(store: &Store, args: &JobListArgs) -> Result<JobList, StoreError> {
    let named = named(store, &args.text)?;
    let mut found = Vec::new();
    let mut passed = 0;
    // The store sorts by the day opened, then by number.
    for (of, standing) in store
        .standing_of_kind(&kind_name(Kind::Job))?
        .into_iter()
        .rev()
    {
        let Some(job) = standing.lead().and_then(body::<Job>) else {
            continue;
        };
        let wanted =
            named.holds(of, &job) && fits(args, &job) && opened(args, standing.records.first());
        if !wanted {
            continue;
        }
        // Whether it is on the page is known without reading its tests, unless those decide.
        let deep = args.state.is_some() || args.bore.is_some();
        let on_page = |place: u32| {
            place >= args.skip && args.limit.is_none_or(|most| place - args.skip < most)
        };
        if !deep && !on_page(passed) {
            passed += 1;
            continue;
        }
        let work = Work::of(store, of)?;
        let entry = entry(store, of, job, &work)?;
        let fits = args.state.is_none_or(|state| entry.state == state)
            && args.bore.is_none_or(|bore| work.touches(bore));
        if fits {
            if on_page(passed) {
                found.push(entry);
            }
            passed += 1;
        }
    }
    Ok(JobList {
        jobs: found,
        found: passed,
    })
}

/// For each word, what it found: jobs themselves, parts of jobs with what they are part of, units.
/// Each word may be found in another place: one in the vehicle, another in the unit's name.
struct Named(Vec<BTreeSet<SubjectId>>);

impl Named {
    fn holds(&self, of: SubjectId, job: &Job) -> bool {
        let unit = subject(job.unit);
        let holds = |hits: &BTreeSet<SubjectId>| hits.contains(&of) || hits.contains(&unit);
        self.0.iter().all(holds)
    }
}

fn named(store: &Store, text: &str) -> Result<Named, StoreError> {
    let mut words = Vec::new();
    for word in text.split_whitespace() {
        let mut hits = BTreeSet::new();
        for hit in store.search(word, HITS)? {
            hits.insert(hit);
            hits.extend(store.parent(hit)?);
        }
        words.push(hits);
    }
    Ok(Named(words))
}

fn fits(args: &JobListArgs, job: &Job) -> bool {
    args.unit.is_none_or(|unit| job.unit == unit)
        && args.from.is_none_or(|day| job.opened_on >= day)
        && args.to.is_none_or(|day| job.opened_on <= day)
}

fn opened(args: &JobListArgs, first: Option<&StoredRecord>) -> bool {
    args.person
        .is_none_or(|wanted| first.is_some_and(|record| record.envelope().author == person(wanted)))
}

/// What was done in a job, as far as the list tells.
struct Work {
    tests: Vec<(Id, VacuumTest, Option<Verdict>)>,
    repairs: Vec<Repair>,
}

impl Work {
    fn of(store: &Store, job: SubjectId) -> Result<Self, StoreError> {
        let mut tests = Vec::new();
        for of in store.children(job, &kind_name(Kind::Test))? {
            if let Some(test) = lead::<VacuumTest>(store, of, Kind::Test)? {
                let decided: Option<Decision> = lead(store, of, Kind::TestDecision)?;
                tests.push((id(of), test, decided.map(|decision| decision.verdict)));
            }
        }
        let mut repairs = Vec::new();
        for of in store.children(job, &kind_name(Kind::Repair))? {
            repairs.extend(standing(store, of, Kind::Repair)?.lead().and_then(body));
        }
        Ok(Self { tests, repairs })
    }

    fn touches(&self, bore: Id) -> bool {
        self.tests.iter().any(|(_, test, _)| test.bore == bore)
            || self.repairs.iter().any(|repair| repair.bore == bore)
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
        // Subjects are numbered as they are made, and children come in that order.
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

fn entry(store: &Store, of: SubjectId, job: Job, work: &Work) -> Result<JobEntry, StoreError> {
    let vehicle: Option<Vehicle> = lead(store, of, Kind::JobVehicle)?;
    let complaint: Option<Complaint> = lead(store, of, Kind::JobComplaint)?;
    Ok(JobEntry {
        id: id(of),
        unit_name: unit_name(store, job.unit)?,
        number: job.number,
        opened_on: job.opened_on,
        vehicle: vehicle.unwrap_or_default().description,
        complaint: complaint.unwrap_or_default().text,
        opened_by: opened_by(store, of)?,
        tests: count(work.tests.len()),
        repairs: count(work.repairs.len()),
        state: work.state(),
        worst: work.worst(),
    })
}
