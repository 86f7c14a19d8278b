//! What a rule of acceptance costs over many parts: the global consumer's and producer's risks of
//! JCGM 106:2012, 9.5. (The specific risks, of one part already measured, are one less the
//! probability of conformity where it is accepted, and that probability where it is rejected.)

use crate::distribution::probability_below;
use crate::error::{MetrologyError, finite, within};

/// A pair of limits; `None` where there is none.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Limits {
    /// Lowest.
    pub lower: Option<f64>,
    /// Highest.
    pub upper: Option<f64>,
}

/// Standard uncertainties beyond a limit after which no measurement is accepted by chance.
const REACH: f64 = 12.0;
/// Panels of the quadrature on each side.
const PANELS: usize = 200;

/// Probability that a part drawn from `process` (its probability density) lies outside
/// `tolerance` and is accepted all the same, because its measured value, normal with standard
/// uncertainty `u` > 0, falls within `acceptance`. Gauss-Legendre quadrature.
///
/// Correct while the acceptance limits lie less than a few u outside the tolerance.
///
/// # Errors
/// [`MetrologyError`] naming `uncertainty`, `tolerance`, `acceptance` or `process_density`.
pub fn consumer_risk(
    process: impl Fn(f64) -> f64,
    u: f64,
    tolerance: Limits,
    acceptance: Limits,
) -> Result<f64, MetrologyError> {
    let rule = Rule::checked(&process, u, tolerance, acceptance)?;
    let accepted = |x: f64| rule.accepted(x);
    let mut risk = 0.0;
    if let Some(limit) = tolerance.upper {
        risk += integral(limit, limit + REACH * u, &accepted)?;
    }
    if let Some(limit) = tolerance.lower {
        risk += integral(limit - REACH * u, limit, &accepted)?;
    }
    Ok(risk)
}

/// Probability that a part drawn from `process` lies within `tolerance` and is rejected all the
/// same, because its measured value falls outside `acceptance`: the price of a guard band, and of
/// a poor gauge. Arguments as in [`consumer_risk`].
///
/// Correct while the acceptance limits lie less than a few u outside the tolerance, and while the
/// process has no peak much narrower than u.
///
/// # Errors
/// As [`consumer_risk`].
pub fn producer_risk(
    process: impl Fn(f64) -> f64,
    u: f64,
    tolerance: Limits,
    acceptance: Limits,
) -> Result<f64, MetrologyError> {
    let rule = Rule::checked(&process, u, tolerance, acceptance)?;
    let rejected = |x: f64| rule.rejected(x);
    // Rejection reaches so far inward from each acceptance limit.
    let reach = REACH * u;
    let from_above = acceptance.upper.map(|a| a - reach);
    let from_below = acceptance.lower.map(|a| a + reach);
    let inside = |x: f64| {
        let low = tolerance.lower.unwrap_or(f64::NEG_INFINITY);
        let high = tolerance.upper.unwrap_or(f64::INFINITY);
        x.clamp(low, high)
    };
    // And outward as far as there are good parts.
    let highest = |above: f64| tolerance.upper.unwrap_or(above + 2.0 * reach);
    let lowest = |below: f64| tolerance.lower.unwrap_or(below - 2.0 * reach);
    let zone = |low: f64, high: f64| -> Result<f64, MetrologyError> {
        integral(inside(low), inside(high), &rejected)
    };
    match (from_below, from_above) {
        // The two zones overlap: one integral over both.
        (Some(below), Some(above)) if below >= above => zone(lowest(below), highest(above)),
        _ => {
            let upper = from_above.map_or(Ok(0.0), |above| zone(above, highest(above)))?;
            let lower = from_below.map_or(Ok(0.0), |below| zone(lowest(below), below))?;
            Ok(upper + lower)
        }
    }
}

/// A process met by a rule of acceptance, all checked.
struct Rule<'a, P> {
    process: &'a P,
    u: f64,
    low: f64,
    high: f64,
}

