//! The static balance: one bracketed root in the reaction pressure, everything else follows.
//!
//! Given the reaction pressure, its leaks tell the flow through the balance orifice and so the
//! feed pressure; the chamber's leaks tell the chamber pressure; the forces tell where the spool
//! rests, on a stop or between; and the oil that feed then gains or loses is the residual. At the
//! lowest pressure of all neighbours feed can only gain, at the highest only lose, so there is
//! always a root. Where positive feedback (a filled spring chamber) allows more than one, one of
//! them is found.

use uom::si::f64::{Force, Length, Pressure, VolumeRate};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::volume_rate::cubic_meter_per_second;

use super::circuit::{Circuit, DrainLaw, End, Laws, Pressures};
use super::description::MAX_LEAKS;
use super::result::{Branch, Flows, LeakFlows, OperatingPoint, RegulatorState};
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
        let trial = self.laws.balance(line, branch);
        Ok(self.report(&trial, branch))
    }

    fn report(&self, trial: &Trial, branch: Branch) -> OperatingPoint {
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
                balance: rate(-laws.leaks_into(End::Reaction, &p)),
                drain: rate(laws.drain_flow(&p)),
                leaks,
                mass_balance_residual: rate(laws.gain(trial)),
            },
            flow_force: Force::new::<newton>(supply_force - exhaust_force),
            assumptions: self.assumptions.clone(),
        }
    }
}

impl Laws {
    /// The balance at one line pressure.
    pub(super) fn balance(&self, line: f64, branch: Branch) -> Trial {
        let mut guess = 0.5 * self.stroke;
        let mut gain = |reaction: f64| {
            let trial = self.trial(line, reaction, branch, guess);
            guess = trial.x;
            self.gain(&trial)
        };
        // Where the spool would leave either stop by the spring alone: as a rule the answer lies
        // just there, so these two save most of the steps.
        let highest = line.max(self.highest_held);
        let leave = (self.load / self.reaction_area).min(highest);
        let arrive = ((self.load + self.rate * self.stroke) / self.reaction_area).min(highest);
        let at_leave = gain(leave);
        let reaction = if at_leave <= 0.0 {
            let at_zero = gain(0.0);
            bracketed(&mut gain, 0.0, at_zero, leave, at_leave, 0.0)
        } else {
            let at_arrive = gain(arrive);
            if at_arrive <= 0.0 {
                bracketed(&mut gain, leave, at_leave, arrive, at_arrive, 0.0)
            } else {
                let at_highest = gain(highest);
                bracketed(&mut gain, arrive, at_arrive, highest, at_highest, 0.0)
            }
        };
        self.trial(line, reaction, branch, guess)
    }

    /// Everything that follows from the reaction pressure.
    fn trial(&self, line: f64, reaction: f64, branch: Branch, guess: f64) -> Trial {
        let mut p = Pressures {
            line,
            feed: reaction,
            reaction,
            chamber: 0.0,
        };
        self.set_feed(&mut p);
        self.set_chamber(&mut p);
        let x = self.rest(&p, branch, guess);
        Trial { p, x }
    }

    /// Feed pressure from the reaction pressure, by the balance of the reaction chamber.
    fn set_feed(&self, p: &mut Pressures) {
        let Some(orifice) = self.orifice else {
            return;
        };
        if !self.reaction_meets_feed && !self.reaction_meets_chamber {
            p.feed = p.reaction + orifice.drop(-self.leaks_into(End::Reaction, p));
            return;
        }
        let base = *p;
        let short = |feed: f64| {
            let mut q = base;
            q.feed = feed;
            if self.reaction_meets_chamber {
                self.set_chamber(&mut q);
            }
            orifice.flow(feed - q.reaction) + self.leaks_into(End::Reaction, &q)
        };
        let start = short(p.reaction);
        if start == 0.0 {
            return;
        }
        // Rising with feed; step away from the reaction pressure until it has changed sign.
        let direction = if start > 0.0 { -1.0 } else { 1.0 };
        let mut step = 1e3;
        let (mut near, mut at_near) = (p.reaction, start);
        for _ in 0..80 {
            let far = p.reaction + direction * step;
            let at_far = short(far);
            if (at_far > 0.0) != (at_near > 0.0) {
                p.feed = bracketed(short, near, at_near, far, at_far, 0.0);
                return;
            }
            (near, at_near) = (far, at_far);
            step *= 4.0;
        }
        p.feed = near;
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

    /// What feed gains, all flows told.
    #[inline]
    pub(super) fn gain(&self, trial: &Trial) -> f64 {
        let Trial { p, x } = trial;
        self.supply.flow(*x, p.line - p.feed)
            - self.exhaust_flow(*x, p)
            - self.demand.map_or(0.0, |d| d.flow(p.feed))
            - self.relief.map_or(0.0, |r| r.flow(p.feed))
            + self.leaks_into(End::Reaction, p)
            + self.leaks_into(End::Feed, p)
    }

    fn state(&self, trial: &Trial) -> RegulatorState {
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
            entering += self.leaks_into(End::Reaction, &p).max(0.0);
            if supply < AUTHORITY * entering {
                return RegulatorState::LostControl;
            }
        }
        RegulatorState::Regulating
    }
}
