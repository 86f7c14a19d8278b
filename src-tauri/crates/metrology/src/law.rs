//! How an input is spread: the distributions of JCGM 101:2008, 6.4, each drawn by its inverse.
//!
//! Every law is drawn as its quantile of one number, so that correlated inputs of any law can be
//! made (the correlation is that of the normal numbers behind them) and one input can be frozen
//! while the others move.

use statrs::distribution::{ContinuousCDF, Gamma, Normal};

use crate::distribution::Curve;
use crate::error::{HUGE, MetrologyError, finite, not_negative, within};

/// How a quantity is spread, all parameters in its own unit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Law {
    /// Known exactly.
    Exactly(f64),
    /// Normal (6.4.7): a best estimate with its standard uncertainty.
    Normal {
        /// The estimate.
        mean: f64,
        /// Standard uncertainty, 0 or more.
        deviation: f64,
    },
    /// Scaled and shifted t (6.4.9): the mean of a few readings. Note that its standard deviation
    /// is `scale sqrt(nu / (nu - 2))`, and infinite with two degrees of freedom or less.
    Student {
        /// The mean.
        mean: f64,
        /// s / sqrt n, 0 or more.
        scale: f64,
        /// n - 1, 1 or more.
        degrees_of_freedom: f64,
    },
    /// Anywhere between two limits, equally likely (6.4.2).
    Rectangular {
        /// Lower limit.
        low: f64,
        /// Upper limit.
        high: f64,
    },
    /// Sum of two equal rectangular quantities, most likely in the middle (6.4.5).
    Triangular {
        /// Lower limit.
        low: f64,
        /// Upper limit.
        high: f64,
    },
    /// Flat in the middle, falling straight to both limits (6.4.4).
    Trapezoidal {
        /// Lower limit.
        low: f64,
        /// Upper limit.
        high: f64,
        /// Width of the top over that of the base, 0 (triangular) to 1 (rectangular).
        top: f64,
    },
    /// Cycling between two limits (6.4.6).
    UShaped {
        /// Lower limit.
        low: f64,
        /// Upper limit.
        high: f64,
    },
    /// Anywhere between two positive limits, each factor equally likely: for a quantity of which
    /// only the order of magnitude is known.
    LogUniform {
        /// Lower limit, above 0.
        low: f64,
        /// Upper limit.
        high: f64,
    },
    /// Zero or more, of which only the mean is known (6.4.10).
    Exponential {
        /// The mean, above 0.
        mean: f64,
    },
    /// Gamma (6.4.11): a rate after events were counted; also a skewed process.
    Gamma {
        /// Shape, 0.1 to 1e6.
        shape: f64,
        /// Rate, above 0; the mean is shape / rate.
        rate: f64,
    },
}

/// A law made ready to be drawn often.
#[derive(Debug, Clone)]
pub(crate) enum Sampler {
    Exactly(f64),
    Normal {
        mean: f64,
        deviation: f64,
    },
    Student {
        mean: f64,
        scale: f64,
        table: Box<StudentTable>,
    },
    Trapezoidal {
        low: f64,
        width: f64,
        top: f64,
    },
    UShaped {
        middle: f64,
        half: f64,
    },
    LogUniform {
        low: f64,
        log_width: f64,
    },
    Exponential {
        mean: f64,
    },
    Gamma(Gamma),
}

impl Law {
    /// Checks the parameters.
    ///
    /// # Errors
    /// [`MetrologyError`] naming `mean`, `uncertainty`, `degrees_of_freedom`, `lower_limit`,
    /// `upper_limit` (which must not be below the lower), `top_ratio`, `shape` or `rate`.
    pub(crate) fn sampler(self) -> Result<Sampler, MetrologyError> {
        let limits = |low: f64, high: f64| {
            let low = finite("lower_limit", low)?;
            let high = within("upper_limit", high, low, HUGE)?;
            Ok::<_, MetrologyError>((low, high - low))
        };
        Ok(match self {
            Self::Exactly(value) => Sampler::Exactly(finite("mean", value)?),
            Self::Normal { mean, deviation } => Sampler::Normal {
                mean: finite("mean", mean)?,
                deviation: not_negative("uncertainty", deviation)?,
            },
            Self::Student {
                mean,
                scale,
                degrees_of_freedom,
            } => Sampler::Student {
                mean: finite("mean", mean)?,
                scale: not_negative("uncertainty", scale)?,
                table: Box::new(StudentTable::new(within(
                    "degrees_of_freedom",
                    degrees_of_freedom,
                    1.0,
                    HUGE,
                )?)?),
            },
            Self::Rectangular { low, high } => {
                let (low, width) = limits(low, high)?;
                Sampler::Trapezoidal {
                    low,
                    width,
                    top: 1.0,
                }
            }
            Self::Triangular { low, high } => {
                let (low, width) = limits(low, high)?;
                Sampler::Trapezoidal {
                    low,
                    width,
                    top: 0.0,
                }
            }
            Self::Trapezoidal { low, high, top } => {
                let (low, width) = limits(low, high)?;
                Sampler::Trapezoidal {
                    low,
                    width,
                    top: within("top_ratio", top, 0.0, 1.0)?,
                }
            }
            Self::UShaped { low, high } => {
                let (low, width) = limits(low, high)?;
                Sampler::UShaped {
                    middle: low + 0.5 * width,
                    half: 0.5 * width,
                }
            }
            Self::LogUniform { low, high } => {
                let low = within("lower_limit", low, f64::MIN_POSITIVE, HUGE)?;
                let high = within("upper_limit", high, low, HUGE)?;
                Sampler::LogUniform {
                    low,
                    log_width: high.ln() - low.ln(),
                }
            }
            Self::Exponential { mean } => Sampler::Exponential {
                mean: within("mean", mean, f64::MIN_POSITIVE, HUGE)?,
            },
            Self::Gamma { shape, rate } => {
                let shape = within("shape", shape, 0.1, 1.0e6)?;
                let rate = within("rate", rate, f64::MIN_POSITIVE, HUGE)?;
                Sampler::Gamma(
                    Gamma::new(shape, rate)
                        .map_err(|_| MetrologyError::NotFinite { field: "rate" })?,
                )
            }
        })
    }
}

