//! How well a number is known, and what may be said of it against a limit.
//!
//! Instruments to standard uncertainties ([`instrument`]), repeated readings ([`repeats`]), their
//! combination ([`mod@combine`]), their way through a calculation to first order
//! ([`mod@propagate`]) or by Monte Carlo ([`mod@monte_carlo`], [`shares`]), and the three-way
//! decision ([`mod@decide`]): within the limit, too close to call, outside the limit; with the
//! limits of acceptance ([`guard_band`]) and what they cost ([`risk`]); a share of cases
//! ([`proportion`]). After JCGM 100 (GUM),
//! JCGM 101, JCGM 106 and ISO 14253-1.
//!
//! A quantity here is a plain `f64` in one unit that the caller keeps (SI by habit), and an
//! uncertainty is in the unit of its quantity: nothing here depends on which. Every number is
//! checked to be finite; no function panics or returns NaN. Degrees of freedom are `Option<f64>`,
//! `None` for infinitely many.

#![deny(missing_docs)]

pub mod calibration;
mod chunks;
pub mod combine;
pub mod correlation;
pub mod decide;
pub mod distribution;
pub mod error;
pub mod gauge_grade;
pub mod guard_band;
pub mod instrument;
pub mod law;
pub mod monte_carlo;
pub mod propagate;
pub mod proportion;
mod random;
pub mod repeats;
pub mod risk;
pub mod shares;

pub use combine::{Combined, Component, combine};
pub use correlation::{Correlation, CorrelationMatrix};
pub use decide::{Decision, Side, Verdict, decide};
pub use error::MetrologyError;
pub use instrument::InstrumentSpec;
pub use law::Law;
pub use monte_carlo::{MonteCarlo, Plan, UncertainInput, monte_carlo};
pub use propagate::{Contribution, Input, Propagated, propagate};
pub use repeats::Repeats;
