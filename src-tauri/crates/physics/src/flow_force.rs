//! The steady force of the oil on a metering edge.
//!
//! Oil speeds up through the opening and leaves the land at an angle; the momentum that it
//! carries away along the axis is missing on the land. The force **always acts to close** the
//! opening, whichever way the oil passes (Merritt, *Hydraulic Control Systems*, ch. 5).

use uom::si::f64::{Force, Pressure, VolumeRate};
use uom::si::force::newton;
use uom::si::pressure::pascal;
use uom::si::volume_rate::cubic_meter_per_second;

use crate::error::PhysicsError;
use crate::fluid::OilState;
use crate::range;

/// Cosine of the 69° at which the jet leaves a square land with little clearance (von Mises;
/// Merritt ch. 5).
pub const JET_COSINE: f64 = 0.358_367_949_545_300_27;

/// Speed of the jet over the ideal speed `sqrt(2 dp / rho)` (Merritt ch. 3).
pub const VELOCITY_COEFFICIENT: f64 = 0.98;

/// Steady axial flow force on a square land, `rho Q v cos 69°` with
/// `v = 0.98 sqrt(2 dp / rho)`; never negative, acting to close the opening.
///
/// Valid for a jet, that is a metering edge well open; for a film past an overlap the force is
/// overstated but then negligible, as Q is.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] for a flow beyond 3000 L/min or a drop beyond 10 MPa either way.
pub fn steady(flow: VolumeRate, drop: Pressure, oil: &OilState) -> Result<Force, PhysicsError> {
    let q = range::OIL_FLOW.check(flow.get::<cubic_meter_per_second>())?;
    let dp = range::PRESSURE_DROP.check(drop.get::<pascal>())?;
    let (_, rho) = oil.si()?;
    Ok(Force::new::<newton>(steady_si(q, dp, rho)))
}

/// As [`steady`], in plain SI.
#[inline]
pub(crate) fn steady_si(q: f64, dp: f64, rho: f64) -> f64 {
    VELOCITY_COEFFICIENT * JET_COSINE * q.abs() * (2.0 * rho * dp.abs()).sqrt()
}

#[cfg(test)]
mod tests {
    #[test]
    fn cosine_is_that_of_69_degrees() {
        assert!((super::JET_COSINE - 69f64.to_radians().cos()).abs() < 1e-15);
    }
}
