//! Jobs and their cautions.

use diagnosis::evidence::repeats;
use journal::SubjectId;
use model::bench::{Decision, Reading, VacuumTest};
use model::caution::{BENCH_HAZARDS, CAUTION_WORDING, CautionRead, Hazard};
use model::finding::{FindingCode, Severity};
use model::job::{Customer, Job};
use model::limits::Check;
use model::unit::{Bore, Circuit, TestPoint, Unit};
use model::{Finding, Finite, Id, Kind};
use store::{NewRecord, Store};

use crate::App;
use crate::dto::{
    BoreState, CautionReadArgs, HazardState, JobEdit, JobEdited, JobGet, JobOpen, JobOpened,
    JobPart, JobView, ReadBy, ReliefEntry, RepairEntry, TestEntry, TestPointState,
};
use crate::error::ApiError;
use crate::journal_io::{body, by, id, kind_name, lead, need, new_record, standing, subject};
use crate::usecase::audit::undo_state;
use crate::usecase::erasure::erased_parts;
use crate::usecase::{handover, oil_check, tap};
use crate::{profiles, repairs};

pub(super) fn unit_name(store: &Store, unit: Id) -> Result<String, ApiError> {
    let unit: Option<Unit> = lead(store, subject(unit), Kind::Unit)?;
    Ok(unit.map(|unit| unit.name).unwrap_or_default())
}

/// Whoever wrote the first record of the job.
pub(super) fn opened_by(store: &Store, of: SubjectId) -> Result<String, ApiError> {
    let records = standing(store, of, Kind::Job)?;
    Ok(records
        .records
        .first()
        .map(|record| by(store, record))
        .transpose()?
        .map_or(String::new(), |by| by.by))
}

/// Opens a job.
pub(crate) fn open(app: &App, args: JobOpen) -> Result<JobOpened, ApiError> {
    let mut store = app.store()?;
    if lead::<Unit>(&store, subject(args.unit), Kind::Unit)?.is_none() {
        return Err(ApiError::not_found("unit", args.unit));
    }
    let mut findings = Vec::new();
    args.vehicle.check("vehicle", &mut findings);
    args.complaint.check("complaint", &mut findings);
    let forbidden = findings
        .iter()
        .any(|finding| finding.severity == Severity::Wrong);
    if args.dry_run || forbidden {
        return Ok(JobOpened {
            job: None,
            findings,
        });
    }
    let typed = args.number.trim();
    let number = if typed.is_empty() {
        next_number(&store)?
    } else {
        typed.to_owned()
    };
    let of = store.new_subject(app.now())?;
    let job = Job {
        unit: args.unit,
        number,
        opened_on: app.clock().today(),
    };
    let mut records = vec![
        new_record(&store, of, Kind::Job, &job)?,
        new_record(&store, of, Kind::JobVehicle, &args.vehicle)?,
        new_record(&store, of, Kind::JobComplaint, &args.complaint)?,
    ];
    if !args.notes.text.trim().is_empty() {
        records.push(new_record(&store, of, Kind::JobNotes, &args.notes)?);
    }
    if let Some(customer) = args
        .customer
        .filter(|customer| *customer != Customer::default())
    {
        records.push(new_record(&store, of, Kind::JobCustomer, &customer)?);
    }
    app.commit(&mut store, records)?;
    Ok(JobOpened {
        job: Some(id(of)),
        findings,
    })
}

/// One more than the highest number in use, written with at least four digits.
fn next_number(store: &Store) -> Result<String, ApiError> {
    let highest = store.highest_number(&kind_name(Kind::Job))?;
    let highest = highest.and_then(|number| u32::try_from(number).ok());
    Ok(format!("{:04}", highest.unwrap_or(0).saturating_add(1)))
}

/// One job.
pub(crate) fn get(app: &App, args: JobGet) -> Result<JobView, ApiError> {
    view(&*app.store()?, args.job)
}

pub(crate) fn view(store: &Store, job_id: Id) -> Result<JobView, ApiError> {
    let of = subject(job_id);
    let job: Job = need(store, of, Kind::Job)?;
    let mut findings = Vec::new();
    for (kind, field) in [
        (Kind::JobVehicle, "vehicle"),
        (Kind::JobComplaint, "complaint"),
        (Kind::JobNotes, "notes"),
        (Kind::JobCustomer, "customer"),
    ] {
        if standing(store, of, kind)?.concurrent {
            findings.push(Finding::at(
                Severity::Doubt,
                FindingCode::ConcurrentEdit,
                field,
            ));
        }
    }
    let tests = tests(store, of)?;
    let mut bores = Vec::new();
    for bore_id in profiles::bores_of_unit(store, job.unit)? {
        bores.push(bore_state(store, job_id, bore_id, &tests)?);
    }
    Ok(JobView {
        id: job_id,
        unit_name: unit_name(store, job.unit)?,
        vehicle: lead(store, of, Kind::JobVehicle)?.unwrap_or_default(),
        complaint: lead(store, of, Kind::JobComplaint)?.unwrap_or_default(),
        notes: lead(store, of, Kind::JobNotes)?.unwrap_or_default(),
        customer: lead(store, of, Kind::JobCustomer)?,
        opened_by: opened_by(store, of)?,
        hazards: hazards(store, of)?,
        bores,
        handover: handover::brief(store, job_id, &job)?,
        erased: erased_parts(store, of)?,
        findings,
        undo: undo_state(store)?,
        taps: tap::summary(store, job_id, job.unit)?,
        job,
    })
}

