//! Bundle files: how records go from one store to another without a server.
//!
//! # The format, versions 1 and 2
//! `tests/bundles/FORMAT.md` has it in full, for others to write; in short:
//!
//! A bundle is a zip archive (PKWARE APPNOTE; members stored or deflated, not encrypted, no
//! zip64, no comment) with exactly these members, all but attachments UTF-8:
//!
//! - `records.ndjson`: one JSON object a line, each line ended by a line feed:
//!   `{"commit":<commit>}` or `{"record":<envelope>}`, the inner objects in their canonical form
//!   as [`journal::Commit`] and [`journal::Envelope`] describe it. A bundle has every commit that
//!   lists one of its records; a commit may list records that the bundle leaves out.
//! - `bodies.ndjson`: one body a line, `{"hash":"<hex>","text":"<the body>"}`, or, if its bytes
//!   are not UTF-8, `{"base64":"<the body, RFC 4648 with padding>","hash":"<hex>"}`. The hash is
//!   BLAKE3 of the body's bytes. A record whose body is not here has it withheld.
//! - `attachments/<hex>`, version 2 only: files that bodies name by their BLAKE3 hash, stored and
//!   not deflated.
//! - `manifest.json`: a [`Manifest`]: format version, who made the bundle, when, what it holds,
//!   and the length and BLAKE3 hash of the members above.
//! - `signature.json`, written last: `{"public_key":"<hex>","signature":"<hex>"}`, an Ed25519
//!   signature over the text `valvewright bundle 1`, a line feed, and the bytes of
//!   `manifest.json`. It vouches for the courier only: each commit carries its author device's own.
//!
//! Lines may come in any order; a writer sorts them by id, so that equal content gives equal
//! bytes.
//!
//! # Reading
//! [`Reader`] takes nothing on trust: the number of members is looked at before anything else,
//! sizes are counted while inflating, names must be the ones above, every hash and signature must
//! hold. Neither the file nor all of its records are ever in memory. What comes out is [`Checked`];
//! [`plan`] tells what it would bring to a store, [`apply`] brings it, in one transaction
//! (`Store::take_in` also remembers the import), [`Checked::hand_over`] gives the attachments.
//!
//! # Looking
//! [`Reader::look`] reads a bundle whose signatures are missing or don't fit as well, everything
//! else checked as before. What comes out, [`Looked`], says what the signatures are worth and opens
//! as a store of its own that is gone with its handle; there is no way from it into another store.
//!
//! # Sealed bundles
//! A bundle may be sealed as a whole. The file is then one of the age format, version 1, in its
//! binary form (<https://c2sp.org/age>), with one recipient: a passphrase (scrypt). It is told by
//! its first line, `age-encryption.org/v1`; its name ends as an open bundle's does. The work factor
//! written is 2^16; more than 2^17 is refused before any work is done. The passphrase is what was
//! typed, brought to Unicode's form NFKC, then freed of white space at both ends, in UTF-8; a
//! writer asks for at least eight characters (code points) of it. What the file holds is the bundle
//! as above, and never a sealed one. [`seal_into`] and [`unseal_into`] do this; sealing keeps others from
//! reading and changing the file, who made it is still told by the signatures inside.
#![deny(missing_docs)]

mod attachments;
mod container;
mod content;
mod error;
mod limits;
mod lines;
mod look;
mod manifest;
mod plan;
mod proof;
mod read;
mod schema;
mod seal;
mod write;

pub use age::secrecy::SecretString;
pub use attachments::{AttachmentHash, AttachmentSink, AttachmentSource, NoAttachments};
pub use error::{Bound, BundleError};
pub use limits::{Counters, Limits};
pub use look::{Courier, Looked, Signatures};
pub use manifest::{Counts, FORMAT, Manifest, MemberInfo, SIGNATURE};
pub use plan::{Plan, apply, plan};
pub use read::{Checked, Reader, read};
pub use schema::schemas;
pub use seal::{
    LEAST_CHARACTERS, Passphrase, WORK_ACCEPTED, WORK_WRITTEN, is_sealed, seal, seal_into, unseal,
    unseal_into,
};
pub use write::{Origin, write, write_with};
