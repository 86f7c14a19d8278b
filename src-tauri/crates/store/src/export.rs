//! What goes into a bundle.

use std::collections::BTreeSet;

use journal::{Batch, SubjectId, body};
use rusqlite::Connection;

use crate::error::StoreError;
use crate::open::Store;
use crate::rows;

/// Which records to take.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Selection {
    /// The whole journal.
    Everything,
    /// Everything ever said about these subjects.
    Subjects(BTreeSet<SubjectId>),
}

impl Store {
    /// A copy of part of the journal: whole histories, every commit that lists one of the
    /// records, and the bodies that are here. Bodies about persons only if `personal`; their
    /// envelopes go along in any case, so that nothing stands differently.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn export(&self, selection: &Selection, personal: bool) -> Result<Batch, StoreError> {
        let snapshot = self.db.unchecked_transaction()?;
        let mut batch = Batch::default();
        match selection {
            Selection::Everything => {
                rows::each_record(&snapshot, |row| {
                    batch.records.push(rows::record_from(row, "bytes")?);
                    Ok(())
                })?;
                rows::each_commit(&snapshot, |row| {
                    batch.commits.push(rows::commit_from(row, "bytes")?);
                    Ok(())
                })?;
            }
            Selection::Subjects(subjects) => {
                for &subject in subjects {
                    let records = rows::records_of_subject(&snapshot, subject)?;
                    batch
                        .records
                        .extend(records.into_iter().map(|(_, record)| record));
                }
                commits_for(&snapshot, &mut batch)?;
            }
        }
        let hashes: BTreeSet<_> = batch
            .records
            .iter()
            .map(|record| record.envelope().body_hash)
            .collect();
        for hash in hashes {
            let found = rows::body(&snapshot, hash)?;
            batch
                .bodies
                .extend(found.filter(|bytes| personal || !body::is_personal(bytes)));
        }
        Ok(batch)
    }
}

fn commits_for(db: &Connection, batch: &mut Batch) -> Result<(), StoreError> {
    let mut query =
        db.prepare_cached("SELECT commit_seq FROM commit_record WHERE record_hash = ?1")?;
    let mut wanted = BTreeSet::new();
    for record in &batch.records {
        for seq in query.query_map([record.hash().as_bytes()], |row| row.get::<_, i64>(0))? {
            wanted.insert(seq?);
        }
    }
    let mut query = db.prepare_cached("SELECT bytes FROM commit_ WHERE seq = ?1")?;
    for seq in wanted {
        let mut rows = query.query([seq])?;
        while let Some(row) = rows.next()? {
            batch.commits.push(rows::commit_from(row, "bytes")?);
        }
    }
    Ok(())
}
