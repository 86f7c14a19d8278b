//! The journal's tables: commits, records, bodies, and the keys of devices.

use journal::{BodyHash, Commit, CommitId, EnvelopeHash, Record, RecordId, SubjectId};
use rusqlite::{Connection, OptionalExtension, Row, params};

use crate::error::StoreError;
use crate::summary;

/// A commit and a record are told apart by their hash, not their id alone: an id is chosen by
/// its maker, and a hostile or copied device may give one id to two envelopes. Both are kept, or
/// two stores could hold different ones. A record need not have its body, a commit not all of its
/// records.
pub(crate) const TABLES_1: &str = "
CREATE TABLE device (
    id BLOB PRIMARY KEY CHECK (length(id) = 32),
    public_key BLOB NOT NULL CHECK (length(public_key) = 32)
) STRICT;
CREATE TABLE commit_ (
    seq INTEGER PRIMARY KEY,
    id BLOB NOT NULL CHECK (length(id) = 16),
    hash BLOB NOT NULL UNIQUE CHECK (length(hash) = 32),
    device BLOB NOT NULL REFERENCES device (id),
    wall_time INTEGER NOT NULL,
    bytes BLOB NOT NULL
) STRICT;
CREATE INDEX commit_by_device ON commit_ (device, seq);
CREATE INDEX commit_by_id ON commit_ (id);
CREATE TABLE commit_record (
    commit_seq INTEGER NOT NULL REFERENCES commit_ (seq),
    position INTEGER NOT NULL,
    record_id BLOB NOT NULL CHECK (length(record_id) = 16),
    record_hash BLOB NOT NULL CHECK (length(record_hash) = 32),
    PRIMARY KEY (commit_seq, position)
) STRICT, WITHOUT ROWID;
CREATE INDEX commit_by_record ON commit_record (record_hash);
CREATE TABLE record (
    seq INTEGER PRIMARY KEY,
    id BLOB NOT NULL CHECK (length(id) = 16),
    hash BLOB NOT NULL UNIQUE CHECK (length(hash) = 32),
    subject BLOB NOT NULL CHECK (length(subject) = 16),
    kind TEXT NOT NULL,
    kind_version INTEGER NOT NULL,
    device BLOB NOT NULL CHECK (length(device) = 32),
    clock_millis INTEGER NOT NULL,
    clock_counter INTEGER NOT NULL,
    body_hash BLOB NOT NULL CHECK (length(body_hash) = 32),
    bytes BLOB NOT NULL
) STRICT;
CREATE INDEX record_by_id ON record (id);
CREATE INDEX record_by_subject ON record (subject);
CREATE INDEX record_by_body ON record (body_hash);
CREATE TABLE body (
    hash BLOB PRIMARY KEY CHECK (length(hash) = 32),
    bytes BLOB NOT NULL
) STRICT;
";

/// Adds a commit; false if it was there.
pub(crate) fn insert_commit(db: &Connection, commit: &Commit) -> Result<bool, StoreError> {
    let device = commit.device();
    db.prepare_cached("INSERT OR IGNORE INTO device (id, public_key) VALUES (?1, ?2)")?
        .execute(params![device.as_bytes(), commit.public_key().as_bytes()])?;
    let added = db
        .prepare_cached(
            "INSERT INTO commit_ (id, hash, device, wall_time, bytes) VALUES (?1, ?2, ?3, ?4, ?5)
             ON CONFLICT (hash) DO NOTHING",
        )?
        .execute(params![
            commit.id().as_bytes(),
            commit.hash().as_bytes(),
            device.as_bytes(),
            commit.wall_time().unix_ms(),
            commit.bytes()
        ])?;
    if added == 0 {
        return Ok(false);
    }
    let seq = db.last_insert_rowid();
    let mut insert = db.prepare_cached(
        "INSERT INTO commit_record (commit_seq, position, record_id, record_hash)
         VALUES (?1, ?2, ?3, ?4)",
    )?;
    for (position, (id, hash)) in (0_i64..).zip(commit.records()) {
        insert.execute(params![seq, position, id.as_bytes(), hash.as_bytes()])?;
    }
    Ok(true)
}

/// Adds a record; false if it was there.
pub(crate) fn insert_record(db: &Connection, record: &Record) -> Result<bool, StoreError> {
    let envelope = record.envelope();
    let added = db
        .prepare_cached(
            "INSERT INTO record (id, hash, subject, kind, kind_version, device, clock_millis,
                 clock_counter, body_hash, bytes)
             VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)
             ON CONFLICT (hash) DO NOTHING",
        )?
        .execute(params![
            envelope.id.as_bytes(),
            record.hash().as_bytes(),
            envelope.subject.as_bytes(),
            envelope.kind.as_str(),
            envelope.kind_version,
            envelope.device.as_bytes(),
            // At most 2^53 - 1 by construction.
            i64::try_from(envelope.clock.millis()).unwrap_or(i64::MAX),
            envelope.clock.counter(),
            envelope.body_hash.as_bytes(),
            record.bytes()
        ])?;
    if added == 1 {
        summary::add_author(db, envelope.device, envelope.author)?;
    }
    Ok(added == 1)
}

/// The highest row number of a record; 0 if there is none.
pub(crate) fn last_record(db: &Connection) -> Result<i64, StoreError> {
    Ok(db
        .prepare_cached("SELECT coalesce(max(seq), 0) FROM record")?
        .query_row([], |row| row.get(0))?)
}

