//! The standard atmosphere below 11 km: ISO 2533:1975, the same there as the US Standard
//! Atmosphere 1976.
//!
//! Altitude is **geometric** (what a map shows). The geopotential altitude that some tables and
//! packages take is shorter by 1.5 m at 3 km, or 13 Pa.

use uom::si::f64::{Length, Pressure, ThermodynamicTemperature};
use uom::si::length::meter;
use uom::si::thermodynamic_temperature::kelvin;

use crate::air::AIR_CONSTANT;
use crate::error::PhysicsError;
use crate::quantity::pascals;
use crate::range;

/// Pressure at sea level, Pa (ISO 2533 table 1).
pub const SEA_LEVEL_PRESSURE_PA: f64 = 101_325.0;
/// Temperature at sea level, K (ISO 2533 table 1).
pub const SEA_LEVEL_TEMPERATURE_K: f64 = 288.15;
/// Fall of temperature with geopotential altitude, K/m (ISO 2533 table 4).
const LAPSE_K_PER_M: f64 = 0.0065;
/// Standard acceleration of free fall, m/s2.
const GRAVITY_M_PER_S2: f64 = 9.806_65;
/// Nominal radius of the Earth in the conversion to geopotential altitude, m (ISO 2533, 2.3).
const EARTH_RADIUS_M: f64 = 6_356_766.0;

/// Standard pressure at sea level, 101 325 Pa.
#[must_use]
pub fn sea_level_pressure() -> Pressure {
    pascals(SEA_LEVEL_PRESSURE_PA)
}

/// Geopotential altitude H = r z / (r + z) of a geometric altitude z (ISO 2533 eq. 8, `from
/// memory`). Valid from -500 to 11 000 m.
///
/// # Errors
/// [`PhysicsError`] naming `altitude_m`.
pub fn geopotential(altitude: Length) -> Result<Length, PhysicsError> {
    let z = range::ALTITUDE.check(altitude.value)?;
    Ok(Length::new::<meter>(
        EARTH_RADIUS_M * z / (EARTH_RADIUS_M + z),
    ))
}

/// Standard temperature at a geometric altitude from -500 to 11 000 m.
///
/// # Errors
/// [`PhysicsError`] naming `altitude_m`.
pub fn temperature(altitude: Length) -> Result<ThermodynamicTemperature, PhysicsError> {
    let h = geopotential(altitude)?.value;
    Ok(ThermodynamicTemperature::new::<kelvin>(
        SEA_LEVEL_TEMPERATURE_K - LAPSE_K_PER_M * h,
    ))
}

/// Standard pressure at a geometric altitude from -500 to 11 000 m:
/// p = p0 (1 - L H / T0)^(g / (R L)) (ISO 2533 eq. 12, `from memory`).
///
/// ```
/// use uom::si::{f64::Length, length::meter};
/// let p = physics::atmosphere::pressure(Length::new::<meter>(1000.0))?;
/// assert!((p.value - 89_876.0).abs() < 1.0); // US Standard Atmosphere 1976, table I, Z = 1000 m
/// # Ok::<(), physics::PhysicsError>(())
/// ```
///
/// # Errors
/// [`PhysicsError`] naming `altitude_m`.
pub fn pressure(altitude: Length) -> Result<Pressure, PhysicsError> {
    let ratio = temperature(altitude)?.value / SEA_LEVEL_TEMPERATURE_K;
    Ok(pascals(SEA_LEVEL_PRESSURE_PA * ratio.powf(exponent())))
}

/// The geometric altitude at which the standard atmosphere has this pressure: the inverse of
/// [`pressure`].
///
/// # Errors
/// [`PhysicsError`] naming `barometer_pa`, or `altitude_m` when the answer lies outside the
/// troposphere.
pub fn altitude(pressure: Pressure) -> Result<Length, PhysicsError> {
    let p = range::BAROMETER.check(pressure.value)?;
    let ratio = (p / SEA_LEVEL_PRESSURE_PA).powf(1.0 / exponent());
    let h = SEA_LEVEL_TEMPERATURE_K * (1.0 - ratio) / LAPSE_K_PER_M;
    let z = EARTH_RADIUS_M * h / (EARTH_RADIUS_M - h);
    Ok(Length::new::<meter>(range::ALTITUDE.check(z)?))
}

fn exponent() -> f64 {
    GRAVITY_M_PER_S2 / (AIR_CONSTANT * LAPSE_K_PER_M)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn altitude_undoes_pressure(z in -499.0..10_999.0f64) {
            let back = altitude(pressure(Length::new::<meter>(z)).unwrap()).unwrap().value;
            prop_assert!((back - z).abs() < 1e-6, "{z} came back as {back}");
        }
    }

    #[test]
    fn outside_the_troposphere_is_refused_by_name() {
        for z in [-501.0, 11_001.0] {
            let e = pressure(Length::new::<meter>(z)).unwrap_err();
            assert!(
                matches!(
                    e,
                    PhysicsError::OutOfRange {
                        field: "altitude_m",
                        ..
                    }
                ),
                "{e}"
            );
        }
        let e = pressure(Length::new::<meter>(f64::NAN)).unwrap_err();
        assert_eq!(
            e,
            PhysicsError::NotFinite {
                field: "altitude_m"
            }
        );
    }
}
