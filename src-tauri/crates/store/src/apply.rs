//! The one way into the journal.

use std::collections::{BTreeMap, BTreeSet};

use journal::{CheckedBatch, DeviceId, Kind, SubjectId};
use rusqlite::{Connection, TransactionBehavior};

use crate::error::StoreError;
use crate::open::Store;
use crate::projection::{self, Projection, Projector};
use crate::{local, rows, summary};

/// What a batch brought, or would bring.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Applied {
    /// Commits that were not here.
    pub new_commits: usize,
    /// Commits that were here already.
    pub same_commits: usize,
    /// Records that were not here.
    pub new_records: usize,
    /// Records that were here already.
    pub same_records: usize,
    /// Bodies that were not here, for new records or for ones whose body had been withheld.
    pub new_bodies: usize,
    /// Subjects that were not here.
    pub new_subjects: BTreeSet<SubjectId>,
    /// Subjects that were here and have changed.
    pub changed_subjects: BTreeSet<SubjectId>,
    /// What stood for these subjects and kinds no longer leads: something newer does.
    pub newer: BTreeSet<(SubjectId, Kind)>,
    /// Where values now stand beside each other that did not know of each other, and didn't stand
    /// so before.
    pub concurrent: BTreeSet<(SubjectId, Kind)>,
    /// New records of kinds or kind versions that this program doesn't read, and how many. They
    /// are kept and passed on.
    pub unknown: BTreeMap<(Kind, u32), usize>,
    /// The devices that signed the commits, and how many commits each.
    pub signers: BTreeMap<DeviceId, usize>,
}

impl Applied {
    /// Whether the batch brought nothing at all.
    #[must_use]
    pub const fn is_nothing(&self) -> bool {
        self.new_commits == 0 && self.new_records == 0 && self.new_bodies == 0
    }
}

impl Store {
    /// Adds a checked batch in one transaction: a set union, so what was here already is passed
    /// over, and any order and repetition of batches leads to the same journal.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be written; nothing is kept then.
    pub fn apply(&mut self, batch: &CheckedBatch) -> Result<Applied, StoreError> {
        let tx = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        let applied = apply_in(&tx, &*self.projector, batch)?;
        tx.commit()?;
        Ok(applied)
    }

    /// What [`Store::apply`] would do with this batch. Changes nothing.
    ///
    /// # Errors
    /// As [`Store::apply`].
    pub fn plan(&mut self, batch: &CheckedBatch) -> Result<Applied, StoreError> {
        let tx = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        let applied = apply_in(&tx, &*self.projector, batch)?;
        tx.rollback()?;
        Ok(applied)
    }
}

/// Adds a batch. Belongs in an immediate transaction.
pub(crate) fn apply_in(
    db: &Connection,
    projector: &dyn Projector,
    batch: &CheckedBatch,
) -> Result<Applied, StoreError> {
    let mut applied = Applied::default();
    let mut touched = BTreeSet::new();
    let mut clock = local::clock(db)?;
    for commit in batch.commits() {
        *applied.signers.entry(commit.device()).or_default() += 1;
        let new = rows::insert_commit(db, commit)?;
        *(if new {
            &mut applied.new_commits
        } else {
            &mut applied.same_commits
        }) += 1;
    }
    for record in batch.records() {
        let envelope = record.envelope();
        // Even one that was here: a file put back from a copy may have an older clock.
        clock.observe(envelope.clock);
        if !rows::insert_record(db, record)? {
            applied.same_records += 1;
            continue;
        }
        applied.new_records += 1;
        touched.insert(envelope.subject);
        let (kind, version) = (&envelope.kind, envelope.kind_version);
        if *kind != Kind::VOID && !projector.reads(kind, version) {
            *applied.unknown.entry((kind.clone(), version)).or_default() += 1;
        }
    }
    for (&hash, bytes) in batch.bodies() {
        if rows::insert_body(db, hash, bytes)? {
            applied.new_bodies += 1;
            let mut owners =
                db.prepare_cached("SELECT DISTINCT subject FROM record WHERE body_hash = ?1")?;
            let owners = owners.query_map([hash.as_bytes()], |row| {
                Ok(SubjectId::from_bytes(row.get(0)?))
            })?;
            for owner in owners {
                touched.insert(owner?);
            }
        }
    }
    local::put_clock(db, clock)?;
    let mut listed = touched.clone();
    for subject in touched {
        let before = projection::kept(db, subject)?;
        let after = projection::compute(db, projector, subject)?;
        compare(subject, before.as_ref(), &after, &mut applied)?;
        listed.extend(before.as_ref().and_then(|before| before.place.parent));
        listed.extend(after.place.parent);
        if before.as_ref() != Some(&after) {
            projection::keep(db, subject, &after)?;
        }
    }
    // Once each, after all of them: a job of many tests is summed up once.
    summary::renew_of(db, projector, &listed)?;
    Ok(applied)
}

fn compare(
    subject: SubjectId,
    before: Option<&Projection>,
    after: &Projection,
    applied: &mut Applied,
) -> Result<(), StoreError> {
    match before {
        None => applied.new_subjects.insert(subject),
        Some(_) => applied.changed_subjects.insert(subject),
    };
    /// For each kind: the leading record, and whether others stand beside it unawares.
    fn leads(projection: &Projection) -> BTreeMap<&str, (i64, bool)> {
        let lines = projection.standing.iter();
        lines
            .map(|line| (line.kind.as_str(), (line.record, line.concurrent)))
            .collect()
    }
    let before = before.map(leads).unwrap_or_default();
    for (name, (record, concurrent)) in leads(after) {
        let kind = || -> Result<Kind, StoreError> { Ok(name.parse()?) };
        let was = before.get(name);
        if was.is_some_and(|&(old, _)| old != record) {
            applied.newer.insert((subject, kind()?));
        }
        if concurrent && !was.is_some_and(|&(_, before)| before) {
            applied.concurrent.insert((subject, kind()?));
        }
    }
    Ok(())
}
