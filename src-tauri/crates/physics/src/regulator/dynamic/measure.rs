//! Reading settling, overshoot and ripple off a transient.

use std::sync::Arc;

use uom::si::f64::{Pressure, Time};
use uom::si::pressure::pascal;
use uom::si::time::second;

use super::course::Courses;
use super::integrate::{Record, Settings};
use super::oscillation::judge;
use super::plant::{CHAMBER, FEED, REACTION, V, X};
use super::result::{Trace, Transient};
use crate::assumption::Assumption;

/// Points that a period of the ripple needs for its crests to be seen (to 2 %).
const POINTS_A_PERIOD: f64 = 16.0;

fn extremes(values: &[f64]) -> (f64, f64) {
    values
        .iter()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), &v| {
            (l.min(v), h.max(v))
        })
}

fn number(count: usize) -> f64 {
    f64::from(u32::try_from(count).unwrap_or(u32::MAX))
}

/// Index of the first point at or after `t`.
fn index(t: f64, dt: f64, count: usize) -> usize {
    let wanted = (t / dt - 1e-9).ceil().max(0.0);
    // Bounded by the count, so neither cut nor sign is lost.
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss)]
    let i = wanted.min(number(count - 1)) as usize;
    i
}

/// Where the tail starts.
fn tail(courses: &Courses, changed: f64, dt: f64, count: usize, duration: f64) -> usize {
    let mut length = 0.25 * (duration - changed);
    if courses.ripple_frequency > 0.0 {
        let period = 1.0 / courses.ripple_frequency;
        length = if length >= period {
            (length / period).floor() * period
        } else {
            period.min(duration - changed)
        };
    }
    // At least two points.
    index(duration - length, dt, count).min(count - 2)
}

pub(super) fn measured(
    record: Record,
    courses: &Courses,
    settings: &Settings,
    band: f64,
    assumptions: Arc<[Assumption]>,
) -> Transient {
    let count = record.states.len();
    let dt = settings.duration / number(count - 1);
    let column = |i: usize| -> Vec<f64> { record.states.iter().map(|y| y[i]).collect() };
    let feed = column(FEED);
    let changed = courses.stretches.last().map_or(0.0, |s| s.start);
    let from = tail(courses, changed, dt, count, settings.duration);
    let end = &feed[from..];
    let mean = end.iter().sum::<f64>() / number(end.len());
    let (low, high) = extremes(end);
    let (line_low, line_high) = extremes(&record.line[from..]);
    let noise = 200.0 * settings.tolerance * (mean.abs() + 1e5);
    let oscillation = judge(end, dt, courses.ripple_frequency, noise);

    let start = index(changed, dt, count).min(from);
    let half = 0.5 * (high - low);
    let limit = band + half;
    let settling_time = if oscillation.swings() {
        None
    } else {
        match (start..count)
            .rev()
            .find(|&i| (feed[i] - mean).abs() > limit)
        {
            None => Some(0.0),
            Some(i) if i >= from => None,
            Some(i) => {
                let (a, b) = ((feed[i] - mean).abs(), (feed[i + 1] - mean).abs());
                Some((number(i) + (a - limit) / (a - b)) * dt - changed)
            }
        }
    };
    let (after_low, after_high) = extremes(&feed[start..]);
    let beyond = if feed[start] <= mean {
        after_high - mean
    } else {
        mean - after_low
    };
    let seen =
        courses.ripple_frequency == 0.0 || courses.ripple_frequency * dt * POINTS_A_PERIOD <= 1.0;
    let (lowest, highest) = extremes(&feed);
    let pressure = Pressure::new::<pascal>;
    Transient {
        feed_lowest: pressure(lowest.min(record.feed_span.0)),
        feed_highest: pressure(highest.max(record.feed_span.1)),
        feed_final: pressure(mean),
        settling_time: settling_time.map(|t| Time::new::<second>(t.max(0.0))),
        overshoot: pressure((beyond - half).max(0.0)),
        ripple_in: seen.then(|| pressure(line_high - line_low)),
        ripple_out: seen.then(|| pressure(high - low)),
        oscillation,
        statistics: record.statistics,
        assumptions,
        trace: Trace {
            time_s: (0..count).map(|i| number(i) * dt).collect(),
            reaction_pa: column(REACTION),
            spring_chamber_pa: column(CHAMBER),
            spool_position_m: column(X),
            spool_speed_m_per_s: column(V),
            feed_pa: feed,
            line_pa: record.line,
            demand_m3_per_s: record.demand,
        },
    }
}
