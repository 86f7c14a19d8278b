//! Undo and redo, a subject's history, the check of the store.

use journal::fold::Fate;
use journal::{CommitId, RecordId, SubjectId};
use model::Kind;
use store::{AttachmentFinding, Depth, NewRecord, Store};

use crate::App;
use crate::dto::{
    History, HistoryEntry, HistoryGet, Nothing, PictureCheck, RecordName, RecordStanding,
    StoreCheck, StoreCheckGet, UndoDone, UndoState, UndoStep,
};
use crate::error::{ApiError, ErrorCode};
use crate::journal_io::{author, by, id, moment, person, record_id, subject};
use crate::usecase::erasure::taken_by;

/// What undo and redo would do now.
pub(crate) fn undo_state(store: &Store) -> Result<UndoState, ApiError> {
    let undo = store.undo_candidate()?;
    let redo = store.redo_candidate()?;
    // What a redo brings back is what its undo struck out.
    let undone = redo
        .map(|undo| undone_by(store, undo))
        .transpose()?
        .flatten();
    Ok(UndoState {
        undo: undo
            .map(|commit| step(store, commit))
            .transpose()?
            .flatten(),
        redo: undone
            .map(|commit| step(store, commit))
            .transpose()?
            .flatten(),
    })
}

fn undone_by(store: &Store, undo: CommitId) -> Result<Option<CommitId>, ApiError> {
    Ok(store
        .commit(undo)?
        .and_then(|commit| match commit.action() {
            journal::Action::Undo(edit) => Some(edit),
            journal::Action::Edit | journal::Action::Redo(_) => None,
        }))
}

/// A commit as a step of undo, told by its first record.
fn step(store: &Store, commit: CommitId) -> Result<Option<UndoStep>, ApiError> {
    let Some(commit) = store.commit(commit)? else {
        return Ok(None);
    };
    let Some((first, _)) = commit.records().first() else {
        return Ok(None);
    };
    let Some(record) = store.record(*first)? else {
        return Ok(None);
    };
    Ok(Some(UndoStep {
        kind: record.envelope().kind.as_str().to_owned(),
        records: u32::try_from(commit.records().len()).unwrap_or(u32::MAX),
        at: moment(commit.wall_time()),
        subject: id(record.envelope().subject),
    }))
}

/// Undoes this device's last change.
pub(crate) fn undo(app: &App, _: Nothing) -> Result<UndoDone, ApiError> {
    let mut store = app.store()?;
    let before = undo_state(&store)?.undo;
    let step = before.ok_or_else(|| ApiError::new(ErrorCode::NothingToUndo))?;
    let author = author(&store)?.ok_or_else(|| ApiError::new(ErrorCode::NoAuthor))?;
    store.undo(person(author), app.now())?;
    Ok(UndoDone {
        step,
        undo: undo_state(&store)?,
    })
}

/// Brings back the last undone change.
pub(crate) fn redo(app: &App, _: Nothing) -> Result<UndoDone, ApiError> {
    let mut store = app.store()?;
    let before = undo_state(&store)?.redo;
    let step = before.ok_or_else(|| ApiError::new(ErrorCode::NothingToUndo))?;
    let author = author(&store)?.ok_or_else(|| ApiError::new(ErrorCode::NoAuthor))?;
    store.redo(person(author), app.now())?;
    Ok(UndoDone {
        step,
        undo: undo_state(&store)?,
    })
}

/// Every record of a subject.
pub(crate) fn history(app: &App, args: HistoryGet) -> Result<History, ApiError> {
    history_view(&*app.store()?, args.subject)
}

pub(super) fn history_view(store: &Store, of: model::Id) -> Result<History, ApiError> {
    let of: SubjectId = subject(of);
    let mut entries = Vec::new();
    for entry in store.records_of(of)? {
        let envelope = entry.stored.envelope();
        let by = by(store, &entry.stored)?;
        entries.push(HistoryEntry {
            record: record_id(entry.stored.id()),
            kind: envelope.kind.as_str().to_owned(),
            by: by.by,
            at: by.at,
            device: envelope.device.to_string(),
            standing: match entry.fate {
                Fate::Stands => RecordStanding::Stands,
                Fate::Replaced => RecordStanding::Replaced,
                Fate::Voided => RecordStanding::Voided,
            },
            erased: taken_by(store, &entry.stored)?.is_some(),
            can_take_back: entry.fate == Fate::Stands
                && Kind::of(envelope.kind.as_str())
                    .is_some_and(|kind| !begins(kind) || !envelope.supersedes.is_empty()),
            body: entry
                .stored
                .body()
                .and_then(|bytes| serde_json::from_slice(bytes).ok()),
        });
    }
    Ok(History { entries })
}

