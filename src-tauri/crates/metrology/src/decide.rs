//! A measured value against a limit: three answers, not two.
//!
//! The decision rule is ISO 14253-1's: to say "within" or "outside" the probability of being so
//! must reach a stated confidence (0.95 by default, a guard band of 1.645 u); between the two lies
//! "too close to call". Probabilities are JCGM 106:2012's, with Student's t in the place of the
//! normal where the uncertainty itself is known from few readings.

use crate::distribution::{one_sided_factor, probability_below};
use crate::error::{MetrologyError, degrees, finite, not_negative, within};

/// Confidence of a decision when none is given (ISO 14253-1:2017, default, `from memory`).
pub const DEFAULT_CONFIDENCE: f64 = 0.95;

/// On which side of the limit a good value lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Side {
    /// The limit is the lowest good value.
    AtLeast,
    /// The limit is the highest good value.
    AtMost,
}

/// The answer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Conforms, with the confidence asked for.
    WithinLimit,
    /// Neither can be said with that confidence.
    TooCloseToCall,
    /// Does not conform, with that confidence.
    OutsideLimit,
}

/// The answer and how far it is from turning.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Decision {
    /// The answer.
    pub verdict: Verdict,
    /// Probability that the true value conforms.
    pub probability_of_conformity: f64,
    /// Guard band g, the factor of the confidence times u.
    pub guard_band: f64,
    /// Measured values on the good side of this are within the limit: the limit moved inward by g.
    pub acceptance_limit: f64,
    /// Measured values on the bad side of this are outside: the limit moved outward by g.
    pub rejection_limit: f64,
    /// Distance of the measured value from the limit, positive on the good side.
    pub margin: f64,
}

/// Decides at [`DEFAULT_CONFIDENCE`] with an uncertainty that is exactly known.
///
/// ```
/// use metrology::{Side, Verdict, decide};
/// // 20.4 inHg with 0.3 standard, at least 20 asked: 91 % sure is not 95 %.
/// let d = decide(20.4, 0.3, 20.0, Side::AtLeast)?;
/// assert_eq!(d.verdict, Verdict::TooCloseToCall);
/// # Ok::<(), metrology::MetrologyError>(())
/// ```
///
/// # Errors
/// As [`decide_with`].
pub fn decide(
    measured: f64,
    uncertainty: f64,
    limit: f64,
    side: Side,
) -> Result<Decision, MetrologyError> {
    decide_with(measured, uncertainty, None, limit, side, DEFAULT_CONFIDENCE)
}

/// Decides at a confidence (0.5 to 0.9999), with `nu` degrees of freedom of the uncertainty. A
/// value known exactly (uncertainty 0) that sits on the limit conforms.
///
/// # Errors
/// [`MetrologyError`] naming `measured`, `uncertainty`, `degrees_of_freedom`, `limit` or
/// `confidence`.
pub fn decide_with(
    measured: f64,
    uncertainty: f64,
    nu: Option<f64>,
    limit: f64,
    side: Side,
    confidence: f64,
) -> Result<Decision, MetrologyError> {
    let y = finite("measured", measured)?;
    let u = not_negative("uncertainty", uncertainty)?;
    let limit = finite("limit", limit)?;
    let p = within("confidence", confidence, 0.5, 0.9999)?;
    let nu = degrees(nu)?;
    let inward = match side {
        Side::AtLeast => 1.0,
        Side::AtMost => -1.0,
    };
    let margin = inward * (y - limit);
    let guard_band = one_sided_factor(p, nu)? * u;
    let probability = if u > 0.0 {
        probability_below(margin / u, nu)?
    } else {
        f64::from(u8::from(margin >= 0.0))
    };
    let verdict = if u == 0.0 {
        if margin >= 0.0 {
            Verdict::WithinLimit
        } else {
            Verdict::OutsideLimit
        }
    } else if margin >= guard_band {
        Verdict::WithinLimit
    } else if margin <= -guard_band {
        Verdict::OutsideLimit
    } else {
        Verdict::TooCloseToCall
    };
    Ok(Decision {
        verdict,
        probability_of_conformity: probability,
        guard_band,
        acceptance_limit: limit + inward * guard_band,
        rejection_limit: limit - inward * guard_band,
        margin,
    })
}

