//! The kind of a record.

use std::borrow::Cow;
use std::fmt;
use std::str::FromStr;

use crate::error::FormatError;
use crate::id::text_serde;
use serde::{Deserialize, Deserializer, Serialize, Serializer, de};

/// What sort of thing a record says, such as `job` or `bore.reading`.
///
/// Lower-case ASCII words: letters, digits and `_`, parts joined by `.`, each part beginning with
/// a letter, at most 64 bytes. A program keeps records of kinds that it doesn't know.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Kind(Cow<'static, str>);

impl Kind {
    /// Strikes out the one record that the envelope names in `supersedes`. A void of a void
    /// brings the first record back. Its body is free (it may give a reason) and never decides.
    pub const VOID: Self = Self::literal("void");

    /// Takes bodies out of the journal for good: see [`crate::erasure`].
    pub const ERASURE: Self = Self::literal("erasure");

    /// A kind named in the program's text.
    ///
    /// ```
    /// use journal::Kind;
    /// const READING: Kind = Kind::literal("bore.reading");
    /// assert_eq!(READING.as_str(), "bore.reading");
    /// ```
    ///
    /// # Panics
    /// If the name doesn't have the documented form; in a constant, that stops the build.
    #[must_use]
    pub const fn literal(name: &'static str) -> Self {
        assert!(well_formed(name.as_bytes()), "not a kind");
        Self(Cow::Borrowed(name))
    }

    /// The name.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

const fn well_formed(name: &[u8]) -> bool {
    if name.is_empty() || name.len() > 64 {
        return false;
    }
    let mut starts_part = true;
    let mut i = 0;
    while i < name.len() {
        match name[i] {
            b'a'..=b'z' => starts_part = false,
            b'0'..=b'9' | b'_' if !starts_part => {}
            b'.' if !starts_part => starts_part = true,
            _ => return false,
        }
        i += 1;
    }
    !starts_part
}

impl FromStr for Kind {
    type Err = FormatError;

    fn from_str(name: &str) -> Result<Self, FormatError> {
        if well_formed(name.as_bytes()) {
            Ok(Self(Cow::Owned(name.to_owned())))
        } else {
            Err(FormatError::Kind(name.chars().take(80).collect()))
        }
    }
}

impl fmt::Display for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl fmt::Debug for Kind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Kind({})", self.0)
    }
}

text_serde!(Kind, "^(?=.{1,64}$)[a-z][a-z0-9_]*(\\.[a-z][a-z0-9_]*)*$");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn kinds_are_lower_case_words() {
        for name in ["job", "bore.reading", "unit.land_2", "a"] {
            assert_eq!(name.parse::<Kind>().unwrap().as_str(), name);
        }
        let long = "a".repeat(65);
        for name in [
            "", "Job", "job ", ".job", "job.", "a..b", "2nd", "_x", "a.2", "é", &long,
        ] {
            assert!(name.parse::<Kind>().is_err(), "{name:?}");
        }
    }
}
