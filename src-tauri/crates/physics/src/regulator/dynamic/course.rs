//! What the world does to the regulator while time passes: line pressure and demand.

use uom::si::f64::{Frequency, Pressure, Ratio, Time};
use uom::si::frequency::hertz;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::time::second;

use crate::error::PhysicsError;
use crate::range::{self, Range, within};

/// The most points of a recorded trace.
pub const MAX_TRACE: usize = 20_000;

/// How a quantity goes with time.
#[derive(Debug, Clone, PartialEq)]
pub enum Course<Q> {
    /// Always the same.
    Constant(Q),
    /// One value until `at`, another from then on.
    Step {
        /// Before.
        from: Q,
        /// After.
        to: Q,
        /// When it jumps.
        at: Time,
    },
    /// Straight from one value to another between two moments.
    Ramp {
        /// Until `start`.
        from: Q,
        /// From `end` on.
        to: Q,
        /// When it begins to move.
        start: Time,
        /// When it has arrived; after `start`.
        end: Time,
    },
    /// Recorded values in the order of time, straight between them and held beyond them; two at
    /// one moment make a jump. At most [`MAX_TRACE`].
    Trace(Vec<(Time, Q)>),
}

/// The pump's ripple, a sine on top of the line's course.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ripple {
    /// Height of a crest above the mean (half of peak to peak), 0 to 5 MPa.
    pub amplitude: Pressure,
    /// How often, 0.1 Hz to 5 kHz.
    pub frequency: Frequency,
}

impl Ripple {
    /// The ripple of a pump that turns at `speed` (0.1 to 500 turns a second) with `elements`
    /// (1 to 64) vanes or teeth: frequency = speed × elements.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`].
    pub fn of_pump(
        amplitude: Pressure,
        speed: Frequency,
        elements: u32,
    ) -> Result<Self, PhysicsError> {
        let speed = within("pump_speed_hz", speed.get::<hertz>(), 0.1, 500.0, "Hz")?;
        let elements = within("pump_elements_ratio", f64::from(elements), 1.0, 64.0, "1")?;
        let frequency = range::RIPPLE_FREQUENCY.check(speed * elements)?;
        Ok(Self {
            amplitude,
            frequency: Frequency::new::<hertz>(frequency),
        })
    }
}

/// Line pressure with time, over sump.
#[derive(Debug, Clone, PartialEq)]
pub struct Line {
    /// Its mean, 0 to 10 MPa.
    pub course: Course<Pressure>,
    /// The ripple on top, if any; line must stay within 0 and 10 MPa with it.
    pub ripple: Option<Ripple>,
}

/// The demand with time: what is open, over what the description says (0 to 10).
pub type DemandCourse = Course<Ratio>;

/// A course as knots in time, straight between them.
#[derive(Debug, Clone)]
struct Knots(Vec<(f64, f64)>);

impl<Q: Copy> Course<Q> {
    fn knots(&self, range: &Range, si: impl Fn(Q) -> f64) -> Result<Knots, PhysicsError> {
        let moment = |t: Time| range::MOMENT.check(t.get::<second>());
        let value = |q: Q| range.check(si(q));
        let knots = match self {
            Self::Constant(q) => vec![(0.0, value(*q)?)],
            Self::Step { from, to, at } => {
                let (t, from, to) = (moment(*at)?, value(*from)?, value(*to)?);
                vec![(t, from), (t, to)]
            }
            Self::Ramp {
                from,
                to,
                start,
                end,
            } => {
                let (t0, t1) = (moment(*start)?, moment(*end)?);
                if t1 <= t0 {
                    return Err(disordered());
                }
                vec![(t0, value(*from)?), (t1, value(*to)?)]
            }
            Self::Trace(points) => {
                if points.is_empty() {
                    return Err(PhysicsError::TooFew {
                        field: "trace",
                        count: 0,
                        least: 1,
                    });
                }
                if points.len() > MAX_TRACE {
                    return Err(PhysicsError::OutOfRange {
                        field: "trace",
                        value: f64::from(u32::try_from(points.len()).unwrap_or(u32::MAX)),
                        low: 1.0,
                        high: 20_000.0,
                        unit: "1",
                    });
                }
                points
                    .iter()
                    .map(|&(t, q)| Ok((moment(t)?, value(q)?)))
                    .collect::<Result<Vec<_>, PhysicsError>>()?
            }
        };
        if knots.windows(2).any(|w| w[1].0 < w[0].0) {
            return Err(disordered());
        }
        Ok(Knots(knots))
    }
}

