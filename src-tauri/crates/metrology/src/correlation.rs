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
    /// The inputs in the order in which the factor takes them.
    order: Vec<usize>,
    /// Factor L with L L' = R, a row an input as listed; in their order it is a lower one.
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
        let (order, factor) = semidefinite_factor(size, &coefficients)?;
        Ok(Self {
            size,
            coefficients,
            order,
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
        // From the last up, for each needs only those that come before it.
        for (p, &i) in self.order.iter().enumerate().rev() {
            let row = &self.factor[i * self.size..=i * self.size + p];
            z[i] = row.iter().zip(&self.order).map(|(l, &k)| l * z[k]).sum();
        }
    }
}

/// Lower factor of a positive semidefinite matrix, taking the largest pivot that is left each time
/// (N. J. Higham, *Accuracy and Stability of Numerical Algorithms*, 10.3, from memory): in the order
/// of the list a small pivot would blow rounding up until quantities that exist look impossible.
/// Answers the order in which inputs were taken, and the factor, a row an input as listed.
fn semidefinite_factor(size: usize, r: &[f64]) -> Result<(Vec<usize>, Vec<f64>), MetrologyError> {
    let mut order: Vec<usize> = (0..size).collect();
    let mut left = r.to_vec();
    let mut l = vec![0.0; size * size];
    for j in 0..size {
        let pivot_of = |i: usize, left: &[f64]| left[i * size + i];
        let mut largest = j;
        for p in j + 1..size {
            if pivot_of(order[p], &left) > pivot_of(order[largest], &left) {
                largest = p;
            }
        }
        order.swap(j, largest);
        let now = order[j];
        let pivot = pivot_of(now, &left);
        if pivot <= SLACK {
            return if is_nothing(size, &left, &order[j..]) {
                Ok((order, l))
            } else {
                Err(MetrologyError::ImpossibleCorrelations)
            };
        }
        let root = pivot.sqrt();
        for &i in &order[j..] {
            l[i * size + j] = left[i * size + now] / root;
        }
        for &a in &order[j + 1..] {
            for &b in &order[j + 1..] {
                left[a * size + b] -= l[a * size + j] * l[b * size + j];
            }
        }
    }
    Ok((order, l))
}

/// True when what is left of these inputs is nothing but rounding.
fn is_nothing(size: usize, left: &[f64], inputs: &[usize]) -> bool {
    inputs.iter().all(|i| {
        inputs
            .iter()
            .all(|j| left[i * size + j].abs() <= 2.0 * SLACK)
    })
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

    /// Found by the property below: one of four, all made of three, with a pivot of 4e-8 in the order
    /// of the list.
    #[test]
    fn quantities_that_nearly_say_the_same_are_possible() {
        let weights = [
            [
                -0.846_862_768_929_29,
                -0.276_042_269_533_280_15,
                0.590_880_720_497_429_7,
            ],
            [
                -0.155_999_695_143_362_45,
                0.241_544_130_123_159_87,
                -0.417_068_961_810_848_35,
            ],
            [
                0.356_748_006_383_338_26,
                -0.492_047_704_178_025_7,
                0.845_691_678_073_188_9,
            ],
            [0.0, 0.0, -0.194_405_035_611_898_95],
        ];
        let covariance: Vec<f64> = (0..16)
            .map(|k| (0..3).map(|n| weights[k / 4][n] * weights[k % 4][n]).sum())
            .collect();
        assert!(CorrelationMatrix::from_covariance(4, &covariance).is_ok());
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
