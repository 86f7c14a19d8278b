//! Is everything in the file as it should be?

use std::collections::BTreeSet;

use journal::{AttachmentHash, BodyHash, Commit, CommitId, DeviceId, Record, RecordId, SubjectId};
use rusqlite::{Connection, Transaction, TransactionBehavior};

use crate::attachments::AttachmentFinding;
use crate::erase;
use crate::error::StoreError;
use crate::local;
use crate::open::Store;
use crate::{projection, rows, summary};

/// Something that a check found wrong.
#[derive(Debug, Clone, PartialEq, Eq)]
#[non_exhaustive]
pub enum CheckFinding {
    /// SQLite finds the file itself broken.
    File(String),
    /// A row points at one that is not there.
    Reference {
        /// The table with the row.
        table: String,
    },
    /// An envelope is not in canonical form or has another hash.
    Envelope(RecordId),
    /// A column beside an envelope doesn't say what the envelope says.
    Column(RecordId),
    /// A commit is not in canonical form, has another hash or lists other records than its
    /// rows do.
    Commit(CommitId),
    /// A commit's signature doesn't hold.
    Signature(CommitId),
    /// A device is not the fingerprint of its key.
    Device(DeviceId),
    /// No commit of its device lists a record.
    Unsigned(RecordId),
    /// A body has another hash.
    Body(BodyHash),
    /// A body that no record has.
    StrayBody(BodyHash),
    /// A body that was erased is here.
    Erased(BodyHash),
    /// What is known of erasures is not what the journal gives.
    Erasures,
    /// A subject's projection, or its summary, is not what the journal gives.
    Projection(SubjectId),
    /// The search index is not of the texts that it should be of.
    SearchIndex,
    /// The list of who wrote on which device is not what the journal gives.
    Authors,
    /// The clock is behind a record of this device or another's.
    Clock,
    /// An attachment that this store had is not here, or has other content.
    Attachment(AttachmentHash),
}

/// How much to check.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Depth {
    /// The file's structure, the references in it, and the devices' keys.
    Quick,
    /// Everything.
    Full,
}

impl Store {
    /// As [`Store::check`], or less.
    ///
    /// # Errors
    /// As [`Store::check`].
    pub fn check_to(&self, depth: Depth) -> Result<Vec<CheckFinding>, StoreError> {
        let mut findings = self.check_file(depth)?;
        // After the file's own check, which holds off writers, and not in one that can't be read.
        if depth == Depth::Full && findings.is_empty() {
            for found in self.check_attachments(true)? {
                if let AttachmentFinding::Missing(hash) | AttachmentFinding::Damaged(hash) = found {
                    findings.push(CheckFinding::Attachment(hash));
                }
            }
        }
        Ok(findings)
    }

    /// The store's file alone, without what lies beside it.
    pub(crate) fn check_file(&self, depth: Depth) -> Result<Vec<CheckFinding>, StoreError> {
        let mut findings = Vec::new();
        let checked = match depth {
            Depth::Quick => quick(&self.db, &mut findings),
            Depth::Full => self.check_into(&mut findings),
        };
        match checked {
            Err(StoreError::Damaged(what)) => findings.push(CheckFinding::File(what)),
            Err(StoreError::NotAStore) => {
                findings.push(CheckFinding::File("not a database any more".into()));
            }
            other => other?,
        }
        Ok(findings)
    }

    /// Checks everything: the file's structure, each reference, hash and signature, and that
    /// projecting the whole journal anew gives what is kept; if so, that the attachments which were
    /// here still are, with the content that their names say. Changes nothing, but holds off other
    /// writers while it looks at the file. An empty list means that all is well.
    ///
    /// # Errors
    /// [`StoreError`] if the check can't be made; damage is a finding, not an error.
    pub fn check(&self) -> Result<Vec<CheckFinding>, StoreError> {
        self.check_to(Depth::Full)
    }

    /// Makes every projection anew from the journal.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be written.
    pub fn rebuild(&mut self) -> Result<(), StoreError> {
        let tx = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        projection::renew(&tx, &*self.projector)?;
        Ok(tx.commit()?)
    }

