//! Where the spool meets a stop, leaves it, sticks or breaks away.
//!
//! Dry friction is a state machine, not a smoothed curve: while stuck the spool stands exactly
//! still, and each change is located within its step and the solver started anew from there.

use super::motion::{Driven, Motion};
use super::plant::{V, X};
use crate::root::bracketed;
use crate::rosenbrock::Step;

/// A change of motion.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Event {
    /// The spool arrives at the open stop (x = 0).
    MeetsOpenStop,
    /// The spool arrives at the closed stop.
    MeetsClosedStop,
    /// The sliding spool comes to a halt.
    Halts,
    /// The force overcomes what holds the spool.
    BreaksAway,
}

/// Where in a step (0 to 1), and what.
#[derive(Debug, Clone, Copy)]
pub(super) struct Found {
    pub part: f64,
    pub event: Event,
}

impl<const M: usize> Driven<'_, M> {
    /// Below this a force at a stop counts as none: 1e-8 of the spring's load.
    fn dead_force(&self) -> f64 {
        1e-8 * self.plant.laws.load
    }

    /// What holds the spool less what drives it: negative once it must move.
    pub fn hold<const N: usize>(&self, t: f64, y: &[f64; N]) -> f64 {
        let force = self.plant.force(y, self.stretch.line(t).0);
        let driving = match self.motion {
            Motion::OpenStop => force,
            Motion::ClosedStop => -force,
            _ => force.abs(),
        };
        self.plant.breakaway + self.dead_force() - driving
    }

    /// The first change of motion within `step`. `armed` is whether a spool that is already
    /// driven harder than it is held counts as breaking away.
    pub fn first_event<const N: usize>(&self, step: &Step<N>, armed: bool) -> Option<Found> {
        let mut first: Option<Found> = None;
        let mut look = |event: Event, margin: &dyn Fn(f64) -> f64| {
            let mut before = (0.0, margin(0.0));
            if before.1 < 0.0 {
                if event == Event::BreaksAway && armed {
                    first = Some(Found { part: 0.0, event });
                }
                if event == Event::BreaksAway {
                    return;
                }
            }
            for part in [0.25, 0.5, 0.75, 1.0] {
                let now = (part, margin(part));
                if now.1 < 0.0 {
                    let part = if before.1 <= 0.0 {
                        before.0
                    } else {
                        bracketed(margin, before.0, before.1, now.0, now.1, 1e-10)
                    };
                    if first.is_none_or(|f| part < f.part) {
                        first = Some(Found { part, event });
                    }
                    return;
                }
                before = now;
            }
        };
        match self.motion {
            Motion::Free | Motion::Sliding(_) => {
                let stroke = self.plant.laws.stroke;
                look(Event::MeetsOpenStop, &|s| step.component(X, s));
                look(Event::MeetsClosedStop, &|s| stroke - step.component(X, s));
                if let Motion::Sliding(way) = self.motion {
                    look(Event::Halts, &|s| way * step.component(V, s));
                }
            }
            Motion::Stuck | Motion::OpenStop | Motion::ClosedStop => {
                look(Event::BreaksAway, &|s| {
                    self.hold(step.t + s * step.h, &step.at(s))
                });
            }
        }
        first
    }

    /// The motion after `event`, with position and speed put exactly where it leaves them.
    pub fn after<const N: usize>(&self, event: Event, t: f64, y: &mut [f64; N]) -> Motion {
        let laws = &self.plant.laws;
        y[V] = 0.0;
        let stop = match event {
            Event::MeetsOpenStop => {
                y[X] = 0.0;
                Some(Motion::OpenStop)
            }
            Event::MeetsClosedStop => {
                y[X] = laws.stroke;
                Some(Motion::ClosedStop)
            }
            Event::Halts | Event::BreaksAway => None,
        };
        let force = self.plant.force(y, self.stretch.line(t).0);
        let moving = || {
            if self.plant.breakaway > 0.0 {
                Motion::Sliding(force.signum())
            } else {
                Motion::Free
            }
        };
        if event == Event::BreaksAway {
            return moving();
        }
        if let Some(motion) = stop {
            let held = Self { motion, ..*self };
            return if held.hold(t, y) >= 0.0 {
                motion
            } else {
                moving()
            };
        }
        if force.abs() <= self.plant.breakaway + self.dead_force() {
            Motion::Stuck
        } else {
            moving()
        }
    }
}
