//! What a Monte Carlo run came to.

use super::Chunk;
use crate::error::{MetrologyError, within};
use crate::risk::Limits;

/// The fewest successful trials that a result is made of.
const LEAST: usize = 100;

/// Trials at which there is no result.
#[derive(Debug, Clone, PartialEq)]
pub struct Failures<E> {
    /// How many refused, with an error of the calculation's own.
    pub refused: usize,
    /// How many gave a number that is infinite, not a number, or beyond 1e100.
    pub not_finite: usize,
    /// The first error, in the order of the trials.
    pub first: Option<E>,
}

impl<E> Failures<E> {
    /// All of them.
    #[must_use]
    pub fn count(&self) -> usize {
        self.refused + self.not_finite
    }
}

/// How the adaptive stop ended (JCGM 101:2008, 7.9.4).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Settled {
    /// Whether all four were stable before the trials ran out.
    pub stable: bool,
    /// The numerical tolerance asked for, half a unit in the deviation's last digit.
    pub tolerance: f64,
    /// The largest of twice the standard deviations of mean, deviation and both ends.
    pub reached: f64,
}

/// An interval that holds a stated share of the result's distribution.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoverageInterval {
    /// Its lower end.
    pub low: f64,
    /// Its upper end.
    pub high: f64,
}

/// The distribution of a result.
#[derive(Debug, Clone, PartialEq)]
pub struct MonteCarlo<E> {
    /// Trials made, failures included.
    pub trials: usize,
    /// Mean of the trials that succeeded.
    pub mean: f64,
    /// Their standard deviation: the standard uncertainty of the result.
    pub deviation: f64,
    /// Their skewness, positive when the tail is long upward; `None` when nothing varies.
    pub skewness: Option<f64>,
    /// Trials without a result.
    pub failures: Failures<E>,
    /// How the adaptive stop ended; `None` for a fixed count.
    pub settled: Option<Settled>,
    /// With which to repeat the run.
    pub seed: u64,
    /// The results in rising order.
    values: Vec<f64>,
}

impl<E> MonteCarlo<E> {
    pub(super) fn of(
        chunks: Vec<Chunk<E>>,
        seed: u64,
        settled: Option<Settled>,
    ) -> Result<Self, MetrologyError> {
        let trials = chunks.iter().map(|c| c.trials).sum();
        let mut failures = Failures {
            refused: 0,
            not_finite: 0,
            first: None,
        };
        let mut values = Vec::with_capacity(trials);
        for chunk in chunks {
            failures.refused += chunk.refused;
            failures.not_finite += chunk.not_finite;
            failures.first = failures.first.or(chunk.first);
            values.extend(chunk.values);
        }
        let least = LEAST.max(trials / 2);
        if values.len() < least {
            return Err(MetrologyError::TooFew {
                field: "successful_trials",
                count: values.len(),
                least,
            });
        }
        // The chunks are sorted each by itself, of which this sort makes use.
        values.sort_by(f64::total_cmp);
        let moments = Moments::of(&values);
        Ok(Self {
            trials,
            mean: moments.mean,
            deviation: moments.deviation,
            skewness: moments.skewness,
            failures,
            settled,
            seed,
            values,
        })
    }

    /// The results in rising order, failures left out.
    #[must_use]
    pub fn values(&self) -> &[f64] {
        &self.values
    }

    /// Share of the trials that failed, 0 to 1.
    #[must_use]
    pub fn failure_share(&self) -> f64 {
        self.failures.count() as f64 / self.trials as f64
    }

    /// Standard deviation of the mean, as far as the count of trials goes: what another seed would
    /// change.
    #[must_use]
    pub fn mean_error(&self) -> f64 {
        self.deviation / (self.values.len() as f64).sqrt()
    }

    /// The value below which the share `p` (0 to 1) of the results lies.
    ///
    /// # Errors
    /// [`MetrologyError`] naming `probability`.
    pub fn quantile(&self, p: f64) -> Result<f64, MetrologyError> {
        let place = within("probability", p, 0.0, 1.0)? * (self.values.len() - 1) as f64;
        let below = (place as usize).min(self.values.len() - 1);
        let above = (below + 1).min(self.values.len() - 1);
        let (low, high) = (self.values[below], self.values[above]);
        Ok(low + (place - below as f64) * (high - low))
    }

    /// The coverage interval with as much probability below it as above (7.7.1).
    ///
    /// # Errors
    /// [`MetrologyError`] naming `coverage` (0.01 to 0.9999).
    pub fn symmetric(&self, coverage: f64) -> Result<CoverageInterval, MetrologyError> {
        symmetric(&self.values, coverage)
    }

    /// The shortest coverage interval (7.7.2): the one to state when the distribution is skewed.
    ///
    /// # Errors
    /// [`MetrologyError`] naming `coverage` (0.01 to 0.9999).
    pub fn shortest(&self, coverage: f64) -> Result<CoverageInterval, MetrologyError> {
        let q = covered(&self.values, coverage)?;
        let width = |r: usize| self.values[r + q] - self.values[r];
        let narrowest = (0..self.values.len() - q)
            .min_by(|a, b| width(*a).total_cmp(&width(*b)))
            .unwrap_or(0);
        Ok(CoverageInterval {
            low: self.values[narrowest],
            high: self.values[narrowest + q],
        })
    }

