//! The envelope of a record and its one byte form.

use schemars::{JsonSchema, Schema, SchemaGenerator};
use serde::{Deserialize, Serialize};

use crate::clock::{Tick, WallTime};
use crate::error::FormatError;
use crate::id::{BodyHash, DeviceId, EnvelopeHash, PersonId, RecordId, SubjectId};
use crate::kind::Kind;

/// All that is known of a record but its body. Never altered once written.
///
/// # Canonical form
/// One JSON object (RFC 8259) in UTF-8, no white space, every key present, keys in the order of
/// their bytes:
///
/// ```json
/// {"author":"<uuid>","body_hash":"<hex>","clock":{"counter":0,"millis":0},"device":"<hex>",
///  "id":"<uuid>","kind":"job","kind_version":1,"subject":"<uuid>","supersedes":["<uuid>"],
///  "wall_time":0}
/// ```
///
/// (one line in truth). UUIDs are lower-case and hyphenated, hashes lower-case hexadecimal,
/// `supersedes` is sorted and without repetition, integers are plain decimals within ±(2^53 - 1),
/// `counter` and `kind_version` within 2^32 - 1. No string can need an escape. A reader refuses
/// any other spelling, so one envelope has one hash: BLAKE3 of these bytes.
///
/// # Void
/// A record of kind [`Kind::VOID`] names the one record that it strikes out in `supersedes`, and
/// has that record's subject. The target is here and not in the body, so that a withheld or
/// erased body never changes what stands.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Envelope {
    /// Names the record.
    pub id: RecordId,
    /// When, by the device's hybrid logical clock.
    pub clock: Tick,
    /// When, by the device's own clock, for people to read.
    pub wall_time: WallTime,
    /// The device that wrote it.
    pub device: DeviceId,
    /// The person who wrote it.
    pub author: PersonId,
    /// What it is about.
    pub subject: SubjectId,
    /// What sort of thing it says.
    pub kind: Kind,
    /// The version of the kind's body format.
    pub kind_version: u32,
    /// The records that its author saw and replaces (or, in a void, the one struck out). Sorted
    /// and without repetition in the canonical form, whatever the order here.
    pub supersedes: Vec<RecordId>,
    /// The hash of the body's bytes.
    pub body_hash: BodyHash,
}

// Fields in the order of their names: serde_json writes them in the order of declaration.
#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Tick")]
struct WireTick {
    #[schemars(range(max = 4_294_967_295_u32))]
    counter: u32,
    #[schemars(range(max = 9_007_199_254_740_991_u64))]
    millis: u64,
}

#[derive(Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[schemars(rename = "Envelope")]
struct Wire {
    author: PersonId,
    body_hash: BodyHash,
    clock: WireTick,
    device: DeviceId,
    id: RecordId,
    kind: Kind,
    #[schemars(range(max = 4_294_967_295_u32))]
    kind_version: u32,
    subject: SubjectId,
    supersedes: Vec<RecordId>,
    wall_time: WallTime,
}

/// An envelope together with its hash and canonical bytes: made only here, so the three always
/// belong together.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Record {
    envelope: Envelope,
    bytes: Vec<u8>,
    hash: EnvelopeHash,
}

impl Record {
    /// Puts an envelope in canonical form.
    ///
    /// # Errors
    /// [`FormatError::VoidTarget`] if it is a void and doesn't name exactly one record.
    pub fn new(mut envelope: Envelope) -> Result<Self, FormatError> {
        envelope.supersedes.sort_unstable();
        envelope.supersedes.dedup();
        if envelope.kind == Kind::VOID && envelope.supersedes.len() != 1 {
            return Err(FormatError::VoidTarget);
        }
        let bytes = serde_json::to_vec(&Wire {
            author: envelope.author,
            body_hash: envelope.body_hash,
            clock: WireTick {
                counter: envelope.clock.counter(),
                millis: envelope.clock.millis(),
            },
            device: envelope.device,
            id: envelope.id,
            kind: envelope.kind.clone(),
            kind_version: envelope.kind_version,
            subject: envelope.subject,
            supersedes: envelope.supersedes.clone(),
            wall_time: envelope.wall_time,
        })
        .map_err(|error| FormatError::Json(error.to_string()))?;
        let hash = EnvelopeHash::of(&bytes);
        Ok(Self {
            envelope,
            bytes,
            hash,
        })
    }

