//! Erasing bodies for good: which ones go, and that their bytes leave the file.
//!
//! What is erased follows from the journal ([`journal::erasure`]); the table `erased` is its
//! projection. The transaction that takes an erasure in also takes the bodies out, with what the
//! search index and half-typed input hold of them. Then the file is written anew
//! ([`Store::scrub`]): `secure_delete` overwrites a deleted row, but not what a page kept of it
//! when its rows were moved about, nor what the log holds until it is folded in. That this is still
//! to be done is kept in the same transaction, so a crash between the two forgets nothing. The
//! files that an erased body named go with that too, unless another body names them.

use std::collections::BTreeSet;

use journal::{
    AttachmentHash, BodyHash, Commit, Envelope, Kind, PersonId, Record, RecordId, SubjectId,
    WallTime, body,
    erasure::{self, Erased, Erasure},
};
use rusqlite::{Connection, OptionalExtension, TransactionBehavior, params};

use crate::append::{NewRecord, Pen};
use crate::entropy::draw;
use crate::error::StoreError;
use crate::local;
use crate::open::Store;
use crate::projection::Projector;
use crate::read::StoredRecord;
use crate::rows;
use crate::scan::Needles;

/// A subject and a kind of its records.
type Pair = (SubjectId, String);

/// An erasure that was made here.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Erasing {
    /// The record that says so.
    pub record: RecordId,
    /// How many bodies went.
    pub bodies: usize,
    /// How many drafts went with them.
    pub drafts: usize,
    /// What went, text by text, for looking whether any of it is left. Kept nowhere.
    pub texts: BTreeSet<String>,
}

