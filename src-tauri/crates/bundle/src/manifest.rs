//! The manifest and the bundle's signature.

use std::collections::BTreeMap;

use journal::{DeviceId, DeviceKey, PersonId, PublicKey, Signature, WallTime};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::attachments::{AttachmentHash, parse_hash};
use crate::error::BundleError;

/// The newest format version that this program reads. One without attachments is written as
/// version 1, so that programs that know no attachments go on reading it.
pub const FORMAT: u64 = 2;

pub(crate) const RECORDS: &str = "records.ndjson";
pub(crate) const BODIES: &str = "bodies.ndjson";
pub(crate) const MANIFEST: &str = "manifest.json";
/// The member with the bundle's own signature, without which it is only looked at.
pub const SIGNATURE: &str = "signature.json";
/// The members that every bundle has.
pub(crate) const ALWAYS: [&str; 4] = [RECORDS, BODIES, MANIFEST, SIGNATURE];
/// How the name of an attachment begins; its hash follows.
pub(crate) const ATTACHMENTS: &str = "attachments/";

/// What a bundle says of itself. Keys that a reader doesn't know are passed over.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Manifest {
    // In the order of their names, as they are written.
    /// The person who made the bundle.
    pub author: PersonId,
    /// How much it holds.
    pub counts: Counts,
    /// When it was made, by the clock of the device that made it.
    pub created: WallTime,
    /// The device that made it: the fingerprint of the key that signs it.
    pub device: DeviceId,
    /// The format version.
    #[schemars(range(min = 1, max = 2))]
    pub format: u64,
    /// The other members, by name.
    pub members: BTreeMap<String, MemberInfo>,
}

/// How much a bundle holds.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Counts {
    /// Bodies.
    pub bodies: u64,
    /// Commits.
    pub commits: u64,
    /// Records.
    pub records: u64,
}

/// One member of the archive.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct MemberInfo {
    /// BLAKE3 of its inflated bytes, lower-case hexadecimal.
    #[schemars(regex(pattern = "^[0-9a-f]{64}$"))]
    pub blake3: String,
    /// Its inflated length.
    pub bytes: u64,
}

impl MemberInfo {
    pub(crate) fn new(hasher: &blake3::Hasher, bytes: u64) -> Self {
        Self {
            blake3: hasher.finalize().to_hex().to_string(),
            bytes,
        }
    }
}

impl Manifest {
    /// The attachments with their lengths; none if another member is listed than there may be, or
    /// one under a name that isn't its hash.
    pub(crate) fn attachments(&self) -> Option<BTreeMap<AttachmentHash, u64>> {
        let mut found = BTreeMap::new();
        for (name, info) in &self.members {
            if let Some(digits) = name.strip_prefix(ATTACHMENTS) {
                let hash = parse_hash(digits).filter(|_| info.blake3 == digits)?;
                found.insert(hash, info.bytes);
            } else if ![RECORDS, BODIES].contains(&name.as_str()) {
                return None;
            }
        }
        (self.format > 1 || found.is_empty()).then_some(found)
    }
}

/// The name of an attachment in the archive.
pub(crate) fn member_name(hash: &AttachmentHash) -> String {
    format!("{ATTACHMENTS}{}", blake3::Hash::from_bytes(*hash).to_hex())
}

/// The last member.
#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "BundleSignature")]
pub(crate) struct Seal {
    pub public_key: PublicKey,
    pub signature: Signature,
}

fn signed_message(manifest: &[u8]) -> Vec<u8> {
    [b"valvewright bundle 1\n", manifest].concat()
}

impl Seal {
    pub fn make(manifest: &[u8], key: &DeviceKey) -> Self {
        Self {
            public_key: key.public(),
            signature: key.sign(&signed_message(manifest)),
        }
    }

    pub fn check(&self, bytes: &[u8], manifest: &Manifest) -> Result<(), BundleError> {
        let fits = self.public_key.device() == manifest.device
            && self
                .public_key
                .verifies(&signed_message(bytes), &self.signature);
        if fits {
            Ok(())
        } else {
            Err(BundleError::BadSignature)
        }
    }
}
