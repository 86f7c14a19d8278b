//! Parts, their fits, the oil in them and what it works on, against points from outside the
//! project, against handbooks, and against any input at all.

// Test helpers may fail loudly.
#![allow(clippy::unwrap_used)]

mod any_input;
mod any_part;
mod clutches;
mod fits;
mod oils;
mod points;
mod reliefs;
mod solenoids;
mod spans;
mod springs;