impl Store {
    /// The records of these subjects and kinds whose bodies are here and may be erased, whether
    /// they stand or not.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn erasable(&self, about: &[Erased]) -> Result<Vec<StoredRecord>, StoreError> {
        let mut found = Vec::new();
        for one in about {
            for entry in self.records_of(one.subject)? {
                let kind = &entry.stored.envelope().kind;
                if one.kinds.contains(kind)
                    && self.projector.erasable(kind)
                    && entry.stored.body().is_some()
                {
                    found.push(entry.stored);
                }
            }
        }
        Ok(found)
    }

    /// Erases what was ever said about these subjects in these kinds, and makes the record of it.
    /// Can't be undone. [`Store::scrub`] is to follow.
    ///
    /// # Errors
    /// [`StoreError::EmptyCommit`] if nothing may be erased; [`StoreError`] if the file can't be
    /// written. Nothing has changed then.
    pub fn erase(
        &mut self,
        about: Vec<Erased>,
        author: PersonId,
        now: WallTime,
    ) -> Result<Erasing, StoreError> {
        let going = self.erasable(&about)?;
        let named = about
            .iter()
            .flat_map(|one| &one.kinds)
            .any(|kind| self.projector.erasable(kind));
        if !named {
            return Err(StoreError::EmptyCommit);
        }
        let erasure = Erasure {
            about,
            records: going.iter().map(StoredRecord::id).collect(),
        };
        let mut texts = BTreeSet::new();
        for record in &going {
            if let Some(body) = record.body() {
                texts.extend(self.projector.words(&record.envelope().kind, body));
            }
        }
        let subject = SubjectId::new(now.unsigned_ms(), &draw(&mut *self.entropy)?);
        let record = NewRecord {
            subject,
            kind: Kind::ERASURE,
            kind_version: Erasure::VERSION,
            supersedes: Vec::new(),
            body: serde_json::to_vec(&erasure)
                .map_err(|error| StoreError::Damaged(error.to_string()))?,
            personal: false,
        };
        let tx = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        let drafts = count(&tx, "draft")?;
        let mut pen = Pen {
            projector: &*self.projector,
            entropy: &mut *self.entropy,
            key: &self.key,
            author,
            now,
        };
        let commit: Commit = pen.write(&tx, journal::Action::Edit, vec![record])?;
        let drafts = drafts - count(&tx, "draft")?;
        tx.commit()?;
        let (record, _) = commit.records()[0];
        Ok(Erasing {
            record,
            bodies: going.len(),
            drafts,
            texts,
        })
    }

    /// The erasures known here, with their records, by the order in which they came.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn erasures(&self) -> Result<Vec<(StoredRecord, Erasure)>, StoreError> {
        let mut query = self.db.prepare_cached(
            "SELECT record.seq AS seq, record.bytes AS bytes, body.bytes AS body FROM record
             JOIN body ON body.hash = record.body_hash
             WHERE record.id IN (SELECT erasure FROM erased) AND record.kind = 'erasure'
             ORDER BY record.seq",
        )?;
        let mut rows = query.query([])?;
        let mut found = Vec::new();
        while let Some(row) = rows.next()? {
            let stored = StoredRecord::of(row)?;
            let erasure = stored
                .body()
                .and_then(|body| Erasure::read(stored.envelope(), body));
            found.extend(erasure.map(|erasure| (stored, erasure)));
        }
        Ok(found)
    }

    /// What is here that still says any of this: subjects and kinds of records whose bodies hold it.
    /// Reads every body.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn saying(&self, needles: &Needles) -> Result<BTreeSet<(SubjectId, String)>, StoreError> {
        let mut query = self.db.prepare(
            "SELECT subject, kind, body.bytes FROM record JOIN body ON body.hash = body_hash",
        )?;
        let mut rows = query.query([])?;
        let mut found = BTreeSet::new();
        while let Some(row) = rows.next()? {
            let bytes = row.get_ref(2)?.as_blob().unwrap_or_default();
            if needles.are_in(bytes) {
                found.insert((SubjectId::from_bytes(row.get(0)?), row.get(1)?));
            }
        }
        Ok(found)
    }

    /// The erasures that a subject's records of a kind are subject to.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn erasures_of(
        &self,
        subject: SubjectId,
        kind: &Kind,
    ) -> Result<Vec<RecordId>, StoreError> {
        known(&self.db, subject, kind)
    }

    /// Whether bytes of something that was erased may still lie in the file.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn scrub_is_due(&self) -> Result<bool, StoreError> {
        Ok(self
            .db
            .query_row("SELECT 1 FROM scrub", [], |_| Ok(()))
            .optional()?
            .is_some())
    }

    /// Takes away the attachments that were erased, writes the file anew and empties its log, if
    /// something was erased since this was last done. False if another process hinders any of it;
    /// it is then still due. Not to be called while this process adds attachments.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be written.
    pub fn scrub(&mut self) -> Result<bool, StoreError> {
        if !self.scrub_is_due()? {
            return Ok(true);
        }
        let files_gone = self.erase_freed()?;
        let anew = self
            .db
            .execute_batch("INSERT INTO summary_search (summary_search) VALUES ('rebuild'); VACUUM")
            .map_err(StoreError::from);
        match anew {
            Err(StoreError::Locked) => return Ok(false),
            other => other?,
        }
        if !self.empty_log()? || !files_gone {
            return Ok(false);
        }
        self.db.execute("DELETE FROM scrub", [])?;
        // What this left in the log says nothing of anybody.
        self.empty_log()?;
        Ok(true)
    }

    /// Takes away the files that erased bodies named, but for those that some body still names;
    /// false while another process adds some.
    fn erase_freed(&self) -> Result<bool, StoreError> {
        let freed = {
            let mut query = self.db.prepare("SELECT hash FROM freed")?;
            let freed = query.query_map([], |row| Ok(AttachmentHash::from_bytes(row.get(0)?)))?;
            freed.collect::<Result<BTreeSet<_>, _>>()?
        };
        if freed.is_empty() {
            return Ok(true);
        }
        if let Ok(attachments) = self.attachments() {
            match attachments.erase(&*self.projector, &freed) {
                Err(StoreError::Locked) => return Ok(false),
                gone => gone?,
            };
        }
        let mut forget = self.db.prepare("DELETE FROM freed WHERE hash = ?1")?;
        for hash in &freed {
            forget.execute([hash.as_bytes()])?;
        }
        Ok(true)
    }

    /// How long to wait for another handle before something is refused.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be worked with.
    pub fn set_patience(&self, patience: std::time::Duration) -> Result<(), StoreError> {
        Ok(self.db.busy_timeout(patience)?)
    }

    fn empty_log(&self) -> Result<bool, StoreError> {
        let busy: i64 = self
            .db
            .query_row("PRAGMA wal_checkpoint(TRUNCATE)", [], |row| row.get(0))?;
        Ok(busy == 0)
    }
}

fn count(db: &Connection, table: &str) -> Result<usize, StoreError> {
    let count: i64 = db.query_row(&format!("SELECT count(*) FROM {table}"), [], |row| {
        row.get(0)
    })?;
    Ok(usize::try_from(count).unwrap_or(0))
}

