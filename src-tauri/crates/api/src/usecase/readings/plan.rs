//! What taking a table in would do: each row by itself, then the readings of each test as if they
//! had been typed one after another.

use std::collections::BTreeMap;

use model::bench::{Reading, VacuumTest};
use model::finding::Severity;
use model::job::Job;
use model::unit::{Bore, TestPoint};
use model::{Finding, Id, Kind};
use store::Store;
use tabular::{Row, Table};

use super::columns::holds_readings;
use super::rows::{Columns, Refused, cut};
use crate::App;
use crate::dto::{ColumnRole, ColumnUse, ReadingsInto, ReadingsLack, RowProblem, WrongRow};
use crate::error::ApiError;
use crate::journal_io::{body, id, kind_name, lead, need, standing, subject};
use crate::profiles;
use crate::usecase::shop;
use crate::usecase::test::{findings_of, journal_record};

/// The longest piece of a cell that is shown again.
const SHOWN: usize = 60;

/// Two figures are the same when they differ by no more than this share: what a spreadsheet cuts
/// off of long decimals.
const SAME: f64 = 1e-6;

/// Where a reading belongs.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Target {
    pub job: Id,
    pub bore: Id,
    pub test_point: Id,
    /// The test that it joins; none: one that is begun.
    pub test: Option<Id>,
    /// What tells one test of the file from another.
    mark: String,
}

/// A reading that is new here.
pub(super) struct Planned {
    pub line: u64,
    pub reading: Reading,
}

/// The readings of one test.
pub(super) struct Group {
    pub target: Target,
    pub names: [String; 3],
    pub readings: Vec<Planned>,
}

/// All that would be done.
#[derive(Default)]
pub(super) struct Plan {
    pub groups: Vec<Group>,
    pub here: usize,
    pub alike: usize,
    pub other: usize,
    pub wrong: Vec<WrongRow>,
}

/// What must still be said.
pub(super) fn lacks(
    store: &Store,
    table: &Table,
    uses: &[ColumnUse],
    columns: &Columns<'_>,
    into: &ReadingsInto,
) -> Result<Vec<ReadingsLack>, ApiError> {
    let mut lacks = Vec::new();
    let readings = uses.iter().position(|it| holds_readings(it.role));
    match readings {
        None => lacks.push(ReadingsLack::Vacuum),
        Some(at) => {
            let named = uses.get(at).is_some_and(|it| it.unit.is_some());
            // Each cell may name its own.
            let bare = |row: &Row| row.cell(at).trim().ends_with(|c: char| c.is_ascii_digit());
            if !named && table.rows.iter().any(bare) {
                lacks.push(ReadingsLack::Unit);
            }
        }
    }
    let twice = |(at, it): (usize, &ColumnUse)| {
        let clashes = |other: &ColumnUse| {
            other.role == it.role || holds_readings(other.role) && holds_readings(it.role)
        };
        it.role != ColumnRole::Nothing && uses[..at].iter().any(clashes)
    };
    if uses.iter().enumerate().any(twice) {
        lacks.push(ReadingsLack::OneColumnEach);
    }
    if into.job.is_none() && !columns.has(ColumnRole::Job) {
        lacks.push(ReadingsLack::Job);
    }
    if !columns.has(ColumnRole::Bore) {
        match into.bore {
            None => lacks.push(ReadingsLack::Bore),
            Some(bore) if into.test_point.is_none() && !columns.has(ColumnRole::TestPoint) => {
                if profiles::bore(store, bore)?.test_points.len() > 1 {
                    lacks.push(ReadingsLack::TestPoint);
                }
            }
            Some(_) => {}
        }
    }
    Ok(lacks)
}

