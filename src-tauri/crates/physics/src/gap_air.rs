//! Air through the gap between valve and bore.
//!
//! Isothermal film flow with first-order slip, and a loss at entry and exit:
//!
//! p_a^2 - p_F^2 = 24 mu q / (pi K (1 + 6 l/c)) + xi q^2 / (R T (pi D c)^2)
//!
//! with q the pV throughput and l the mean free path at the mean pressure, which is exact for the
//! slip term because l p is constant. The film part is White, Viscous Fluid Flow (slot flow) and
//! Merritt, Hydraulic Control Systems, ch. 3, with density following pressure; slip is Maxwell's.
//!
//! **Choking.** The gas leaves the gap at most at the isothermal speed of sound sqrt(R T), where a
//! long passage chokes (White, Fluid Mechanics, isothermal duct flow), so q <= p_exit sqrt(R T)
//! pi D c. While the chamber is above the exit pressure that this allows, the exit is at chamber
//! pressure; below it the exit stays at p* = q / (sqrt(R T) pi D c), and the equation above with
//! p* in the place of p_F has one root, the choked throughput. With xi >= 1.4 this never exceeds
//! an ideal nozzle of the same area.
//!
//! **Left out**: the work of accelerating the gas along the gap, 2 ln(p_in / p_exit) beside xi. It
//! grows with the fourth power of the gap; see [`Assumption::EntryExitLoss`].

use std::f64::consts::PI;

use uom::si::f64::{Length, Pressure, Ratio, Volume};
use uom::si::length::meter;
use uom::si::ratio::ratio;

use crate::air::Air;
use crate::assumption::{Assumption, note};
use crate::error::PhysicsError;
use crate::gap::{Annulus, Land};
use crate::quantity::{Interval, Throughput, throughput};
use crate::range;
use crate::root;

/// Lowest credible xi: half a dynamic pressure to enter, one lost at the exit.
pub const ENTRY_EXIT_LOSS_LOW: f64 = 1.5;
/// Highest credible xi: the exit of a parabolic profile loses 54/35 = 1.54, the entry half.
pub const ENTRY_EXIT_LOSS_HIGH: f64 = 2.0;
/// xi when none is given: the middle of the two.
pub const ENTRY_EXIT_LOSS: f64 = 1.75;

/// Reynolds number (2 rho v c / mu) above which a film may be turbulent (`from memory`: 2000 to
/// 3000 for a plane gap).
const LAMINAR_LIMIT: f64 = 2000.0;

/// Air through one gap, and what shaped the number.
#[derive(Debug, Clone, PartialEq)]
pub struct GapFlow {
    /// pV throughput at the air's temperature.
    pub throughput: Throughput,
    /// Whether the gap is choked.
    pub choked: bool,
    /// Reynolds number on the hydraulic diameter, 2 rho v c / mu.
    pub reynolds: Ratio,
    /// By how much slip raises the film's conductance, 6 l/c.
    pub slip_fraction: Ratio,
    /// Share of p_in^2 - p_exit^2 that entry and exit take, 0 to 1.
    pub inertia_fraction: Ratio,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
}

/// Throughput of a laminar film alone, pi K (p1^2 - p2^2) / (24 mu), no slip and no loss: the limit
/// of small gaps. Negative when `downstream` is the higher pressure.
///
/// # Errors
/// [`PhysicsError`] naming `air_pressure_pa`, or `gap_factor_m3` (1e-24 to 1e-8).
pub fn laminar_throughput(
    gap_factor: Volume,
    air: &Air,
    upstream: Pressure,
    downstream: Pressure,
) -> Result<Throughput, PhysicsError> {
    let k = range::within("gap_factor_m3", gap_factor.value, 1.0e-24, 1.0e-8, "m3")?;
    let p1 = range::AIR_PRESSURE.check(upstream.value)?;
    let p2 = range::AIR_PRESSURE.check(downstream.value)?;
    Ok(throughput(laminar_si(k, air, p1, p2)))
}

