//! Two valves of known, different diameters in one bore: their readings tell its clearance.
//!
//! Both sit in the same bore on the same stand, so for the flow q = S (p_g - p_d) the pull cancels
//! and for the film the engaged length and the eccentricity do: what is left of the law of
//! [`crate::gap_air`] is one equation in the clearance c of the larger valve,
//!
//! (q2/q1) (p_a^2 - p_1^2 - I_1) / (p_a^2 - p_2^2 - I_2)
//! = ((c + d)/c)^3 (1 + 6 l_2/(c + d)) / (1 + 6 l_1/c)
//!
//! with d half the difference of the diameters and I the entry and exit loss xi q^2 / (R T (pi D
//! c)^2), which needs S and is left out when S is unknown. The answer goes with d, and d, being a
//! small difference of two micrometer readings, is often known only to a third: the interval is
//! wide, and that is the honest answer.

use std::f64::consts::PI;

use uom::si::f64::{Length, Pressure, Ratio};
use uom::si::length::meter;
use uom::si::ratio::ratio;

use crate::air::Air;
use crate::assumption::Assumption;
use crate::error::PhysicsError;
use crate::gap_air::ENTRY_EXIT_LOSS;
use crate::quantity::Interval;
use crate::range::{self, within};
use crate::root;
use crate::vacuum_stand::{DeadHead, VacuumStand};

/// What is known of the stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum StandKnown<'a> {
    /// Its dead-head only: entry and exit loss and the hose are left out.
    DeadHead(&'a DeadHead),
    /// Its calibration, and the mean diameter of the gap.
    Calibrated(&'a VacuumStand, Length),
}

/// Two valves and their readings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TwoValves<'a> {
    /// Reading with the larger valve.
    pub larger_reading: Pressure,
    /// Reading with the smaller valve.
    pub smaller_reading: Pressure,
    /// How far each reading may be off, 0 to 10 kPa.
    pub reading_tolerance: Pressure,
    /// Difference of the two diameters, 0.5 µm to 0.5 mm.
    pub diameter_difference: Length,
    /// How far that difference may be off, as a share of itself: 0 to 0.9. `None` for a third.
    pub difference_tolerance: Option<Ratio>,
    /// The stand.
    pub stand: StandKnown<'a>,
    /// Barometer during the tests.
    pub barometer: Pressure,
    /// Air in the shop.
    pub air: Air,
}

/// Share of itself by which a difference of diameters is taken to be off when none is given.
pub const DIFFERENCE_TOLERANCE: f64 = 1.0 / 3.0;

/// The bore's clearance.
#[derive(Debug, Clone, PartialEq)]
pub struct TwoValvesClearance {
    /// Radial clearance of the larger valve at the stated numbers.
    pub radial_clearance: Length,
    /// Its lower bound over the tolerances that some clearance explains.
    pub low: Length,
    /// Its upper bound; `None` when within the tolerances the two readings could be equal, or the
    /// clearance above 1 mm.
    pub high: Option<Length>,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
}

impl TwoValvesClearance {
    /// Both bounds, where there are both.
    #[must_use]
    pub fn interval(&self) -> Option<Interval<Length>> {
        self.high.map(|high| Interval {
            low: self.low,
            high,
        })
    }
}

