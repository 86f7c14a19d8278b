//! A circuit with some of its numbers changed, solved for feed alone: what a Monte Carlo does a
//! hundred thousand times, and so without building anything anew or on the heap.

use uom::si::f64::{Length, Pressure, Ratio};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::surface_tension::newton_per_meter;

use super::circuit::{Circuit, Laws};
use super::result::{Branch, RegulatorState};
use crate::error::PhysicsError;
use crate::gap::Annulus;
use crate::gap_oil;
use crate::range;
use crate::spring::Spring;

/// How near the balance is solved, Pa: far below what any sample of it could show.
const CLOSE: f64 = 0.01;

/// What is changed. All else stays as the circuit was described.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Variation<'a> {
    /// The gap of each land leak, in the order of the description.
    pub gaps: &'a [Annulus],
    /// Dynamic pressures lost at entry and exit of each gap, 1.4 to 4.
    pub entry_exit_loss: Ratio,
    /// What the balance orifice passes over what its law says, 0.1 to 10.
    pub orifice_flow: Ratio,
    /// The spring.
    pub spring: Spring,
    /// Clearance of the supply's land, which sets the flow past the edge near null.
    pub supply_clearance: Length,
    /// The same of the exhaust's land; ignored where there is no exhaust.
    pub exhaust_clearance: Length,
}

/// A circuit with some numbers changed.
#[derive(Debug, Clone)]
pub struct Varied {
    laws: Laws,
}

impl Circuit {
    /// This circuit with other gaps, losses and spring.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`]; [`PhysicsError::TooFew`] naming `seals` unless there is one
    /// gap for each leak.
    pub fn vary(&self, change: &Variation<'_>) -> Result<Varied, PhysicsError> {
        let loss = range::ENTRY_EXIT_LOSS.check(change.entry_exit_loss.get::<ratio>())?;
        let scale = range::ORIFICE_SCALE.check(change.orifice_flow.get::<ratio>())?;
        let clearance = |c: Length| range::RADIAL_CLEARANCE.check(c.get::<meter>());
        let mut laws = self.laws.clone();
        let count = laws.leaks().count();
        if change.gaps.len() != count {
            return Err(PhysicsError::TooFew {
                field: "seals",
                count: change.gaps.len(),
                least: count,
            });
        }
        let (mu, rho) = (laws.viscosity, laws.density);
        for (leak, gap) in laws.leaks_mut().zip(change.gaps) {
            leak.loss = gap_oil::law_losing(gap, mu, rho, loss);
        }
        laws.orifice = laws.orifice.map(|o| o.scaled(scale));
        laws.load = range::SPRING_LOAD.check(change.spring.load_at_rest.get::<newton>())?;
        laws.rate = range::SPRING_RATE.check(change.spring.rate.get::<newton_per_meter>())?;
        laws.supply = laws
            .supply
            .with_clearance(clearance(change.supply_clearance)?);
        if let Some(exhaust) = &mut laws.exhaust {
            *exhaust = exhaust.with_clearance(clearance(change.exhaust_clearance)?);
        }
        laws.choose_unknown();
        Ok(Varied { laws })
    }
}

impl Varied {
    /// Feed under `line` (0 to 10 MPa over sump), and what the spool is doing; good to 0.1 Pa
    /// where feed follows the reaction pressure closely.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`] for the line pressure.
    pub fn feed(
        &self,
        line: Pressure,
        branch: Branch,
    ) -> Result<(Pressure, RegulatorState), PhysicsError> {
        let line = range::LINE_PRESSURE.check(line.get::<pascal>())?;
        let trial = self.laws.balance(line, 0.0, branch, CLOSE);
        Ok((
            Pressure::new::<pascal>(trial.p.feed),
            self.laws.state(&trial),
        ))
    }
}
