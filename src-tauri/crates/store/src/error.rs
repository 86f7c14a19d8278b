//! Why the store could not do what was asked.

use journal::{FormatError, RecordId, VerifyError};
use rusqlite::{ErrorCode, ffi};

const MOVED: i32 = ffi::SQLITE_READONLY_DBMOVED;

/// A failure of the store. After any of them the file is as it was before the call.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum StoreError {
    /// Another handle or process holds the file; worth trying again.
    #[error("the store is in use by another program")]
    Locked,
    /// The file or its folder can't be written.
    #[error("the store can't be written: it is read-only")]
    ReadOnly,
    /// No room left.
    #[error("the disk is full")]
    DiskFull,
    /// Written by a later version of the program; left untouched.
    #[error("the store has schema {found}, this program knows up to {known}")]
    NewerSchema {
        /// The file's schema number.
        found: i64,
        /// The newest that this program knows.
        known: i64,
    },
    /// The file is something else.
    #[error("the file is not a store")]
    NotAStore,
    /// The file's content is broken.
    #[error("the store is damaged: {0}")]
    Damaged(String),
    /// The file can't be opened or made at that place.
    #[error("the store can't be opened: {0}")]
    CannotOpen(String),
    /// The disk or the system failed.
    #[error("reading or writing failed: {0}")]
    Io(String),
    /// The SQLite library is older than the store may be used with.
    #[error("SQLite {found} is too old, {needed} is needed")]
    OldEngine {
        /// The library's version number.
        found: i32,
        /// The oldest that will do.
        needed: i32,
    },
    /// No random bytes to be had.
    #[error("no random bytes: {0}")]
    Entropy(String),
    /// A new record can't be written down.
    #[error(transparent)]
    Format(#[from] FormatError),
    /// A commit, record or body that can't be believed.
    #[error(transparent)]
    Verify(#[from] VerifyError),
    /// A commit without records.
    #[error("nothing to commit")]
    EmptyCommit,
    /// A void's target is not in the store, or not of the void's subject.
    #[error("record {0} is not there to be struck out")]
    NoTarget(RecordId),
    /// An import can't be taken out while other records build on it.
    #[error("{records} records build on this import")]
    BuiltUpon {
        /// How many.
        records: usize,
    },
    /// There is no such backup.
    #[error("there is no backup {0}")]
    NoBackup(String),
    /// A copy, or the file that a copy was to be made of, is not sound.
    #[error("the backup is not sound: {0}")]
    Unsound(String),
    /// In a damaged store nothing was found that can be saved.
    #[error("nothing can be saved: {0}")]
    NothingReadable(String),
    /// Anything else that SQLite says: a fault of ours.
    #[error("database error: {0}")]
    Database(#[source] rusqlite::Error),
}

impl From<rusqlite::Error> for StoreError {
    fn from(error: rusqlite::Error) -> Self {
        let rusqlite::Error::SqliteFailure(code, message) = &error else {
            return match error {
                // What we wrote ourselves has these types and lengths.
                rusqlite::Error::FromSqlConversionFailure(..)
                | rusqlite::Error::IntegralValueOutOfRange(..)
                | rusqlite::Error::InvalidColumnType(..) => Self::Damaged(error.to_string()),
                _ => Self::Database(error),
            };
        };
        let text = message.clone().unwrap_or_else(|| code.to_string());
        match code.code {
            // Another file took the store's place just now.
            ErrorCode::ReadOnly if code.extended_code == MOVED => Self::Locked,
            ErrorCode::DatabaseBusy | ErrorCode::DatabaseLocked => Self::Locked,
            ErrorCode::ReadOnly | ErrorCode::PermissionDenied => Self::ReadOnly,
            ErrorCode::DiskFull => Self::DiskFull,
            ErrorCode::DatabaseCorrupt => Self::Damaged(text),
            ErrorCode::NotADatabase => Self::NotAStore,
            ErrorCode::CannotOpen => Self::CannotOpen(text),
            ErrorCode::SystemIoFailure => Self::Io(text),
            _ => Self::Database(error),
        }
    }
}

impl From<std::io::Error> for StoreError {
    fn from(error: std::io::Error) -> Self {
        use std::io::ErrorKind::{
            PermissionDenied, QuotaExceeded, ReadOnlyFilesystem, StorageFull, WouldBlock,
        };
        match error.kind() {
            StorageFull | QuotaExceeded => Self::DiskFull,
            PermissionDenied | ReadOnlyFilesystem => Self::ReadOnly,
            WouldBlock => Self::Locked,
            _ => Self::Io(error.to_string()),
        }
    }
}

impl From<rusqlite_migration::Error> for StoreError {
    fn from(error: rusqlite_migration::Error) -> Self {
        match error {
            rusqlite_migration::Error::RusqliteError { err, .. } => err.into(),
            other => Self::Damaged(other.to_string()),
        }
    }
}
