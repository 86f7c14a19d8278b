//! Why a reading can't be turned into a leak.

use thiserror::Error;

use crate::error::PhysicsError;

/// Why a reading can't be turned into a leak.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum Refusal {
    /// The stand has no calibration: its reading can be held against a limit, no more.
    #[error("the stand is not calibrated")]
    NoCalibratedStand,
    /// The gap holds oil.
    #[error("the bore is oiled; only a dry and steady reading tells the gap")]
    Oiled,
    /// There is no valve, so there is no gap.
    #[error("there is no valve in the bore")]
    ValveAbsent,
    /// The balance orifice in series takes nearly the whole drop.
    #[error(
        "the orifice in series takes {fraction:.2} of the drop; too little is left for the gap"
    )]
    OrificeTakesDrop {
        /// Its share of the drop from ambient to port; 1 or more when it can't pass the flow.
        fraction: f64,
    },
    /// Deeper than the stand can pull.
    #[error("the reading is better than the dead-head")]
    ReadingBetterThanDeadHead {
        /// The dead-head as a reading on that day, Pa.
        dead_head_reading_pa: f64,
    },
    /// Worse than with nothing on the hose.
    #[error("the reading is worse than the open hose gives")]
    ReadingWorseThanOpenHose {
        /// What the open hose would read, Pa.
        open_hose_reading_pa: f64,
    },
    /// The blank reads deeper than the stand can pull.
    #[error("the blank reading is better than the dead-head")]
    BlankBetterThanDeadHead,
    /// Plug and plate alone leak as much as the bore with them.
    #[error("the blank leaks as much as the bore")]
    BlankExceedsReading,
    /// The orifice beside the gap alone passes as much as the stand takes.
    #[error("the orifice in parallel passes as much as the reading shows")]
    ParallelOrificeExceedsReading,
    /// The leak fits no clearance between 0.1 µm and 1 mm.
    #[error("no clearance fits the reading")]
    NoClearanceFits,
    /// An input out of range.
    #[error(transparent)]
    Input(#[from] PhysicsError),
}

/// A stand's refusal of the bore's reading, in the test's words.
pub(super) fn reading_refusal(error: PhysicsError) -> Refusal {
    match error {
        PhysicsError::OutOfRange {
            field: "vacuum_reading_pa",
            value,
            low,
            high,
            ..
        } => {
            if value > high {
                Refusal::ReadingBetterThanDeadHead {
                    dead_head_reading_pa: high,
                }
            } else {
                Refusal::ReadingWorseThanOpenHose {
                    open_hose_reading_pa: low,
                }
            }
        }
        other => Refusal::Input(other),
    }
}

/// A stand's refusal of the blank reading, in the test's words.
pub(super) fn blank_refusal(error: PhysicsError) -> Refusal {
    match error {
        PhysicsError::OutOfRange {
            field: "vacuum_reading_pa",
            value,
            high,
            ..
        } => {
            if value > high {
                Refusal::BlankBetterThanDeadHead
            } else {
                Refusal::BlankExceedsReading
            }
        }
        PhysicsError::NoSolution {
            what: "blank_reading_pa",
        } => Refusal::BlankExceedsReading,
        other => Refusal::Input(other),
    }
}
