//! What was agreed and handed over, as the report has it.

use model::Kind;
use model::sign_off::OpenItem;
use model::unit::Bore;
use report::{
    AuthorisationShown, EstimateShown, FittedShown, Handover, OpenShown, Recorded, SignOffShown,
};
use store::Store;

use super::recorded;
use crate::dto::AuthorisationState;
use crate::error::{ApiError, ErrorCode};
use crate::journal_io::{lead, standing, subject};
use crate::usecase::handover::view;

/// Of a job; what the customer agreed to only if `personal`.
pub(super) fn of_job(store: &Store, job: model::Id, personal: bool) -> Result<Handover, ApiError> {
    let of = view(store, job)?;
    let by = |at: model::Id, kind: Kind| -> Result<Recorded, ApiError> {
        let stands = standing(store, subject(at), kind)?;
        let record = stands.lead();
        recorded(
            store,
            record.ok_or_else(|| ApiError::new(ErrorCode::NotFound))?,
        )
    };
    let mut fitted = Vec::new();
    for entry in of.fitted {
        fitted.push(FittedShown {
            bore: entry
                .part
                .bore
                .map(|bore| bore_name(store, bore))
                .transpose()?,
            recorded: by(entry.fitted, Kind::JobFitted)?,
            part: entry.part,
        });
    }
    Ok(Handover {
        estimate: match of.estimate {
            Some(it) => Some(EstimateShown {
                estimate: it.estimate,
                sums: it.sums,
                recorded: by(job, Kind::JobEstimate)?,
            }),
            None => None,
        },
        authorisation: match of.authorisation {
            AuthorisationState::NotGiven => AuthorisationShown::NotGiven,
            AuthorisationState::NotHere { .. } => AuthorisationShown::NotHere,
            AuthorisationState::Erased { .. } => AuthorisationShown::Erased,
            AuthorisationState::Given(_) if !personal => AuthorisationShown::LeftOut,
            AuthorisationState::Given(given) => AuthorisationShown::Shown {
                given: Box::new(given.authorisation),
                estimate_changed: given.estimate_changed,
                covers: given.covers,
                recorded: by(job, Kind::JobAuthorisation)?,
            },
        },
        fitted,
        warranty: match of.warranty {
            Some(it) => Some((it.warranty, by(job, Kind::JobWarranty)?)),
            None => None,
        },
        sign_off: match of.sign_off {
            Some(it) => Some(SignOffShown {
                open: named(store, &it.sign_off.open)?,
                changed_since: !it.added_since.is_empty() || !it.gone_since.is_empty(),
                sign_off: it.sign_off,
                recorded: by(job, Kind::JobSignOff)?,
            }),
            None => None,
        },
        open: named(store, &of.open)?,
        comeback: match of.comeback {
            Some(it) => {
                let number = it.earlier.map(|earlier| earlier.number);
                let by = by(job, Kind::JobComeback)?;
                Some((it.comeback, number.unwrap_or_default(), by))
            }
            None => None,
        },
    })
}

fn named(store: &Store, items: &[OpenItem]) -> Result<Vec<OpenShown>, ApiError> {
    let mut shown = Vec::new();
    for item in items {
        let bore = item.bore().map(|bore| bore_name(store, bore)).transpose()?;
        shown.push(OpenShown {
            item: *item,
            bore: bore.unwrap_or_default(),
        });
    }
    Ok(shown)
}

fn bore_name(store: &Store, bore: model::Id) -> Result<String, ApiError> {
    let found: Option<Bore> = lead(store, subject(bore), Kind::Bore)?;
    Ok(found.map(|bore| bore.name).unwrap_or_default())
}
