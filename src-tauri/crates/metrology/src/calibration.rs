//! What an instrument's uncertainty becomes between calibrations.
//!
//! A certificate speaks of the day it was written. Since then the instrument may have drifted by
//! at most so much a year, in either direction: a rectangular part that grows with the days (as
//! the drift of a standard in EA-4/02 M:2022, S2). Beyond the interval for which the drift was
//! stated it goes on growing and the answer says that the calibration is overdue; without a stated
//! drift nothing is added and the answer says that too.

use crate::combine::{Combined, Component, combine};
use crate::distribution::Shape;
use crate::error::{HUGE, MetrologyError, finite, not_negative, within};
use crate::instrument::InstrumentSpec;

/// Days in a year.
const YEAR: f64 = 365.25;

/// When an instrument was calibrated and what it does since. Days are counted by the caller: no
/// clock here.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct CalibrationHistory {
    /// Days since the calibration; `None` when there is no record of one.
    pub age_days: Option<f64>,
    /// After how many days it is due again; `None` when nobody set an interval.
    pub interval_days: Option<f64>,
    /// The most that it drifts in a year, in the reading's unit; `None` when nothing is stated.
    pub drift_per_year: Option<f64>,
}

/// Whether the calibration still stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Due {
    /// So many days are left.
    InTime {
        /// Days until it is due.
        days_left: f64,
    },
    /// It should have been calibrated again so many days ago.
    Overdue {
        /// Days since it was due.
        days: f64,
    },
    /// Calibrated, but nobody said for how long that holds.
    NoInterval,
    /// No calibration on record.
    NeverCalibrated,
}

/// The uncertainty of a reading today.
#[derive(Debug, Clone, PartialEq)]
pub struct SinceCalibration {
    /// Standard uncertainty with drift, and what it is made of.
    pub combined: Combined,
    /// The same on the day of the calibration.
    pub when_calibrated: f64,
    /// Whether the calibration still stands.
    pub due: Due,
    /// Whether drift is in it: not so when none is stated or no calibration is on record, and then
    /// the uncertainty may be understated.
    pub drift_included: bool,
}

impl CalibrationHistory {
    /// Whether the calibration still stands. On the very day it is due it does.
    ///
    /// # Errors
    /// [`MetrologyError`] naming `age_days` (0 to 100 years) or `interval_days` (1 to 100 years).
    pub fn due(&self) -> Result<Due, MetrologyError> {
        let interval = self
            .interval_days
            .map(|d| within("interval_days", d, 1.0, 100.0 * YEAR))
            .transpose()?;
        let age = self
            .age_days
            .map(|d| within("age_days", d, 0.0, 100.0 * YEAR))
            .transpose()?;
        Ok(match (age, interval) {
            (None, _) => Due::NeverCalibrated,
            (_, None) => Due::NoInterval,
            (Some(age), Some(interval)) if age <= interval => Due::InTime {
                days_left: interval - age,
            },
            (Some(age), Some(interval)) => Due::Overdue {
                days: age - interval,
            },
        })
    }

    /// Standard uncertainty of the drift so far; `None` when it can't be told.
    ///
    /// # Errors
    /// [`MetrologyError`] naming `age_days` or `drift_per_year`.
    pub fn drift(&self) -> Result<Option<f64>, MetrologyError> {
        let (Some(age), Some(rate)) = (self.age_days, self.drift_per_year) else {
            return Ok(None);
        };
        let age = within("age_days", age, 0.0, 100.0 * YEAR)?;
        let most = not_negative("drift_per_year", rate)? * age / YEAR;
        Shape::Rectangular.standard_uncertainty(most).map(Some)
    }
}

impl InstrumentSpec {
    /// Standard uncertainty of one reading so long after the calibration.
    ///
    /// ```
    /// use metrology::calibration::{CalibrationHistory, Due};
    /// use metrology::instrument::{InstrumentSpec, MaxError};
    /// let gauge = InstrumentSpec {
    ///     max_error: Some(MaxError::ClassOfSpan { percent: 1.0, span: 2.5e6 }),
    ///     ..InstrumentSpec::default()
    /// };
    /// let history = CalibrationHistory {
    ///     age_days: Some(500.0),
    ///     interval_days: Some(365.0),
    ///     drift_per_year: Some(10_000.0),
    /// };
    /// let today = gauge.since_calibration(1.0e6, &history)?;
    /// assert_eq!(today.due, Due::Overdue { days: 135.0 });
    /// assert!(today.combined.uncertainty > today.when_calibrated);
    /// # Ok::<(), metrology::MetrologyError>(())
    /// ```
    ///
    /// # Errors
    /// As [`InstrumentSpec::standard_uncertainty`], [`CalibrationHistory::due`] and
    /// [`CalibrationHistory::drift`].
    pub fn since_calibration(
        &self,
        reading: f64,
        history: &CalibrationHistory,
    ) -> Result<SinceCalibration, MetrologyError> {
        let mut parts = self.components(reading)?;
        let when_calibrated = combine(&parts)?.uncertainty;
        let drift = history.drift()?;
        if let Some(uncertainty) = drift {
            parts.push(Component {
                name: "drift",
                uncertainty,
                degrees_of_freedom: None,
            });
        }
        Ok(SinceCalibration {
            combined: combine(&parts)?,
            when_calibrated,
            due: history.due()?,
            drift_included: drift.is_some(),
        })
    }
}

