//! Steps through time: step size, events, and what is kept on the way.

use std::sync::atomic::{AtomicBool, Ordering};

use super::course::Courses;
use super::error::DynamicError;
use super::event::Event;
use super::motion::{Driven, Motion};
use super::plant::{FEED, Plant, V, X};
use super::result::SolverStatistics;
use crate::rosenbrock::{Step, Stiff, step};

/// Sizes of the states below which an error counts absolutely: 1 mm, 1 m/s, 1 bar.
const FLOOR: [f64; 5] = [1e-3, 1.0, 1e5, 1e5, 1e5];
/// A step shorter than this has failed.
const SHORTEST: f64 = 1e-15;

/// How to integrate, in SI.
#[derive(Debug, Clone, Copy)]
pub(super) struct Settings<'a> {
    pub tolerance: f64,
    pub longest: f64,
    pub step_limit: u64,
    pub points: usize,
    pub duration: f64,
    pub cancel: Option<&'a AtomicBool>,
}

/// What is kept: the states at evenly spaced moments.
#[derive(Debug, Clone, Default)]
pub(super) struct Record {
    /// The states at each moment; the spring chamber is 0 where it isn't a state.
    pub states: Vec<[f64; 5]>,
    pub line: Vec<f64>,
    pub demand: Vec<f64>,
    /// Lowest and highest feed at the ends of the steps.
    pub feed_span: (f64, f64),
    pub statistics: SolverStatistics,
}

struct Run<'a, const N: usize, const M: usize> {
    plant: &'a Plant,
    settings: Settings<'a>,
    record: Record,
    scale: [f64; N],
    y: [f64; N],
    t: f64,
    h: f64,
    motion: Motion,
    armed: bool,
    /// The last accepted step and its error.
    before: Option<(f64, f64)>,
}

/// Follows the plant from `y` through all stretches.
pub(super) fn integrate<const N: usize, const M: usize>(
    plant: &Plant,
    courses: &Courses,
    y: [f64; N],
    settings: Settings,
) -> Result<Record, DynamicError> {
    let motion = initial_motion(plant, &y);
    let mut run = Run::<N, M> {
        plant,
        settings,
        record: Record {
            states: Vec::with_capacity(settings.points),
            line: Vec::with_capacity(settings.points),
            demand: Vec::with_capacity(settings.points),
            feed_span: (y[FEED], y[FEED]),
            statistics: SolverStatistics::default(),
        },
        scale: std::array::from_fn(|i| FLOOR[i]),
        y,
        t: 0.0,
        h: 1e-6,
        motion,
        armed: true,
        before: None,
    };
    for stretch in &courses.stretches {
        let driven = Driven {
            plant,
            stretch,
            motion: run.motion,
        };
        run.through(driven)?;
    }
    run.keep_rest(courses);
    Ok(run.record)
}

fn initial_motion<const N: usize>(plant: &Plant, y: &[f64; N]) -> Motion {
    if y[V] == 0.0 {
        if y[X] <= 0.0 {
            return Motion::OpenStop;
        }
        if y[X] >= plant.laws.stroke {
            return Motion::ClosedStop;
        }
        if plant.breakaway > 0.0 {
            return Motion::Stuck;
        }
    }
    if plant.breakaway > 0.0 {
        Motion::Sliding(y[V].signum())
    } else {
        Motion::Free
    }
}

