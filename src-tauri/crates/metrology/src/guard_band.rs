//! Limits of acceptance: how far inside the tolerance a measured value must lie to be accepted.
//!
//! JCGM 106:2012, clause 8: with the tolerance itself as the acceptance interval producer and
//! consumer share the risk (8.2); moved inward by a guard band few bad parts are accepted (8.3.2,
//! guarded acceptance), moved outward few good ones are rejected (8.3.3, guarded rejection). ISO
//! 14253-1:2017 asks for a probability of conformity of 95 % by default: 1.645 u at one limit
//! (its 2003 edition took the whole U; both from memory).

use crate::decide::{Verdict, conformity_between};
use crate::distribution::{one_sided_factor, probability_below};
use crate::error::{HUGE, MetrologyError, degrees, finite, not_negative, within};
use crate::risk::Limits;

/// How the guard band is chosen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Guard {
    /// None: shared risk.
    None,
    /// So many times the expanded uncertainty U = 2 u (JCGM 106:2012, 8.3.2: g = r U), -2 to 4;
    /// negative for guarded rejection.
    OfExpanded(f64),
    /// So wide that what is accepted conforms with this probability, 0.5 to 0.9999.
    Probability(f64),
}

/// The limits that measured values are held against.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Acceptance {
    /// Measured values within conform. `None` when no measured value can: the uncertainty is too
    /// large for the tolerance.
    pub accept: Option<Limits>,
    /// Measured values beyond these do not conform, with the same guard band outward.
    pub reject_beyond: Limits,
    /// The guard band at each limit; the larger one where the two differ.
    pub guard_band: f64,
}

impl Acceptance {
    /// The three-way answer for a measured value.
    ///
    /// # Errors
    /// [`MetrologyError`] naming `measured`.
    pub fn verdict(&self, measured: f64) -> Result<Verdict, MetrologyError> {
        let y = finite("measured", measured)?;
        let inside = |limits: &Limits| {
            limits.lower.is_none_or(|l| y >= l) && limits.upper.is_none_or(|u| y <= u)
        };
        // Asked first: with a negative guard band the two overlap, and rejecting comes before.
        if !inside(&self.reject_beyond) {
            return Ok(Verdict::OutsideLimit);
        }
        if self.accept.as_ref().is_some_and(inside) {
            return Ok(Verdict::WithinLimit);
        }
        Ok(Verdict::TooCloseToCall)
    }
}

/// Acceptance limits for a tolerance with one limit or two, a measurement of standard uncertainty
/// `u` known with `nu` degrees of freedom, and a rule.
///
/// With two limits close together [`Guard::Probability`] counts both tails, so that the probability
/// is kept however narrow the tolerance.
///
/// # Errors
/// [`MetrologyError::TooFew`] naming `tolerance` without any limit; [`MetrologyError`] naming
/// `tolerance`, `uncertainty`, `degrees_of_freedom`, `guard_factor` or `probability`.
pub fn acceptance(
    tolerance: Limits,
    u: f64,
    nu: Option<f64>,
    guard: Guard,
) -> Result<Acceptance, MetrologyError> {
    let u = not_negative("uncertainty", u)?;
    let nu = degrees(nu)?;
    for limit in [tolerance.lower, tolerance.upper].into_iter().flatten() {
        finite("tolerance", limit)?;
    }
    let width = match (tolerance.lower, tolerance.upper) {
        (None, None) => {
            return Err(MetrologyError::TooFew {
                field: "tolerance",
                count: 0,
                least: 1,
            });
        }
        (Some(lower), Some(upper)) => Some(within("tolerance", upper, lower, HUGE)? - lower),
        _ => None,
    };
    let (inward, outward) = match guard {
        Guard::None => (Some(0.0), 0.0),
        Guard::OfExpanded(r) => {
            let g = within("guard_factor", r, -2.0, 4.0)? * 2.0 * u;
            (Some(g), g)
        }
        Guard::Probability(p) => {
            let p = within("probability", p, 0.5, 0.9999)?;
            let g = one_sided_factor(p, nu)? * u;
            (width.map_or(Ok(Some(g)), |w| two_sided(w, u, nu, p, g))?, g)
        }
    };
    let moved = |by: f64| Limits {
        lower: tolerance.lower.map(|l| l + by),
        upper: tolerance.upper.map(|l| l - by),
    };
    let accept = inward
        .filter(|g| width.is_none_or(|w| 2.0 * g <= w))
        .map(moved);
    Ok(Acceptance {
        accept,
        reject_beyond: moved(-outward),
        guard_band: inward.unwrap_or(outward).max(outward),
    })
}

