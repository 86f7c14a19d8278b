//! What can be wrong with the input of a calculation, or with the calculation itself.

use thiserror::Error;

use crate::range::name;

/// An input that can't be used, or an equation without a solution.
///
/// `field` is a stable name in snake_case that ends in its unit, such as `radial_clearance_m`; a
/// caller maps it to the place where the number was typed. The human name of the field is in
/// [`crate::range`].
#[derive(Debug, Clone, PartialEq, Error)]
#[non_exhaustive]
pub enum PhysicsError {
    /// A number outside the table of [`crate::range`], or outside what the other inputs allow.
    #[error("{} is {value} {unit}; it must lie between {low} and {high} {unit}", name(.field))]
    OutOfRange {
        /// Which input.
        field: &'static str,
        /// What was given, in `unit`.
        value: f64,
        /// The lowest value accepted, in `unit`.
        low: f64,
        /// The highest value accepted, in `unit`.
        high: f64,
        /// The unit of the three numbers above.
        unit: &'static str,
    },
    /// An input that is infinite or not a number.
    #[error("{} is not a finite number", name(.field))]
    NotFinite {
        /// Which input.
        field: &'static str,
    },
    /// Two inputs, each sound alone, that contradict each other.
    #[error("{} contradicts {}", name(.field), name(.other))]
    Contradiction {
        /// The input at which the contradiction is best shown.
        field: &'static str,
        /// The input that it contradicts.
        other: &'static str,
    },
    /// A list with too few entries for what is asked.
    #[error("{}: {count} given; at least {least} are needed", name(.field))]
    TooFew {
        /// Which input.
        field: &'static str,
        /// How many entries were given.
        count: usize,
        /// How many are needed.
        least: usize,
    },
    /// A designation that its standard's table doesn't have, or has for other sizes only.
    #[error("{} isn't in the table for this size", name(.field))]
    NotTabulated {
        /// Which input.
        field: &'static str,
    },
    /// A regulator whose parts, each sound alone, can't work together.
    #[error("regulator: {0}")]
    Regulator(#[from] crate::regulator::RegulatorFinding),
    /// A main regulator whose parts, each sound alone, can't work together.
    #[error("main regulator: {0}")]
    MainRegulator(#[from] crate::main_regulator::MainRegulatorFinding),
    /// The equations have no solution within the physical bounds of the unknown.
    #[error("no solution for {}", name(.what))]
    NoSolution {
        /// The unknown that has no value, as a stable name in snake_case.
        what: &'static str,
    },
}
