//! The one way into the journal.

use std::collections::{BTreeMap, BTreeSet};

use journal::{DeviceId, Kind, SubjectId};
use rusqlite::{Connection, Transaction, TransactionBehavior, params};

use crate::error::StoreError;
use crate::items::{Item, Items};
use crate::open::Store;
use crate::projection::{self, Projection, Projector};
use crate::{erase, local, rows, summary};

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
    /// Bodies that were here and that the batch's erasures took.
    pub erased_bodies: usize,
    /// Bodies that the batch holds and that are not taken in, since they were erased.
    pub refused_bodies: usize,
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

/// One that a batch held: in which table, its hash, and whether it was not here.
pub(crate) struct Came<'a> {
    pub what: &'static str,
    pub hash: &'a [u8; 32],
    pub new: bool,
}

/// Memory for pages while much is written, in KiB: hashes fall anywhere in their tables, and each
/// page that must be read again costs more than its row.
const PAGES_KIB: i32 = 48 << 10;

impl Store {
    /// Adds checked items in one transaction: a set union, so what was here already is passed
    /// over, and any order and repetition of batches leads to the same journal.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be written, or why the items can't be had; nothing is kept
    /// then.
    pub fn apply<I: Items>(&mut self, items: &I) -> Result<Applied, I::Error> {
        self.with_room(|db, projector| {
            let tx = begin(db)?;
            let applied = apply_in(&tx, projector, items, &mut |_| Ok(()))?;
            tx.commit().map_err(StoreError::from)?;
            Ok(applied)
        })
    }

    /// What [`Store::apply`] would do with these items. Changes nothing.
    ///
    /// # Errors
    /// As [`Store::apply`].
    pub fn plan<I: Items>(&mut self, items: &I) -> Result<Applied, I::Error> {
        self.with_room(|db, projector| {
            let tx = begin(db)?;
            let applied = apply_in(&tx, projector, items, &mut |_| Ok(()))?;
            tx.rollback().map_err(StoreError::from)?;
            Ok(applied)
        })
    }

    /// Whether [`Store::apply`] of these items would bring anything: [`Applied::is_nothing`] of
    /// [`Store::plan`], and no more, so it writes nothing and ends at the first item that is new.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read, or why the items can't be had.
    pub fn would_gain<I: Items>(&self, items: &I) -> Result<bool, I::Error> {
        let db = &self.db;
        let some_erased = erase::any(db)?;
        let mut new = false;
        let went = items.each(&mut |item| {
            new = match item {
                Item::Commit(commit) => !rows::has(db, "commit_", commit.hash().as_bytes())?,
                Item::Record(record) => !rows::has(db, "record", record.hash().as_bytes())?,
                Item::Body(hash, _) => {
                    let refused = some_erased && erase::refuses(db, hash)?;
                    !refused && !rows::has(db, "body", hash.as_bytes())?
                }
            };
            // Any error ends the pass; this one is not told.
            if new {
                Err(StoreError::EmptyCommit)
            } else {
                Ok(())
            }
        });
        if new { Ok(true) } else { went.map(|()| false) }
    }

    /// Does something with more memory for pages than everyday work gets.
    pub(crate) fn with_room<T, E: From<StoreError>>(
        &mut self,
        act: impl FnOnce(&mut Connection, &dyn Projector) -> Result<T, E>,
    ) -> Result<T, E> {
        let usual: i32 = self
            .db
            .pragma_query_value(None, "cache_size", |row| row.get(0))
            .map_err(StoreError::from)?;
        let set = |db: &Connection, size: i32| {
            db.pragma_update(None, "cache_size", size)
                .map_err(StoreError::from)
        };
        set(&self.db, -PAGES_KIB)?;
        let done = act(&mut self.db, &*self.projector);
        set(&self.db, usual)?;
        done
    }
}

