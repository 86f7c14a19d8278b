//! Feed against line, and feed against demand.

use uom::si::f64::{Pressure, VolumeRate};
use uom::si::pressure::pascal;

use super::circuit::Circuit;
use super::description::{Demand, Regulator};
use super::result::{Branch, Curve, CurvePoint, OperatingPoint};
use crate::error::PhysicsError;
use crate::fluid::OilState;
use crate::range::{self, within};

impl Circuit {
    /// Feed at `count` (2 to 2000) line pressures from `from` to `to`, evenly spaced, ends
    /// included.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`]; [`PhysicsError::Contradiction`] if `to` isn't above `from`.
    pub fn curve(&self, from: Pressure, to: Pressure, count: usize) -> Result<Curve, PhysicsError> {
        let low = range::LINE_PRESSURE.check_as("line_from_pa", from.get::<pascal>())?;
        let high = range::LINE_PRESSURE.check_as("line_to_pa", to.get::<pascal>())?;
        if high <= low {
            return Err(PhysicsError::Contradiction {
                field: "line_to_pa",
                other: "line_from_pa",
            });
        }
        let last = u32::try_from(count).map_or(f64::INFINITY, f64::from) - 1.0;
        within("point_count_ratio", last + 1.0, 2.0, 2000.0, "1")?;
        let mut points = Vec::with_capacity(count);
        for i in 0..count {
            // Exact at both ends.
            let t = f64::from(u32::try_from(i).unwrap_or(u32::MAX)) / last;
            let line = Pressure::new::<pascal>(low * (1.0 - t) + high * t);
            let rising = self.solve(line, Branch::Rising)?;
            let falling = if self.laws.friction > 0.0 {
                self.solve(line, Branch::Falling)?
            } else {
                OperatingPoint {
                    branch: Branch::Falling,
                    ..rising.clone()
                }
            };
            points.push(CurvePoint {
                line,
                rising,
                falling,
            });
        }
        Ok(self.summed_up(points))
    }

    fn summed_up(&self, points: Vec<CurvePoint>) -> Curve {
        let run = longest_run(&points);
        let regulating = match run {
            [] => None,
            [only] => Some((only.line, only.line)),
            [first, .., last] => Some((first.line, last.line)),
        };
        let feeds = || run.iter().map(|p| p.rising.feed.get::<pascal>());
        let droop = regulating.map(|_| {
            let low = feeds().fold(f64::INFINITY, f64::min);
            let high = feeds().fold(f64::NEG_INFINITY, f64::max);
            Pressure::new::<pascal>(high - low)
        });
        let hysteresis = regulating.map(|_| {
            let gap = |p: &CurvePoint| (p.rising.feed - p.falling.feed).get::<pascal>();
            Pressure::new::<pascal>(run.iter().map(gap).fold(0.0, f64::max))
        });
        Curve {
            regulating,
            droop,
            hysteresis,
            points,
            assumptions: self.assumptions.clone(),
        }
    }
}

/// The longest run of neighbouring points where both branches regulate.
fn longest_run(points: &[CurvePoint]) -> &[CurvePoint] {
    points
        .split(|p| !(p.rising.state.regulates() && p.falling.state.regulates()))
        .max_by_key(|run| run.len())
        .unwrap_or_default()
}

/// Feed at one demand.
#[derive(Debug, Clone, PartialEq)]
pub struct DemandPoint {
    /// The demand, stated as in the regulator's own (same pressure, outlets and oil).
    pub demand: VolumeRate,
    /// The balance.
    pub point: OperatingPoint,
}

/// Feed at `line` for each of `demands` (0 to 30 L/min), all else as described.
///
/// # Errors
/// As [`Regulator::circuit`] and [`Circuit::solve`].
pub fn against_demand(
    regulator: &Regulator,
    oil: &OilState,
    line: Pressure,
    demands: &[VolumeRate],
    branch: Branch,
) -> Result<Vec<DemandPoint>, PhysicsError> {
    demands
        .iter()
        .map(|&flow| {
            let demand = Demand {
                flow,
                ..regulator.demand
            };
            let circuit = Regulator {
                demand,
                ..regulator.clone()
            }
            .circuit(oil)?;
            Ok(DemandPoint {
                demand: flow,
                point: circuit.solve(line, branch)?,
            })
        })
        .collect()
}
