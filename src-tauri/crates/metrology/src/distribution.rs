//! The three curves that uncertainty needs: bounded (type B), normal, Student's t.

use statrs::distribution::{ContinuousCDF, Normal, StudentsT};

use crate::error::{MetrologyError, degrees, not_negative, within};

/// Degrees of freedom above which Student's t is taken as normal; at 1e6 they differ by 1e-6.
const NORMAL_FROM: f64 = 1.0e6;

/// How a quantity known to lie within +/- a is spread there (JCGM 100:2008, 4.3.7 to 4.3.9).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Shape {
    /// Anywhere, equally likely: a / sqrt 3. What to take when only the limit is known.
    Rectangular,
    /// Near the middle: a / sqrt 6.
    Triangular,
    /// Cycling between the ends: a / sqrt 2.
    UShaped,
}

impl Shape {
    /// Standard uncertainty of a half-width `a` >= 0.
    ///
    /// # Errors
    /// [`MetrologyError`] naming `half_width`.
    pub fn standard_uncertainty(self, a: f64) -> Result<f64, MetrologyError> {
        let divisor: f64 = match self {
            Self::Rectangular => 3.0,
            Self::Triangular => 6.0,
            Self::UShaped => 2.0,
        };
        Ok(not_negative("half_width", a)? / divisor.sqrt())
    }
}

/// Coverage factor: the half-width, in standard uncertainties, of the central interval that holds
/// `confidence` (0.01 to 0.9999) with `nu` degrees of freedom (JCGM 100:2008, table G.2).
///
/// Degrees of freedom are used as they are, not cut to a whole number as the GUM's printed
/// examples do.
///
/// # Errors
/// [`MetrologyError`] naming `confidence` or `degrees_of_freedom`.
pub fn coverage_factor(confidence: f64, nu: Option<f64>) -> Result<f64, MetrologyError> {
    let p = within("confidence", confidence, 0.01, 0.9999)?;
    quantile(0.5 + p / 2.0, degrees(nu)?)
}

/// Factor of a one-sided statement: the value below which a unit quantity lies with probability
/// `p` (0.0001 to 0.9999). 1.645 for 0.95 and infinite degrees of freedom.
///
/// # Errors
/// [`MetrologyError`] naming `probability` or `degrees_of_freedom`.
pub fn one_sided_factor(p: f64, nu: Option<f64>) -> Result<f64, MetrologyError> {
    quantile(within("probability", p, 1.0e-4, 0.9999)?, degrees(nu)?)
}

fn quantile(p: f64, nu: Option<f64>) -> Result<f64, MetrologyError> {
    // The library's inverse is a start; two Newton steps on its distribution function finish it.
    let curve = Curve::new(nu)?;
    let mut x = curve.inverse(p);
    for _ in 0..2 {
        let slope = curve.density(x);
        if slope > 0.0 {
            x -= (curve.below(x) - p) / slope;
        }
    }
    crate::error::finite("coverage_factor", x)
}

/// Probability that a unit quantity with `nu` degrees of freedom lies below `x`; `x` may be
/// infinite.
pub(crate) fn probability_below(x: f64, nu: Option<f64>) -> Result<f64, MetrologyError> {
    Ok(Curve::new(nu)?.below(x))
}

pub(crate) enum Curve {
    Normal(Normal),
    Student(StudentsT),
}

impl Curve {
    pub fn new(nu: Option<f64>) -> Result<Self, MetrologyError> {
        let bad = MetrologyError::NotFinite {
            field: "degrees_of_freedom",
        };
        match nu {
            Some(nu) if nu < NORMAL_FROM => StudentsT::new(0.0, 1.0, nu)
                .map(Self::Student)
                .map_err(|_| bad),
            _ => Ok(Self::Normal(Normal::standard())),
        }
    }

    pub fn below(&self, x: f64) -> f64 {
        match self {
            Self::Normal(c) => c.cdf(x),
            Self::Student(c) => c.cdf(x),
        }
    }

    pub fn inverse(&self, p: f64) -> f64 {
        match self {
            Self::Normal(c) => c.inverse_cdf(p),
            Self::Student(c) => c.inverse_cdf(p),
        }
    }

    pub fn density(&self, x: f64) -> f64 {
        use statrs::distribution::Continuous;
        match self {
            Self::Normal(c) => c.pdf(x),
            Self::Student(c) => c.pdf(x),
        }
    }
}