impl Sampler {
    /// The quantile of `u`, between 0 and 1.
    #[inline]
    pub fn of_uniform(&self, u: f64) -> f64 {
        match self {
            Self::Exactly(value) => *value,
            Self::Normal { .. } | Self::Student { .. } => self.of_normal(normal_quantile(u)),
            Self::Trapezoidal { low, width, top } => low + width * trapezoid_quantile(*top, u),
            Self::UShaped { middle, half } => middle - half * (std::f64::consts::PI * u).cos(),
            Self::LogUniform { low, log_width } => low * (log_width * u).exp(),
            Self::Exponential { mean } => -mean * (-u).ln_1p(),
            Self::Gamma(gamma) => gamma.inverse_cdf(u),
        }
    }

    /// The quantile of the probability below `z` of a unit normal quantity.
    #[inline]
    pub fn of_normal(&self, z: f64) -> f64 {
        match self {
            Self::Normal { mean, deviation } => mean + deviation * z,
            Self::Student { mean, scale, table } => mean + scale * table.at(z),
            _ => self.of_uniform(Normal::standard().cdf(z)),
        }
    }
}

/// The unit normal quantity below which lies the probability `u`.
#[inline]
pub(crate) fn normal_quantile(u: f64) -> f64 {
    Normal::standard().inverse_cdf(u)
}

/// Quantile on 0 to 1 of a symmetric trapezoid whose top is `top` of its base.
fn trapezoid_quantile(top: f64, u: f64) -> f64 {
    // Each flank is (1 - top) / 2 wide and holds (1 - top) / (2 (1 + top)) of the probability.
    let share = 0.5 * (1.0 - top) / (1.0 + top);
    let flank = |u: f64| (0.5 * (1.0 - top * top) * u).sqrt();
    if u < share {
        flank(u)
    } else if u > 1.0 - share {
        1.0 - flank(1.0 - u)
    } else {
        0.5 * (1.0 - top) + 0.5 * (1.0 + top) * (u - share)
    }
}

/// Student's t as a function of the normal quantity of the same probability, from a table: asinh
/// of it is smooth even where t is wild (one degree of freedom), and a cubic through values and
/// slopes is good to 1e-6 of t.
#[derive(Debug, Clone)]
pub(crate) struct StudentTable {
    /// asinh t and its slope at z = 0, STEP, 2 STEP, ...
    nodes: Vec<(f64, f64)>,
}

const STEP: f64 = 1.0 / 16.0;
/// The most extreme of 2^54 draws is 8.3.
const REACH: f64 = 8.5;

impl StudentTable {
    fn new(nu: f64) -> Result<Self, MetrologyError> {
        let (student, normal) = (Curve::new(Some(nu))?, Curve::new(None)?);
        let count = (REACH / STEP) as usize + 2;
        let mut nodes = Vec::with_capacity(count);
        for i in 0..count {
            let z = i as f64 * STEP;
            // The upper tail as a lower one, so that small probabilities keep their digits.
            let tail = normal.below(-z);
            let mut t = if i == 0 { 0.0 } else { -student.inverse(tail) };
            for _ in 0..3 {
                let density = student.density(t);
                if density > 0.0 && t > 0.0 {
                    // Newton on the logarithm of the tail.
                    let now = student.below(-t);
                    t += (now / tail).ln() * now / density;
                }
            }
            let slope = normal.density(z) / student.density(t);
            let node = (t.asinh(), slope / t.hypot(1.0));
            finite("degrees_of_freedom", node.0)?;
            finite("degrees_of_freedom", node.1)?;
            nodes.push(node);
        }
        Ok(Self { nodes })
    }

