//! The static balance: one bracketed root in the reaction pressure, everything else follows.
//!
//! Given the reaction pressure, its leaks tell the flow through the balance orifice and so the
//! feed pressure; the chamber's leaks tell the chamber pressure; the forces tell where the spool
//! rests, on a stop or between; and the oil that feed then gains or loses is the residual. (Where
//! the reaction chamber's leaks dwarf its orifice, the feed pressure is the unknown instead and
//! the reaction pressure follows from it.) At the lowest pressure of all neighbours feed can only
//! gain, at the highest only lose, so there is always a root. Where positive feedback (a filled
//! spring chamber) allows more than one, one of them is found.

use uom::si::f64::{Force, Length, Pressure, VolumeRate};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::volume_rate::cubic_meter_per_second;

use super::circuit::{Circuit, DrainLaw, End, Laws, Pressures};
use super::description::MAX_LEAKS;
use super::result::{Branch, Flows, LeakFlows, OperatingPoint, RegulatorState};
use super::spool::Rest;
use crate::error::PhysicsError;
use crate::range;
use crate::root::bracketed;

/// Below this share of the oil that enters feed, a shut supply no longer decides its pressure.
const AUTHORITY: f64 = 0.1;

/// A trial of the balance.
#[derive(Debug, Clone, Copy)]
pub(super) struct Trial {
    pub p: Pressures,
    pub x: f64,
}

