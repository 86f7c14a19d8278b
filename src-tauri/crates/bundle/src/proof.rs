//! What must hold between the members of a bundle: every record listed by a signed commit, every
//! body had by a record, every attachment named by a body. Told from hashes alone, 16 or 32 bytes
//! a record, so that the records themselves need not be kept.

use std::collections::{BTreeMap, BTreeSet};

use journal::{
    BodyHash, Commit, CommitHash, DeviceId, EnvelopeHash, Record, RecordId, VerifyError,
};

use crate::attachments::AttachmentHash;
use crate::error::{Bound, BundleError};
use crate::limits::within;
use crate::manifest::{Counts, member_name};

/// The first half of a BLAKE3 hash. To find another content with the same takes 2^128 tries.
pub(crate) type Half = [u8; 16];

fn half(parts: &[&[u8]]) -> Half {
    let mut hasher = blake3::Hasher::new();
    for part in parts {
        hasher.update(part);
    }
    let mut half = Half::default();
    hasher.finalize_xof().fill(&mut half);
    half
}

/// That a record is listed: its device, id and hash, which all have a fixed length.
fn listing(device: DeviceId, id: RecordId, hash: EnvelopeHash) -> Half {
    half(&[device.as_bytes(), id.as_bytes(), hash.as_bytes()])
}

/// The same of a record.
pub(crate) fn listing_of(record: &Record) -> Half {
    listing(record.envelope().device, record.id(), record.hash())
}

/// What is done about a signature that is missing or doesn't fit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Unsigned {
    /// Nothing in the bundle is believed.
    Refused,
    /// It is remembered, to be told.
    Told,
}

/// What was met so far.
pub(crate) struct Proof {
    most: usize,
    unsigned_is: Unsigned,
    /// The commits whose signature doesn't fit.
    pub misfits: BTreeSet<CommitHash>,
    /// The records that no other commit lists, sorted.
    pub unsigned: Vec<Half>,
    commits: Vec<Half>,
    listed: Vec<Half>,
    records: Vec<(Half, RecordId)>,
    wanted: Vec<BodyHash>,
    /// For each of `wanted`, once it is sorted, whether it is here.
    found: Vec<bool>,
    /// For each attachment, whether a body names it.
    named: BTreeMap<AttachmentHash, bool>,
}

fn push<T>(list: &mut Vec<T>, most: usize, item: T) -> Result<(), BundleError> {
    within(list.len() + 1, most, Bound::Records)?;
    list.push(item);
    Ok(())
}

fn distinct<T: Ord>(list: &mut Vec<T>) {
    list.sort_unstable();
    list.dedup();
}

impl Proof {
    pub fn new(
        most: usize,
        attachments: impl Iterator<Item = AttachmentHash>,
        unsigned_is: Unsigned,
    ) -> Self {
        Self {
            most,
            unsigned_is,
            misfits: BTreeSet::new(),
            unsigned: Vec::new(),
            commits: Vec::new(),
            listed: Vec::new(),
            records: Vec::new(),
            wanted: Vec::new(),
            found: Vec::new(),
            named: attachments.map(|hash| (hash, false)).collect(),
        }
    }

    /// A commit, whose signature is checked here.
    pub fn commit(&mut self, commit: &Commit) -> Result<(), BundleError> {
        push(&mut self.commits, self.most, half(&[commit.bytes()]))?;
        if let Err(error) = commit.verify() {
            if self.unsigned_is == Unsigned::Refused {
                return Err(error.into());
            }
            self.misfits.insert(commit.hash());
            // What it lists, it vouches for nothing.
            return Ok(());
        }
        let device = commit.device();
        for &(id, hash) in commit.records() {
            push(&mut self.listed, self.most, listing(device, id, hash))?;
        }
        Ok(())
    }

    /// A record.
    pub fn record(&mut self, record: &Record) -> Result<(), BundleError> {
        let listing = listing_of(record);
        push(&mut self.records, self.most, (listing, record.id()))?;
        self.wanted.push(record.envelope().body_hash);
        Ok(())
    }

    /// All commits and records are there.
    pub fn end_of_records(&mut self) -> Result<(), BundleError> {
        distinct(&mut self.commits);
        distinct(&mut self.listed);
        distinct(&mut self.records);
        distinct(&mut self.wanted);
        self.found = vec![false; self.wanted.len()];
        let unlisted =
            |(listing, _): &&(Half, RecordId)| self.listed.binary_search(listing).is_err();
        let mut unlisted = self.records.iter().filter(unlisted);
        match self.unsigned_is {
            Unsigned::Refused => match unlisted.next() {
                Some(&(_, id)) => Err(VerifyError::Unsigned(id).into()),
                None => Ok(()),
            },
            Unsigned::Told => {
                self.unsigned = unlisted.map(|&(listing, _)| listing).collect();
                Ok(())
            }
        }
    }

    /// A body.
    pub fn body(&mut self, hash: BodyHash, content: &[u8]) -> Result<(), BundleError> {
        let place = self
            .wanted
            .binary_search(&hash)
            .map_err(|_| VerifyError::StrayBody(hash))?;
        self.found[place] = true;
        if !self.named.is_empty() {
            crate::attachments::each_hash(content, |hash| {
                if let Some(named) = self.named.get_mut(&hash) {
                    *named = true;
                }
            });
        }
        Ok(())
    }

    /// All bodies are there.
    pub fn end_of_bodies(&self) -> Result<Counts, BundleError> {
        if let Some((hash, _)) = self.named.iter().find(|(_, named)| !**named) {
            return Err(BundleError::StrayAttachment(member_name(hash)));
        }
        Ok(Counts {
            bodies: self.found.iter().filter(|found| **found).count() as u64,
            commits: self.commits.len() as u64,
            records: self.records.len() as u64,
        })
    }
}
