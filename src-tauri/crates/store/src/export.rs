//! What goes into a bundle: chosen first, by row number, then read one at a time.

use std::collections::{BTreeSet, HashSet};

use journal::{Batch, BodyHash, CommitHash, EnvelopeHash, SubjectId, body};
use rusqlite::{Connection, Transaction};

use crate::error::StoreError;
use crate::items::{Line, Lines};
use crate::open::Store;
use crate::rows;
use crate::seen::{self, Seen};

/// Which records to take.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Selection {
    /// The whole journal.
    Everything,
    /// Everything ever said about these subjects.
    Subjects(BTreeSet<SubjectId>),
}

/// Part of the journal, as it was when it was chosen, whatever is written meanwhile. What is kept
/// of each record is a row number, so that a whole shop can be passed on without being in memory.
#[derive(Debug)]
pub struct Chosen<'a> {
    snapshot: Transaction<'a>,
    /// Row numbers, by id and hash.
    records: Vec<i64>,
    /// Hashes, in order.
    bodies: Vec<BodyHash>,
}

impl Store {
    /// Chooses part of the journal: whole histories, every commit that lists one of the records,
    /// and the bodies that are here.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn choose(&self, selection: &Selection) -> Result<Chosen<'_>, StoreError> {
        let snapshot = self.db.unchecked_transaction()?;
        let mut records = Vec::new();
        match selection {
            Selection::Everything => {
                let mut query = snapshot.prepare("SELECT seq FROM record ORDER BY id, hash")?;
                for seq in query.query_map([], |row| row.get(0))? {
                    records.push(seq?);
                }
            }
            Selection::Subjects(subjects) => {
                let mut query =
                    snapshot.prepare("SELECT id, hash, seq FROM record WHERE subject = ?1")?;
                let mut found: Vec<([u8; 16], [u8; 32], i64)> = Vec::new();
                for subject in subjects {
                    let rows = query.query_map([subject.as_bytes()], |row| {
                        Ok((row.get(0)?, row.get(1)?, row.get(2)?))
                    })?;
                    for row in rows {
                        found.push(row?);
                    }
                }
                found.sort_unstable();
                records.extend(found.into_iter().map(|(_, _, seq)| seq));
            }
        }
        let mut chosen = Chosen {
            snapshot,
            records,
            bodies: Vec::new(),
        };
        chosen.find_bodies()?;
        Ok(chosen)
    }

    /// A copy of part of the journal in memory. Bodies about persons only if `personal`; their
    /// envelopes go along in any case, so that nothing stands differently.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn export(&self, selection: &Selection, personal: bool) -> Result<Batch, StoreError> {
        let mut chosen = self.choose(selection)?;
        if !personal {
            chosen.keep_bodies(|bytes, _| !body::is_personal(bytes))?;
        }
        chosen.batch()
    }
}

