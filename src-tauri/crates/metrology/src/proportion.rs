//! A share of cases, with the interval that so few cases leave.

use statrs::distribution::{Beta, ContinuousCDF};

use crate::error::{MetrologyError, within};

/// A share with the interval of its true value.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Proportion {
    /// What was seen: hits by cases.
    pub share: f64,
    /// Lower end of the interval.
    pub low: f64,
    /// Upper end.
    pub high: f64,
}

/// The interval of Clopper and Pearson for `hits` among `cases`, two-sided at `confidence` (for
/// example 0.95): each end is the share at which so many hits or more, or so many or fewer, would
/// come about with half of what is left of 1. It holds for any number of cases and errs wide.
/// The ends are quantiles of beta distributions.
///
/// Source: C. J. Clopper, E. S. Pearson, "The use of confidence or fiducial limits illustrated in
/// the case of the binomial", Biometrika 26 (1934) 404-413; NIST/SEMATECH e-Handbook of
/// Statistical Methods, 7.2.4.2.
///
/// # Errors
/// [`MetrologyError`] without a case, with more hits than cases, or unless `confidence` lies between 0
/// and 1, a millionth away from either.
pub fn clopper_pearson(
    hits: u32,
    cases: u32,
    confidence: f64,
) -> Result<Proportion, MetrologyError> {
    let (k, n) = (f64::from(hits), f64::from(cases));
    within("cases", n, 1.0, f64::from(u32::MAX))?;
    within("hits", k, 0.0, n)?;
    within("confidence", confidence, 1e-6, 1.0 - 1e-6)?;
    let tail = 0.5 * (1.0 - confidence);
    let quantile = |a: f64, b: f64, at: f64| {
        let beta = Beta::new(a, b).map_err(|_| MetrologyError::NotFinite { field: "hits" })?;
        Ok(bisected(&beta, at))
    };
    Ok(Proportion {
        share: k / n,
        low: if hits == 0 {
            0.0
        } else {
            quantile(k, n - k + 1.0, tail)?
        },
        high: if hits == cases {
            1.0
        } else {
            quantile(k + 1.0, n - k, 1.0 - tail)?
        },
    })
}

/// The share below which so much of the distribution lies. The library's own inverse is off in the
/// sixth digit and worse for some cases (89 of 90, say); its cumulative function isn't, and rises
/// all the way, so halving finds the share to the last digit.
fn bisected(beta: &Beta, at: f64) -> f64 {
    let (mut low, mut high) = (0.0, 1.0);
    loop {
        let middle = 0.5 * (low + high);
        if middle <= low || middle >= high {
            return middle;
        }
        if beta.cdf(middle) < at {
            low = middle;
        } else {
            high = middle;
        }
    }
}
