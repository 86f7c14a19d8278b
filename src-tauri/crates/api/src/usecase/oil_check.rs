//! Hot-oil checks of a bore's circuit within a job.

use std::collections::BTreeMap;

use diagnosis::explore;
use diagnosis::oil_check::{self, OilBasis, OilCheckAnswer, OilEvidence};
use diagnosis::pressure::{MeasuredBore, SealEvidence};
use model::bench::{Instrument, InstrumentKind};
use model::caution::BENCH_PRESSURE_HAZARDS;
use model::finding::{FindingCode, Severity};
use model::job::Job;
use model::oil_check::{OilCheck, OilCheckFigures};
use model::unit::{Bore, BoreProfile};
use model::what_if::Setting;
use model::{Finding, Id, Kind};
use store::Store;

use crate::App;
use crate::dto::{
    OilCheckBeside, OilCheckEntry, OilCheckGet, OilCheckRecord, OilCheckRecorded, OilCheckView,
    OilPointBeside,
};
use crate::error::ApiError;
use crate::journal_io::{by, need, new_record, standing, subject};
use crate::repairs::{self, Recorded};
use crate::usecase::audit::undo_state;
use crate::usecase::inspection::as_found;
use crate::usecase::job::{changed, count, hazards_of, unread};
use crate::usecase::repair;
use crate::usecase::shop::all;
use crate::usecase::tap::pressure_instruments;

/// A check, or what stands before a new one.
pub(crate) fn get(app: &App, args: OilCheckGet) -> Result<OilCheckView, ApiError> {
    let store = app.store()?;
    view(app, &store, args.job, args.bore, args.oil_check, None)
}

/// Records a check, or says what it would give. None goes on record before its cautions were read.
pub(crate) fn record(app: &App, args: OilCheckRecord) -> Result<OilCheckRecorded, ApiError> {
    let mut store = app.store()?;
    let (job, bore) = (args.job, args.bore);
    let entered = Some(args.figures.clone());
    let tried = view(app, &store, job, bore, args.oil_check, entered)?;
    let found = tried.findings.iter().chain(&tried.answer.findings);
    let forbidden = found
        .into_iter()
        .any(|finding| finding.severity == Severity::Wrong);
    if args.dry_run || forbidden {
        return Ok(OilCheckRecorded {
            saved: false,
            view: tried,
        });
    }
    let check = OilCheck {
        job,
        bore,
        repair: tried.repair,
        figures: args.figures,
    };
    let (of, record) = match args.oil_check {
        Some(id) => (id, changed(&store, subject(id), Kind::OilCheck, &check)?),
        None => {
            let of = store.new_subject(app.now())?;
            let record = new_record(&store, of, Kind::OilCheck, &check)?;
            (crate::journal_io::id(of), Some(record))
        }
    };
    if let Some(record) = record {
        app.commit(&mut store, vec![record])?;
    }
    Ok(OilCheckRecorded {
        saved: true,
        view: view(app, &store, job, bore, Some(of), None)?,
    })
}

/// A check on record, or what `entered` would give.
pub(crate) fn view(
    app: &App,
    store: &Store,
    job_id: Id,
    bore_id: Id,
    check: Option<Id>,
    entered: Option<OilCheckFigures>,
) -> Result<OilCheckView, ApiError> {
    let job: Job = need(store, subject(job_id), Kind::Job)?;
    need::<Bore>(store, subject(bore_id), Kind::Bore)?;
    let on_record = match check {
        Some(id) => {
            let all = repairs::oil_checks(store, job_id, bore_id)?;
            let found = all.into_iter().find(|recorded| recorded.id == id);
            Some(found.ok_or_else(|| ApiError::not_found("oil_check", id))?)
        }
        None => None,
    };
    let repair = match &on_record {
        Some(recorded) => recorded.body.repair,
        None => repairs::of_bore(store, job_id, bore_id)?
            .last()
            .map(|repair| repair.id),
    };
    let is_new = on_record.is_none() && entered.is_none();
    let figures = entered
        .or_else(|| on_record.as_ref().map(|it| it.body.figures.clone()))
        .unwrap_or_default();
    let state = state_of(app, store, job_id, bore_id, repair, on_record.is_some())?;
    let hot = state.profile.unit.hot_oil_temperature_k;
    let figures = OilCheckFigures {
        oil_temperature_k: figures.oil_temperature_k.or(is_new.then_some(hot)),
        ..figures
    };
    let instruments: BTreeMap<Id, Instrument> = all::<Instrument>(store, Kind::Instrument)?
        .into_iter()
        .collect();
    let answer = answer(app, &state, &figures, &instruments)?;
    let mut findings = Vec::new();
    if unread(store, subject(job_id), &BENCH_PRESSURE_HAZARDS)? {
        let code = FindingCode::CautionUnread;
        findings.push(Finding::at(Severity::Wrong, code, ""));
    }
    if let Some(recorded) = &on_record
        && standing(store, subject(recorded.id), Kind::OilCheck)?.concurrent
    {
        let code = FindingCode::ConcurrentEdit;
        findings.push(Finding::at(Severity::Doubt, code, ""));
    }
    let kinds = [InstrumentKind::PressureGauge, InstrumentKind::Thermometer];
    Ok(OilCheckView {
        id: on_record.as_ref().map(|recorded| recorded.id),
        job: job_id,
        job_number: job.number,
        bore: bore_id,
        bore_name: state.profile.bore.name.clone(),
        circuit_name: state.profile.circuit.name.clone(),
        repair,
        by: on_record
            .as_ref()
            .map(|recorded| by(store, &recorded.record))
            .transpose()?,
        specified_low_pa: state.profile.circuit.specified_low_pa,
        specified_high_pa: state.profile.circuit.specified_high_pa,
        line_idle_pa: state.profile.unit.line_idle_pa,
        line_highest_pa: state.profile.unit.line_highest_pa,
        instruments: pressure_instruments(instruments, app.clock().today(), &kinds),
        hazards: hazards_of(store, subject(job_id), &BENCH_PRESSURE_HAZARDS)?,
        undo: undo_state(store)?,
        figures,
        answer,
        findings,
    })
}

