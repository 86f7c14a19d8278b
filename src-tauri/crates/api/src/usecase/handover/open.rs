//! What is still open in a job, and what has changed since it was signed off.

use std::collections::{BTreeMap, BTreeSet};

use journal::SubjectId;
use journal::fold::Fate;
use model::authorisation::Covers;
use model::bench::Verdict;
use model::inspection::CheckName;
use model::job::Job;
use model::machining::Machining;
use model::sign_off::{OpenItem, SignOff};
use model::{Id, Kind};
use store::Store;

use crate::dto::{AuthorisationState, EstimateOnRecord};
use crate::error::ApiError;
use crate::journal_io::{kind_name, record_id, subject};
use crate::repairs;
use crate::usecase::inspection::standing_plan;
use crate::usecase::job::{hazards, tests};

/// What is open, in order: the work, the agreement, the cautions.
///
/// A bore counts as untested when the plan has it, doesn't leave its vacuum test out, and no
/// reading of it stands. Of each test point the last decision counts that no repair came after.
pub(super) fn items(
    store: &Store,
    job_id: Id,
    job: &Job,
    estimate: Option<&EstimateOnRecord>,
    authorisation: &AuthorisationState,
) -> Result<Vec<OpenItem>, ApiError> {
    let of = subject(job_id);
    let plan = standing_plan(store, job_id, job)?.0;
    let tests = tests(store, of)?;
    let mut bores = plan.bores.clone();
    for (test, _) in &tests {
        if !bores.contains(&test.bore) {
            bores.push(test.bore);
        }
    }
    let mut found = Vec::new();
    for bore in bores {
        let repairs = repairs::of_bore(store, job_id, bore)?;
        let of_bore: Vec<_> = tests
            .iter()
            .filter(|(test, entry)| test.bore == bore && entry.readings > 0)
            .collect();
        if of_bore.is_empty() && repairs.is_empty() && !plan.leaves_out(bore, CheckName::Vacuum) {
            found.push(OpenItem::BoreUntested { bore });
        }
        for repair in &repairs {
            let known = &repair.body.tests_before;
            if of_bore.iter().all(|(_, entry)| known.contains(&entry.test)) {
                found.push(OpenItem::RepairUntested {
                    bore,
                    repair: repair.id,
                    option: repair.body.work.option,
                });
            }
        }
        let overtaken = |test: &Id| {
            repairs
                .iter()
                .any(|repair| repair.body.tests_before.contains(test))
        };
        let mut last = BTreeMap::new();
        for (test, entry) in of_bore {
            if let Some(decided) = entry.decided
                && !overtaken(&entry.test)
            {
                last.insert(test.test_point, decided);
            }
        }
        if last
            .values()
            .any(|verdict| *verdict == Verdict::OutsideLimit)
        {
            found.push(OpenItem::BoreOutsideLimit { bore });
        }
    }
    found.extend(unsigned(store, job_id)?);
    found.extend(plan.left_out.iter().map(|left| OpenItem::CheckLeftOut {
        bore: left.bore,
        check: left.check,
    }));
    found.extend(agreement(estimate, authorisation));
    for state in hazards(store, of)? {
        if state.read.is_none() {
            let hazard = state.hazard;
            found.push(OpenItem::CautionUnread { hazard });
        }
    }
    Ok(found)
}

/// The machining sheets that nobody has signed as they stand; of two of one bore the later counts.
fn unsigned(store: &Store, job: Id) -> Result<Vec<OpenItem>, ApiError> {
    let sheets = repairs::of_job(store, job, Kind::Machining, |_: &Machining| true)?;
    let mut last = BTreeMap::new();
    for sheet in sheets {
        last.insert(sheet.body.bore, sheet.body.signed.is_some());
    }
    let open = last.into_iter().filter(|(_, signed)| !signed);
    Ok(open
        .map(|(bore, _)| OpenItem::MachiningUnsigned { bore })
        .collect())
}

fn agreement(
    estimate: Option<&EstimateOnRecord>,
    authorisation: &AuthorisationState,
) -> Vec<OpenItem> {
    let mut found = Vec::new();
    match (estimate, authorisation) {
        (Some(_), AuthorisationState::NotGiven) => found.push(OpenItem::EstimateUnauthorised),
        (Some(_), AuthorisationState::NotHere { .. } | AuthorisationState::Erased { .. }) => {
            found.push(OpenItem::AuthorisationNotHere);
        }
        (_, AuthorisationState::Given(given)) => {
            found.extend(given.estimate_changed.then_some(OpenItem::EstimateChanged));
            match given.covers {
                Some(Covers::Exceeded { by_minor }) => {
                    found.push(OpenItem::AmountExceeded { by_minor });
                }
                Some(Covers::OtherCurrency) => found.push(OpenItem::OtherCurrency),
                Some(Covers::Within) | None => {}
            }
        }
        (None, _) => {}
    }
    found
}

/// The records of a job and its parts that stand, with their kinds; sign-offs are not part of what
/// is signed.
pub(super) fn records(store: &Store, job: SubjectId) -> Result<BTreeMap<Id, String>, ApiError> {
    let mut found = BTreeMap::new();
    for of in store.descendants(job)? {
        for entry in store.records_of(of)? {
            let kind = &entry.stored.envelope().kind;
            let counts = entry.fate == Fate::Stands
                && *kind != journal::Kind::VOID
                && *kind != journal::Kind::ERASURE
                && *kind != kind_name(Kind::JobSignOff);
            if counts {
                found.insert(record_id(entry.stored.id()), kind.as_str().to_owned());
            }
        }
    }
    Ok(found)
}

/// The kinds of record that came to stand since a sign-off, and of those that stood then and don't
/// now.
pub(super) fn changed_since(
    store: &Store,
    job: SubjectId,
    sign_off: &SignOff,
) -> Result<(Vec<String>, Vec<String>), ApiError> {
    let now = records(store, job)?;
    let then: BTreeSet<Id> = sign_off.records.iter().copied().collect();
    let added: BTreeSet<String> = now
        .iter()
        .filter(|(record, _)| !then.contains(record))
        .map(|(_, kind)| kind.clone())
        .collect();
    let mut gone = BTreeSet::new();
    for record in then.iter().filter(|record| !now.contains_key(record)) {
        let stored = store.record(journal::RecordId::from_bytes(*record.as_bytes()))?;
        // One that was replaced shows as what replaced it.
        let Some(stored) = stored else { continue };
        let envelope = stored.envelope();
        let replaced = added.contains(envelope.kind.as_str());
        if !replaced {
            gone.insert(envelope.kind.as_str().to_owned());
        }
    }
    Ok((added.into_iter().collect(), gone.into_iter().collect()))
}
