//! Several unknowns made into one asymmetric span.

use model::Finite;

use crate::error::DiagnosisError;
use crate::judgement::Span;

/// Deviations from the likely value, each side by itself in quadrature.
#[derive(Default)]
pub(crate) struct Deviations {
    below2: f64,
    above2: f64,
}

impl Deviations {
    /// One unknown at its two ends, in whichever order they fall.
    pub fn add(&mut self, ends: [f64; 2]) {
        let lowest = ends[0].min(ends[1]).min(0.0);
        let highest = ends[0].max(ends[1]).max(0.0);
        self.below2 += lowest * lowest;
        self.above2 += highest * highest;
    }

    /// The span about a value, kept within what is possible: feed is never above line, a flow
    /// never negative.
    pub fn around(&self, likely: f64, least: f64, most: f64) -> Result<Span, DiagnosisError> {
        let high = (likely + self.above2.sqrt()).min(most).max(likely);
        let low = (likely - self.below2.sqrt()).max(least).min(likely);
        Ok(Span {
            low: Finite::try_from(low)?,
            likely: Finite::try_from(likely)?,
            high: Finite::try_from(high)?,
        })
    }
}