/// The tests of a job, oldest first.
pub(crate) fn tests(
    store: &Store,
    job: SubjectId,
) -> Result<Vec<(VacuumTest, TestEntry)>, ApiError> {
    let mut found = Vec::new();
    for of in store.children(job, &kind_name(Kind::Test))? {
        let records = standing(store, of, Kind::Test)?;
        let Some(record) = records.records.first() else {
            continue;
        };
        let Some(test) = body::<VacuumTest>(record) else {
            continue;
        };
        let begun = by(store, record)?;
        let readings = readings(store, of)?;
        let decision: Option<Decision> = lead(store, of, Kind::TestDecision)?;
        found.push((
            test,
            TestEntry {
                test: id(of),
                begun,
                readings: count(readings.len()),
                mean_vacuum_pa: mean(&repeats(&readings)),
                decided: decision.map(|decision| decision.verdict),
            },
        ));
    }
    found.sort_by_key(|(_, entry)| entry.begun.at);
    Ok(found)
}

/// The readings of a test that stand, oldest first.
pub(crate) fn readings(store: &Store, test: SubjectId) -> Result<Vec<Reading>, ApiError> {
    Ok(standing(store, test, Kind::TestReading)?
        .records
        .iter()
        .filter_map(body)
        .collect())
}

/// The mean of readings; none without any.
pub(crate) fn mean(readings: &[&Reading]) -> Option<Finite> {
    let sum: f64 = readings.iter().map(|reading| *reading.vacuum_pa).sum();
    (!readings.is_empty())
        .then(|| Finite::new(sum / f64::from(count(readings.len()))))
        .flatten()
}

fn bore_state(
    store: &Store,
    job: Id,
    bore_id: Id,
    tests: &[(VacuumTest, TestEntry)],
) -> Result<BoreState, ApiError> {
    let of = subject(bore_id);
    let bore: Bore = need(store, of, Kind::Bore)?;
    let circuit: Option<Circuit> = lead(store, subject(bore.circuit), Kind::Circuit)?;
    let mut test_points = Vec::new();
    for point_id in store.children(of, &kind_name(Kind::TestPoint))? {
        let Some(point) = lead::<TestPoint>(store, point_id, Kind::TestPoint)? else {
            continue;
        };
        let here = tests
            .iter()
            .filter(|(test, _)| test.test_point == id(point_id));
        test_points.push(TestPointState {
            test_point: id(point_id),
            name: point.name,
            tests: here.map(|(_, entry)| entry.clone()).collect(),
        });
    }
    Ok(BoreState {
        bore: bore_id,
        name: bore.name,
        circuit_name: circuit.map(|circuit| circuit.name).unwrap_or_default(),
        test_points,
        relief: relief_entry(store, job, bore_id, bore.circuit)?,
        repairs: repair_entries(store, job, bore_id, tests)?,
        oil_checks: oil_check::entries(store, job, bore_id)?,
    })
}

fn relief_entry(store: &Store, job: Id, bore_id: Id, circuit: Id) -> Result<ReliefEntry, ApiError> {
    let fitted = store.children(subject(circuit), &kind_name(Kind::Relief))?;
    let check = repairs::relief_check(store, job, bore_id)?;
    Ok(ReliefEntry {
        in_profile: !fitted.is_empty(),
        checked: check.map(|check| by(store, &check.record)).transpose()?,
    })
}

fn repair_entries(
    store: &Store,
    job: Id,
    bore_id: Id,
    tests: &[(VacuumTest, TestEntry)],
) -> Result<Vec<RepairEntry>, ApiError> {
    let mut entries = Vec::new();
    for repair in repairs::of_bore(store, job, bore_id)? {
        let known = &repair.body.tests_before;
        let since = |(test, entry): &(VacuumTest, TestEntry)| {
            test.bore == bore_id && entry.readings > 0 && !known.contains(&entry.test)
        };
        entries.push(RepairEntry {
            repair: repair.id,
            option: repair.body.work.option,
            parts: repair.body.work.parts.clone(),
            by: by(store, &repair.record)?,
            tested_since: tests.iter().any(since),
        });
    }
    Ok(entries)
}

