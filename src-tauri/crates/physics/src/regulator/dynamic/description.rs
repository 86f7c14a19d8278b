//! What the dynamic model needs beyond the static description.

use std::f64::consts::PI;

use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{DynamicViscosity, Mass, MassRate, Pressure, Ratio, Volume};
use uom::si::mass_rate::kilogram_per_second;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;

use super::super::description::Regulator;
use crate::error::PhysicsError;
use crate::fluid::OilState;
use crate::gap::Annulus;

/// Force per speed, N s/m. `uom` has no name of its own for it; the dimension is that of a mass
/// rate.
pub type ViscousDamping = MassRate;

/// How the oil yields to pressure.
///
/// `1/B = 1/B_oil + phi / (n p)`, `phi = a r / (a r + 1 - a)`, `r = (p_atm / p)^(1/n)`, with p
/// absolute and a the free air at atmospheric pressure (Merritt, *Hydraulic Control Systems*,
/// ch. 1; the walls are taken as rigid). At 1 % of air that is 3e8 Pa near 4 bar and 1e9 Pa at
/// 15 bar; towards vacuum it falls to n p, so that oil drawn apart never goes below 0 Pa absolute.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OilStiffness {
    /// Bulk modulus of the oil itself, 0.3 to 5 GPa; 1.2 to 1.7 GPa as a rule (from memory).
    pub liquid: Pressure,
    /// Free air by volume at atmospheric pressure, 1e-6 to 0.3; 0.005 to 0.02 as a rule, 0.1 in
    /// oil that foams (from memory).
    pub entrained_air: Ratio,
    /// Exponent n of the bubbles' compression, 1 (isothermal) to 1.4 (adiabatic). Bubbles below a
    /// tenth of a millimetre are isothermal to several kilohertz, for heat crosses them in
    /// R^2 / (20 mm2/s); isothermal is also the softer.
    pub exponent: Ratio,
    /// The barometer: 0 on the gauge.
    pub barometer: Pressure,
}

/// A regulator that moves.
///
/// Same directions and pressures as [`Regulator`], whose `friction` here is the friction while
/// sliding.
#[derive(Debug, Clone, PartialEq)]
pub struct MovingRegulator {
    /// Everything that sets the state of rest.
    pub regulator: Regulator,
    /// Spool with a third of its spring, 0.1 g to 1 kg.
    pub spool_mass: Mass,
    /// Viscous damping of the spool, 0 to 10 kN s/m; see [`film_damping`].
    pub damping: ViscousDamping,
    /// Friction that must be overcome to break away, over the friction while sliding, 1 to 5.
    pub breakaway: Ratio,
    /// Oil between the regulator and its outlets, 1 mm3 to 10 L.
    pub feed_volume: Volume,
    /// Reaction chamber with the spool at x = 0, 1 mm3 to 10 L.
    pub reaction_volume: Volume,
    /// Spring chamber with the spool at the end of its stroke, 1 mm3 to 10 L. Of no effect while
    /// its drain is open.
    pub chamber_volume: Volume,
    /// How the oil yields.
    pub oil_stiffness: OilStiffness,
}

/// Damping of a land by the oil film in its clearance, `pi D L mu / (c sqrt(1 - e^2))` (Petroff;
/// Merritt ch. 5 without the eccentricity). With the land touching (e = 1) it would be infinite,
/// so e counts for at most 0.95, where the film gives three times what it gives centred.
///
/// # Errors
/// [`PhysicsError::OutOfRange`] for the oil.
pub fn film_damping(land: &Annulus, oil: &OilState) -> Result<ViscousDamping, PhysicsError> {
    oil.si()?;
    let mu = DynamicViscosity::get::<pascal_second>(&oil.viscosity);
    let e = land.eccentricity.min(0.95);
    let area = PI * land.diameter * land.length;
    Ok(ViscousDamping::new::<kilogram_per_second>(
        area * mu / (land.clearance * (1.0 - e * e).sqrt()),
    ))
}

/// [`OilStiffness`] in SI.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stiffness {
    liquid: f64,
    air: f64,
    exponent: f64,
    pub barometer: f64,
}

impl OilStiffness {
    /// Bulk modulus at `pressure` on the gauge (0 to 10 MPa).
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`].
    pub fn bulk_modulus(&self, pressure: Pressure) -> Result<Pressure, PhysicsError> {
        let p = crate::range::OIL_PRESSURE.check(pressure.get::<pascal>())?;
        Ok(Pressure::new::<pascal>(self.law()?.modulus(p).0))
    }

    pub(super) fn law(&self) -> Result<Stiffness, PhysicsError> {
        use crate::range;
        Ok(Stiffness {
            liquid: range::LIQUID_BULK_MODULUS.check(self.liquid.get::<pascal>())?,
            air: range::ENTRAINED_AIR.check(self.entrained_air.get::<ratio>())?,
            exponent: range::COMPRESSION_EXPONENT.check(self.exponent.get::<ratio>())?,
            barometer: range::BAROMETER.check(self.barometer.get::<pascal>())?,
        })
    }
}

impl Stiffness {
    /// Bulk modulus at the gauge pressure `gauge`, and how it grows with it.
    #[inline]
    pub fn modulus(&self, gauge: f64) -> (f64, f64) {
        // A trial step may overshoot vacuum; a solution never gets there.
        let p = (gauge + self.barometer).max(1.0);
        let n = self.exponent;
        let r = if n == 1.0 {
            self.barometer / p
        } else {
            (self.barometer / p).powf(1.0 / n)
        };
        let free = self.air * r;
        let phi = free / (free + 1.0 - self.air);
        let compliance = 1.0 / self.liquid + phi / (n * p);
        let modulus = 1.0 / compliance;
        // dr/dp = -r / (n p), dphi/dr = phi (1 - phi) / r.
        let slope = -phi * ((1.0 - phi) / n + 1.0) / (n * p * p);
        (modulus, -slope * modulus * modulus)
    }
}
