//! From evidence to consequence: what a vacuum reading says about a bore, and what the bore's leak
//! does to the regulated pressure.
#![deny(missing_docs)]

mod assumed;
pub mod card;
mod decision;
mod error;
pub mod evidence;
pub mod explore;
pub mod inspected;
mod judge;
pub mod judgement;
mod leak;
pub mod machining;
pub mod oil_check;
pub mod options;
pub mod pressure;
pub mod prospect;
mod reading;
mod reading_ahead;
pub mod relief;
pub mod repair;
pub mod tap;
pub mod valve;
mod window;

pub use assumed::Assumed;
pub use decision::decision;
pub use error::DiagnosisError;
pub use judge::{AgainstLimit, PHYSICS_VERSION, against_limit, judge, judge_with_seals};
pub use window::{PressureShare, PressureSource};
