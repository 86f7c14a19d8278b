//! What the shop records: units and their bores, instruments and stands, jobs, cautions, vacuum
//! tests. Bodies are what the journal carries, in SI, with the unit at the end of each field's
//! name. Validation never rejects a body: it returns [`Finding`]s that name the field.
//!
//! Nothing here computes hydraulics and nothing here stores anything.
#![deny(missing_docs)]

pub mod authorisation;
pub mod bench;
pub mod caution;
pub mod comeback;
pub mod estimate;
pub mod finding;
pub mod fitted_part;
pub mod geometry;
pub mod inspection;
pub mod inspection_plan;
pub mod job;
pub mod kind;
pub mod limits;
pub mod machining;
pub mod number;
pub mod oil_check;
pub mod person;
pub mod photo;
pub mod planning;
pub mod relief_check;
pub mod repair;
pub mod schema;
pub mod shop_part;
pub mod sign_off;
pub mod tap_reading;
pub mod unit;
pub mod warranty;
pub mod what_if;

pub use finding::{Finding, Severity};
pub use kind::Kind;
pub use number::Finite;

/// Identifies a subject: a job, a unit, a bore, a land, a test. A UUID v7 made on one device.
pub type Id = uuid::Uuid;
