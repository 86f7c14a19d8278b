//! What is agreed in a job and handed over with it: estimate, authorisation, fitted parts,
//! warranty, sign-off.

mod comeback;
mod open;

use journal::SubjectId;
use model::authorisation::{Authorisation, Covers};
use model::estimate::Estimate;
use model::finding::{FindingCode, Severity};
use model::fitted_part::FittedPart;
use model::job::Job;
use model::limits::Check;
use model::shop_part::ShopPart;
use model::sign_off::SignOff;
use model::unit::Bore;
use model::{Finding, Id, Kind};
use serde::Serialize;
use serde::de::DeserializeOwned;
use store::{Store, StoredRecord};

pub(crate) use comeback::{record_comeback, suggest};

use crate::App;
use crate::app::to_json;
use crate::dto::{
    Agreed, AuthorisationOnRecord, AuthorisationRecord, AuthorisationState, BoreEntry,
    EstimateOnRecord, EstimateRecord, EstimateRecorded, FittedEntry, FittedRecord, FittedRemove,
    HANDOVER_KINDS, HandoverBrief, HandoverGet, HandoverRecorded, HandoverView, ShopTerms,
    SignOffOnRecord, SignOffRecord, WarrantyOnRecord, WarrantyRecord,
};
use crate::error::{ApiError, ErrorCode};
use crate::journal_io::{
    body, by, id, kind_name, lead, need, new_record, record_id, standing, subject,
};
use crate::profiles;
use crate::usecase::audit::undo_state;
use crate::usecase::erasure::taken_by;
use crate::usecase::job::{changed, count};

/// Key of the setting that holds what this device proposes.
const TERMS: &str = "shop_terms";

/// What is agreed in a job.
pub(crate) fn get(app: &App, args: HandoverGet) -> Result<HandoverView, ApiError> {
    view(&*app.store()?, args.job)
}

pub(crate) fn view(store: &Store, job_id: Id) -> Result<HandoverView, ApiError> {
    let of = subject(job_id);
    let job: Job = need(store, of, Kind::Job)?;
    let mut findings = Vec::new();
    for kind in HANDOVER_KINDS {
        if standing(store, of, kind)?.concurrent {
            findings.push(Finding::at(
                Severity::Doubt,
                FindingCode::ConcurrentEdit,
                kind.name().trim_start_matches("job."),
            ));
        }
    }
    let estimate = estimate(store, of)?;
    let authorisation = authorisation(store, of, estimate.as_ref())?;
    Ok(HandoverView {
        job: job_id,
        bores: bores(store, job.unit)?,
        fitted: fitted(store, of)?,
        warranty: on_record(store, of, Kind::JobWarranty)?
            .map(|(record, warranty)| {
                let by = by(store, &record)?;
                Ok::<_, ApiError>(WarrantyOnRecord { warranty, by })
            })
            .transpose()?,
        sign_off: sign_off(store, of)?,
        open: open::items(store, job_id, &job, estimate.as_ref(), &authorisation)?,
        comeback: comeback::of_job(store, job_id)?,
        came_back: comeback::of_earlier(store, job_id)?,
        terms: terms(store)?,
        undo: undo_state(store)?,
        job_number: job.number,
        estimate,
        authorisation,
        findings,
    })
}

