//! The spring that gives a setpoint.

use uom::si::f64::{Force, Pressure};
use uom::si::force::newton;
use uom::si::pressure::pascal;

use super::circuit::Pressures;
use super::description::Regulator;
use super::solve::Trial;
use crate::error::PhysicsError;
use crate::fluid::OilState;
use crate::range;
use crate::root::bracketed;
use crate::spring::Spring;

impl Regulator {
    /// Spring load at x = 0 with which this regulator holds `setpoint` (10 kPa to 10 MPa) at
    /// `line` in `oil`, friction left out. The load in the description is not used (it must only
    /// be legal); everything else is, the leaks too, so describe the valve as new.
    ///
    /// # Errors
    /// As [`Regulator::circuit`]; [`PhysicsError::NoSolution`] if no spool position gives the
    /// setpoint (line too low, demand too large, leaks too large);
    /// [`PhysicsError::OutOfRange`] if the load that follows isn't legal.
    pub fn spring_load_for(
        &self,
        setpoint: Pressure,
        line: Pressure,
        oil: &OilState,
    ) -> Result<Force, PhysicsError> {
        let laws = self.circuit(oil)?.laws;
        let feed = range::SETPOINT.check(setpoint.get::<pascal>())?;
        let line = range::LINE_PRESSURE.check(line.get::<pascal>())?;
        let mut p = Pressures {
            line,
            feed,
            reaction: feed,
            chamber: 0.0,
        };
        laws.set_reaction(&mut p);
        let gain = |x: f64| laws.gain(&Trial { p, x });
        let (open, shut) = (gain(0.0), gain(laws.stroke));
        if open <= 0.0 || shut >= 0.0 {
            return Err(PhysicsError::NoSolution {
                what: "spring_load_n",
            });
        }
        let x = bracketed(gain, 0.0, open, laws.stroke, shut, 0.0);
        let (supply, exhaust) = laws.flow_forces(x, &p);
        let load = p.reaction * laws.reaction_area + supply
            - exhaust
            - p.chamber * laws.chamber_area
            - laws.rate * x;
        Ok(Force::new::<newton>(range::SPRING_LOAD.check(load)?))
    }

    /// This regulator with the spring load of [`Regulator::spring_load_for`].
    ///
    /// # Errors
    /// As there.
    pub fn calibrated(
        &self,
        setpoint: Pressure,
        line: Pressure,
        oil: &OilState,
    ) -> Result<Self, PhysicsError> {
        let load_at_rest = self.spring_load_for(setpoint, line, oil)?;
        Ok(Self {
            spring: Spring {
                load_at_rest,
                ..self.spring
            },
            ..self.clone()
        })
    }
}
