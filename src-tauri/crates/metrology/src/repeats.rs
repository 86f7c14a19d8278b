//! Repeated readings: type A evaluation (JCGM 100:2008, 4.2).

use crate::combine::Component;
use crate::distribution::coverage_factor;
use crate::error::{MetrologyError, finite, not_negative, within};

/// A set of repeated readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Repeats {
    /// How many.
    pub count: usize,
    /// Their mean.
    pub mean: f64,
    /// Largest less smallest.
    pub range: f64,
    /// Experimental standard deviation s of one reading; `None` for a single one, which tells
    /// nothing of the spread.
    pub deviation: Option<f64>,
}

impl Repeats {
    /// Of one reading or more.
    ///
    /// # Errors
    /// [`MetrologyError::TooFew`] for none; [`MetrologyError`] naming `readings`.
    pub fn of(readings: &[f64]) -> Result<Self, MetrologyError> {
        let count = readings.len();
        if count == 0 {
            return Err(MetrologyError::TooFew {
                field: "readings",
                count,
                least: 1,
            });
        }
        let (mut low, mut high) = (f64::INFINITY, f64::NEG_INFINITY);
        for r in readings {
            let r = finite("readings", *r)?;
            (low, high) = (low.min(r), high.max(r));
        }
        let n = count as f64;
        let mean = readings.iter().sum::<f64>() / n;
        let squares: f64 = readings.iter().map(|r| (r - mean).powi(2)).sum();
        let deviation = (count > 1).then(|| (squares / (n - 1.0)).sqrt());
        Ok(Self {
            count,
            mean,
            range: high - low,
            deviation,
        })
    }

    /// Standard uncertainty of the mean, s / sqrt n, with n - 1 degrees of freedom; `None` for a
    /// single reading.
    ///
    /// With two readings the one degree of freedom means a 95 % factor of 12.7, with three of
    /// 4.3: the small s of a lucky pair proves little. Combine and decide carry that along.
    #[must_use]
    pub fn of_mean(&self) -> Option<Component> {
        self.deviation.map(|s| Component {
            name: "repeats",
            uncertainty: s / (self.count as f64).sqrt(),
            degrees_of_freedom: Some(self.count as f64 - 1.0),
        })
    }

    /// Standard uncertainty of the mean from a spread known from earlier work on like parts: a
    /// pooled deviation with its degrees of freedom (JCGM 100:2008, 4.2.4). The way to say
    /// something of a single reading.
    ///
    /// # Errors
    /// [`MetrologyError`] naming `pooled_deviation` or `degrees_of_freedom`.
    pub fn of_mean_pooled(
        &self,
        pooled_deviation: f64,
        degrees_of_freedom: f64,
    ) -> Result<Component, MetrologyError> {
        let s = not_negative("pooled_deviation", pooled_deviation)?;
        let nu = within(
            "degrees_of_freedom",
            degrees_of_freedom,
            1.0,
            crate::error::HUGE,
        )?;
        Ok(Component {
            name: "repeats",
            uncertainty: s / (self.count as f64).sqrt(),
            degrees_of_freedom: Some(nu),
        })
    }

    /// Half-width of the interval for the mean at a confidence, t s / sqrt n; `None` for a single
    /// reading.
    ///
    /// # Errors
    /// [`MetrologyError`] naming `confidence`.
    pub fn half_width(&self, confidence: f64) -> Result<Option<f64>, MetrologyError> {
        self.of_mean()
            .map(|c| Ok(coverage_factor(confidence, c.degrees_of_freedom)? * c.uncertainty))
            .transpose()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_reading_tells_nothing_of_the_spread() {
        let one = Repeats::of(&[22.5]).unwrap();
        assert_eq!((one.mean, one.deviation, one.of_mean()), (22.5, None, None));
        assert_eq!(one.half_width(0.95).unwrap(), None);
        let known = one.of_mean_pooled(0.3, 12.0).unwrap();
        assert_eq!(
            (known.uncertainty, known.degrees_of_freedom),
            (0.3, Some(12.0))
        );
    }

    #[test]
    fn two_and_three_readings_carry_their_large_t() {
        // Student's t at 95 %: 12.706 and 4.303 (JCGM 100:2008, table G.2).
        for (readings, t) in [
            (&[22.0, 22.4][..], 12.706),
            (&[22.0, 22.4, 22.2][..], 4.303),
        ] {
            let r = Repeats::of(readings).unwrap();
            let u = r.of_mean().unwrap().uncertainty;
            let factor = r.half_width(0.95).unwrap().unwrap() / u;
            assert!((factor - t).abs() < 1e-3, "{factor}");
        }
    }

    #[test]
    fn mean_and_deviation_of_gum_table_h2() {
        // JCGM 100:2008, table H.2: five readings of V, mean 4.9990 V, s of the mean 0.0032 V.
        let v = Repeats::of(&[5.007, 4.994, 5.005, 4.990, 4.999]).unwrap();
        assert!((v.mean - 4.9990).abs() < 1e-12);
        assert!((v.of_mean().unwrap().uncertainty - 0.0032).abs() < 5e-5);
    }

    #[test]
    fn no_readings_and_nonsense_are_refused() {
        assert!(matches!(
            Repeats::of(&[]),
            Err(MetrologyError::TooFew { .. })
        ));
        let e = Repeats::of(&[1.0, f64::INFINITY]).unwrap_err();
        assert_eq!(e, MetrologyError::NotFinite { field: "readings" });
    }
}
