//! Line against what moves it, and what each leak does by itself.

use uom::si::f64::{Pressure, VolumeRate};

use super::description::{MainRegulator, Pump};
use super::laws::MainCircuit;
use super::result::MainPoint;
use crate::error::PhysicsError;
use crate::fluid::OilState;
use crate::regulator::{Branch, Demand};

/// What one land's leak does.
#[derive(Debug, Clone, PartialEq)]
pub struct LeakEffect {
    /// Its place in the description.
    pub index: usize,
    /// Line with all leaks, less line with this one shut.
    pub line_shift: Pressure,
    /// Oil left to regulate with (past all edges), with all leaks, less the same with this one
    /// shut: negative for what it takes from the pump.
    pub left_over_shift: VolumeRate,
    /// The balance with this one shut.
    pub without: MainPoint,
}

impl MainCircuit {
    /// Line for each of `flows`, the ideal flow of a pump that slips like `pump`.
    ///
    /// # Errors
    /// As [`MainCircuit::solve`].
    pub fn against_pump_flow(
        &self,
        pump: &Pump,
        flows: &[VolumeRate],
        solenoid_output: Pressure,
        branch: Branch,
    ) -> Result<Vec<MainPoint>, PhysicsError> {
        let at = |&ideal_flow| {
            self.solve(
                &Pump {
                    ideal_flow,
                    ..*pump
                },
                solenoid_output,
                branch,
            )
        };
        flows.iter().map(at).collect()
    }

    /// Line for each of `outputs` of the solenoid.
    ///
    /// # Errors
    /// As [`MainCircuit::solve`].
    pub fn against_boost(
        &self,
        pump: &Pump,
        outputs: &[Pressure],
        branch: Branch,
    ) -> Result<Vec<MainPoint>, PhysicsError> {
        outputs
            .iter()
            .map(|&output| self.solve(pump, output, branch))
            .collect()
    }
}

impl MainRegulator {
    /// Line for each of `demands` (0 to 30 L/min), stated as in the description's own.
    ///
    /// # Errors
    /// As [`MainRegulator::circuit`] and [`MainCircuit::solve`].
    pub fn against_demand(
        &self,
        oil: &OilState,
        pump: &Pump,
        demands: &[VolumeRate],
        solenoid_output: Pressure,
        branch: Branch,
    ) -> Result<Vec<MainPoint>, PhysicsError> {
        let at = |&flow| {
            let demand = Demand {
                flow,
                ..self.demand
            };
            let changed = Self {
                demand,
                ..self.clone()
            };
            changed.circuit(oil)?.solve(pump, solenoid_output, branch)
        };
        demands.iter().map(at).collect()
    }

    /// What each leak does by itself, in the order of the description: solved with all, and again
    /// with each one shut.
    ///
    /// # Errors
    /// As [`MainRegulator::circuit`] and [`MainCircuit::solve`].
    pub fn leak_effects(
        &self,
        oil: &OilState,
        pump: &Pump,
        solenoid_output: Pressure,
    ) -> Result<Vec<LeakEffect>, PhysicsError> {
        let solve = |main: &Self| {
            main.circuit(oil)?
                .solve(pump, solenoid_output, Branch::Frictionless)
        };
        let all = solve(self)?;
        let spare = |point: &MainPoint| point.flows.dump + point.flows.overflow;
        (0..self.leaks.len())
            .map(|index| {
                let mut shut = self.clone();
                shut.leaks.remove(index);
                let without = solve(&shut)?;
                Ok(LeakEffect {
                    index,
                    line_shift: all.line - without.line,
                    left_over_shift: spare(&all) - spare(&without),
                    without,
                })
            })
            .collect()
    }
}
