//! What came from elsewhere, by which import, and taking an import out again.
//!
//! An import is remembered beside the journal: which commits, records and bodies it held, less
//! those that this store had of its own. Taking it out removes those that no other import held. It
//! is local: nothing of it is ever exported, and taking the same batch in again brings everything
//! back.

use std::collections::{BTreeMap, BTreeSet};

use journal::{DeviceId, EnvelopeHash, Kind, Record, SubjectId, WallTime, body};
use rusqlite::{Connection, OptionalExtension, TransactionBehavior, params};

use crate::apply::{Applied, Came, apply_in, begin};
use crate::error::StoreError;
use crate::items::Items;
use crate::open::Store;
use crate::projection::{self, Projector};
use crate::{erase, rows, summary};

pub(crate) const TABLES_1: &str = "
CREATE TABLE import_ (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    label TEXT NOT NULL,
    taken_in INTEGER NOT NULL
) STRICT;
CREATE TABLE import_item (
    what TEXT NOT NULL CHECK (what IN ('commit', 'record', 'body')),
    hash BLOB NOT NULL CHECK (length(hash) = 32),
    import INTEGER NOT NULL REFERENCES import_ (seq),
    PRIMARY KEY (what, hash, import)
) STRICT, WITHOUT ROWID;
CREATE INDEX import_item_by_import ON import_item (import);
";

/// One import that is here.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Import {
    /// Names it in this store; never given again.
    pub id: i64,
    /// What the layer above keeps with it.
    pub label: String,
    /// When it was taken in, by this device's clock.
    pub taken_in: WallTime,
    /// How many records it held.
    pub records: u64,
}

impl Store {
    /// As [`Store::apply`], and remembers what came by it under `label`, so that
    /// [`Store::remove_import`] can take it out. Items that bring nothing are not remembered.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be written, or why the items can't be had; nothing is kept
    /// then.
    pub fn take_in<I: Items>(
        &mut self,
        items: &I,
        label: &str,
        now: WallTime,
    ) -> Result<(Applied, Option<i64>), I::Error> {
        self.with_room(|db, projector| {
            let tx = begin(db)?;
            let import = remember(&tx, label, now)?;
            let applied = apply_in(&tx, projector, items, &mut |came| note(&tx, import, &came))?;
            let brought = !applied.is_nothing();
            if !brought {
                drop_notes(&tx, import)?;
            }
            tx.commit().map_err(StoreError::from)?;
            Ok((applied, brought.then_some(import)))
        })
    }

    /// Remembers as an import what these devices made and no import brought: it was taken in before
    /// imports were remembered. Never what this device made. A body counts if only their records
    /// have it. None if there is nothing of the kind.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be written; nothing is kept then.
    pub fn adopt(
        &mut self,
        devices: &BTreeSet<DeviceId>,
        label: &str,
        now: WallTime,
    ) -> Result<Option<i64>, StoreError> {
        let own = self.device();
        let tx = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        let import = remember(&tx, label, now)?;
        let mut adopted = 0;
        let questions = [
            "INSERT INTO import_item SELECT DISTINCT 'commit', hash, ?2 FROM commit_
             WHERE device = ?1 AND NOT EXISTS (SELECT 1 FROM import_item AS item
                 WHERE what = 'commit' AND item.hash = commit_.hash)",
            "INSERT INTO import_item SELECT DISTINCT 'record', hash, ?2 FROM record
             WHERE device = ?1 AND NOT EXISTS (SELECT 1 FROM import_item AS item
                 WHERE what = 'record' AND item.hash = record.hash)",
        ];
        for device in devices.iter().filter(|device| **device != own) {
            for question in questions {
                adopted += tx.execute(question, params![device.as_bytes(), import])?;
            }
        }
        if adopted == 0 {
            tx.rollback()?;
            return Ok(None);
        }
        tx.execute(
            "INSERT OR IGNORE INTO import_item SELECT 'body', hash, ?1 FROM body
             WHERE NOT EXISTS (SELECT 1 FROM import_item AS item
                 WHERE what = 'body' AND item.hash = body.hash)
             AND EXISTS (SELECT 1 FROM record WHERE body_hash = body.hash)
             AND NOT EXISTS (SELECT 1 FROM record WHERE body_hash = body.hash AND hash NOT IN
                 (SELECT hash FROM import_item WHERE what = 'record' AND import = ?1))",
            [import],
        )?;
        tx.commit()?;
        Ok(Some(import))
    }

