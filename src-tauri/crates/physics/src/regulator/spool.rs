//! Where the spool comes to rest under given pressures.

use super::circuit::{Laws, Pressures};
use super::result::Branch;
use crate::flow_force::steady_si;
use crate::root::bracketed;

impl Laws {
    /// Steady flow force on the supply land and on the exhaust land, each toward closing it.
    #[inline]
    pub(super) fn flow_forces(&self, x: f64, p: &Pressures) -> (f64, f64) {
        let drop = p.line - p.feed;
        let supply = steady_si(self.supply.flow(x, drop), drop, self.density);
        let exhaust = self
            .exhaust
            .map_or(0.0, |e| steady_si(e.flow(x, p.feed), p.feed, self.density));
        (supply, exhaust)
    }

    /// Position where the forces balance, or the stop that they hold the spool against.
    ///
    /// The force that is left over falls with x all the way (the spring pushes back more, the
    /// supply's flow force dies with its opening, the exhaust's grows against the motion), so
    /// there is one answer. `guess` only saves steps.
    #[inline]
    pub(super) fn rest(&self, p: &Pressures, branch: Branch, guess: f64) -> f64 {
        let friction = match branch {
            Branch::Frictionless => 0.0,
            Branch::Rising => -self.friction,
            Branch::Falling => self.friction,
        };
        let push =
            p.reaction * self.reaction_area - p.chamber * self.chamber_area - self.load + friction;
        let wanted = |x: f64| {
            let (supply, exhaust) = self.flow_forces(x, p);
            ((push + supply - exhaust) / self.rate).clamp(0.0, self.stroke)
        };
        // `wanted` never rises with x, so the answer lies between any x and its image.
        let a = guess.clamp(0.0, self.stroke);
        let b = wanted(a);
        if a == b {
            return a;
        }
        let c = wanted(b);
        if c == b {
            return b;
        }
        bracketed(|x| wanted(x) - x, a, b - a, b, c - b, 1e-15)
    }
}
