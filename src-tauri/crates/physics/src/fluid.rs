//! Oil: how its viscosity and density follow temperature.

pub mod aerated;
pub mod chart;
pub mod viscosity_index;

use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{DynamicViscosity, KinematicViscosity, MassDensity, ThermodynamicTemperature};
use uom::si::kinematic_viscosity::square_meter_per_second;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::thermodynamic_temperature::kelvin;

use crate::error::PhysicsError;
use crate::range;

/// An oil as a data sheet tells it: viscosity at two temperatures and density at 15 °C.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Oil {
    /// The colder point, as a rule 40 °C.
    pub cold: ViscosityPoint,
    /// The hotter point, as a rule 100 °C.
    pub hot: ViscosityPoint,
    /// Density at 15 °C, 600 to 1200 kg/m3.
    pub density_at_15c: MassDensity,
}

/// One measured viscosity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ViscosityPoint {
    /// Temperature, 223.15 to 453.15 K.
    pub temperature: ThermodynamicTemperature,
    /// Kinematic viscosity, 0.21 mm2/s to 0.5 m2/s.
    pub viscosity: KinematicViscosity,
}

/// An oil at one temperature: all that the flow laws need.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OilState {
    /// Density.
    pub density: MassDensity,
    /// Dynamic viscosity.
    pub viscosity: DynamicViscosity,
    /// The temperature lies outside the two measured points, so the viscosity is extrapolated:
    /// 20 K below the colder point it is good to some percent, at -20 °C from 40 and 100 °C to
    /// some tens of percent (from memory).
    pub extrapolated: bool,
}

impl OilState {
    /// Dynamic viscosity over density.
    #[must_use]
    pub fn kinematic(&self) -> KinematicViscosity {
        KinematicViscosity::new::<square_meter_per_second>(
            self.viscosity.get::<pascal_second>() / self.density.get::<kilogram_per_cubic_meter>(),
        )
    }

    /// (viscosity in Pa s, density in kg/m3), checked.
    pub(crate) fn si(&self) -> Result<(f64, f64), PhysicsError> {
        Ok((
            range::OIL_VISCOSITY.check(self.viscosity.get::<pascal_second>())?,
            range::OIL_DENSITY.check(self.density.get::<kilogram_per_cubic_meter>())?,
        ))
    }
}

impl Oil {
    /// The oil at `temperature`, 223.15 to 453.15 K, at low pressure (the rise of viscosity with
    /// pressure, 2 % a megapascal, is left out).
    ///
    /// Viscosity by ASTM D341, `log10(log10(Z)) = A - B log10(T)` through the two points, with
    /// the standard's `Z = nu + 0.7 + exp(-1.47 - 1.84 nu - 0.51 nu^2)` (nu in mm2/s) and its
    /// inverse. Density by ASTM D1250-80, Table 54D (lubricating oils): `alpha = 0.6278 /
    /// rho15`, `rho = rho15 exp(-alpha dt (1 + 0.8 alpha dt))`.
    ///
    /// # Errors
    /// [`PhysicsError::OutOfRange`]; [`PhysicsError::Contradiction`] if the hot point isn't
    /// hotter than the cold one or not thinner.
    pub fn at(&self, temperature: ThermodynamicTemperature) -> Result<OilState, PhysicsError> {
        let t = range::OIL_TEMPERATURE.check(temperature.get::<kelvin>())?;
        let line = self.walther()?;
        let nu = line.viscosity(t)?;
        let rho15 =
            range::OIL_DENSITY.check(self.density_at_15c.get::<kilogram_per_cubic_meter>())?;
        let rho = density(rho15, t);
        Ok(OilState {
            density: MassDensity::new::<kilogram_per_cubic_meter>(rho),
            viscosity: DynamicViscosity::new::<pascal_second>(nu * rho),
            extrapolated: t < self.cold.temperature.get::<kelvin>()
                || t > self.hot.temperature.get::<kelvin>(),
        })
    }

    fn walther(&self) -> Result<Walther, PhysicsError> {
        let t1 = range::OIL_TEMPERATURE
            .check_as("cold_temperature_k", self.cold.temperature.get::<kelvin>())?;
        let t2 = range::OIL_TEMPERATURE
            .check_as("hot_temperature_k", self.hot.temperature.get::<kelvin>())?;
        let nu1 = range::KINEMATIC_VISCOSITY.check_as(
            "cold_viscosity_m2_per_s",
            self.cold.viscosity.get::<square_meter_per_second>(),
        )?;
        let nu2 = range::KINEMATIC_VISCOSITY.check_as(
            "hot_viscosity_m2_per_s",
            self.hot.viscosity.get::<square_meter_per_second>(),
        )?;
        // Nearer than 5 K the line through the points is noise.
        if t2 - t1 < 5.0 {
            return Err(PhysicsError::Contradiction {
                field: "hot_temperature_k",
                other: "cold_temperature_k",
            });
        }
        if nu2 >= nu1 {
            return Err(PhysicsError::Contradiction {
                field: "hot_viscosity_m2_per_s",
                other: "cold_viscosity_m2_per_s",
            });
        }
        let (w1, w2) = (double_log(nu1), double_log(nu2));
        let b = (w1 - w2) / (t2.log10() - t1.log10());
        Ok(Walther {
            a: w1 + b * t1.log10(),
            b,
        })
    }
}

/// The straight line of ASTM D341.
struct Walther {
    a: f64,
    b: f64,
}

impl Walther {
    /// Kinematic viscosity, m2/s, at `t` kelvin.
    fn viscosity(&self, t: f64) -> Result<f64, PhysicsError> {
        let z = 10f64.powf(10f64.powf(self.a - self.b * t.log10()));
        let y = z - 0.7;
        let mm2 = y - (-0.7487 - 3.295 * y + 0.6119 * y * y - 0.3193 * y.powi(3)).exp();
        // A steep line extrapolated far enough leaves the standard's range at either end.
        range::KINEMATIC_VISCOSITY.check(mm2 * 1e-6)
    }
}

/// log10(log10(Z)) of a kinematic viscosity in m2/s.
fn double_log(nu: f64) -> f64 {
    let mm2 = nu * 1e6;
    let z = mm2 + 0.7 + (-1.47 - 1.84 * mm2 - 0.51 * mm2 * mm2).exp();
    z.log10().log10()
}

fn density(rho15: f64, t: f64) -> f64 {
    let alpha = 0.6278 / rho15;
    let dt = t - 288.15;
    rho15 * (-alpha * dt * (1.0 + 0.8 * alpha * dt)).exp()
}
