//! The machining sheet of a bore: made from an option or from nothing, measured on the way, signed.

use diagnosis::machining::{answer, proposed};
use diagnosis::options::options;
use model::bench::InstrumentKind;
use model::caution::MACHINING_HAZARDS;
use model::finding::{FindingCode, Severity};
use model::job::Job;
use model::machining::{Machining, MachiningSheet, MachiningSignOff};
use model::unit::Bore;
use model::{Finding, Id, Kind};
use store::Store;

use crate::dto::{
    InstrumentEntry, MachiningGet, MachiningPropose, MachiningRecord, MachiningRecorded,
    MachiningSign, MachiningView, OptionsList,
};
use crate::error::ApiError;
use crate::journal_io::{by, need, new_record, standing, subject};
use crate::repairs::{self, Recorded};
use crate::usecase::audit::undo_state;
use crate::usecase::job::{changed, hazards_of};
use crate::usecase::options::with_evidence;
use crate::usecase::{inspection, repair};
use crate::{App, profiles};

/// The sheet on record, or one to begin with.
pub(crate) fn get(app: &App, args: MachiningGet) -> Result<MachiningView, ApiError> {
    let store = app.store()?;
    view(app, &store, args.job, args.bore, None)
}

/// A sheet filled in from an option.
pub(crate) fn propose(app: &App, args: MachiningPropose) -> Result<MachiningSheet, ApiError> {
    let store = app.store()?;
    need::<Job>(&store, subject(args.job), Kind::Job)?;
    need::<Bore>(&store, subject(args.bore), Kind::Bore)?;
    let option = args.way.option();
    let asked = OptionsList {
        job: args.job,
        bore: args.bore,
        figures: args.figures,
    };
    let (_, found) = with_evidence(app, &store, &asked, |evidence| {
        let told = options(evidence)?;
        let of_this_way = told.options.iter().find(|outlook| {
            let work = outlook.work.as_ref();
            work.is_some_and(|work| work.option == option)
        });
        Ok(of_this_way.and_then(|outlook| proposed(evidence, outlook)))
    })?;
    let found: Option<MachiningSheet> =
        found.map_err(|error: diagnosis::DiagnosisError| ApiError::internal(error))?;
    Ok(found.unwrap_or_else(|| MachiningSheet {
        way: args.way,
        ..MachiningSheet::default()
    }))
}

/// Records a sheet, or says what it would give.
pub(crate) fn record(app: &App, args: MachiningRecord) -> Result<MachiningRecorded, ApiError> {
    let mut store = app.store()?;
    let tried = view(app, &store, args.job, args.bore, Some(&args.sheet))?;
    let forbidden = tried
        .answer
        .findings
        .iter()
        .any(|finding| finding.severity == Severity::Wrong);
    if args.dry_run || forbidden {
        return Ok(MachiningRecorded {
            saved: false,
            view: tried,
        });
    }
    let machining = Machining {
        job: args.job,
        bore: args.bore,
        sheet: args.sheet,
        signed: None,
    };
    let on_record = of_bore(&store, args.job, args.bore)?;
    // The very sheet that was signed stays signed.
    let same = on_record
        .as_ref()
        .is_some_and(|known| known.body.sheet == machining.sheet);
    if !same {
        put(app, &mut store, on_record.as_ref(), &machining)?;
    }
    Ok(MachiningRecorded {
        saved: true,
        view: view(app, &store, args.job, args.bore, None)?,
    })
}

/// Signs the sheet on record.
pub(crate) fn sign(app: &App, args: MachiningSign) -> Result<MachiningRecorded, ApiError> {
    let mut store = app.store()?;
    let Some(on_record) = of_bore(&store, args.job, args.bore)? else {
        return Err(ApiError::not_found("machining", args.bore));
    };
    let mut tried = view(app, &store, args.job, args.bore, None)?;
    if tried.hazards.iter().any(|hazard| hazard.read.is_none()) {
        let code = FindingCode::CautionsUnread;
        let found = Finding::at(Severity::Wrong, code, "hazards");
        tried.answer.findings.push(found);
    }
    let forbidden = tried
        .answer
        .findings
        .iter()
        .any(|finding| finding.severity == Severity::Wrong);
    if forbidden {
        return Ok(MachiningRecorded {
            saved: false,
            view: tried,
        });
    }
    let signed = MachiningSignOff {
        note: args.note,
        ..tried.answer.open
    };
    let machining = Machining {
        signed: Some(signed),
        ..on_record.body.clone()
    };
    put(app, &mut store, Some(&on_record), &machining)?;
    Ok(MachiningRecorded {
        saved: true,
        view: view(app, &store, args.job, args.bore, None)?,
    })
}

