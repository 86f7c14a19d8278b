//! The store: a journal and its projections in one SQLite file.
//!
//! The journal tables (`commit_`, `record`, `body`, `device`) hold what people did, as it was
//! signed; nothing in them is ever altered. The projection tables (`standing`, `subject`, the
//! search index) hold what follows from the journal and can be made anew from it at any time.
//! Local tables (drafts, settings, this device's key and clock) never leave the file.
//!
//! Each change, local or imported, goes through the same [`Store::apply`]: journal and projections
//! move in one immediate transaction, so after a crash the file is either before it or after
//! it. Several handles and processes may use one file.
//!
//! Attachments (pictures) are files named by hash in a folder beside the store; `attachments.rs`.
//!
//! The store knows no kind of record. A [`Projector`] from the layer above tells it how kinds
//! fold and where a subject belongs. Wall time and randomness are passed in.
#![deny(missing_docs)]

mod append;
mod apply;
mod attachments;
mod backup;
mod check;
mod digest;
mod entropy;
mod erase;
mod error;
mod export;
mod import;
mod items;
mod local;
mod open;
mod pages;
mod projection;
mod read;
mod repair;
mod replace;
mod rows;
mod scan;
mod schema;
mod search;
mod seen;
mod settle;
mod summary;
mod undo;

pub use append::NewRecord;
pub use apply::Applied;
pub use attachments::{Adding, AttachmentFinding, Attachments};
pub use backup::{Backup, Backups, Contents, Reason};
pub use check::{CheckFinding, Depth};
pub use digest::Digest;
pub use entropy::{Entropy, OsEntropy};
pub use erase::Erasing;
pub use error::StoreError;
pub use export::{Chosen, Selection};
pub use import::Import;
pub use items::{Held, Item, Items, Line, Lines, Watched};
pub use local::Draft;
pub use open::{Setup, Store};
pub use projection::{Place, Projector, StandingRecord};
pub use read::{HistoryEntry, Standing, StoredRecord};
pub use repair::{Loss, Lost, Repaired, Restored};
pub use scan::{Looked, Needles};
pub use seen::{Seen, Stretch};
pub use summary::{Listed, Member, Summary, Wanted};
