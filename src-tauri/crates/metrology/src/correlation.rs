//! Inputs that share an error: correlations as a matrix that quantities can have.

use crate::error::{HUGE, MetrologyError, finite, within};

/// Correlation of two inputs, by their places in the list.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Correlation {
    /// Place of the one.
    pub first: usize,
    /// Place of the other.
    pub second: usize,
    /// r, -1 to 1.
    pub coefficient: f64,
}

/// Correlation of two quantities that hold one error in common, such as two readings of one
/// gauge: `u_shared^2 / (u_first u_second)` (JCGM 100:2008, F.1.2.3, eq. F.2), each of the two
/// uncertainties including the shared part.
///
/// ```
/// use metrology::correlation::of_shared_error;
/// // Two readings of one gauge, 0.3 of which is the gauge's own error and 0.4 the reading's.
/// let u = 0.3f64.hypot(0.4);
/// assert!((of_shared_error(0.3, u, u)? - 0.36).abs() < 1e-12);
/// # Ok::<(), metrology::MetrologyError>(())
/// ```
///
/// # Errors
/// [`MetrologyError`] naming `shared_uncertainty` (which can't be more than either total) or
/// `uncertainty`.
pub fn of_shared_error(shared: f64, first: f64, second: f64) -> Result<f64, MetrologyError> {
    let first = within("uncertainty", first, f64::MIN_POSITIVE, HUGE)?;
    let second = within("uncertainty", second, f64::MIN_POSITIVE, HUGE)?;
    let shared = within("shared_uncertainty", shared, 0.0, first.min(second))?;
    Ok((shared / first) * (shared / second))
}

/// How far below zero rounding may take a pivot: coefficients are stated to two digits as a rule,
/// but one that contradicts the others does so by more than this.
const SLACK: f64 = 1.0e-9;

/// Correlations of all inputs, proven to be possible: positive semidefinite.
#[derive(Debug, Clone, PartialEq)]
pub struct CorrelationMatrix {
    size: usize,
    /// Row after row.
    coefficients: Vec<f64>,
    /// Lower factor L with L L' = R, row after row.
    factor: Vec<f64>,
}

impl CorrelationMatrix {
    /// Of `size` inputs, all pairs uncorrelated but those listed.
    ///
    /// # Errors
    /// [`MetrologyError`] naming `correlation` for a coefficient beyond +/- 1 or a place beyond
    /// the list; [`MetrologyError::ImpossibleCorrelations`] for an input with itself, a pair
    /// stated twice unlike, or coefficients that no quantities can have together.
    pub fn new(size: usize, correlations: &[Correlation]) -> Result<Self, MetrologyError> {
        let mut coefficients = vec![0.0; size * size];
        for i in 0..size {
            coefficients[i * size + i] = 1.0;
        }
        let mut stated = vec![false; size * size];
        let last = size.saturating_sub(1) as f64;
        for c in correlations {
            let r = within("correlation", c.coefficient, -1.0, 1.0)?;
            within("correlation", c.first as f64, 0.0, last)?;
            within("correlation", c.second as f64, 0.0, last)?;
            for (i, j) in [(c.first, c.second), (c.second, c.first)] {
                let place = i * size + j;
                if i == j || (stated[place] && coefficients[place] != r) {
                    return Err(MetrologyError::ImpossibleCorrelations);
                }
                coefficients[place] = r;
            }
            for (i, j) in [(c.first, c.second), (c.second, c.first)] {
                stated[i * size + j] = true;
            }
        }
        let factor = semidefinite_factor(size, &coefficients)?;
        Ok(Self {
            size,
            coefficients,
            factor,
        })
    }

    /// Standard uncertainties and correlations behind a covariance matrix, given row after row.
    ///
    /// # Errors
    /// [`MetrologyError::TooFew`] unless it has `size` squared entries; [`MetrologyError`] naming
    /// `covariance` for one that is not symmetric or has a negative diagonal;
    /// [`MetrologyError::ImpossibleCorrelations`].
    pub fn from_covariance(
        size: usize,
        covariance: &[f64],
    ) -> Result<(Vec<f64>, Self), MetrologyError> {
        if covariance.len() != size * size {
            return Err(MetrologyError::TooFew {
                field: "covariance",
                count: covariance.len(),
                least: size * size,
            });
        }
        let mut uncertainties = Vec::with_capacity(size);
        for i in 0..size {
            uncertainties.push(within("covariance", covariance[i * size + i], 0.0, HUGE)?.sqrt());
        }
        let mut list = Vec::new();
        for i in 0..size {
            for j in 0..i {
                let (one, other) = (covariance[i * size + j], covariance[j * size + i]);
                let scale = uncertainties[i] * uncertainties[j];
                finite("covariance", one)?;
                within("covariance", other, one - 1e-9 * scale, one + 1e-9 * scale)?;
                if scale == 0.0 {
                    if one != 0.0 {
                        return Err(MetrologyError::ImpossibleCorrelations);
                    }
                } else {
                    let r = one / scale;
                    if r.abs() > 1.0 + SLACK {
                        return Err(MetrologyError::ImpossibleCorrelations);
                    }
                    list.push(Correlation {
                        first: i,
                        second: j,
                        coefficient: r.clamp(-1.0, 1.0),
                    });
                }
            }
        }
        Ok((uncertainties, Self::new(size, &list)?))
    }

