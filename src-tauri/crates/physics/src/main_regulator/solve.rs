//! The static balance: one bracketed root in line pressure, everything else follows from it.
//!
//! Given line, the balance orifice and the leaks tell the reaction pressure, the boost orifice and
//! the leaks that in the boost chamber; the forces tell where the spool rests, on a stop or
//! between; and the oil that line then gains or loses is the residual. At no pressure line can only
//! gain; where it still gains at 10 MPa there is no answer within the range.
//!
//! Boost acts on more area than line as a rule, so that line leaking into the boost chamber feeds
//! back on itself and may allow more than one balance; the search goes up from the spring's
//! pressure, where a circuit that starts from rest gets first, and gives the one that it meets.

use uom::si::f64::{Force, Length, Pressure, VolumeRate};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::volume_rate::cubic_meter_per_second;

use super::description::Pump;
use super::laws::{MainCircuit, MainEnd, MainLaws, MainPressures, PumpLaw};
use super::result::{MainFlows, MainPoint, MainState};
use crate::error::PhysicsError;
use crate::flow_force::steady_si;
use crate::range;
use crate::regulator::Branch;
use crate::root::bracketed;

/// A trial of the balance.
#[derive(Debug, Clone, Copy)]
pub(crate) struct MainTrial {
    pub p: MainPressures,
    pub x: f64,
    /// What the feed regulator takes from line.
    pub feed_regulator: f64,
}

