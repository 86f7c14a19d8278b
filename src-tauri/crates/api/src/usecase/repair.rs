//! A repair of a bore within a job: what was done, what it should do, and what it did.

use diagnosis::inspected::seals_by_diameters;
use diagnosis::pressure::SealEvidence;
use diagnosis::repair::{RepairForecast, forecast, ground, left_by, oil_points, open_points};
use model::finding::{FindingCode, Severity};
use model::job::Job;
use model::repair::{Repair, RepairWork};
use model::unit::{Bore, BoreProfile};
use model::{Finding, Id, Kind};
use store::Store;

use crate::App;
use crate::dto::{
    PartsBefore, RepairGet, RepairRecord, RepairRecorded, RepairStage, RepairView, TestEntry,
};
use crate::error::ApiError;
use crate::journal_io::{by, need, new_record, standing, subject};
use crate::profiles;
use crate::repairs::{self, Recorded};
use crate::usecase::audit::undo_state;
use crate::usecase::inspection;
use crate::usecase::job::{changed, hazards, tests_of_bore};
use crate::usecase::oil_check;
use crate::usecase::test::{Judged, judged};

/// A repair, or what stands before a new one.
pub(crate) fn get(app: &App, args: RepairGet) -> Result<RepairView, ApiError> {
    let store = app.store()?;
    Bench::read(&store, args.job, args.bore, args.repair)?.view(app, &store, None)
}

/// A repair on record.
pub(crate) fn recorded(
    app: &App,
    store: &Store,
    job: Id,
    bore: Id,
    repair: Id,
) -> Result<RepairView, ApiError> {
    Bench::read(store, job, bore, Some(repair))?.view(app, store, None)
}

/// The bore as a repair left it, and its seals where the repair's figures say enough of them.
pub(super) fn left(
    app: &App,
    store: &Store,
    job: Id,
    bore: Id,
    repair: Id,
) -> Result<(BoreProfile, Option<SealEvidence>), ApiError> {
    let bench = Bench::read(store, job, bore, Some(repair))?;
    let before = bench.before(app, store)?;
    let Some(of) = bench.at.and_then(|at| bench.repairs.get(at)) else {
        let seals = before.and_then(|(_, it)| it.seals);
        return Ok((bench.profile, seals));
    };
    let work = &of.body.work;
    let (ground, seals) = bench.ground(app, store, work, before.as_ref())?;
    let relief = repairs::relief_to_add(store, job, bore)?;
    left_by(&ground, work, seals.as_ref(), relief.as_ref()).map_err(ApiError::internal)
}

/// The bore as a repair found it, and what the test before it said of its seals.
pub(super) fn found_before(
    app: &App,
    store: &Store,
    job: Id,
    bore: Id,
    repair: Id,
) -> Result<(BoreProfile, Option<SealEvidence>), ApiError> {
    let bench = Bench::read(store, job, bore, Some(repair))?;
    let seals = bench.before(app, store)?.and_then(|(_, it)| it.seals);
    Ok((bench.profile, seals))
}

/// Records a repair, or says what it would give.
pub(crate) fn record(app: &App, args: RepairRecord) -> Result<RepairRecorded, ApiError> {
    let mut store = app.store()?;
    let bench = Bench::read(&store, args.job, args.bore, args.repair)?;
    let tests_before = bench.tests_before.clone();
    let checks_before = bench.checks_before.clone();
    let tried = bench.view(app, &store, Some(args.work.clone()))?;
    let forbidden = tried
        .findings
        .iter()
        .any(|finding| finding.severity == Severity::Wrong);
    if args.dry_run || forbidden {
        return Ok(RepairRecorded {
            saved: false,
            view: tried,
        });
    }
    let repair = Repair {
        job: args.job,
        bore: args.bore,
        tests_before,
        checks_before,
        work: args.work,
    };
    let (of, record) = match args.repair {
        Some(id) => (id, changed(&store, subject(id), Kind::Repair, &repair)?),
        None => {
            let of = store.new_subject(app.now())?;
            let record = new_record(&store, of, Kind::Repair, &repair)?;
            (crate::journal_io::id(of), Some(record))
        }
    };
    if let Some(record) = record {
        app.commit(&mut store, vec![record])?;
    }
    Ok(RepairRecorded {
        saved: true,
        view: Bench::read(&store, args.job, args.bore, Some(of))?.view(app, &store, None)?,
    })
}

