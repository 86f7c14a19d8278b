//! What can be wrong with the sources of the demo shop.

/// A fault of the sources, told with the file or the subject.
#[derive(Debug, thiserror::Error)]
pub enum DemoError {
    /// A file can't be read.
    #[error("{path}: {error}")]
    File {
        /// The file.
        path: String,
        /// What the system says.
        error: std::io::Error,
    },
    /// A file isn't what a source must be.
    #[error("{path}: {error}")]
    Form {
        /// The file.
        path: String,
        /// What is wrong.
        error: String,
    },
    /// Something names a subject, person or stand that no source has.
    #[error("nothing is called {0}")]
    Unknown(String),
    /// A body isn't of its kind.
    #[error("{subject} ({kind}): {error}")]
    Body {
        /// The subject.
        subject: String,
        /// The kind.
        kind: String,
        /// What is wrong.
        error: String,
    },
    /// A profile contradicts itself.
    #[error("{0}")]
    Profile(String),
    /// The store refused.
    #[error(transparent)]
    Store(#[from] store::StoreError),
    /// The physics refused a figure.
    #[error(transparent)]
    Physics(#[from] physics::PhysicsError),
    /// The judgement failed.
    #[error(transparent)]
    Diagnosis(#[from] diagnosis::DiagnosisError),
    /// The bundle can't be written.
    #[error("bundle: {0}")]
    Bundle(String),
}
