//! Uncertainty through any calculation by Monte Carlo (JCGM 101:2008, clause 7).
//!
//! Where first order fails (an asymmetric result, an input without a best estimate, a calculation
//! that bends within its inputs' spread) the whole distribution of the result is made: each trial
//! draws every input from its law and calculates once. The trials are cut into chunks, each with
//! its own stream of a counter-based generator, so the answer is the same to the last bit whatever
//! the number of threads.
//!
//! A trial at which the calculation fails is counted and told ([`Failures`]); mean, deviation and
//! intervals are those of the trials that succeeded, which is said by a share above zero.

use std::num::NonZeroUsize;

use crate::chunks::in_chunks;
use crate::correlation::{Correlation, CorrelationMatrix};
use crate::error::{MetrologyError, within};
use crate::law::{Law, Sampler, normal_quantile};
use crate::random::Stream;

mod outcome;

pub use outcome::{CoverageInterval, Failures, MonteCarlo, Settled};

/// Trials in a chunk of a run with a fixed count.
const CHUNK: usize = 1024;

/// The most trials that one run may make.
pub const MOST_TRIALS: usize = 20_000_000;

/// One input of the calculation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct UncertainInput {
    /// What it is.
    pub name: &'static str,
    /// How it is spread.
    pub law: Law,
}

/// When to stop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Stop {
    /// After so many trials, 100 to [`MOST_TRIALS`].
    After(usize),
    /// When mean, deviation and both ends of the coverage interval are stable (JCGM 101:2008,
    /// 7.9): twice the standard deviation of each, over sequences of at least 10^4 trials, is
    /// below half a unit in the last of the digits that the deviation is stated with.
    Stable {
        /// Significant digits of the deviation, 1 to 3.
        digits: u8,
        /// Coverage probability of the interval, 0.5 to 0.999.
        coverage: f64,
        /// Give up after so many trials; whether it settled is told.
        at_most: usize,
    },
}

/// How a run is made.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Plan {
    /// The same seed gives the same answer.
    pub seed: u64,
    /// When to stop.
    pub stop: Stop,
    /// How many threads; `None` for as many as there are cores. Has no effect on the answer.
    pub threads: Option<NonZeroUsize>,
}

impl Plan {
    /// A fixed count of trials on all cores.
    #[must_use]
    pub fn fixed(seed: u64, trials: usize) -> Self {
        Self {
            seed,
            stop: Stop::After(trials),
            threads: None,
        }
    }
}

/// Carries `inputs` through a calculation, of which `model` makes one for each thread; it gets the
/// inputs' values in the order of the list.
///
/// Correlations are those of the normal numbers from which each input is drawn: exact for normal
/// inputs (6.4.8), and close to the correlation of the inputs themselves for other laws.
///
/// ```
/// use metrology::monte_carlo::{Plan, UncertainInput, monte_carlo};
/// use metrology::law::Law;
/// let side = |name| UncertainInput { name, law: Law::Rectangular { low: 0.0, high: 1.0 } };
/// let area = monte_carlo(&[side("a"), side("b")], &[], &Plan::fixed(1, 100_000), || {
///     |x: &[f64]| Ok::<_, ()>(x[0] * x[1])
/// })?;
/// assert!((area.mean - 0.25).abs() < 0.002);
/// # Ok::<(), metrology::MetrologyError>(())
/// ```
///
/// # Errors
/// [`MetrologyError`] naming `trials`, `digits`, `coverage` or what is wrong with a law or a
/// correlation; [`MetrologyError::TooFew`] naming `successful_trials` when fewer than 100 trials,
/// or fewer than half, succeeded.
pub fn monte_carlo<E, F>(
    inputs: &[UncertainInput],
    correlations: &[Correlation],
    plan: &Plan,
    model: impl Fn() -> F + Sync,
) -> Result<MonteCarlo<E>, MetrologyError>
where
    E: Send,
    F: FnMut(&[f64]) -> Result<f64, E>,
{
    let draw = Draw::new(inputs, correlations)?;
    let trials = |name, n: usize| within(name, n as f64, 100.0, MOST_TRIALS as f64);
    match plan.stop {
        Stop::After(count) => {
            trials("trials", count)?;
            let chunks = count.div_ceil(CHUNK);
            let size = |chunk| CHUNK.min(count - chunk * CHUNK);
            let done = run(&draw, plan, 0..chunks, &size, &model);
            MonteCarlo::of(done, plan.seed, None)
        }
        Stop::Stable {
            digits,
            coverage,
            at_most,
        } => {
            within("digits", f64::from(digits), 1.0, 3.0)?;
            within("coverage", coverage, 0.5, 0.999)?;
            trials("trials", at_most)?;
            // 7.9.4 b).
            let sequence = 10_000.max((100.0 / (1.0 - coverage)).ceil() as usize);
            until_stable(&draw, plan, (digits, coverage), sequence, at_most, &model)
        }
    }
}