impl MainCircuit {
    /// The main regulator at rest with `pump` turning and the solenoid giving `solenoid_output` (0
    /// to 10 MPa over sump).
    ///
    /// Lost control is an answer, not an error: see [`MainState`].
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`]; [`PhysicsError::NoSolution`] naming `line_pressure_pa` when
    /// nothing lets the pump's flow go below 10 MPa.
    pub fn solve(
        &self,
        pump: &Pump,
        solenoid_output: Pressure,
        branch: Branch,
    ) -> Result<MainPoint, PhysicsError> {
        let pump = pump.law(self.viscosity)?;
        let supply =
            range::OIL_PRESSURE.check_as("solenoid_output_pa", solenoid_output.get::<pascal>())?;
        let trial = self.balance(&pump, branch, |_| (supply, 0.0))?;
        Ok(self.report(&trial, &pump, branch))
    }

    /// The least ideal flow of a pump that slips like `pump` with which line is still held, at this
    /// `solenoid_output`: demand, leaks and slip where the spool just leaves its shut stop. The
    /// flow that `pump` states is not used. Friction is left out.
    ///
    /// # Errors
    /// As [`MainCircuit::solve`].
    pub fn least_pump_flow(
        &self,
        pump: &Pump,
        solenoid_output: Pressure,
    ) -> Result<VolumeRate, PhysicsError> {
        let pump = pump.law(self.viscosity)?;
        let supply =
            range::OIL_PRESSURE.check_as("solenoid_output_pa", solenoid_output.get::<pascal>())?;
        let top = range::LINE_PRESSURE.high;
        let left_over = |line: f64| {
            self.laws.left_over(
                0.0,
                &self.laws.pressures(line, supply),
                Branch::Frictionless,
            )
        };
        let (low, high) = (left_over(0.0), left_over(top));
        if high <= 0.0 {
            return Err(PhysicsError::NoSolution {
                what: "line_pressure_pa",
            });
        }
        let line = if low >= 0.0 {
            0.0
        } else {
            bracketed(left_over, 0.0, low, top, high, 0.0)
        };
        let trial = MainTrial {
            p: self.laws.pressures(line, supply),
            x: 0.0,
            feed_regulator: 0.0,
        };
        let needed = pump.slip_per_pascal * line - self.laws.gain_without_pump(&trial);
        Ok(VolumeRate::new::<cubic_meter_per_second>(needed.max(0.0)))
    }

    /// The balance; `beside` tells, for a line pressure, what the solenoid gives and what the feed
    /// regulator takes from line.
    pub(crate) fn balance(
        &self,
        pump: &PumpLaw,
        branch: Branch,
        beside: impl Fn(f64) -> (f64, f64),
    ) -> Result<MainTrial, PhysicsError> {
        let laws = &self.laws;
        let trial = |line: f64| {
            let (supply, feed_regulator) = beside(line);
            let p = laws.pressures(line, supply);
            MainTrial {
                p,
                x: laws.rest(&p, branch),
                feed_regulator,
            }
        };
        let gain = |line: f64| pump.flow(line) + laws.gain_without_pump(&trial(line));
        // Where the spool would leave either stop by the spring and a boost as at the spring's
        // pressure: as a rule the answer lies near, so this saves steps.
        let top = range::LINE_PRESSURE.high;
        let (mut low, mut at_low) = (0.0, gain(0.0));
        let (mut high, mut at_high) = (top, f64::NAN);
        let mut probe = (laws.load / laws.reaction_area).min(0.5 * top);
        while probe < top {
            let at = gain(probe);
            if at <= 0.0 {
                (high, at_high) = (probe, at);
                break;
            }
            (low, at_low) = (probe, at);
            let (supply, _) = beside(probe);
            let stiff = (laws.load + laws.rate * laws.stroke + laws.boost_area * supply)
                / laws.reaction_area;
            probe = if stiff > 1.05 * probe {
                stiff
            } else {
                2.0 * probe
            };
        }
        if at_high.is_nan() {
            at_high = gain(top);
        }
        if at_high > 0.0 {
            return Err(PhysicsError::NoSolution {
                what: "line_pressure_pa",
            });
        }
        Ok(trial(bracketed(gain, low, at_low, high, at_high, 0.0)))
    }

    pub(crate) fn report(&self, trial: &MainTrial, pump: &PumpLaw, branch: Branch) -> MainPoint {
        let laws = &self.laws;
        let MainTrial {
            p,
            x,
            feed_regulator,
        } = *trial;
        let rate = VolumeRate::new::<cubic_meter_per_second>;
        let pressure = Pressure::new::<pascal>;
        let state = if x <= 0.0 {
            MainState::PumpStarved
        } else if x >= laws.stroke {
            MainState::EdgesTooSmall
        } else {
            MainState::Regulating
        };
        let (dump, overflow) = laws.edges(x, p.line);
        MainPoint {
            line: pressure(p.line),
            reaction: pressure(p.reaction),
            boost: pressure(p.boost),
            spool_position: Length::new::<meter>(x),
            state,
            branch,
            flows: MainFlows {
                pump: rate(pump.flow(p.line)),
                dump: rate(dump),
                overflow: rate(overflow),
                demand: rate(laws.demand.map_or(0.0, |d| d.flow(p.line))),
                relief: rate(laws.relief.map_or(0.0, |r| r.flow(p.line))),
                balance: rate(laws.balance_flow(&p)),
                boost: rate(laws.boost_flow(&p)),
                feed_regulator: rate(feed_regulator),
                leaks: laws.leaks.iter().map(|l| rate(l.flow(&p))).collect(),
                mass_balance_residual: rate(pump.flow(p.line) + laws.gain_without_pump(trial)),
            },
            flow_force: Force::new::<newton>(laws.edge_forces(x, p.line)),
            assumptions: self.assumptions.clone(),
        }
    }
}

impl MainLaws {
    /// Reaction and boost pressure from line and the solenoid's output.
    pub(super) fn pressures(&self, line: f64, supply: f64) -> MainPressures {
        let mut p = MainPressures {
            line,
            reaction: line,
            boost: supply,
            supply,
        };
        if let Some(orifice) = self.balance.filter(|_| self.touched(MainEnd::Reaction)) {
            let meets = self.reaction_meets_boost();
            let gain = |reaction: f64| {
                let mut q = MainPressures { reaction, ..p };
                if meets {
                    self.set_boost(&mut q);
                }
                orifice.flow(line - reaction) + self.leaks_into(MainEnd::Reaction, &q)
            };
            let high = line.max(supply).max(self.highest_held);
            p.reaction = bracketed(gain, 0.0, gain(0.0), high, gain(high), 0.0);
        }
        self.set_boost(&mut p);
        p
    }

    fn set_boost(&self, p: &mut MainPressures) {
        let Some(orifice) = self.boost_orifice.filter(|_| self.touched(MainEnd::Boost)) else {
            p.boost = p.supply;
            return;
        };
        let base = *p;
        let gain = |boost: f64| {
            let q = MainPressures { boost, ..base };
            orifice.flow(q.supply - boost) + self.leaks_into(MainEnd::Boost, &q)
        };
        let high = p.line.max(p.reaction).max(p.supply).max(self.highest_held);
        p.boost = bracketed(gain, 0.0, gain(0.0), high, gain(high), 0.0);
    }

    /// From the solenoid into the boost chamber.
    pub(super) fn boost_flow(&self, p: &MainPressures) -> f64 {
        0.0 - self.leaks_into(MainEnd::Boost, p)
    }

    /// From line into the reaction chamber.
    fn balance_flow(&self, p: &MainPressures) -> f64 {
        0.0 - self.leaks_into(MainEnd::Reaction, p)
    }

    /// Flow past the edge to suction and past that to the overflow passage.
    #[inline]
    fn edges(&self, x: f64, line: f64) -> (f64, f64) {
        let overflow = self
            .overflow
            .map_or(0.0, |(edge, held)| edge.flow(x, line - held));
        (self.dump.flow(x, line), overflow)
    }

    /// Steady flow force of all edges, toward closing them.
    #[inline]
    fn edge_forces(&self, x: f64, line: f64) -> f64 {
        let (dump, overflow) = self.edges(x, line);
        let held = self.overflow.map_or(0.0, |(_, held)| held);
        steady_si(dump, line, self.density) + steady_si(overflow, line - held, self.density)
    }

    /// Force toward +x that is left over.
    #[inline]
    pub(super) fn left_over(&self, x: f64, p: &MainPressures, branch: Branch) -> f64 {
        let friction = match branch {
            Branch::Frictionless => 0.0,
            Branch::Rising => -self.friction,
            Branch::Falling => self.friction,
        };
        p.reaction * self.reaction_area
            - p.boost * self.boost_area
            - self.load
            - self.rate * x
            - self.edge_forces(x, p.line)
            + friction
    }

    /// Position where the forces balance, or the stop that they hold the spool against. The force
    /// that is left over falls with x all the way: spring and flow force both grow.
    fn rest(&self, p: &MainPressures, branch: Branch) -> f64 {
        let force = |x: f64| self.left_over(x, p, branch);
        let (shut, open) = (force(0.0), force(self.stroke));
        if shut <= 0.0 {
            0.0
        } else if open >= 0.0 {
            self.stroke
        } else {
            bracketed(force, 0.0, shut, self.stroke, open, 0.0)
        }
    }

    /// What line gains, the pump left out.
    pub(super) fn gain_without_pump(&self, trial: &MainTrial) -> f64 {
        let MainTrial {
            p,
            x,
            feed_regulator,
        } = trial;
        let (dump, overflow) = self.edges(*x, p.line);
        self.leaks_into(MainEnd::Line, p)
            - dump
            - overflow
            - self.demand.map_or(0.0, |d| d.flow(p.line))
            - self.relief.map_or(0.0, |r| r.flow(p.line))
            - self.balance_flow(p)
            - feed_regulator
    }
}

impl MainCircuit {
    pub(crate) fn pump_law(&self, pump: &Pump) -> Result<PumpLaw, PhysicsError> {
        pump.law(self.viscosity)
    }

    /// What the boost chamber takes from the solenoid at these pressures.
    pub(crate) fn boost_needs(&self, line: f64, supply: f64) -> f64 {
        if !self.laws.touched(MainEnd::Boost) {
            return 0.0;
        }
        self.laws.boost_flow(&self.laws.pressures(line, supply))
    }
}
