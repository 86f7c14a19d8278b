//! The demo shop: readable sources in `demo-db/` to a signed bundle.
//!
//! A source file lists records (`[[record]]`: who, when, what kind, the body in SI) and vacuum
//! tests (`[[test]]`: who, when, and the **true** state of the bore). The readings of a test come
//! from the core's own model of bore and stand, plus the gauge's noise and step; so the demo obeys
//! the physics by construction. Text that begins with `@` names another subject.

mod error;
mod people;
mod reading;
mod source;
mod write;

pub use error::DemoError;
pub use write::{build, sources};
