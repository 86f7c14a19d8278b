//! Erasure: taking bodies out of a journal for good, while every envelope stays.
//!
//! A record of kind [`Kind::ERASURE`] names subjects and kinds. It takes the body of every record
//! of such a subject and kind whose author did not know of it: of those made before, and of those
//! made elsewhere at the same time, whenever they arrive. An author who knows of it says so by
//! naming it in `supersedes`, as any record that was seen; so whether a body is erased follows from
//! its own envelope and the erasure alone. Clocks are not asked, order and repetition can't matter,
//! and a body that was withheld is refused when it comes. An erasure can't be taken back: a void of
//! one has no effect on it.
//!
//! Which kinds may be erased is for the layer above to say; measurements are not among them.

use serde::{Deserialize, Serialize};

use crate::envelope::Envelope;
use crate::id::{RecordId, SubjectId};
use crate::kind::Kind;

/// The body of an erasure. It says what was erased, never what it said.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Erasure {
    /// What is erased.
    pub about: Vec<Erased>,
    /// The records whose bodies went where the erasure was made. It tells what was done then; what
    /// else goes follows from `about`.
    #[serde(default)]
    pub records: Vec<RecordId>,
}

/// One subject and what of it is erased.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Erased {
    /// The subject.
    pub subject: SubjectId,
    /// The kinds of its records.
    pub kinds: Vec<Kind>,
}

impl Erasure {
    /// The version of the body's form.
    pub const VERSION: u32 = 1;

    /// Reads a body of this version; none if it is of another form, which then erases nothing.
    #[must_use]
    pub fn read(envelope: &Envelope, body: &[u8]) -> Option<Self> {
        (envelope.kind == Kind::ERASURE && envelope.kind_version == Self::VERSION)
            .then(|| serde_json::from_slice(body).ok())
            .flatten()
    }

    /// Every subject and kind that it names.
    pub fn pairs(&self) -> impl Iterator<Item = (SubjectId, &Kind)> {
        self.about
            .iter()
            .flat_map(|one| one.kinds.iter().map(|kind| (one.subject, kind)))
    }
}

/// Whether an erasure of this record's subject and kind takes its body: unless its author knew of
/// the erasure.
#[must_use]
pub fn takes(erasure: RecordId, record: &Envelope) -> bool {
    !record.supersedes.contains(&erasure)
}
