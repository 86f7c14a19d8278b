//! Oil through an annular clearance.
//!
//! `dp = 12 mu / (pi K) Q + xi rho / (2 (pi D c)^2) Q^2`: the laminar film of Merritt, *Hydraulic
//! Control Systems*, ch. 3, and White, *Viscous Fluid Flow* (eccentric annulus), with
//! `K = D c^3 (1 + 1.5 e^2) / L`, and in series the loss of entry and exit, 1.5 to 2 dynamic
//! pressures. The second term matters where wear does: short lands, wide gaps, hot oil.

use std::f64::consts::PI;

use uom::si::f64::{Pressure, Ratio, VolumeRate};
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::volume_rate::cubic_meter_per_second;

use crate::assumption::Assumption;
use crate::error::PhysicsError;
use crate::fluid::OilState;
use crate::gap::Annulus;
use crate::loss::SeriesLoss;
use crate::range;

/// Dynamic pressures lost at entry and exit of an oil film: the low end of the 1.5 to 2 of the
/// literature on short gaps (from memory), which states the leak rather too high than too low.
pub const OIL_ENTRY_EXIT_LOSS: f64 = 1.5;

/// Reynolds number of a film, 2 c v / nu, above which it may be turbulent (White, plane channel,
/// from memory).
const LAMINAR_BELOW: f64 = 2000.0;

/// Oil that passes a clearance.
#[derive(Debug, Clone, PartialEq)]
pub struct OilLeak {
    /// The flow; its sign is that of the drop.
    pub flow: VolumeRate,
    /// The flow without entry and exit loss, pi K dp / (12 mu).
    pub laminar_flow: VolumeRate,
    /// 2 c v / nu.
    pub reynolds: Ratio,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
}

/// Flow past `gap` under `drop` (up to 10 MPa either way).
///
/// # Errors
/// [`PhysicsError::OutOfRange`].
pub fn leak(gap: &Annulus, drop: Pressure, oil: &OilState) -> Result<OilLeak, PhysicsError> {
    let (mu, rho) = oil.si()?;
    let dp = range::PRESSURE_DROP.check(drop.get::<pascal>())?;
    let law = law(gap, mu, rho);
    let q = law.flow(dp);
    let reynolds = 2.0 * q.abs() / (PI * gap.diameter) * rho / mu;
    let mut assumptions = vec![Assumption::LaminarFilm, Assumption::EntryExitLoss];
    if reynolds > LAMINAR_BELOW {
        assumptions.push(Assumption::PossiblyTurbulentFilm);
    }
    if oil.extrapolated {
        assumptions.push(Assumption::ViscosityExtrapolated);
    }
    Ok(OilLeak {
        flow: VolumeRate::new::<cubic_meter_per_second>(q),
        laminar_flow: VolumeRate::new::<cubic_meter_per_second>(dp / law.linear),
        reynolds: Ratio::new::<ratio>(reynolds),
        assumptions,
    })
}

/// Pressure drop at `flow` (up to 3000 L/min either way); the inverse of [`leak`]. The answer may
/// exceed the drop that `leak` accepts.
///
/// # Errors
/// [`PhysicsError::OutOfRange`].
pub fn pressure_drop(
    gap: &Annulus,
    flow: VolumeRate,
    oil: &OilState,
) -> Result<Pressure, PhysicsError> {
    let (mu, rho) = oil.si()?;
    let q = range::OIL_FLOW.check(flow.get::<cubic_meter_per_second>())?;
    Ok(Pressure::new::<pascal>(law(gap, mu, rho).drop(q)))
}

pub(crate) fn law(gap: &Annulus, mu: f64, rho: f64) -> SeriesLoss {
    law_losing(gap, mu, rho, OIL_ENTRY_EXIT_LOSS)
}

/// As [`law`], with `entry_exit_loss` dynamic pressures lost.
#[inline]
pub(crate) fn law_losing(gap: &Annulus, mu: f64, rho: f64, entry_exit_loss: f64) -> SeriesLoss {
    let area = PI * gap.diameter * gap.clearance;
    SeriesLoss {
        linear: 12.0 * mu / (PI * gap.gap_factor_si()),
        quadratic: entry_exit_loss * rho / (2.0 * area * area),
    }
}