/// What a calibration found: the instrument's error at a point, and how well that is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FoundError {
    /// Reading less true value.
    pub error: f64,
    /// Standard uncertainty of that.
    pub uncertainty: f64,
}

/// How fast an instrument drifted between two calibrations.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ObservedDrift {
    /// Change of its error in a year, with its sign.
    pub per_year: f64,
    /// Standard uncertainty of that.
    pub uncertainty: f64,
    /// What to state as the most that it drifts in a year: the change's size and two standard
    /// uncertainties.
    pub most_per_year: f64,
}

/// Drift from two calibrations `days` (1 to 100 years) apart, taken as independent.
///
/// # Errors
/// [`MetrologyError`] naming `error`, `uncertainty` or `days`.
pub fn observed_drift(
    earlier: FoundError,
    later: FoundError,
    days: f64,
) -> Result<ObservedDrift, MetrologyError> {
    let change = finite("error", later.error)? - finite("error", earlier.error)?;
    let u = not_negative("uncertainty", later.uncertainty)?
        .hypot(not_negative("uncertainty", earlier.uncertainty)?);
    let years = within("days", days, 1.0, 100.0 * YEAR)? / YEAR;
    let most = within("error", (change.abs() + 2.0 * u) / years, 0.0, HUGE)?;
    Ok(ObservedDrift {
        per_year: change / years,
        uncertainty: u / years,
        most_per_year: most,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::instrument::{Certificate, MaxError};
    use proptest::prelude::*;

    fn gauge() -> InstrumentSpec {
        InstrumentSpec {
            max_error: Some(MaxError::PlusMinus(0.5)),
            resolution: Some(0.2),
            ..InstrumentSpec::default()
        }
    }

    #[test]
    fn the_weight_of_ea_4_02_s2() {
        // EA-4/02 M:2022, S2.9: certificate 45 mg with k = 2 gives 22.5 mg, drift within 15 mg
        // gives 8.66 mg (the values of tests/reference/i_uncertainty.json).
        let weight = InstrumentSpec {
            certificate: Some(Certificate {
                expanded: 45.0,
                coverage_factor: 2.0,
            }),
            ..InstrumentSpec::default()
        };
        let history = CalibrationHistory {
            age_days: Some(YEAR),
            interval_days: None,
            drift_per_year: Some(15.0),
        };
        let today = weight.since_calibration(0.0, &history).unwrap();
        assert!((today.when_calibrated - 22.5).abs() < 1e-12);
        assert!((history.drift().unwrap().unwrap() - 8.66).abs() < 5e-3);
        assert!((today.combined.uncertainty - 22.5f64.hypot(15.0 / 3f64.sqrt())).abs() < 1e-12);
        assert_eq!((today.due, today.drift_included), (Due::NoInterval, true));
    }

    #[test]
    fn due_overdue_and_never() {
        let due = |age_days, interval_days| {
            CalibrationHistory {
                age_days,
                interval_days,
                drift_per_year: None,
            }
            .due()
        };
        assert_eq!(
            due(Some(300.0), Some(365.0)),
            Ok(Due::InTime { days_left: 65.0 })
        );
        assert_eq!(
            due(Some(365.0), Some(365.0)),
            Ok(Due::InTime { days_left: 0.0 })
        );
        assert_eq!(
            due(Some(400.0), Some(365.0)),
            Ok(Due::Overdue { days: 35.0 })
        );
        assert_eq!(due(None, Some(365.0)), Ok(Due::NeverCalibrated));
        assert!(due(Some(-1.0), None).is_err());
        assert!(due(Some(1.0), Some(0.0)).is_err());
    }

    #[test]
    fn without_a_stated_drift_the_answer_says_that_none_is_in_it() {
        let history = CalibrationHistory {
            age_days: Some(900.0),
            ..Default::default()
        };
        let today = gauge().since_calibration(20.0, &history).unwrap();
        assert!(!today.drift_included);
        assert_eq!(today.combined.uncertainty, today.when_calibrated);
    }

    #[test]
    fn drift_seen_between_two_calibrations() {
        let at = |error| FoundError {
            error,
            uncertainty: 0.03,
        };
        let d = observed_drift(at(0.10), at(0.35), 2.0 * YEAR).unwrap();
        assert!((d.per_year - 0.125).abs() < 1e-12);
        assert!((d.uncertainty - 0.03 * 2f64.sqrt() / 2.0).abs() < 1e-12);
        assert!(d.most_per_year > d.per_year.abs() + 1.9 * d.uncertainty);
        assert!(observed_drift(at(0.1), at(0.2), 0.0).is_err());
    }

    proptest! {
        #[test]
        fn uncertainty_only_grows_with_the_days(
            age in 0.0..3000.0f64, more in 0.0..3000.0f64, rate in 0.0..2.0f64,
        ) {
            let at = |age| {
                let history = CalibrationHistory {
                    age_days: Some(age), interval_days: Some(365.0), drift_per_year: Some(rate),
                };
                gauge().since_calibration(10.0, &history).unwrap()
            };
            let (now, later) = (at(age), at(age + more));
            prop_assert!(later.combined.uncertainty >= now.combined.uncertainty);
            prop_assert_eq!(now.when_calibrated, later.when_calibrated);
            prop_assert_eq!(at(0.0).combined.uncertainty, now.when_calibrated);
        }
    }
}
