//! Errors at the boundary: broken machinery or a request that can't be met. What is odd about
//! people's data is a finding, not an error.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// The closed set of codes. The interface has words for each: what happened, what it means, what
/// to do.
#[derive(
    Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum ErrorCode {
    /// The request isn't JSON of the form that the command takes.
    BadRequest,
    /// There is no such command.
    UnknownCommand,
    /// No such job, test, unit, person or record (any more).
    NotFound,
    /// The command needs a store and this program was started without one.
    NoStore,
    /// Another program holds the store.
    StoreLocked,
    /// The store's file or folder can't be written.
    StoreReadOnly,
    /// The disk is full.
    DiskFull,
    /// The store was written by a newer program.
    NewerSchema,
    /// The file isn't a store of this program.
    NotAStore,
    /// The store is damaged.
    StoreDamaged,
    /// The system refused to read or write.
    Io,
    /// Nobody is chosen to sign the record.
    NoAuthor,
    /// A decision can't be recorded: the test gives none yet.
    NoDecision,
    /// There is nothing to undo or redo.
    NothingToUndo,
    /// A number is outside the range in which the law holds; `field`, `low` and `high` say which.
    OutOfRange,
    /// The equations have no solution for these figures.
    NoSolution,
    /// The file isn't a bundle of this program.
    NotABundle,
    /// The bundle's end is missing.
    BundleTruncated,
    /// The bundle was changed or damaged on its way.
    BundleDamaged,
    /// The bundle has a format that only a newer program reads.
    BundleNewer,
    /// A signature in the bundle doesn't fit.
    BundleSignature,
    /// The bundle has no signature.
    BundleUnsigned,
    /// What is looked at rests on something that its file doesn't hold.
    LookIncomplete,
    /// The file that was looked at isn't held any more.
    LookClosed,
    /// The bundle has a signer about whom a person has to be asked first; `device` names it.
    SignerUnanswered,
    /// Something speaks against believing a signer, and it wasn't accepted in spite of that.
    SignerInDoubt,
    /// Another device has this name.
    DeviceNameTaken,
    /// What was to be settled is not as it was shown any more.
    SettleChanged,
    /// The record can't be taken back by itself: what it made would be left without a beginning.
    CannotTakeBack,
    /// The bundle is sealed with a passphrase; `file.unseal` opens it.
    BundleSealed,
    /// The passphrase doesn't open the bundle.
    WrongPassphrase,
    /// The passphrase is too short to seal with; `least` says how many characters it needs.
    ShortPassphrase,
    /// Opening the bundle's seal would take more work than is spent on one.
    SealTooCostly,
    /// The sealed bundle was cut short or changed on its way.
    SealBroken,
    /// The file is larger than is taken; `megabytes` says how much is.
    FileTooLarge,
    /// The file can't be read.
    FileUnreadable,
    /// The file can't be written there.
    FileUnwritable,
    /// The file is no picture of a form that is read.
    NotAPicture,
    /// The file is a HEIC picture, which can't be read.
    PictureHeic,
    /// The picture is larger than is taken; `megapixels` and `megabytes` say how much is.
    PictureTooLarge,
    /// The picture can't be read: it is damaged, or its content isn't what was recorded.
    PictureDamaged,
    /// The picture isn't on this device: not passed on, erased or lost.
    PictureMissing,
    /// The table has more bytes or rows than are taken; `most` says how many.
    TableTooLong,
    /// The table has more columns, or a longer cell, than are taken; `line` and `most` say where
    /// and how many.
    TableTooWide,
    /// A quote in the table is never closed; `line` says where it begins.
    TableQuoteOpen,
    /// The table isn't text of that encoding; `line` says where.
    TableNotText,
    /// There is nothing in the table.
    TableEmpty,
    /// The table can't be taken in as it stands: something is still to be said, rows are wrong, or
    /// nothing in it is new.
    TableNotReady,
    /// The import can't be taken out: other records build on it; `records` says how many.
    BuiltUpon,
    /// The part can't be removed: `jobs` jobs were done with it.
    InUse,
    /// A backup, or the store that one was to be made of, fails its check.
    BackupUnsound,
    /// A damaged store holds nothing that can be saved.
    NothingReadable,
    /// As much long work runs as may at once; `most` says how much.
    TooManyTasks,
    /// The report can't be set in pages; the other format may do.
    ReportNotSet,
    /// A fault of the program itself.
    Internal,
}

/// An error as it crosses the boundary.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema, thiserror::Error)]
#[error("{code:?} {params:?}")]
pub struct ApiError {
    /// Which.
    pub code: ErrorCode,
    /// What the words need: a path, a version, a field's name, a detail for the log.
    pub params: BTreeMap<String, String>,
    /// The argument at fault, if one is.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub field: Option<String>,
    /// True when the same call may succeed later as it is.
    pub retry: bool,
}

impl ApiError {
    /// An error of one code; a locked store and a full disk may pass by themselves.
    #[must_use]
    pub fn new(code: ErrorCode) -> Self {
        let retry = matches!(
            code,
            ErrorCode::StoreLocked | ErrorCode::DiskFull | ErrorCode::Io | ErrorCode::TooManyTasks
        );
        Self {
            code,
            params: BTreeMap::new(),
            field: None,
            retry,
        }
    }

    /// With a parameter for the words.
    #[must_use]
    pub fn with(mut self, name: &str, value: impl ToString) -> Self {
        self.params.insert(name.to_owned(), value.to_string());
        self
    }

    /// At an argument.
    #[must_use]
    pub fn at(mut self, field: impl Into<String>) -> Self {
        self.field = Some(field.into());
        self
    }

    /// A fault of the program itself, with a detail for the log.
    #[must_use]
    pub fn internal(detail: impl ToString) -> Self {
        Self::new(ErrorCode::Internal).with("detail", detail)
    }

    /// Something that isn't there.
    #[must_use]
    pub fn not_found(what: &str, id: impl ToString) -> Self {
        Self::new(ErrorCode::NotFound)
            .with("what", what)
            .with("id", id)
    }
}

/// A result of the core as the wire carries it. That it isn't finite is a fault of the program.
pub(crate) fn finite(value: f64) -> Result<model::Finite, ApiError> {
    model::Finite::try_from(value).map_err(ApiError::internal)
}