    fn check_into(&self, findings: &mut Vec<CheckFinding>) -> Result<(), StoreError> {
        // SQLite counts the check of the search index as a write.
        let db = Transaction::new_unchecked(&self.db, TransactionBehavior::Immediate)?;
        file(&db, findings)?;
        search_index(&db, findings)?;
        journal(&db, findings)?;
        if erase::kept(&db)? != erase::replayed(&db, &*self.projector)? {
            findings.push(CheckFinding::Erasures);
        }
        if summary::authors(&db)? != summary::authors_in_journal(&db)? {
            findings.push(CheckFinding::Authors);
        }
        let mut subjects = rows::all_subjects(&db)?;
        subjects.extend(projected_subjects(&db)?);
        subjects.sort_unstable();
        subjects.dedup();
        for subject in subjects {
            let kept = projection::kept(&db, subject)?;
            let replayed = if rows::records_of_subject(&db, subject)?.is_empty() {
                None
            } else {
                Some(projection::compute(&db, &*self.projector, subject)?)
            };
            if kept != replayed {
                findings.push(CheckFinding::Projection(subject));
            }
        }
        // What a summary is made from was compared just now; what is off already is said once.
        let projector = &*self.projector;
        let off = |finding: &CheckFinding| match finding {
            CheckFinding::Projection(subject) => Some(*subject),
            _ => None,
        };
        let off: BTreeSet<SubjectId> = findings.iter().filter_map(off).collect();
        for subject in summary::candidates(&db, projector)?
            .difference(&off)
            .copied()
        {
            if summary::kept(&db, subject)? != summary::compute(&db, projector, subject)? {
                findings.push(CheckFinding::Projection(subject));
            }
        }
        Ok(())
    }
}

/// The file by itself.
pub(crate) fn file(db: &Connection, findings: &mut Vec<CheckFinding>) -> Result<(), StoreError> {
    structure(db, "PRAGMA integrity_check", findings)?;
    references(db, findings)
}

fn quick(db: &Connection, findings: &mut Vec<CheckFinding>) -> Result<(), StoreError> {
    structure(db, "PRAGMA quick_check", findings)?;
    references(db, findings)
}

/// Each commit, record and body by itself: its hash, its signature, its columns.
pub(crate) fn journal(db: &Connection, findings: &mut Vec<CheckFinding>) -> Result<(), StoreError> {
    commits(db, findings)?;
    records(db, findings)?;
    bodies(db, findings)
}

fn structure(
    db: &Connection,
    pragma: &str,
    findings: &mut Vec<CheckFinding>,
) -> Result<(), StoreError> {
    let mut query = db.prepare(pragma)?;
    for line in query.query_map([], |row| row.get::<_, String>(0))? {
        let line = line?;
        if line != "ok" {
            findings.push(CheckFinding::File(line));
        }
    }
    Ok(())
}

fn references(db: &Connection, findings: &mut Vec<CheckFinding>) -> Result<(), StoreError> {
    let mut query = db.prepare("PRAGMA foreign_key_check")?;
    for table in query.query_map([], |row| row.get(0))? {
        findings.push(CheckFinding::Reference { table: table? });
    }
    let mut query = db.prepare("SELECT id, public_key FROM device")?;
    let devices = query.query_map([], |row| {
        Ok((
            DeviceId::from_bytes(row.get(0)?),
            journal::PublicKey::from_bytes(row.get(1)?),
        ))
    })?;
    for device in devices {
        let (id, key) = device?;
        if key.device() != id {
            findings.push(CheckFinding::Device(id));
        }
    }
    Ok(())
}

fn search_index(db: &Connection, findings: &mut Vec<CheckFinding>) -> Result<(), StoreError> {
    let checked = db.execute(
        "INSERT INTO summary_search (summary_search, rank) VALUES ('integrity-check', 1)",
        [],
    );
    match checked.map_err(StoreError::from) {
        Err(StoreError::Damaged(_)) => findings.push(CheckFinding::SearchIndex),
        other => {
            other?;
        }
    }
    Ok(())
}