impl<'a, P: Fn(f64) -> f64> Rule<'a, P> {
    fn checked(
        process: &'a P,
        u: f64,
        tolerance: Limits,
        acceptance: Limits,
    ) -> Result<Self, MetrologyError> {
        let u = within("uncertainty", u, f64::MIN_POSITIVE, crate::error::HUGE)?;
        for limit in [tolerance.lower, tolerance.upper].into_iter().flatten() {
            finite("tolerance", limit)?;
        }
        if let (Some(lower), Some(upper)) = (tolerance.lower, tolerance.upper) {
            within("tolerance", upper, lower, crate::error::HUGE)?;
        }
        let bound =
            |limit: Option<f64>, none: f64| limit.map_or(Ok(none), |a| finite("acceptance", a));
        Ok(Self {
            process,
            u,
            low: bound(acceptance.lower, f64::NEG_INFINITY)?,
            high: bound(acceptance.upper, f64::INFINITY)?,
        })
    }

    fn accepted(&self, x: f64) -> Result<f64, MetrologyError> {
        let density = finite("process_density", (self.process)(x))?;
        let below = probability_below((self.high - x) / self.u, None)?;
        Ok(density * (below - probability_below((self.low - x) / self.u, None)?))
    }

    fn rejected(&self, x: f64) -> Result<f64, MetrologyError> {
        let density = finite("process_density", (self.process)(x))?;
        // Each tail from its own side, so that a small one keeps its digits.
        let above = probability_below((x - self.high) / self.u, None)?;
        Ok(density * (above + probability_below((self.low - x) / self.u, None)?))
    }
}

/// Three-point Gauss-Legendre on equal panels.
fn integral(
    a: f64,
    b: f64,
    f: &impl Fn(f64) -> Result<f64, MetrologyError>,
) -> Result<f64, MetrologyError> {
    let h = (b - a) / PANELS as f64;
    let node = 0.6f64.sqrt();
    let mut sum = 0.0;
    for i in 0..PANELS {
        let mid = a + (i as f64 + 0.5) * h;
        let ends = f(mid - 0.5 * h * node)? + f(mid + 0.5 * h * node)?;
        sum += h / 18.0 * (5.0 * ends + 8.0 * f(mid)?);
    }
    Ok(sum)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::distribution::Curve;
    use proptest::prelude::*;

    fn between(lower: f64, upper: f64) -> Limits {
        Limits {
            lower: Some(lower),
            upper: Some(upper),
        }
    }

    proptest! {
        /// Accepted and bad, rejected and good, accepted and good, rejected and bad: all parts.
        /// What is accepted in all is normal with the spread of process and gauge together.
        #[test]
        fn the_four_outcomes_are_all_that_can_happen(
            spread in 0.3..2.0f64, u in 0.05..0.5f64, limit in 0.5..3.0f64, guard in -0.3..0.4f64,
        ) {
            let normal = Curve::new(None).unwrap();
            let process = |x: f64| normal.density(x / spread) / spread;
            let tolerance = between(-limit, limit);
            let acceptance = between(guard - limit, limit - guard);
            let consumer = consumer_risk(process, u, tolerance, acceptance).unwrap();
            let producer = producer_risk(process, u, tolerance, acceptance).unwrap();
            let good = 1.0 - 2.0 * normal.below(-limit / spread);
            let accepted = 1.0 - 2.0 * normal.below((guard - limit) / spread.hypot(u));
            // accepted = good - rejected though good + accepted though bad.
            prop_assert!((good - producer + consumer - accepted).abs() < 1e-7,
                "{good} {producer} {consumer} {accepted}");
        }
    }

    #[test]
    fn a_guard_band_moves_risk_from_the_consumer_to_the_producer() {
        let normal = Curve::new(None).unwrap();
        let risks = |guard: f64| {
            let tolerance = Limits {
                lower: None,
                upper: Some(1.5),
            };
            let acceptance = Limits {
                lower: None,
                upper: Some(1.5 - guard),
            };
            let process = |x: f64| normal.density(x);
            (
                consumer_risk(process, 0.3, tolerance, acceptance).unwrap(),
                producer_risk(process, 0.3, tolerance, acceptance).unwrap(),
            )
        };
        let (plain, guarded) = (risks(0.0), risks(0.4));
        assert!(
            guarded.0 < 0.3 * plain.0 && guarded.1 > 2.0 * plain.1,
            "{plain:?} {guarded:?}"
        );
    }
}