    /// Reads canonical bytes.
    ///
    /// # Errors
    /// [`FormatError`] if they are anything but the canonical form of an envelope.
    pub fn parse(bytes: &[u8]) -> Result<Self, FormatError> {
        let wire: Wire =
            serde_json::from_slice(bytes).map_err(|error| FormatError::Json(error.to_string()))?;
        let record = Self::new(Envelope {
            id: wire.id,
            clock: Tick::new(wire.clock.millis, wire.clock.counter)?,
            wall_time: wire.wall_time,
            device: wire.device,
            author: wire.author,
            subject: wire.subject,
            kind: wire.kind,
            kind_version: wire.kind_version,
            supersedes: wire.supersedes,
            body_hash: wire.body_hash,
        })?;
        if record.bytes == bytes {
            Ok(record)
        } else {
            Err(FormatError::NotCanonical)
        }
    }

    /// The JSON Schema of an envelope's canonical form, taken from what is read and written.
    pub fn schema(schemas: &mut SchemaGenerator) -> Schema {
        schemas.subschema_for::<Wire>()
    }

    /// The envelope.
    #[must_use]
    pub const fn envelope(&self) -> &Envelope {
        &self.envelope
    }

    /// Its canonical bytes.
    #[must_use]
    pub fn bytes(&self) -> &[u8] {
        &self.bytes
    }

    /// The hash of its canonical bytes.
    #[must_use]
    pub const fn hash(&self) -> EnvelopeHash {
        self.hash
    }

    /// Names the record.
    #[must_use]
    pub const fn id(&self) -> RecordId {
        self.envelope.id
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn envelope() -> Envelope {
        Envelope {
            id: RecordId::from_bytes([1; 16]),
            clock: Tick::new(1_790_000_000_000, 2).unwrap(),
            wall_time: WallTime::from_unix_ms(-5),
            device: DeviceId::from_bytes([3; 32]),
            author: PersonId::from_bytes([4; 16]),
            subject: SubjectId::from_bytes([5; 16]),
            kind: Kind::literal("job"),
            kind_version: 1,
            supersedes: vec![RecordId::from_bytes([9; 16]), RecordId::from_bytes([8; 16])],
            body_hash: BodyHash::from_bytes([7; 32]),
        }
    }

    #[test]
    fn the_byte_form_is_as_documented() {
        let record = Record::new(envelope()).unwrap();
        let text = format!(
            concat!(
                r#"{{"author":"04040404-0404-0404-0404-040404040404","body_hash":"{}","#,
                r#""clock":{{"counter":2,"millis":1790000000000}},"device":"{}","#,
                r#""id":"01010101-0101-0101-0101-010101010101","kind":"job","kind_version":1,"#,
                r#""subject":"05050505-0505-0505-0505-050505050505","supersedes":["#,
                r#""08080808-0808-0808-0808-080808080808","09090909-0909-0909-0909-090909090909""#,
                r#"],"wall_time":-5}}"#
            ),
            "07".repeat(32),
            "03".repeat(32)
        );
        assert_eq!(std::str::from_utf8(record.bytes()).unwrap(), text);
        assert_eq!(Record::parse(text.as_bytes()), Ok(record));
    }

    #[test]
    fn any_other_spelling_is_refused() {
        let text = String::from_utf8(Record::new(envelope()).unwrap().bytes).unwrap();
        let swapped = text.replacen(
            r#"["08080808-0808-0808-0808-080808080808","09090909-0909-0909-0909-090909090909"]"#,
            r#"["09090909-0909-0909-0909-090909090909","08080808-0808-0808-0808-080808080808"]"#,
            1,
        );
        for other in [
            text.replacen(':', ": ", 1),
            format!("{text}\n"),
            swapped,
            text.replace(r#""job""#, r#""jo\u0062""#),
            text.replace(r#""wall_time":-5"#, r#""wall_time":-5,"more":1"#),
            text.replace(r#""wall_time":-5"#, r#""wall_time":-5.0"#),
            text.replace(r#""wall_time":-5"#, r#""wall_time":-9007199254740992"#),
            text.replace("1790000000000", "9007199254740992"),
            text.replace(r#""kind_version":1"#, r#""kind_version":4294967296"#),
            text.replace(r#""kind":"job""#, r#""kind":"Job""#),
        ] {
            assert_ne!(other, text);
            assert!(Record::parse(other.as_bytes()).is_err(), "{other}");
        }
    }

    #[test]
    fn a_void_names_one_record() {
        let void = |supersedes| {
            Record::new(Envelope {
                kind: Kind::VOID,
                supersedes,
                ..envelope()
            })
        };
        assert_eq!(void(vec![]), Err(FormatError::VoidTarget));
        assert_eq!(void(envelope().supersedes), Err(FormatError::VoidTarget));
        assert!(void(vec![RecordId::from_bytes([8; 16])]).is_ok());
    }
}