/// The jobs, bores and readings that rows may name, each read once.
struct Here<'a> {
    store: &'a Store,
    jobs: Vec<(Id, Job)>,
    bores: BTreeMap<Id, Vec<(Id, Bore)>>,
    points: BTreeMap<Id, Vec<(Id, TestPoint)>>,
    /// By job, bore and test point: readings that no row has claimed yet.
    readings: BTreeMap<(Id, Id, Id), Vec<f64>>,
}

impl Here<'_> {
    fn job(&self, number: &str) -> Result<Id, RowProblem> {
        let one = |fits: &dyn Fn(&str) -> bool| {
            let mut found = self.jobs.iter().filter(|(_, job)| fits(&job.number));
            match (found.next(), found.next()) {
                (Some((id, _)), None) => Ok(*id),
                (None, _) => Err(RowProblem::NoSuchJob),
                (Some(_), Some(_)) => Err(RowProblem::SeveralJobs),
            }
        };
        // Spreadsheets take 0147 for a number and write 147.
        let bare = |text: &str| text.trim().trim_start_matches('0').to_lowercase();
        match one(&|other| other.trim() == number) {
            Err(RowProblem::NoSuchJob) => one(&|other| bare(other) == bare(number)),
            found => found,
        }
    }

    fn bores(&mut self, job: Id) -> Result<&[(Id, Bore)], ApiError> {
        if !self.bores.contains_key(&job) {
            let unit = need::<Job>(self.store, subject(job), Kind::Job)?.unit;
            let mut found = Vec::new();
            for bore in profiles::bores_of_unit(self.store, unit)? {
                if let Some(body) = lead::<Bore>(self.store, subject(bore), Kind::Bore)? {
                    found.push((bore, body));
                }
            }
            self.bores.insert(job, found);
        }
        Ok(self.bores.get(&job).map(Vec::as_slice).unwrap_or_default())
    }

    fn points(&mut self, bore: Id) -> Result<&[(Id, TestPoint)], ApiError> {
        if !self.points.contains_key(&bore) {
            let found = profiles::bore(self.store, bore)?.test_points;
            self.points.insert(bore, found);
        }
        Ok(self
            .points
            .get(&bore)
            .map(Vec::as_slice)
            .unwrap_or_default())
    }

    /// Takes a reading off those that are here; false if none is like it.
    fn claim(&mut self, at: (Id, Id, Id), vacuum_pa: f64) -> Result<bool, ApiError> {
        if !self.readings.contains_key(&at) {
            let mut found = Vec::new();
            for of in self.store.children(subject(at.0), &kind_name(Kind::Test))? {
                let test: Option<VacuumTest> = lead(self.store, of, Kind::Test)?;
                if test.is_none_or(|it| it.bore != at.1 || it.test_point != at.2) {
                    continue;
                }
                let stands = standing(self.store, of, Kind::TestReading)?;
                let readings = stands.records.iter().filter_map(body::<Reading>);
                found.extend(readings.map(|it| *it.vacuum_pa));
            }
            self.readings.insert(at, found);
        }
        let left = self.readings.entry(at).or_default();
        let like = left.iter().position(|other| same(*other, vacuum_pa));
        Ok(like.map(|at| left.swap_remove(at)).is_some())
    }
}

fn same(one: f64, other: f64) -> bool {
    (one - other).abs() <= SAME * one.abs().max(other.abs())
}

fn named<'a, T>(
    all: &'a [(Id, T)],
    name: impl Fn(&T) -> &str,
    wanted: &str,
) -> Option<&'a (Id, T)> {
    let plain = |text: &str| text.trim().to_lowercase();
    let mut found = all
        .iter()
        .filter(|(_, it)| plain(name(it)) == plain(wanted));
    match (found.next(), found.next()) {
        (Some(one), None) => Some(one),
        _ => None,
    }
}

/// What becomes of one row.
enum Fate {
    New(Box<(Target, [String; 3], Reading)>),
    Here,
    Alike,
    Other,
}