/// What the job's page tells of it.
pub(crate) fn brief(store: &Store, job_id: Id, job: &Job) -> Result<HandoverBrief, ApiError> {
    let of = subject(job_id);
    let estimate = estimate(store, of)?;
    let authorisation = authorisation(store, of, estimate.as_ref())?;
    let signed = sign_off(store, of)?;
    let comeback = comeback::of_job(store, job_id)?;
    let changed_since = signed
        .as_ref()
        .is_some_and(|it| !it.added_since.is_empty() || !it.gone_since.is_empty());
    Ok(HandoverBrief {
        total_minor: estimate.as_ref().map(|it| it.sums.total_minor),
        decimals: estimate.as_ref().map_or(0, |it| it.estimate.decimals),
        open: count(open::items(store, job_id, job, estimate.as_ref(), &authorisation)?.len()),
        currency: estimate.map(|it| it.estimate.currency).unwrap_or_default(),
        agreed: match &authorisation {
            AuthorisationState::NotGiven => Agreed::NotYet,
            AuthorisationState::NotHere { .. } | AuthorisationState::Erased { .. } => {
                Agreed::NotHere
            }
            AuthorisationState::Given(given)
                if given.estimate_changed
                    || given.covers.is_some_and(|covers| covers != Covers::Within) =>
            {
                Agreed::NotCovered
            }
            AuthorisationState::Given(_) => Agreed::Covered,
        },
        fitted: count(store.children(of, &kind_name(Kind::JobFitted))?.len()),
        warranty: standing(store, of, Kind::JobWarranty)?.lead().is_some(),
        signed: signed.map(|it| it.sign_off.signed_by),
        changed_since,
        comeback_of: comeback
            .map(|it| it.earlier.map(|earlier| earlier.number).unwrap_or_default()),
        came_back: count(comeback::of_earlier(store, job_id)?.len()),
    })
}

/// The record that leads, with its body.
fn on_record<T: DeserializeOwned>(
    store: &Store,
    of: SubjectId,
    kind: Kind,
) -> Result<Option<(StoredRecord, T)>, ApiError> {
    let stands = standing(store, of, kind)?;
    Ok(stands
        .lead()
        .and_then(|record| Some((record.clone(), body(record)?))))
}

fn bores(store: &Store, unit: Id) -> Result<Vec<BoreEntry>, ApiError> {
    let mut found = Vec::new();
    for bore in profiles::bores_of_unit(store, unit)? {
        if let Some(body) = lead::<Bore>(store, subject(bore), Kind::Bore)? {
            found.push(BoreEntry {
                id: bore,
                name: body.name,
            });
        }
    }
    Ok(found)
}

pub(crate) fn estimate(store: &Store, of: SubjectId) -> Result<Option<EstimateOnRecord>, ApiError> {
    let Some((record, estimate)) = on_record::<Estimate>(store, of, Kind::JobEstimate)? else {
        return Ok(None);
    };
    Ok(Some(EstimateOnRecord {
        record: record_id(record.id()),
        sums: estimate.sums(),
        by: by(store, &record)?,
        estimate,
    }))
}

pub(crate) fn authorisation(
    store: &Store,
    of: SubjectId,
    estimate: Option<&EstimateOnRecord>,
) -> Result<AuthorisationState, ApiError> {
    let stands = standing(store, of, Kind::JobAuthorisation)?;
    let Some(record) = stands.lead() else {
        return Ok(AuthorisationState::NotGiven);
    };
    if let Some(authorisation) = body::<Authorisation>(record) {
        return Ok(AuthorisationState::Given(Box::new(AuthorisationOnRecord {
            estimate_changed: estimate.is_some_and(|it| it.record != authorisation.estimate),
            covers: estimate.map(|it| authorisation.covers(&it.estimate)),
            by: by(store, record)?,
            authorisation,
        })));
    }
    Ok(match taken_by(store, record)? {
        Some(erasure) => AuthorisationState::Erased {
            by: by(store, &erasure)?,
        },
        None => AuthorisationState::NotHere {
            by: by(store, record)?,
        },
    })
}

pub(crate) fn fitted(store: &Store, job: SubjectId) -> Result<Vec<FittedEntry>, ApiError> {
    let mut found = Vec::new();
    for of in store.children(job, &kind_name(Kind::JobFitted))? {
        let Some((record, part)) = on_record::<FittedPart>(store, of, Kind::JobFitted)? else {
            continue;
        };
        let listed: Option<ShopPart> = match part.shop_part {
            Some(listed) => lead(store, subject(listed), Kind::ShopPart)?,
            None => None,
        };
        found.push(FittedEntry {
            fitted: id(of),
            shop_part_name: listed.map(|listed| listed.name),
            by: by(store, &record)?,
            part,
        });
    }
    // Subjects are numbered as they are made.
    found.sort_by_key(|entry| entry.fitted);
    Ok(found)
}

