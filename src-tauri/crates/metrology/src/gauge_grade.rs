//! Accuracy grades of dial gauges, as percent of span.
//!
//! All numbers here are `from memory` (the standards were not open): check them against the
//! standard before showing them to a user as its words.

use crate::error::{MetrologyError, finite, not_negative, within};

/// Accuracy grade of ASME B40.100 (`from memory`).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum AsmeGrade {
    /// 0.1 %.
    Grade4A,
    /// 0.25 %.
    Grade3A,
    /// 0.5 %.
    Grade2A,
    /// 1 %.
    Grade1A,
    /// 2 %, 1 % in the middle half of the scale.
    A,
    /// 3 %, 2 % in the middle half.
    B,
    /// 4 %, 3 % in the middle half.
    C,
    /// 5 %.
    D,
}

impl AsmeGrade {
    /// Largest error at `reading` on a gauge of `span`, both in one unit, the reading between 0
    /// and the span.
    ///
    /// # Errors
    /// [`MetrologyError`] naming `span` or `reading`.
    pub fn max_error(self, span: f64, reading: f64) -> Result<f64, MetrologyError> {
        let span = positive_span(span)?;
        let at = within("reading", reading, 0.0, span)? / span;
        let (outer, middle) = match self {
            Self::Grade4A => (0.1, 0.1),
            Self::Grade3A => (0.25, 0.25),
            Self::Grade2A => (0.5, 0.5),
            Self::Grade1A => (1.0, 1.0),
            Self::A => (2.0, 1.0),
            Self::B => (3.0, 2.0),
            Self::C => (4.0, 3.0),
            Self::D => (5.0, 5.0),
        };
        let percent = if (0.25..=0.75).contains(&at) {
            middle
        } else {
            outer
        };
        Ok(percent / 100.0 * span)
    }
}

/// Largest error of a gauge of accuracy class `percent` (EN 837-1: 0.1 to 4) of `span`.
///
/// # Errors
/// [`MetrologyError`] naming `class_percent` (0.01 to 20) or `span`.
pub fn class_error(percent: f64, span: f64) -> Result<f64, MetrologyError> {
    Ok(within("class_percent", percent, 0.01, 20.0)? / 100.0 * positive_span(span)?)
}

/// Further error away from 20 °C: 0.04 % of span per kelvin (EN 837-1, 9.4, `from memory`).
///
/// # Errors
/// [`MetrologyError`] naming `temperature_c` (-60 to 120) or `span`.
pub fn temperature_error(temperature_c: f64, span: f64) -> Result<f64, MetrologyError> {
    let t = within("temperature_c", temperature_c, -60.0, 120.0)?;
    Ok(0.04 / 100.0 * (t - 20.0).abs() * positive_span(span)?)
}

/// An error as percent of the reading at which it is made.
///
/// # Errors
/// [`MetrologyError`] naming `error` or `reading` (which must not be 0).
pub fn percent_of_reading(error: f64, reading: f64) -> Result<f64, MetrologyError> {
    let error = not_negative("error", error)?;
    finite("reading", reading)?;
    finite("reading", 100.0 * error / reading.abs())
}

fn positive_span(span: f64) -> Result<f64, MetrologyError> {
    within("span", span, f64::MIN_POSITIVE, crate::error::HUGE)
}