pub(crate) fn laminar_si(k: f64, air: &Air, p1: f64, p2: f64) -> f64 {
    PI * k * (p1 * p1 - p2 * p2) / (24.0 * air.viscosity_pa_s)
}

/// Throughput from `upstream` to `downstream` through a gap; zero when there is no drop. `loss` is
/// xi, 1.4 to 4, else [`ENTRY_EXIT_LOSS`].
///
/// # Errors
/// [`PhysicsError`] naming `air_pressure_pa` or `entry_exit_loss_ratio`;
/// [`PhysicsError::NoSolution`] never for inputs in range.
pub fn flow(
    gap: &Annulus,
    air: &Air,
    upstream: Pressure,
    downstream: Pressure,
    loss: Option<Ratio>,
) -> Result<GapFlow, PhysicsError> {
    let p1 = range::AIR_PRESSURE.check(upstream.value)?;
    let p2 = range::AIR_PRESSURE.check(downstream.value)?;
    let raw = Passage {
        gap,
        air,
        loss: loss_or_default(loss)?,
    }
    .flow(p1, p2)?;
    let mut assumptions = vec![
        Assumption::DryIdealAir,
        Assumption::Isothermal,
        Assumption::LaminarFilm,
    ];
    note(&mut assumptions, Assumption::EntryExitLoss);
    if raw.choked {
        note(&mut assumptions, Assumption::ChokedGap);
    }
    if raw.reynolds > LAMINAR_LIMIT {
        note(&mut assumptions, Assumption::PossiblyTurbulentFilm);
    }
    Ok(GapFlow {
        throughput: throughput(raw.q),
        choked: raw.choked,
        reynolds: Ratio::new::<ratio>(raw.reynolds),
        slip_fraction: Ratio::new::<ratio>(raw.slip),
        inertia_fraction: Ratio::new::<ratio>(raw.inertia),
        assumptions,
    })
}

/// The throughput at the highest and the lowest credible xi: how far it depends on what entry and
/// exit really cost.
///
/// # Errors
/// As [`flow`].
pub fn loss_spread(
    gap: &Annulus,
    air: &Air,
    upstream: Pressure,
    downstream: Pressure,
) -> Result<Interval<Throughput>, PhysicsError> {
    let at = |xi| {
        flow(
            gap,
            air,
            upstream,
            downstream,
            Some(Ratio::new::<ratio>(xi)),
        )
    };
    let low = at(ENTRY_EXIT_LOSS_HIGH)?.throughput;
    Ok(Interval {
        low,
        high: at(ENTRY_EXIT_LOSS_LOW)?.throughput,
    })
}

/// A land in a vacuum test, and the pressure on its far side (absolute).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Seal {
    /// The land.
    pub land: Land,
    /// Pressure from which air comes: the barometer, unless the far side is closed.
    pub far_side: Pressure,
}

/// The radial clearance, shared by all `seals`, at which together they pass `flow` into a chamber
/// at `chamber` (absolute), for a relative eccentricity. Throughput grows with clearance, so there
/// is one answer; it is sought between 0.1 µm and 1 mm.
///
/// # Errors
/// [`PhysicsError::TooFew`] without seals, [`PhysicsError::Contradiction`] when a far side is below
/// the chamber, [`PhysicsError::NoSolution`] for `radial_clearance_m` when the flow is too large or
/// too small for any clearance in range, and range errors of the inputs.
pub fn clearance(
    throughput: Throughput,
    seals: &[Seal],
    air: &Air,
    chamber: Pressure,
    eccentricity: Ratio,
    loss: Option<Ratio>,
) -> Result<Length, PhysicsError> {
    let q = range::THROUGHPUT.check(throughput.value)?;
    let p2 = range::AIR_PRESSURE.check(chamber.value)?;
    let e = range::ECCENTRICITY.check(eccentricity.get::<ratio>())?;
    let xi = loss_or_default(loss)?;
    if seals.is_empty() {
        return Err(PhysicsError::TooFew {
            field: "seals",
            count: 0,
            least: 1,
        });
    }
    for seal in seals {
        let far = range::AIR_PRESSURE.check_as("far_side_pressure_pa", seal.far_side.value)?;
        if far < p2 {
            return Err(PhysicsError::Contradiction {
                field: "far_side_pressure_pa",
                other: "vacuum_reading_pa",
            });
        }
    }
    let total = |log_c: f64| -> f64 {
        let c = log_c.exp();
        seals
            .iter()
            .map(|s| seal_si(s.land, c, e, air, s.far_side.value, p2, xi))
            .sum()
    };
    let (low, high) = (
        range::RADIAL_CLEARANCE.low.ln(),
        range::RADIAL_CLEARANCE.high.ln(),
    );
    let log_c = root::between("radial_clearance_m", low, high, |x| total(x) - q)?;
    Ok(Length::new::<meter>(log_c.exp()))
}

