//! The journal: what a person did, as records that are never altered.
//!
//! A record is an [`Envelope`] and a body. The envelope says who wrote what about which subject,
//! when, and which earlier records it replaces; the body is the bytes themselves, stored apart
//! and named in the envelope by their hash, so that a body can be withheld, erased or filled in
//! later while the envelope stays as it was signed. Records of one user action are listed and
//! signed together in a [`Commit`].
//!
//! A journal is a *set* of records: merging two journals is a set union. What stands is worked
//! out from the set by [`fold`](fold::fold), from envelopes alone, and so can depend neither on
//! the order in which records arrived nor on whether a body is present.
//!
//! This crate does no I/O, reads no clock and makes no randomness: wall time and random bytes
//! are arguments. Serialised forms are described at [`Envelope`], [`Commit`] and [`body`].
#![deny(missing_docs)]

pub mod batch;
pub mod body;
mod canonical;
pub mod clock;
mod commit;
mod device;
mod envelope;
pub mod erasure;
mod error;
pub mod fold;
mod id;
mod kind;
pub mod undo;

pub use batch::{Batch, CheckedBatch};
pub use clock::{HybridClock, Tick, WallTime};
pub use commit::{Action, Commit, CommitDraft};
pub use device::{DeviceKey, PublicKey, Signature};
pub use envelope::{Envelope, Record};
pub use error::{FormatError, VerifyError};
pub use fold::{Fate, Fold, FoldRule};
pub use id::{
    AttachmentHash, BodyHash, CommitHash, CommitId, DeviceId, EnvelopeHash, PersonId, RecordId,
    SubjectId,
};
pub use kind::Kind;
