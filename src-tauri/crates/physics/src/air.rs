//! Air as a gas: density, viscosity, mean free path.

use std::f64::consts::PI;

use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{
    DynamicViscosity, Length, MassDensity, Pressure, Ratio, SpecificHeatCapacity,
    ThermodynamicTemperature,
};
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::ratio::ratio;
use uom::si::specific_heat_capacity::joule_per_kilogram_kelvin;

use crate::error::PhysicsError;
use crate::range::{self, within};

/// Specific gas constant of dry air, J/(kg K) (ISO 2533:1975, 2.1).
pub const AIR_CONSTANT: f64 = 287.052_87;
/// Ratio of the heat capacities of dry air (ISO 2533:1975).
pub const AIR_HEAT_RATIO: f64 = 1.4;
/// Sutherland's beta_s, kg/(m s K^0.5) (US Standard Atmosphere 1976, eq. 51).
const SUTHERLAND_BETA: f64 = 1.458e-6;
/// Sutherland's temperature, K (US Standard Atmosphere 1976, eq. 51).
const SUTHERLAND_TEMPERATURE_K: f64 = 110.4;

/// An ideal gas of constant heat capacities.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Gas {
    pub(crate) constant: f64,
    pub(crate) heat_ratio: f64,
}

impl Gas {
    /// Dry air.
    pub const DRY_AIR: Self = Self {
        constant: AIR_CONSTANT,
        heat_ratio: AIR_HEAT_RATIO,
    };

    /// A gas of specific constant R (10 to 5000 J/(kg K)) and heat ratio k (1.01 to 1.67).
    ///
    /// # Errors
    /// [`PhysicsError`] naming `specific_gas_constant_j_per_kg_k` or `heat_ratio`.
    pub fn new(constant: SpecificHeatCapacity, heat_ratio: Ratio) -> Result<Self, PhysicsError> {
        Ok(Self {
            constant: within(
                "specific_gas_constant_j_per_kg_k",
                constant.get::<joule_per_kilogram_kelvin>(),
                10.0,
                5000.0,
                "J/(kg K)",
            )?,
            heat_ratio: within("heat_ratio", heat_ratio.get::<ratio>(), 1.01, 1.67, "1")?,
        })
    }
}

/// Air at one temperature: what flows through gaps and holes on the bench.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    pub(crate) gas: Gas,
    pub(crate) temperature_k: f64,
    pub(crate) viscosity_pa_s: f64,
}

impl Air {
    /// Dry air at -50 to 200 °C, its viscosity by Sutherland's law (US Standard Atmosphere 1976,
    /// eq. 51): mu = beta T^1.5 / (T + S).
    ///
    /// # Errors
    /// [`PhysicsError`] naming `air_temperature_k`.
    pub fn at(temperature: ThermodynamicTemperature) -> Result<Self, PhysicsError> {
        let t = range::AIR_TEMPERATURE.check(temperature.value)?;
        Ok(Self {
            gas: Gas::DRY_AIR,
            temperature_k: t,
            viscosity_pa_s: SUTHERLAND_BETA * t * t.sqrt() / (t + SUTHERLAND_TEMPERATURE_K),
        })
    }

    /// Another gas, or air whose viscosity is known (1e-6 to 1e-3 Pa s).
    ///
    /// # Errors
    /// [`PhysicsError`] naming `air_temperature_k` or `air_viscosity_pa_s`.
    pub fn with(
        gas: Gas,
        temperature: ThermodynamicTemperature,
        viscosity: DynamicViscosity,
    ) -> Result<Self, PhysicsError> {
        let mu = viscosity.get::<pascal_second>();
        Ok(Self {
            gas,
            temperature_k: range::AIR_TEMPERATURE.check(temperature.value)?,
            viscosity_pa_s: within("air_viscosity_pa_s", mu, 1.0e-6, 1.0e-3, "Pa s")?,
        })
    }

    /// Dynamic viscosity.
    #[must_use]
    pub fn viscosity(&self) -> DynamicViscosity {
        DynamicViscosity::new::<pascal_second>(self.viscosity_pa_s)
    }

    /// Density at an absolute pressure, p / (R T).
    ///
    /// # Errors
    /// [`PhysicsError`] naming `air_pressure_pa`.
    pub fn density(&self, pressure: Pressure) -> Result<MassDensity, PhysicsError> {
        let p = range::AIR_PRESSURE.check(pressure.value)?;
        Ok(MassDensity::new::<kilogram_per_cubic_meter>(p / self.rt()))
    }

    /// Mean free path at an absolute pressure, from the viscosity: l = mu sqrt(pi R T / 2) / p,
    /// the form in which Maxwell's slip coefficient is 1 (White, Viscous Fluid Flow, ch. 1 and 3,
    /// `from memory`). The hard-sphere value of the US Standard Atmosphere 1976 is 4 % longer.
    ///
    /// # Errors
    /// [`PhysicsError`] naming `air_pressure_pa`.
    pub fn mean_free_path(&self, pressure: Pressure) -> Result<Length, PhysicsError> {
        let p = range::AIR_PRESSURE.check(pressure.value)?;
        Ok(Length::new::<meter>(self.path_times_pressure() / p))
    }

    /// R T, J/kg.
    pub(crate) fn rt(&self) -> f64 {
        self.gas.constant * self.temperature_k
    }

    /// Mean free path times pressure, m Pa.
    pub(crate) fn path_times_pressure(&self) -> f64 {
        self.viscosity_pa_s * (PI * self.rt() / 2.0).sqrt()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::pascals;
    use uom::si::thermodynamic_temperature::kelvin;

    #[test]
    fn mean_free_path_is_near_the_us_standard_atmosphere() {
        // US Standard Atmosphere 1976 table III, sea level: 6.6328e-8 m (from memory), by a hard
        // sphere of 3.65e-10 m; the two definitions differ by 4 %.
        let air = Air::at(ThermodynamicTemperature::new::<kelvin>(288.15)).unwrap();
        let l = air.mean_free_path(pascals(101_325.0)).unwrap().value;
        assert!((l / 6.6328e-8 - 1.0).abs() < 0.05, "{l}");
    }

    #[test]
    fn nonsense_is_refused_by_name() {
        let cold = Air::at(ThermodynamicTemperature::new::<kelvin>(20.0)).unwrap_err();
        assert!(matches!(
            cold,
            PhysicsError::OutOfRange {
                field: "air_temperature_k",
                ..
            }
        ));
        let air = Air::at(ThermodynamicTemperature::new::<kelvin>(293.15)).unwrap();
        let void = air.density(pascals(0.0)).unwrap_err();
        assert!(matches!(
            void,
            PhysicsError::OutOfRange {
                field: "air_pressure_pa",
                ..
            }
        ));
    }
}
