//! The spring of a spool or ball: rate, preload, and the pressure that balances it.
//!
//! Sources: Shigley, *Mechanical Engineering Design*, ch. 10, eq. 10-9, and EN 13906-1 for the
//! rate from geometry (torsion only; direct shear, eq. 10-8, would lower it by
//! 1/(1 + 1/(2 C^2)), 0.8 % at C = D/d = 8). `P = F / A` is the balance of a spool at rest.

pub mod geometry;
pub mod measured;
pub mod rerate;
pub mod spread;

use uom::si::area::square_meter;
use uom::si::f64::{Area, Force, Length, Pressure, Ratio, SurfaceTension};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::surface_tension::newton_per_meter;

use crate::error::PhysicsError;
use crate::range;

/// Force per deflection, N/m. `uom` has no name of its own for a spring rate; the dimension is
/// that of its surface tension.
pub type SpringRate = SurfaceTension;

/// A linear spring, told by its load at the start of the travel and its rate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spring {
    /// Load with the spool (or ball) at the start of its travel, 0.05 N to 5 kN.
    pub load_at_rest: Force,
    /// Rate, 10 N/m to 1 MN/m.
    pub rate: SpringRate,
}

impl Spring {
    /// Load after `travel` in the direction that compresses the spring.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`] for a load, a rate or a travel (0 to 50 mm) outside the
    /// table.
    pub fn load_at(&self, travel: Length) -> Result<Force, PhysicsError> {
        let load = range::SPRING_LOAD.check(self.load_at_rest.get::<newton>())?;
        let rate = range::SPRING_RATE.check(self.rate.get::<newton_per_meter>())?;
        let travel = range::SPRING_TRAVEL.check(travel.get::<meter>())?;
        Ok(Force::new::<newton>(load + rate * travel))
    }

    /// The spring through two measured pairs of load and compressed height, with `height_at_rest`
    /// the height that it has in the valve at the start of the travel.
    ///
    /// # Errors
    /// [`PhysicsError::Contradiction`] if the lower height doesn't carry the higher load (a
    /// spring measured wrongly, or pairs swapped); [`PhysicsError::OutOfRange`] if the loads, or
    /// the spring that follows from them, lie outside the table.
    pub fn from_loads(
        first: (Force, Length),
        second: (Force, Length),
        height_at_rest: Length,
    ) -> Result<Self, PhysicsError> {
        let f1 = range::SPRING_LOAD.check_as("first_load_n", first.0.get::<newton>())?;
        let f2 = range::SPRING_LOAD.check_as("second_load_n", second.0.get::<newton>())?;
        let h1 = range::SPRING_HEIGHT.check_as("first_height_m", first.1.get::<meter>())?;
        let h2 = range::SPRING_HEIGHT.check_as("second_height_m", second.1.get::<meter>())?;
        let rest =
            range::SPRING_HEIGHT.check_as("height_at_rest_m", height_at_rest.get::<meter>())?;
        let slope = (f1 - f2) / (h2 - h1);
        if !(slope.is_finite() && slope > 0.0) {
            return Err(PhysicsError::Contradiction {
                field: "second_load_n",
                other: "second_height_m",
            });
        }
        let rate = range::SPRING_RATE.check(slope)?;
        let load = range::SPRING_LOAD.check(f1 + rate * (h1 - rest))?;
        Ok(Self {
            load_at_rest: Force::new::<newton>(load),
            rate: SpringRate::new::<newton_per_meter>(rate),
        })
    }
}

/// Rate of a cylindrical compression spring of round wire, `G d^4 / (8 D^3 N)`.
///
/// `wire` is the wire diameter d (0.1 to 10 mm), `mean_diameter` the mean coil diameter D (more
/// than 2 d, up to 100 mm), `active_coils` N (1 to 50), `shear_modulus` G (20 to 120 GPa).
///
/// # Errors
/// [`PhysicsError::OutOfRange`]; [`PhysicsError::Contradiction`] for a coil no wider than two
/// wires.
pub fn rate_from_geometry(
    wire: Length,
    mean_diameter: Length,
    active_coils: Ratio,
    shear_modulus: Pressure,
) -> Result<SpringRate, PhysicsError> {
    let d = range::WIRE_DIAMETER.check(wire.get::<meter>())?;
    let coil = range::COIL_DIAMETER.check(mean_diameter.get::<meter>())?;
    let n = range::ACTIVE_COILS.check(active_coils.get::<ratio>())?;
    let g = range::SHEAR_MODULUS.check(shear_modulus.get::<pascal>())?;
    if coil <= 2.0 * d {
        return Err(PhysicsError::Contradiction {
            field: range::COIL_DIAMETER.field,
            other: range::WIRE_DIAMETER.field,
        });
    }
    Ok(SpringRate::new::<newton_per_meter>(
        g * d.powi(4) / (8.0 * coil.powi(3) * n),
    ))
}

/// The pressure (above that on the other side) at which `load` is balanced on `area`.
///
/// # Errors
/// [`PhysicsError::OutOfRange`].
pub fn pressure_for_load(load: Force, area: Area) -> Result<Pressure, PhysicsError> {
    let load = range::SPRING_LOAD.check(load.get::<newton>())?;
    let area = range::SPOOL_AREA.check(area.get::<square_meter>())?;
    Ok(Pressure::new::<pascal>(load / area))
}

/// The spring load that balances `pressure` (above that on the other side) on `area`.
///
/// # Errors
/// [`PhysicsError::OutOfRange`].
pub fn load_for_pressure(pressure: Pressure, area: Area) -> Result<Force, PhysicsError> {
    let pressure = range::OIL_PRESSURE.check(pressure.get::<pascal>())?;
    let area = range::SPOOL_AREA.check(area.get::<square_meter>())?;
    Ok(Force::new::<newton>(pressure * area))
}

/// The full face of a spool of this diameter.
///
/// # Errors
/// [`PhysicsError::OutOfRange`].
pub fn face_area(diameter: Length) -> Result<Area, PhysicsError> {
    let d = range::BORE_DIAMETER.check(diameter.get::<meter>())?;
    Ok(Area::new::<square_meter>(
        std::f64::consts::FRAC_PI_4 * d * d,
    ))
}
