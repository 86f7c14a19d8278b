//! The same transient with one part changed, on all cores.

use std::sync::Mutex;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::thread;

use uom::si::f64::{Force, Length};

use super::description::MovingRegulator;
use super::error::DynamicError;
use super::result::Transient;
use super::run::Scenario;
use super::stability::Stability;
use crate::error::PhysicsError;
use crate::fluid::OilState;
use crate::gap::Annulus;
use crate::orifice::Orifice;

/// Which part changes, and its values.
#[derive(Debug, Clone, PartialEq)]
pub enum SweepOf {
    /// Diameter of the balance orifice, its length kept. The regulator must have one.
    OrificeDiameter(Vec<Length>),
    /// Radial clearance of one land leak, by its place in the description.
    Clearance {
        /// Its place.
        leak: usize,
        /// The clearances.
        values: Vec<Length>,
    },
    /// Dry friction while sliding.
    Friction(Vec<Force>),
}

impl SweepOf {
    fn len(&self) -> usize {
        match self {
            Self::OrificeDiameter(v) | Self::Clearance { values: v, .. } => v.len(),
            Self::Friction(v) => v.len(),
        }
    }

    /// The regulator with value number `i`.
    fn changed(&self, of: &MovingRegulator, i: usize) -> Result<MovingRegulator, PhysicsError> {
        let missing = PhysicsError::TooFew {
            field: "sweep_values",
            count: 0,
            least: 1,
        };
        let mut changed = of.clone();
        let valve = &mut changed.regulator;
        match self {
            Self::OrificeDiameter(values) => {
                let orifice = valve.balance_orifice.ok_or(missing)?;
                valve.balance_orifice = Some(Orifice {
                    diameter: values[i],
                    ..orifice
                });
            }
            Self::Clearance { leak, values } => {
                let leak = valve.leaks.get_mut(*leak).ok_or(missing)?;
                let gap = leak.annulus;
                leak.annulus = Annulus::new(
                    gap.mean_diameter(),
                    values[i],
                    gap.length(),
                    gap.eccentricity(),
                )?;
            }
            Self::Friction(values) => valve.friction = values[i],
        }
        Ok(changed)
    }
}

/// The outcome for one value.
#[derive(Debug, Clone, PartialEq)]
pub struct SweepPoint {
    /// The transient, or why there is none.
    pub transient: Result<Transient, DynamicError>,
    /// Small motions about rest at the line pressure and demand of the start.
    pub stability: Result<Stability, PhysicsError>,
}

/// Puts `regulator` through `scenario` once for each value, on all cores, in the order of the
/// values: the same answer on any machine, since no run knows of another.
///
/// `progress` is told how many of how many are done, from any thread, never going back. Once
/// `cancel` is true the sweep ends soon.
///
/// # Errors
/// [`DynamicError::Input`] for an empty list, or if the part isn't there; [`DynamicError::Cancelled`].
/// A value that can't be used is told in its own point.
pub fn sweep(
    regulator: &MovingRegulator,
    oil: &OilState,
    scenario: &Scenario,
    of: &SweepOf,
    progress: &(dyn Fn(usize, usize) + Sync),
    cancel: &AtomicBool,
) -> Result<Vec<SweepPoint>, DynamicError> {
    let count = of.len();
    if count == 0 {
        return Err(DynamicError::Input(PhysicsError::TooFew {
            field: "sweep_values",
            count,
            least: 1,
        }));
    }
    if let Err(e @ PhysicsError::TooFew { .. }) = of.changed(regulator, 0) {
        return Err(DynamicError::Input(e));
    }
    let next = AtomicUsize::new(0);
    let done = Mutex::new((0, Vec::with_capacity(count)));
    let work = || {
        loop {
            let i = next.fetch_add(1, Ordering::Relaxed);
            if i >= count || cancel.load(Ordering::Relaxed) {
                return;
            }
            let point = one(regulator, oil, scenario, of, i, cancel);
            // A panic elsewhere can't have left the list half written.
            let mut done = done
                .lock()
                .unwrap_or_else(std::sync::PoisonError::into_inner);
            done.0 += 1;
            done.1.push((i, point));
            progress(done.0, count);
        }
    };
    let threads = thread::available_parallelism().map_or(1, usize::from);
    thread::scope(|scope| {
        for _ in 1..threads.min(count) {
            scope.spawn(work);
        }
        work();
    });
    if cancel.load(Ordering::Relaxed) {
        return Err(DynamicError::Cancelled);
    }
    let (_, mut points) = done
        .into_inner()
        .unwrap_or_else(std::sync::PoisonError::into_inner);
    points.sort_by_key(|p| p.0);
    Ok(points.into_iter().map(|p| p.1).collect())
}

fn one(
    regulator: &MovingRegulator,
    oil: &OilState,
    scenario: &Scenario,
    of: &SweepOf,
    i: usize,
    cancel: &AtomicBool,
) -> SweepPoint {
    match of.changed(regulator, i).and_then(|r| r.circuit(oil)) {
        Err(e) => SweepPoint {
            transient: Err(e.clone().into()),
            stability: Err(e),
        },
        Ok(circuit) => SweepPoint {
            transient: circuit.simulate_until(scenario, Some(cancel)),
            stability: circuit.stability_at_start(scenario),
        },
    }
}
