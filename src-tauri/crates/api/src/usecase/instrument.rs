//! The shop's instruments and stands.

use model::bench::{Instrument, InstrumentKind, Stand};
use model::finding::{FindingCode, Severity};
use model::limits::Check;
use model::{Finding, Id, Kind};
use serde::Serialize;
use serde::de::DeserializeOwned;
use store::Store;

use crate::App;
use crate::dto::{
    InstrumentList, InstrumentOnRecord, InstrumentRecord, InstrumentRecorded, Nothing,
    StandOnRecord, StandRecord,
};
use crate::error::ApiError;
use crate::journal_io::{body, by, id, kind_name, lead, need, new_record, subject};
use crate::usecase::audit::undo_state;
use crate::usecase::job::changed;

/// All instruments and stands.
pub(crate) fn list(app: &App, _: Nothing) -> Result<InstrumentList, ApiError> {
    let store = app.store()?;
    let today = app.clock().today();
    let mut instruments = Vec::new();
    for (of, stands) in store.standing_of_kind(&kind_name(Kind::Instrument))? {
        let Some(record) = stands.lead() else {
            continue;
        };
        let Some(instrument) = body::<Instrument>(record) else {
            continue;
        };
        instruments.push(InstrumentOnRecord {
            id: id(of),
            overdue: instrument.calibration_due.is_some_and(|due| due < today),
            by: by(&store, record)?,
            findings: with_concurrent(instrument.findings(), stands.concurrent),
            instrument,
        });
    }
    instruments.sort_by(|a, b| (&a.instrument.name, a.id).cmp(&(&b.instrument.name, b.id)));
    let mut stands = Vec::new();
    for (of, standing) in store.standing_of_kind(&kind_name(Kind::Stand))? {
        let Some(record) = standing.lead() else {
            continue;
        };
        let Some(stand) = body::<Stand>(record) else {
            continue;
        };
        let gauge: Option<Instrument> = lead(&store, subject(stand.gauge), Kind::Instrument)?;
        stands.push(StandOnRecord {
            id: id(of),
            gauge_name: gauge.map(|gauge| gauge.name).unwrap_or_default(),
            by: by(&store, record)?,
            findings: with_concurrent(stand_findings(&store, &stand)?, standing.concurrent),
            stand,
        });
    }
    stands.sort_by(|a, b| (&a.stand.name, a.id).cmp(&(&b.stand.name, b.id)));
    Ok(InstrumentList {
        instruments,
        stands,
        today,
        undo: undo_state(&store)?,
    })
}

/// Records an instrument, or says what is odd about it.
pub(crate) fn record(app: &App, args: InstrumentRecord) -> Result<InstrumentRecorded, ApiError> {
    let findings = args.instrument.findings();
    keep(
        app,
        args.id,
        Kind::Instrument,
        &args.instrument,
        findings,
        args.dry_run,
    )
}

/// Records a stand, or says what is odd about it.
pub(crate) fn record_stand(app: &App, args: StandRecord) -> Result<InstrumentRecorded, ApiError> {
    let findings = stand_findings(&*app.store()?, &args.stand)?;
    keep(
        app,
        args.id,
        Kind::Stand,
        &args.stand,
        findings,
        args.dry_run,
    )
}

/// What is odd about a stand, its gauge included.
fn stand_findings(store: &Store, stand: &Stand) -> Result<Vec<Finding>, ApiError> {
    let mut findings = stand.findings();
    let gauge: Option<Instrument> = lead(store, subject(stand.gauge), Kind::Instrument)?;
    if gauge.is_none_or(|gauge| gauge.kind != InstrumentKind::VacuumGauge) {
        let code = FindingCode::Missing;
        findings.push(Finding::at(Severity::Wrong, code, "gauge"));
    }
    for (i, orifice) in stand.orifices.iter().enumerate() {
        let twice = stand.orifices[..i]
            .iter()
            .any(|other| other.label == orifice.label);
        if twice || orifice.label.trim().is_empty() {
            findings.push(Finding::at(
                Severity::Wrong,
                FindingCode::Missing,
                format!("orifices[{i}].label"),
            ));
        }
    }
    Ok(findings)
}

fn with_concurrent(mut findings: Vec<Finding>, concurrent: bool) -> Vec<Finding> {
    if concurrent {
        let code = FindingCode::ConcurrentEdit;
        findings.push(Finding::at(Severity::Doubt, code, ""));
    }
    findings
}

fn keep<T>(
    app: &App,
    of: Option<Id>,
    kind: Kind,
    value: &T,
    findings: Vec<Finding>,
    dry_run: bool,
) -> Result<InstrumentRecorded, ApiError>
where
    T: Serialize + DeserializeOwned + PartialEq,
{
    let mut store = app.store()?;
    let wrong = findings
        .iter()
        .any(|finding| finding.severity == Severity::Wrong);
    if dry_run || wrong {
        return Ok(InstrumentRecorded {
            saved: false,
            id: of,
            findings,
        });
    }
    let (of, record) = match of {
        Some(old) => {
            need::<T>(&store, subject(old), kind)?;
            (old, changed(&store, subject(old), kind, value)?)
        }
        None => {
            let new = store.new_subject(app.now())?;
            (id(new), Some(new_record(&store, new, kind, value)?))
        }
    };
    if let Some(record) = record {
        app.commit(&mut store, vec![record])?;
    }
    Ok(InstrumentRecorded {
        saved: true,
        id: Some(of),
        findings,
    })
}
