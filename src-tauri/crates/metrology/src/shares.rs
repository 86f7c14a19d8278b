//! How much of the result's variance each input brings: Sobol's indices by Monte Carlo.
//!
//! For inputs that act nonlinearly or together, where the first-order shares of
//! [`mod@crate::propagate`] mislead. The first-order index is the share of the variance that would
//! go if the input were known ("the gauge is 70 % of this"); the total index adds all that the
//! input does together with others. For an additive calculation the two agree and sum to 1.
//!
//! Chosen over freezing one input at its estimate (which depends on where the others are held) and
//! over rank correlation (which sees only what rises or falls steadily): Sobol's indices hold for
//! any law and any calculation, at the price of `n + 2` calculations a trial and of independent
//! inputs. Both by Jansen's estimators (M. J. W. Jansen, Comput. Phys. Commun. 117 (1999) 35;
//! A. Saltelli et al., Comput. Phys. Commun. 181 (2010) 259, table 2 f; from memory).

use std::num::NonZeroUsize;

use crate::chunks::in_chunks;
use crate::error::{HUGE, MetrologyError, within};
use crate::monte_carlo::{Draw, UncertainInput};
use crate::random::Stream;

/// Trials in a chunk.
const CHUNK: usize = 256;
/// Streams of these trials are apart from those of [`crate::monte_carlo()`] with the same seed.
const FIRST_STREAM: u64 = 1 << 40;

/// What one input does to the spread of the result.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VarianceShare {
    /// The input.
    pub name: &'static str,
    /// Its place in the list.
    pub place: usize,
    /// First-order index: the share of the variance that goes when the input is known. Sampling
    /// may take it a little below 0 or above 1.
    pub alone: f64,
    /// Total index: the share that stays when all other inputs are known.
    pub total: f64,
    /// Standard error of `alone`, for want of more trials.
    pub alone_error: f64,
    /// Standard error of `total`.
    pub total_error: f64,
}

/// Shares of all inputs.
#[derive(Debug, Clone, PartialEq)]
pub struct VarianceShares<E> {
    /// Largest total first.
    pub shares: Vec<VarianceShare>,
    /// Standard deviation of the result in this run.
    pub deviation: f64,
    /// Trials made, each with `n + 2` calculations.
    pub trials: usize,
    /// Trials left out because one of their calculations failed.
    pub failed: usize,
    /// The first error, in the order of the trials.
    pub first_error: Option<E>,
}

/// Ranks the inputs by what they bring to the result's variance, with `trials` (100 to a million)
/// on `threads` (`None` for all cores; without effect on the answer). Inputs must be independent.
///
/// # Errors
/// [`MetrologyError`] naming `trials` or what is wrong with a law; [`MetrologyError::TooFew`]
/// naming `successful_trials` when fewer than 100, or fewer than half, succeeded.
pub fn variance_shares<E, F>(
    inputs: &[UncertainInput],
    seed: u64,
    trials: usize,
    threads: Option<NonZeroUsize>,
    model: impl Fn() -> F + Sync,
) -> Result<VarianceShares<E>, MetrologyError>
where
    E: Send,
    F: FnMut(&[f64]) -> Result<f64, E>,
{
    within("trials", trials as f64, 100.0, 1.0e6)?;
    let draw = Draw::new(inputs, &[])?;
    let chunks = in_chunks(0, trials.div_ceil(CHUNK), threads, || {
        let mut calculate = model();
        let (mut a, mut b) = (draw.point(), draw.point());
        let draw = &draw;
        move |chunk| {
            let mut stream = Stream::new(seed, FIRST_STREAM + chunk as u64);
            let mut out = Rows {
                values: Vec::new(),
                failed: 0,
                first: None,
            };
            for _ in 0..CHUNK.min(trials - chunk * CHUNK) {
                draw.next(&mut stream, &mut a);
                draw.next(&mut stream, &mut b);
                match row(&mut calculate, &mut a, &b) {
                    Ok(values) => out.values.push(values),
                    Err(e) => {
                        out.failed += 1;
                        out.first = out.first.or(e);
                    }
                }
            }
            out
        }
    });
    let mut all = Rows {
        values: Vec::new(),
        failed: 0,
        first: None,
    };
    for chunk in chunks {
        all.values.extend(chunk.values);
        all.failed += chunk.failed;
        all.first = all.first.or(chunk.first);
    }
    let least = 100.max(trials / 2);
    if all.values.len() < least {
        return Err(MetrologyError::TooFew {
            field: "successful_trials",
            count: all.values.len(),
            least,
        });
    }
    Ok(all.summed_up(inputs, trials))
}

/// The calculation at A, at B, and at A with one input after the other taken from B.
fn row<E>(
    calculate: &mut impl FnMut(&[f64]) -> Result<f64, E>,
    a: &mut [f64],
    b: &[f64],
) -> Result<Vec<f64>, Option<E>> {
    let mut at = |point: &[f64]| match calculate(point) {
        Ok(y) if y.abs() <= HUGE => Ok(y),
        Ok(_) => Err(None),
        Err(e) => Err(Some(e)),
    };
    let mut values = Vec::with_capacity(a.len() + 2);
    values.push(at(a)?);
    values.push(at(b)?);
    for i in 0..a.len() {
        let own = std::mem::replace(&mut a[i], b[i]);
        let value = at(a);
        a[i] = own;
        values.push(value?);
    }
    Ok(values)
}

struct Rows<E> {
    values: Vec<Vec<f64>>,
    failed: usize,
    first: Option<E>,
}