/// The bore that a check was made on.
struct State {
    profile: BoreProfile,
    seals: Option<(SealEvidence, OilBasis)>,
}

/// As the repair that the check proves left it, or else as it was found: before the first repair
/// for a check that was recorded before it.
fn state_of(
    app: &App,
    store: &Store,
    job: Id,
    bore: Id,
    repair: Option<Id>,
    on_record: bool,
) -> Result<State, ApiError> {
    let known = repairs::of_bore(store, job, bore)?;
    let repair = repair.filter(|id| known.iter().any(|repair| repair.id == *id));
    let (profile, seals) = match (repair, known.first()) {
        (Some(repair), _) => {
            let (profile, seals) = repair::left(app, store, job, bore, repair)?;
            (profile, seals.map(|seals| (seals, OilBasis::Repair)))
        }
        (None, Some(first)) if on_record => {
            let (profile, seals) = repair::found_before(app, store, job, bore, first.id)?;
            (profile, seals.map(|seals| (seals, OilBasis::Measured)))
        }
        (None, _) => {
            let found = as_found(app, store, job, bore)?;
            let seals = found.seals.map(|seals| (seals, OilBasis::Measured));
            (found.profile, seals)
        }
    };
    let seals = match (seals, repair) {
        (Some(known), _) => Some(known),
        // What a repair left and nobody measured is not known.
        (None, Some(_)) => None,
        (None, None) => explore::seals(&profile, &Setting::default(), None)
            .map(|seals| (seals, OilBasis::AsNew)),
    };
    Ok(State { profile, seals })
}

fn answer(
    app: &App,
    state: &State,
    figures: &OilCheckFigures,
    instruments: &BTreeMap<Id, Instrument>,
) -> Result<OilCheckAnswer, ApiError> {
    let named = |id: Option<Id>| id.and_then(|id| instruments.get(&id));
    oil_check::judge(&OilEvidence {
        figures,
        profile: &state.profile,
        measured: &MeasuredBore::as_profile(&state.profile),
        seals: state.seals.as_ref().map(|(seals, basis)| (seals, *basis)),
        feed_gauge: named(figures.feed_gauge),
        line_gauge: named(figures.line_gauge),
        thermometer: named(figures.thermometer),
        today: Some(app.clock().today()),
    })
    .map_err(ApiError::internal)
}

/// The checks of a bore in a list.
pub(super) fn entries(store: &Store, job: Id, bore: Id) -> Result<Vec<OilCheckEntry>, ApiError> {
    repairs::oil_checks(store, job, bore)?
        .into_iter()
        .map(|check| {
            Ok(OilCheckEntry {
                oil_check: check.id,
                repair: check.body.repair,
                points: count(check.body.figures.points.len()),
                by: by(store, &check.record)?,
            })
        })
        .collect()
}

/// The checks that prove a repair, with their points.
pub(super) fn of_repair(
    app: &App,
    store: &Store,
    job: Id,
    bore: Id,
    of: Id,
) -> Result<Vec<OilCheckBeside>, ApiError> {
    let mut checks: Vec<Recorded<OilCheck>> = repairs::oil_checks(store, job, bore)?;
    checks.retain(|check| check.body.repair == Some(of));
    if checks.is_empty() {
        return Ok(Vec::new());
    }
    let instruments: BTreeMap<Id, Instrument> = all::<Instrument>(store, Kind::Instrument)?
        .into_iter()
        .collect();
    let state = state_of(app, store, job, bore, Some(of), true)?;
    let mut beside = Vec::new();
    for check in checks {
        let figures = &check.body.figures;
        let answer = answer(app, &state, figures, &instruments)?;
        let points = figures.points.iter().zip(&answer.points);
        beside.push(OilCheckBeside {
            oil_check: check.id,
            by: by(store, &check.record)?,
            oil_temperature_k: figures.oil_temperature_k,
            verdict: answer.verdict,
            points: points
                .map(|(point, told)| OilPointBeside {
                    line_pa: point.line_pa,
                    feed_pa: point.feed_pa,
                    direction: point.direction,
                    expanded_uncertainty_pa: told.expanded_uncertainty_pa,
                    against_prediction: told.against_prediction,
                })
                .collect(),
        });
    }
    Ok(beside)
}
