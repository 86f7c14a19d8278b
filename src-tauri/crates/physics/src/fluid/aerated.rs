//! Oil with air bubbles in it: how stiff it is, and how much of it is air.
//!
//! A unit volume of oil at the reference pressure p0 and `ratio` times as much free air beside it,
//! compressed to the absolute pressure p:
//!
//! `V = exp(-(p - p0) / K) + ratio (p0 / p)^(1/n)`, and `K_eff = -V dp/dV`,
//!
//! with K the oil's own bulk modulus and n the air's polytropic exponent (1 slow, 1.4 fast). That is
//! Wood's equation for the mixture at p, with the air's share of the volume carried there from p0:
//! the compression-only model that H. Gholizadeh, R. Burton and G. Schoenau compare with others
//! ("Fluid Bulk Modulus: Comparison of Low Pressure Models", Int. J. Fluid Power 13 (2012), from
//! memory), and the closed form that open models name after Cho and Yudell. It rises with pressure
//! throughout. Walls that give add their compliance,
//! `1/K = 1/K_mix + 1/K_wall` (Merritt, *Hydraulic Control Systems*, ch. 1).
//!
//! The ratio is that of free air **to oil**, not to the mixture, **at p0**.

use uom::si::f64::{Pressure, Ratio};
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;

use crate::assumption::Assumption;
use crate::error::PhysicsError;
use crate::range;

/// Oil with entrained air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AeratedOil {
    /// Bulk modulus of the oil alone, 0.5 to 5 GPa; 1.4 to 1.7 GPa for warm oils (from memory).
    pub oil_bulk_modulus: Pressure,
    /// Free air over oil by volume at the reference pressure, 0 to 0.5.
    pub air_ratio: Ratio,
    /// Absolute pressure at which the ratio holds, 10 kPa to 10.2 MPa; as a rule the barometer.
    pub reference_pressure: Pressure,
    /// Polytropic exponent, 1 to 1.67: 1 for changes slower than some tenths of a second in fine
    /// bubbles, 1.4 for quick ones.
    pub polytropic_exponent: Ratio,
    /// Bulk modulus of what holds the oil, 0.1 GPa and up; none for rigid walls.
    pub wall_bulk_modulus: Option<Pressure>,
}

/// Aerated oil at one pressure.
#[derive(Debug, Clone, PartialEq)]
pub struct Stiffness {
    /// Effective bulk modulus, of mixture and walls.
    pub bulk_modulus: Pressure,
    /// Air over the whole volume at this pressure.
    pub air_fraction: Ratio,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
}

impl AeratedOil {
    /// Stiffness at the absolute `pressure`, 10 kPa to 10.2 MPa.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`], [`PhysicsError::NotFinite`].
    pub fn at(&self, pressure: Pressure) -> Result<Stiffness, PhysicsError> {
        let k = range::OIL_BULK_MODULUS.check(self.oil_bulk_modulus.get::<pascal>())?;
        let share = range::AIR_RATIO.check(self.air_ratio.get::<ratio>())?;
        let n = range::POLYTROPIC.check(self.polytropic_exponent.get::<ratio>())?;
        let p0 = range::ABSOLUTE_OIL_PRESSURE.check_as(
            "reference_pressure_pa",
            self.reference_pressure.get::<pascal>(),
        )?;
        let p = range::ABSOLUTE_OIL_PRESSURE.check(pressure.get::<pascal>())?;
        let wall = match self.wall_bulk_modulus {
            Some(wall) => 1.0 / range::WALL_BULK_MODULUS.check(wall.get::<pascal>())?,
            None => 0.0,
        };
        let oil = (-(p - p0) / k).exp();
        let air = share * (p0 / p).powf(1.0 / n);
        let compliance = (oil / k + air / (n * p)) / (oil + air) + wall;
        Ok(Stiffness {
            bulk_modulus: Pressure::new::<pascal>(1.0 / compliance),
            air_fraction: Ratio::new::<ratio>(air / (oil + air)),
            assumptions: if share > 0.0 {
                vec![Assumption::AirStaysFree]
            } else {
                Vec::new()
            },
        })
    }
}
