//! States of the seals between which the truth lies.

use model::unit::BoreProfile;
use uom::si::f64::Ratio;
use uom::si::length::meter;
use uom::si::ratio::ratio;

use super::SealEvidence;
use crate::error::DiagnosisError;
use crate::valve::{self, SealState, metres};

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
    pub fn of(profile: &BoreProfile, evidence: &SealEvidence) -> Result<Self, DiagnosisError> {
        let missing = DiagnosisError::ProfileIncomplete { part: "lands" };
        let land = profile.lands.first().ok_or(missing)?;
        let state = |radial_clearance, off_centre| SealState {
            radial_clearance,
            eccentricity: Ratio::new::<ratio>(off_centre),
        };
        let new = valve::new_clearance(profile, land);
        let [low, likely, high] = evidence.centred;
        // An untested seal may be as new or as worn as the tested ones, hence between; a tested
        // one that came out tighter than new says nothing about the others.
        let worn = if likely > new { likely } else { new };
        let between = metres((new.get::<meter>() * worn.get::<meter>()).sqrt());
        Ok(Self {
            new: state(new, 0.0),
            tested: state(likely, 0.0),
            untested: state(between, 0.0),
            // The least leak in service: the valve lay against one side in the test and lies
            // centred now. The most: the other way round.
            tested_by_eccentricity: [state(evidence.off_centre[1], 0.0), state(likely, 1.0)],
            tested_by_reading: [state(low, 0.0), state(high, 0.0)],
            untested_ends: [state(new, 0.0), state(worn, 1.0)],
        })
    }
}