/// Finds the clearance.
///
/// # Errors
/// [`PhysicsError::Contradiction`] when the smaller valve reads no worse than the larger;
/// [`PhysicsError::NoSolution`] for `radial_clearance_m` when no clearance up to 1 mm explains the
/// readings; range errors naming `larger_reading_pa`, `smaller_reading_pa`,
/// `reading_tolerance_pa`, `diameter_difference_m`, `difference_tolerance_ratio` and the stand's.
pub fn clearance(test: &TwoValves) -> Result<TwoValvesClearance, PhysicsError> {
    let known = Known::new(test)?;
    let larger = known.reading("larger_reading_pa", test.larger_reading)?;
    let smaller = known.reading("smaller_reading_pa", test.smaller_reading)?;
    if smaller >= larger {
        return Err(PhysicsError::Contradiction {
            field: "smaller_reading_pa",
            other: "larger_reading_pa",
        });
    }
    let tolerance = within(
        "reading_tolerance_pa",
        test.reading_tolerance.value,
        0.0,
        1.0e4,
        "Pa",
    )?;
    let difference = within(
        "diameter_difference_m",
        test.diameter_difference.value,
        5.0e-7,
        5.0e-4,
        "m",
    )?;
    let share = within(
        "difference_tolerance_ratio",
        test.difference_tolerance
            .map_or(DIFFERENCE_TOLERANCE, |r| r.get::<ratio>()),
        0.0,
        0.9,
        "1",
    )?;
    let nominal = known.clearance(larger, smaller, difference / 2.0)?;
    // c grows with the difference and falls as the readings part: two corners bound it.
    let d = difference / 2.0;
    let apart = known.lowest(
        Corner {
            larger,
            smaller,
            tolerance,
            d,
            share,
        },
        nominal,
    );
    let together = (larger - tolerance > smaller + tolerance)
        .then(|| {
            let d = difference / 2.0 * (1.0 + share);
            known
                .clearance(larger - tolerance, smaller + tolerance, d)
                .ok()
        })
        .flatten();
    Ok(TwoValvesClearance {
        radial_clearance: Length::new::<meter>(nominal),
        low: Length::new::<meter>(apart),
        high: together.map(Length::new::<meter>),
        assumptions: known.assumptions,
    })
}

/// Step of the search in ln c.
const SEARCH_STEP: f64 = 0.02;

struct Known {
    ambient: f64,
    dead_head: f64,
    /// Pull, hose resistance and mean diameter, with a calibrated stand.
    calibrated: Option<(f64, f64, f64)>,
    air: Air,
    /// Deepest and shallowest readings that leave an equation to solve, Pa.
    deepest: f64,
    shallowest: f64,
    assumptions: Vec<Assumption>,
}

impl Known {
    fn new(test: &TwoValves) -> Result<Self, PhysicsError> {
        let ambient = range::BAROMETER.check(test.barometer.value)?;
        let mut assumptions = vec![
            Assumption::DryIdealAir,
            Assumption::Isothermal,
            Assumption::LaminarFilm,
            Assumption::ValvesSitAlike,
            Assumption::BlankNeglected,
        ];
        let (dead, calibrated) = match test.stand {
            StandKnown::DeadHead(dead) => {
                assumptions.push(Assumption::InertiaNeglected);
                assumptions.push(Assumption::HoseNeglected);
                (dead, None)
            }
            StandKnown::Calibrated(stand, diameter) => {
                assumptions.push(Assumption::EntryExitLoss);
                let pull = range::STAND_PULL.check(stand.pull.value)?;
                let hose = range::HOSE_RESISTANCE.check(stand.hose_resistance.value)?;
                let diameter = range::BORE_DIAMETER.check(diameter.value)?;
                (&stand.dead_head, Some((pull, hose, diameter)))
            }
        };
        assumptions.push(Assumption::ConstantPull);
        assumptions.push(dead.assumption());
        let dead_head = dead.at(test.barometer)?.value;
        Ok(Self {
            ambient,
            dead_head,
            calibrated,
            air: test.air,
            deepest: (ambient - dead_head) * (1.0 - 1.0e-6),
            shallowest: ambient * 1.0e-6,
            assumptions,
        })
    }

    fn reading(&self, field: &'static str, reading: Pressure) -> Result<f64, PhysicsError> {
        within(field, reading.value, self.shallowest, self.deepest, "Pa")
    }

