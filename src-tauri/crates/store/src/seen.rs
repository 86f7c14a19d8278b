//! What another device is known to have, so that it need not be sent again.
//!
//! A device shows what it has by the bundles that it makes. Bundles may be partial and reach us in
//! any order, so its highest clock alone would tell too much. What is kept is, of each author
//! device, a stretch from its first record: how far it reaches, and a digest of every record that
//! *we* have of that stretch. As long as our stretch has that digest, all of it is known to be
//! there. As soon as an older record turns up here by another way, or an import is taken out, the
//! digests differ and the stretch counts for nothing: too much is sent then, never too little.

use std::collections::{BTreeMap, BTreeSet, HashSet};

use journal::{Batch, CheckedBatch, DeviceId, EnvelopeHash, PersonId, Record, body, fold};
use serde::{Deserialize, Serialize};

use crate::error::StoreError;
use crate::open::Store;
use crate::{rows, summary};

/// How far another device has the records of one author device.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Stretch {
    /// How many records of ours it covers, in the order of their clocks.
    pub records: usize,
    /// BLAKE3 of the hashes of their envelopes, in that order, in hexadecimal.
    pub digest: String,
}

/// What another device is known to have: a stretch of each author device's records.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Seen(pub BTreeMap<DeviceId, Stretch>);

fn digest(records: &[Record]) -> String {
    let mut hasher = blake3::Hasher::new();
    for record in records {
        hasher.update(record.hash().as_bytes());
    }
    hasher.finalize().to_hex().to_string()
}

/// Every record here, by author device and in the order of clocks.
fn by_author(store: &Store) -> Result<BTreeMap<DeviceId, Vec<Record>>, StoreError> {
    let mut found: BTreeMap<_, Vec<_>> = BTreeMap::new();
    rows::each_record(&store.db, |row| {
        let record = rows::record_from(row, "bytes")?;
        found
            .entry(record.envelope().device)
            .or_default()
            .push(record);
        Ok(())
    })?;
    for records in found.values_mut() {
        records.sort_by_key(fold::sort_key);
    }
    Ok(found)
}

impl Seen {
    /// The part of these records that is covered, if it is still what it was.
    fn covered<'a>(&self, author: DeviceId, records: &'a [Record]) -> &'a [Record] {
        self.0
            .get(&author)
            .and_then(|stretch| {
                records
                    .get(..stretch.records)
                    .filter(|part| digest(part) == stretch.digest)
            })
            .unwrap_or_default()
    }
}

impl Store {
    /// Who wrote on which device: each pair once.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn authors(&self) -> Result<BTreeSet<(DeviceId, PersonId)>, StoreError> {
        summary::authors(&self.db)
    }

    /// What a device is known to have that was known to have `before` and has made this bundle,
    /// which is taken in already. Its own records count as had by it. A record whose content the
    /// bundle leaves out counts if that content is about a person, which is left out as a rule, or
    /// isn't here either.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn seen_by(
        &self,
        device: DeviceId,
        before: &Seen,
        bundle: &CheckedBatch,
    ) -> Result<Seen, StoreError> {
        let shown: HashSet<EnvelopeHash> = bundle.records().iter().map(Record::hash).collect();
        let mut seen = Seen::default();
        for (author, records) in by_author(self)? {
            let covered = before.covered(author, &records).len();
            let mut reach = covered;
            for record in &records[covered..] {
                let hash = record.envelope().body_hash;
                let whole = || -> Result<bool, StoreError> {
                    Ok(bundle.bodies().contains_key(&hash)
                        || rows::body(&self.db, hash)?
                            .is_none_or(|bytes| body::is_personal(&bytes)))
                };
                let had = author == device || (shown.contains(&record.hash()) && whole()?);
                if !had {
                    break;
                }
                reach += 1;
            }
            if reach > 0 {
                let digest = digest(&records[..reach]);
                seen.0.insert(
                    author,
                    Stretch {
                        records: reach,
                        digest,
                    },
                );
            }
        }
        Ok(seen)
    }

    /// What of a batch a device need be sent that is known to have `seen`. With `personal`,
    /// records whose content is about a person go again, since it may have been withheld before.
    ///
    /// # Errors
    /// [`StoreError`] if the file can't be read.
    pub fn unseen(&self, seen: &Seen, batch: Batch, personal: bool) -> Result<Batch, StoreError> {
        let mut had = HashSet::new();
        for (author, records) in by_author(self)? {
            had.extend(seen.covered(author, &records).iter().map(Record::hash));
        }
        let Batch {
            commits,
            mut records,
            bodies,
        } = batch;
        let of_persons: BTreeSet<_> = bodies
            .iter()
            .filter(|bytes| body::is_personal(bytes))
            .map(|bytes| journal::BodyHash::of(bytes))
            .collect();
        records.retain(|record| {
            !had.contains(&record.hash())
                || (personal && of_persons.contains(&record.envelope().body_hash))
        });
        let sent: HashSet<_> = records.iter().map(Record::hash).collect();
        let wanted: HashSet<_> = records
            .iter()
            .map(|record| record.envelope().body_hash)
            .collect();
        Ok(Batch {
            commits: commits
                .into_iter()
                .filter(|commit| commit.records().iter().any(|(_, hash)| sent.contains(hash)))
                .collect(),
            bodies: bodies
                .into_iter()
                .filter(|bytes| wanted.contains(&journal::BodyHash::of(bytes)))
                .collect(),
            records,
        })
    }
}
