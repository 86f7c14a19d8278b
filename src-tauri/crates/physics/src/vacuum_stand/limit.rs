//! A limit that was stated at one barometer, carried to another.
//!
//! A leak that just meets the limit there is the same leak here; only its reading changes, and by
//! the leak's own law. On a stand without hose loss the pull S cancels: for a laminar gap
//! (p_a^2 - p_g^2) / (p_g - p_d) stays as it is, for a hole its flow per conductance over
//! (p_g - p_d). So a limit can be carried on a stand that was never calibrated.

use uom::si::f64::{Pressure, VolumeRate};
use uom::si::volume_rate::cubic_meter_per_second;

use super::{BalanceOrifice, Blank, BlankLaw, DeadHead, VacuumStand};
use crate::air::Air;
use crate::assumption::{Assumption, note};
use crate::error::PhysicsError;
use crate::quantity::hose_resistance;

/// The law by which a limit's leak is carried. Between sea level and 2 km the two differ by about
/// an inch of mercury, so say which.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LeakLaw {
    /// Laminar gap: a worn bore.
    Gap,
    /// Hole: a scratch, or a bore so worn that it chokes.
    Hole,
}

/// A limit at the day's barometer.
#[derive(Debug, Clone, PartialEq)]
pub struct CarriedLimit {
    /// The limit as a reading at the barometer asked for.
    pub reading: Pressure,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
}

impl VacuumStand {
    /// Carries `limit`, a reading on this stand at barometer `from`, to barometer `to`.
    ///
    /// # Errors
    /// [`PhysicsError`] naming `vacuum_reading_pa` when the limit is deeper than the stand can
    /// pull at `from`, or another input out of range.
    pub fn carry_limit(
        &self,
        limit: Pressure,
        from: Pressure,
        to: Pressure,
        law: LeakLaw,
        air: &Air,
    ) -> Result<CarriedLimit, PhysicsError> {
        let (law, carried) = match law {
            LeakLaw::Gap => (BlankLaw::Gap, Assumption::CarriedAsGap),
            LeakLaw::Hole => (BlankLaw::Hole, Assumption::CarriedAsHole),
        };
        let leak = Blank {
            reading: limit,
            barometer: from,
            law,
        }
        .leak(self, air)?;
        let shown = self.reading(&leak, &BalanceOrifice::Blocked, air, to)?;
        let mut assumptions = self.assumptions();
        note(&mut assumptions, carried);
        Ok(CarriedLimit {
            reading: shown.reading,
            assumptions,
        })
    }
}

impl DeadHead {
    /// As [`VacuumStand::carry_limit`], on a stand of which only the dead-head is known.
    ///
    /// # Errors
    /// As [`VacuumStand::carry_limit`].
    pub fn carry_limit(
        &self,
        limit: Pressure,
        from: Pressure,
        to: Pressure,
        law: LeakLaw,
        air: &Air,
    ) -> Result<CarriedLimit, PhysicsError> {
        // Any pull gives the same answer.
        let stand = VacuumStand {
            pull: VolumeRate::new::<cubic_meter_per_second>(1.0e-4),
            dead_head: *self,
            hose_resistance: hose_resistance(0.0),
        };
        stand.carry_limit(limit, from, to, law, air)
    }
}
