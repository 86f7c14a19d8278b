//! Why a diagnosis can't be given.

use physics::PhysicsError;

/// What stands in the way.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum DiagnosisError {
    /// The profile lacks a part that the calculation needs.
    #[error("the profile lacks {part}")]
    ProfileIncomplete {
        /// Field of the profile.
        part: &'static str,
    },
    /// The physics refused a figure or found no solution.
    #[error(transparent)]
    Physics(#[from] PhysicsError),
    /// The metrology refused a figure.
    #[error(transparent)]
    Metrology(#[from] metrology::MetrologyError),
    /// A result was not finite: a fault of the program.
    #[error("a result is not a finite number")]
    NotFinite(#[from] model::number::NotFinite),
}