/// Works the plan out. A failure of the store ends it; a row that can't be taken doesn't.
pub(super) fn plan(
    app: &App,
    store: &Store,
    table: &Table,
    columns: &Columns<'_>,
    into: &ReadingsInto,
) -> Result<Plan, ApiError> {
    let mut here = Here {
        store,
        jobs: shop::all(store, Kind::Job)?,
        bores: BTreeMap::new(),
        points: BTreeMap::new(),
        readings: BTreeMap::new(),
    };
    let mut plan = Plan::default();
    let mut groups: BTreeMap<Target, usize> = BTreeMap::new();
    for row in &table.rows {
        let fate = match fate(&mut here, columns, into, row)? {
            Ok(fate) => fate,
            Err((problem, cell)) => {
                plan.wrong.push(wrong(row.line, problem, cell, Vec::new()));
                continue;
            }
        };
        match fate {
            Fate::Here => plan.here += 1,
            Fate::Alike => {
                plan.here += 1;
                plan.alike += 1;
            }
            Fate::Other => plan.other += 1,
            Fate::New(new) => {
                let (target, names, reading) = *new;
                let at = *groups.entry(target.clone()).or_insert(plan.groups.len());
                if at == plan.groups.len() {
                    plan.groups.push(Group {
                        target,
                        names,
                        readings: Vec::new(),
                    });
                }
                let line = row.line;
                plan.groups[at].readings.push(Planned { line, reading });
            }
        }
    }
    for group in std::mem::take(&mut plan.groups) {
        judged(app, store, group, into, &mut plan)?;
    }
    plan.wrong.sort_by_key(|row| row.line);
    Ok(plan)
}

/// The readings of a test as a typed one would be judged; what can't be used goes to the wrong
/// rows.
fn judged(
    app: &App,
    store: &Store,
    mut group: Group,
    into: &ReadingsInto,
    plan: &mut Plan,
) -> Result<(), ApiError> {
    let is_wrong = |finding: &Finding| finding.severity == Severity::Wrong;
    let test = match group.target.test {
        Some(test) => need(store, subject(test), Kind::Test)?,
        None => new_test(&group.target, into),
    };
    loop {
        let readings: Vec<_> = group.readings.iter().map(|it| it.reading.clone()).collect();
        let test_id = group.target.test.unwrap_or_else(Id::nil);
        let (each, elsewhere) = findings_of(app, store, test_id, test.clone(), &readings)?;
        let before = group.readings.len();
        let mut kept = Vec::with_capacity(before);
        for (planned, mut findings) in group.readings.into_iter().zip(each) {
            findings.retain(is_wrong);
            if findings.is_empty() {
                kept.push(planned);
            } else {
                let cell = planned.reading.as_typed.unwrap_or_default();
                let row = wrong(planned.line, RowProblem::Findings, cell, findings);
                plan.wrong.push(row);
            }
        }
        if kept.len() == before {
            // What the rest contradicts can't be laid at one row's door.
            for planned in kept.iter().filter(|_| !elsewhere.is_empty()) {
                let cell = planned.reading.as_typed.clone().unwrap_or_default();
                let row = wrong(planned.line, RowProblem::Findings, cell, elsewhere.clone());
                plan.wrong.push(row);
            }
            if elsewhere.is_empty() && !kept.is_empty() {
                group.readings = kept;
                plan.groups.push(group);
            }
            return Ok(());
        }
        // Without the wrong ones the rest may be told otherwise.
        group.readings = kept;
    }
}

/// A test that is begun for a target.
pub(super) const fn new_test(target: &Target, into: &ReadingsInto) -> VacuumTest {
    VacuumTest {
        job: target.job,
        bore: target.bore,
        test_point: target.test_point,
        stand: into.stand,
    }
}

fn wrong(line: u64, problem: RowProblem, cell: String, findings: Vec<Finding>) -> WrongRow {
    WrongRow {
        line: u32::try_from(line).unwrap_or(u32::MAX),
        problem,
        cell,
        findings,
    }
}

