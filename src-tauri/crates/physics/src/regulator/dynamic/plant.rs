//! The equations of motion, for plain numbers and for numbers with derivatives alike.
//!
//! States: position x, speed v, feed P_S, reaction P_F, and the spring chamber P_C unless it is
//! open to sump. Without a balance orifice feed and reaction are one volume, and P_F repeats P_S.

use super::super::circuit::{DrainLaw, End, Laws, LeakLaw};
use super::description::Stiffness;
use super::motion::Motion;
use crate::flow_force::{JET_COSINE, VELOCITY_COEFFICIENT};
use crate::rosenbrock::Linearised;
use crate::rosenbrock::dual::{Dual, Scalar};

/// Places of the states.
pub(super) const X: usize = 0;
pub(super) const V: usize = 1;
pub(super) const FEED: usize = 2;
pub(super) const REACTION: usize = 3;
pub(super) const CHAMBER: usize = 4;

/// A regulator in one oil, in SI.
#[derive(Debug, Clone)]
pub(super) struct Plant {
    pub laws: Laws,
    pub leaks: Vec<LeakLaw>,
    pub mass: f64,
    pub damping: f64,
    pub breakaway: f64,
    pub feed_volume: f64,
    pub reaction_volume: f64,
    pub chamber_volume: f64,
    pub oil: Stiffness,
}

/// All pressures at one moment.
#[derive(Debug, Clone, Copy)]
struct Now<S> {
    line: S,
    feed: S,
    reaction: S,
    chamber: S,
}

impl<S: Scalar> Now<S> {
    #[inline]
    fn at(&self, end: End) -> S {
        match end {
            End::Line => self.line,
            End::Feed => self.feed,
            End::Reaction => self.reaction,
            End::Chamber => self.chamber,
            End::Held(p) => S::constant(p),
        }
    }
}

/// Net leaks into each node.
#[derive(Debug, Clone, Copy)]
struct Leaks<S> {
    feed: S,
    reaction: S,
    chamber: S,
}

impl Plant {
    /// How many states there are.
    pub fn with_chamber(&self) -> bool {
        !matches!(self.laws.drain, DrainLaw::Open)
    }

    #[inline]
    fn now<S: Scalar, const N: usize>(&self, y: &[S; N], line: S) -> Now<S> {
        Now {
            line,
            feed: y[FEED],
            reaction: if self.laws.orifice.is_some() {
                y[REACTION]
            } else {
                y[FEED]
            },
            chamber: if N > CHAMBER {
                y[CHAMBER]
            } else {
                S::constant(0.0)
            },
        }
    }

    #[inline]
    fn leaks<S: Scalar>(&self, p: &Now<S>) -> Leaks<S> {
        let zero = S::constant(0.0);
        let (mut feed, mut reaction, mut chamber) = (zero, zero, zero);
        for leak in &self.leaks {
            let q = (p.at(leak.from) - p.at(leak.to))
                .through(|dp| leak.loss.flow(dp), |_, q| leak.loss.slope(q));
            match leak.from {
                End::Feed => feed = feed - q,
                End::Reaction => reaction = reaction - q,
                End::Chamber => chamber = chamber - q,
                End::Line | End::Held(_) => {}
            }
            match leak.to {
                End::Feed => feed = feed + q,
                End::Reaction => reaction = reaction + q,
                End::Chamber => chamber = chamber + q,
                End::Line | End::Held(_) => {}
            }
        }
        Leaks {
            feed,
            reaction,
            chamber,
        }
    }

    /// Flows through supply and exhaust.
    #[inline]
    fn edges<S: Scalar>(&self, x: S, p: &Now<S>) -> (S, S) {
        let law = &self.laws.supply;
        let supply = x.through_both(
            p.line - p.feed,
            |x, dp| law.flow(x, dp),
            |x, dp| law.flow_and_slopes(x, dp),
        );
        let exhaust = match &self.laws.exhaust {
            Some(law) => x.through_both(
                p.feed,
                |x, dp| law.flow(x, dp),
                |x, dp| law.flow_and_slopes(x, dp),
            ),
            None => S::constant(0.0),
        };
        (supply, exhaust)
    }

    /// Force of the jets toward +x.
    #[inline]
    fn jets<S: Scalar>(&self, supply: S, exhaust: S, p: &Now<S>) -> S {
        let momentum = |q: S, dp: S| {
            // |q| sqrt(|dp|), with q odd in dp: its slope at rest is zero.
            let root = dp.through(
                |u| u.abs().sqrt(),
                |u, r| if r > 0.0 { 0.5 * u.signum() / r } else { 0.0 },
            );
            q.through(f64::abs, |u, _| u.signum()) * root
        };
        let factor = VELOCITY_COEFFICIENT * JET_COSINE * (2.0 * self.laws.density).sqrt();
        let mut force = momentum(supply, p.line - p.feed);
        if self.laws.exhaust.is_some() {
            force = force - momentum(exhaust, p.feed);
        }
        force * factor
    }