    /// How many inputs.
    #[must_use]
    pub fn size(&self) -> usize {
        self.size
    }

    /// r of two inputs; 0 beyond the list.
    #[must_use]
    pub fn coefficient(&self, first: usize, second: usize) -> f64 {
        if first >= self.size || second >= self.size {
            return 0.0;
        }
        self.coefficients[first * self.size + second]
    }

    /// Turns independent unit normal numbers into correlated ones, in place.
    #[inline]
    pub(crate) fn correlate(&self, z: &mut [f64]) {
        // From the last row up, for row i needs only those before it.
        for i in (0..self.size).rev() {
            let row = &self.factor[i * self.size..=i * self.size + i];
            z[i] = row.iter().zip(z.iter()).map(|(l, z)| l * z).sum();
        }
    }
}

/// Cholesky's factor of a matrix that may be singular: where a pivot is nothing, so must be the
/// column below it (Golub & Van Loan, *Matrix Computations*, 4.2.8, from memory).
fn semidefinite_factor(size: usize, r: &[f64]) -> Result<Vec<f64>, MetrologyError> {
    let impossible = MetrologyError::ImpossibleCorrelations;
    let mut l = vec![0.0; size * size];
    for j in 0..size {
        let done = |i: usize, l: &[f64]| -> f64 {
            (0..j).map(|k| l[i * size + k] * l[j * size + k]).sum()
        };
        let pivot = r[j * size + j] - done(j, &l);
        if pivot < -SLACK {
            return Err(impossible);
        }
        let root = if pivot > SLACK { pivot.sqrt() } else { 0.0 };
        l[j * size + j] = root;
        for i in j + 1..size {
            let left = r[i * size + j] - done(i, &l);
            if root > 0.0 {
                l[i * size + j] = left / root;
            } else if left.abs() > SLACK.sqrt() {
                return Err(impossible);
            }
        }
    }
    Ok(l)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn pair(first: usize, second: usize, coefficient: f64) -> Correlation {
        Correlation {
            first,
            second,
            coefficient,
        }
    }

    #[test]
    fn three_quantities_can_not_all_oppose_each_other() {
        let all = |r| CorrelationMatrix::new(3, &[pair(0, 1, r), pair(0, 2, r), pair(1, 2, r)]);
        assert_eq!(all(-1.0), Err(MetrologyError::ImpossibleCorrelations));
        assert_eq!(all(-0.51), Err(MetrologyError::ImpossibleCorrelations));
        // -1/2 is the most that three can, and all alike is possible.
        assert!(all(-0.5).is_ok());
        assert!(all(1.0).is_ok());
    }

    #[test]
    fn what_is_stated_twice_must_agree_and_nothing_correlates_with_itself() {
        assert!(CorrelationMatrix::new(2, &[pair(0, 1, 0.5), pair(1, 0, 0.5)]).is_ok());
        for bad in [
            [pair(0, 1, 0.5), pair(1, 0, 0.4)],
            [pair(0, 1, 0.5), pair(1, 1, 0.4)],
        ] {
            let e = CorrelationMatrix::new(2, &bad);
            assert_eq!(e, Err(MetrologyError::ImpossibleCorrelations));
        }
        assert!(CorrelationMatrix::new(2, &[pair(0, 2, 0.5)]).is_err());
        assert!(CorrelationMatrix::new(2, &[pair(0, 1, f64::NAN)]).is_err());
    }

    proptest! {
        /// Correlations of sums of independent numbers are always possible, and come back from
        /// the factor and from the covariance.
        #[test]
        fn what_quantities_have_is_possible(
            weights in prop::collection::vec(-1.0..1.0f64, 12),
        ) {
            // Four quantities out of three independent numbers: singular by construction.
            let row = |i: usize| &weights[3 * i..3 * i + 3];
            let dot = |i: usize, j: usize| -> f64 {
                row(i).iter().zip(row(j)).map(|(a, b)| a * b).sum()
            };
            prop_assume!((0..4).all(|i| dot(i, i) > 1e-3));
            let covariance: Vec<f64> =
                (0..16).map(|k| dot(k / 4, k % 4)).collect();
            let (u, matrix) = CorrelationMatrix::from_covariance(4, &covariance).unwrap();
            for (i, u) in u.iter().enumerate() {
                prop_assert!((u * u - dot(i, i)).abs() < 1e-12);
                for j in 0..4 {
                    let back: f64 = (0..4)
                        .map(|k| matrix.factor[i * 4 + k] * matrix.factor[j * 4 + k])
                        .sum();
                    prop_assert!((back - matrix.coefficient(i, j)).abs() < 1e-4);
                }
            }
        }
    }
}
