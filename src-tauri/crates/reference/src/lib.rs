//! Check points from outside the project, for tests only.
//!
//! `tests/reference/*.json` holds points of published standards, handbooks and general-purpose
//! libraries: inputs with their units, the value expected, its source, and the tolerance that the
//! source deserves. A test takes a family of them with [`points`], computes each, and says so with
//! [`Point::holds`]; a worked example that a test writes out itself goes through [`Example`]. Each
//! check that held is written down ([`record`]), and `npm run verified` makes the table
//! `tests/reference/VERIFIED.md` from what was written: what the table says was really run.
//!
//! Tests may fail loudly, so everything here panics when a file is missing or a check fails.

#![deny(missing_docs)]
#![allow(
    clippy::expect_used,
    reason = "used by tests alone, which fail by panicking"
)]

mod example;
mod point;
mod record;

pub use example::Example;
pub use point::{Point, points};
pub use record::{Check, Evidence, record};