/// Moments that don't follow each other.
fn disordered() -> PhysicsError {
    PhysicsError::Contradiction {
        field: range::MOMENT.field,
        other: "trace",
    }
}

impl Knots {
    /// Value just after `t`, and its slope there.
    fn after(&self, t: f64) -> (f64, f64) {
        let next = self.0.partition_point(|k| k.0 <= t);
        match (next.checked_sub(1).map(|i| self.0[i]), self.0.get(next)) {
            (Some((t0, a)), Some(&(t1, b))) => {
                let slope = (b - a) / (t1 - t0);
                (a + slope * (t - t0), slope)
            }
            (Some((_, a)), None) => (a, 0.0),
            (None, Some(&(_, b))) => (b, 0.0),
            (None, None) => (0.0, 0.0),
        }
    }
}

/// A stretch of time in which line (but for its ripple) and demand are straight.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stretch {
    pub start: f64,
    pub end: f64,
    line: (f64, f64),
    demand: (f64, f64),
    ripple: (f64, f64),
}

impl Stretch {
    /// Line pressure and its rate.
    #[inline]
    pub fn line(&self, t: f64) -> (f64, f64) {
        let (value, slope) = self.line;
        let (amplitude, omega) = self.ripple;
        let mean = value + slope * (t - self.start);
        if amplitude == 0.0 {
            return (mean, slope);
        }
        let (sin, cos) = (omega * t).sin_cos();
        (mean + amplitude * sin, slope + amplitude * omega * cos)
    }

    /// Demand over the described one, and its rate.
    #[inline]
    pub fn demand(&self, t: f64) -> (f64, f64) {
        let (value, slope) = self.demand;
        (value + slope * (t - self.start), slope)
    }
}

/// Line and demand, checked and cut where they bend or jump.
#[derive(Debug, Clone)]
pub(super) struct Courses {
    pub stretches: Vec<Stretch>,
    /// Line pressure and demand before the start.
    pub before: (f64, f64),
    /// 0 without ripple.
    pub ripple_frequency: f64,
}

/// Cuts the time up to `duration` where line or demand bend or jump.
pub(super) fn courses(
    line: &Line,
    demand: &DemandCourse,
    duration: f64,
) -> Result<Courses, PhysicsError> {
    let line_knots = line
        .course
        .knots(&range::LINE_PRESSURE, |p| p.get::<pascal>())?;
    let demand_knots = demand.knots(&range::DEMAND_SCALE, |r| r.get::<ratio>())?;
    let ripple = match line.ripple {
        None => (0.0, 0.0),
        Some(r) => {
            let amplitude = range::RIPPLE_AMPLITUDE.check(r.amplitude.get::<pascal>())?;
            let f = range::RIPPLE_FREQUENCY.check(r.frequency.get::<hertz>())?;
            for &(_, p) in &line_knots.0 {
                let (lowest, highest) = (p - amplitude, range::LINE_PRESSURE.high - p);
                if lowest < 0.0 || highest < amplitude {
                    return Err(PhysicsError::Contradiction {
                        field: range::RIPPLE_AMPLITUDE.field,
                        other: range::LINE_PRESSURE.field,
                    });
                }
            }
            (amplitude, 2.0 * std::f64::consts::PI * f)
        }
    };
    let mut cuts: Vec<f64> = line_knots
        .0
        .iter()
        .chain(&demand_knots.0)
        .map(|k| k.0)
        .filter(|&t| t > 0.0 && t < duration)
        .collect();
    cuts.push(0.0);
    cuts.push(duration);
    cuts.sort_by(f64::total_cmp);
    cuts.dedup();
    let first = |knots: &Knots| knots.0.first().map_or(0.0, |k| k.1);
    let stretches = cuts
        .windows(2)
        .map(|w| Stretch {
            start: w[0],
            end: w[1],
            line: line_knots.after(w[0]),
            demand: demand_knots.after(w[0]),
            ripple,
        })
        .collect();
    Ok(Courses {
        stretches,
        before: (first(&line_knots), first(&demand_knots)),
        ripple_frequency: if ripple.0 > 0.0 {
            ripple.1 / (2.0 * std::f64::consts::PI)
        } else {
            0.0
        },
    })
}