/// What becomes of one row, or why it can't be taken.
fn fate(
    here: &mut Here<'_>,
    columns: &Columns<'_>,
    into: &ReadingsInto,
    row: &Row,
) -> Result<Result<Fate, Refused>, ApiError> {
    let kind = columns.cell(row, ColumnRole::Kind);
    let other = kind.is_some_and(|kind| kind != Kind::TestReading.name());
    if other {
        return Ok(Ok(Fate::Other));
    }
    let refused = |problem, cell: &str| Ok(Err((problem, cut(cell, SHOWN))));
    let (vacuum_pa, typed) = match columns.reading(row) {
        Ok(read) => read,
        Err(why) => return Ok(Err(why)),
    };
    if let Some(record) = columns.record(row)
        && let Some(known) = here.store.record(journal_record(record))?
    {
        return match body::<Reading>(&known) {
            // Struck or corrected since, it is still here.
            Some(reading) if same(*reading.vacuum_pa, *vacuum_pa) => Ok(Ok(Fate::Here)),
            _ => refused(RowProblem::DiffersFromRecord, &typed),
        };
    }
    let reseated = match columns.reseated(row) {
        Ok(said) => said.unwrap_or(into.reseated),
        Err(why) => return Ok(Err(why)),
    };
    let job = match columns.cell(row, ColumnRole::Job) {
        Some(number) => match here.job(number) {
            Ok(job) => job,
            Err(problem) => return refused(problem, number),
        },
        None => match into.job {
            Some(job) => job,
            None => return refused(RowProblem::NoSuchJob, ""),
        },
    };
    let bores = here.bores(job)?;
    let found = match (columns.cell(row, ColumnRole::Bore), into.bore) {
        (Some(name), _) => named(bores, |bore| &bore.name, name),
        (None, chosen) => bores.iter().find(|(id, _)| Some(*id) == chosen),
    };
    let Some((bore, bore_name)) = found.map(|(id, bore)| (*id, bore.name.clone())) else {
        let cell = columns.cell(row, ColumnRole::Bore).unwrap_or_default();
        return refused(RowProblem::NoSuchBore, cell);
    };
    let points = here.points(bore)?;
    let found = match (columns.cell(row, ColumnRole::TestPoint), into.test_point) {
        (Some(name), _) => named(points, |point| &point.name, name),
        (None, Some(chosen)) => points.iter().find(|(id, _)| *id == chosen),
        (None, None) if points.len() == 1 => points.first(),
        (None, None) => None,
    };
    let Some((test_point, point_name)) = found.map(|(id, it)| (*id, it.name.clone())) else {
        let cell = columns.cell(row, ColumnRole::TestPoint).unwrap_or_default();
        return refused(RowProblem::NoSuchTestPoint, cell);
    };
    let mark = columns.cell(row, ColumnRole::Test).unwrap_or_default();
    let mut test = None;
    if let Ok(of) = mark.parse::<Id>()
        && let Some(known) = lead::<VacuumTest>(here.store, subject(of), Kind::Test)?
    {
        if (known.job, known.bore, known.test_point) != (job, bore, test_point) {
            return refused(RowProblem::TestOfAnother, mark);
        }
        test = Some(id(subject(of)));
    }
    if !into.take_alike && here.claim((job, bore, test_point), *vacuum_pa)? {
        return Ok(Ok(Fate::Alike));
    }
    let job_number = here.jobs.iter().find(|(id, _)| *id == job);
    let job_number = job_number.map_or(String::new(), |(_, job)| job.number.clone());
    let target = Target {
        job,
        bore,
        test_point,
        test,
        mark: mark.to_owned(),
    };
    let reading = Reading {
        vacuum_pa,
        reseated,
        as_typed: Some(typed),
    };
    let names = [job_number, bore_name, point_name];
    Ok(Ok(Fate::New(Box::new((target, names, reading)))))
}
