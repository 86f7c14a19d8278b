//! What another device is known to have, so that it need not be sent again.
//!
//! A device shows what it has by the bundles that it makes. Bundles may be partial and reach us in
//! any order, so its highest clock alone would tell too much. What is kept is, of each author
//! device, a stretch from its first record: how far it reaches, and a digest of every record that
//! *we* have of that stretch. As long as our stretch has that digest, all of it is known to be
//! there. As soon as an older record turns up here by another way, or an import is taken out, the
//! digests differ and the stretch counts for nothing: too much is sent then, never too little.

use std::collections::{BTreeMap, BTreeSet, HashSet};

use journal::{BodyHash, DeviceId, EnvelopeHash, PersonId, body};
use rusqlite::Connection;
use serde::{Deserialize, Serialize};

use crate::error::StoreError;
use crate::items::Held;
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

/// A record here, as far as it matters.
struct Had {
    hash: EnvelopeHash,
    body: BodyHash,
}

fn digest(records: &[Had]) -> String {
    let mut hasher = blake3::Hasher::new();
    for record in records {
        hasher.update(record.hash.as_bytes());
    }
    hasher.finalize().to_hex().to_string()
}

/// The devices whose records are here.
fn authors(db: &Connection) -> Result<Vec<DeviceId>, StoreError> {
    let mut query = db.prepare("SELECT DISTINCT device FROM record ORDER BY device")?;
    let found = query.query_map([], |row| Ok(DeviceId::from_bytes(row.get(0)?)))?;
    Ok(found.collect::<Result<_, _>>()?)
}

/// Every record here of one author device, in the order of clocks: that of `fold::sort_key`.
fn by(db: &Connection, author: DeviceId) -> Result<Vec<Had>, StoreError> {
    let mut query = db.prepare(
        "SELECT hash, body_hash FROM record WHERE device = ?1
         ORDER BY clock_millis, clock_counter, id, hash",
    )?;
    let found = query.query_map([author.as_bytes()], |row| {
        Ok(Had {
            hash: EnvelopeHash::from_bytes(row.get(0)?),
            body: BodyHash::from_bytes(row.get(1)?),
        })
    })?;
    Ok(found.collect::<Result<_, _>>()?)
}

/// Every record here that a device has that is known to have `seen`.
pub(crate) fn covered(db: &Connection, seen: &Seen) -> Result<HashSet<EnvelopeHash>, StoreError> {
    let mut had = HashSet::new();
    for &author in seen.0.keys() {
        let records = by(db, author)?;
        had.extend(seen.covered(author, &records).iter().map(|it| it.hash));
    }
    Ok(had)
}

impl Seen {
    /// The part of these records that is covered, if it is still what it was.
    fn covered<'a>(&self, author: DeviceId, records: &'a [Had]) -> &'a [Had] {
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
        bundle: &Held,
    ) -> Result<Seen, StoreError> {
        let mut seen = Seen::default();
        for author in authors(&self.db)? {
            let records = by(&self.db, author)?;
            let covered = before.covered(author, &records).len();
            let mut reach = covered;
            for record in &records[covered..] {
                let whole = || -> Result<bool, StoreError> {
                    Ok(bundle.bodies.contains(&record.body)
                        || rows::body(&self.db, record.body)?
                            .is_none_or(|bytes| body::is_personal(&bytes)))
                };
                let had = author == device || (bundle.records.contains(&record.hash) && whole()?);
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
}