/// Signed throughput into the chamber at `p2` from a far side at `far`; NaN is impossible for
/// inputs in range, and an inner root that fails reads as NaN for the outer root to refuse.
pub(crate) fn seal_si(land: Land, c: f64, e: f64, air: &Air, far: f64, p2: f64, loss: f64) -> f64 {
    let gap = land.gap_si(c, e);
    let passage = Passage {
        gap: &gap,
        air,
        loss,
    };
    let (high, low, sign) = if far >= p2 {
        (far, p2, 1.0)
    } else {
        (p2, far, -1.0)
    };
    passage.flow(high, low).map_or(f64::NAN, |raw| sign * raw.q)
}

pub(crate) fn loss_or_default(loss: Option<Ratio>) -> Result<f64, PhysicsError> {
    loss.map_or(Ok(ENTRY_EXIT_LOSS), |xi| {
        range::ENTRY_EXIT_LOSS.check(xi.get::<ratio>())
    })
}

struct Passage<'a> {
    gap: &'a Annulus,
    air: &'a Air,
    loss: f64,
}

#[derive(Default)]
struct Raw {
    q: f64,
    choked: bool,
    reynolds: f64,
    slip: f64,
    inertia: f64,
}

impl Passage<'_> {
    fn area(&self) -> f64 {
        PI * self.gap.diameter * self.gap.clearance
    }

    fn slip(&self, p1: f64, exit: f64) -> f64 {
        6.0 * self.air.path_times_pressure() / (0.5 * (p1 + exit)) / self.gap.clearance
    }

    /// Coefficient of q^2 in the loss.
    fn inertia(&self) -> f64 {
        self.loss / (self.air.rt() * self.area().powi(2))
    }

    /// Positive root of inertia q^2 + film q = p1^2 - exit^2, in the form without cancellation.
    fn at_exit(&self, p1: f64, exit: f64) -> f64 {
        let film = 24.0 * self.air.viscosity_pa_s
            / (PI * self.gap.gap_factor_si() * (1.0 + self.slip(p1, exit)));
        let drop = (p1 - exit) * (p1 + exit);
        2.0 * drop / (film + (film * film + 4.0 * self.inertia() * drop).sqrt())
    }

    fn flow(&self, p1: f64, p2: f64) -> Result<Raw, PhysicsError> {
        if p2 >= p1 {
            return Ok(Raw::default());
        }
        let sonic = self.area() * self.air.rt().sqrt();
        let free = self.at_exit(p1, p2);
        let choked = free > sonic * p2;
        let (q, exit) = if choked {
            let excess = |exit: f64| self.at_exit(p1, exit) - sonic * exit;
            let exit = root::between("throughput_w", p2, p1, excess)?;
            (sonic * exit, exit)
        } else {
            (free, p2)
        };
        Ok(Raw {
            q,
            choked,
            reynolds: 2.0 * q / self.air.rt() / (PI * self.gap.diameter * self.air.viscosity_pa_s),
            slip: self.slip(p1, exit),
            inertia: self.inertia() * q * q / ((p1 - exit) * (p1 + exit)),
        })
    }
}

#[cfg(test)]
#[path = "gap_air_tests.rs"]
mod tests;
