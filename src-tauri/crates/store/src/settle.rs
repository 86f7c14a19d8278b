//! What two people wrote without knowing of each other, and devices whose key writes in two places.

use std::collections::{BTreeMap, BTreeSet};

use journal::{CommitHash, DeviceId, Fate, Kind, Record, RecordId, SubjectId, fold};
use rusqlite::params;

use crate::error::StoreError;
use crate::open::Store;
use crate::{projection, rows};

impl Store {
    /// Every value of a subject that is not removed for which more than one record leads, none
    /// of which knows of the others.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn concurrent(&self) -> Result<Vec<(SubjectId, Kind)>, StoreError> {
        let mut query = self.db.prepare_cached(
            "SELECT DISTINCT standing.subject, kind FROM standing
             JOIN subject ON subject.id = standing.subject
             WHERE concurrent = 1 AND removed = 0 ORDER BY standing.subject, kind",
        )?;
        let mut rows = query.query([])?;
        let mut found = Vec::new();
        while let Some(row) = rows.next()? {
            let kind: String = row.get(1)?;
            found.push((SubjectId::from_bytes(row.get(0)?), kind.parse()?));
        }
        Ok(found)
    }

    /// Subjects where a record of a kind that only adds may have been corrected twice: more than
    /// one stands, and some don't any more.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn perhaps_corrected_twice(&self, kind: &Kind) -> Result<Vec<SubjectId>, StoreError> {
        let mut query = self.db.prepare_cached(
            "SELECT subject FROM standing WHERE kind = ?1 GROUP BY subject HAVING count(*) > 1
             AND count(*) < (SELECT count(*) FROM record
                 WHERE record.subject = standing.subject AND record.kind = ?1)
             ORDER BY subject",
        )?;
        let found = query.query_map([kind.as_str()], |row| {
            Ok(SubjectId::from_bytes(row.get(0)?))
        })?;
        Ok(found.collect::<Result<_, _>>()?)
    }

    /// Of a kind that only adds: the records in effect that correct the same record, where there
    /// is more than one. Each group in order.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn corrected_twice(
        &self,
        subject: SubjectId,
        kind: &Kind,
    ) -> Result<Vec<Vec<RecordId>>, StoreError> {
        let records = rows::records_of_subject(&self.db, subject)?;
        let of_kind: BTreeMap<RecordId, &Record> = records
            .iter()
            .filter(|(_, record)| record.envelope().kind == *kind)
            .map(|(_, record)| (record.id(), record))
            .collect();
        let folded = fold::fold(records.iter().map(|(_, record)| record), |kind| {
            projection::rule(&*self.projector, kind)
        });
        // Records that share an ancestor belong together; a settlement shares both.
        let mut groups: Vec<(BTreeSet<RecordId>, Vec<RecordId>)> = Vec::new();
        for &(record, fate) in folded.history() {
            if fate != Fate::Stands || record.envelope().kind != *kind {
                continue;
            }
            let mut known = BTreeSet::new();
            let mut open = vec![record.id()];
            while let Some(id) = open.pop() {
                if let (Some(older), true) = (of_kind.get(&id), known.insert(id)) {
                    open.extend(&older.envelope().supersedes);
                }
            }
            let mut members = Vec::new();
            groups.retain_mut(|(others, heads)| {
                let apart = others.is_disjoint(&known);
                if !apart {
                    known.append(others);
                    members.append(heads);
                }
                apart
            });
            members.push(record.id());
            groups.push((known, members));
        }
        Ok(groups
            .into_iter()
            .map(|(_, heads)| heads)
            .filter(|heads| heads.len() > 1)
            .collect())
    }

    /// Devices whose key writes in two places, as far as the journal shows it: one reading of a
    /// device's clock was used for two records, which one device alone never does; or two of its
    /// records stand for one value though none of its kind there was ever struck out, which can't
    /// be where the later was written with the earlier at hand.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn copied_devices(&self) -> Result<BTreeSet<DeviceId>, StoreError> {
        let mut found = BTreeSet::new();
        let mut twice = self.db.prepare_cached(
            "SELECT DISTINCT device FROM record
             GROUP BY device, clock_millis, clock_counter HAVING count(*) > 1",
        )?;
        for device in twice.query_map([], |row| Ok(DeviceId::from_bytes(row.get(0)?)))? {
            found.insert(device?);
        }
        let mut beside = self.db.prepare_cached(
            "SELECT record.device FROM standing JOIN record ON record.seq = standing.record
             WHERE standing.subject = ?1 AND standing.kind = ?2
             GROUP BY record.device HAVING count(*) > 1
             AND NOT EXISTS (SELECT 1 FROM record AS struck
                 WHERE struck.subject = ?1 AND struck.kind = 'void')",
        )?;
        for (subject, kind) in self.concurrent()? {
            let devices = beside.query_map(params![subject.as_bytes(), kind.as_str()], |row| {
                Ok(DeviceId::from_bytes(row.get(0)?))
            })?;
            for device in devices {
                found.insert(device?);
            }
        }
        Ok(found)
    }

    /// Whether this very commit is here.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn holds_commit(&self, hash: CommitHash) -> Result<bool, StoreError> {
        Ok(self
            .db
            .prepare_cached("SELECT EXISTS (SELECT 1 FROM commit_ WHERE hash = ?1)")?
            .query_row([hash.as_bytes()], |row| row.get(0))?)
    }

    /// How many records each device signed that are here.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn records_by_device(&self) -> Result<BTreeMap<DeviceId, u64>, StoreError> {
        let mut query = self
            .db
            .prepare_cached("SELECT device, count(*) FROM record GROUP BY device")?;
        let found = query.query_map([], |row| {
            let count: i64 = row.get(1)?;
            Ok((
                DeviceId::from_bytes(row.get(0)?),
                u64::try_from(count).unwrap_or(0),
            ))
        })?;
        Ok(found.collect::<Result<_, _>>()?)
    }
}
