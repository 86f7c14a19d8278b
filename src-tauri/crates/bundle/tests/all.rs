//! All tests of the `bundle` crate against its public parts, in one program: one thing to link
//! instead of 6. `npm test` fails if a file beside this one is not named here.

#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

mod attachments;
mod bundles;
mod common;
mod hostile;
mod kept;
mod look;
mod mutations;
mod schema;
mod seal;
