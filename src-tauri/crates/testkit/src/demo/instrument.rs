//! What an instrument shows of a true value: its own error, its noise, its smallest step.

use model::Finite;
use model::bench::Instrument;
use rand_chacha::ChaCha20Rng;
use rand_distr::{Distribution, Normal};

use super::DemoError;
use super::source::TrueInstrument;
use crate::seeded;

/// An instrument in somebody's hand, SI in the unit of what it measures.
pub(crate) struct InHand {
    random: ChaCha20Rng,
    noise: Normal<f64>,
    error_si: f64,
    step_si: f64,
}

impl InHand {
    /// `seed`: the readings that it is used for, so that they come out the same every time.
    pub fn new(
        truth: &TrueInstrument,
        instrument: &Instrument,
        seed: &str,
    ) -> Result<Self, DemoError> {
        let fail = |error: rand_distr::NormalError| DemoError::Form {
            path: truth.instrument.clone(),
            error: error.to_string(),
        };
        Ok(Self {
            random: seeded::generator(&format!("{seed} {}", truth.instrument)),
            noise: Normal::new(0.0, truth.noise_si).map_err(fail)?,
            error_si: truth.error_si,
            step_si: *instrument.resolution_si,
        })
    }

    /// What a person reads off, to the step.
    pub fn read(&mut self, true_si: f64) -> Result<Finite, DemoError> {
        let shown = true_si + self.error_si + self.noise.sample(&mut self.random);
        finite((shown / self.step_si).round() * self.step_si)
    }
}

pub(super) fn finite(value: f64) -> Result<Finite, DemoError> {
    Finite::try_from(value).map_err(|error| DemoError::Diagnosis(error.into()))
}
