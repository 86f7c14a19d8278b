//! The blank test: what plug and plate leak with no bore behind them.

use uom::si::f64::{Pressure, Volume};
use uom::si::volume::cubic_meter;

use super::{Leak, VacuumStand};
use crate::air::Air;
use crate::assumption::Assumption;
use crate::error::PhysicsError;
use crate::gap_air;
use crate::hole::{Hole, NOZZLE_CRITICAL_RATIO};

/// How the background is taken to leak away from the pressure at which it was tested.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BlankLaw {
    /// A scratch or pinhole: ISO 6358.
    Hole,
    /// A seam that seals all round: laminar film.
    Gap,
}

/// A blank test.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Blank {
    /// Its reading, on the same stand.
    pub reading: Pressure,
    /// Barometer on that day.
    pub barometer: Pressure,
    /// Its law.
    pub law: BlankLaw,
}

impl Blank {
    /// The background as a leak, to be taken off as a flow at whatever pressure the chamber has.
    /// A blank that reads as deep as the dead-head is no leak at all.
    ///
    /// # Errors
    /// As [`VacuumStand::interpret`].
    pub fn leak(&self, stand: &VacuumStand, air: &Air) -> Result<Leak, PhysicsError> {
        let state = stand.interpret(self.reading, self.barometer)?;
        let (q, p_a, p) = (
            state.throughput.value,
            self.barometer.value,
            state.port_pressure.value,
        );
        if q <= 0.0 {
            return Ok(Leak::none());
        }
        let unit = Hole {
            conductance: 1.0,
            critical: NOZZLE_CRITICAL_RATIO,
        };
        let per_unit = match self.law {
            BlankLaw::Hole => unit.throughput_si(air, p_a, p),
            BlankLaw::Gap => gap_air::laminar_si(1.0, air, p_a, p),
        };
        let size = q / per_unit;
        if !size.is_finite() {
            // No drop at all: the port was open.
            return Err(PhysicsError::NoSolution {
                what: "blank_reading_pa",
            });
        }
        Ok(match self.law {
            BlankLaw::Hole => Leak::Hole(Hole {
                conductance: size,
                ..unit
            }),
            BlankLaw::Gap => Leak::Film(Volume::new::<cubic_meter>(size)),
        })
    }

    pub(crate) fn assumption(&self) -> Assumption {
        match self.law {
            BlankLaw::Hole => Assumption::BlankAsHole,
            BlankLaw::Gap => Assumption::BlankAsGap,
        }
    }
}
