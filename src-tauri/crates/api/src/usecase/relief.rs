//! The relief of a bore's circuit, checked within a job.

use diagnosis::pressure::SealEvidence;
use model::finding::Severity;
use model::job::Job;
use model::relief_check::{ReliefCheck, ReliefFigures, ReliefPresence};
use model::unit::{Bore, BoreProfile};
use model::{Id, Kind};
use store::Store;

use crate::dto::{ReadBy, ReliefGet, ReliefRecord, ReliefRecorded, ReliefView};
use crate::error::ApiError;
use crate::journal_io::{by, need, new_record, subject};
use crate::usecase::audit::undo_state;
use crate::usecase::job::{changed, hazards, tests_of_bore};
use crate::usecase::test::judged;
use crate::{App, profiles, repairs};

/// The check of a bore's relief.
pub(crate) fn get(app: &App, args: ReliefGet) -> Result<ReliefView, ApiError> {
    let store = app.store()?;
    view(app, &store, args.job, args.bore, None)
}

/// Records a check, or says what it would give.
pub(crate) fn record(app: &App, args: ReliefRecord) -> Result<ReliefRecorded, ApiError> {
    let mut store = app.store()?;
    let tried = view(app, &store, args.job, args.bore, Some(args.figures.clone()))?;
    let forbidden = tried
        .answer
        .findings
        .iter()
        .any(|finding| finding.severity == Severity::Wrong);
    if args.dry_run || forbidden {
        return Ok(ReliefRecorded {
            saved: false,
            view: tried,
        });
    }
    let check = ReliefCheck {
        job: args.job,
        bore: args.bore,
        figures: args.figures,
    };
    let record = match repairs::relief_check(&store, args.job, args.bore)? {
        Some(old) => changed(&store, subject(old.id), Kind::ReliefCheck, &check)?,
        None => {
            let of = store.new_subject(app.now())?;
            Some(new_record(&store, of, Kind::ReliefCheck, &check)?)
        }
    };
    if let Some(record) = record {
        app.commit(&mut store, vec![record])?;
    }
    Ok(ReliefRecorded {
        saved: true,
        view: view(app, &store, args.job, args.bore, None)?,
    })
}

/// The check on record, or what `entered` would give.
pub(crate) fn view(
    app: &App,
    store: &Store,
    job_id: Id,
    bore_id: Id,
    entered: Option<ReliefFigures>,
) -> Result<ReliefView, ApiError> {
    let job: Job = need(store, subject(job_id), Kind::Job)?;
    need::<Bore>(store, subject(bore_id), Kind::Bore)?;
    let profile = profiles::bore(store, bore_id)?;
    let on_record = repairs::relief_check(store, job_id, bore_id)?;
    let recorded_by: Option<ReadBy> = on_record
        .as_ref()
        .map(|check| by(store, &check.record))
        .transpose()?;
    let figures = entered
        .or(on_record.map(|check| check.body.figures))
        .unwrap_or_else(|| suggested(&profile));
    let now = repairs::profile_after(
        store,
        job_id,
        bore_id,
        &repairs::of_bore(store, job_id, bore_id)?,
    )?;
    let seals = last_judged(app, store, job_id, bore_id)?;
    let answer =
        diagnosis::relief::check(&now, &figures, seals.as_ref()).map_err(ApiError::internal)?;
    Ok(ReliefView {
        job: job_id,
        job_number: job.number,
        bore: bore_id,
        bore_name: profile.bore.name,
        circuit_name: profile.circuit.name,
        in_profile: profile.relief.is_some(),
        figures,
        by: recorded_by,
        answer,
        hazards: hazards(store, subject(job_id))?,
        undo: undo_state(store)?,
    })
}

/// The profile's relief, or an empty one that is to be added.
fn suggested(profile: &BoreProfile) -> ReliefFigures {
    profile.relief.as_ref().map_or_else(
        || ReliefFigures {
            presence: ReliefPresence::ToBeAdded,
            ..ReliefFigures::default()
        },
        ReliefFigures::of,
    )
}

/// What the last test of the bore in this job that knows its leak says of the seals.
fn last_judged(
    app: &App,
    store: &Store,
    job: Id,
    bore: Id,
) -> Result<Option<SealEvidence>, ApiError> {
    for test in tests_of_bore(store, job, bore)?.into_iter().rev() {
        if test.readings == 0 {
            continue;
        }
        if let Some(seals) = judged(app, store, test.test)?.seals {
            return Ok(Some(seals));
        }
    }
    Ok(None)
}
