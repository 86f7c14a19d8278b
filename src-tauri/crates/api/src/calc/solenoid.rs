//! Solenoids.

use model::Finite;
use physics::fit::temperature::REFERENCE_K;
use physics::solenoid::{
    self, SolenoidKind, WindingLine, current, resistance_at, winding_temperature, wire_resistance,
};
use uom::si::electric_potential::volt;
use uom::si::electrical_resistance::ohm;
use uom::si::f64::{
    ElectricPotential, ElectricalResistance, TemperatureInterval, ThermodynamicTemperature,
};
use uom::si::temperature_interval;
use uom::si::thermodynamic_temperature::kelvin;

use super::assumed;
use super::si::{k, m, one, pa};
use crate::App;
use crate::dto::{
    Bounds, CopperLine, PassedShiftAnswer, PassedShiftArgs, PressureSolenoid,
    SolenoidResistanceAnswer, SolenoidResistanceArgs, SolenoidTemperatureAnswer,
    SolenoidTemperatureArgs, WindingKnown,
};
use crate::error::{ApiError, finite};

fn ohms(value: Finite) -> ElectricalResistance {
    ElectricalResistance::new::<ohm>(*value)
}

/// Resistance at a temperature, and the current there.
pub(crate) fn resistance(
    _: &App,
    args: SolenoidResistanceArgs,
) -> Result<SolenoidResistanceAnswer, ApiError> {
    let reference = ThermodynamicTemperature::new::<kelvin>(REFERENCE_K);
    let at = k(args.temperature_k);
    let (cold, there) = match args.winding {
        WindingKnown::Measured {
            resistance_ohm,
            temperature_k,
        } => {
            let (measured, then) = (ohms(resistance_ohm), k(temperature_k));
            (
                resistance_at(measured, then, reference)?,
                resistance_at(measured, then, at)?,
            )
        }
        WindingKnown::Wire {
            length_m,
            diameter_m,
        } => (
            wire_resistance(m(length_m), m(diameter_m), reference)?,
            wire_resistance(m(length_m), m(diameter_m), at)?,
        ),
    };
    let current = args
        .voltage_v
        .map(|voltage| {
            let current = current(ElectricPotential::new::<volt>(*voltage), cold, at)?;
            finite(current.value)
        })
        .transpose()?;
    Ok(SolenoidResistanceAnswer {
        resistance_ohm: finite(there.value)?,
        resistance_20c_ohm: finite(cold.value)?,
        current_a: current,
        assumptions: Vec::new(),
    })
}

/// Temperature of a winding from its resistance.
pub(crate) fn temperature(
    _: &App,
    args: SolenoidTemperatureArgs,
) -> Result<SolenoidTemperatureAnswer, ApiError> {
    let line = match args.line {
        CopperLine::Iec60034 => WindingLine::Iec60034,
        CopperLine::Iec60028 => WindingLine::Iec60028,
        CopperLine::OffsetK(offset) => WindingLine::Other(TemperatureInterval::new::<
            temperature_interval::kelvin,
        >(*offset)),
    };
    let hot = winding_temperature(
        ohms(args.first_resistance_ohm),
        k(args.first_temperature_k),
        ohms(args.second_resistance_ohm),
        line,
    )?;
    Ok(SolenoidTemperatureAnswer {
        temperature_k: finite(hot.value)?,
        assumptions: Vec::new(),
    })
}

/// The shift that a solenoid passes on.
pub(crate) fn passed_shift(_: &App, args: PassedShiftArgs) -> Result<PassedShiftAnswer, ApiError> {
    let kind = match args.kind {
        PressureSolenoid::Bleed => SolenoidKind::Bleed,
        PressureSolenoid::PulseWidth => SolenoidKind::PulseWidth,
        PressureSolenoid::ClosedLoop => SolenoidKind::ClosedLoop,
    };
    let passed = solenoid::passed_shift(
        kind,
        pa(args.commanded_pa),
        pa(args.feed_pa),
        pa(args.shift_pa),
        one(args.gain_ratio),
    )?;
    Ok(PassedShiftAnswer {
        shift_pa: finite(passed.shift.value)?,
        span_pa: Bounds {
            low: finite(passed.span.low.value)?,
            high: finite(passed.span.high.value)?,
        },
        near_feed: passed.near_feed,
        assumptions: assumed(&passed.assumptions),
    })
}