    #[inline]
    fn at(&self, z: f64) -> f64 {
        let place = (z.abs() / STEP).min((self.nodes.len() - 2) as f64);
        let i = place as usize;
        let t = place - i as f64;
        let ((a, slope_a), (b, slope_b)) = (self.nodes[i], self.nodes[i + 1]);
        let (da, db) = (slope_a * STEP, slope_b * STEP);
        let s = 1.0 - t;
        let value = s * s * ((1.0 + 2.0 * t) * a + t * da) + t * t * ((1.0 + 2.0 * s) * b - s * db);
        value.sinh().copysign(z)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use statrs::distribution::StudentsT;

    #[test]
    fn the_table_of_t_is_the_library_s_t() {
        for nu in [1.0, 2.0, 4.0, 18.0, 1000.0] {
            let table = StudentTable::new(nu).unwrap();
            let exact = StudentsT::new(0.0, 1.0, nu).unwrap();
            for z in [-5.3, -2.01, -0.4, 0.013, 0.7, 1.96, 3.3, 4.9] {
                let t = table.at(z);
                // The same tail, seen from the side where it is small.
                let (got, want) = (exact.cdf(-t.abs()), Normal::standard().cdf(-f64::abs(z)));
                assert!(
                    (got / want - 1.0).abs() < 1e-5,
                    "nu {nu}, z {z}: {got} {want}"
                );
                assert_eq!(t.signum(), z.signum());
            }
        }
    }

    #[test]
    fn a_table_of_t_at_975_per_mille() {
        // JCGM 100:2008, table G.2: 12.71, 4.30, 2.78, 2.23.
        for (nu, t) in [(1.0, 12.706), (2.0, 4.3027), (4.0, 2.7764), (10.0, 2.2281)] {
            let table = StudentTable::new(nu).unwrap();
            let got = table.at(normal_quantile(0.975));
            assert!((got / t - 1.0).abs() < 1e-4, "{nu}: {got}");
        }
    }

    /// Mean and standard deviation over an even grid of probabilities.
    fn moments(law: Law) -> (f64, f64) {
        let sampler = law.sampler().unwrap();
        let n = 200_000;
        let values: Vec<f64> = (0..n)
            .map(|i| sampler.of_uniform((f64::from(i) + 0.5) / f64::from(n)))
            .collect();
        let mean = values.iter().sum::<f64>() / f64::from(n);
        let square = values.iter().map(|v| (v - mean).powi(2)).sum::<f64>() / f64::from(n);
        (mean, square.sqrt())
    }

    #[test]
    fn means_and_deviations_are_those_of_jcgm_101_clause_6_4() {
        let (low, high) = (2.0, 6.0);
        let half: f64 = 2.0;
        let cases = [
            (Law::Rectangular { low, high }, 4.0, half / 3f64.sqrt()),
            (Law::Triangular { low, high }, 4.0, half / 6f64.sqrt()),
            (Law::UShaped { low, high }, 4.0, half / 2f64.sqrt()),
            // V = (b - a)^2 (1 + beta^2) / 24 (6.4.4.3).
            (
                Law::Trapezoidal {
                    low,
                    high,
                    top: 0.4,
                },
                4.0,
                (16.0f64 * 1.16 / 24.0).sqrt(),
            ),
            (
                Law::Normal {
                    mean: 4.0,
                    deviation: 0.5,
                },
                4.0,
                0.5,
            ),
            (Law::Exponential { mean: 3.0 }, 3.0, 3.0),
            (
                Law::Gamma {
                    shape: 4.0,
                    rate: 2.0,
                },
                2.0,
                1.0,
            ),
            (
                Law::Student {
                    mean: 4.0,
                    scale: 1.0,
                    degrees_of_freedom: 10.0,
                },
                4.0,
                (10.0f64 / 8.0).sqrt(),
            ),
            (
                Law::LogUniform {
                    low: 1.0,
                    high: 1.0f64.exp(),
                },
                1.0f64.exp() - 1.0,
                {
                    let e = 1.0f64.exp();
                    ((e * e - 1.0) / 2.0 - (e - 1.0).powi(2)).sqrt()
                },
            ),
        ];
        for (law, mean, deviation) in cases {
            let (m, s) = moments(law);
            assert!(
                (m - mean).abs() < 1e-3 * deviation.max(1.0),
                "{law:?}: mean {m}"
            );
            assert!(
                (s / deviation - 1.0).abs() < 2e-3,
                "{law:?}: deviation {s} {deviation}"
            );
        }
    }

    #[test]
    fn nonsense_is_refused_by_name() {
        let bad = [
            (Law::Exactly(f64::NAN), "mean"),
            (
                Law::Normal {
                    mean: 0.0,
                    deviation: -1.0,
                },
                "uncertainty",
            ),
            (
                Law::Rectangular {
                    low: 1.0,
                    high: 0.0,
                },
                "upper_limit",
            ),
            (
                Law::LogUniform {
                    low: 0.0,
                    high: 1.0,
                },
                "lower_limit",
            ),
            (
                Law::Trapezoidal {
                    low: 0.0,
                    high: 1.0,
                    top: 2.0,
                },
                "top_ratio",
            ),
            (
                Law::Gamma {
                    shape: 0.0,
                    rate: 1.0,
                },
                "shape",
            ),
        ];
        for (law, field) in bad {
            let e = law.sampler().unwrap_err();
            assert!(e.to_string().starts_with(field), "{e}");
        }
    }
}