fn commits(db: &Connection, findings: &mut Vec<CheckFinding>) -> Result<(), StoreError> {
    let mut listed = db.prepare(
        "SELECT record_id, record_hash FROM commit_record
         JOIN commit_ ON commit_.seq = commit_seq WHERE commit_.hash = ?1 ORDER BY position",
    )?;
    rows::each_commit(db, |row| {
        let id = CommitId::from_bytes(row.get("id")?);
        let hash: [u8; 32] = row.get("hash")?;
        let bytes: Vec<u8> = row.get("bytes")?;
        let Some(commit) = Commit::parse(&bytes)
            .ok()
            .filter(|commit| commit.id() == id && *commit.hash().as_bytes() == hash)
        else {
            findings.push(CheckFinding::Commit(id));
            return Ok(());
        };
        if commit.verify().is_err() {
            findings.push(CheckFinding::Signature(id));
        }
        let lines = listed
            .query_map([hash], |row| {
                Ok((row.get::<_, [u8; 16]>(0)?, row.get::<_, [u8; 32]>(1)?))
            })?
            .collect::<Result<Vec<_>, _>>()?;
        let said = commit
            .records()
            .iter()
            .map(|(id, hash)| (*id.as_bytes(), *hash.as_bytes()));
        if !said.eq(lines) {
            findings.push(CheckFinding::Commit(id));
        }
        Ok(())
    })
}

fn records(db: &Connection, findings: &mut Vec<CheckFinding>) -> Result<(), StoreError> {
    let mut signed = db.prepare(
        "SELECT EXISTS (SELECT 1 FROM commit_record JOIN commit_ ON commit_.seq = commit_seq
         WHERE record_hash = ?1 AND record_id = ?2 AND device = ?3)",
    )?;
    let clock = local::clock(db)?.last();
    let mut behind = false;
    rows::each_record(db, |row| {
        let id = RecordId::from_bytes(row.get("id")?);
        let hash = rows::hash_from(row, "hash")?;
        let bytes: Vec<u8> = row.get("bytes")?;
        let Some(record) = Record::parse(&bytes)
            .ok()
            .filter(|record| record.hash() == hash)
        else {
            findings.push(CheckFinding::Envelope(id));
            return Ok(());
        };
        let envelope = record.envelope();
        let columns_agree = envelope.id == id
            && row.get::<_, [u8; 16]>("subject")? == *envelope.subject.as_bytes()
            && row.get::<_, String>("kind")? == envelope.kind.as_str()
            && row.get::<_, u32>("kind_version")? == envelope.kind_version
            && row.get::<_, [u8; 32]>("device")? == *envelope.device.as_bytes()
            && u64::try_from(row.get::<_, i64>("clock_millis")?) == Ok(envelope.clock.millis())
            && row.get::<_, u32>("clock_counter")? == envelope.clock.counter()
            && row.get::<_, [u8; 32]>("body_hash")? == *envelope.body_hash.as_bytes();
        if !columns_agree {
            findings.push(CheckFinding::Column(id));
        }
        let key = (
            hash.as_bytes(),
            envelope.id.as_bytes(),
            envelope.device.as_bytes(),
        );
        if !signed.query_row(key, |row| row.get::<_, bool>(0))? {
            findings.push(CheckFinding::Unsigned(id));
        }
        behind |= envelope.clock > clock;
        Ok(())
    })?;
    if behind {
        findings.push(CheckFinding::Clock);
    }
    Ok(())
}

fn bodies(db: &Connection, findings: &mut Vec<CheckFinding>) -> Result<(), StoreError> {
    let some_erased = erase::any(db)?;
    let mut query = db.prepare(
        "SELECT hash, bytes,
             EXISTS (SELECT 1 FROM record WHERE body_hash = body.hash) AS wanted
         FROM body ORDER BY hash",
    )?;
    let mut rows = query.query([])?;
    while let Some(row) = rows.next()? {
        let hash = BodyHash::from_bytes(row.get("hash")?);
        if BodyHash::of(&row.get::<_, Vec<u8>>("bytes")?) != hash {
            findings.push(CheckFinding::Body(hash));
        }
        if !row.get::<_, bool>("wanted")? {
            findings.push(CheckFinding::StrayBody(hash));
        } else if some_erased && erase::refuses(db, hash)? {
            findings.push(CheckFinding::Erased(hash));
        }
    }
    Ok(())
}

fn projected_subjects(db: &Connection) -> Result<Vec<SubjectId>, StoreError> {
    let mut query = db.prepare("SELECT id FROM subject UNION SELECT subject FROM standing")?;
    let found = query.query_map([], |row| Ok(SubjectId::from_bytes(row.get(0)?)))?;
    Ok(found.collect::<Result<_, _>>()?)
}
