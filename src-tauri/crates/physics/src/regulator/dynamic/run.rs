//! A moving regulator in one oil, and what it is put through.

use std::sync::Arc;
use std::sync::atomic::AtomicBool;

use uom::si::f64::{Length, Pressure, Ratio, Time};
use uom::si::length::meter;
use uom::si::mass::kilogram;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::time::second;
use uom::si::volume::cubic_meter;

use super::super::result::Branch;
use super::course::{Course, DemandCourse, Line, courses};
use super::description::MovingRegulator;
use super::error::DynamicError;
use super::integrate::{Settings, integrate};
use super::measure::measured;
use super::plant::Plant;
use super::result::Transient;
use crate::assumption::{Assumption, note};
use crate::error::PhysicsError;
use crate::fluid::OilState;
use crate::range::{self, within};

/// Where everything is at the start.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Start {
    /// At rest under the line pressure and demand that stand before the start, coming from that
    /// side of the friction.
    Rest(Branch),
    /// Empty: no pressure anywhere, the spool on its open stop.
    Empty,
    /// As told, the spool standing still.
    At(StartState),
}

/// A state to start from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StartState {
    /// Spool position, 0 to the stroke.
    pub spool_position: Length,
    /// Feed, 0 to 10 MPa over sump.
    pub feed: Pressure,
    /// Reaction pressure; not used without a balance orifice.
    pub reaction: Pressure,
    /// Spring chamber; not used where it is open to sump.
    pub spring_chamber: Pressure,
}

/// What a regulator is put through.
#[derive(Debug, Clone, PartialEq)]
pub struct Scenario {
    /// Line pressure with time.
    pub line: Line,
    /// Demand with time.
    pub demand: DemandCourse,
    /// Where everything is at the start.
    pub start: Start,
    /// How long, 10 µs to 60 s.
    pub duration: Time,
    /// Points of the trace, 2 to 200 000.
    pub points: usize,
    /// Relative error that a step may make, 1e-10 to 1e-2; the floors are 1 mm, 1 m/s, 1 bar.
    pub relative_tolerance: Ratio,
    /// How near to its last value feed counts as settled, 1 Pa to 1 MPa.
    pub settling_band: Pressure,
    /// Most steps of the solver, 100 to 100 million.
    pub step_limit: u64,
}

impl Scenario {
    /// `line` for `duration` from rest without friction: full demand, 2,000 points, tolerance
    /// 1e-6, a band of 10 kPa, at most a million steps.
    #[must_use]
    pub fn new(line: Line, duration: Time) -> Self {
        Self {
            line,
            demand: Course::Constant(Ratio::new::<ratio>(1.0)),
            start: Start::Rest(Branch::Frictionless),
            duration,
            points: 2_000,
            relative_tolerance: Ratio::new::<ratio>(1e-6),
            settling_band: Pressure::new::<pascal>(1e4),
            step_limit: 1_000_000,
        }
    }
}

/// A moving regulator brought to one oil.
#[derive(Debug, Clone)]
pub struct MovingCircuit {
    pub(super) plant: Plant,
    pub(super) assumptions: Arc<[Assumption]>,
}

impl MovingRegulator {
    /// Checks every number and brings the regulator to one oil.
    ///
    /// # Errors
    /// As [`Regulator::circuit`](super::super::Regulator::circuit), and for the numbers of its
    /// own.
    pub fn circuit(&self, oil: &OilState) -> Result<MovingCircuit, PhysicsError> {
        let still = self.regulator.circuit(oil)?;
        let mut assumptions = still.assumptions().to_vec();
        assumptions.extend([
            Assumption::AirStaysFree,
            Assumption::StopsWithoutRebound,
            Assumption::FlowForceSteady,
            Assumption::PassagesWithoutWaves,
        ]);
        if self.regulator.relief.is_some() {
            note(&mut assumptions, Assumption::ReliefWithoutMass);
        }
        let breakaway = range::BREAKAWAY_RATIO.check(self.breakaway.get::<ratio>())?;
        let volume = |name, v: uom::si::f64::Volume| {
            range::OIL_VOLUME.check_as(name, v.get::<cubic_meter>())
        };
        let laws = still.laws;
        Ok(MovingCircuit {
            plant: Plant {
                leaks: laws.leaks().copied().collect(),
                mass: range::SPOOL_MASS.check(self.spool_mass.get::<kilogram>())?,
                damping: range::VISCOUS_DAMPING.check(self.damping.get::<kilogram_per_second>())?,
                breakaway: breakaway * laws.friction,
                feed_volume: volume("feed_volume_m3", self.feed_volume)?,
                reaction_volume: volume("reaction_volume_m3", self.reaction_volume)?,
                chamber_volume: volume("chamber_volume_m3", self.chamber_volume)?,
                oil: self.oil_stiffness.law()?,
                laws,
            },
            assumptions: assumptions.into(),
        })
    }
}