    /// Root of the two films' ratio in c; `d` is the extra radial gap of the smaller valve.
    ///
    /// With entry and exit loss there may be a second, smaller root, where loss takes nearly the
    /// whole drop and the land would have to be far shorter than any; so the search comes down
    /// from wide gaps and takes the first.
    fn clearance(&self, larger: f64, smaller: f64, d: f64) -> Result<f64, PhysicsError> {
        let what = "radial_clearance_m";
        let excess = |log_c: f64| {
            let c = log_c.exp();
            self.film(smaller, c + d) - self.film(larger, c)
        };
        let least = self
            .smallest(larger, smaller, d)
            .max(range::RADIAL_CLEARANCE.low)
            .ln();
        let mut above = range::RADIAL_CLEARANCE.high.ln();
        if above <= least || excess(above) <= 0.0 {
            return Err(PhysicsError::NoSolution { what });
        }
        while above > least {
            let below = (above - SEARCH_STEP).max(least);
            if excess(below) <= 0.0 {
                return root::between(what, below, above, excess).map(f64::exp);
            }
            above = below;
        }
        Err(PhysicsError::NoSolution { what })
    }

    /// The smallest clearance towards the corner where the readings are furthest apart and the
    /// difference of diameters is least. Where no clearance explains that corner, the last point
    /// on the way to it that one explains.
    fn lowest(&self, at: Corner, nominal: f64) -> f64 {
        let try_at = |s: f64| {
            self.clearance(
                (at.larger + s * at.tolerance).min(self.deepest),
                (at.smaller - s * at.tolerance).max(self.shallowest),
                at.d * (1.0 - s * at.share),
            )
        };
        if let Ok(c) = try_at(1.0) {
            return c;
        }
        let (mut good, mut bad, mut lowest) = (0.0, 1.0, nominal);
        for _ in 0..40 {
            let s = 0.5 * (good + bad);
            match try_at(s) {
                Ok(c) => (good, lowest) = (s, lowest.min(c)),
                Err(_) => bad = s,
            }
        }
        lowest
    }

    /// ln(q / (drop left for the film)) less ln of what a gap of `c` passes per unit of drop. The
    /// exit is at the port's pressure, or above it where the gap chokes.
    fn film(&self, reading: f64, c: f64) -> f64 {
        let (q, port) = self.flow(reading);
        let exit = port.max(self.choked_exit(q, c));
        let drop = (self.ambient - exit) * (self.ambient + exit) - self.inertia(q, c);
        let path = self.air.path_times_pressure() / (0.5 * (self.ambient + exit));
        (q / drop.max(f64::MIN_POSITIVE)).ln() - (c * c * (c + 6.0 * path)).ln()
    }

    /// Flow (over the pull, when that is unknown) and port pressure.
    fn flow(&self, reading: f64) -> (f64, f64) {
        let p_g = self.ambient - reading;
        let pulled = p_g - self.dead_head;
        match self.calibrated {
            Some((pull, hose, _)) => {
                let q = pull * pulled;
                (q, (p_g * p_g + hose * q).sqrt().min(self.ambient))
            }
            None => (pulled, p_g),
        }
    }

    fn inertia(&self, q: f64, c: f64) -> f64 {
        ENTRY_EXIT_LOSS * self.choked_exit(q, c).powi(2)
    }

    /// Exit pressure at which the gas would leave at sqrt(R T); 0 without a calibrated stand.
    fn choked_exit(&self, q: f64, c: f64) -> f64 {
        self.calibrated.map_or(0.0, |(_, _, diameter)| {
            q / (self.air.rt().sqrt() * PI * diameter * c)
        })
    }

    /// Just above the clearance at which entry and exit would cost the whole drop, for the valve
    /// that needs more.
    fn smallest(&self, larger: f64, smaller: f64, d: f64) -> f64 {
        let least = |reading: f64| {
            let (q, port) = self.flow(reading);
            let drop = (self.ambient - port) * (self.ambient + port);
            let free = (ENTRY_EXIT_LOSS / drop).sqrt();
            let choked = (ENTRY_EXIT_LOSS + 1.0).sqrt() / self.ambient;
            self.choked_exit(q, 1.0) * free.max(choked)
        };
        least(larger).max(least(smaller) - d) * (1.0 + 1.0e-9)
    }
}

/// The way from the stated numbers to their worst combination.
#[derive(Clone, Copy)]
struct Corner {
    larger: f64,
    smaller: f64,
    tolerance: f64,
    d: f64,
    share: f64,
}

#[cfg(test)]
#[path = "two_valves_tests.rs"]
mod tests;
