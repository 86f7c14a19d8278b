//! A set of commits, records and bodies, raw and checked.

use std::collections::{BTreeMap, HashMap, HashSet};

use crate::commit::Commit;
use crate::envelope::Record;
use crate::error::VerifyError;
use crate::id::{BodyHash, CommitHash, DeviceId, EnvelopeHash, RecordId};

/// What came from somewhere: well formed, not yet believed.
#[derive(Debug, Clone, Default)]
pub struct Batch {
    /// Commits, in any order.
    pub commits: Vec<Commit>,
    /// Records, in any order; a commit's records need not all be here.
    pub records: Vec<Record>,
    /// Bodies as raw bytes, in any order; a record's body need not be here.
    pub bodies: Vec<Vec<u8>>,
}

/// A batch in which every commit's signature holds, every record is listed by one of the commits,
/// and every body belongs to one of the records. Sorted, and without repetition, so that
/// equal sets are equal values.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct CheckedBatch {
    commits: Vec<Commit>,
    records: Vec<Record>,
    bodies: BTreeMap<BodyHash, Vec<u8>>,
}

impl Batch {
    /// Checks signatures and hashes.
    ///
    /// # Errors
    /// [`VerifyError`], naming the first commit, record or body that can't be believed.
    pub fn check(self) -> Result<CheckedBatch, VerifyError> {
        let Self {
            mut commits,
            mut records,
            bodies,
        } = self;
        commits.sort_by_cached_key(|commit| (commit.id(), commit.hash()));
        commits.dedup();
        let mut listed: HashSet<(DeviceId, RecordId, EnvelopeHash)> = HashSet::new();
        for commit in &commits {
            commit.verify()?;
            let device = commit.device();
            listed.extend(
                commit
                    .records()
                    .iter()
                    .map(|&(id, hash)| (device, id, hash)),
            );
        }
        records.sort_by_key(|record| (record.id(), record.hash()));
        records.dedup_by_key(|record| record.hash());
        let mut wanted = HashSet::new();
        for record in &records {
            if !listed.contains(&(record.envelope().device, record.id(), record.hash())) {
                return Err(VerifyError::Unsigned(record.id()));
            }
            wanted.insert(record.envelope().body_hash);
        }
        let bodies: BTreeMap<_, _> = bodies
            .into_iter()
            .map(|body| (BodyHash::of(&body), body))
            .collect();
        match bodies.keys().find(|hash| !wanted.contains(hash)) {
            Some(&stray) => Err(VerifyError::StrayBody(stray)),
            None => Ok(CheckedBatch {
                commits,
                records,
                bodies,
            }),
        }
    }
}

impl CheckedBatch {
    /// The commits, by id.
    #[must_use]
    pub fn commits(&self) -> &[Commit] {
        &self.commits
    }

    /// The records, by id.
    #[must_use]
    pub fn records(&self) -> &[Record] {
        &self.records
    }

    /// The bodies, by hash.
    #[must_use]
    pub const fn bodies(&self) -> &BTreeMap<BodyHash, Vec<u8>> {
        &self.bodies
    }

    /// Back to a raw batch.
    #[must_use]
    pub fn into_raw(self) -> Batch {
        Batch {
            commits: self.commits,
            records: self.records,
            bodies: self.bodies.into_values().collect(),
        }
    }

    /// Which commits list each record, by the record's hash.
    #[must_use]
    pub fn commits_by_record(&self) -> HashMap<EnvelopeHash, Vec<CommitHash>> {
        let mut by_record: HashMap<_, Vec<_>> = HashMap::new();
        for commit in &self.commits {
            let hash = commit.hash();
            for &(_, record) in commit.records() {
                by_record.entry(record).or_default().push(hash);
            }
        }
        by_record
    }
}
