//! Reading: what stands, what belongs where, and what has happened.

use journal::{
    BodyHash, Commit, CommitId, DeviceId, Envelope, Fate, Kind, PublicKey, Record, RecordId,
    SubjectId, body, fold,
};
use rusqlite::{OptionalExtension, Row, params};

use crate::error::StoreError;
use crate::open::Store;
use crate::{projection, rows};

/// A record with its body.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct StoredRecord {
    record: Record,
    bytes: Option<Vec<u8>>,
}

impl StoredRecord {
    /// The envelope.
    #[must_use]
    pub const fn envelope(&self) -> &Envelope {
        self.record.envelope()
    }

    /// Names the record.
    #[must_use]
    pub const fn id(&self) -> RecordId {
        self.record.id()
    }

    /// The body's content, without its salt; none if it is withheld or erased.
    #[must_use]
    pub fn body(&self) -> Option<&[u8]> {
        self.bytes.as_deref().map(body::content)
    }

    /// Whether the body is here and about a person.
    #[must_use]
    pub fn is_personal(&self) -> bool {
        self.bytes.as_deref().is_some_and(body::is_personal)
    }
}

/// What stands for one subject and kind.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Standing {
    /// Records in effect, in order; the last leads. For a register more than one means that
    /// people wrote different values without knowing of each other.
    pub records: Vec<StoredRecord>,
    /// Whether that is so.
    pub concurrent: bool,
}

impl Standing {
    /// The leading record.
    #[must_use]
    pub fn lead(&self) -> Option<&StoredRecord> {
        self.records.last()
    }

    /// The records that an edit of this value replaces.
    #[must_use]
    pub fn ids(&self) -> Vec<RecordId> {
        self.records.iter().map(StoredRecord::id).collect()
    }
}

/// A record as it appears in a subject's history.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct HistoryEntry {
    /// The record and its body.
    pub stored: StoredRecord,
    /// What has become of it.
    pub fate: Fate,
}

const WITH_BODY: &str = "SELECT record.bytes AS bytes, body.bytes AS body";

impl StoredRecord {
    /// From a row with the columns `bytes` and `body`.
    pub(crate) fn of(row: &Row<'_>) -> Result<Self, StoreError> {
        stored_from(row)
    }
}

fn stored_from(row: &Row<'_>) -> Result<StoredRecord, StoreError> {
    Ok(StoredRecord {
        record: rows::record_from(row, "bytes")?,
        bytes: row.get("body")?,
    })
}

