//! A commit: one user action, signed by its device.

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Deserialize, Serialize};

use crate::clock::WallTime;
use crate::device::{DeviceKey, PublicKey, Signature};
use crate::envelope::Record;
use crate::error::{FormatError, VerifyError};
use crate::id::{CommitHash, CommitId, DeviceId, EnvelopeHash, RecordId};

/// What the user did. Decides only what "undo last" and "redo" take next, never what stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Action {
    /// Any change, striking out a single record included.
    Edit,
    /// Took back the commit named.
    Undo(CommitId),
    /// Took back the undo named.
    Redo(CommitId),
}

/// The content of a commit before it is signed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CommitDraft {
    /// Names the commit.
    pub id: CommitId,
    /// What the user did.
    pub action: Action,
    /// When, by the device's own clock.
    pub wall_time: WallTime,
    /// The records made, in order, each with the hash of its envelope.
    pub records: Vec<(RecordId, EnvelopeHash)>,
}

/// One user action: the records that it made, signed by the device that it was made on.
///
/// The signature covers the hash of each envelope and each envelope the hash of its body, so a
/// record can be checked with its commit alone: the commit's other records and every body may
/// be absent.
///
/// # Canonical form
/// As for an envelope: one JSON object, no white space, every key present, keys in the order of
/// their bytes.
///
/// ```json
/// {"action":"edit","device":"<hex>","id":"<uuid>","of":null,"public_key":"<hex>",
///  "records":[["<uuid>","<hex>"]],"signature":"<hex>","wall_time":0}
/// ```
///
/// `action` is `edit`, `undo` or `redo`; `of` is the commit undone or the undo redone, null for
/// an edit. What is signed is the text `valvewright commit 1`, a line feed, and the same object
/// without the key `signature`. The commit's hash is BLAKE3 of the whole object.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Commit {
    draft: CommitDraft,
    public_key: PublicKey,
    signature: Signature,
    bytes: Vec<u8>,
}

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
#[schemars(rename = "Action")]
enum WireAction {
    Edit,
    Undo,
    Redo,
}

// Fields in the order of their names: serde_json writes them in the order of declaration.
#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Commit")]
struct Wire {
    action: WireAction,
    device: DeviceId,
    id: CommitId,
    #[schemars(schema_with = "commit_or_null")]
    of: Option<CommitId>,
    public_key: PublicKey,
    records: Vec<(RecordId, EnvelopeHash)>,
    #[serde(skip_serializing_if = "Option::is_none")]
    // Left out only of what is signed.
    #[schemars(with = "Signature")]
    signature: Option<Signature>,
    wall_time: WallTime,
}

// Always there, if only as null; an `Option` would be one that may be left out.
fn commit_or_null(schemas: &mut SchemaGenerator) -> Schema {
    schemars::json_schema!({
        "anyOf": [schemas.subschema_for::<CommitId>(), { "type": "null" }]
    })
}

impl Wire {
    fn new(draft: &CommitDraft, public_key: PublicKey, signature: Option<Signature>) -> Self {
        let (action, of) = match draft.action {
            Action::Edit => (WireAction::Edit, None),
            Action::Undo(of) => (WireAction::Undo, Some(of)),
            Action::Redo(of) => (WireAction::Redo, Some(of)),
        };
        Self {
            action,
            device: public_key.device(),
            id: draft.id,
            of,
            public_key,
            records: draft.records.clone(),
            signature,
            wall_time: draft.wall_time,
        }
    }

    fn bytes(&self) -> Result<Vec<u8>, FormatError> {
        serde_json::to_vec(self).map_err(|error| FormatError::Json(error.to_string()))
    }
}

fn signed_message(draft: &CommitDraft, public_key: PublicKey) -> Result<Vec<u8>, FormatError> {
    let mut message = b"valvewright commit 1\n".to_vec();
    message.extend(Wire::new(draft, public_key, None).bytes()?);
    Ok(message)
}

impl Commit {
    /// Signs a draft.
    ///
    /// # Errors
    /// [`FormatError`] if it can't be written down (no draft made of valid parts is known to).
    pub fn sign(draft: CommitDraft, key: &DeviceKey) -> Result<Self, FormatError> {
        let signature = key.sign(&signed_message(&draft, key.public())?);
        Self::assemble(draft, key.public(), signature)
    }

    fn assemble(
        draft: CommitDraft,
        public_key: PublicKey,
        signature: Signature,
    ) -> Result<Self, FormatError> {
        let bytes = Wire::new(&draft, public_key, Some(signature)).bytes()?;
        Ok(Self {
            draft,
            public_key,
            signature,
            bytes,
        })
    }