/// What a piece of work of a job's bore should do, were it a new repair.
pub(crate) fn foreseen(
    app: &App,
    store: &Store,
    job: Id,
    bore: Id,
    work: &RepairWork,
) -> Result<RepairForecast, ApiError> {
    let bench = Bench::read(store, job, bore, None)?;
    let before = bench.before(app, store)?;
    bench.forecast(app, store, work, before.as_ref())
}

/// A bore on the bench with one repair of it, new or on record.
struct Bench {
    job_id: Id,
    job: Job,
    bore_id: Id,
    /// The profile as earlier repairs left it.
    profile: BoreProfile,
    /// All repairs of the bore in this job, and which of them this is.
    repairs: Vec<Recorded<Repair>>,
    at: Option<usize>,
    /// All tests of the bore in this job, oldest first.
    tests: Vec<TestEntry>,
    tests_before: Vec<Id>,
    /// The checks that say what it finds.
    checks_before: Vec<Id>,
}

impl Bench {
    fn read(store: &Store, job_id: Id, bore_id: Id, repair: Option<Id>) -> Result<Self, ApiError> {
        let job: Job = need(store, subject(job_id), Kind::Job)?;
        need::<Bore>(store, subject(bore_id), Kind::Bore)?;
        let repairs = repairs::of_bore(store, job_id, bore_id)?;
        let at = match repair {
            Some(id) => {
                let found = repairs.iter().position(|recorded| recorded.id == id);
                Some(found.ok_or_else(|| ApiError::not_found("repair", id))?)
            }
            None => None,
        };
        let tests = tests_of_bore(store, job_id, bore_id)?;
        let earlier = at.unwrap_or(repairs.len());
        let profile = repairs::profile_after(store, job_id, bore_id, &repairs[..earlier])?;
        let tests_before = match at {
            Some(at) => repairs[at].body.tests_before.clone(),
            None => tests.iter().map(|entry| entry.test).collect(),
        };
        let on_record = at.map(|at| &repairs[at].body.checks_before);
        let checks_before = match on_record {
            Some(known) if !known.is_empty() => known.clone(),
            // A repair after another, of which nobody noted what was known.
            Some(_) if earlier > 0 => Vec::new(),
            _ => inspection::checks_known(store, job_id, bore_id, earlier > 0)?,
        };
        Ok(Self {
            job_id,
            job,
            bore_id,
            profile,
            repairs,
            at,
            tests,
            tests_before,
            checks_before,
        })
    }

    /// The tests between the repair before this one and this one, newest first.
    fn candidates_before(&self) -> impl Iterator<Item = &TestEntry> {
        let earlier = &self.repairs[..self.at.unwrap_or(self.repairs.len())];
        self.tests.iter().rev().filter(move |entry| {
            let known = |repair: &Recorded<Repair>| repair.body.tests_before.contains(&entry.test);
            self.tests_before.contains(&entry.test) && !earlier.iter().any(known)
        })
    }

    /// The tests between this repair and the next, newest first.
    fn candidates_after(&self) -> impl Iterator<Item = &TestEntry> {
        let next = self.at.and_then(|at| self.repairs.get(at + 1));
        self.tests.iter().rev().filter(move |entry| {
            !self.tests_before.contains(&entry.test)
                && next.is_none_or(|next| next.body.tests_before.contains(&entry.test))
        })
    }