/// Probability that a value lies between two limits (JCGM 106:2012, eq. 7, with Student's t for
/// finite `nu`). With uncertainty 0, 1 inside or on a limit, 0 outside.
///
/// # Errors
/// [`MetrologyError`] naming `measured`, `uncertainty`, `degrees_of_freedom`, `lower_limit` or
/// `upper_limit` (which must not be below the lower).
pub fn conformity_between(
    measured: f64,
    uncertainty: f64,
    nu: Option<f64>,
    lower: f64,
    upper: f64,
) -> Result<f64, MetrologyError> {
    let y = finite("measured", measured)?;
    let u = not_negative("uncertainty", uncertainty)?;
    let lower = finite("lower_limit", lower)?;
    let upper = within("upper_limit", upper, lower, crate::error::HUGE)?;
    let nu = degrees(nu)?;
    if u == 0.0 {
        return Ok(f64::from(u8::from((lower..=upper).contains(&y))));
    }
    Ok(probability_below((upper - y) / u, nu)? - probability_below((lower - y) / u, nu)?)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn the_verdict_agrees_with_the_probability(
            y in -5.0..5.0f64, u in 1e-3..3.0f64, p in 0.6..0.999f64, at_least in any::<bool>(),
            few in prop::option::of(1.0..30.0f64),
        ) {
            let side = if at_least { Side::AtLeast } else { Side::AtMost };
            let d = decide_with(y, u, few, 0.5, side, p).unwrap();
            let pc = d.probability_of_conformity;
            prop_assert!((0.0..=1.0).contains(&pc));
            prop_assume!((pc - p).abs() > 1e-6 && (1.0 - pc - p).abs() > 1e-6);
            let expected = if pc >= p {
                Verdict::WithinLimit
            } else if 1.0 - pc >= p {
                Verdict::OutsideLimit
            } else {
                Verdict::TooCloseToCall
            };
            prop_assert_eq!(d.verdict, expected);
        }

        #[test]
        fn a_larger_uncertainty_never_makes_a_call_surer(
            y in -5.0..5.0f64, u in 1e-3..3.0f64, more in 1.0..4.0f64,
        ) {
            let sure = |u| decide(y, u, 0.0, Side::AtMost).unwrap().verdict;
            if sure(u) == Verdict::TooCloseToCall {
                prop_assert_eq!(sure(more * u), Verdict::TooCloseToCall);
            } else {
                prop_assert!(sure(more * u) == sure(u) || sure(more * u) == Verdict::TooCloseToCall);
            }
        }
    }

    #[test]
    fn the_default_guard_band_is_1_645_u() {
        // ISO 14253-1:2017 (from memory).
        let d = decide(10.0, 1.0, 9.0, Side::AtLeast).unwrap();
        assert!((d.guard_band - 1.644_854).abs() < 1e-6);
        assert!((d.acceptance_limit - 10.644_854).abs() < 1e-6);
        assert!((d.rejection_limit - 7.355_146).abs() < 1e-6);
    }

    #[test]
    fn two_repeats_call_less_than_many() {
        let with = |nu| {
            decide_with(22.0, 0.5, nu, 20.5, Side::AtLeast, 0.95)
                .unwrap()
                .verdict
        };
        assert_eq!(with(None), Verdict::WithinLimit);
        assert_eq!(with(Some(1.0)), Verdict::TooCloseToCall);
    }

    #[test]
    fn an_exact_value_on_the_limit_conforms() {
        let d = decide(20.0, 0.0, 20.0, Side::AtLeast).unwrap();
        assert_eq!(
            (d.verdict, d.probability_of_conformity),
            (Verdict::WithinLimit, 1.0)
        );
        let d = decide(19.999, 0.0, 20.0, Side::AtLeast).unwrap();
        assert_eq!(
            (d.verdict, d.probability_of_conformity),
            (Verdict::OutsideLimit, 0.0)
        );
        assert_eq!(conformity_between(2.0, 0.0, None, 1.0, 2.0), Ok(1.0));
    }

    #[test]
    fn nonsense_is_refused_by_name() {
        let e = decide(f64::NAN, 0.1, 0.0, Side::AtMost).unwrap_err();
        assert_eq!(e, MetrologyError::NotFinite { field: "measured" });
        let e = decide(1.0, -0.1, 0.0, Side::AtMost).unwrap_err();
        assert!(matches!(
            e,
            MetrologyError::OutOfRange {
                field: "uncertainty",
                ..
            }
        ));
        let e = conformity_between(1.0, 0.1, None, 2.0, 1.0).unwrap_err();
        assert!(matches!(
            e,
            MetrologyError::OutOfRange {
                field: "upper_limit",
                ..
            }
        ));
    }
}
