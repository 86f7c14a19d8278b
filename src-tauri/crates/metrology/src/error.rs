//! What can be wrong with a statement of uncertainty.

use thiserror::Error;

/// An input that can't be used.
#[derive(Debug, Clone, PartialEq, Error)]
#[non_exhaustive]
pub enum MetrologyError {
    /// An input, or the value of a function at an input, that is infinite or not a number.
    #[error("{field} is not a finite number")]
    NotFinite {
        /// Which input.
        field: &'static str,
    },
    /// A number outside what the formula allows.
    #[error("{field} is {value}; it must lie between {low} and {high}")]
    OutOfRange {
        /// Which input.
        field: &'static str,
        /// What was given.
        value: f64,
        /// The lowest value accepted.
        low: f64,
        /// The highest value accepted.
        high: f64,
    },
    /// A list with too few entries.
    #[error("{field} has {count} entries; at least {least} are needed")]
    TooFew {
        /// Which input.
        field: &'static str,
        /// How many were given.
        count: usize,
        /// How many are needed.
        least: usize,
    },
    /// An instrument of which nothing is stated has no known uncertainty.
    #[error("nothing is stated of the instrument")]
    NothingStated,
    /// Correlations that no quantities can have: the variance would be negative.
    #[error("the correlations contradict each other")]
    ImpossibleCorrelations,
}

/// Largest magnitude accepted: beyond it squares overflow.
pub(crate) const HUGE: f64 = 1.0e100;

pub(crate) fn finite(field: &'static str, value: f64) -> Result<f64, MetrologyError> {
    within(field, value, -HUGE, HUGE)
}

/// An uncertainty, a tolerance, a resolution: zero or more.
pub(crate) fn not_negative(field: &'static str, value: f64) -> Result<f64, MetrologyError> {
    within(field, value, 0.0, HUGE)
}

pub(crate) fn within(
    field: &'static str,
    value: f64,
    low: f64,
    high: f64,
) -> Result<f64, MetrologyError> {
    if !value.is_finite() {
        return Err(MetrologyError::NotFinite { field });
    }
    if value < low || value > high {
        return Err(MetrologyError::OutOfRange {
            field,
            value,
            low,
            high,
        });
    }
    Ok(value)
}

/// Degrees of freedom: `None` for infinitely many, else 0.1 or more.
pub(crate) fn degrees(value: Option<f64>) -> Result<Option<f64>, MetrologyError> {
    value
        .map(|nu| within("degrees_of_freedom", nu, 0.1, HUGE))
        .transpose()
}