impl<E> Rows<E> {
    fn summed_up(self, inputs: &[UncertainInput], trials: usize) -> VarianceShares<E> {
        let n = self.values.len() as f64;
        let both = || self.values.iter().flat_map(|row| &row[..2]);
        let mean = both().sum::<f64>() / (2.0 * n);
        let variance = both().map(|y| (y - mean).powi(2)).sum::<f64>() / (2.0 * n - 1.0);
        // Mean and standard error of half the squared differences, in units of the variance.
        let half_square = |i: usize, against: usize| {
            if variance == 0.0 {
                return (0.0, 0.0);
            }
            let each = || {
                let square =
                    move |row: &Vec<f64>| 0.5 * (row[i + 2] - row[against]).powi(2) / variance;
                self.values.iter().map(square)
            };
            let mean = each().sum::<f64>() / n;
            let spread = each().map(|d| (d - mean).powi(2)).sum::<f64>() / (n - 1.0);
            (mean, (spread / n).sqrt())
        };
        let mut shares: Vec<VarianceShare> = inputs
            .iter()
            .enumerate()
            .map(|(place, input)| {
                let (total, total_error) = half_square(place, 0);
                let (others, alone_error) = half_square(place, 1);
                let alone = if variance == 0.0 { 0.0 } else { 1.0 - others };
                VarianceShare {
                    name: input.name,
                    place,
                    alone,
                    total,
                    alone_error,
                    total_error,
                }
            })
            .collect();
        shares.sort_by(|a, b| b.total.total_cmp(&a.total));
        VarianceShares {
            shares,
            deviation: variance.sqrt(),
            trials,
            failed: self.failed,
            first_error: self.first,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::law::Law;
    use std::f64::consts::PI;

    fn input(name: &'static str, law: Law) -> UncertainInput {
        UncertainInput { name, law }
    }

    #[test]
    fn shares_of_a_sum_are_those_of_the_variances() {
        // First order is exact here: 9, 4 and 1 of 14 (JCGM 100:2008, eq. 10).
        let n = |name, deviation| {
            input(
                name,
                Law::Normal {
                    mean: 0.0,
                    deviation,
                },
            )
        };
        let inputs = [n("little", 1.0), n("gauge", 3.0), n("drift", 2.0)];
        let r = variance_shares(&inputs, 4, 20_000, None, || {
            |x: &[f64]| Ok::<_, ()>(x[0] + x[1] + x[2])
        })
        .unwrap();
        let names: Vec<_> = r.shares.iter().map(|s| s.name).collect();
        assert_eq!(names, ["gauge", "drift", "little"]);
        for (share, exact) in r.shares.iter().zip([9.0 / 14.0, 4.0 / 14.0, 1.0 / 14.0]) {
            assert!(
                (share.total - exact).abs() < 5.0 * share.total_error,
                "{share:?}"
            );
            assert!(
                (share.alone - exact).abs() < 5.0 * share.alone_error,
                "{share:?}"
            );
            assert!(share.total_error < 0.01);
        }
    }

    #[test]
    fn ishigami_s_function() {
        // sin x + 7 sin^2 y + 0.1 z^4 sin x on +/- pi, exact indices in closed form
        // (T. Ishigami & T. Homma, 1990; from memory): the standard test of sensitivity.
        let law = Law::Rectangular { low: -PI, high: PI };
        let inputs = [input("x", law), input("y", law), input("z", law)];
        let r = variance_shares(&inputs, 8, 40_000, None, || {
            |v: &[f64]| {
                let x = v[0].sin();
                Ok::<_, ()>(x + 7.0 * v[1].sin().powi(2) + 0.1 * v[2].powi(4) * x)
            }
        })
        .unwrap();
        let (a, b) = (7.0f64, 0.1f64);
        let with_z = b * b * PI.powi(8) * (1.0 / 18.0 - 1.0 / 50.0);
        let x_alone = 0.5 * (1.0 + b * PI.powi(4) / 5.0).powi(2);
        let y_alone = a * a / 8.0;
        let variance = x_alone + y_alone + with_z;
        assert!((r.deviation / variance.sqrt() - 1.0).abs() < 0.01);
        let exact = [
            ("x", x_alone, x_alone + with_z),
            ("y", y_alone, y_alone),
            ("z", 0.0, with_z),
        ];
        for (name, alone, total) in exact {
            let s = r.shares.iter().find(|s| s.name == name).unwrap();
            assert!(
                (s.alone - alone / variance).abs() < 5.0 * s.alone_error,
                "{s:?} {alone}"
            );
            assert!(
                (s.total - total / variance).abs() < 5.0 * s.total_error,
                "{s:?} {total}"
            );
        }
    }

    #[test]
    fn threads_and_failures() {
        let inputs = [input(
            "x",
            Law::Rectangular {
                low: 0.0,
                high: 1.0,
            },
        )];
        let on = |threads| {
            variance_shares(&inputs, 1, 3000, NonZeroUsize::new(threads), || {
                |x: &[f64]| if x[0] > 0.95 { Err("seized") } else { Ok(x[0]) }
            })
            .unwrap()
        };
        assert_eq!(on(1), on(3));
        let r = on(2);
        // Two of two points must stay below 0.95 (the third is the second one again).
        assert!((r.failed as f64 / 3000.0 - (1.0 - 0.95f64.powi(2))).abs() < 0.02);
        assert_eq!(r.first_error, Some("seized"));
    }
}
