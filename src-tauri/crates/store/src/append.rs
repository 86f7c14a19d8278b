//! One user action: new records, signed and applied.

use journal::{
    Action, Batch, BodyHash, Commit, CommitDraft, CommitId, Envelope, HybridClock, Kind, PersonId,
    Record, RecordId, SubjectId, WallTime, body,
};
use rusqlite::{Connection, TransactionBehavior};

use crate::apply::apply_in;
use crate::entropy::{Entropy, draw};
use crate::error::StoreError;
use crate::open::Store;
use crate::projection::Projector;
use crate::{erase, local, rows};

/// A record to be made.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct NewRecord {
    /// What it is about.
    pub subject: SubjectId,
    /// What sort of thing it says.
    pub kind: Kind,
    /// The version of the body's format.
    pub kind_version: u32,
    /// The records that its author saw and replaces.
    pub supersedes: Vec<RecordId>,
    /// The body's content.
    pub body: Vec<u8>,
    /// Whether the body is about a person: it gets a salt, and is left out of bundles by default.
    pub personal: bool,
}

impl NewRecord {
    /// Strikes out one record of a subject. To strike out a void brings back its target.
    #[must_use]
    pub fn void(subject: SubjectId, target: RecordId) -> Self {
        Self {
            subject,
            kind: Kind::VOID,
            kind_version: 1,
            supersedes: vec![target],
            body: b"{}".to_vec(),
            personal: false,
        }
    }
}

impl Store {
    /// Makes the records of one user action, in order: signs, keeps and projects them in one
    /// transaction. The clock's last tick is read again inside it, so that another process
    /// can't have used the same.
    ///
    /// # Errors
    /// [`StoreError::EmptyCommit`] without records; [`StoreError::NoTarget`] for a void whose
    /// target is not a record of its subject; [`StoreError::Format`] for a body that
    /// can't be kept; and what the file may refuse. Nothing is kept then.
    pub fn append(
        &mut self,
        records: Vec<NewRecord>,
        author: PersonId,
        now: WallTime,
    ) -> Result<Commit, StoreError> {
        let tx = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        let mut pen = Pen {
            projector: &*self.projector,
            entropy: &mut *self.entropy,
            key: &self.key,
            author,
            now,
        };
        let commit = pen.write(&tx, Action::Edit, records)?;
        tx.commit()?;
        Ok(commit)
    }

    /// A new subject's identifier.
    ///
    /// # Errors
    /// [`StoreError::Entropy`] if there are no random bytes.
    pub fn new_subject(&mut self, now: WallTime) -> Result<SubjectId, StoreError> {
        Ok(SubjectId::new(
            now.unsigned_ms(),
            &draw(&mut *self.entropy)?,
        ))
    }
}

/// Who writes, with what, and when.
pub(crate) struct Pen<'a> {
    pub projector: &'a dyn Projector,
    pub entropy: &'a mut dyn Entropy,
    pub key: &'a journal::DeviceKey,
    pub author: PersonId,
    pub now: WallTime,
}

impl Pen<'_> {
    /// Writes one commit. Belongs in an immediate transaction.
    pub fn write(
        &mut self,
        db: &Connection,
        action: Action,
        new: Vec<NewRecord>,
    ) -> Result<Commit, StoreError> {
        if new.is_empty() {
            return Err(StoreError::EmptyCommit);
        }
        let mut clock = local::clock(db)?;
        let mut batch = Batch::default();
        for record in new {
            check_target(db, &record)?;
            let mut record = record;
            if record.kind != Kind::VOID {
                // Whoever writes here has seen them, so what is written now stays.
                let seen = erase::known(db, record.subject, &record.kind)?;
                record.supersedes.extend(seen);
            }
            let (record, body) = self.record(&mut clock, record)?;
            batch.records.push(record);
            batch.bodies.push(body);
        }
        let draft = CommitDraft {
            id: CommitId::new(clock.last().millis(), &draw(self.entropy)?),
            action,
            wall_time: self.now,
            records: batch
                .records
                .iter()
                .map(|record| (record.id(), record.hash()))
                .collect(),
        };
        let commit = Commit::sign(draft, self.key)?;
        batch.commits.push(commit.clone());
        // The same path as for what comes from elsewhere, signature check included.
        apply_in(db, self.projector, &batch.check()?, &mut |_| Ok(()))?;
        Ok(commit)
    }

    fn record(
        &mut self,
        clock: &mut HybridClock,
        new: NewRecord,
    ) -> Result<(Record, Vec<u8>), StoreError> {
        let bytes = if new.personal {
            body::salted(&new.body, &draw(self.entropy)?)
        } else {
            body::plain(&new.body)?;
            new.body
        };
        let tick = clock.tick(self.now);
        let record = Record::new(Envelope {
            id: RecordId::new(tick.millis(), &draw(self.entropy)?),
            clock: tick,
            wall_time: self.now,
            device: self.key.device(),
            author: self.author,
            subject: new.subject,
            kind: new.kind,
            kind_version: new.kind_version,
            supersedes: new.supersedes,
            body_hash: BodyHash::of(&bytes),
        })?;
        Ok((record, bytes))
    }
}

fn check_target(db: &Connection, new: &NewRecord) -> Result<(), StoreError> {
    if new.kind != Kind::VOID {
        return Ok(());
    }
    for &target in &new.supersedes {
        let found = rows::records_with_id(db, target)?;
        if !found.iter().any(|record| {
            let envelope = record.envelope();
            envelope.subject == new.subject && envelope.kind != Kind::ERASURE
        }) {
            return Err(StoreError::NoTarget(target));
        }
    }
    Ok(())
}
