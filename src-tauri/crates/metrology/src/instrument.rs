//! What is stated of an instrument, and the standard uncertainty that follows.

use crate::combine::{Combined, Component, combine};
use crate::distribution::Shape;
use crate::error::{MetrologyError, not_negative, within};
use crate::gauge_grade::{self, AsmeGrade};

/// Largest error that an instrument may have.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum MaxError {
    /// +/- so much, anywhere.
    PlusMinus(f64),
    /// An accuracy class: percent of span.
    ClassOfSpan {
        /// Percent.
        percent: f64,
        /// Span of the scale.
        span: f64,
    },
    /// An ASME B40.100 grade, which depends on where the reading lies.
    Grade {
        /// The grade.
        grade: AsmeGrade,
        /// Span of the scale.
        span: f64,
    },
}

/// A calibration certificate: expanded uncertainty U with its coverage factor k.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Certificate {
    /// U.
    pub expanded: f64,
    /// k, 1 to 10.
    pub coverage_factor: f64,
}

/// What is stated of an instrument; what isn't is `None`. All numbers in the reading's unit.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct InstrumentSpec {
    /// Accuracy, taken as rectangular.
    pub max_error: Option<MaxError>,
    /// Smallest step that can be read; rectangular over half a step each way (JCGM 100:2008,
    /// F.2.2.1).
    pub resolution: Option<f64>,
    /// Certificate of the instrument or of what it was set with.
    pub certificate: Option<Certificate>,
}

impl InstrumentSpec {
    /// Standard uncertainty of one reading, and what it is made of.
    ///
    /// # Errors
    /// [`MetrologyError::NothingStated`] when all is `None`: an instrument of unknown accuracy is
    /// not one of perfect accuracy. [`MetrologyError`] naming `max_error`, `class_percent`,
    /// `span`, `reading`, `resolution`, `expanded_uncertainty` or `coverage_factor`.
    pub fn standard_uncertainty(&self, reading: f64) -> Result<Combined, MetrologyError> {
        combine(&self.components(reading)?)
    }

    /// The parts of [`InstrumentSpec::standard_uncertainty`], at least one.
    pub(crate) fn components(&self, reading: f64) -> Result<Vec<Component>, MetrologyError> {
        let mut parts = Vec::new();
        if let Some(max_error) = self.max_error {
            let a = match max_error {
                MaxError::PlusMinus(a) => not_negative("max_error", a)?,
                MaxError::ClassOfSpan { percent, span } => gauge_grade::class_error(percent, span)?,
                MaxError::Grade { grade, span } => grade.max_error(span, reading)?,
            };
            parts.push(exact(
                "accuracy",
                Shape::Rectangular.standard_uncertainty(a)?,
            ));
        }
        if let Some(step) = self.resolution {
            let half = not_negative("resolution", step)? / 2.0;
            parts.push(exact(
                "resolution",
                Shape::Rectangular.standard_uncertainty(half)?,
            ));
        }
        if let Some(c) = self.certificate {
            let k = within("coverage_factor", c.coverage_factor, 1.0, 10.0)?;
            parts.push(exact(
                "certificate",
                not_negative("expanded_uncertainty", c.expanded)? / k,
            ));
        }
        if parts.is_empty() {
            return Err(MetrologyError::NothingStated);
        }
        Ok(parts)
    }
}

fn exact(name: &'static str, uncertainty: f64) -> Component {
    Component {
        name,
        uncertainty,
        degrees_of_freedom: None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_instrument_of_which_nothing_is_known_is_not_perfect() {
        let e = InstrumentSpec::default()
            .standard_uncertainty(20.0)
            .unwrap_err();
        assert_eq!(e, MetrologyError::NothingStated);
    }

    #[test]
    fn a_gauge_good_to_half_an_inch_is_good_to_0_29_standard() {
        let spec = InstrumentSpec {
            max_error: Some(MaxError::PlusMinus(0.5)),
            resolution: Some(0.2),
            ..InstrumentSpec::default()
        };
        let u = spec.standard_uncertainty(20.0).unwrap();
        let expected = (0.25f64 / 3.0 + 0.01 / 3.0).sqrt();
        assert!((u.uncertainty - expected).abs() < 1e-12);
        assert_eq!(u.shares[0].0, "accuracy");
    }

    #[test]
    fn a_reading_off_the_scale_is_refused() {
        let max_error = Some(MaxError::Grade {
            grade: AsmeGrade::B,
            span: 30.0,
        });
        let spec = InstrumentSpec {
            max_error,
            ..InstrumentSpec::default()
        };
        let e = spec.standard_uncertainty(31.0).unwrap_err();
        assert!(
            matches!(
                e,
                MetrologyError::OutOfRange {
                    field: "reading",
                    ..
                }
            ),
            "{e}"
        );
    }
}
