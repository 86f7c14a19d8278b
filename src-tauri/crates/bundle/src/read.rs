//! Reading a bundle: from raw bytes to something that can be believed.
//!
//! A bundle is gone through twice. The first time everything is checked, and nothing but hashes is
//! kept. When it is taken in, its records are read from the file again, and each member must
//! have the very hash that it had; else the transaction that they went into is given up. So nothing
//! of the content lies in memory or in another file in between, and a file that changes meanwhile
//! does no harm. The price is inflating and parsing twice; signatures are checked once.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fs::File;
use std::io::{Cursor, Read, Seek};
use std::path::Path;

use journal::{Batch, CheckedBatch, PublicKey};
use serde::Deserialize;
use serde::de::DeserializeOwned;
use store::{Item, Items, StoreError};

use crate::attachments::{AttachmentHash, AttachmentSink};
use crate::container::{Container, shown};
use crate::content::Content;
use crate::error::{Bound, BundleError};
use crate::limits::{Counters, Limits, depth, within};
use crate::lines::{self, Entry, Fault, Splitter};
use crate::look::Courier;
use crate::manifest::{
    ALWAYS, BODIES, FORMAT, MANIFEST, Manifest, RECORDS, SIGNATURE, Seal, member_name,
};
use crate::proof::{Proof, Unsigned};

/// A bundle whose every hash and signature holds, and the file that it is read from again.
#[derive(Debug)]
pub struct Checked<R> {
    content: Content<R>,
    courier: PublicKey,
}

impl<R: Read + Seek> Checked<R> {
    /// What the bundle says of itself.
    #[must_use]
    pub const fn manifest(&self) -> &Manifest {
        &self.content.manifest
    }

    /// The key of the device that made the bundle, which vouches for the courier only.
    #[must_use]
    pub const fn courier(&self) -> PublicKey {
        self.courier
    }

    /// The attachments that it has, with their lengths.
    #[must_use]
    pub const fn attachments(&self) -> &BTreeMap<AttachmentHash, u64> {
        &self.content.attachments
    }

    /// All records in memory: for small ones.
    ///
    /// # Errors
    /// [`BundleError::Changed`] if the file is another since it was checked.
    pub fn batch(&self) -> Result<CheckedBatch, BundleError> {
        let mut batch = Batch::default();
        self.each(&mut |item| {
            match item {
                Item::Commit(commit) => batch.commits.push(commit.clone()),
                Item::Record(record) => batch.records.push(record.clone()),
                Item::Body(_, bytes) => batch.bodies.push(bytes.to_vec()),
            }
            Ok(())
        })?;
        Ok(batch.check()?)
    }

    /// Hands over every attachment, each checked while it is read.
    ///
    /// # Errors
    /// [`BundleError::Changed`] for one that isn't what it should be; [`BundleError::Io`] if it
    /// can't be read or the sink can't keep it. The sink may have kept others by then, which do
    /// no harm: their names are their hashes.
    pub fn hand_over(&self, sink: &mut dyn AttachmentSink) -> Result<(), BundleError> {
        self.content.hand_over(sink)
    }
}

impl<R: Read + Seek> Items for Checked<R> {
    type Error = BundleError;

    fn each(
        &self,
        with: &mut dyn FnMut(Item<'_>) -> Result<(), StoreError>,
    ) -> Result<(), BundleError> {
        self.content.each(with)
    }
}

/// Reads bundles within limits, and counts.
#[derive(Debug, Clone, Default)]
pub struct Reader {
    limits: Limits,
    counters: Counters,
}

/// Reads a bundle within the default limits.
///
/// # Errors
/// As [`Reader::read`].
pub fn read(file: &[u8]) -> Result<Checked<Cursor<&[u8]>>, BundleError> {
    Reader::default().read(Cursor::new(file))
}

impl Reader {
    /// A reader with these limits.
    #[must_use]
    pub fn new(limits: Limits) -> Self {
        Self {
            limits,
            counters: Counters::default(),
        }
    }

