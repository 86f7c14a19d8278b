//! Pressures read at the taps of a job's unit.

use std::collections::BTreeMap;

use diagnosis::pressure::MeasuredBore;
use diagnosis::tap::{self, TapAnswer, TapEvidence};
use model::bench::{Instrument, InstrumentKind, Verdict};
use model::finding::{FindingCode, Severity};
use model::inspection::Occasion;
use model::job::Job;
use model::tap_reading::{TapFigures, TapReading};
use model::unit::{Circuit, Tap};
use model::{Finding, Id, Kind};
use store::{Store, StoredRecord};

use crate::App;
use crate::dto::{
    InstrumentEntry, TapBesideBore, TapEntry, TapRecord, TapRecorded, TapState, TapSummary,
    TapsGet, TapsView,
};
use crate::error::ApiError;
use crate::journal_io::{
    body, by, id, kind_name, lead, need, new_record, record_id, standing, subject,
};
use crate::usecase::audit::undo_state;
use crate::usecase::inspection::as_found;
use crate::usecase::job::{count, hazards_of, unit_name, unread};
use crate::usecase::repair;
use crate::usecase::shop::all;
use crate::{profiles, repairs};

/// A reading on record with its tap, if that is still in the profile.
pub(crate) struct ReadAtTap {
    pub record: StoredRecord,
    pub reading: TapReading,
    pub tap: Option<Tap>,
}

/// The readings of a job that stand, oldest first.
pub(crate) fn readings(store: &Store, job: Id) -> Result<Vec<ReadAtTap>, ApiError> {
    let mut found = Vec::new();
    for record in standing(store, subject(job), Kind::TapReading)?.records {
        if let Some(reading) = body::<TapReading>(&record) {
            let tap = lead(store, subject(reading.tap), Kind::Tap)?;
            found.push(ReadAtTap {
                record,
                reading,
                tap,
            });
        }
    }
    found.sort_by_key(|it| it.record.envelope().clock);
    Ok(found)
}

/// Of the readings that count after the last repair of a circuit, if there is one, the last of each
/// of its taps.
pub(crate) fn last_of_circuit(
    store: &Store,
    job: Id,
    circuit: Id,
    repaired: bool,
) -> Result<Vec<(Tap, TapFigures)>, ApiError> {
    let mut last = BTreeMap::new();
    for it in readings(store, job)? {
        let counts = !repaired || it.reading.figures.occasion == Occasion::AfterRepair;
        if let Some(tap) = it.tap
            && tap.circuit == circuit
            && counts
        {
            last.insert(it.reading.tap, (tap, it.reading.figures));
        }
    }
    Ok(last.into_values().collect())
}

/// The taps of a unit with their circuits' names, circuit by circuit.
fn taps_of_unit(store: &Store, unit: Id) -> Result<Vec<(Id, Tap, String)>, ApiError> {
    let mut found = Vec::new();
    for circuit in store.children(subject(unit), &kind_name(Kind::Circuit))? {
        let name = lead::<Circuit>(store, circuit, Kind::Circuit)?.map(|circuit| circuit.name);
        let name = name.unwrap_or_default();
        for tap in store.children(circuit, &kind_name(Kind::Tap))? {
            if let Some(body) = lead::<Tap>(store, tap, Kind::Tap)? {
                found.push((id(tap), body, name.clone()));
            }
        }
    }
    Ok(found)
}

/// How the taps of a job stand.
pub(crate) fn summary(store: &Store, job: Id, unit: Id) -> Result<TapSummary, ApiError> {
    let all_readings = readings(store, job)?;
    let instruments: BTreeMap<Id, Instrument> = if all_readings.is_empty() {
        BTreeMap::new()
    } else {
        all::<Instrument>(store, Kind::Instrument)?
            .into_iter()
            .collect()
    };
    let mut last = BTreeMap::new();
    for it in &all_readings {
        if let Some(tap) = &it.tap {
            let answer = answer(tap, &it.reading.figures, &instruments, None)?;
            last.insert(it.reading.tap, answer.verdict);
        }
    }
    let are = |verdict| count(last.values().filter(|it| **it == Some(verdict)).count());
    Ok(TapSummary {
        taps: count(taps_of_unit(store, unit)?.len()),
        readings: count(all_readings.len()),
        outside: are(Verdict::OutsideLimit),
        too_close: are(Verdict::TooCloseToCall),
    })
}

fn evidence<'a>(
    tap: &'a Tap,
    figures: &'a TapFigures,
    instruments: &'a BTreeMap<Id, Instrument>,
    today: Option<chrono::NaiveDate>,
) -> TapEvidence<'a> {
    let named = |id: Option<Id>| id.and_then(|id| instruments.get(&id));
    TapEvidence {
        tap,
        figures,
        gauge: named(figures.gauge),
        line_gauge: named(figures.line_gauge),
        today,
    }
}

pub(crate) fn answer(
    tap: &Tap,
    figures: &TapFigures,
    instruments: &BTreeMap<Id, Instrument>,
    today: Option<chrono::NaiveDate>,
) -> Result<TapAnswer, ApiError> {
    tap::against_window(&evidence(tap, figures, instruments, today)).map_err(ApiError::internal)
}

