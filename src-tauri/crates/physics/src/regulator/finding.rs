//! What keeps a described regulator from working, though each number is sound.

use thiserror::Error;

use super::description::{Drain, MAX_LEAKS, Node, Regulator};
use crate::opening::Travel;
use crate::orifice::Orifice;

/// A description that contradicts how a reducing regulator works. Each one is a refusal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Error)]
#[non_exhaustive]
pub enum RegulatorFinding {
    /// The supply opens as the spool advances: rising feed would let in more line.
    #[error("the supply opens as feed rises; it must close")]
    SupplyOpensAsFeedRises,
    /// The exhaust closes as the spool advances: rising feed would be let out less.
    #[error("the exhaust closes as feed rises; it must open")]
    ExhaustClosesAsFeedRises,
    /// The supply is still open at the end of the stroke, so the valve can't shut it.
    #[error("the supply is still open at the end of the stroke")]
    SupplyNeverShuts,
    /// The supply is overlapped with the spool at rest, so the valve can't fill the circuit.
    #[error("the supply is shut with the spool at rest")]
    SupplyNeverOpens,
    /// A leak between a node and itself.
    #[error("leak {index} starts and ends at the same node")]
    LeakToItself {
        /// Its place in the list.
        index: usize,
    },
    /// More than [`MAX_LEAKS`] leaks.
    #[error("{count} leaks are listed; at most {MAX_LEAKS} are possible")]
    TooManyLeaks {
        /// How many there are.
        count: usize,
    },
    /// The drain is blocked and no leak reaches the chamber: its pressure is undefined, as sealed
    /// oil would lock the spool.
    #[error("the spring chamber has neither drain nor leak")]
    ChamberSealed,
}

impl Regulator {
    /// Everything that contradicts how a reducing regulator works; empty for a sound description.
    /// Numbers out of range are told by [`Regulator::circuit`], one at a time.
    #[must_use]
    pub fn findings(&self) -> Vec<RegulatorFinding> {
        let mut found = Vec::new();
        if self.supply.travel == Travel::Opens {
            found.push(RegulatorFinding::SupplyOpensAsFeedRises);
        } else {
            if self.supply.width_at_rest > self.stroke {
                found.push(RegulatorFinding::SupplyNeverShuts);
            }
            if self.supply.width_at_rest.value <= 0.0 {
                found.push(RegulatorFinding::SupplyNeverOpens);
            }
        }
        if self.exhaust.is_some_and(|e| e.travel == Travel::Closes) {
            found.push(RegulatorFinding::ExhaustClosesAsFeedRises);
        }
        for (index, leak) in self.leaks.iter().enumerate() {
            if leak.from == leak.to {
                found.push(RegulatorFinding::LeakToItself { index });
            }
        }
        if self.leaks.len() > MAX_LEAKS {
            found.push(RegulatorFinding::TooManyLeaks {
                count: self.leaks.len(),
            });
        }
        let chamber = |n: Node| n == Node::SpringChamber;
        if self.spring_chamber_drain == Drain::Blocked
            && !self.leaks.iter().any(|l| chamber(l.from) || chamber(l.to))
        {
            found.push(RegulatorFinding::ChamberSealed);
        }
        found
    }

    /// Every drilled orifice that meters here, for judging its band.
    pub fn orifices(&self) -> impl Iterator<Item = &Orifice> {
        let drain = match &self.spring_chamber_drain {
            Drain::Orifice(o) => Some(o),
            Drain::Open | Drain::Blocked => None,
        };
        self.balance_orifice.iter().chain(drain)
    }
}
