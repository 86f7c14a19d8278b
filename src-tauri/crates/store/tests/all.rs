//! All tests of the `store` crate against its public parts, in one program: one thing to link
//! instead of 13. `npm test` fails if a file beside this one is not named here.

#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

mod attachments;
mod backups;
mod check;
mod common;
mod convergence;
mod crash;
mod erasure;
#[cfg(unix)]
mod failures;
mod imports;
mod kills;
mod migrations;
mod repair;
mod shop;
mod two_handles;
