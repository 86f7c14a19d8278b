//! Identifiers and hashes, each a type of its own.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Deserializer, Serialize, Serializer, de};
use uuid::Uuid;

use crate::canonical::{from_hex, to_hex};
use crate::error::FormatError;

macro_rules! uuid_id {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        ///
        /// Written as a lower-case hyphenated UUID. New ones are version 7 (RFC 9562); any
        /// version is read.
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name(Uuid);

        impl $name {
            /// A new identifier (UUID version 7) from the time in milliseconds since 1970 and
            /// ten random bytes, of which 74 bits are used.
            #[must_use]
            pub fn new(unix_ms: u64, random: &[u8; 10]) -> Self {
                Self(uuid::Builder::from_unix_timestamp_millis(unix_ms, random).into_uuid())
            }

            /// The identifier with these bytes.
            #[must_use]
            pub const fn from_bytes(bytes: [u8; 16]) -> Self {
                Self(Uuid::from_bytes(bytes))
            }

            /// Its sixteen bytes.
            #[must_use]
            pub const fn as_bytes(&self) -> &[u8; 16] {
                self.0.as_bytes()
            }

            /// The identifier as a plain UUID.
            #[must_use]
            pub const fn uuid(&self) -> Uuid {
                self.0
            }
        }

        impl From<Uuid> for $name {
            fn from(uuid: Uuid) -> Self {
                Self(uuid)
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                fmt::Display::fmt(&self.0.hyphenated(), f)
            }
        }

        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, concat!(stringify!($name), "({})"), self.0)
            }
        }

        impl FromStr for $name {
            type Err = FormatError;

            fn from_str(text: &str) -> Result<Self, FormatError> {
                let fail = || FormatError::Id(text.chars().take(64).collect());
                let id = Uuid::try_parse(text).map_err(|_| fail())?;
                let mut buffer = Uuid::encode_buffer();
                // One spelling only, or two byte forms would name the same thing.
                if id.hyphenated().encode_lower(&mut buffer) != text {
                    return Err(fail());
                }
                Ok(Self(id))
            }
        }

        text_serde!(
            $name,
            "^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$"
        );
    };
}

macro_rules! hash_id {
    ($(#[$doc:meta])* $name:ident) => {
        $(#[$doc])*
        ///
        /// Thirty-two bytes, written as lower-case hexadecimal.
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub struct $name([u8; 32]);

        impl $name {
            /// The BLAKE3 hash of these bytes.
            #[must_use]
            pub fn of(bytes: &[u8]) -> Self {
                Self(*blake3::hash(bytes).as_bytes())
            }

            /// The hash with these bytes.
            #[must_use]
            pub const fn from_bytes(bytes: [u8; 32]) -> Self {
                Self(bytes)
            }

            /// Its thirty-two bytes.
            #[must_use]
            pub const fn as_bytes(&self) -> &[u8; 32] {
                &self.0
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&to_hex(&self.0))
            }
        }

        impl fmt::Debug for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                write!(f, concat!(stringify!($name), "({})"), to_hex(&self.0))
            }
        }

        impl FromStr for $name {
            type Err = FormatError;

            fn from_str(text: &str) -> Result<Self, FormatError> {
                from_hex(text).map(Self)
            }
        }

        text_serde!($name, "^[0-9a-f]{64}$");
    };
}

/// Reading and writing as text, and the schema of that text.
macro_rules! text_serde {
    ($name:ident, $pattern:literal) => {
        impl schemars::JsonSchema for $name {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($name).into()
            }

            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                schemars::json_schema!({ "type": "string", "pattern": $pattern })
            }
        }

        impl Serialize for $name {
            fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
                serializer.collect_str(self)
            }
        }

        impl<'de> Deserialize<'de> for $name {
            fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
                let text = std::borrow::Cow::<'de, str>::deserialize(deserializer)?;
                text.parse().map_err(de::Error::custom)
            }
        }
    };
}
pub(crate) use text_serde;

uuid_id! {
    /// Names one record.
    RecordId
}
uuid_id! {
    /// Names one commit: the records of one user action.
    CommitId
}
uuid_id! {
    /// Names what a record is about: a job, a bore, a spring, an instrument.
    SubjectId
}
uuid_id! {
    /// Names a person who writes records.
    PersonId
}
hash_id! {
    /// Names a device: the hash of its public key's 32 bytes.
    DeviceId
}
hash_id! {
    /// The hash of a body's bytes, as they came.
    BodyHash
}
hash_id! {
    /// The hash of an envelope's canonical bytes.
    EnvelopeHash
}
hash_id! {
    /// The hash of a commit's canonical bytes, signature included.
    CommitHash
}

hash_id! {
    /// Names an attachment, a picture for one: the hash of its bytes. Bodies name it; the bytes
    /// themselves are no part of the journal.
    AttachmentHash
}

impl From<PersonId> for SubjectId {
    /// A person is a subject too: the one that records about that person are about.
    fn from(person: PersonId) -> Self {
        Self(person.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_new_id_is_version_7_and_sorts_by_time() {
        let early = RecordId::new(1_000, &[0xff; 10]);
        let late = RecordId::new(1_001, &[0; 10]);
        assert!(early < late);
        assert_eq!(early.0.get_version_num(), 7);
        assert_eq!(early.to_string().parse(), Ok(early));
    }

    #[test]
    fn other_spellings_of_a_uuid_are_not_read() {
        let id = RecordId::new(1_700_000_000_000, &[0xab; 10]).to_string();
        for text in [
            id.to_uppercase(),
            id.replace('-', ""),
            format!("{{{id}}}"),
            "x".into(),
        ] {
            assert!(text.parse::<RecordId>().is_err(), "{text}");
        }
    }

    #[test]
    fn the_hash_is_blake3() {
        // BLAKE3's published test vector for the empty input.
        assert_eq!(
            BodyHash::of(b"").to_string(),
            "af1349b9f5f9a1a6a0404dea36dcc9499bcb25c9adc112b7cc9a93cae41f3262"
        );
    }
}