    /// Probability that the true value conforms, as an interval: the trials that failed count as
    /// not conforming at its low end and as conforming at its high end.
    #[must_use]
    pub fn conformity(&self, limits: Limits) -> CoverageInterval {
        let below = |limit: f64, or_equal: bool| {
            self.values
                .partition_point(|v| if or_equal { *v <= limit } else { *v < limit })
        };
        let upto = limits
            .upper
            .map_or(self.values.len(), |upper| below(upper, true));
        let from = limits.lower.map_or(0, |lower| below(lower, false));
        let good = upto.saturating_sub(from);
        let share = |n: usize| n as f64 / self.trials as f64;
        CoverageInterval {
            low: share(good),
            high: share(good + self.failures.count()),
        }
    }
}

/// q of 7.7: how many steps of the sorted list the interval spans.
fn covered(values: &[f64], coverage: f64) -> Result<usize, MetrologyError> {
    let p = within("coverage", coverage, 0.01, 0.9999)?;
    let q = (p * values.len() as f64 + 0.5) as usize;
    Ok(q.min(values.len() - 1))
}

fn symmetric(values: &[f64], coverage: f64) -> Result<CoverageInterval, MetrologyError> {
    let q = covered(values, coverage)?;
    // r of 7.7.1, counted from zero.
    let r = (values.len() - q).div_ceil(2) - 1;
    Ok(CoverageInterval {
        low: values[r],
        high: values[r + q],
    })
}

struct Moments {
    mean: f64,
    deviation: f64,
    skewness: Option<f64>,
}

impl Moments {
    /// Of at least two values in a fixed order.
    fn of(values: &[f64]) -> Self {
        let n = values.len() as f64;
        // About the median, so that a large mean costs no digits.
        let middle = values[values.len() / 2];
        let scale = (values[0] - middle)
            .abs()
            .max((values[values.len() - 1] - middle).abs());
        if scale == 0.0 {
            return Self {
                mean: middle,
                deviation: 0.0,
                skewness: None,
            };
        }
        let unit = |v: f64| (v - middle) / scale;
        let shift = values.iter().map(|v| unit(*v)).sum::<f64>() / n;
        let (mut second, mut third) = (0.0, 0.0);
        for v in values {
            let d = unit(*v) - shift;
            second += d * d;
            third += d * d * d;
        }
        let variance = second / n;
        Self {
            mean: middle + scale * shift,
            deviation: scale * (second / (n - 1.0)).sqrt(),
            skewness: (variance > 0.0).then(|| third / n / variance.powf(1.5)),
        }
    }
}

/// The bookkeeping of 7.9.4: mean, deviation and interval of each sequence of trials.
pub(super) struct Stability {
    digits: i32,
    coverage: f64,
    /// One row a sequence.
    sequences: Vec<[f64; 4]>,
    tolerance: f64,
    reached: f64,
}

impl Stability {
    pub fn new(digits: u8, coverage: f64) -> Self {
        Self {
            digits: i32::from(digits),
            coverage,
            sequences: Vec::new(),
            tolerance: 0.0,
            reached: f64::INFINITY,
        }
    }

    /// Takes one more sequence, sorted; tells whether all is stable now.
    pub fn add(&mut self, values: &[f64]) -> Result<bool, MetrologyError> {
        if values.len() < LEAST {
            // Hardly anything succeeds: never stable, and told as failures at the end.
            return Ok(false);
        }
        let moments = Moments::of(values);
        let interval = symmetric(values, self.coverage)?;
        self.sequences
            .push([moments.mean, moments.deviation, interval.low, interval.high]);
        let h = self.sequences.len() as f64;
        if h < 2.0 {
            return Ok(false);
        }
        // The deviation of all trials together: those within the sequences and that of the means.
        let mean_of = |i: usize| self.sequences.iter().map(|s| s[i]).sum::<f64>() / h;
        let within = self.sequences.iter().map(|s| s[1] * s[1]).sum::<f64>() / h;
        let mean = mean_of(0);
        let between = self
            .sequences
            .iter()
            .map(|s| (s[0] - mean).powi(2))
            .sum::<f64>()
            / h;
        self.tolerance = numerical_tolerance((within + between).sqrt(), self.digits);
        self.reached = (0..4)
            .map(|i| {
                let mean = mean_of(i);
                let squares: f64 = self.sequences.iter().map(|s| (s[i] - mean).powi(2)).sum();
                2.0 * (squares / (h * (h - 1.0))).sqrt()
            })
            .fold(0.0, f64::max);
        Ok(self.reached <= self.tolerance)
    }

    pub fn told(&self, stable: bool) -> Settled {
        Settled {
            stable,
            tolerance: self.tolerance,
            reached: if self.reached.is_finite() {
                self.reached
            } else {
                crate::error::HUGE
            },
        }
    }
}

/// Half a unit in the last of `digits` significant digits of `u` (7.9.2).
fn numerical_tolerance(u: f64, digits: i32) -> f64 {
    if u <= 0.0 {
        return 0.0;
    }
    0.5 * 10f64.powi(u.log10().floor() as i32 - digits + 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_tolerance_of_jcgm_101_clause_7_9_2() {
        // Its examples (from memory): u = 0.35 g with two digits gives 0.005 g, 2 K with one 0.5 K.
        assert!((numerical_tolerance(0.35, 2) - 0.005).abs() < 1e-15);
        assert!((numerical_tolerance(2.0, 1) - 0.5).abs() < 1e-15);
    }
}