fn put(
    app: &App,
    store: &mut Store,
    on_record: Option<&Recorded<Machining>>,
    machining: &Machining,
) -> Result<(), ApiError> {
    let record = match on_record {
        Some(known) => changed(store, subject(known.id), Kind::Machining, machining)?,
        None => {
            let of = store.new_subject(app.now())?;
            Some(new_record(store, of, Kind::Machining, machining)?)
        }
    };
    if let Some(record) = record {
        app.commit(store, vec![record])?;
    }
    Ok(())
}

/// The sheet of a bore in a job; of two that were begun apart the later one.
pub(crate) fn of_bore(
    store: &Store,
    job: Id,
    bore: Id,
) -> Result<Option<Recorded<Machining>>, ApiError> {
    let is_here = |machining: &Machining| machining.bore == bore;
    Ok(repairs::of_job(store, job, Kind::Machining, is_here)?.pop())
}

/// The sheet on record, or what `entered` would give.
pub(crate) fn view(
    app: &App,
    store: &Store,
    job_id: Id,
    bore_id: Id,
    entered: Option<&MachiningSheet>,
) -> Result<MachiningView, ApiError> {
    let job: Job = need(store, subject(job_id), Kind::Job)?;
    need::<Bore>(store, subject(bore_id), Kind::Bore)?;
    let as_new = profiles::bore(store, bore_id)?;
    let on_record = of_bore(store, job_id, bore_id)?;
    let recorded_by = on_record
        .as_ref()
        .map(|known| by(store, &known.record))
        .transpose()?;
    let sheet = match (entered, &on_record) {
        (Some(entered), _) => entered.clone(),
        (None, Some(known)) => known.body.sheet.clone(),
        (None, None) => begun(app, store, job_id, bore_id)?,
    };
    let instruments = inspection::shops_instruments(store)?;
    let today = Some(app.clock().today());
    let mut told = answer(&as_new, &sheet, &instruments, today).map_err(ApiError::internal)?;
    let planned = repair::foreseen(app, store, job_id, bore_id, &told.planned)?;
    let machined = told
        .machined
        .as_ref()
        .map(|work| repair::foreseen(app, store, job_id, bore_id, work))
        .transpose()?;
    if let Some(known) = &on_record
        && standing(store, subject(known.id), Kind::Machining)?.concurrent
    {
        let code = FindingCode::ConcurrentEdit;
        told.findings.push(Finding::at(Severity::Doubt, code, ""));
    }
    let measures_lengths = |kind| {
        matches!(
            kind,
            InstrumentKind::Micrometer | InstrumentKind::BoreGauge | InstrumentKind::PinGauges
        )
    };
    let mut at_hand: Vec<_> = instruments
        .into_iter()
        .filter(|(_, instrument)| measures_lengths(instrument.kind))
        .map(|(id, instrument)| InstrumentEntry {
            id,
            overdue: instrument
                .calibration_due
                .is_some_and(|due| today.is_some_and(|today| due < today)),
            instrument,
        })
        .collect();
    at_hand.sort_by(|a, b| (&a.instrument.name, a.id).cmp(&(&b.instrument.name, b.id)));
    let unchanged = entered.is_none_or(|entered| {
        let known = on_record.as_ref();
        known.is_some_and(|known| known.body.sheet == *entered)
    });
    Ok(MachiningView {
        id: on_record.as_ref().map(|known| known.id),
        job: job_id,
        job_number: job.number,
        bore: bore_id,
        bore_name: as_new.bore.name.clone(),
        by: recorded_by,
        signed: on_record
            .filter(|_| unchanged)
            .and_then(|known| known.body.signed),
        sheet,
        answer: told,
        planned,
        machined,
        instruments: at_hand,
        hazards: hazards_of(store, subject(job_id), &MACHINING_HAZARDS)?,
        undo: undo_state(store)?,
    })
}

/// A sheet that nobody filled in: what the inspection measured of the bore.
fn begun(app: &App, store: &Store, job: Id, bore: Id) -> Result<MachiningSheet, ApiError> {
    let measured = inspection::measured_of(app, store, job, bore)?.parts;
    let found = measured.clearance.map(|found| found.bore_m);
    Ok(MachiningSheet {
        start_smallest_m: found.map(|bore| bore.low),
        start_largest_m: found.map(|bore| bore.high),
        ..MachiningSheet::default()
    })
}