    fn view(
        self,
        app: &App,
        store: &Store,
        entered: Option<RepairWork>,
    ) -> Result<RepairView, ApiError> {
        let on_record = self.at.map(|at| &self.repairs[at]);
        let work = entered.or_else(|| on_record.map(|repair| repair.body.work.clone()));
        let before = self.before(app, store)?;
        let forecast = work
            .as_ref()
            .map(|work| self.forecast(app, store, work, before.as_ref()))
            .transpose()?;
        let mut after = None;
        if let Some(entry) = self.candidates_after().find(|entry| entry.readings > 0)
            && on_record.is_some()
        {
            after = Some((entry.clone(), judged(app, store, entry.test)?));
        }
        let test_begun = match on_record {
            Some(_) => self.candidates_after().find(|entry| entry.readings == 0),
            None => None,
        };
        let oil_checks = match on_record {
            Some(repair) => oil_check::of_repair(app, store, self.job_id, self.bore_id, repair.id)?,
            None => Vec::new(),
        };
        let mut open = match (&work, &forecast) {
            (Some(work), Some(forecast)) => open_points(
                work,
                before.as_ref().map(|(_, judged)| &judged.judgement),
                forecast,
                after.as_ref().map(|(_, judged)| &judged.judgement),
                after
                    .as_ref()
                    .is_some_and(|(entry, _)| entry.decided.is_some()),
                profiles::bore(store, self.bore_id)?
                    .balance_orifice
                    .map(|orifice| orifice.diameter_m),
            ),
            _ => Vec::new(),
        };
        open.extend(oil_points(oil_checks.iter().map(|check| check.verdict)));
        let mut findings = forecast
            .as_ref()
            .map_or(Vec::new(), |forecast| forecast.findings.clone());
        if let Some(repair) = on_record
            && standing(store, subject(repair.id), Kind::Repair)?.concurrent
        {
            let code = FindingCode::ConcurrentEdit;
            findings.push(Finding::at(Severity::Doubt, code, ""));
        }
        let test_point = before
            .as_ref()
            .map(|(_, judged)| judged.test.test_point)
            .or_else(|| self.profile.test_points.first().map(|(id, _)| *id));
        Ok(RepairView {
            id: on_record.map(|repair| repair.id),
            job: self.job_id,
            job_number: self.job.number.clone(),
            bore: self.bore_id,
            bore_name: self.profile.bore.name.clone(),
            parts_before: parts_before(&self.profile),
            by: on_record
                .map(|repair| by(store, &repair.record))
                .transpose()?,
            before: before.map(stage),
            after: after.map(stage),
            test_begun: test_begun.map(|entry| entry.test),
            test_point,
            open,
            findings,
            hazards: hazards(store, subject(self.job_id))?,
            undo: undo_state(store)?,
            work,
            forecast,
            oil_checks,
        })
    }

    /// What work should do, from what the inspection measured, as the repair options take it.
    fn forecast(
        &self,
        app: &App,
        store: &Store,
        work: &RepairWork,
        before: Option<&(TestEntry, Judged)>,
    ) -> Result<RepairForecast, ApiError> {
        let (ground, seals) = self.ground(app, store, work, before)?;
        let relief = repairs::relief_to_add(store, self.job_id, self.bore_id)?;
        forecast(&ground, work, seals.as_ref(), relief.as_ref()).map_err(ApiError::internal)
    }

    /// The bore that work starts from, and what is known of its seals.
    fn ground(
        &self,
        app: &App,
        store: &Store,
        work: &RepairWork,
        before: Option<&(TestEntry, Judged)>,
    ) -> Result<(BoreProfile, Option<SealEvidence>), ApiError> {
        let as_new = profiles::bore(store, self.bore_id)?;
        let checks = &self.checks_before;
        let measured = inspection::measured_by(app, store, self.job_id, &self.profile, checks)?;
        let seals = before
            .and_then(|(_, judged)| judged.seals.clone())
            .or_else(|| seals_by_diameters(&self.profile, &measured));
        let ground = ground(&as_new, &self.profile, &measured, work.option);
        Ok((ground, seals))
    }

    /// The last test before that knows its leak, or else the last with a reading.
    fn before(&self, app: &App, store: &Store) -> Result<Option<(TestEntry, Judged)>, ApiError> {
        let mut read = None;
        for entry in self.candidates_before().filter(|entry| entry.readings > 0) {
            let judged = judged(app, store, entry.test)?;
            if judged.seals.is_some() {
                return Ok(Some((entry.clone(), judged)));
            }
            read = read.or(Some((entry.clone(), judged)));
        }
        Ok(read)
    }
}

fn stage((entry, judged): (TestEntry, Judged)) -> RepairStage {
    let Judged { judgement, .. } = judged;
    RepairStage {
        test: entry.test,
        begun: entry.begun,
        mean_vacuum_pa: judgement.readings.map(|readings| readings.mean_vacuum_pa),
        decision: judgement.decision,
        decided: entry.decided,
        consequence: judgement.consequence,
    }
}

fn parts_before(profile: &BoreProfile) -> PartsBefore {
    let spring = profile.spring.as_ref();
    PartsBefore {
        bore_diameter_m: profile.bore.diameter_m,
        valve_diameter_m: profile.reaction_land().and_then(|land| land.diameter_m),
        spring_load_n: spring.and_then(|spring| spring.load_regulating_n),
        spring_rate_n_per_m: spring.and_then(|spring| spring.rate_n_per_m),
        setpoint_pa: profile.circuit.setpoint_pa,
    }
}