/// An immediate transaction.
pub(crate) fn begin(db: &mut Connection) -> Result<Transaction<'_>, StoreError> {
    Ok(db.transaction_with_behavior(TransactionBehavior::Immediate)?)
}

/// Adds items, and tells `came` of each. Belongs in an immediate transaction.
pub(crate) fn apply_in<I: Items>(
    db: &Connection,
    projector: &dyn Projector,
    items: &I,
    came: &mut dyn FnMut(Came<'_>) -> Result<(), StoreError>,
) -> Result<Applied, I::Error> {
    let mut applied = Applied::default();
    let mut touched = BTreeSet::new();
    let mut clock = local::clock(db)?;
    let mut erasures = BTreeMap::new();
    let mut pairs = BTreeSet::new();
    let mut some_erased = erase::any(db)?;
    // Records that come now have greater numbers, and their subjects are touched anyway.
    let last = rows::last_record(db)?;
    items.each(&mut |item| {
        let (what, hash, new) = match item {
            Item::Commit(commit) => {
                *applied.signers.entry(commit.device()).or_default() += 1;
                let new = rows::insert_commit(db, commit)?;
                *(if new {
                    &mut applied.new_commits
                } else {
                    &mut applied.same_commits
                }) += 1;
                ("commit", *commit.hash().as_bytes(), new)
            }
            Item::Record(record) => {
                let envelope = record.envelope();
                // Even one that was here: a file put back from a copy may have an older clock.
                clock.observe(envelope.clock);
                if envelope.kind == Kind::ERASURE {
                    // Two that say the same share a body.
                    let same: &mut Vec<_> = erasures.entry(envelope.body_hash).or_default();
                    same.push(record.clone());
                }
                let new = rows::insert_record(db, record)?;
                if new {
                    applied.new_records += 1;
                    touched.insert(envelope.subject);
                    let (kind, version) = (&envelope.kind, envelope.kind_version);
                    if *kind != Kind::VOID && !projector.reads(kind, version) {
                        *applied.unknown.entry((kind.clone(), version)).or_default() += 1;
                    }
                } else {
                    applied.same_records += 1;
                }
                ("record", *record.hash().as_bytes(), new)
            }
            Item::Body(hash, bytes) => {
                if let Some(same) = erasures.get(&hash) {
                    for record in same {
                        pairs.extend(erase::learn(db, projector, record, bytes)?);
                    }
                    some_erased = true;
                } else if some_erased && erase::refuses(db, hash)? {
                    applied.refused_bodies += 1;
                    return Ok(());
                }
                let new = rows::insert_body(db, hash, bytes)?;
                if new {
                    applied.new_bodies += 1;
                    let mut owners = db.prepare_cached(
                        "SELECT subject FROM record WHERE body_hash = ?1 AND seq <= ?2",
                    )?;
                    let owners = owners.query_map(params![hash.as_bytes(), last], |row| {
                        Ok(SubjectId::from_bytes(row.get(0)?))
                    })?;
                    for owner in owners {
                        touched.insert(owner?);
                    }
                }
                ("body", *hash.as_bytes(), new)
            }
        };
        came(Came {
            what,
            hash: &hash,
            new,
        })
    })?;
    // Bodies come in the order of their hashes, so some may have come before the erasure that
    // takes them; within this transaction they go again.
    let swept = erase::sweep(db, projector, &pairs)?;
    applied.erased_bodies = swept.bodies;
    touched.extend(swept.subjects);
    local::put_clock(db, clock)?;
    let mut listed = touched.clone();
    for subject in touched {
        let before = projection::kept(db, subject)?;
        let after = projection::compute(db, projector, subject)?;
        compare(subject, before.as_ref(), &after, &mut applied)?;
        listed.extend(before.as_ref().and_then(|before| before.place.parent));
        listed.extend(after.place.parent);
        match before {
            None => projection::keep_first(db, subject, &after)?,
            Some(before) if before != after => projection::keep(db, subject, &before, &after)?,
            Some(_) => {}
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