    /// The imports that are here, the latest first.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn imports(&self) -> Result<Vec<Import>, StoreError> {
        let mut query = self.db.prepare_cached(
            "SELECT seq, label, taken_in, (SELECT count(*) FROM import_item
                 WHERE import = import_.seq AND what = 'record') AS records
             FROM import_ ORDER BY seq DESC",
        )?;
        let found = query.query_map([], |row| {
            Ok(Import {
                id: row.get(0)?,
                label: row.get(1)?,
                taken_in: WallTime::from_unix_ms(row.get(2)?),
                records: u64::try_from(row.get::<_, i64>(3)?).unwrap_or(0),
            })
        })?;
        Ok(found.collect::<Result<_, _>>()?)
    }

    /// What the layer above keeps with each import that is here.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn import_labels(&self) -> Result<Vec<String>, StoreError> {
        let mut query = self
            .db
            .prepare_cached("SELECT label FROM import_ ORDER BY seq")?;
        let labels = query.query_map([], |row| row.get(0))?;
        Ok(labels.collect::<Result<_, _>>()?)
    }

    /// Takes an import out again: all that came by it and by no other. What it replaced stands
    /// again. False if there is no such import.
    ///
    /// # Errors
    /// [`StoreError::BuiltUpon`] while other records build on it: ones that came later to one of
    /// its subjects, or that name a subject or an author who would be gone; undone ones count, as
    /// they may be brought back. [`StoreError`] if the file can't be written. Nothing has changed
    /// then.
    pub fn remove_import(&mut self, import: i64) -> Result<bool, StoreError> {
        let tx = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        let known = tx
            .query_row("SELECT 1 FROM import_ WHERE seq = ?1", [import], |_| Ok(()))
            .optional()?;
        if known.is_none() {
            return Ok(false);
        }
        let going = Going::find(&tx, import)?;
        going.check_nothing_builds_on_it(&tx, &*self.projector)?;
        going.remove(&tx, &*self.projector)?;
        drop_notes(&tx, import)?;
        tx.commit()?;
        Ok(true)
    }
}

fn remember(db: &Connection, label: &str, now: WallTime) -> Result<i64, StoreError> {
    db.execute(
        "INSERT INTO import_ (label, taken_in) VALUES (?1, ?2)",
        params![label, now.unix_ms()],
    )?;
    Ok(db.last_insert_rowid())
}

fn drop_notes(db: &Connection, import: i64) -> Result<(), StoreError> {
    db.execute("DELETE FROM import_item WHERE import = ?1", [import])?;
    db.execute("DELETE FROM import_ WHERE seq = ?1", [import])?;
    Ok(())
}

/// Notes that this came by an import, unless it is the store's own: it was here and came by no
/// import, so it was made here, or taken in before imports were remembered.
fn note(db: &Connection, import: i64, came: &Came<'_>) -> Result<(), StoreError> {
    let foreign = came.new
        || db
            .prepare_cached("SELECT 1 FROM import_item WHERE what = ?1 AND hash = ?2")?
            .exists(params![came.what, came.hash])?;
    if foreign {
        // A line that is in a bundle twice means the same as once.
        db.prepare_cached(
            "INSERT OR IGNORE INTO import_item (what, hash, import) VALUES (?1, ?2, ?3)",
        )?
        .execute(params![came.what, came.hash, import])?;
    }
    Ok(())
}

/// What would go with an import.
struct Going {
    commits: Vec<[u8; 32]>,
    bodies: Vec<[u8; 32]>,
    /// By row number.
    records: BTreeMap<i64, Record>,
    /// Each subject of these records, and when the first of them came.
    subjects: BTreeMap<SubjectId, i64>,
}

impl Going {
    fn find(db: &Connection, import: i64) -> Result<Self, StoreError> {
        let only = |what: &str| -> Result<Vec<[u8; 32]>, StoreError> {
            let mut query = db.prepare_cached(
                "SELECT hash FROM import_item AS item WHERE import = ?1 AND what = ?2 AND NOT EXISTS
                     (SELECT 1 FROM import_item AS other WHERE other.what = item.what
                      AND other.hash = item.hash AND other.import != ?1)",
            )?;
            let found = query.query_map(params![import, what], |row| row.get(0))?;
            Ok(found.collect::<Result<_, _>>()?)
        };
        let mut records = BTreeMap::new();
        let mut subjects = BTreeMap::new();
        let mut staying = BTreeSet::new();
        let mut query = db.prepare_cached("SELECT seq, bytes FROM record WHERE hash = ?1")?;
        for hash in only("record")? {
            let mut found = query.query([hash])?;
            while let Some(row) = found.next()? {
                let seq: i64 = row.get(0)?;
                let record = rows::record_from(row, "bytes")?;
                // What was erased stays erased, and the record of it stays.
                if record.envelope().kind == Kind::ERASURE {
                    staying.insert(record.hash());
                    continue;
                }
                let first = subjects.entry(record.envelope().subject).or_insert(seq);
                *first = seq.min(*first);
                records.insert(seq, record);
            }
        }
        let mut commits = only("commit")?;
        let mut listed = db.prepare_cached(
            "SELECT record_hash FROM commit_record JOIN commit_ ON commit_.seq = commit_seq
             WHERE commit_.hash = ?1",
        )?;
        let mut kept = BTreeSet::new();
        for hash in &commits {
            for record in listed.query_map([hash], |row| row.get::<_, [u8; 32]>(0))? {
                if staying.contains(&EnvelopeHash::from_bytes(record?)) {
                    kept.insert(*hash);
                }
            }
        }
        commits.retain(|hash| !kept.contains(hash));
        let mut bodies = only("body")?;
        for hash in &staying {
            let body: [u8; 32] = db.query_row(
                "SELECT body_hash FROM record WHERE hash = ?1",
                [hash.as_bytes()],
                |row| row.get(0),
            )?;
            bodies.retain(|hash| *hash != body);
        }
        Ok(Self {
            commits,
            bodies,
            records,
            subjects,
        })
    }