/// Whether there are erasures at all. A backup from before there could be has none.
pub(crate) fn any(db: &Connection) -> Result<bool, StoreError> {
    if !db
        .prepare_cached("SELECT 1 FROM sqlite_schema WHERE name = 'erased'")?
        .exists([])?
    {
        return Ok(false);
    }
    Ok(db
        .prepare_cached("SELECT EXISTS (SELECT 1 FROM erased)")?
        .query_row([], |row| row.get(0))?)
}

/// The erasures of a subject and kind, by id.
pub(crate) fn known(
    db: &Connection,
    subject: SubjectId,
    kind: &Kind,
) -> Result<Vec<RecordId>, StoreError> {
    let mut query = db.prepare_cached(
        "SELECT erasure FROM erased WHERE subject = ?1 AND kind = ?2 ORDER BY erasure",
    )?;
    let found = query.query_map(params![subject.as_bytes(), kind.as_str()], |row| {
        Ok(RecordId::from_bytes(row.get(0)?))
    })?;
    Ok(found.collect::<Result<_, _>>()?)
}

/// Whether an erasure takes this record's body.
fn is_taken(db: &Connection, record: &Envelope) -> Result<bool, StoreError> {
    // An erasure that could be erased would say different things in different orders.
    if record.kind == Kind::ERASURE || record.kind == Kind::VOID {
        return Ok(false);
    }
    let known = known(db, record.subject, &record.kind)?;
    Ok(known.iter().any(|&one| erasure::takes(one, record)))
}

/// Whether a body may not be here: some record has it, and each that does was erased.
pub(crate) fn refuses(db: &Connection, hash: BodyHash) -> Result<bool, StoreError> {
    let mut query = db.prepare_cached("SELECT bytes FROM record WHERE body_hash = ?1")?;
    let mut rows = query.query([hash.as_bytes()])?;
    let mut some = false;
    while let Some(row) = rows.next()? {
        let record = rows::record_from(row, "bytes")?;
        if !is_taken(db, record.envelope())? {
            return Ok(false);
        }
        some = true;
    }
    Ok(some)
}

/// Takes note of an erasure; gives the subjects and kinds that it names.
pub(crate) fn learn(
    db: &Connection,
    projector: &dyn Projector,
    record: &Record,
    bytes: &[u8],
) -> Result<BTreeSet<Pair>, StoreError> {
    let mut pairs = BTreeSet::new();
    let Some(erasure) = Erasure::read(record.envelope(), body::content(bytes)) else {
        return Ok(pairs);
    };
    let mut insert = db.prepare_cached(
        "INSERT INTO erased (subject, kind, erasure) VALUES (?1, ?2, ?3) ON CONFLICT DO NOTHING",
    )?;
    for (subject, kind) in erasure.pairs() {
        if projector.erasable(kind) {
            insert.execute(params![
                subject.as_bytes(),
                kind.as_str(),
                record.id().as_bytes()
            ])?;
            pairs.insert((subject, kind.as_str().to_owned()));
        }
    }
    Ok(pairs)
}

/// What was taken out.
#[derive(Debug, Default)]
pub(crate) struct Swept {
    pub bodies: usize,
    /// The subjects that lost something.
    pub subjects: BTreeSet<SubjectId>,
}

/// Takes out the bodies that erasures take of these subjects and kinds, and drafts that hold the
/// same text or are of the same thing.
pub(crate) fn sweep(
    db: &Connection,
    projector: &dyn Projector,
    pairs: &BTreeSet<Pair>,
) -> Result<Swept, StoreError> {
    let mut swept = Swept::default();
    let mut texts = BTreeSet::new();
    let with_attachments = projector.kinds_with_attachments();
    for (subject, name) in pairs {
        let kind: Kind = name.parse()?;
        for (_, record) in rows::records_of_subject(db, *subject)? {
            let envelope = record.envelope();
            if envelope.kind != kind {
                continue;
            }
            let Some(bytes) = rows::body(db, envelope.body_hash)? else {
                continue;
            };
            if !refuses(db, envelope.body_hash)? {
                continue;
            }
            let content = body::content(&bytes);
            texts.extend(projector.words(&kind, content));
            if with_attachments.contains(&kind) {
                free(db, &projector.attachments(&kind, content))?;
            }
            db.prepare_cached("DELETE FROM body WHERE hash = ?1")?
                .execute([envelope.body_hash.as_bytes()])?;
            swept.bodies += 1;
            let mut owners =
                db.prepare_cached("SELECT DISTINCT subject FROM record WHERE body_hash = ?1")?;
            for owner in owners.query_map([envelope.body_hash.as_bytes()], |row| {
                Ok(SubjectId::from_bytes(row.get(0)?))
            })? {
                swept.subjects.insert(owner?);
            }
        }
        if let Some(key) = projector.draft_of(*subject, &kind) {
            let gone = db.execute("DELETE FROM draft WHERE key = ?1", [key])?;
            swept_drafts(db, gone)?;
        }
    }
    let gone = local::drop_drafts_with(db, &texts)?;
    swept_drafts(db, gone)?;
    if swept.bodies > 0 {
        make_due(db)?;
    }
    Ok(swept)
}

