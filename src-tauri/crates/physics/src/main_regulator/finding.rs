//! What keeps a described main regulator from working, though each number is sound.

use thiserror::Error;
use uom::si::length::meter;

use super::description::MainRegulator;
use crate::opening::Travel;
use crate::regulator::MAX_LEAKS;

/// A description that contradicts how a bypass regulator works. Each one is a refusal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
#[non_exhaustive]
pub enum MainRegulatorFinding {
    /// The edge to suction closes as the spool advances: rising line would be let go less.
    #[error("the edge to suction closes as line rises; it must open")]
    DumpClosesAsLineRises,
    /// The edge to suction is still shut at the end of the stroke.
    #[error("the edge to suction is still shut at the end of the stroke")]
    DumpNeverOpens,
    /// The edge to the overflow passage closes as the spool advances.
    #[error("the edge to the overflow passage closes as line rises; it must open")]
    OverflowClosesAsLineRises,
    /// A leak between a node and itself.
    #[error("leak {index} of the main regulator starts and ends at the same node")]
    LeakToItself {
        /// Its place in the list.
        index: usize,
    },
    /// More than [`MAX_LEAKS`] leaks.
    #[error("{count} leaks are listed for the main regulator; at most {MAX_LEAKS} are possible")]
    TooManyLeaks {
        /// How many there are.
        count: usize,
    },
}

impl MainRegulator {
    /// Everything that contradicts how a bypass regulator works; empty for a sound description.
    /// Numbers out of range are told by [`MainRegulator::circuit`], one at a time.
    #[must_use]
    pub fn findings(&self) -> Vec<MainRegulatorFinding> {
        let mut found = Vec::new();
        if self.dump.travel == Travel::Closes {
            found.push(MainRegulatorFinding::DumpClosesAsLineRises);
        } else if self.dump.width_at_rest.get::<meter>() + self.stroke.get::<meter>() <= 0.0 {
            found.push(MainRegulatorFinding::DumpNeverOpens);
        }
        if self
            .overflow
            .is_some_and(|o| o.edge.travel == Travel::Closes)
        {
            found.push(MainRegulatorFinding::OverflowClosesAsLineRises);
        }
        for (index, leak) in self.leaks.iter().enumerate() {
            if leak.from == leak.to {
                found.push(MainRegulatorFinding::LeakToItself { index });
            }
        }
        if self.leaks.len() > MAX_LEAKS {
            found.push(MainRegulatorFinding::TooManyLeaks {
                count: self.leaks.len(),
            });
        }
        found
    }
}