    #[inline]
    fn push<S: Scalar>(&self, x: S, p: &Now<S>, jets: S) -> S {
        let laws = &self.laws;
        p.reaction * laws.reaction_area - p.chamber * laws.chamber_area - x * laws.rate
            + jets
            + -laws.load
    }

    /// Force toward +x, friction and damping left out.
    pub fn force<const N: usize>(&self, y: &[f64; N], line: f64) -> f64 {
        let p = self.now(y, line);
        let (supply, exhaust) = self.edges(y[X], &p);
        self.push(y[X], &p, self.jets(supply, exhaust, &p))
    }

    /// Demand, at the part `scale` of what the description says.
    pub fn demand(&self, feed: f64, scale: f64) -> f64 {
        scale * self.laws.demand.map_or(0.0, |d| d.flow(feed))
    }

    #[inline]
    fn modulus<S: Scalar>(&self, p: S) -> S {
        p.through(|p| self.oil.modulus(p).0, |p, _| self.oil.modulus(p).1)
    }

    /// A volume that the spool takes part in. A trial step may carry the spool far past its stop;
    /// a solution never does.
    #[inline]
    fn volume<S: Scalar>(rest: f64, swept: S) -> S {
        let v = swept + rest;
        if v.value() > 0.1 * rest {
            v
        } else {
            S::constant(0.1 * rest)
        }
    }

    /// Rates of all states.
    #[inline]
    pub fn rates<S: Scalar, const N: usize>(
        &self,
        y: &[S; N],
        line: S,
        demand: S,
        motion: Motion,
    ) -> [S; N] {
        let laws = &self.laws;
        let zero = S::constant(0.0);
        let p = self.now(y, line);
        let (x, v) = (y[X], y[V]);
        let (supply, exhaust) = self.edges(x, &p);
        let leaks = self.leaks(&p);
        let mut gain = supply - exhaust + leaks.feed;
        if let Some(law) = &laws.demand {
            gain = gain - demand * p.feed.through(|u| law.flow(u), |u, _| law.slope(u));
        }
        if let Some(law) = &laws.relief {
            // By differences, for its lift and area bend: good to 1e-8, and zero when shut.
            let slope = |u: f64, q: f64| {
                let e = 1e-7 * u.abs();
                if q > 0.0 {
                    (law.flow(u + e) - law.flow(u - e)) / (2.0 * e)
                } else {
                    0.0
                }
            };
            gain = gain - p.feed.through(|u| law.flow(u), slope);
        }

        let mut out = [zero; N];
        let mut swept = zero;
        if !motion.stands() {
            let dry = match motion {
                Motion::Sliding(way) => way * laws.friction,
                _ => 0.0,
            };
            let force = self.push(x, &p, self.jets(supply, exhaust, &p)) - v * self.damping + -dry;
            out[X] = v;
            out[V] = force * (1.0 / self.mass);
            swept = v;
        }
        let reaction_space = x * laws.reaction_area;
        let take_up = swept * laws.reaction_area;
        match &laws.orifice {
            Some(orifice) => {
                let balance =
                    (p.feed - p.reaction).through(|dp| orifice.flow(dp), |dp, _| orifice.slope(dp));
                out[FEED] = self.modulus(p.feed) * (gain - balance) * (1.0 / self.feed_volume);
                out[REACTION] = self.modulus(p.reaction) * (balance + leaks.reaction - take_up)
                    / Self::volume(self.reaction_volume, reaction_space);
            }
            None => {
                let space = Self::volume(self.feed_volume + self.reaction_volume, reaction_space);
                let rate = self.modulus(p.feed) * (gain + leaks.reaction - take_up) / space;
                out[FEED] = rate;
                out[REACTION] = rate;
            }
        }
        if N > CHAMBER {
            let drain = match &laws.drain {
                DrainLaw::Orifice(law) => p.chamber.through(|u| law.flow(u), |u, _| law.slope(u)),
                DrainLaw::Open | DrainLaw::Blocked => zero,
            };
            let space = -(x * laws.chamber_area) + laws.stroke * laws.chamber_area;
            out[CHAMBER] = self.modulus(p.chamber)
                * (leaks.chamber - drain + swept * laws.chamber_area)
                / Self::volume(self.chamber_volume, space);
        }
        out
    }

    /// Rates with their derivatives, where line and demand go with time as (value, rate). `M` is
    /// one more than `N`: the last derivative is that with time.
    #[inline]
    pub fn linearised<const N: usize, const M: usize>(
        &self,
        y: &[f64; N],
        line: (f64, f64),
        demand: (f64, f64),
        motion: Motion,
    ) -> Linearised<N> {
        let states: [Dual<M>; N] = std::array::from_fn(|i| Dual::variable(y[i], i));
        let rates = self.rates(
            &states,
            Dual::with_slope(line.0, N, line.1),
            Dual::with_slope(demand.0, N, demand.1),
            motion,
        );
        Linearised {
            rates: rates.map(|r| r.value),
            jacobian: rates.map(|r| std::array::from_fn(|j| r.slopes[j])),
            with_time: rates.map(|r| r.slopes[N]),
        }
    }
}
