//! A disk for SQLite that is only in memory and goes wrong when told to. For tests.
//!
//! [`Disk::install`] makes it SQLite's default disk in this process. What is written is kept apart
//! from what was synced. [`Disk::fail_after`] lets a numbered operation go wrong: fail, fail for
//! want of room, or be the last before the power goes. [`Disk::power_up`] then leaves what a real
//! disk could have left: all that was synced, and of each later write any of its sectors, in any
//! combination, torn in the middle of a page too.
#![deny(missing_docs)]

mod disk;
mod vfs;

pub use disk::{Disk, Fault, SECTOR};