impl MovingCircuit {
    /// What every result of this circuit assumes.
    #[must_use]
    pub fn assumptions(&self) -> &[Assumption] {
        &self.assumptions
    }

    /// Follows the regulator through `scenario`.
    ///
    /// # Errors
    /// [`DynamicError`].
    pub fn simulate(&self, scenario: &Scenario) -> Result<Transient, DynamicError> {
        self.simulate_until(scenario, None)
    }

    /// As [`MovingCircuit::simulate`], given up soon after `cancel` turns true.
    ///
    /// # Errors
    /// As there; [`DynamicError::Cancelled`].
    pub fn simulate_until(
        &self,
        scenario: &Scenario,
        cancel: Option<&AtomicBool>,
    ) -> Result<Transient, DynamicError> {
        let duration = range::DURATION.check(scenario.duration.get::<second>())?;
        let count = u32::try_from(scenario.points).map_or(f64::INFINITY, f64::from);
        within("point_count_ratio", count, 2.0, 200_000.0, "1")?;
        let limit = u32::try_from(scenario.step_limit).map_or(f64::INFINITY, f64::from);
        within("step_limit_ratio", limit, 100.0, 1e8, "1")?;
        let courses = courses(&scenario.line, &scenario.demand, duration)?;
        let mut longest = 0.02 * duration;
        if courses.ripple_frequency > 0.0 {
            longest = longest.min(0.125 / courses.ripple_frequency);
        }
        let settings = Settings {
            tolerance: range::RELATIVE_TOLERANCE
                .check(scenario.relative_tolerance.get::<ratio>())?,
            longest,
            step_limit: scenario.step_limit,
            points: scenario.points,
            duration,
            cancel,
        };
        let band = range::SETTLING_BAND.check(scenario.settling_band.get::<pascal>())?;
        let y = self.start(scenario.start, courses.before)?;
        let record = if self.plant.with_chamber() {
            integrate::<5, 6>(&self.plant, &courses, y, settings)?
        } else {
            let y = [y[0], y[1], y[2], y[3]];
            integrate::<4, 5>(&self.plant, &courses, y, settings)?
        };
        Ok(measured(
            record,
            &courses,
            &settings,
            band,
            self.assumptions.clone(),
        ))
    }

    /// The state at the start, with line and demand as they were before it.
    fn start(&self, start: Start, before: (f64, f64)) -> Result<[f64; 5], PhysicsError> {
        match start {
            Start::Empty => Ok([0.0; 5]),
            Start::Rest(branch) => Ok(self.rest(before.0, before.1, branch)),
            Start::At(s) => {
                let pressure =
                    |p: Pressure| range::OIL_PRESSURE.check_as("start_state", p.get::<pascal>());
                let x = s.spool_position.get::<meter>();
                let x = within("start_state", x, 0.0, self.plant.laws.stroke, "m")?;
                let feed = pressure(s.feed)?;
                let reaction = pressure(s.reaction)?;
                let reaction = if self.plant.laws.orifice.is_some() {
                    reaction
                } else {
                    feed
                };
                Ok([x, 0.0, feed, reaction, pressure(s.spring_chamber)?])
            }
        }
    }

    /// The static balance under `line` with the part `scale` of the demand.
    pub(super) fn rest(&self, line: f64, scale: f64, branch: Branch) -> [f64; 5] {
        let mut laws = self.plant.laws.clone();
        laws.demand = laws.demand.map(|d| d.scaled(scale));
        let trial = laws.balance(line, 0.0, branch, 0.0);
        let p = trial.p;
        [trial.x, 0.0, p.feed, p.reaction, p.chamber]
    }
}
