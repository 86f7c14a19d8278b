//! Where the spool comes to rest under given pressures.

use super::circuit::{Laws, Pressures};
use super::result::Branch;
use crate::flow_force::{JET_COSINE, VELOCITY_COEFFICIENT, steady_si};

/// Where the spool rests.
#[derive(Debug, Clone, Copy)]
pub(super) struct Rest {
    /// Position.
    pub x: f64,
    /// How the left-over force falls with x there, N/m.
    pub stiffness: f64,
}

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
    /// there is one answer. Newton's steps, kept inside a bracket; `guess` only saves steps.
    #[inline]
    pub(super) fn rest(&self, p: &Pressures, branch: Branch, guess: f64) -> Rest {
        let friction = match branch {
            Branch::Frictionless => 0.0,
            Branch::Rising => -self.friction,
            Branch::Falling => self.friction,
        };
        let push =
            p.reaction * self.reaction_area - p.chamber * self.chamber_area - self.load + friction;
        let jet =
            |dp: f64| VELOCITY_COEFFICIENT * JET_COSINE * (2.0 * self.density * dp.abs()).sqrt();
        let drop = p.line - p.feed;
        let (supply_jet, exhaust_jet) = (jet(drop), jet(p.feed));
        // Left-over force toward +x, and how it falls with x.
        let force = |x: f64| {
            let (q, slope) = self.supply.flow_and_slope(x, drop);
            let mut left = push + supply_jet * q.abs() - self.rate * x;
            let mut stiffness = self.rate - supply_jet * slope * q.signum();
            if let Some(exhaust) = self.exhaust {
                let (q, slope) = exhaust.flow_and_slope(x, p.feed);
                left -= exhaust_jet * q.abs();
                stiffness += exhaust_jet * slope * q.signum();
            }
            (left, stiffness)
        };
        let (mut low, mut high) = (0.0, self.stroke);
        let (mut low_known, mut high_known) = (false, false);
        let mut x = guess.clamp(low, high);
        // A step shorter than this leaves an error far below a picometre: the edge's flow bends
        // over a length of its clearance.
        let near = 1e-16 * self.supply.clearance();
        let mut last = Rest {
            x,
            stiffness: self.rate,
        };
        for step in 0..100 {
            let (left, stiffness) = force(x);
            last = Rest { x, stiffness };
            if left > 0.0 {
                if x >= self.stroke {
                    return last;
                }
                (low, low_known) = (x, true);
            } else if left < 0.0 {
                if x <= 0.0 {
                    return last;
                }
                (high, high_known) = (x, true);
            } else {
                return last;
            }
            let mut next = x + left / stiffness;
            if next <= low {
                // The stop is asked before it is believed.
                next = if low_known { 0.5 * (low + high) } else { low };
            } else if next >= high {
                next = if high_known { 0.5 * (low + high) } else { high };
            } else if (next - x) * (next - x) < near {
                return Rest { x: next, stiffness };
            } else if step > 6 && step % 2 == 0 {
                // Newton is not getting there by itself.
                next = 0.5 * (low + high);
            }
            if next == x || high - low <= 2.0 * f64::EPSILON * high {
                return last;
            }
            x = next;
        }
        last
    }
}