impl Chosen<'_> {
    /// How many records are chosen.
    #[must_use]
    pub fn records(&self) -> usize {
        self.records.len()
    }

    /// Whether this body goes along.
    #[must_use]
    pub fn holds_body(&self, hash: BodyHash) -> bool {
        self.bodies.binary_search(&hash).is_ok()
    }

    /// How many subjects have a chosen record of this kind.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn subjects_of(&self, kind: &journal::Kind) -> Result<usize, StoreError> {
        let mut query = self
            .snapshot
            .prepare("SELECT subject FROM record WHERE seq = ?1 AND kind = ?2")?;
        let mut found: HashSet<[u8; 16]> = HashSet::new();
        for seq in &self.records {
            let mut rows = query.query(rusqlite::params![seq, kind.as_str()])?;
            while let Some(row) = rows.next()? {
                found.insert(row.get(0)?);
            }
        }
        Ok(found.len())
    }

    /// Leaves out what a device need not be sent that is known to have `seen`. With `personal`,
    /// records whose content is about a person stay, since it may have been withheld before.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn leave_out(&mut self, seen: &Seen, personal: bool) -> Result<(), StoreError> {
        let had = seen::covered(&self.snapshot, seen)?;
        let mut query = self
            .snapshot
            .prepare("SELECT hash, body_hash FROM record WHERE seq = ?1")?;
        let mut records = Vec::new();
        for &seq in &self.records {
            let (hash, of_body) = query.query_row([seq], |row| {
                Ok((
                    EnvelopeHash::from_bytes(row.get(0)?),
                    BodyHash::from_bytes(row.get(1)?),
                ))
            })?;
            let of_person = || -> Result<bool, StoreError> {
                let bytes = rows::body(&self.snapshot, of_body)?;
                Ok(bytes.is_some_and(|bytes| body::is_personal(&bytes)))
            };
            if !had.contains(&hash) || (personal && of_person()?) {
                records.push(seq);
            }
        }
        drop(query);
        self.records = records;
        self.find_bodies()
    }

    /// Keeps the bodies for which `keep` says so, from their bytes and the kinds of all chosen
    /// records that have them; the rest are withheld.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn keep_bodies(
        &mut self,
        mut keep: impl FnMut(&[u8], &BTreeSet<String>) -> bool,
    ) -> Result<(), StoreError> {
        let mut query = self
            .snapshot
            .prepare("SELECT seq, kind FROM record WHERE body_hash = ?1")?;
        let mut bodies = Vec::new();
        let chosen: HashSet<i64> = self.records.iter().copied().collect();
        for &hash in &self.bodies {
            let Some(bytes) = rows::body(&self.snapshot, hash)? else {
                continue;
            };
            let mut kinds = BTreeSet::new();
            let mut rows = query.query([hash.as_bytes()])?;
            while let Some(row) = rows.next()? {
                if chosen.contains(&row.get(0)?) {
                    kinds.insert(row.get(1)?);
                }
            }
            if keep(&bytes, &kinds) {
                bodies.push(hash);
            }
        }
        drop(query);
        self.bodies = bodies;
        Ok(())
    }

    fn find_bodies(&mut self) -> Result<(), StoreError> {
        let mut query = self.snapshot.prepare(
            "SELECT body_hash FROM record WHERE seq = ?1
             AND EXISTS (SELECT 1 FROM body WHERE hash = body_hash)",
        )?;
        let mut bodies = Vec::new();
        for seq in &self.records {
            let mut rows = query.query([seq])?;
            while let Some(row) = rows.next()? {
                bodies.push(BodyHash::from_bytes(row.get(0)?));
            }
        }
        drop(query);
        bodies.sort_unstable();
        bodies.dedup();
        self.bodies = bodies;
        Ok(())
    }

    /// The row numbers of every commit that lists one of the records, by id and hash.
    fn commits(&self) -> Result<Vec<i64>, StoreError> {
        let total: i64 = self
            .snapshot
            .query_row("SELECT count(*) FROM record", [], |row| row.get(0))?;
        let mut query;
        let mut found = BTreeSet::new();
        if usize::try_from(total) == Ok(self.records.len()) {
            // All of them: no need to ask one by one.
            query = self.snapshot.prepare(
                "SELECT DISTINCT commit_seq FROM commit_record
                 JOIN record ON record.hash = record_hash",
            )?;
            for seq in query.query_map([], |row| row.get::<_, i64>(0))? {
                found.insert(seq?);
            }
        } else {
            query = self.snapshot.prepare(
                "SELECT commit_seq FROM record
                 JOIN commit_record ON record_hash = record.hash WHERE record.seq = ?1",
            )?;
            for record in &self.records {
                for seq in query.query_map([record], |row| row.get::<_, i64>(0))? {
                    found.insert(seq?);
                }
            }
        }
        let mut query = self
            .snapshot
            .prepare("SELECT id, hash FROM commit_ WHERE seq = ?1")?;
        let mut ordered: Vec<([u8; 16], [u8; 32], i64)> = Vec::with_capacity(found.len());
        for seq in found {
            ordered.push(query.query_row([seq], |row| Ok((row.get(0)?, row.get(1)?, seq)))?);
        }
        ordered.sort_unstable();
        Ok(ordered.into_iter().map(|(_, _, seq)| seq).collect())
    }

    fn batch(&self) -> Result<Batch, StoreError> {
        let mut batch = Batch::default();
        let damaged = |error: journal::FormatError| StoreError::Damaged(error.to_string());
        self.lines(&mut |line| {
            match line {
                Line::Commit(bytes) => batch
                    .commits
                    .push(journal::Commit::parse(bytes).map_err(damaged)?),
                Line::Record(bytes) => batch
                    .records
                    .push(journal::Record::parse(bytes).map_err(damaged)?),
                Line::Body(_, bytes) => batch.bodies.push(bytes.to_vec()),
            }
            Ok(())
        })?;
        Ok(batch)
    }
}

impl Lines for Chosen<'_> {
    fn lines(
        &self,
        with: &mut dyn FnMut(Line<'_>) -> Result<(), StoreError>,
    ) -> Result<(), StoreError> {
        let commits = self.commits()?;
        let commit = |bytes: &[u8], hash| CommitHash::of(bytes) == CommitHash::from_bytes(hash);
        let record = |bytes: &[u8], hash| EnvelopeHash::of(bytes) == EnvelopeHash::from_bytes(hash);
        each(
            &self.snapshot,
            "SELECT bytes, hash FROM commit_ WHERE seq = ?1",
            &commits,
            |bytes, hash| {
                checked(commit(bytes, hash), "a commit").and_then(|()| with(Line::Commit(bytes)))
            },
        )?;
        each(
            &self.snapshot,
            "SELECT bytes, hash FROM record WHERE seq = ?1",
            &self.records,
            |bytes, hash| {
                checked(record(bytes, hash), "a record").and_then(|()| with(Line::Record(bytes)))
            },
        )?;
        let mut query = self
            .snapshot
            .prepare("SELECT bytes FROM body WHERE hash = ?1")?;
        for &hash in &self.bodies {
            let mut rows = query.query([hash.as_bytes()])?;
            while let Some(row) = rows.next()? {
                let bytes = blob(row, 0)?;
                checked(BodyHash::of(bytes) == hash, "a body")?;
                with(Line::Body(hash, bytes))?;
            }
        }
        Ok(())
    }
}

/// What is passed on is what was signed: a damaged page isn't handed to others.
fn checked(fits: bool, what: &str) -> Result<(), StoreError> {
    if fits {
        Ok(())
    } else {
        Err(StoreError::Damaged(format!("{what} has another hash")))
    }
}

fn blob<'a>(row: &'a rusqlite::Row<'_>, column: usize) -> Result<&'a [u8], StoreError> {
    row.get_ref(column)?
        .as_blob()
        .map_err(|error| StoreError::Damaged(error.to_string()))
}

fn each(
    db: &Connection,
    query: &str,
    seqs: &[i64],
    mut with: impl FnMut(&[u8], [u8; 32]) -> Result<(), StoreError>,
) -> Result<(), StoreError> {
    let mut query = db.prepare(query)?;
    for seq in seqs {
        let mut rows = query.query([seq])?;
        while let Some(row) = rows.next()? {
            with(blob(row, 0)?, row.get(1)?)?;
        }
    }
    Ok(())
}
