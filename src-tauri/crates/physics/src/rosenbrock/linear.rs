//! Small dense linear systems, without allocation.

// Textbook loops over rows and columns read better with their indices.
#![allow(clippy::needless_range_loop)]

/// `shift I - J`, factorised with partial pivoting.
#[derive(Debug, Clone, Copy)]
pub(super) struct Factors<const N: usize> {
    lu: [[f64; N]; N],
    pivot: [usize; N],
    inverse: [f64; N],
}

impl<const N: usize> Factors<N> {
    /// None if a pivot is zero or not finite.
    #[inline]
    pub fn new(jacobian: &[[f64; N]; N], shift: f64) -> Option<Self> {
        let mut lu: [[f64; N]; N] = std::array::from_fn(|i| {
            std::array::from_fn(|j| {
                if i == j {
                    shift - jacobian[i][j]
                } else {
                    -jacobian[i][j]
                }
            })
        });
        let mut pivot = [0; N];
        let mut inverse = [0.0; N];
        for k in 0..N {
            let mut best = k;
            for i in k + 1..N {
                if lu[i][k].abs() > lu[best][k].abs() {
                    best = i;
                }
            }
            lu.swap(k, best);
            pivot[k] = best;
            let r = 1.0 / lu[k][k];
            if !r.is_finite() || r == 0.0 {
                return None;
            }
            inverse[k] = r;
            for i in k + 1..N {
                let factor = lu[i][k] * r;
                lu[i][k] = factor;
                for j in k + 1..N {
                    lu[i][j] -= factor * lu[k][j];
                }
            }
        }
        Some(Self { lu, pivot, inverse })
    }

    #[inline]
    pub fn solve(&self, mut b: [f64; N]) -> [f64; N] {
        for k in 0..N {
            b.swap(k, self.pivot[k]);
        }
        for k in 0..N {
            for i in k + 1..N {
                b[i] -= self.lu[i][k] * b[k];
            }
        }
        for k in (0..N).rev() {
            let mut sum = b[k];
            for j in k + 1..N {
                sum -= self.lu[k][j] * b[j];
            }
            b[k] = sum * self.inverse[k];
        }
        b
    }
}
