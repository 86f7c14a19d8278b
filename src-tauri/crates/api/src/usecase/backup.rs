//! Backups, going back to one, and repairing a damaged store. They work whether or not the store
//! can be opened.

use std::collections::BTreeMap;
use std::sync::Arc;

use journal::SubjectId;
use model::Kind;
use model::job::Job;
use store::{Backup, Backups, Loss, Lost, Reason, Setup, Store};

use crate::dto::{
    BackupEntry, BackupHolds, BackupList, BackupName, BackupReason, LossReason, Nothing, StoreLoss,
    StoreRepaired, StoreRestored,
};
use crate::error::ApiError;
use crate::journal_io::{kind_name, lead, moment};
use crate::usecase::erasure::all_erasures;
use crate::usecase::shop::SETTINGS;
use crate::{App, ModelProjector};

fn count(n: u64) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

/// Why a backup was made, as the wire has it.
pub(super) fn reason(reason: Reason) -> BackupReason {
    match reason {
        Reason::Daily => BackupReason::Daily,
        Reason::ByHand => BackupReason::ByHand,
        Reason::BeforeMigration => BackupReason::BeforeMigration,
        Reason::BeforeImport => BackupReason::BeforeImport,
        Reason::Replaced => BackupReason::Replaced,
    }
}

pub(super) fn entry(backups: &Backups, backup: Backup) -> BackupEntry {
    let contents = backups.contents(&backup.name, &kind_name(Kind::Job));
    BackupEntry {
        made_at: moment(backup.made),
        reason: reason(backup.reason),
        bytes: backup.bytes,
        // That one can't be read is said, and keeps the others from nobody.
        holds: contents.ok().map(|contents| BackupHolds {
            records: count(contents.records),
            jobs: count(contents.subjects),
            last_change: contents.last_change.map(moment),
        }),
        name: backup.name,
    }
}

/// The backups that are here.
pub(crate) fn list(app: &App, _: Nothing) -> Result<BackupList, ApiError> {
    let backups = app.backups()?;
    let found = backups.list()?;
    Ok(BackupList {
        folder: backups.folder().display().to_string(),
        backups: found
            .into_iter()
            .map(|backup| entry(&backups, backup))
            .collect(),
        problem: app.backing_up().problem(),
    })
}

/// Makes one now.
pub(crate) fn make(app: &App, _: Nothing) -> Result<BackupEntry, ApiError> {
    let (backups, made) = app.back_up()?;
    Ok(entry(&backups, made))
}

/// Goes back to one. How this device shows numbers stays as it was when the backup was made; who
/// works on it is asked again.
pub(crate) fn restore(app: &App, args: BackupName) -> Result<StoreRestored, ApiError> {
    let now = app.now();
    // What was erased since must not come back with it. A store that can't be read has nothing to
    // say of that, and its erasures stay with the file that is put aside.
    let erasures = app.store().ok().map(|store| all_erasures(&store));
    let erasures = erasures.transpose()?.unwrap_or_default();
    let restored = app.replace_store(|backups| backups.restore(&args.name, &[SETTINGS], now))?;
    let mut erased = 0;
    if !erasures.records.is_empty() {
        let batch = erasures.check().map_err(store::StoreError::from)?;
        let mut store = app.store()?;
        erased = store.apply(&batch)?.erased_bodies as u64;
        store.scrub()?;
    }
    Ok(StoreRestored {
        erased: count(erased),
        records: count(app.store()?.record_count()?),
        aside: restored.aside.map(|aside| aside.name),
    })
}

/// Saves what can be read of a damaged store.
pub(crate) fn repair(app: &App, _: Nothing) -> Result<StoreRepaired, ApiError> {
    let now = app.now();
    let setup = Setup::new(Arc::new(ModelProjector));
    let repaired = app.replace_store(|backups| backups.repair(setup, now))?;
    let store = app.store()?;
    Ok(StoreRepaired {
        records: count(repaired.records),
        drafts: count(repaired.drafts),
        unreadable_rows: count(repaired.unreadable_rows),
        lost: told(&store, repaired.lost)?,
        aside: repaired.aside.map(|aside| aside.name),
    })
}

/// Losses by job, kind and reason.
fn told(store: &Store, lost: BTreeMap<Lost, u64>) -> Result<Vec<StoreLoss>, ApiError> {
    let mut sums: BTreeMap<_, u64> = BTreeMap::new();
    for (lost, times) in lost {
        let job = match lost.subject {
            Some(subject) => job_of(store, subject)?,
            None => None,
        };
        let kind = lost.kind.map(|kind| kind.as_str().to_owned());
        *sums.entry((lost.loss, kind, job)).or_default() += times;
    }
    let told = |((loss, kind, job), times)| StoreLoss {
        reason: match loss {
            Loss::Altered => LossReason::Altered,
            Loss::Unsigned => LossReason::Unsigned,
            Loss::ContentAltered => LossReason::ContentAltered,
            Loss::ContentMissing => LossReason::ContentMissing,
            Loss::Missing => LossReason::Missing,
        },
        kind,
        job,
        count: count(times),
    };
    Ok(sums.into_iter().map(told).collect())
}

/// The number of the job that a subject is or is part of.
pub(super) fn job_of(store: &Store, subject: SubjectId) -> Result<Option<String>, ApiError> {
    let mut at = Some(subject);
    // Parts lie a few deep; a ring of parents, which damage may leave, ends too.
    for _ in 0..16 {
        let Some(of) = at else { break };
        if let Some(job) = lead::<Job>(store, of, Kind::Job)? {
            return Ok(Some(job.number));
        }
        at = store.parent(of)?;
    }
    Ok(None)
}
