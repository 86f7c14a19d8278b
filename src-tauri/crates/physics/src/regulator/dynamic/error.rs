//! Why a transient has no answer.

use thiserror::Error;

use crate::error::PhysicsError;

/// A refusal of the dynamic model. Bad behaviour of the valve is an answer, not a refusal.
#[derive(Debug, Clone, PartialEq, Error)]
#[non_exhaustive]
pub enum DynamicError {
    /// An input that can't be used.
    #[error(transparent)]
    Input(#[from] PhysicsError),
    /// The solver took as many steps as it may before the end was reached.
    #[error("the solver took {steps} steps and came only to {reached_s} s")]
    TooManySteps {
        /// The steps taken, rejected ones included.
        steps: u64,
        /// How far it came.
        reached_s: f64,
    },
    /// The solver's steps shrank to nothing: it can't keep to the tolerance.
    #[error("the solver can't keep to the tolerance at {reached_s} s")]
    StepVanished {
        /// Where it stood.
        reached_s: f64,
    },
    /// The caller asked to stop.
    #[error("stopped before the end")]
    Cancelled,
}