    /// What the last reading met, whether it went well or not.
    #[must_use]
    pub const fn counters(&self) -> Counters {
        self.counters
    }

    /// Reads the bundle in this file.
    ///
    /// # Errors
    /// [`BundleError::Io`], or as [`Reader::read`].
    pub fn read_file(&mut self, path: &Path) -> Result<Checked<File>, BundleError> {
        self.read(File::open(path)?)
    }

    /// Reads a bundle and checks all of it.
    ///
    /// # Errors
    /// [`BundleError`], naming the first thing that is wrong.
    pub fn read<R: Read + Seek>(&mut self, file: R) -> Result<Checked<R>, BundleError> {
        let checked = self.read_records(file)?;
        self.check_attachments(&checked.content)?;
        Ok(checked)
    }

    /// Reads a bundle and checks all but the attachments' own bytes, which are checked when they
    /// are [handed over](Checked::hand_over).
    ///
    /// # Errors
    /// [`BundleError`], naming the first thing that is wrong.
    pub fn read_records<R: Read + Seek>(&mut self, file: R) -> Result<Checked<R>, BundleError> {
        self.read_records_watched(file, &mut |_| {})
    }

    /// As [`Reader::read_records`], and tells `watch` of each item on the way, so that what somebody
    /// wants to know of them takes no second reading. It is told before all is checked: if the
    /// reading fails, nothing that was told holds.
    ///
    /// # Errors
    /// [`BundleError`], naming the first thing that is wrong.
    pub fn read_records_watched<R: Read + Seek>(
        &mut self,
        file: R,
        watch: &mut dyn FnMut(&Item<'_>),
    ) -> Result<Checked<R>, BundleError> {
        match self.go_through(file, Unsigned::Refused, watch)? {
            (content, Courier::Signed(courier), _) => Ok(Checked { content, courier }),
            _ => Err(BundleError::BadSignature),
        }
    }

    /// Checks the attachments' own bytes.
    pub(crate) fn check_attachments<R: Read + Seek>(
        &mut self,
        content: &Content<R>,
    ) -> Result<(), BundleError> {
        for (hash, &length) in &content.attachments {
            let name = member_name(hash);
            let found = content.container.borrow_mut().pass(
                &name,
                length,
                &self.limits,
                &mut self.counters,
                |_| Ok(()),
            );
            let found = match found {
                // Longer than the manifest says: not what it should be.
                Err(BundleError::TooLarge(Bound::Member)) => None,
                found => Some(found?),
            };
            if found.as_ref() != content.manifest.members.get(&name) {
                return Err(BundleError::Changed(name));
            }
        }
        Ok(())
    }

    /// Checks all but the attachments' own bytes.
    pub(crate) fn go_through<R: Read + Seek>(
        &mut self,
        file: R,
        unsigned: Unsigned,
        watch: &mut dyn FnMut(&Item<'_>),
    ) -> Result<(Content<R>, Courier, Proof), BundleError> {
        self.counters = Counters::default();
        let mut container = Container::open(file, &self.limits, &mut self.counters)?;
        let manifest_bytes = self.inflate(&mut container, MANIFEST)?;
        // The version first: a later format may have other members and another manifest.
        let Version { format } = self.json(MANIFEST, &manifest_bytes)?;
        if format > FORMAT {
            return Err(BundleError::NewerFormat {
                found: format,
                known: FORMAT,
            });
        }
        if format == 0 {
            return Err(malformed(MANIFEST, "there is no format 0".into()));
        }
        let manifest: Manifest = self.json(MANIFEST, &manifest_bytes)?;
        let listed = |name: &str| format > 1 && manifest.members.contains_key(name);
        let unexpected = |name: &&str| !ALWAYS.contains(name) && !listed(name);
        if let Some(other) = container.names().find(unexpected) {
            return Err(BundleError::Unexpected(shown(other)));
        }
        let courier = if unsigned == Unsigned::Told && !container.has(SIGNATURE) {
            Courier::Unsigned
        } else {
            let seal = self.inflate(&mut container, SIGNATURE)?;
            let seal: Seal = self.json(SIGNATURE, &seal)?;
            match seal.check(&manifest_bytes, &manifest) {
                Ok(()) => Courier::Signed(seal.public_key),
                Err(error) if unsigned == Unsigned::Refused => return Err(error),
                Err(_) => Courier::Misfit,
            }
        };
        let undescribed = || malformed(MANIFEST, "it doesn't describe the bundle".into());
        let attachments = manifest.attachments();
        if let Some(attachments) = &attachments {
            for (hash, &length) in attachments {
                within(length, self.limits.attachment_bytes, Bound::Member)?;
                let name = member_name(hash);
                if !container.has(&name) {
                    return Err(BundleError::MissingAttachment(name));
                }
            }
        }
        let hashes = attachments.iter().flat_map(BTreeMap::keys).copied();
        let mut proof = Proof::new(self.limits.records, hashes, unsigned);
        self.declared(&mut container, &manifest, RECORDS, |line| {
            match lines::read_entry(line)? {
                Entry::Commit(commit) => {
                    proof.commit(&commit).map_err(Fault::Other)?;
                    watch(&Item::Commit(&commit));
                }
                Entry::Record(record) => {
                    proof.record(&record).map_err(Fault::Other)?;
                    watch(&Item::Record(&record));
                }
            }
            Ok(())
        })?;
        proof.end_of_records()?;
        self.declared(&mut container, &manifest, BODIES, |line| {
            let (hash, body) = lines::read_body(line)?;
            proof.body(hash, &body).map_err(Fault::Other)?;
            watch(&Item::Body(hash, &body));
            Ok(())
        })?;
        if proof.end_of_bodies()? != manifest.counts {
            return Err(undescribed());
        }
        let content = Content {
            attachments: attachments.ok_or_else(undescribed)?,
            manifest,
            limits: self.limits,
            container: RefCell::new(container),
        };
        Ok((content, courier, proof))
    }

    fn inflate<R: Read + Seek>(
        &mut self,
        container: &mut Container<R>,
        name: &'static str,
    ) -> Result<Vec<u8>, BundleError> {
        container.inflate(name, &self.limits, &mut self.counters)
    }

    /// Goes through a member's lines and compares the whole with the manifest. That comes first:
    /// what was damaged on its way is told as that, not by the line that it broke.
    fn declared<R: Read + Seek>(
        &mut self,
        container: &mut Container<R>,
        manifest: &Manifest,
        name: &'static str,
        mut with: impl FnMut(&[u8]) -> Result<(), Fault>,
    ) -> Result<(), BundleError> {
        let info = manifest
            .members
            .get(name)
            .ok_or(BundleError::Missing(name))?;
        let limits = self.limits;
        let mut splitter = Splitter::new(name, &limits);
        let mut lines = Ok(());
        let found = container.pass(
            name,
            limits.member_bytes,
            &limits,
            &mut self.counters,
            |piece| {
                if lines.is_ok() {
                    lines = splitter.take(piece, &mut with);
                }
                Ok(())
            },
        )?;
        self.counters.depth = self.counters.depth.max(splitter.depth);
        if found != *info {
            return Err(BundleError::Changed(name.into()));
        }
        lines.and_then(|()| splitter.end())
    }

    fn json<T: DeserializeOwned>(
        &mut self,
        member: &'static str,
        bytes: &[u8],
    ) -> Result<T, BundleError> {
        self.counters.depth = self.counters.depth.max(depth(bytes));
        within(self.counters.depth, self.limits.depth, Bound::Depth)?;
        serde_json::from_slice(bytes).map_err(|error| malformed(member, error.to_string()))
    }
}

#[derive(Deserialize)]
struct Version {
    format: u64,
}

fn malformed(member: &'static str, reason: String) -> BundleError {
    BundleError::Malformed {
        member,
        line: 1,
        reason,
    }
}
