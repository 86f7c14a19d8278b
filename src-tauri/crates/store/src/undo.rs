//! "Undo last" and "redo" on this device.

use std::collections::hash_map::Entry;
use std::collections::{HashMap, HashSet};

use journal::undo::{Deed, redo_candidate, undo_candidate};
use journal::{
    Action, Commit, CommitId, DeviceId, EnvelopeHash, Fate, Kind, PersonId, Record, SubjectId,
    WallTime, fold,
};
use rusqlite::{Connection, TransactionBehavior};

use crate::append::{NewRecord, Pen};
use crate::error::StoreError;
use crate::open::Store;
use crate::projection::{self, Projector};
use crate::rows;

impl Store {
    /// The commit that [`Store::undo`] would take back now.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn undo_candidate(&self) -> Result<Option<CommitId>, StoreError> {
        let snapshot = self.db.unchecked_transaction()?;
        next(
            &snapshot,
            &*self.projector,
            self.key.device(),
            Direction::Undo,
        )
    }

    /// The undo that [`Store::redo`] would take back now.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn redo_candidate(&self) -> Result<Option<CommitId>, StoreError> {
        let snapshot = self.db.unchecked_transaction()?;
        next(
            &snapshot,
            &*self.projector,
            self.key.device(),
            Direction::Redo,
        )
    }

    /// Takes back this device's last edit: a new commit that strikes out its records. None if
    /// there is nothing to take back.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be written.
    pub fn undo(&mut self, author: PersonId, now: WallTime) -> Result<Option<Commit>, StoreError> {
        self.take_back(Direction::Undo, author, now)
    }

    /// Takes back the last undo, unless this device has made an edit since. None if there is
    /// nothing to take back.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be written.
    pub fn redo(&mut self, author: PersonId, now: WallTime) -> Result<Option<Commit>, StoreError> {
        self.take_back(Direction::Redo, author, now)
    }

    fn take_back(
        &mut self,
        direction: Direction,
        author: PersonId,
        now: WallTime,
    ) -> Result<Option<Commit>, StoreError> {
        let tx = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        let Some(target) = next(&tx, &*self.projector, self.key.device(), direction)? else {
            return Ok(None);
        };
        let action = match direction {
            Direction::Undo => Action::Undo(target),
            Direction::Redo => Action::Redo(target),
        };
        let voids = in_effect(&tx, &*self.projector, target)?
            .iter()
            .map(|record| NewRecord::void(record.envelope().subject, record.id()))
            .collect();
        let mut pen = Pen {
            projector: &*self.projector,
            entropy: &mut *self.entropy,
            key: &self.key,
            author,
            now,
        };
        let commit = pen.write(&tx, action, voids)?;
        tx.commit()?;
        Ok(Some(commit))
    }
}

#[derive(Clone, Copy)]
enum Direction {
    Undo,
    Redo,
}

fn next(
    db: &Connection,
    projector: &dyn Projector,
    device: DeviceId,
    direction: Direction,
) -> Result<Option<CommitId>, StoreError> {
    // This device's commits arrived here in the order in which it made them.
    let mut query =
        db.prepare_cached("SELECT bytes FROM commit_ WHERE device = ?1 ORDER BY seq DESC")?;
    let mut rows = query.query([device.as_bytes()])?;
    let deeds = std::iter::from_fn(|| match rows.next() {
        Ok(row) => row.map(|row| {
            let commit = rows::commit_from(row, "bytes")?;
            Ok(Deed {
                id: commit.id(),
                action: commit.action(),
            })
        }),
        Err(error) => Some(Err(StoreError::from(error))),
    });
    let has_effect = |commit| Ok(!in_effect(db, projector, commit)?.is_empty());
    match direction {
        Direction::Undo => undo_candidate(deeds, has_effect),
        Direction::Redo => redo_candidate(deeds, has_effect),
    }
}

/// The records of a commit that are not voided.
fn in_effect(
    db: &Connection,
    projector: &dyn Projector,
    commit: CommitId,
) -> Result<Vec<Record>, StoreError> {
    // An action may hold hundreds of records of one subject, which is folded once for all of them.
    let mut voided: HashMap<SubjectId, HashSet<EnvelopeHash>> = HashMap::new();
    let mut left = Vec::new();
    let records = rows::records_of_commit(db, commit)?;
    // What was erased is gone: such an action can't be taken back.
    if records
        .iter()
        .any(|record| record.envelope().kind == Kind::ERASURE)
    {
        return Ok(left);
    }
    for record in records {
        let subject = record.envelope().subject;
        let struck = match voided.entry(subject) {
            Entry::Occupied(known) => known.into_mut(),
            Entry::Vacant(open) => {
                let of_subject = rows::records_of_subject(db, subject)?;
                let folded = fold::fold(of_subject.iter().map(|(_, record)| record), |kind| {
                    projection::rule(projector, kind)
                });
                let struck = folded.history().iter();
                let struck = struck.filter(|(_, fate)| *fate == Fate::Voided);
                open.insert(struck.map(|(record, _)| record.hash()).collect())
            }
        };
        let is_voided = struck.contains(&record.hash());
        if !is_voided {
            left.push(record);
        }
    }
    Ok(left)
}
