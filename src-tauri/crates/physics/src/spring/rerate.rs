//! A spring made to fit: the shim for a wanted pressure, and the spring for another valve.
//!
//! `P A = F` at rest, and `dP/dx = k / A` along the stroke. A valve of another area keeps both its
//! pressure and its droop when load and rate change as the area does.

use uom::si::area::square_meter;
use uom::si::f64::{Area, Force, Length, Pressure};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::surface_tension::newton_per_meter;

use crate::error::PhysicsError;
use crate::range;
use crate::spring::{Spring, SpringRate};

/// A shim, and the spring with it in place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shim {
    /// Thickness to add under the spring; negative when the spring seat must go back.
    pub thickness: Length,
    /// The spring with the shim.
    pub spring: Spring,
}

/// The shim with which `spring` balances `pressure` on `area` with the valve at rest.
///
/// The shim takes its thickness from the travel that is left until the coils shut:
/// [`crate::spring::geometry::SpringGeometry::at_height`] tells that.
///
/// # Errors
/// [`PhysicsError::OutOfRange`]: the inputs, the load wanted, or a shim of more than 50 mm.
pub fn shim_for_pressure(
    spring: &Spring,
    area: Area,
    pressure: Pressure,
) -> Result<Shim, PhysicsError> {
    let (load, rate, area) = checked(spring, area)?;
    let wanted = range::SETPOINT.check(pressure.get::<pascal>())? * area;
    let wanted = range::SPRING_LOAD.check(wanted)?;
    let x = range::within("shim_m", (wanted - load) / rate, -0.05, 0.05, "m")?;
    Ok(Shim {
        thickness: Length::new::<meter>(x),
        spring: Spring {
            load_at_rest: Force::new::<newton>(wanted),
            rate: spring.rate,
        },
    })
}

/// The pressure that `spring` balances on `area` with a shim of `thickness` (-50 to 50 mm) added.
///
/// # Errors
/// [`PhysicsError::OutOfRange`].
pub fn pressure_with_shim(
    spring: &Spring,
    area: Area,
    thickness: Length,
) -> Result<Pressure, PhysicsError> {
    let (load, rate, area) = checked(spring, area)?;
    let x = range::within("shim_m", thickness.get::<meter>(), -0.05, 0.05, "m")?;
    let load = range::SPRING_LOAD.check(load + rate * x)?;
    Ok(Pressure::new::<pascal>(load / area))
}

/// The spring that gives a valve of `new_area` the pressure and the droop that `spring` gives one
/// of `old_area`.
///
/// # Errors
/// [`PhysicsError::OutOfRange`]: the inputs, or a load or rate beyond the table.
pub fn spring_for_new_area(
    spring: &Spring,
    old_area: Area,
    new_area: Area,
) -> Result<Spring, PhysicsError> {
    let (load, rate, old) = checked(spring, old_area)?;
    let new = range::SPOOL_AREA.check_as("new_area_m2", new_area.get::<square_meter>())?;
    Ok(Spring {
        load_at_rest: Force::new::<newton>(range::SPRING_LOAD.check(load * new / old)?),
        rate: SpringRate::new::<newton_per_meter>(range::SPRING_RATE.check(rate * new / old)?),
    })
}

fn checked(spring: &Spring, area: Area) -> Result<(f64, f64, f64), PhysicsError> {
    Ok((
        range::SPRING_LOAD.check(spring.load_at_rest.get::<newton>())?,
        range::SPRING_RATE.check(spring.rate.get::<newton_per_meter>())?,
        range::SPOOL_AREA.check(area.get::<square_meter>())?,
    ))
}
