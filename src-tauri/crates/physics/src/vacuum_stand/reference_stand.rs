//! One stand on paper, so that a leak measured anywhere can be told as a familiar number.

use uom::si::f64::{Pressure, ThermodynamicTemperature, VolumeRate};
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::volume_rate::cubic_meter_per_second;

use super::{BalanceOrifice, DeadHead, Leak, VacuumStand};
use crate::air::Air;
use crate::atmosphere;
use crate::error::PhysicsError;
use crate::quantity::{hose_resistance, inches_of_mercury};

/// Pull of the reference stand, m3/s (9 L/min). Our own convention, near the middle of the 2 to
/// 20 L/min that such stands have (general trade knowledge, no source).
pub const REFERENCE_PULL_M3_PER_S: f64 = 1.5e-4;
/// Dead-head of the reference stand at sea level, conventional inHg. Our own convention, within
/// the 26 to 29 inHg that such stands have (general trade knowledge, no source).
pub const REFERENCE_DEAD_HEAD_INHG: f64 = 28.0;

/// The reference stand: the two constants above, at 101 325 Pa, with a hose that costs nothing.
#[must_use]
pub fn reference_stand() -> VacuumStand {
    let barometer = atmosphere::sea_level_pressure();
    VacuumStand {
        pull: VolumeRate::new::<cubic_meter_per_second>(REFERENCE_PULL_M3_PER_S),
        dead_head: DeadHead {
            pressure: barometer - inches_of_mercury(REFERENCE_DEAD_HEAD_INHG),
            barometer,
            follows_barometer: true,
        },
        hose_resistance: hose_resistance(0.0),
    }
}

/// The reading that a leak would give on the reference stand at sea level, with air at 20 °C.
///
/// # Errors
/// As [`VacuumStand::reading`].
pub fn reading_on_reference_stand(leak: &Leak) -> Result<Pressure, PhysicsError> {
    let air = Air::at(ThermodynamicTemperature::new::<kelvin>(293.15))?;
    let barometer = atmosphere::sea_level_pressure();
    let shown = reference_stand().reading(leak, &BalanceOrifice::Blocked, &air, barometer)?;
    Ok(shown.reading)
}
