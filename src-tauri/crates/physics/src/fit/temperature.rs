//! Sizes at 20 °C (ISO 1), sizes when running, and how much the metals of valve bodies grow.
//!
//! `D(T) = D20 (1 + alpha (T - 20 °C))`, alpha the mean coefficient from 20 to 100 °C.

use uom::si::f64::{Length, TemperatureCoefficient, ThermodynamicTemperature};
use uom::si::length::meter;
use uom::si::temperature_coefficient::per_kelvin;
use uom::si::thermodynamic_temperature::kelvin;

use crate::assumption::Assumption;
use crate::error::PhysicsError;
use crate::quantity::Interval;
use crate::range;

/// Reference temperature of sizes, 20 °C (ISO 1).
pub const REFERENCE_K: f64 = 293.15;

/// How far a handbook coefficient may be off for the metal at hand, as a part of it.
pub const EXPANSION_SPREAD: f64 = 0.05;

/// A metal of bodies, sleeves and valves.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Metal {
    /// Die-cast aluminium with copper and silicon (A380 kind): 21.8e-6/K.
    DieCastAluminium,
    /// Cast aluminium with silicon and magnesium (A356 kind): 21.5e-6/K.
    CastAluminium,
    /// Wrought aluminium (6061 kind), anodised or not: 23.6e-6/K.
    WroughtAluminium,
    /// Carbon steel: 11.7e-6/K.
    CarbonSteel,
    /// Bearing steel (52100 kind): 12.2e-6/K.
    BearingSteel,
    /// Austenitic stainless steel (304 kind): 17.3e-6/K.
    AusteniticSteel,
    /// Martensitic stainless steel (410 kind): 9.9e-6/K.
    MartensiticSteel,
    /// Grey cast iron: 10.8e-6/K.
    GreyIron,
}

impl Metal {
    /// Mean linear expansion from 20 to 100 °C (handbook values, `from memory`, good to 3 to 5 %).
    #[must_use]
    pub fn expansion(self) -> TemperatureCoefficient {
        TemperatureCoefficient::new::<per_kelvin>(match self {
            Self::DieCastAluminium => 21.8e-6,
            Self::CastAluminium => 21.5e-6,
            Self::WroughtAluminium => 23.6e-6,
            Self::CarbonSteel => 11.7e-6,
            Self::BearingSteel => 12.2e-6,
            Self::AusteniticSteel => 17.3e-6,
            Self::MartensiticSteel => 9.9e-6,
            Self::GreyIron => 10.8e-6,
        })
    }
}

/// The size at 20 °C of a part that measures `length` (0.1 mm to 1 m) at `temperature`.
///
/// # Errors
/// [`PhysicsError::OutOfRange`], [`PhysicsError::NotFinite`].
pub fn at_20c(
    length: Length,
    expansion: TemperatureCoefficient,
    temperature: ThermodynamicTemperature,
) -> Result<Length, PhysicsError> {
    let l = range::PART_LENGTH.check(length.get::<meter>())?;
    Ok(Length::new::<meter>(
        l / growth(expansion, temperature, range::PART_TEMPERATURE.field)?,
    ))
}

/// The size at `temperature` of a part that measures `length` at 20 °C.
///
/// # Errors
/// As [`at_20c`].
pub fn from_20c(
    length: Length,
    expansion: TemperatureCoefficient,
    temperature: ThermodynamicTemperature,
) -> Result<Length, PhysicsError> {
    let l = range::PART_LENGTH.check(length.get::<meter>())?;
    Ok(Length::new::<meter>(
        l * growth(expansion, temperature, range::PART_TEMPERATURE.field)?,
    ))
}

/// The size at 20 °C of a part read with a gauge that is itself warm: the gauge's scale has grown
/// too (ISO 1; JCGM 100 H.1 in exact form).
///
/// # Errors
/// As [`at_20c`].
pub fn read_at_20c(
    reading: Length,
    gauge: (TemperatureCoefficient, ThermodynamicTemperature),
    part: (TemperatureCoefficient, ThermodynamicTemperature),
) -> Result<Length, PhysicsError> {
    let l = range::PART_LENGTH.check(reading.get::<meter>())?;
    let scale = growth(gauge.0, gauge.1, "gauge_temperature_k")?;
    Ok(Length::new::<meter>(
        l * scale / growth(part.0, part.1, range::PART_TEMPERATURE.field)?,
    ))
}

/// A clearance when running.
#[derive(Debug, Clone, PartialEq)]
pub struct RunningClearance {
    /// Radial clearance; negative when the valve would seize.
    pub radial: Length,
    /// Its bounds with each coefficient off by [`EXPANSION_SPREAD`] either way.
    pub span: Interval<Length>,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
}

/// The radial clearance at `temperature` of a bore and valve (2 to 100 mm) known at 20 °C.
///
/// # Errors
/// [`PhysicsError::OutOfRange`]; [`PhysicsError::Contradiction`] for a valve not smaller than its
/// bore at 20 °C.
pub fn running_clearance(
    bore_20c: Length,
    valve_20c: Length,
    metals: (Metal, Metal),
    temperature: ThermodynamicTemperature,
) -> Result<RunningClearance, PhysicsError> {
    let bore = range::BORE_DIAMETER.check_as("bore_20c_m", bore_20c.get::<meter>())?;
    let valve = range::BORE_DIAMETER.check_as("valve_20c_m", valve_20c.get::<meter>())?;
    if valve >= bore {
        return Err(PhysicsError::Contradiction {
            field: "valve_20c_m",
            other: "bore_20c_m",
        });
    }
    let t = range::PART_TEMPERATURE.check(temperature.get::<kelvin>())?;
    let rise = t - REFERENCE_K;
    let alpha = (
        metals.0.expansion().get::<per_kelvin>(),
        metals.1.expansion().get::<per_kelvin>(),
    );
    let radial = 0.5 * (bore - valve + (bore * alpha.0 - valve * alpha.1) * rise);
    let off = 0.5 * EXPANSION_SPREAD * rise.abs() * (bore * alpha.0 + valve * alpha.1);
    let m = Length::new::<meter>;
    Ok(RunningClearance {
        radial: m(radial),
        span: Interval::between(m(radial - off), m(radial + off)),
        assumptions: vec![Assumption::ExpansionFromHandbook],
    })
}

fn growth(
    expansion: TemperatureCoefficient,
    temperature: ThermodynamicTemperature,
    field: &'static str,
) -> Result<f64, PhysicsError> {
    let alpha = range::THERMAL_EXPANSION.check(expansion.get::<per_kelvin>())?;
    let t = range::PART_TEMPERATURE.check_as(field, temperature.get::<kelvin>())?;
    Ok(1.0 + alpha * (t - REFERENCE_K))
}
