//! All tests of the `api` crate against its public parts, in one program: one thing to link
//! instead of 27. `npm test` fails if a file beside this one is not named here.

#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

mod any_calculation;
mod backups;
mod bad_input;
mod bore_history;
mod calculations;
mod calculations_motion;
mod calculations_parts;
mod common;
mod corrections;
mod erasure;
mod every_kind;
mod exchange;
mod explore;
mod find;
mod handover;
mod hostile;
mod inspection;
mod list;
mod long_work;
mod look;
mod look_within;
mod machining;
mod options;
mod passing_on;
mod photos;
mod photos_passed_on;
mod plain_list;
mod profile;
mod proof;
mod readings_table;
mod repair;
mod report;
mod sealed;
mod settle;
mod statistics;
mod trust;
mod undo_and_drafts;
mod vacuum_test;