pub(crate) fn sign_off(store: &Store, of: SubjectId) -> Result<Option<SignOffOnRecord>, ApiError> {
    let Some((record, sign_off)) = on_record::<SignOff>(store, of, Kind::JobSignOff)? else {
        return Ok(None);
    };
    let (added_since, gone_since) = open::changed_since(store, of, &sign_off)?;
    Ok(Some(SignOffOnRecord {
        by: by(store, &record)?,
        sign_off,
        added_since,
        gone_since,
    }))
}

fn terms(store: &Store) -> Result<ShopTerms, ApiError> {
    let kept = store.setting(TERMS)?;
    Ok(kept
        .and_then(|json| serde_json::from_str(&json).ok())
        .unwrap_or_default())
}

fn keep_terms(store: &mut Store, change: impl FnOnce(&mut ShopTerms)) -> Result<(), ApiError> {
    let mut kept = terms(store)?;
    change(&mut kept);
    Ok(store.put_setting(TERMS, &to_json(&kept)?)?)
}

fn is_wrong(findings: &[Finding]) -> bool {
    findings.iter().any(|it| it.severity == Severity::Wrong)
}

/// Puts one part of the job on record, unless a finding forbids it or it says the same already.
fn put<T>(
    app: &App,
    store: &mut Store,
    job: Id,
    kind: Kind,
    value: &T,
    findings: Vec<Finding>,
) -> Result<HandoverRecorded, ApiError>
where
    T: Serialize + DeserializeOwned + PartialEq,
{
    let of = subject(job);
    need::<Job>(store, of, Kind::Job)?;
    let saved = !is_wrong(&findings);
    if saved && let Some(record) = changed(store, of, kind, value)? {
        app.commit(store, vec![record])?;
    }
    Ok(HandoverRecorded {
        saved,
        findings,
        view: view(store, job)?,
    })
}

/// Records an estimate, or works it out.
pub(crate) fn record_estimate(
    app: &App,
    args: EstimateRecord,
) -> Result<EstimateRecorded, ApiError> {
    let mut store = app.store()?;
    let of = subject(args.job);
    need::<Job>(&store, of, Kind::Job)?;
    let findings = args.estimate.findings();
    let saved = !args.dry_run && !is_wrong(&findings);
    if saved {
        if let Some(record) = changed(&store, of, Kind::JobEstimate, &args.estimate)? {
            app.commit(&mut store, vec![record])?;
        }
        if args.keep_terms {
            keep_terms(&mut store, |kept| {
                kept.currency.clone_from(&args.estimate.currency);
                kept.decimals = Some(args.estimate.decimals);
                kept.tax.clone_from(&args.estimate.tax);
            })?;
        }
    }
    Ok(EstimateRecorded {
        saved,
        sums: args.estimate.sums(),
        findings,
    })
}

/// Records an authorisation.
///
/// # Errors
/// [`ErrorCode::NotFound`] unless it names a record of this job's estimate.
pub(crate) fn record_authorisation(
    app: &App,
    args: AuthorisationRecord,
) -> Result<HandoverRecorded, ApiError> {
    let mut store = app.store()?;
    let named = args.authorisation.estimate;
    let is_estimate = store.records_of(subject(args.job))?.iter().any(|entry| {
        record_id(entry.stored.id()) == named
            && entry.stored.envelope().kind == kind_name(Kind::JobEstimate)
    });
    if !is_estimate {
        return Err(ApiError::not_found("estimate", named));
    }
    let findings = args.authorisation.findings();
    let (job, kind) = (args.job, Kind::JobAuthorisation);
    put(app, &mut store, job, kind, &args.authorisation, findings)
}

