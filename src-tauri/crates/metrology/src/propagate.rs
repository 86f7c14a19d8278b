//! Uncertainty through a calculation, to first order (JCGM 100:2008, clause 5).
//!
//! Sensitivities are central differences, taken at steps of 1/8 and 1/16 of each standard
//! uncertainty and extrapolated to zero step (error of fourth order), so any function of numbers
//! will do, one that finds a root inside included.

use crate::combine::welch_satterthwaite;
pub use crate::correlation::Correlation;
use crate::correlation::CorrelationMatrix;
use crate::error::{MetrologyError, degrees, finite, not_negative};

/// One input of the calculation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Input {
    /// What it is.
    pub name: &'static str,
    /// Its best estimate.
    pub estimate: f64,
    /// Its standard uncertainty, 0 or more.
    pub uncertainty: f64,
    /// How well that is known; `None` for exactly.
    pub degrees_of_freedom: Option<f64>,
}

/// What one input does to the result.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Contribution {
    /// The input.
    pub name: &'static str,
    /// Its place in the list.
    pub place: usize,
    /// df/dx.
    pub sensitivity: f64,
    /// |df/dx| u(x), in the result's unit.
    pub uncertainty: f64,
    /// Its share of the result's variance, all of which sum to 1: "the gauge is 70 % of this". An
    /// input correlated with others bears half of what each pair brings, and so may be negative
    /// when it takes error away. 0 when nothing is uncertain.
    pub share: f64,
}

/// A result with its uncertainty.
#[derive(Debug, Clone, PartialEq)]
pub struct Propagated {
    /// The function at the estimates.
    pub value: f64,
    /// Combined standard uncertainty.
    pub uncertainty: f64,
    /// Effective degrees of freedom; `None` for infinitely many. With correlations, for which
    /// Welch-Satterthwaite does not hold, the least among the inputs that matter.
    pub degrees_of_freedom: Option<f64>,
    /// What each input does, largest first.
    pub contributions: Vec<Contribution>,
}

/// Why a propagation failed.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum PropagationError<E> {
    /// An input, or a value of the function, that can't be used.
    #[error(transparent)]
    Metrology(#[from] MetrologyError),
    /// The function itself refused, at the estimates or on both sides of one of them.
    #[error("the calculation failed: {0}")]
    Function(E),
}

/// Carries `inputs` through `f`, which gets their values in the order of the list.
///
/// Where `f` fails on one side of an estimate (a bound is near), the one-sided difference at an
/// eighth of the uncertainty stands in.
///
/// # Errors
/// [`PropagationError::Metrology`] naming `estimate`, `uncertainty`, `degrees_of_freedom`,
/// `correlation` or `function_value`, or [`MetrologyError::ImpossibleCorrelations`];
/// [`PropagationError::Function`] with the function's own error.
pub fn propagate<E>(
    inputs: &[Input],
    correlations: &[Correlation],
    mut f: impl FnMut(&[f64]) -> Result<f64, E>,
) -> Result<Propagated, PropagationError<E>> {
    check(inputs)?;
    let mut point: Vec<f64> = inputs.iter().map(|x| x.estimate).collect();
    let value = call(&mut f, &point)?;
    let mut signed = Vec::with_capacity(inputs.len());
    for (place, x) in inputs.iter().enumerate() {
        signed.push(slope(&mut f, &mut point, place, x, value)?);
    }
    Ok(gather(inputs, correlations, value, &signed)?)
}

/// As [`propagate`], with sensitivities df/dx that the caller knows, in the order of the inputs.
///
/// # Errors
/// [`MetrologyError::TooFew`] naming `sensitivity` unless there is one for each input; otherwise
/// as [`propagate`].
pub fn propagate_known(
    inputs: &[Input],
    correlations: &[Correlation],
    value: f64,
    sensitivities: &[f64],
) -> Result<Propagated, MetrologyError> {
    if sensitivities.len() != inputs.len() {
        return Err(MetrologyError::TooFew {
            field: "sensitivity",
            count: sensitivities.len(),
            least: inputs.len(),
        });
    }
    check(inputs)?;
    let value = finite("function_value", value)?;
    let mut signed = Vec::with_capacity(inputs.len());
    for (x, c) in inputs.iter().zip(sensitivities) {
        signed.push(finite(
            "sensitivity",
            finite("sensitivity", *c)? * x.uncertainty,
        )?);
    }
    gather(inputs, correlations, value, &signed)
}

