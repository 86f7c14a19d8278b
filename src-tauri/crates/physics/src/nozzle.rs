//! The ideal nozzle: the most that air can flow through an area.

use uom::si::f64::{Area, MassRate, Pressure, Ratio};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::ratio::ratio;

use crate::air::{Air, Gas};
use crate::error::PhysicsError;
use crate::range::{self, within};

/// Pressure ratio at which an ideal nozzle chokes, (2/(k+1))^(k/(k-1)) (NACA Report 1135, eq. 48,
/// `from memory`).
#[must_use]
pub fn critical_ratio(gas: Gas) -> Ratio {
    let k = gas.heat_ratio;
    Ratio::new::<ratio>((2.0 / (k + 1.0)).powf(k / (k - 1.0)))
}

/// Isentropic flow of air at `air`'s temperature from `upstream` (stagnation) to `downstream`,
/// absolute pressures, through an effective area of `area` times `discharge` (0.1 to 1). Choked
/// below [`critical_ratio`] (NACA Report 1135).
///
/// Zero when `downstream` is not below `upstream`.
///
/// # Errors
/// [`PhysicsError`] naming `area_m2` (1e-12 to 0.01), `discharge_coefficient_ratio` or
/// `air_pressure_pa`.
pub fn mass_flow(
    area: Area,
    discharge: Ratio,
    air: &Air,
    upstream: Pressure,
    downstream: Pressure,
) -> Result<MassRate, PhysicsError> {
    let a = within("area_m2", area.value, 1.0e-12, 0.01, "m2")?;
    let cd = range::DISCHARGE_COEFFICIENT.check(discharge.get::<ratio>())?;
    let p1 = range::AIR_PRESSURE.check(upstream.value)?;
    let p2 = range::AIR_PRESSURE.check(downstream.value)?;
    let flow = cd * a * p1 * flow_function(air.gas, p2 / p1) / air.rt().sqrt();
    Ok(MassRate::new::<kilogram_per_second>(flow))
}

/// Mass flow times sqrt(R T) over area and upstream pressure, at pressure ratio `r`.
pub(crate) fn flow_function(gas: Gas, r: f64) -> f64 {
    let k = gas.heat_ratio;
    let r = r.max(critical_ratio(gas).value);
    if r >= 1.0 {
        return 0.0;
    }
    (2.0 * k / (k - 1.0) * (r.powf(2.0 / k) - r.powf((k + 1.0) / k)))
        .max(0.0)
        .sqrt()
}
