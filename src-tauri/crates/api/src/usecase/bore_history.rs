//! The history of a bore: its tests and repairs across jobs.
//!
//! The tests are found by the bore through the store's projection, not by reading every test. A
//! profile's bore is shared by all units of that profile, and no job names a physical unit; what
//! tells two jobs of one vehicle is its plate. A description ("2018 hatchback") doesn't.

use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

use chrono::{DateTime, Utc};
use journal::SubjectId;
use model::bench::{Ambient, Decision};
use model::job::{Customer, Job, Vehicle};
use model::repair::Repair;
use model::unit::{Bore, Circuit};
use model::{Id, Kind};
use store::Store;

use super::erasure::plate_mark;
use super::job::{count, unit_name};
use super::test::against_limit;
use crate::App;
use crate::dto::{
    BoreEvent, BoreHappening, BoreHistory, BoreHistoryGet, BoreTested, VehicleKnownBy,
};
use crate::error::ApiError;
use crate::journal_io::{body, by, id, kind_name, lead, need, standing, subject};

/// Tests of other vehicles that are told unless more are asked for.
const MOST: u32 = 100;

/// What is told of a job beside its tests.
struct OfJob {
    number: String,
    vehicle: String,
    plate: Option<String>,
}

impl OfJob {
    fn read(store: &Store, job: Id) -> Result<Self, ApiError> {
        let of = subject(job);
        let vehicle: Option<Vehicle> = lead(store, of, Kind::JobVehicle)?;
        let customer: Option<Customer> = lead(store, of, Kind::JobCustomer)?;
        let number: Option<Job> = lead(store, of, Kind::Job)?;
        Ok(Self {
            number: number.map(|job| job.number).unwrap_or_default(),
            vehicle: vehicle.unwrap_or_default().description,
            plate: customer.and_then(|customer| plate_mark(&customer.plate)),
        })
    }
}

/// A test or repair before it is told.
struct Found {
    job: Id,
    of: Id,
    /// Its place in time: by the clocks, but a repair after the tests that it knew of.
    place: DateTime<Utc>,
    event: BoreEvent,
}

/// The history of a bore.
pub(crate) fn get(app: &App, args: BoreHistoryGet) -> Result<BoreHistory, ApiError> {
    let store = app.store()?;
    let bore: Bore = need(&store, subject(args.bore), Kind::Bore)?;
    let circuit: Circuit = need(&store, subject(bore.circuit), Kind::Circuit)?;
    let mut jobs = Jobs::default();
    let asked = match args.job {
        Some(job) => {
            need::<Job>(&store, subject(job), Kind::Job)?;
            Some((job, jobs.get(&store, job)?.plate.clone()))
        }
        None => None,
    };
    let known_by = match &asked {
        None => VehicleKnownBy::Nothing,
        Some((_, None)) => VehicleKnownBy::JobAlone,
        Some((_, Some(_))) => VehicleKnownBy::Plate,
    };
    let (mut this, mut others) = (Vec::new(), Vec::new());
    for kind in [Kind::Test, Kind::Repair] {
        for of in store.naming(subject(args.bore), &kind_name(kind))? {
            let Some(job) = store.parent(of)?.map(id) else {
                continue;
            };
            let here = asked.as_ref().is_some_and(|(own, plate)| {
                job == *own
                    || plate.is_some() && jobs.get(&store, job).is_ok_and(|it| it.plate == *plate)
            });
            let group = if here { &mut this } else { &mut others };
            group.push((kind, of, job));
        }
    }
    // Subjects are numbered as they are made, so the last are the newest.
    let tests = others
        .iter()
        .filter(|(kind, ..)| *kind == Kind::Test)
        .count();
    let most = args.most.unwrap_or(MOST) as usize;
    let mut going = tests.saturating_sub(most);
    let left_out = count(going);
    others.retain(|(kind, ..)| {
        let goes = *kind == Kind::Test && going > 0;
        going -= usize::from(goes);
        !goes
    });
    // A repair of a job of which no test is left is of no use here.
    let tested: Vec<Id> = others
        .iter()
        .filter(|(kind, ..)| *kind == Kind::Test)
        .map(|(.., job)| *job)
        .collect();
    others.retain(|(.., job)| left_out == 0 || tested.contains(job));
    let mut told = |group: Vec<(Kind, SubjectId, Id)>| -> Result<Vec<BoreEvent>, ApiError> {
        let mut found = Vec::new();
        let mut repairs = Vec::new();
        for (kind, of, job) in group {
            let of_job = jobs.get(&store, job)?;
            if kind == Kind::Test {
                found.extend(test(app, &store, of, job, of_job)?);
            } else if let Some((one, known)) = repair(&store, of, job, of_job)? {
                repairs.push((one, known));
            }
        }
        Ok(in_order(found, repairs))
    };
    Ok(BoreHistory {
        bore_name: bore.name,
        unit_name: unit_name(&store, circuit.unit)?,
        this_vehicle: told(this)?,
        others: told(others)?,
        job_number: match args.job {
            Some(job) => Some(jobs.get(&store, job)?.number.clone()),
            None => None,
        },
        known_by,
        left_out,
    })
}

