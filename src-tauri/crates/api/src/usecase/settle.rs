//! Settling what two people wrote without knowing of each other. A settlement is a record like any
//! other: it replaces each version, and undone they stand side by side again.

use std::collections::{BTreeMap, BTreeSet};

use journal::{DeviceId, RecordId, SubjectId};
use model::job::Job;
use model::{Id, Kind};
use serde::Deserialize;
use store::{NewRecord, Store, StoredRecord};

use crate::App;
use crate::dto::{SettleChoose, SettleGet, SettleList, Settled, ToSettle, Version};
use crate::error::{ApiError, ErrorCode};
use crate::journal_io::{by, id, kind_name, lead, record_id, standing, subject};
use crate::usecase::audit::undo_state;

use super::trust;

/// One value of which several versions stand.
struct Apart {
    subject: SubjectId,
    kind: Kind,
    versions: Vec<RecordId>,
}

/// Everything that stands apart, of these subjects or of the whole shop.
fn apart(store: &Store, within: Option<&BTreeSet<SubjectId>>) -> Result<Vec<Apart>, ApiError> {
    let wanted = |of: &SubjectId| within.is_none_or(|within| within.contains(of));
    let mut found = Vec::new();
    for (of, kind) in store.concurrent()? {
        // Of a kind that this program doesn't know nothing can be shown, and nothing settled.
        if let (Some(kind), true) = (Kind::of(kind.as_str()), wanted(&of)) {
            let versions = standing(store, of, kind)?.ids();
            found.push(Apart {
                subject: of,
                kind,
                versions,
            });
        }
    }
    for kind in Kind::all().filter(|kind| kind.adds()) {
        let name = kind_name(kind);
        for of in store.perhaps_corrected_twice(&name)? {
            if wanted(&of) {
                let groups = store.corrected_twice(of, &name)?;
                found.extend(groups.into_iter().map(|versions| Apart {
                    subject: of,
                    kind,
                    versions,
                }));
            }
        }
    }
    Ok(found)
}

/// The versions beside a reading that correct the same one as it does; itself among them.
pub(super) fn corrections_beside(
    store: &Store,
    test: SubjectId,
    reading: RecordId,
) -> Result<Vec<RecordId>, ApiError> {
    let groups = store.corrected_twice(test, &kind_name(Kind::TestReading))?;
    let found = groups.into_iter().find(|group| group.contains(&reading));
    Ok(found.unwrap_or_else(|| vec![reading]))
}

/// What is to be settled.
pub(crate) fn list(app: &App, args: SettleGet) -> Result<SettleList, ApiError> {
    let store = app.store()?;
    let within: Option<BTreeSet<_>> = match args.within {
        Some(of) => Some(store.descendants(subject(of))?.into_iter().collect()),
        None => None,
    };
    let names = trust::names(&store)?;
    let apart = apart(&store, within.as_ref())?;
    let items = apart.iter().map(|it| shown(&store, &names, it));
    Ok(SettleList {
        items: items.collect::<Result<_, _>>()?,
    })
}

fn shown(
    store: &Store,
    names: &BTreeMap<DeviceId, String>,
    apart: &Apart,
) -> Result<ToSettle, ApiError> {
    let mut versions = Vec::new();
    let last = apart.versions.last();
    for record in &apart.versions {
        let stored = found(store, *record)?;
        let device = stored.envelope().device;
        let by = by(store, &stored)?;
        versions.push(Version {
            record: record_id(*record),
            by: by.by,
            at: by.at,
            device: device.to_string(),
            device_name: names.get(&device).cloned().unwrap_or_default(),
            own: device == store.device(),
            shown: apart.kind.adds() || Some(record) == last,
            body: stored
                .body()
                .and_then(|bytes| serde_json::from_slice(bytes).ok()),
        });
    }
    let mut item = ToSettle {
        subject: id(apart.subject),
        kind: apart.kind.name().to_owned(),
        of: String::new(),
        job: None,
        test: None,
        unit: None,
        versions,
    };
    // From the value to what it is part of, as far as that has a name.
    let mut next = Some(apart.subject);
    let mut met = BTreeSet::new();
    while let Some(of) = next.filter(|of| met.insert(*of)) {
        for (kind, place) in [
            (Kind::Job, &mut item.job),
            (Kind::Test, &mut item.test),
            (Kind::Unit, &mut item.unit),
        ] {
            if !standing(store, of, kind)?.records.is_empty() {
                *place = Some(id(of));
            }
        }
        if item.of.is_empty() {
            item.of = name(store, of)?;
        }
        next = store.parent(of)?;
    }
    Ok(item)
}

fn name(store: &Store, of: SubjectId) -> Result<String, ApiError> {
    #[derive(Deserialize)]
    struct Named {
        #[serde(default)]
        name: String,
    }
    if let Some(job) = lead::<Job>(store, of, Kind::Job)? {
        return Ok(job.number);
    }
    for kind in [
        Kind::Unit,
        Kind::Circuit,
        Kind::Bore,
        Kind::Land,
        Kind::Spring,
        Kind::TestPoint,
        Kind::Stand,
        Kind::Instrument,
        Kind::Person,
        Kind::Shop,
    ] {
        if let Some(named) = lead::<Named>(store, of, kind)?.filter(|it| !it.name.is_empty()) {
            return Ok(named.name);
        }
    }
    Ok(String::new())
}

fn found(store: &Store, record: RecordId) -> Result<StoredRecord, ApiError> {
    let found = store.record(record)?;
    found.ok_or_else(|| ApiError::not_found("record", record))
}

/// Says which version stands.
pub(crate) fn choose(app: &App, args: SettleChoose) -> Result<Settled, ApiError> {
    let bad = |field| ApiError::new(ErrorCode::BadRequest).at(field);
    let kind = Kind::of(&args.kind).ok_or_else(|| bad("kind"))?;
    let mut store = app.store()?;
    let of = subject(args.subject);
    let seen: BTreeSet<RecordId> = args.seen.iter().map(|id| record_of(*id)).collect();
    let chosen = record_of(args.choose);
    if !seen.contains(&chosen) {
        return Err(bad("choose"));
    }
    let within = BTreeSet::from([of]);
    let stands = apart(&store, Some(&within))?
        .into_iter()
        .find(|it| it.kind == kind && it.versions.contains(&chosen))
        .ok_or_else(|| ApiError::new(ErrorCode::SettleChanged))?;
    if stands.versions.iter().copied().collect::<BTreeSet<_>>() != seen {
        return Err(ApiError::new(ErrorCode::SettleChanged));
    }
    let stored = found(&store, chosen)?;
    let body = stored
        .body()
        .ok_or_else(|| ApiError::not_found("body", chosen))?;
    let record = NewRecord {
        subject: of,
        kind: kind_name(kind),
        // As it was written, whatever version that was.
        kind_version: stored.envelope().kind_version,
        supersedes: stands.versions,
        body: body.to_vec(),
        personal: kind.personal(),
    };
    app.commit(&mut store, vec![record])?;
    Ok(Settled {
        undo: undo_state(&store)?,
    })
}

fn record_of(id: Id) -> RecordId {
    RecordId::from_bytes(*id.as_bytes())
}