/// A reading beside the first bore of its circuit of which the model can say anything.
fn beside(
    app: &App,
    store: &Store,
    job: Id,
    of: &TapEvidence<'_>,
) -> Result<Option<TapBesideBore>, ApiError> {
    if of.figures.line_pa.is_none() || of.figures.oil_temperature_k.is_none() {
        return Ok(None);
    }
    for bore in store.children(subject(of.tap.circuit), &kind_name(Kind::Bore))? {
        let bore = id(bore);
        // A reading before a repair says nothing of what it left.
        let known = repairs::of_bore(store, job, bore)?;
        if !known.is_empty() && of.figures.occasion != Occasion::AfterRepair {
            continue;
        }
        let found = as_found(app, store, job, bore)?;
        let (profile, seals) = match (found.seals, known.last()) {
            (Some(seals), _) => (found.profile, Some(seals)),
            // Not tested since its repair: what that should have left.
            (None, Some(last)) => repair::left(app, store, job, bore, last.id)?,
            (None, None) => continue,
        };
        let Some(seals) = &seals else { continue };
        let measured = MeasuredBore::as_profile(&profile);
        let against = tap::against_leak(of, &profile, &measured, seals);
        if let Some(against) = against.map_err(ApiError::internal)? {
            return Ok(Some(TapBesideBore {
                bore,
                bore_name: profile.bore.name,
                verdict: against.verdict,
                predicted_pa: against.predicted_pa,
                expanded_uncertainty_pa: against.expanded_uncertainty_pa,
            }));
        }
    }
    Ok(None)
}

/// The taps of a job's unit with what was read there.
pub(crate) fn get(app: &App, args: TapsGet) -> Result<TapsView, ApiError> {
    let store = app.store()?;
    view(app, &store, args.job)
}

pub(crate) fn view(app: &App, store: &Store, job_id: Id) -> Result<TapsView, ApiError> {
    let job: Job = need(store, subject(job_id), Kind::Job)?;
    let today = app.clock().today();
    let instruments: BTreeMap<Id, Instrument> = all::<Instrument>(store, Kind::Instrument)?
        .into_iter()
        .collect();
    let mut taps: Vec<TapState> = taps_of_unit(store, job.unit)?
        .into_iter()
        .map(|(tap, body, circuit_name)| TapState {
            tap,
            body: Some(body),
            circuit_name,
            readings: Vec::new(),
        })
        .collect();
    for it in readings(store, job_id)? {
        let answer = match &it.tap {
            Some(tap) => Some(answer(tap, &it.reading.figures, &instruments, Some(today))?),
            None => None,
        };
        let entry = TapEntry {
            record: record_id(it.record.id()),
            by: by(store, &it.record)?,
            figures: it.reading.figures,
            answer,
            beside: None,
        };
        match taps.iter_mut().find(|tap| tap.tap == it.reading.tap) {
            Some(tap) => tap.readings.push(entry),
            None => taps.push(TapState {
                tap: it.reading.tap,
                body: it.tap,
                circuit_name: String::new(),
                readings: vec![entry],
            }),
        }
    }
    for tap in &mut taps {
        if let (Some(body), Some(last)) = (&tap.body, tap.readings.last_mut()) {
            let of = evidence(body, &last.figures, &instruments, None);
            let told = beside(app, store, job_id, &of)?;
            last.beside = told;
        }
    }
    let mut occasion = Occasion::AsFound;
    for bore in profiles::bores_of_unit(store, job.unit)? {
        if !repairs::of_bore(store, job_id, bore)?.is_empty() {
            occasion = Occasion::AfterRepair;
        }
    }
    Ok(TapsView {
        job: job_id,
        job_number: job.number,
        unit: job.unit,
        unit_name: unit_name(store, job.unit)?,
        taps,
        instruments: pressure_instruments(instruments, today, &[InstrumentKind::PressureGauge]),
        car_hazards: hazards_of(store, subject(job_id), &model::caution::CAR_HAZARDS)?,
        bench_hazards: hazards_of(
            store,
            subject(job_id),
            &model::caution::BENCH_PRESSURE_HAZARDS,
        )?,
        occasion,
        undo: undo_state(store)?,
    })
}

/// The instruments of some kinds.
pub(super) fn pressure_instruments(
    instruments: BTreeMap<Id, Instrument>,
    today: chrono::NaiveDate,
    kinds: &[InstrumentKind],
) -> Vec<InstrumentEntry> {
    instruments
        .into_iter()
        .filter(|(_, instrument)| kinds.contains(&instrument.kind))
        .map(|(id, instrument)| InstrumentEntry {
            id,
            overdue: instrument.calibration_due.is_some_and(|due| due < today),
            instrument,
        })
        .collect()
}

/// Records a reading, or says what it would give. None goes on record before the cautions of its
/// place were read.
pub(crate) fn record(app: &App, args: TapRecord) -> Result<TapRecorded, ApiError> {
    let mut store = app.store()?;
    let of = subject(args.job);
    need::<Job>(&store, of, Kind::Job)?;
    let tap: Tap = need(&store, subject(args.tap), Kind::Tap)?;
    let today = Some(app.clock().today());
    let instruments: BTreeMap<Id, Instrument> = all::<Instrument>(&store, Kind::Instrument)?
        .into_iter()
        .collect();
    let mut answer = answer(&tap, &args.figures, &instruments, today)?;
    if unread(&store, of, args.figures.place.hazards())? {
        let code = FindingCode::CautionUnread;
        answer
            .findings
            .push(Finding::at(Severity::Wrong, code, "place"));
    }
    let forbidden = answer
        .findings
        .iter()
        .any(|finding| finding.severity == Severity::Wrong);
    let beside = beside(
        app,
        &store,
        args.job,
        &evidence(&tap, &args.figures, &instruments, None),
    )?;
    if args.dry_run || forbidden {
        return Ok(TapRecorded {
            saved: false,
            answer,
            beside,
        });
    }
    let reading = TapReading {
        tap: args.tap,
        figures: args.figures,
    };
    let new = new_record(&store, of, Kind::TapReading, &reading)?;
    app.commit(&mut store, vec![new])?;
    Ok(TapRecorded {
        saved: true,
        answer,
        beside,
    })
}
