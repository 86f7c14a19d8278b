//! States of the seals between which the truth lies.

use uom::si::f64::Ratio;
use uom::si::ratio::ratio;

use super::SealEvidence;
use crate::valve::{Gap, SealState};

/// States of the seals: as new, as likely, and at either end of what is unknown.
pub(super) struct WornStates {
    pub new: SealState,
    pub tested: SealState,
    pub untested: SealState,
    pub tested_by_eccentricity: [SealState; 2],
    pub tested_by_reading: [SealState; 2],
    pub untested_ends: [SealState; 2],
}

impl WornStates {
    pub fn of(evidence: &SealEvidence) -> Self {
        let state = |gap, off_centre| SealState {
            gap,
            eccentricity: Ratio::new::<ratio>(off_centre),
        };
        let [low, likely, high] = evidence.centred;
        Self {
            new: state(Gap::AsNew, 0.0),
            tested: state(Gap::Of(likely), 0.0),
            // An untested seal may be as new or as worn as the tested ones, hence between; a
            // tested one that came out tighter than new says nothing about the others.
            untested: state(Gap::Between(likely), 0.0),
            // The least leak in service: the valve lay against one side in the test and lies
            // centred now. The most: the other way round.
            tested_by_eccentricity: [
                state(Gap::Of(evidence.off_centre[1]), 0.0),
                state(Gap::Of(likely), 1.0),
            ],
            tested_by_reading: [state(Gap::Of(low), 0.0), state(Gap::Of(high), 0.0)],
            untested_ends: [state(Gap::AsNew, 0.0), state(Gap::AtLeastNew(likely), 1.0)],
        }
    }
}