/// Jobs, each read once.
#[derive(Default)]
struct Jobs(BTreeMap<Id, OfJob>);

impl Jobs {
    fn get(&mut self, store: &Store, job: Id) -> Result<&OfJob, ApiError> {
        Ok(match self.0.entry(job) {
            Entry::Occupied(known) => known.into_mut(),
            Entry::Vacant(open) => open.insert(OfJob::read(store, job)?),
        })
    }
}

fn test(
    app: &App,
    store: &Store,
    of: SubjectId,
    job: Id,
    of_job: &OfJob,
) -> Result<Option<Found>, ApiError> {
    let records = standing(store, of, Kind::Test)?;
    let Some(begun) = records.records.first() else {
        return Ok(None);
    };
    let read = against_limit(app, store, id(of))?;
    let on_record: Option<Decision> = lead(store, of, Kind::TestDecision)?;
    let begun = by(store, begun)?;
    let (by, at) = read
        .first
        .map_or((begun.by, begun.at), |first| (first.by, first.at));
    let verdict = read.judged.decision.map(|decision| decision.verdict);
    let limit = read.judged.limit.map(|limit| limit.today_vacuum_pa);
    let summary = read.judged.readings;
    Ok(Some(Found {
        job,
        of: id(of),
        place: at,
        event: BoreEvent {
            job,
            job_number: of_job.number.clone(),
            vehicle: of_job.vehicle.clone(),
            by,
            at,
            what: BoreHappening::Test(BoreTested {
                test: id(of),
                test_point: read.test_point,
                stand: read.stand,
                readings: summary.as_ref().map_or(0, |it| it.independent_count),
                mean_vacuum_pa: summary.as_ref().map(|it| it.mean_vacuum_pa),
                expanded_uncertainty_pa: summary.as_ref().map(|it| it.expanded_uncertainty_pa),
                barometer_pa: read.judged.barometer_pa,
                barometer_from_altitude: matches!(read.ambient, Some(Ambient::Altitude { .. })),
                limit_vacuum_pa: on_record.as_ref().map(|it| it.limit_vacuum_pa).or(limit),
                verdict: on_record.as_ref().map(|it| it.verdict).or(verdict),
                decided: on_record.is_some(),
            }),
        },
    }))
}

fn repair(
    store: &Store,
    of: SubjectId,
    job: Id,
    of_job: &OfJob,
) -> Result<Option<(Found, Vec<Id>)>, ApiError> {
    let records = standing(store, of, Kind::Repair)?;
    let Some(record) = records.lead() else {
        return Ok(None);
    };
    let Some(repair) = body::<Repair>(record) else {
        return Ok(None);
    };
    let first = records.records.first().unwrap_or(record);
    let by = by(store, first)?;
    let found = Found {
        job,
        of: id(of),
        place: by.at,
        event: BoreEvent {
            job,
            job_number: of_job.number.clone(),
            vehicle: of_job.vehicle.clone(),
            by: by.by,
            at: by.at,
            what: BoreHappening::Repair {
                repair: id(of),
                option: repair.work.option,
                parts: repair.work.parts,
            },
        },
    };
    Ok(Some((found, repair.tests_before)))
}

/// By time; but a repair comes after the tests of its job that it knew of and before the others,
/// whatever the clocks of two devices say.
fn in_order(mut tests: Vec<Found>, mut repairs: Vec<(Found, Vec<Id>)>) -> Vec<BoreEvent> {
    repairs.sort_by_key(|(one, _)| (one.place, one.of));
    for (repair, known) in &mut repairs {
        let before = tests
            .iter()
            .filter(|test| known.contains(&test.of))
            .map(|test| test.place)
            .max();
        repair.place = before.map_or(repair.place, |before| before.max(repair.place));
        for test in &mut tests {
            if test.job == repair.job && !known.contains(&test.of) {
                test.place = test.place.max(repair.place);
            }
        }
    }
    // At the same place: what was known, the repair, what came after.
    let mut all: Vec<(DateTime<Utc>, u8, Id, BoreEvent)> = Vec::new();
    for test in tests {
        let after = repairs
            .iter()
            .any(|(repair, known)| repair.job == test.job && !known.contains(&test.of));
        all.push((test.place, 2 * u8::from(after), test.of, test.event));
    }
    for (repair, _) in repairs {
        all.push((repair.place, 1, repair.of, repair.event));
    }
    all.sort_by_key(|(place, rank, of, _)| (*place, *rank, *of));
    all.into_iter().map(|(.., event)| event).collect()
}