fn check(inputs: &[Input]) -> Result<(), MetrologyError> {
    for x in inputs {
        finite("estimate", x.estimate)?;
        not_negative("uncertainty", x.uncertainty)?;
        degrees(x.degrees_of_freedom)?;
    }
    Ok(())
}

/// The law of propagation (JCGM 100:2008, eq. 10 and 13) from `signed`, each df/dx u(x).
fn gather(
    inputs: &[Input],
    correlations: &[Correlation],
    value: f64,
    signed: &[f64],
) -> Result<Propagated, MetrologyError> {
    // Each input with all that it is correlated with: s_i sum_j r_ij s_j.
    let mut parts: Vec<f64> = signed.iter().map(|s| s * s).collect();
    if !correlations.is_empty() {
        let matrix = CorrelationMatrix::new(inputs.len(), correlations)?;
        for (i, part) in parts.iter_mut().enumerate() {
            for (j, other) in signed.iter().enumerate() {
                if i != j {
                    *part += matrix.coefficient(i, j) * signed[i] * other;
                }
            }
        }
    }
    // Rounding may take a variance that cancels to just below zero.
    let variance = finite("uncertainty", parts.iter().sum::<f64>().max(0.0))?;
    let mut contributions = Vec::with_capacity(inputs.len());
    for (place, x) in inputs.iter().enumerate() {
        let sensitivity = if x.uncertainty > 0.0 {
            signed[place] / x.uncertainty
        } else {
            0.0
        };
        let share = if variance > 0.0 {
            parts[place] / variance
        } else {
            0.0
        };
        contributions.push(Contribution {
            name: x.name,
            place,
            sensitivity: finite("sensitivity", sensitivity)?,
            uncertainty: signed[place].abs(),
            share: if share.is_finite() { share } else { 0.0 },
        });
    }
    let each = || {
        signed
            .iter()
            .zip(inputs)
            .map(|(s, x)| (s.abs(), x.degrees_of_freedom))
    };
    let degrees_of_freedom = if correlations.is_empty() {
        // Scaled, as in `combine`, so that fourth powers neither overflow nor vanish.
        let scale = variance.sqrt();
        (scale > 0.0)
            .then(|| welch_satterthwaite(1.0, each().map(|(s, nu)| (s / scale, nu))))
            .flatten()
    } else {
        each()
            .filter(|(s, _)| *s > 0.0)
            .filter_map(|(_, nu)| nu)
            .reduce(f64::min)
    };
    contributions.sort_by(|a, b| b.uncertainty.total_cmp(&a.uncertainty));
    Ok(Propagated {
        value,
        uncertainty: variance.sqrt(),
        degrees_of_freedom,
        contributions,
    })
}

fn call<E>(
    f: &mut impl FnMut(&[f64]) -> Result<f64, E>,
    point: &[f64],
) -> Result<f64, PropagationError<E>> {
    let value = f(point).map_err(PropagationError::Function)?;
    Ok(finite("function_value", value)?)
}