/// Takes note of files that are to go. A crash before they are gone forgets none of them, though
/// by then nothing else in the store names them.
fn free(db: &Connection, attachments: &[AttachmentHash]) -> Result<(), StoreError> {
    let mut insert = db.prepare_cached("INSERT OR IGNORE INTO freed (hash) VALUES (?1)")?;
    for hash in attachments {
        insert.execute([hash.as_bytes()])?;
    }
    Ok(())
}

fn swept_drafts(db: &Connection, gone: usize) -> Result<(), StoreError> {
    if gone > 0 { make_due(db) } else { Ok(()) }
}

fn make_due(db: &Connection) -> Result<(), StoreError> {
    db.execute("INSERT OR IGNORE INTO scrub (only) VALUES (1)", [])?;
    Ok(())
}

/// Every subject and kind of which something is erased.
pub(crate) fn all_pairs(db: &Connection) -> Result<BTreeSet<Pair>, StoreError> {
    let mut query = db.prepare("SELECT DISTINCT subject, kind FROM erased")?;
    let found = query.query_map([], |row| {
        Ok((SubjectId::from_bytes(row.get(0)?), row.get(1)?))
    })?;
    Ok(found.collect::<Result<_, _>>()?)
}

/// Makes the table anew from the journal, and takes out what should not be here.
pub(crate) fn renew(db: &Connection, projector: &dyn Projector) -> Result<(), StoreError> {
    db.execute("DELETE FROM erased", [])?;
    let mut pairs = BTreeSet::new();
    for (record, bytes) in on_record(db)? {
        pairs.extend(learn(db, projector, &record, &bytes)?);
    }
    sweep(db, projector, &pairs)?;
    Ok(())
}

/// The erasures in the journal whose bodies are here.
fn on_record(db: &Connection) -> Result<Vec<(Record, Vec<u8>)>, StoreError> {
    let mut query = db.prepare("SELECT bytes FROM record WHERE kind = 'erasure'")?;
    let mut rows = query.query([])?;
    let mut found = Vec::new();
    while let Some(row) = rows.next()? {
        let record = rows::record_from(row, "bytes")?;
        if let Some(bytes) = rows::body(db, record.envelope().body_hash)? {
            found.push((record, bytes));
        }
    }
    Ok(found)
}

/// What the journal gives for the table, to compare with it.
pub(crate) fn replayed(
    db: &Connection,
    projector: &dyn Projector,
) -> Result<BTreeSet<(SubjectId, String, RecordId)>, StoreError> {
    let mut found = BTreeSet::new();
    for (record, bytes) in on_record(db)? {
        if let Some(erasure) = Erasure::read(record.envelope(), body::content(&bytes)) {
            for (subject, kind) in erasure.pairs().filter(|(_, kind)| projector.erasable(kind)) {
                found.insert((subject, kind.as_str().to_owned(), record.id()));
            }
        }
    }
    Ok(found)
}

/// The table as it is kept.
pub(crate) fn kept(db: &Connection) -> Result<BTreeSet<(SubjectId, String, RecordId)>, StoreError> {
    let mut query = db.prepare("SELECT subject, kind, erasure FROM erased")?;
    let found = query.query_map([], |row| {
        Ok((
            SubjectId::from_bytes(row.get(0)?),
            row.get(1)?,
            RecordId::from_bytes(row.get(2)?),
        ))
    })?;
    Ok(found.collect::<Result<_, _>>()?)
}