/// The procedure of 7.9.4. Sequences are judged in their order; those that were made beyond the
/// stop, for want of knowing, are thrown away, so threads don't change the answer.
fn until_stable<E, F>(
    draw: &Draw,
    plan: &Plan,
    (digits, coverage): (u8, f64),
    sequence: usize,
    at_most: usize,
    model: &(impl Fn() -> F + Sync),
) -> Result<MonteCarlo<E>, MetrologyError>
where
    E: Send,
    F: FnMut(&[f64]) -> Result<f64, E>,
{
    let most = (at_most / sequence).max(2);
    let mut stability = outcome::Stability::new(digits, coverage);
    let mut done = Vec::new();
    while done.len() < most {
        let upto = (done.len() + 4).min(most);
        for chunk in run(draw, plan, done.len()..upto, &|_| sequence, model) {
            let stable = stability.add(&chunk.values)?;
            done.push(chunk);
            if stable {
                let settled = stability.told(true);
                return MonteCarlo::of(done, plan.seed, Some(settled));
            }
        }
    }
    let settled = stability.told(false);
    MonteCarlo::of(done, plan.seed, Some(settled))
}

/// What one chunk of trials came to.
pub(crate) struct Chunk<E> {
    /// Results of the trials that succeeded, sorted.
    pub values: Vec<f64>,
    pub trials: usize,
    pub not_finite: usize,
    pub refused: usize,
    pub first: Option<E>,
}

fn run<E, F>(
    draw: &Draw,
    plan: &Plan,
    chunks: std::ops::Range<usize>,
    size: &(impl Fn(usize) -> usize + Sync),
    model: &(impl Fn() -> F + Sync),
) -> Vec<Chunk<E>>
where
    E: Send,
    F: FnMut(&[f64]) -> Result<f64, E>,
{
    in_chunks(chunks.start, chunks.end, plan.threads, || {
        let mut calculate = model();
        let mut point = draw.point();
        move |chunk| {
            let mut stream = Stream::new(plan.seed, chunk as u64);
            let trials = size(chunk);
            let mut out = Chunk {
                values: Vec::with_capacity(trials),
                trials,
                not_finite: 0,
                refused: 0,
                first: None,
            };
            for _ in 0..trials {
                draw.next(&mut stream, &mut point);
                match calculate(&point) {
                    // As small as `finite` allows, so that squares stay finite.
                    Ok(y) if y.abs() <= crate::error::HUGE => out.values.push(y),
                    Ok(_) => out.not_finite += 1,
                    Err(e) => {
                        out.refused += 1;
                        out.first.get_or_insert(e);
                    }
                }
            }
            out.values.sort_unstable_by(f64::total_cmp);
            out
        }
    })
}

/// All inputs, ready to be drawn.
pub(crate) struct Draw {
    samplers: Vec<Sampler>,
    correlated: Option<CorrelationMatrix>,
}

impl Draw {
    pub fn new(
        inputs: &[UncertainInput],
        correlations: &[Correlation],
    ) -> Result<Self, MetrologyError> {
        let samplers = inputs
            .iter()
            .map(|x| x.law.sampler())
            .collect::<Result<_, _>>()?;
        let correlated = (!correlations.is_empty())
            .then(|| CorrelationMatrix::new(inputs.len(), correlations))
            .transpose()?;
        Ok(Self {
            samplers,
            correlated,
        })
    }

    pub fn point(&self) -> Vec<f64> {
        vec![0.0; self.samplers.len()]
    }

    /// The next trial's inputs.
    #[inline]
    pub fn next(&self, stream: &mut Stream, point: &mut [f64]) {
        match &self.correlated {
            None => {
                for (x, sampler) in point.iter_mut().zip(&self.samplers) {
                    *x = sampler.of_uniform(stream.uniform());
                }
            }
            Some(matrix) => {
                point
                    .iter_mut()
                    .for_each(|z| *z = normal_quantile(stream.uniform()));
                matrix.correlate(point);
                for (x, sampler) in point.iter_mut().zip(&self.samplers) {
                    *x = sampler.of_normal(*x);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests;