impl Circuit {
    /// The regulator at rest under `line` (0 to 10 MPa over sump).
    ///
    /// Bad states of the valve are answers, not errors: see [`RegulatorState`].
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`] for the line pressure.
    pub fn solve(&self, line: Pressure, branch: Branch) -> Result<OperatingPoint, PhysicsError> {
        let line = range::LINE_PRESSURE.check(line.get::<pascal>())?;
        Ok(self.solve_drawn(line, 0.0, branch))
    }

    /// As [`Circuit::solve`], with `draw` taken from feed by something beside the description.
    pub(crate) fn solve_drawn(&self, line: f64, draw: f64, branch: Branch) -> OperatingPoint {
        let trial = self.laws.balance(line, draw, branch, 0.0);
        self.report(&trial, draw, branch)
    }

    /// Feed, and what this regulator takes from line, Pa and m3/s.
    pub(crate) fn feed_and_taken(&self, line: f64, draw: f64, branch: Branch) -> (f64, f64) {
        let Trial { p, x } = self.laws.balance(line, draw, branch, 0.0);
        let supply = self.laws.supply.flow(x, p.line - p.feed);
        (p.feed, supply - self.laws.leaks_into(End::Line, &p))
    }

    fn report(&self, trial: &Trial, draw: f64, branch: Branch) -> OperatingPoint {
        let laws = &self.laws;
        let Trial { p, x } = *trial;
        let rate = VolumeRate::new::<cubic_meter_per_second>;
        let pressure = Pressure::new::<pascal>;
        let mut leaks = LeakFlows {
            flows: [rate(0.0); MAX_LEAKS],
            count: 0,
        };
        for leak in laws.leaks() {
            leaks.flows[leaks.count] = rate(leak.loss.flow(p.at(leak.from) - p.at(leak.to)));
            leaks.count += 1;
        }
        let (supply_force, exhaust_force) = laws.flow_forces(x, &p);
        OperatingPoint {
            line: pressure(p.line),
            feed: pressure(p.feed),
            reaction: pressure(p.reaction),
            spring_chamber: pressure(p.chamber),
            spool_position: Length::new::<meter>(x),
            state: laws.state(trial),
            branch,
            flows: Flows {
                supply: rate(laws.supply.flow(x, p.line - p.feed)),
                exhaust: rate(laws.exhaust_flow(x, &p)),
                demand: rate(laws.demand.map_or(0.0, |d| d.flow(p.feed))),
                relief: rate(laws.relief.map_or(0.0, |r| r.flow(p.feed))),
                balance: rate(laws.balance_flow(&p)),
                drain: rate(laws.drain_flow(&p)),
                leaks,
                mass_balance_residual: rate(laws.gain(trial) - draw),
            },
            flow_force: Force::new::<newton>(supply_force - exhaust_force),
            assumptions: self.assumptions.clone(),
        }
    }
}

impl Laws {
    /// The balance at one line pressure, with `draw` taken from feed beside all that is described,
    /// to `tolerance` in pressure (0 for the last bit).
    pub(super) fn balance(&self, line: f64, draw: f64, branch: Branch, tolerance: f64) -> Trial {
        let mut last = Rest {
            x: 0.5 * self.stroke,
            stiffness: f64::INFINITY,
        };
        let mut known = 0.0;
        let mut trial = |unknown: f64| {
            let mut p = Pressures {
                line,
                feed: unknown,
                reaction: unknown,
                chamber: 0.0,
            };
            if self.feed_first {
                self.set_reaction(&mut p);
            } else if let Some(orifice) = self.orifice {
                p.feed = p.reaction + orifice.drop(-self.leaks_into(End::Reaction, &p));
            }
            self.set_chamber(&mut p);
            // Where the spool will be, had only the reaction pressure changed.
            let guess = last.x + (p.reaction - known) * self.reaction_area / last.stiffness;
            last = self.rest(&p, branch, guess);
            known = p.reaction;
            Trial { p, x: last.x }
        };
        let mut gain = |unknown: f64| self.gain(&trial(unknown)) - draw;
        // Where the spool would leave either stop by the spring alone: as a rule the answer lies
        // just there, so these two save most of the steps.
        let highest = line.max(self.highest_held);
        let leave = (self.load / self.reaction_area).min(highest);
        let arrive = ((self.load + self.rate * self.stroke) / self.reaction_area).min(highest);
        let at_leave = gain(leave);
        let unknown = if at_leave <= 0.0 {
            let at_zero = gain(0.0);
            bracketed(&mut gain, 0.0, at_zero, leave, at_leave, tolerance)
        } else {
            let at_arrive = gain(arrive);
            if at_arrive <= 0.0 {
                bracketed(&mut gain, leave, at_leave, arrive, at_arrive, tolerance)
            } else {
                let at_highest = gain(highest);
                bracketed(&mut gain, arrive, at_arrive, highest, at_highest, tolerance)
            }
        };
        trial(unknown)
    }

    /// Reaction and chamber pressure from feed and line pressure.
    pub(super) fn set_reaction(&self, p: &mut Pressures) {
        let Some(orifice) = self.orifice else {
            p.reaction = p.feed;
            self.set_chamber(p);
            return;
        };
        let base = *p;
        let gain = |reaction: f64| {
            let mut q = Pressures { reaction, ..base };
            if self.reaction_meets_chamber {
                self.set_chamber(&mut q);
            }
            orifice.flow(q.feed - reaction) + self.leaks_into(End::Reaction, &q)
        };
        let high = p.line.max(p.feed).max(self.highest_held);
        p.reaction = bracketed(gain, 0.0, gain(0.0), high, gain(high), 0.0);
        self.set_chamber(p);
    }

    /// Chamber pressure from all others, by the balance of the spring chamber.
    pub(super) fn set_chamber(&self, p: &mut Pressures) {
        if matches!(self.drain, DrainLaw::Open) {
            p.chamber = 0.0;
            return;
        }
        let base = *p;
        let gain = |chamber: f64| {
            let mut q = base;
            q.chamber = chamber;
            self.leaks_into(End::Chamber, &q) - self.drain_flow(&q)
        };
        let low = p.feed.min(p.reaction).min(0.0);
        let high = p.line.max(p.feed).max(p.reaction).max(self.highest_held);
        p.chamber = bracketed(gain, low, gain(low), high, gain(high), 0.0);
    }

    /// Flow from the spring chamber to sump.
    #[inline]
    pub(super) fn drain_flow(&self, p: &Pressures) -> f64 {
        match self.drain {
            DrainLaw::Open => self.leaks_into(End::Chamber, p),
            DrainLaw::Blocked => 0.0,
            DrainLaw::Orifice(o) => o.flow(p.chamber),
        }
    }

    #[inline]
    fn exhaust_flow(&self, x: f64, p: &Pressures) -> f64 {
        self.exhaust.map_or(0.0, |e| e.flow(x, p.feed))
    }

    /// Flow from feed to the reaction chamber, through the orifice (or at once, without one).
    #[inline]
    fn balance_flow(&self, p: &Pressures) -> f64 {
        match self.orifice {
            Some(orifice) if self.feed_first => orifice.flow(p.feed - p.reaction),
            // Not a bare minus: no flow is 0, not -0.
            _ => 0.0 - self.leaks_into(End::Reaction, p),
        }
    }

    /// What feed gains, all flows told.
    #[inline]
    pub(super) fn gain(&self, trial: &Trial) -> f64 {
        let Trial { p, x } = trial;
        self.supply.flow(*x, p.line - p.feed)
            - self.exhaust_flow(*x, p)
            - self.demand.map_or(0.0, |d| d.flow(p.feed))
            - self.relief.map_or(0.0, |r| r.flow(p.feed))
            - self.balance_flow(p)
            + self.leaks_into(End::Feed, p)
    }

    pub(super) fn state(&self, trial: &Trial) -> RegulatorState {
        let Trial { p, x } = *trial;
        let exhaust_open = self.exhaust.is_some_and(|e| e.width(x) > 0.0);
        if x <= 0.0 {
            return RegulatorState::FullyOpen;
        }
        if x >= self.stroke {
            return if exhaust_open {
                RegulatorState::FullyExhausting
            } else {
                RegulatorState::LostControl
            };
        }
        if self.exhaust.is_none() && self.supply.width(x) <= 0.0 {
            let supply = self.supply.flow(x, p.line - p.feed).max(0.0);
            let mut entering = supply;
            for leak in self.leaks() {
                let q = leak.loss.flow(p.at(leak.from) - p.at(leak.to));
                match (leak.from, leak.to) {
                    (_, End::Feed) => entering += q.max(0.0),
                    (End::Feed, _) => entering += (-q).max(0.0),
                    _ => {}
                }
            }
            entering += (-self.balance_flow(&p)).max(0.0);
            if supply < AUTHORITY * entering {
                return RegulatorState::LostControl;
            }
        }
        RegulatorState::Regulating
    }
}