/// df/dx u(x).
fn slope<E>(
    f: &mut impl FnMut(&[f64]) -> Result<f64, E>,
    point: &mut [f64],
    place: usize,
    x: &Input,
    value: f64,
) -> Result<f64, PropagationError<E>> {
    if x.uncertainty == 0.0 {
        return Ok(0.0);
    }
    let mut at = |share: f64| {
        point[place] = x.estimate + share * x.uncertainty;
        let result = call(f, point);
        point[place] = x.estimate;
        result
    };
    let steps = [0.125, -0.125, 0.0625, -0.0625];
    let per_uncertainty = match (at(steps[0]), at(steps[1])) {
        (Ok(up), Ok(down)) => {
            let wide = (up - down) / 0.25;
            let narrow = (at(steps[2])? - at(steps[3])?) / 0.125;
            (4.0 * narrow - wide) / 3.0
        }
        (Ok(up), Err(_)) => (up - value) / 0.125,
        (Err(_), Ok(down)) => (value - down) / 0.125,
        (Err(e), Err(_)) => return Err(e),
    };
    Ok(finite("sensitivity", per_uncertainty)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn input(name: &'static str, estimate: f64, uncertainty: f64) -> Input {
        Input {
            name,
            estimate,
            uncertainty,
            degrees_of_freedom: None,
        }
    }

    proptest! {
        #[test]
        fn a_product_of_powers_adds_relative_uncertainties(
            x in 0.1..10.0f64, y in 0.1..10.0f64, rx in 1e-6..0.05f64, ry in 1e-6..0.05f64,
        ) {
            // JCGM 100:2008, eq. 12.
            let inputs = [input("x", x, rx * x), input("y", y, ry * y)];
            let r = propagate(&inputs, &[], |v| Ok::<_, ()>(v[0].powi(3) / v[1].sqrt())).unwrap();
            let expected = r.value * ((3.0 * rx).powi(2) + (0.5 * ry).powi(2)).sqrt();
            prop_assert!((r.uncertainty / expected - 1.0).abs() < 1e-5);
            prop_assert_eq!(r.contributions[0].name, if 3.0 * rx > 0.5 * ry { "x" } else { "y" });
        }
    }

    #[test]
    fn fully_correlated_inputs_cancel_in_a_difference_and_add_in_a_sum() {
        let inputs = [input("x", 5.0, 0.2), input("y", 3.0, 0.2)];
        let r = [Correlation {
            first: 0,
            second: 1,
            coefficient: 1.0,
        }];
        let gap = propagate(&inputs, &r, |v| Ok::<_, ()>(v[0] - v[1])).unwrap();
        assert!(gap.uncertainty < 1e-8, "{gap:?}");
        let sum = propagate(&inputs, &r, |v| Ok::<_, ()>(v[0] + v[1])).unwrap();
        assert!((sum.uncertainty - 0.4).abs() < 1e-12);
    }

    #[test]
    fn near_a_bound_one_side_is_enough() {
        let f = |v: &[f64]| {
            if v[0] > 1.0 {
                Err("above 1")
            } else {
                Ok(2.0 * v[0])
            }
        };
        let r = propagate(&[input("x", 1.0, 0.1)], &[], f).unwrap();
        assert!((r.uncertainty - 0.2).abs() < 1e-12);
    }

    #[test]
    fn the_functions_own_error_comes_through() {
        let r = propagate(&[input("x", 1.0, 0.1)], &[], |_| Err::<f64, _>("oiled"));
        assert_eq!(r.unwrap_err(), PropagationError::Function("oiled"));
        let nan = propagate(&[input("x", 1.0, 0.1)], &[], |_| Ok::<_, ()>(f64::NAN));
        let not_finite = MetrologyError::NotFinite {
            field: "function_value",
        };
        assert_eq!(nan.unwrap_err(), PropagationError::Metrology(not_finite));
    }

    #[test]
    fn impossible_correlations_are_refused() {
        let inputs = [
            input("x", 1.0, 1.0),
            input("y", 1.0, 1.0),
            input("z", 1.0, 1.0),
        ];
        let all = |i, j| Correlation {
            first: i,
            second: j,
            coefficient: -1.0,
        };
        let r = propagate(&inputs, &[all(0, 1), all(0, 2), all(1, 2)], |v| {
            Ok::<_, ()>(v.iter().sum())
        });
        let impossible = PropagationError::Metrology(MetrologyError::ImpossibleCorrelations);
        assert_eq!(r.unwrap_err(), impossible);
    }
}
