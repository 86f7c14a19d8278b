//! Why a bundle was not read or written.

use journal::VerifyError;
use store::StoreError;

use crate::seal::LEAST_CHARACTERS;

/// Which bound was passed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Bound {
    /// The length of the file.
    File,
    /// The number of members.
    Members,
    /// The length of the archive's directory.
    Directory,
    /// The inflated length of one member.
    Member,
    /// The inflated length of all members.
    Total,
    /// How much a member grows when inflated.
    Ratio,
    /// The length of one line.
    Line,
    /// The number of records, of commits, or of what commits list.
    Records,
    /// How deep JSON is nested.
    Depth,
}

/// A bundle that can't be read or written. A store is untouched after any of these.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum BundleError {
    /// The file is something else.
    #[error("the file is not a bundle")]
    NotABundle,
    /// The file begins as a bundle does, but its end is missing.
    #[error("the file is cut short")]
    Truncated,
    /// Made by a later version of the program.
    #[error("the bundle has format {found}, this program knows up to {known}")]
    NewerFormat {
        /// The bundle's format version.
        found: u64,
        /// The newest that this program knows.
        known: u64,
    },
    /// Larger than is accepted.
    #[error("the bundle is too large: {0:?}")]
    TooLarge(Bound),
    /// A member that doesn't belong there, is there twice, or overlaps another.
    #[error("unexpected member {0:?}")]
    Unexpected(String),
    /// A member that should be there is missing.
    #[error("member {0} is missing")]
    Missing(&'static str),
    /// An attachment that the manifest lists is missing.
    #[error("member {0} is missing")]
    MissingAttachment(String),
    /// An attachment that no record in the bundle names.
    #[error("no record names the attachment {0}")]
    StrayAttachment(String),
    /// A member is not what the manifest, or its own checksum, says it is.
    #[error("member {0} was changed or damaged")]
    Changed(String),
    /// A member doesn't have the documented form.
    #[error("member {member}, line {line}: {reason}")]
    Malformed {
        /// The member.
        member: &'static str,
        /// The line, from 1.
        line: usize,
        /// What is wrong there.
        reason: String,
    },
    /// The bundle's signature doesn't hold.
    #[error("the bundle's signature does not fit")]
    BadSignature,
    /// A commit, record or body in it can't be believed.
    #[error(transparent)]
    Unbelievable(#[from] VerifyError),
    /// The file is sealed with a passphrase, which [`unseal`](crate::unseal) takes.
    #[error("the file is sealed with a passphrase")]
    Sealed,
    /// The passphrase doesn't open the file, or the key sealed with it was changed.
    #[error("the passphrase does not open the file")]
    WrongPassphrase,
    /// Opening the file would take more work and memory than is spent on one.
    #[error("the file's seal asks for too much work")]
    CostlySeal,
    /// The sealed file was cut short or changed, or is sealed in another way.
    #[error("the sealed file was cut short, changed or damaged")]
    BrokenSeal,
    /// The passphrase is too short to seal with.
    #[error("the passphrase has fewer than {LEAST_CHARACTERS} characters")]
    ShortPassphrase,
    /// The store that records go to or come from failed.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// Reading or writing the file failed.
    #[error("reading or writing the file failed: {0}")]
    Io(#[from] std::io::Error),
}

impl BundleError {
    /// The code by which the format document names what is wrong.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NotABundle => "not_a_bundle",
            Self::Truncated => "truncated",
            Self::NewerFormat { .. } => "newer_format",
            Self::TooLarge(_) => "too_large",
            Self::Unexpected(_) => "unexpected_member",
            Self::Missing(_) | Self::MissingAttachment(_) => "missing_member",
            Self::StrayAttachment(_) => "stray_attachment",
            Self::Changed(_) => "changed",
            Self::Malformed { .. } => "malformed",
            Self::BadSignature => "bad_signature",
            Self::Unbelievable(error) => match error {
                VerifyError::Signature(_) => "bad_commit_signature",
                VerifyError::Unsigned(_) => "unsigned_record",
                VerifyError::StrayBody(_) => "stray_body",
                // A reason that is new to this crate is still one.
                _ => "unbelievable",
            },
            Self::Sealed => "sealed",
            Self::WrongPassphrase => "wrong_passphrase",
            Self::CostlySeal => "seal_too_costly",
            Self::BrokenSeal => "seal_broken",
            Self::ShortPassphrase => "short_passphrase",
            Self::Store(_) => "store",
            Self::Io(_) => "io",
        }
    }
}