/// The guard band at both limits of a tolerance `width` wide with which the probability of
/// conformity at the acceptance limit is `p`; none where even the middle doesn't reach it.
fn two_sided(
    width: f64,
    u: f64,
    nu: Option<f64>,
    p: f64,
    one_sided: f64,
) -> Result<Option<f64>, MetrologyError> {
    if u == 0.0 {
        return Ok(Some(0.0));
    }
    // With both tails the guard band is at least that of one limit alone.
    let short = |g: f64| Ok::<_, MetrologyError>(conformity_between(g, u, nu, 0.0, width)? - p);
    let (mut low, mut high) = (one_sided.min(0.5 * width), 0.5 * width);
    if short(high)? < 0.0 {
        return Ok(None);
    }
    if short(low)? >= 0.0 {
        return Ok(Some(low));
    }
    for _ in 0..100 {
        let middle = 0.5 * (low + high);
        if short(middle)? < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(Some(high))
}

/// Measurement capability index C_m = (T_U - T_L) / (4 u) (JCGM 106:2012, 7.6.3, eq. 16; from
/// memory): 4 and more is a good gauge for the task.
///
/// # Errors
/// [`MetrologyError`] naming `tolerance` or `uncertainty` (above 0).
pub fn capability(lower: f64, upper: f64, u: f64) -> Result<f64, MetrologyError> {
    let lower = finite("tolerance", lower)?;
    let upper = within("tolerance", upper, lower, HUGE)?;
    let u = within("uncertainty", u, f64::MIN_POSITIVE, HUGE)?;
    finite("uncertainty", (upper - lower) / (4.0 * u))
}

/// The largest probability with which an accepted part may be bad (the specific consumer's risk at
/// the acceptance limit) when one limit has the guard band `g`: 1 - Phi(g / u) (JCGM 106:2012,
/// 8.3.2).
///
/// # Errors
/// [`MetrologyError`] naming `guard_band`, `uncertainty` (above 0) or `degrees_of_freedom`.
pub fn largest_specific_risk(g: f64, u: f64, nu: Option<f64>) -> Result<f64, MetrologyError> {
    let u = within("uncertainty", u, f64::MIN_POSITIVE, HUGE)?;
    probability_below(-finite("guard_band", g)? / u, degrees(nu)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const fn one(upper: f64) -> Limits {
        Limits {
            lower: None,
            upper: Some(upper),
        }
    }

    const fn two(lower: f64, upper: f64) -> Limits {
        Limits {
            lower: Some(lower),
            upper: Some(upper),
        }
    }

    #[test]
    fn a_guard_band_of_the_whole_expanded_uncertainty_leaves_2_3_percent() {
        // JCGM 106:2012, 8.3.2.3 (from memory): r = 1, p_c at the acceptance limit 0.977.
        let a = acceptance(one(10.0), 0.5, None, Guard::OfExpanded(1.0)).unwrap();
        assert_eq!(a.accept, Some(one(9.0)));
        let risk = largest_specific_risk(a.guard_band, 0.5, None).unwrap();
        assert!((risk - 0.022_750).abs() < 1e-6, "{risk}");
    }

    #[test]
    fn the_default_of_iso_14253_1_is_1_645_u_at_one_limit() {
        let a = acceptance(one(0.0), 1.0, None, Guard::Probability(0.95)).unwrap();
        assert!((a.guard_band - 1.644_854).abs() < 1e-6);
        assert_eq!(a.verdict(-1.7), Ok(Verdict::WithinLimit));
        assert_eq!(a.verdict(-1.6), Ok(Verdict::TooCloseToCall));
        assert_eq!(a.verdict(1.7), Ok(Verdict::OutsideLimit));
    }

    #[test]
    fn examples_of_jcgm_106_clause_7() {
        // All three from memory of JCGM 106:2012, 7.3 and 7.4.
        // Breakdown voltage -5.47 V, u = 0.05 V, at most -5.40 V: 0.92.
        let p = probability_below((-5.40 + 5.47) / 0.05, None).unwrap();
        assert!((p - 0.92).abs() < 0.005, "{p}");
        // Burst pressure 509.7 kPa, u = 8.6 kPa, at least 490 kPa: 0.99.
        let p = probability_below((509.7 - 490.0) / 8.6, None).unwrap();
        assert!((p - 0.99).abs() < 0.005, "{p}");
        // Viscosity of a motor oil, 13.6 with u = 1.8 between 12.5 and 16.3 mm2/s: 0.66.
        let p = conformity_between(13.6, 1.8, None, 12.5, 16.3).unwrap();
        assert!((p - 0.66).abs() < 0.006, "{p}");
        // Such a gauge is far too coarse for it: nothing can be accepted at 95 %.
        let a = acceptance(two(12.5, 16.3), 1.8, None, Guard::Probability(0.95)).unwrap();
        assert_eq!(a.accept, None);
        assert!(capability(12.5, 16.3, 1.8).unwrap() < 1.0);
    }

    proptest! {
        /// At the acceptance limit the probability is the one asked for, however narrow the
        /// tolerance, and more inside.
        #[test]
        fn what_is_accepted_conforms_with_the_probability_asked_for(
            width in 0.5..20.0f64, u in 0.05..3.0f64, p in 0.6..0.999f64, inside in 0.0..1.0f64,
            few in prop::option::of(2.0..30.0f64),
        ) {
            let tolerance = two(5.0, 5.0 + width);
            let a = acceptance(tolerance, u, few, Guard::Probability(p)).unwrap();
            let at = |y| conformity_between(y, u, few, 5.0, 5.0 + width).unwrap();
            match a.accept {
                None => prop_assert!(at(5.0 + 0.5 * width) < p + 1e-9),
                Some(limits) => {
                    let (low, high) = (limits.lower.unwrap(), limits.upper.unwrap());
                    prop_assert!(low <= high);
                    prop_assert!((at(low) - p).abs() < 1e-6 || low == high, "{}", at(low));
                    let y = low + inside * (high - low);
                    prop_assert!(at(y) >= p - 1e-6);
                    prop_assert_eq!(a.verdict(y), Ok(Verdict::WithinLimit));
                }
            }
        }
    }

    #[test]
    fn nonsense_is_refused_by_name() {
        let none = Limits::default();
        assert!(acceptance(none, 1.0, None, Guard::None).is_err());
        assert!(acceptance(two(1.0, 0.0), 1.0, None, Guard::None).is_err());
        assert!(acceptance(one(1.0), f64::NAN, None, Guard::None).is_err());
        assert!(acceptance(one(1.0), 1.0, None, Guard::Probability(1.0)).is_err());
        assert!(capability(0.0, 1.0, 0.0).is_err());
    }
}