/// Records a fitted part.
pub(crate) fn record_fitted(app: &App, args: FittedRecord) -> Result<HandoverRecorded, ApiError> {
    let mut store = app.store()?;
    let part = args.part;
    let job = part.job;
    need::<Job>(&store, subject(job), Kind::Job)?;
    if let Some(bore) = part.bore {
        need::<Bore>(&store, subject(bore), Kind::Bore)?;
    }
    if let Some(listed) = part.shop_part {
        need::<ShopPart>(&store, subject(listed), Kind::ShopPart)?;
    }
    let findings = part.findings();
    let saved = !is_wrong(&findings);
    if saved {
        let record = match args.fitted {
            Some(old) => {
                let known: FittedPart = need(&store, subject(old), Kind::JobFitted)?;
                if known.job != job {
                    return Err(ApiError::new(ErrorCode::BadRequest).at("fitted"));
                }
                changed(&store, subject(old), Kind::JobFitted, &part)?
            }
            None => {
                let new = store.new_subject(app.now())?;
                Some(new_record(&store, new, Kind::JobFitted, &part)?)
            }
        };
        if let Some(record) = record {
            app.commit(&mut store, vec![record])?;
        }
    }
    Ok(HandoverRecorded {
        saved,
        findings,
        view: view(&store, job)?,
    })
}

/// Takes a fitted part off the record.
pub(crate) fn remove_fitted(app: &App, args: FittedRemove) -> Result<HandoverView, ApiError> {
    let mut store = app.store()?;
    let of = subject(args.fitted);
    let part: FittedPart = need(&store, of, Kind::JobFitted)?;
    if store.is_removed(of)? != Some(true) {
        let removal = new_record(&store, of, Kind::Removal, &crate::table::DONE)?;
        app.commit(&mut store, vec![removal])?;
    }
    view(&store, part.job)
}

/// Records warranty terms.
pub(crate) fn record_warranty(
    app: &App,
    args: WarrantyRecord,
) -> Result<HandoverRecorded, ApiError> {
    let mut store = app.store()?;
    let findings = args.warranty.findings();
    if args.keep_terms && !is_wrong(&findings) {
        keep_terms(&mut store, |kept| {
            kept.warranty = Some(args.warranty.clone())
        })?;
    }
    let (job, kind) = (args.job, Kind::JobWarranty);
    put(app, &mut store, job, kind, &args.warranty, findings)
}

/// A job's sign-off as it would be written now: what is open, and the records that stand.
///
/// # Errors
/// [`ApiError`] when the job isn't there.
pub fn sign_off_of(
    store: &Store,
    job_id: Id,
    signed_by: String,
    statement: String,
) -> Result<SignOff, ApiError> {
    let of = subject(job_id);
    let job: Job = need(store, of, Kind::Job)?;
    let estimate = estimate(store, of)?;
    let authorisation = authorisation(store, of, estimate.as_ref())?;
    Ok(SignOff {
        signed_by,
        statement,
        open: open::items(store, job_id, &job, estimate.as_ref(), &authorisation)?,
        records: open::records(store, of)?.into_keys().collect(),
    })
}

/// Signs a job off, if what is open is what the signer saw.
pub(crate) fn sign(app: &App, args: SignOffRecord) -> Result<HandoverRecorded, ApiError> {
    let mut store = app.store()?;
    let now = view(&store, args.job)?;
    let sign_off = sign_off_of(&store, args.job, args.signed_by, args.statement)?;
    let findings = sign_off.findings();
    if args.open != now.open {
        return Ok(HandoverRecorded {
            saved: false,
            findings,
            view: now,
        });
    }
    let kind = Kind::JobSignOff;
    put(app, &mut store, args.job, kind, &sign_off, findings)
}