/// Whether one of this hash is in a table that has a column of that name.
pub(crate) fn has(db: &Connection, table: &str, hash: &[u8; 32]) -> Result<bool, StoreError> {
    Ok(db
        .prepare_cached(&format!("SELECT 1 FROM {table} WHERE hash = ?1"))?
        .exists([hash])?)
}

/// Adds a body; false if it was there.
pub(crate) fn insert_body(
    db: &Connection,
    hash: BodyHash,
    bytes: &[u8],
) -> Result<bool, StoreError> {
    let added = db
        .prepare_cached(
            "INSERT INTO body (hash, bytes) VALUES (?1, ?2) ON CONFLICT (hash) DO NOTHING",
        )?
        .execute(params![hash.as_bytes(), bytes])?;
    Ok(added == 1)
}

/// A body as it came, salt included.
pub(crate) fn body(db: &Connection, hash: BodyHash) -> Result<Option<Vec<u8>>, StoreError> {
    Ok(db
        .prepare_cached("SELECT bytes FROM body WHERE hash = ?1")?
        .query_row([hash.as_bytes()], |row| row.get(0))
        .optional()?)
}

/// Reads a record from a column with its canonical bytes.
pub(crate) fn record_from(row: &Row<'_>, column: &str) -> Result<Record, StoreError> {
    let bytes = row
        .get_ref(column)?
        .as_blob()
        .map_err(|e| StoreError::Damaged(e.to_string()))?;
    Record::parse(bytes).map_err(|error| StoreError::Damaged(format!("a record is {error}")))
}

/// Reads a commit from a column with its canonical bytes.
pub(crate) fn commit_from(row: &Row<'_>, column: &str) -> Result<Commit, StoreError> {
    let bytes = row
        .get_ref(column)?
        .as_blob()
        .map_err(|e| StoreError::Damaged(e.to_string()))?;
    Commit::parse(bytes).map_err(|error| StoreError::Damaged(format!("a commit is {error}")))
}

/// The records of a subject with their row numbers, in no order.
pub(crate) fn records_of_subject(
    db: &Connection,
    subject: SubjectId,
) -> Result<Vec<(i64, Record)>, StoreError> {
    let mut query = db.prepare_cached("SELECT seq, bytes FROM record WHERE subject = ?1")?;
    let mut rows = query.query([subject.as_bytes()])?;
    let mut records = Vec::new();
    while let Some(row) = rows.next()? {
        records.push((row.get(0)?, record_from(row, "bytes")?));
    }
    Ok(records)
}

/// The records with this id: one, unless its maker gave the id twice.
pub(crate) fn records_with_id(db: &Connection, id: RecordId) -> Result<Vec<Record>, StoreError> {
    let mut query = db.prepare_cached("SELECT bytes FROM record WHERE id = ?1 ORDER BY hash")?;
    let mut rows = query.query([id.as_bytes()])?;
    let mut records = Vec::new();
    while let Some(row) = rows.next()? {
        records.push(record_from(row, "bytes")?);
    }
    Ok(records)
}

/// The records listed by the commits with this id, as far as they are here.
pub(crate) fn records_of_commit(db: &Connection, id: CommitId) -> Result<Vec<Record>, StoreError> {
    let mut query = db.prepare_cached(
        "SELECT record.bytes AS bytes FROM commit_
         JOIN commit_record ON commit_record.commit_seq = commit_.seq
         JOIN record ON record.hash = commit_record.record_hash
         WHERE commit_.id = ?1 ORDER BY commit_.seq, commit_record.position",
    )?;
    let mut rows = query.query([id.as_bytes()])?;
    let mut records = Vec::new();
    while let Some(row) = rows.next()? {
        records.push(record_from(row, "bytes")?);
    }
    Ok(records)
}

/// Calls `with` for each commit, by id.
pub(crate) fn each_commit(
    db: &Connection,
    mut with: impl FnMut(&Row<'_>) -> Result<(), StoreError>,
) -> Result<(), StoreError> {
    let mut query = db.prepare("SELECT id, hash, bytes FROM commit_ ORDER BY id, hash")?;
    let mut rows = query.query([])?;
    while let Some(row) = rows.next()? {
        with(row)?;
    }
    Ok(())
}

/// Calls `with` for each record, by id.
pub(crate) fn each_record(
    db: &Connection,
    mut with: impl FnMut(&Row<'_>) -> Result<(), StoreError>,
) -> Result<(), StoreError> {
    let mut query = db.prepare("SELECT * FROM record ORDER BY id, hash")?;
    let mut rows = query.query([])?;
    while let Some(row) = rows.next()? {
        with(row)?;
    }
    Ok(())
}

/// Every subject that a record is about.
pub(crate) fn all_subjects(db: &Connection) -> Result<Vec<SubjectId>, StoreError> {
    let mut query = db.prepare("SELECT DISTINCT subject FROM record ORDER BY subject")?;
    let rows = query.query_map([], |row| Ok(SubjectId::from_bytes(row.get(0)?)))?;
    Ok(rows.collect::<Result<_, _>>()?)
}

/// The hash in a column of a row.
pub(crate) fn hash_from(row: &Row<'_>, column: &str) -> Result<EnvelopeHash, StoreError> {
    Ok(EnvelopeHash::from_bytes(row.get(column)?))
}
