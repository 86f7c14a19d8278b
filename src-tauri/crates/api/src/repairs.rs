//! The repairs of a bore in a job, and the profile that a test of it must be judged by.

use diagnosis::repair::repaired;
use model::oil_check::OilCheck;
use model::relief_check::{ReliefCheck, ReliefPresence};
use model::repair::Repair;
use model::unit::{BoreProfile, Relief};
use model::{Id, Kind};
use store::{Store, StoredRecord};

use crate::error::ApiError;
use crate::journal_io::{body, id, kind_name, standing, subject};
use crate::profiles;

/// A repair on record.
pub(crate) struct Recorded<T> {
    pub id: Id,
    pub record: StoredRecord,
    pub body: T,
}

/// What a job has of one kind, oldest first.
pub(crate) fn of_job<T: serde::de::DeserializeOwned>(
    store: &Store,
    job: Id,
    kind: Kind,
    belongs: impl Fn(&T) -> bool,
) -> Result<Vec<Recorded<T>>, ApiError> {
    let mut found = Vec::new();
    for of in store.children(subject(job), &kind_name(kind))? {
        let stands = standing(store, of, kind)?;
        let Some(record) = stands.lead() else {
            continue;
        };
        let Some(body) = body::<T>(record).filter(|body| belongs(body)) else {
            continue;
        };
        found.push(Recorded {
            id: id(of),
            record: record.clone(),
            body,
        });
    }
    // Subjects are numbered as they are made.
    found.sort_by_key(|recorded| recorded.id);
    Ok(found)
}

/// The repairs of a bore in a job, oldest first.
pub(crate) fn of_bore(store: &Store, job: Id, bore: Id) -> Result<Vec<Recorded<Repair>>, ApiError> {
    of_job(store, job, Kind::Repair, |repair: &Repair| {
        repair.bore == bore
    })
}

/// The hot-oil checks of a bore in a job, oldest first.
pub(crate) fn oil_checks(
    store: &Store,
    job: Id,
    bore: Id,
) -> Result<Vec<Recorded<OilCheck>>, ApiError> {
    of_job(store, job, Kind::OilCheck, |check: &OilCheck| {
        check.bore == bore
    })
}

/// The relief check of a bore in a job.
pub(crate) fn relief_check(
    store: &Store,
    job: Id,
    bore: Id,
) -> Result<Option<Recorded<ReliefCheck>>, ApiError> {
    let is_here = |check: &ReliefCheck| check.bore == bore;
    Ok(of_job(store, job, Kind::ReliefCheck, is_here)?.pop())
}

/// The relief that the job's check says is to be added.
pub(crate) fn relief_to_add(store: &Store, job: Id, bore: Id) -> Result<Option<Relief>, ApiError> {
    Ok(relief_check(store, job, bore)?
        .map(|check| check.body.figures)
        .filter(|figures| figures.presence == ReliefPresence::ToBeAdded)
        .and_then(|figures| figures.relief(Id::nil())))
}

/// A bore as the first `repairs` of a job left it.
pub(crate) fn profile_after(
    store: &Store,
    job: Id,
    bore: Id,
    repairs: &[Recorded<Repair>],
) -> Result<BoreProfile, ApiError> {
    let mut profile = profiles::bore(store, bore)?;
    if repairs.is_empty() {
        return Ok(profile);
    }
    let relief = relief_to_add(store, job, bore)?;
    for repair in repairs {
        profile = repaired(&profile, &repair.body.work, relief.as_ref());
    }
    Ok(profile)
}

/// The profile by which a test is judged, and whether a repair before it changed that.
///
/// # Errors
/// [`ApiError`] when the bore, its circuit or its unit isn't there.
pub fn profile_of_test(
    store: &Store,
    job: Id,
    bore: Id,
    test: Id,
) -> Result<(BoreProfile, bool), ApiError> {
    let mut before = of_bore(store, job, bore)?;
    before.retain(|repair| !repair.body.tests_before.contains(&test));
    let profile = profile_after(store, job, bore, &before)?;
    let changed = !before.is_empty() && profile != profiles::bore(store, bore)?;
    Ok((profile, changed))
}