/// The tests of one bore in a job, oldest first.
pub(crate) fn tests_of_bore(store: &Store, job: Id, bore: Id) -> Result<Vec<TestEntry>, ApiError> {
    let tests = tests(store, subject(job))?.into_iter();
    Ok(tests
        .filter(|(test, _)| test.bore == bore)
        .map(|(_, entry)| entry)
        .collect())
}

/// The hazards of bench work and who has read each caution for this job.
pub(crate) fn hazards(store: &Store, job: SubjectId) -> Result<Vec<HazardState>, ApiError> {
    hazards_of(store, job, &BENCH_HAZARDS)
}

/// True while the caution of any of these hazards wasn't read for this job.
pub(super) fn unread(store: &Store, job: SubjectId, of: &[Hazard]) -> Result<bool, ApiError> {
    let states = hazards_of(store, job, of)?;
    Ok(states.iter().any(|state| state.read.is_none()))
}

/// Who has read the cautions of some hazards for this job.
pub(crate) fn hazards_of(
    store: &Store,
    job: SubjectId,
    of: &[Hazard],
) -> Result<Vec<HazardState>, ApiError> {
    let mut read: Vec<(CautionRead, ReadBy)> = Vec::new();
    for record in &standing(store, job, Kind::Caution)?.records {
        if let Some(caution) = body::<CautionRead>(record) {
            read.push((caution, by(store, record)?));
        }
    }
    let state = |hazard| HazardState {
        hazard,
        // A caution whose wording has changed in substance must be read again.
        read: read
            .iter()
            .find(|(caution, _)| caution.hazard == hazard && caution.wording == CAUTION_WORDING)
            .map(|(_, by)| by.clone()),
    };
    Ok(of.iter().copied().map(state).collect())
}

/// Changes one part of a job.
pub(crate) fn edit(app: &App, args: JobEdit) -> Result<JobEdited, ApiError> {
    let mut store = app.store()?;
    let of = subject(args.job);
    need::<Job>(&store, of, Kind::Job)?;
    let mut findings = Vec::new();
    match &args.part {
        JobPart::Vehicle(part) => part.check("vehicle", &mut findings),
        JobPart::Complaint(part) => part.check("complaint", &mut findings),
        JobPart::Notes(_) | JobPart::Customer(_) => {}
    }
    let told = |store: &Store, saved, findings| {
        let view = view(store, args.job)?;
        Ok(JobEdited {
            saved,
            findings,
            undo: view.undo.clone(),
            view,
        })
    };
    if findings
        .iter()
        .any(|finding| finding.severity == Severity::Wrong)
    {
        return told(&store, false, findings);
    }
    let record = match &args.part {
        JobPart::Vehicle(part) => changed(&store, of, Kind::JobVehicle, part)?,
        JobPart::Complaint(part) => changed(&store, of, Kind::JobComplaint, part)?,
        JobPart::Notes(part) => changed(&store, of, Kind::JobNotes, part)?,
        JobPart::Customer(part) => changed(&store, of, Kind::JobCustomer, part)?,
    };
    if let Some(record) = record {
        app.commit(&mut store, vec![record])?;
    }
    told(&store, true, findings)
}

/// A new record, unless one that says the same already stands alone.
pub(crate) fn changed<T>(
    store: &Store,
    of: SubjectId,
    kind: Kind,
    value: &T,
) -> Result<Option<NewRecord>, ApiError>
where
    T: serde::Serialize + serde::de::DeserializeOwned + PartialEq,
{
    let now = standing(store, of, kind)?;
    let same = !now.concurrent
        && now
            .lead()
            .and_then(body::<T>)
            .is_some_and(|old| old == *value);
    if same {
        Ok(None)
    } else {
        new_record(store, of, kind, value).map(Some)
    }
}

/// Says that cautions were read. One that was read already is not recorded again.
pub(crate) fn read_cautions(app: &App, args: CautionReadArgs) -> Result<JobView, ApiError> {
    let mut store = app.store()?;
    let of = subject(args.job);
    need::<Job>(&store, of, Kind::Job)?;
    let mut records = Vec::new();
    let mut asked = args.hazards.clone();
    asked.sort_unstable();
    asked.dedup();
    for state in hazards_of(&store, of, &asked)? {
        if state.read.is_none() {
            let read = CautionRead {
                hazard: state.hazard,
                wording: CAUTION_WORDING,
            };
            records.push(new_record(&store, of, Kind::Caution, &read)?);
        }
    }
    if !records.is_empty() {
        app.commit(&mut store, records)?;
    }
    view(&store, args.job)
}

pub(super) fn count(length: usize) -> u32 {
    u32::try_from(length).unwrap_or(u32::MAX)
}