impl Store {
    /// What stands for a subject and kind; no record if nothing does. Whether the subject is
    /// removed doesn't matter here.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn standing(&self, subject: SubjectId, kind: &Kind) -> Result<Standing, StoreError> {
        let mut query = self.db.prepare_cached(&format!(
            "{WITH_BODY}, concurrent FROM standing
             JOIN record ON record.seq = standing.record
             LEFT JOIN body ON body.hash = record.body_hash
             WHERE standing.subject = ?1 AND standing.kind = ?2 ORDER BY position"
        ))?;
        let mut rows = query.query(params![subject.as_bytes(), kind.as_str()])?;
        let mut standing = Standing::default();
        while let Some(row) = rows.next()? {
            standing.records.push(stored_from(row)?);
            standing.concurrent = row.get("concurrent")?;
        }
        Ok(standing)
    }

    /// The records in effect for a subject and kind: what an edit now would replace.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn heads(&self, subject: SubjectId, kind: &Kind) -> Result<Vec<RecordId>, StoreError> {
        Ok(self.standing(subject, kind)?.ids())
    }

    /// Every subject that is not removed and has a record of this kind in effect, with what
    /// stands, by order key.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn standing_of_kind(&self, kind: &Kind) -> Result<Vec<(SubjectId, Standing)>, StoreError> {
        let mut query = self.db.prepare_cached(&format!(
            "{WITH_BODY}, concurrent, subject.id AS subject FROM standing
             JOIN subject ON subject.id = standing.subject
             JOIN record ON record.seq = standing.record
             LEFT JOIN body ON body.hash = record.body_hash
             WHERE standing.kind = ?1 AND removed = 0 ORDER BY order_key, subject.id, position"
        ))?;
        let mut rows = query.query([kind.as_str()])?;
        let mut found: Vec<(SubjectId, Standing)> = Vec::new();
        while let Some(row) = rows.next()? {
            let subject = SubjectId::from_bytes(row.get("subject")?);
            if found.last().is_none_or(|(last, _)| *last != subject) {
                found.push((subject, Standing::default()));
            }
            if let Some((_, standing)) = found.last_mut() {
                standing.records.push(stored_from(row)?);
                standing.concurrent = row.get("concurrent")?;
            }
        }
        Ok(found)
    }

    /// Every subject that is not removed and has a record of this kind in effect, by order key.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn subjects_of_kind(&self, kind: &Kind) -> Result<Vec<SubjectId>, StoreError> {
        let mut query = self.db.prepare_cached(
            "SELECT id FROM subject WHERE removed = 0 AND id IN
                 (SELECT subject FROM standing WHERE kind = ?1)
             ORDER BY order_key, id",
        )?;
        let found = query.query_map([kind.as_str()], |row| {
            Ok(SubjectId::from_bytes(row.get(0)?))
        })?;
        Ok(found.collect::<Result<_, _>>()?)
    }

    /// Every subject that is removed and has a record of this kind in effect.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn removed_of_kind(&self, kind: &Kind) -> Result<Vec<SubjectId>, StoreError> {
        let mut query = self.db.prepare_cached(
            "SELECT id FROM subject WHERE removed = 1 AND EXISTS
                 (SELECT 1 FROM standing WHERE subject = subject.id AND kind = ?1)
             ORDER BY order_key, id",
        )?;
        let found = query.query_map([kind.as_str()], |row| {
            Ok(SubjectId::from_bytes(row.get(0)?))
        })?;
        Ok(found.collect::<Result<_, _>>()?)
    }

    /// The parts of a subject that are not removed and have a record of this kind in effect, by
    /// order key. Doesn't ask whether the parent is removed.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn children(&self, parent: SubjectId, kind: &Kind) -> Result<Vec<SubjectId>, StoreError> {
        let mut query = self.db.prepare_cached(
            "SELECT id FROM subject WHERE parent = ?1 AND removed = 0 AND EXISTS
                 (SELECT 1 FROM standing WHERE subject = subject.id AND kind = ?2)
             ORDER BY order_key, id",
        )?;
        let found = query.query_map(params![parent.as_bytes(), kind.as_str()], |row| {
            Ok(SubjectId::from_bytes(row.get(0)?))
        })?;
        Ok(found.collect::<Result<_, _>>()?)
    }

    /// The subjects, not removed, whose records in effect name this one so that they are to be found
    /// by it ([`crate::Place::names`]) and which have a record of this kind in effect, by id: in the
    /// order in which they were made.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn naming(&self, named: SubjectId, kind: &Kind) -> Result<Vec<SubjectId>, StoreError> {
        let mut query = self.db.prepare_cached(
            "SELECT naming.subject FROM naming JOIN subject ON subject.id = naming.subject
             WHERE named = ?1 AND removed = 0 AND EXISTS
                 (SELECT 1 FROM standing WHERE subject = naming.subject AND kind = ?2)
             ORDER BY naming.subject",
        )?;
        let found = query.query_map(params![named.as_bytes(), kind.as_str()], |row| {
            Ok(SubjectId::from_bytes(row.get(0)?))
        })?;
        Ok(found.collect::<Result<_, _>>()?)
    }

    /// Every record of a kind whose body is here, whether it stands or not, in the order in which
    /// they came. Reads through all envelopes.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn ever_said(&self, kind: &Kind) -> Result<Vec<StoredRecord>, StoreError> {
        let mut query = self.db.prepare(
            "SELECT record.bytes AS bytes, body.bytes AS body FROM record
             JOIN body ON body.hash = record.body_hash WHERE kind = ?1 ORDER BY record.seq",
        )?;
        let mut rows = query.query([kind.as_str()])?;
        let mut found = Vec::new();
        while let Some(row) = rows.next()? {
            found.push(stored_from(row)?);
        }
        Ok(found)
    }

    /// A subject and everything that is part of it, at any depth, removed or not. A subject that
    /// a hostile record made part of itself is met once.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn descendants(&self, subject: SubjectId) -> Result<Vec<SubjectId>, StoreError> {
        let mut query = self.db.prepare_cached(
            "WITH RECURSIVE part (id) AS (
                 VALUES (?1)
                 UNION SELECT subject.id FROM subject JOIN part ON subject.parent = part.id
             ) SELECT id FROM part ORDER BY id",
        )?;
        let found = query.query_map([subject.as_bytes()], |row| {
            Ok(SubjectId::from_bytes(row.get(0)?))
        })?;
        Ok(found.collect::<Result<_, _>>()?)
    }

    /// What a subject is part of.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn parent(&self, subject: SubjectId) -> Result<Option<SubjectId>, StoreError> {
        let parent = self
            .db
            .prepare_cached("SELECT parent FROM subject WHERE id = ?1")?
            .query_row([subject.as_bytes()], |row| {
                row.get::<_, Option<[u8; 16]>>(0)
            })
            .optional()?;
        Ok(parent.flatten().map(SubjectId::from_bytes))
    }

    /// Whether a subject is removed; none if nothing is known of it.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn is_removed(&self, subject: SubjectId) -> Result<Option<bool>, StoreError> {
        Ok(self
            .db
            .prepare_cached("SELECT removed FROM subject WHERE id = ?1")?
            .query_row([subject.as_bytes()], |row| row.get(0))
            .optional()?)
    }

    /// Everything ever said about a subject, voids included, in order, each with its fate.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn records_of(&self, subject: SubjectId) -> Result<Vec<HistoryEntry>, StoreError> {
        // One snapshot for the records and their bodies.
        let snapshot = self.db.unchecked_transaction()?;
        let records: Vec<_> = rows::records_of_subject(&snapshot, subject)?
            .into_iter()
            .map(|(_, r)| r)
            .collect();
        let folded = fold::fold(&records, |kind| projection::rule(&*self.projector, kind));
        let entry = |&(record, fate): &(&Record, Fate)| {
            let bytes = rows::body(&snapshot, record.envelope().body_hash)?;
            Ok(HistoryEntry {
                stored: StoredRecord {
                    record: record.clone(),
                    bytes,
                },
                fate,
            })
        };
        folded.history().iter().map(entry).collect()
    }

    /// How many records the journal holds.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn record_count(&self) -> Result<u64, StoreError> {
        let count: i64 = self
            .db
            .query_row("SELECT count(*) FROM record", [], |row| row.get(0))?;
        Ok(u64::try_from(count).unwrap_or(0))
    }

    /// A record by its id; of two that a faulty device gave one id, the one with the lesser hash.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn record(&self, id: RecordId) -> Result<Option<StoredRecord>, StoreError> {
        let Some(record) = rows::records_with_id(&self.db, id)?.into_iter().next() else {
            return Ok(None);
        };
        let bytes = rows::body(&self.db, record.envelope().body_hash)?;
        Ok(Some(StoredRecord { record, bytes }))
    }

    /// A body's raw bytes, salt included.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn body(&self, hash: BodyHash) -> Result<Option<Vec<u8>>, StoreError> {
        rows::body(&self.db, hash)
    }

    /// A commit by its id.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn commit(&self, id: CommitId) -> Result<Option<Commit>, StoreError> {
        let mut query = self
            .db
            .prepare_cached("SELECT bytes FROM commit_ WHERE id = ?1 ORDER BY hash")?;
        let mut rows = query.query([id.as_bytes()])?;
        rows.next()?
            .map(|row| rows::commit_from(row, "bytes"))
            .transpose()
    }

    /// A device's commits, the latest to arrive here first, at most `limit`.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn commits_of_device(
        &self,
        device: DeviceId,
        limit: u32,
    ) -> Result<Vec<Commit>, StoreError> {
        let mut query = self.db.prepare_cached(
            "SELECT bytes FROM commit_ WHERE device = ?1 ORDER BY seq DESC LIMIT ?2",
        )?;
        let mut rows = query.query(params![device.as_bytes(), limit])?;
        let mut commits = Vec::new();
        while let Some(row) = rows.next()? {
            commits.push(rows::commit_from(row, "bytes")?);
        }
        Ok(commits)
    }

    /// Every device that signed something here, with its key.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn devices(&self) -> Result<Vec<(DeviceId, PublicKey)>, StoreError> {
        let mut query = self
            .db
            .prepare_cached("SELECT id, public_key FROM device ORDER BY id")?;
        let found = query.query_map([], |row| {
            Ok((
                DeviceId::from_bytes(row.get(0)?),
                PublicKey::from_bytes(row.get(1)?),
            ))
        })?;
        Ok(found.collect::<Result<_, _>>()?)
    }
}