    /// Reads canonical bytes. The signature is not checked here: see [`Commit::verify`].
    ///
    /// # Errors
    /// [`FormatError`] if they are anything but the canonical form of a commit; a device that is
    /// not the fingerprint of the key is not canonical either.
    pub fn parse(bytes: &[u8]) -> Result<Self, FormatError> {
        let wire: Wire =
            serde_json::from_slice(bytes).map_err(|error| FormatError::Json(error.to_string()))?;
        let action = match (wire.action, wire.of) {
            (WireAction::Edit, None) => Action::Edit,
            (WireAction::Undo, Some(of)) => Action::Undo(of),
            (WireAction::Redo, Some(of)) => Action::Redo(of),
            _ => return Err(FormatError::NotCanonical),
        };
        let signature = wire.signature.ok_or(FormatError::NotCanonical)?;
        let draft = CommitDraft {
            id: wire.id,
            action,
            wall_time: wire.wall_time,
            records: wire.records,
        };
        let commit = Self::assemble(draft, wire.public_key, signature)?;
        if commit.bytes == bytes {
            Ok(commit)
        } else {
            Err(FormatError::NotCanonical)
        }
    }

    /// The JSON Schema of a commit's canonical form, taken from what is read and written.
    pub fn schema(schemas: &mut SchemaGenerator) -> Schema {
        schemas.subschema_for::<Wire>()
    }

    /// Checks the signature.
    ///
    /// # Errors
    /// [`VerifyError::Signature`] if it doesn't fit.
    pub fn verify(&self) -> Result<(), VerifyError> {
        let fits = signed_message(&self.draft, self.public_key)
            .is_ok_and(|message| self.public_key.verifies(&message, &self.signature));
        if fits {
            Ok(())
        } else {
            Err(VerifyError::Signature(self.id()))
        }
    }

    /// Whether the commit vouches for this record: lists this very envelope, from its device.
    /// Says nothing of the signature.
    #[must_use]
    pub fn lists(&self, record: &Record) -> bool {
        record.envelope().device == self.device()
            && self.draft.records.contains(&(record.id(), record.hash()))
    }

    /// Names the commit.
    #[must_use]
    pub const fn id(&self) -> CommitId {
        self.draft.id
    }

    /// What the user did.
    #[must_use]
    pub const fn action(&self) -> Action {
        self.draft.action
    }

    /// When, by the device's own clock.
    #[must_use]
    pub const fn wall_time(&self) -> WallTime {
        self.draft.wall_time
    }

    /// The records made, in order, each with the hash of its envelope.
    #[must_use]
    pub fn records(&self) -> &[(RecordId, EnvelopeHash)] {
        &self.draft.records
    }

    /// The device: the fingerprint of [`Commit::public_key`].
    #[must_use]
    pub fn device(&self) -> DeviceId {
        self.public_key.device()
    }

    /// The key that signed it.
    #[must_use]
    pub const fn public_key(&self) -> PublicKey {
        self.public_key
    }

    /// The signature.
    #[must_use]
    pub const fn signature(&self) -> Signature {
        self.signature
    }

    /// Its canonical bytes.
    #[must_use]
    pub fn bytes(&self) -> &[u8] {
        &self.bytes
    }

    /// The hash of its canonical bytes.
    #[must_use]
    pub fn hash(&self) -> CommitHash {
        CommitHash::of(&self.bytes)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn commit() -> Commit {
        let draft = CommitDraft {
            id: CommitId::from_bytes([1; 16]),
            action: Action::Undo(CommitId::from_bytes([2; 16])),
            wall_time: WallTime::from_unix_ms(77),
            records: vec![(
                RecordId::from_bytes([3; 16]),
                EnvelopeHash::from_bytes([4; 32]),
            )],
        };
        Commit::sign(draft, &DeviceKey::from_secret(&[9; 32])).unwrap()
    }

    #[test]
    fn a_commit_survives_writing_and_reading() {
        let commit = commit();
        assert_eq!(commit.verify(), Ok(()));
        let read = Commit::parse(commit.bytes()).unwrap();
        assert_eq!(read, commit);
        assert_eq!(read.verify(), Ok(()));
        assert_eq!(read.device(), DeviceKey::from_secret(&[9; 32]).device());
    }

    #[test]
    fn no_field_can_be_changed_under_the_signature() {
        let text = String::from_utf8(commit().bytes).unwrap();
        let other = DeviceKey::from_secret(&[8; 32]).public();
        for changed in [
            text.replace("undo", "redo"),
            text.replace("01010101-", "01010102-"),
            text.replace("02020202-", "02020203-"),
            text.replace("03030303-", "03030304-"),
            text.replace(&"04".repeat(32), &"05".repeat(32)),
            text.replace(r#""wall_time":77"#, r#""wall_time":78"#),
            // Another's key, with the name that belongs to it.
            text.replace(&commit().public_key.to_string(), &other.to_string())
                .replace(&commit().device().to_string(), &other.device().to_string()),
        ] {
            assert_ne!(changed, text);
            let read = Commit::parse(changed.as_bytes()).unwrap();
            assert_eq!(
                read.verify(),
                Err(VerifyError::Signature(read.id())),
                "{changed}"
            );
        }
    }

    #[test]
    fn a_device_that_is_not_the_keys_fingerprint_is_refused() {
        let text = String::from_utf8(commit().bytes).unwrap();
        let changed = text.replace(&commit().device().to_string(), &"ab".repeat(32));
        assert_eq!(
            Commit::parse(changed.as_bytes()),
            Err(FormatError::NotCanonical)
        );
    }
}