/// Checks and replays the store.
pub(crate) fn check(app: &App, args: StoreCheckGet) -> Result<StoreCheck, ApiError> {
    let store = app.store()?;
    let depth = if args.quick {
        Depth::Quick
    } else {
        Depth::Full
    };
    let problems: Vec<String> = store
        .check_to(depth)?
        .iter()
        .map(|finding| format!("{finding:?}"))
        .collect();
    let digest = store.digest()?;
    let mut pictures = PictureCheck::default();
    if depth == Depth::Full && !problems.iter().any(|problem| problem.starts_with("File")) {
        for finding in store.check_attachments(true)? {
            *(match finding {
                AttachmentFinding::Missing(_) => &mut pictures.missing,
                AttachmentFinding::Damaged(_) => &mut pictures.damaged,
                AttachmentFinding::NotPassedOn(_) => &mut pictures.not_passed_on,
                _ => &mut pictures.stray,
            }) += 1;
        }
    }
    Ok(StoreCheck {
        pictures,
        clean: problems.is_empty(),
        records: u32::try_from(store.record_count()?).unwrap_or(u32::MAX),
        digest: digest
            .whole
            .iter()
            .map(|byte| format!("{byte:02x}"))
            .collect(),
        problems,
    })
}

/// Takes one record back, whoever wrote it.
///
/// # Errors
/// [`ErrorCode::CannotTakeBack`] for what a job, a test, a unit or another thing begins with:
/// the rest of it would be left without a beginning.
pub(crate) fn take_back(app: &App, args: RecordName) -> Result<UndoState, ApiError> {
    let mut store = app.store()?;
    let (of, history) = history_of(&store, args.record)?;
    let record = history
        .iter()
        .find(|entry| record_id(entry.stored.id()) == args.record)
        .filter(|entry| entry.fate == Fate::Stands)
        .ok_or_else(|| ApiError::new(ErrorCode::NothingToUndo))?;
    let envelope = record.stored.envelope();
    let kind =
        Kind::of(envelope.kind.as_str()).ok_or_else(|| ApiError::new(ErrorCode::CannotTakeBack))?;
    // An earlier version steps into its place.
    let has_earlier = history.iter().any(|entry| {
        envelope.supersedes.contains(&entry.stored.id()) && entry.fate == Fate::Replaced
    });
    if begins(kind) && !has_earlier {
        return Err(ApiError::new(ErrorCode::CannotTakeBack));
    }
    let void = NewRecord::void(of, record.stored.id());
    app.commit(&mut store, vec![void])?;
    undo_state(&store)
}

/// Brings back a record that was taken back or undone.
pub(crate) fn bring_back(app: &App, args: RecordName) -> Result<UndoState, ApiError> {
    let mut store = app.store()?;
    let (of, history) = history_of(&store, args.record)?;
    let target = history
        .iter()
        .find(|entry| record_id(entry.stored.id()) == args.record)
        .filter(|entry| entry.fate == Fate::Voided)
        .ok_or_else(|| ApiError::new(ErrorCode::NothingToUndo))?
        .stored
        .id();
    let voids: Vec<_> = history
        .iter()
        .filter(|entry| entry.fate == Fate::Stands)
        .map(|entry| entry.stored.envelope())
        .filter(|void| void.kind == journal::Kind::VOID && void.supersedes.contains(&target))
        .map(|void| NewRecord::void(of, void.id))
        .collect();
    if voids.is_empty() {
        return Err(ApiError::new(ErrorCode::NothingToUndo));
    }
    app.commit(&mut store, voids)?;
    undo_state(&store)
}

fn history_of(
    store: &Store,
    record: model::Id,
) -> Result<(SubjectId, Vec<store::HistoryEntry>), ApiError> {
    let found = store.record(RecordId::from_bytes(*record.as_bytes()))?;
    let found = found.ok_or_else(|| ApiError::not_found("record", record))?;
    let of = found.envelope().subject;
    Ok((of, store.records_of(of)?))
}

/// Whether a subject is there by a record of this kind. The others are parts of one that is.
fn begins(kind: Kind) -> bool {
    !matches!(
        kind,
        Kind::JobVehicle
            | Kind::JobComplaint
            | Kind::JobNotes
            | Kind::JobCustomer
            | Kind::Caution
            | Kind::TestSetup
            | Kind::TestStandCheck
            | Kind::TestBlank
            | Kind::TestReading
            | Kind::TestDecision
            | Kind::ReliefCheck
            | Kind::Repair
            | Kind::JobEstimate
            | Kind::JobAuthorisation
            | Kind::JobWarranty
            | Kind::JobSignOff
            | Kind::JobComeback
            | Kind::TapReading
            | Kind::OilCheck
    )
}
