//! What a rule of acceptance costs over many parts: the global consumer's risk of JCGM 106:2012,
//! 9.5.

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
    let u = within("uncertainty", u, f64::MIN_POSITIVE, crate::error::HUGE)?;
    for limit in [tolerance.lower, tolerance.upper].into_iter().flatten() {
        finite("tolerance", limit)?;
    }
    let (low, high) = (
        acceptance
            .lower
            .map_or(Ok(f64::NEG_INFINITY), |a| finite("acceptance", a))?,
        acceptance
            .upper
            .map_or(Ok(f64::INFINITY), |a| finite("acceptance", a))?,
    );
    let accepted = |x: f64| -> Result<f64, MetrologyError> {
        let density = finite("process_density", process(x))?;
        let below = probability_below((high - x) / u, None)?;
        Ok(density * (below - probability_below((low - x) / u, None)?))
    };
    let mut risk = 0.0;
    if let Some(limit) = tolerance.upper {
        risk += integral(limit, limit + REACH * u, &accepted)?;
    }
    if let Some(limit) = tolerance.lower {
        risk += integral(limit - REACH * u, limit, &accepted)?;
    }
    Ok(risk)
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
