//! Small motions about the state of rest: does the valve hunt, and how fast do swings die?

use std::sync::Arc;

use nalgebra::{DMatrix, Schur};
use uom::si::f64::{Frequency, Length, Pressure, Ratio};
use uom::si::frequency::hertz;
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::time::second;

use super::super::result::Branch;
use super::course::courses;
use super::motion::Motion;
use super::plant::{FEED, REACTION, V, X};
use super::run::{MovingCircuit, Scenario};
use crate::assumption::Assumption;
use crate::error::PhysicsError;
use crate::range;

/// One way in which small disturbances go: an eigenvalue of the linearised equations, or a pair.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mode {
    /// Real part of the eigenvalue, 1/s: disturbances go as exp(growth t). Negative dies out.
    pub growth: Frequency,
    /// Swings a second, |imaginary part| / 2 pi; 0 where it creeps back without swinging.
    pub frequency: Frequency,
    /// |eigenvalue| / 2 pi.
    pub natural_frequency: Frequency,
    /// -growth / |eigenvalue|: 1 creeps, 0 swings for ever, below 0 grows.
    pub damping_ratio: Ratio,
}

/// The regulator's small motions about one state of rest, dry friction left out.
///
/// With dry friction a spool that swings less than the friction lets it sticks, and what is
/// unstable here may stand still; what is stable here stays so.
#[derive(Debug, Clone, PartialEq)]
pub struct Stability {
    /// Line pressure.
    pub line: Pressure,
    /// Feed at rest.
    pub feed: Pressure,
    /// Spool position at rest.
    pub spool_position: Length,
    /// The spool rests on a stop and takes no part: only pressures move.
    pub on_stop: bool,
    /// Every mode, slowest to die (or fastest to grow) first; one for each pair.
    pub modes: Vec<Mode>,
    /// Whether every mode dies out.
    pub stable: bool,
    /// What was assumed.
    pub assumptions: Arc<[Assumption]>,
}

impl MovingCircuit {
    /// Small motions about the state of rest under `line` (0 to 10 MPa) with `demand` over the
    /// described one (0 to 10).
    ///
    /// Eigenvalues of the Jacobian (exact, by dual numbers) by nalgebra's Schur decomposition.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`]; [`PhysicsError::NoSolution`] if the eigenvalues aren't
    /// found.
    pub fn stability(&self, line: Pressure, demand: Ratio) -> Result<Stability, PhysicsError> {
        let line_pa = range::LINE_PRESSURE.check(line.get::<pascal>())?;
        let scale = range::DEMAND_SCALE.check(demand.get::<ratio>())?;
        let y = self.rest(line_pa, scale, Branch::Frictionless);
        let plant = &self.plant;
        let on_stop = y[X] <= 0.0 || y[X] >= plant.laws.stroke;
        let motion = if on_stop {
            Motion::OpenStop
        } else {
            Motion::Free
        };
        let jacobian: Vec<Vec<f64>> = if plant.with_chamber() {
            let l = plant.linearised::<5, 6>(&y, (line_pa, 0.0), (scale, 0.0), motion);
            l.jacobian.map(|row| row.to_vec()).to_vec()
        } else {
            let y = [y[0], y[1], y[2], y[3]];
            let l = plant.linearised::<4, 5>(&y, (line_pa, 0.0), (scale, 0.0), motion);
            l.jacobian.map(|row| row.to_vec()).to_vec()
        };
        let states: Vec<usize> = (0..jacobian.len())
            .filter(|&i| !(on_stop && (i == X || i == V)))
            .filter(|&i| i != REACTION || plant.laws.orifice.is_some())
            .collect();
        // Millimetres, metres a second and bars: numbers of one size.
        let unit = |i: usize| match i {
            X => 1e-3,
            V => 1.0,
            _ => 1e5,
        };
        let matrix = DMatrix::from_fn(states.len(), states.len(), |r, c| {
            let (i, j) = (states[r], states[c]);
            jacobian[i][j] * unit(j) / unit(i)
        });
        let none = PhysicsError::NoSolution {
            what: "eigenvalues",
        };
        if !matrix.iter().all(|e| e.is_finite()) {
            return Err(none);
        }
        let values = Schur::try_new(matrix, f64::EPSILON, 10_000)
            .ok_or(none)?
            .complex_eigenvalues();
        let mut modes: Vec<Mode> = values
            .iter()
            // One of each pair.
            .filter(|e| e.im >= 0.0)
            .map(|e| {
                let size = e.re.hypot(e.im);
                let tau = std::f64::consts::TAU;
                Mode {
                    growth: Frequency::new::<hertz>(e.re),
                    frequency: Frequency::new::<hertz>(e.im / tau),
                    natural_frequency: Frequency::new::<hertz>(size / tau),
                    damping_ratio: Ratio::new::<ratio>(if size > 0.0 { -e.re / size } else { 0.0 }),
                }
            })
            .collect();
        modes.sort_by(|a, b| b.growth.value.total_cmp(&a.growth.value));
        Ok(Stability {
            line,
            feed: Pressure::new::<pascal>(y[FEED]),
            spool_position: Length::new::<meter>(y[X]),
            on_stop,
            stable: modes.iter().all(|m| m.growth.value < 0.0),
            modes,
            assumptions: self.assumptions.clone(),
        })
    }

    /// As [`MovingCircuit::stability`], for line and demand as they stand before `scenario`.
    pub(super) fn stability_at_start(
        &self,
        scenario: &Scenario,
    ) -> Result<Stability, PhysicsError> {
        let duration = range::DURATION.check(scenario.duration.get::<second>())?;
        let (line, demand) = courses(&scenario.line, &scenario.demand, duration)?.before;
        self.stability(Pressure::new::<pascal>(line), Ratio::new::<ratio>(demand))
    }
}