    fn check_nothing_builds_on_it(
        &self,
        db: &Connection,
        projector: &dyn Projector,
    ) -> Result<(), StoreError> {
        let mut staying = Vec::new();
        rows::each_record(db, |row| {
            let seq: i64 = row.get("seq")?;
            if !self.records.contains_key(&seq) {
                staying.push((seq, rows::record_from(row, "bytes")?));
            }
            Ok(())
        })?;
        let kept: BTreeSet<_> = staying
            .iter()
            .map(|(_, record)| record.envelope().subject)
            .collect();
        let gone =
            |subject: &SubjectId| self.subjects.contains_key(subject) && !kept.contains(subject);
        let mut builders = BTreeSet::new();
        for (seq, record) in &staying {
            let envelope = record.envelope();
            let later = self
                .subjects
                .get(&envelope.subject)
                .is_some_and(|first| seq > first);
            let names_gone = || -> Result<bool, StoreError> {
                let bytes = rows::body(db, envelope.body_hash)?;
                let named = bytes.map_or_else(Vec::new, |bytes| {
                    projector.refers(&envelope.kind, body::content(&bytes))
                });
                Ok(named.iter().any(gone))
            };
            // The record of an erasure stays, whoever made it.
            let by_gone = envelope.kind != Kind::ERASURE && gone(&SubjectId::from(envelope.author));
            if later || by_gone || names_gone()? {
                builders.insert(*seq);
            }
        }
        if builders.is_empty() {
            Ok(())
        } else {
            Err(StoreError::BuiltUpon {
                records: builders.len(),
            })
        }
    }

    fn remove(&self, db: &Connection, projector: &dyn Projector) -> Result<(), StoreError> {
        let mut touched: BTreeSet<SubjectId> = self.subjects.keys().copied().collect();
        let mut drop_standing = db.prepare_cached("DELETE FROM standing WHERE subject = ?1")?;
        for subject in &touched {
            drop_standing.execute([subject.as_bytes()])?;
        }
        let mut drop_record = db.prepare_cached("DELETE FROM record WHERE seq = ?1")?;
        for seq in self.records.keys() {
            drop_record.execute([seq])?;
        }
        for hash in &self.commits {
            db.prepare_cached(
                "DELETE FROM commit_record
                 WHERE commit_seq = (SELECT seq FROM commit_ WHERE hash = ?1)",
            )?
            .execute([hash])?;
            db.prepare_cached("DELETE FROM commit_ WHERE hash = ?1")?
                .execute([hash])?;
        }
        // A body that this import filled in for a record that stays is withheld again.
        for hash in &self.bodies {
            let mut owners =
                db.prepare_cached("SELECT DISTINCT subject FROM record WHERE body_hash = ?1")?;
            for owner in owners.query_map([hash], |row| Ok(SubjectId::from_bytes(row.get(0)?)))? {
                touched.insert(owner?);
            }
            db.prepare_cached("DELETE FROM body WHERE hash = ?1")?
                .execute([hash])?;
        }
        db.execute_batch(
            "DELETE FROM body WHERE hash NOT IN (SELECT body_hash FROM record);
             DELETE FROM device WHERE id NOT IN (SELECT device FROM commit_);",
        )?;
        touched.extend(erase::sweep(db, projector, &erase::all_pairs(db)?)?.subjects);
        let mut listed = touched.clone();
        for subject in touched {
            let before = projection::kept(db, subject)?;
            listed.extend(before.as_ref().and_then(|before| before.place.parent));
            if rows::records_of_subject(db, subject)?.is_empty() {
                forget(db, subject)?;
            } else {
                let now = projection::compute(db, projector, subject)?;
                listed.extend(now.place.parent);
                projection::keep(db, subject, &before.unwrap_or_default(), &now)?;
            }
        }
        summary::renew_of(db, projector, &listed)?;
        summary::renew_authors(db)
    }
}

/// Takes out a subject of which no record is left.
fn forget(db: &Connection, subject: SubjectId) -> Result<(), StoreError> {
    for question in [
        "DELETE FROM naming WHERE subject = ?1",
        "DELETE FROM subject WHERE id = ?1",
    ] {
        db.prepare_cached(question)?.execute([subject.as_bytes()])?;
    }
    Ok(())
}
