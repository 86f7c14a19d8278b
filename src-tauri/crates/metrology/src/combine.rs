//! Independent contributions in quadrature, and how sure the sum is.

use crate::distribution::coverage_factor;
use crate::error::{MetrologyError, degrees, finite, not_negative};

/// One contribution, already in the result's unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Component {
    /// What it is.
    pub name: &'static str,
    /// Its standard uncertainty, 0 or more.
    pub uncertainty: f64,
    /// How well that is known; `None` for exactly.
    pub degrees_of_freedom: Option<f64>,
}

/// Contributions combined.
#[derive(Debug, Clone, PartialEq)]
pub struct Combined {
    /// Combined standard uncertainty u_c.
    pub uncertainty: f64,
    /// Effective degrees of freedom (Welch-Satterthwaite); `None` for infinitely many.
    pub degrees_of_freedom: Option<f64>,
    /// Each contribution's share of the variance, largest first; all 0 when the sum is 0.
    pub shares: Vec<(&'static str, f64)>,
}

impl Combined {
    /// Expanded uncertainty at a confidence: t of the effective degrees of freedom times u_c.
    ///
    /// # Errors
    /// [`MetrologyError`] naming `confidence`.
    pub fn expanded(&self, confidence: f64) -> Result<f64, MetrologyError> {
        Ok(coverage_factor(confidence, self.degrees_of_freedom)? * self.uncertainty)
    }
}

/// Root sum of squares of independent contributions (JCGM 100:2008, eq. 10 with sensitivities of
/// 1) and their effective degrees of freedom (eq. G.2b).
///
/// # Errors
/// [`MetrologyError::TooFew`] for none; [`MetrologyError`] naming `uncertainty` or
/// `degrees_of_freedom`.
pub fn combine(components: &[Component]) -> Result<Combined, MetrologyError> {
    if components.is_empty() {
        return Err(MetrologyError::TooFew {
            field: "components",
            count: 0,
            least: 1,
        });
    }
    for c in components {
        not_negative("uncertainty", c.uncertainty)?;
        degrees(c.degrees_of_freedom)?;
    }
    let largest = components.iter().map(|c| c.uncertainty).fold(0.0, f64::max);
    if largest == 0.0 {
        let shares = components.iter().map(|c| (c.name, 0.0)).collect();
        return Ok(Combined {
            uncertainty: 0.0,
            degrees_of_freedom: None,
            shares,
        });
    }
    // Scaled by the largest, so that the fourth powers of G.2b neither overflow nor vanish.
    let variance: f64 = components
        .iter()
        .map(|c| (c.uncertainty / largest).powi(2))
        .sum();
    let mut shares: Vec<_> = components
        .iter()
        .map(|c| (c.name, (c.uncertainty / largest).powi(2) / variance))
        .collect();
    shares.sort_by(|a, b| b.1.total_cmp(&a.1));
    let parts = components
        .iter()
        .map(|c| (c.uncertainty / largest, c.degrees_of_freedom));
    Ok(Combined {
        uncertainty: finite("uncertainty", largest * variance.sqrt())?,
        degrees_of_freedom: welch_satterthwaite(variance, parts),
        shares,
    })
}

/// nu_eff = u_c^4 / sum(u_i^4 / nu_i).
pub(crate) fn welch_satterthwaite(
    variance: f64,
    parts: impl Iterator<Item = (f64, Option<f64>)>,
) -> Option<f64> {
    let sum: f64 = parts
        .filter_map(|(u, nu)| nu.map(|nu| u.powi(4) / nu))
        .sum();
    let effective = variance * variance / sum;
    effective.is_finite().then_some(effective)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn effective_degrees_lie_between_the_least_and_the_sum(
            parts in prop::collection::vec((1e-6..1e6f64, 1.0..50.0f64), 1..8),
        ) {
            let components: Vec<_> = parts
                .iter()
                .map(|(u, nu)| Component {
                    name: "x", uncertainty: *u, degrees_of_freedom: Some(*nu),
                })
                .collect();
            let nu = combine(&components).unwrap().degrees_of_freedom.unwrap();
            let least = parts.iter().map(|p| p.1).fold(f64::INFINITY, f64::min);
            let sum: f64 = parts.iter().map(|p| p.1).sum();
            prop_assert!(nu >= least * (1.0 - 1e-9) && nu <= sum * (1.0 + 1e-9));
        }
    }

    #[test]
    fn nothing_uncertain_is_certain() {
        let sure = Component {
            name: "x",
            uncertainty: 0.0,
            degrees_of_freedom: Some(2.0),
        };
        let c = combine(&[sure]).unwrap();
        assert_eq!((c.uncertainty, c.expanded(0.95).unwrap()), (0.0, 0.0));
        assert!(combine(&[]).is_err());
        assert!(
            combine(&[Component {
                uncertainty: f64::NAN,
                ..sure
            }])
            .is_err()
        );
        assert!(
            combine(&[Component {
                uncertainty: -1.0,
                ..sure
            }])
            .is_err()
        );
    }
}
