//! Reading a bundle: from raw bytes to something that can be believed.

use std::fs::File;
use std::io::Read;
use std::path::Path;

use journal::{Batch, CheckedBatch, PublicKey};
use serde::Deserialize;
use serde::de::DeserializeOwned;

use crate::container::Container;
use crate::error::{Bound, BundleError};
use crate::limits::{Counters, Limits, depth, within};
use crate::lines;
use crate::manifest::{
    BODIES, Counts, FORMAT, MANIFEST, Manifest, MemberInfo, RECORDS, SIGNATURE, Seal,
};

/// A bundle whose every hash and signature holds.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Checked {
    manifest: Manifest,
    courier: PublicKey,
    batch: CheckedBatch,
}

impl Checked {
    /// What the bundle says of itself.
    #[must_use]
    pub const fn manifest(&self) -> &Manifest {
        &self.manifest
    }

    /// The key of the device that made the bundle, which vouches for the courier only.
    #[must_use]
    pub const fn courier(&self) -> PublicKey {
        self.courier
    }

    /// What it holds.
    #[must_use]
    pub const fn batch(&self) -> &CheckedBatch {
        &self.batch
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
pub fn read(file: &[u8]) -> Result<Checked, BundleError> {
    Reader::default().read(file)
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
    pub fn read_file(&mut self, path: &Path) -> Result<Checked, BundleError> {
        let mut bytes = Vec::new();
        // One byte more than is accepted, so that a longer file is told.
        File::open(path)?
            .take(self.limits.file_bytes.saturating_add(1))
            .read_to_end(&mut bytes)?;
        self.read(&bytes)
    }

    /// Reads a bundle.
    ///
    /// # Errors
    /// [`BundleError`], naming the first thing that is wrong.
    pub fn read(&mut self, file: &[u8]) -> Result<Checked, BundleError> {
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
        let known = [RECORDS, BODIES, MANIFEST, SIGNATURE];
        if let Some(other) = container.names().find(|name| !known.contains(name)) {
            let shown = other
                .chars()
                .take(80)
                .flat_map(char::escape_debug)
                .collect();
            return Err(BundleError::Unexpected(shown));
        }
        let seal = self.inflate(&mut container, SIGNATURE)?;
        let seal: Seal = self.json(SIGNATURE, &seal)?;
        seal.check(&manifest_bytes, &manifest)?;

        let mut batch = Batch::default();
        let records = self.declared(&mut container, &manifest, RECORDS)?;
        lines::read_records(&records, &self.limits, &mut self.counters, &mut batch)?;
        drop(records);
        let bodies = self.declared(&mut container, &manifest, BODIES)?;
        lines::read_bodies(&bodies, &self.limits, &mut self.counters, &mut batch)?;
        drop(bodies);
        let counts = Counts {
            bodies: batch.bodies.len() as u64,
            commits: batch.commits.len() as u64,
            records: batch.records.len() as u64,
        };
        if manifest.members.len() != 2 || counts != manifest.counts {
            return Err(malformed(MANIFEST, "it doesn't describe the bundle".into()));
        }
        Ok(Checked {
            manifest,
            courier: seal.public_key,
            batch: batch.check()?,
        })
    }

    fn inflate(
        &mut self,
        container: &mut Container<'_>,
        name: &'static str,
    ) -> Result<Vec<u8>, BundleError> {
        container.inflate(name, &self.limits, &mut self.counters)
    }

    /// Inflates a member and compares it with the manifest.
    fn declared(
        &mut self,
        container: &mut Container<'_>,
        manifest: &Manifest,
        name: &'static str,
    ) -> Result<Vec<u8>, BundleError> {
        let info = manifest
            .members
            .get(name)
            .ok_or(BundleError::Missing(name))?;
        let bytes = self.inflate(container, name)?;
        if MemberInfo::of(&bytes) == *info {
            Ok(bytes)
        } else {
            Err(BundleError::Changed(name.into()))
        }
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