impl<const N: usize, const M: usize> Run<'_, N, M> {
    fn through(&mut self, mut driven: Driven<'_, M>) -> Result<(), DynamicError> {
        let end = driven.stretch.end;
        let mut at_start = Stiff::<N>::linearised(&driven, self.t, &self.y);
        self.record.statistics.jacobians += 1;
        let mut after_rejection = false;
        while self.t < end {
            self.check()?;
            let left = end - self.t;
            let mut h = self.h.min(self.settings.longest);
            let last = h >= left * (1.0 - 1e-12);
            if last {
                h = left;
            } else if 2.0 * h > left {
                h = 0.5 * left;
            }
            let tried = step(&driven, self.t, &self.y, h, &at_start);
            self.record.statistics.rate_evaluations += 5;
            self.record.statistics.factorisations += 1;
            let error = tried.as_ref().map_or(f64::INFINITY, |s| {
                s.error_norm(self.settings.tolerance, &self.scale)
            });
            // NaN compares as false, so it is rejected too.
            let accepted = match tried {
                Some(s) if error <= 1.0 => s,
                _ => {
                    let factor = if error.is_finite() {
                        (0.9 * error.powf(-0.25)).clamp(0.1, 0.9)
                    } else {
                        0.1
                    };
                    self.record.statistics.rejected += 1;
                    after_rejection = true;
                    self.h = h * factor;
                    if self.h < SHORTEST {
                        return Err(DynamicError::StepVanished { reached_s: self.t });
                    }
                    continue;
                }
            };
            let most = if after_rejection { 1.0 } else { 6.0 };
            let factor = self.growth(h, error).clamp(0.2, most);
            after_rejection = false;
            // A step cut short by the end of a stretch says nothing against longer ones.
            if !last || h * factor > self.h {
                self.h = h * factor;
            }
            match driven.first_event(&accepted, self.armed) {
                None => {
                    self.keep(&accepted, &driven);
                    self.y = accepted.to;
                    self.t = if last { end } else { self.t + h };
                    if driven.motion.stands() && !self.armed {
                        self.armed = driven.hold(self.t, &self.y) >= 0.0;
                    }
                }
                Some(found) => {
                    self.happen(found.event, found.part * h, &at_start, &mut driven)?;
                }
            }
            if self.t < end {
                at_start = Stiff::<N>::linearised(&driven, self.t, &self.y);
                self.record.statistics.jacobians += 1;
            }
        }
        self.motion = driven.motion;
        Ok(())
    }

    /// By how much the next step may be longer, after one of `h` with this error: what the error
    /// allows, less if it is on the rise (Gustafsson's predictive controller; Hairer & Wanner
    /// sect. IV.8).
    fn growth(&mut self, h: f64, error: f64) -> f64 {
        let root = |e: f64| e.sqrt().sqrt();
        let allowed = 0.9 / root(error.max(1e-8));
        let predicted = match self.before {
            Some((h0, e0)) => 0.9 * h / h0 * root(e0 / (error * error).max(1e-16)),
            None => f64::INFINITY,
        };
        self.before = Some((h, error.max(1e-2)));
        allowed.min(predicted)
    }

    /// Goes `h` on, to the event, and changes the motion.
    fn happen(
        &mut self,
        event: Event,
        h: f64,
        at_start: &crate::rosenbrock::Linearised<N>,
        driven: &mut Driven<'_, M>,
    ) -> Result<(), DynamicError> {
        let advanced = self.t + h > self.t;
        if advanced {
            // The step is taken anew, so that the state there is as good as at any step's end.
            let Some(s) = step(driven, self.t, &self.y, h, at_start) else {
                return Err(DynamicError::StepVanished { reached_s: self.t });
            };
            self.record.statistics.rate_evaluations += 5;
            self.record.statistics.factorisations += 1;
            self.keep(&s, driven);
            self.y = s.to;
            self.t += h;
        }
        self.before = None;
        let before = driven.motion;
        driven.motion = driven.after(event, self.t, &mut self.y);
        let statistics = &mut self.record.statistics;
        match event {
            Event::MeetsOpenStop | Event::MeetsClosedStop => statistics.stop_contacts += 1,
            Event::Halts if driven.motion == Motion::Stuck => statistics.sticks += 1,
            Event::Halts => {}
            Event::BreaksAway => statistics.break_aways += 1,
        }
        // Broke away and halted at the same moment: it holds until it was held once.
        self.armed = advanced || before.stands();
        Ok(())
    }

    fn check(&self) -> Result<(), DynamicError> {
        let s = &self.record.statistics;
        let steps = s.accepted + s.rejected + s.break_aways + s.sticks + s.stop_contacts;
        if steps >= self.settings.step_limit {
            return Err(DynamicError::TooManySteps {
                steps,
                reached_s: self.t,
            });
        }
        if steps.is_multiple_of(64)
            && self
                .settings
                .cancel
                .is_some_and(|c| c.load(Ordering::Relaxed))
        {
            return Err(DynamicError::Cancelled);
        }
        Ok(())
    }

    /// Moment number `i` of the record.
    fn moment(&self, i: usize) -> f64 {
        let part = |k: usize| f64::from(u32::try_from(k).unwrap_or(u32::MAX));
        self.settings.duration * part(i) / part(self.settings.points - 1)
    }

    fn keep(&mut self, step: &Step<N>, driven: &Driven<'_, M>) {
        let statistics = &mut self.record.statistics;
        statistics.accepted += 1;
        statistics.shortest_step_s = statistics.shortest_step_s.min(step.h);
        statistics.longest_step_s = statistics.longest_step_s.max(step.h);
        let (low, high) = self.record.feed_span;
        self.record.feed_span = (low.min(step.to[FEED]), high.max(step.to[FEED]));
        let (end, r) = (step.t + step.h, 1.0 / step.h);
        while self.record.states.len() < self.settings.points {
            let t = self.moment(self.record.states.len());
            if t > end {
                break;
            }
            let y = step.at(((t - step.t) * r).clamp(0.0, 1.0));
            self.push(&y, driven.stretch.line(t).0, driven.stretch.demand(t).0);
        }
    }

    fn push(&mut self, y: &[f64; N], line: f64, scale: f64) {
        let mut all = [0.0; 5];
        all[..N].copy_from_slice(y);
        // The continuous extension may pass a stop by its own small error.
        all[X] = all[X].clamp(0.0, self.plant.laws.stroke);
        self.record.states.push(all);
        self.record.line.push(line);
        self.record.demand.push(self.plant.demand(all[FEED], scale));
    }

    /// The last moment, should rounding have kept it out.
    fn keep_rest(&mut self, courses: &Courses) {
        while self.record.states.len() < self.settings.points {
            let (line, scale) = courses
                .stretches
                .last()
                .map_or((0.0, 0.0), |s| (s.line(self.t).0, s.demand(self.t).0));
            let y = self.y;
            self.push(&y, line, scale);
        }
    }
}
