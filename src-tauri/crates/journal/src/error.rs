//! Why a serialised form was not accepted.

use crate::id::{BodyHash, CommitId, RecordId};

/// A serialised envelope, commit, identifier or kind that does not have the documented form.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum FormatError {
    /// Not JSON, a field missing, unknown or of the wrong type.
    #[error("not of the documented form: {0}")]
    Json(String),
    /// The right fields, but not written in the one canonical way.
    #[error("not in canonical form")]
    NotCanonical,
    /// An identifier that is not a lower-case hyphenated UUID.
    #[error("not an identifier: {0:?}")]
    Id(String),
    /// A hash, key or signature that is not lower-case hexadecimal of the right length.
    #[error("not hexadecimal of the right length: {0:?}")]
    Hex(String),
    /// A kind that is not lower-case words joined by `.` and `_`, at most 64 bytes.
    #[error("not a kind: {0:?}")]
    Kind(String),
    /// A time or counter outside the range that every JSON reader keeps exactly.
    #[error("{field} is outside the range that can be stored")]
    Range {
        /// The field.
        field: &'static str,
    },
    /// A void names no record, or more than one.
    #[error("a void must name exactly one record")]
    VoidTarget,
    /// A personal body without its salt, or a plain body that looks like a salted one.
    #[error("the salt of the body is missing or malformed")]
    Salt,
}

/// A commit, record or body that is well formed but can't be believed.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum VerifyError {
    /// The signature does not fit the commit and its key.
    #[error("commit {0}: bad signature")]
    Signature(CommitId),
    /// No commit at hand lists this very envelope under its device.
    #[error("record {0}: no signed commit of its device lists it")]
    Unsigned(RecordId),
    /// No record at hand has this body.
    #[error("body {0}: no record has it")]
    StrayBody(BodyHash),
}
