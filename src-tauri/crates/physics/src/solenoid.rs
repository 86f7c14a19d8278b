//! A solenoid: its winding's resistance at temperature, and how it passes a shift of its feed on.
//!
//! Copper by IEC 60028: `rho20 = 1/58 ohm mm2/m`, `R = R20 (1 + 0.00393 (T - 20 °C))`.
//!
//! **Kinds.** A bleed or pulse-width solenoid divides its feed, so its output moves in proportion
//! with the feed. A closed-loop spool weighs its output against its magnet, so the output stays
//! while the feed is above it, and follows the feed once the command nears it. How exactly is
//! common practice, no source: the constants below say how far a solenoid may differ from that.

use std::f64::consts::FRAC_PI_4;

use uom::si::electric_current::ampere;
use uom::si::electric_potential::volt;
use uom::si::electrical_resistance::ohm;
use uom::si::f64::{
    ElectricCurrent, ElectricPotential, ElectricalResistance, Length, Pressure, Ratio,
    TemperatureInterval, ThermodynamicTemperature,
};
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::thermodynamic_temperature::kelvin;

use crate::assumption::Assumption;
use crate::error::PhysicsError;
use crate::quantity::Interval;
use crate::range;

/// Resistivity of annealed copper at 20 °C, ohm m (IEC 60028).
pub const COPPER_RESISTIVITY: f64 = 1e-6 / 58.0;

/// Its temperature coefficient at 20 °C, 1/K (IEC 60028).
pub const COPPER_COEFFICIENT: f64 = 0.003_93;

/// How far below 0 °C a winding's line has no resistance.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum WindingLine {
    /// 235 K, as IEC 60034-1 takes copper.
    Iec60034,
    /// `1 / 0.00393 - 20` = 234.45 K, from IEC 60028: 0.2 K apart at 100 °C.
    Iec60028,
    /// Another, 230 to 240 K; handbooks print 234.5.
    Other(TemperatureInterval),
}

/// 20 °C.
const REFERENCE_K: f64 = 293.15;
const ZERO_C: f64 = 273.15;

/// Resistance at `to` of a winding that has `resistance` (10 mohm to 1 kohm) at `from` (-50 to
/// 200 °C).
///
/// # Errors
/// [`PhysicsError::OutOfRange`], [`PhysicsError::NotFinite`].
pub fn resistance_at(
    resistance: ElectricalResistance,
    from: ThermodynamicTemperature,
    to: ThermodynamicTemperature,
) -> Result<ElectricalResistance, PhysicsError> {
    let r = range::RESISTANCE.check(resistance.get::<ohm>())?;
    Ok(ElectricalResistance::new::<ohm>(
        r * copper(to)? / copper(from)?,
    ))
}

/// Mean temperature of a winding that has `second` where it had `first` at `first_temperature`:
/// `T2 = R2 / R1 (k + T1) - k` in °C, k that of the `line`.
///
/// # Errors
/// [`PhysicsError::OutOfRange`]: the inputs, or a temperature outside -50 to 200 °C.
pub fn winding_temperature(
    first: ElectricalResistance,
    first_temperature: ThermodynamicTemperature,
    second: ElectricalResistance,
    line: WindingLine,
) -> Result<ThermodynamicTemperature, PhysicsError> {
    let r1 = range::RESISTANCE.check(first.get::<ohm>())?;
    let r2 = range::RESISTANCE.check_as("second_resistance_ohm", second.get::<ohm>())?;
    let k = match line {
        WindingLine::Iec60034 => 235.0,
        WindingLine::Iec60028 => 1.0 / COPPER_COEFFICIENT - (REFERENCE_K - ZERO_C),
        WindingLine::Other(k) => {
            let k = k.get::<uom::si::temperature_interval::kelvin>();
            range::within("winding_offset_k", k, 230.0, 240.0, "K")?
        }
    };
    let t1 = range::PART_TEMPERATURE
        .check_as("winding_temperature_k", first_temperature.get::<kelvin>())?;
    let t2 = r2 / r1 * (k + t1 - ZERO_C) - k + ZERO_C;
    let t2 = range::PART_TEMPERATURE.check_as("winding_temperature_k", t2)?;
    Ok(ThermodynamicTemperature::new::<kelvin>(t2))
}

/// Resistance of copper wire of `length` (0.1 m to 1 km) and bare `diameter` (0.02 to 5 mm).
///
/// # Errors
/// [`PhysicsError::OutOfRange`], [`PhysicsError::NotFinite`].
pub fn wire_resistance(
    length: Length,
    diameter: Length,
    temperature: ThermodynamicTemperature,
) -> Result<ElectricalResistance, PhysicsError> {
    let l = range::WINDING_LENGTH.check(length.get::<meter>())?;
    let d = range::WINDING_WIRE.check(diameter.get::<meter>())?;
    let cold = COPPER_RESISTIVITY * l / (FRAC_PI_4 * d * d);
    Ok(ElectricalResistance::new::<ohm>(
        cold * copper(temperature)?,
    ))
}

/// Current through a winding of `cold` resistance at 20 °C, with `voltage` (0 to 100 V) across it
/// at `temperature`.
///
/// # Errors
/// [`PhysicsError::OutOfRange`], [`PhysicsError::NotFinite`].
pub fn current(
    voltage: ElectricPotential,
    cold: ElectricalResistance,
    temperature: ThermodynamicTemperature,
) -> Result<ElectricCurrent, PhysicsError> {
    let v = range::VOLTAGE.check(voltage.get::<volt>())?;
    let r = range::RESISTANCE.check(cold.get::<ohm>())?;
    Ok(ElectricCurrent::new::<ampere>(
        v / (r * copper(temperature)?),
    ))
}

fn copper(temperature: ThermodynamicTemperature) -> Result<f64, PhysicsError> {
    let t =
        range::PART_TEMPERATURE.check_as("winding_temperature_k", temperature.get::<kelvin>())?;
    Ok(1.0 + COPPER_COEFFICIENT * (t - REFERENCE_K))
}

/// How a solenoid makes its pressure.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum SolenoidKind {
    /// A bleed behind an orifice: the output is a share of the feed.
    Bleed,
    /// Full on and off at a duty: the mean output is a share of the feed.
    PulseWidth,
    /// A spool that weighs its output against the magnet.
    ClosedLoop,
}

/// How far from proportion a dividing solenoid may be, either way (common practice, no source).
pub const DIVIDER_SPREAD: f64 = 0.2;

/// Most that a closed-loop spool lets through of a feed shift, as a part of its proportional share
/// (common practice, no source).
pub const CLOSED_LOOP_LEAK: f64 = 0.1;

/// Part of the feed that a closed-loop spool may lose wide open (common practice, no source): from
/// `1 - this` of the feed on, its output may follow the feed.
pub const CLOSED_LOOP_HEADROOM: f64 = 0.1;

/// A shift of the feed as the clutch sees it.
#[derive(Debug, Clone, PartialEq)]
pub struct PassedShift {
    /// The likely shift of the output, times the gain.
    pub shift: Pressure,
    /// Its span over how solenoids of this kind differ.
    pub span: Interval<Pressure>,
    /// Whether the command lies so near the feed, before or after the shift, that the output may
    /// follow the feed whatever the kind.
    pub near_feed: bool,
    /// What was assumed.
    pub assumptions: Vec<Assumption>,
}

/// The shift of the clutch's pressure that a `shift` of the feed makes at a commanded pressure.
///
/// `commanded` is what the solenoid would put out at the nominal `feed`, over sump; above the feed
/// it puts out the feed. `gain` is clutch pressure over the solenoid's output (0.1 to 20; 1 when
/// the solenoid feeds the clutch itself).
///
/// # Errors
/// [`PhysicsError::OutOfRange`]; [`PhysicsError::Contradiction`] for a shift that takes the feed
/// below sump.
pub fn passed_shift(
    kind: SolenoidKind,
    commanded: Pressure,
    feed: Pressure,
    shift: Pressure,
    gain: Ratio,
) -> Result<PassedShift, PhysicsError> {
    let command =
        range::OIL_PRESSURE.check_as("commanded_pressure_pa", commanded.get::<pascal>())?;
    let feed = range::SETPOINT.check_as("feed_pressure_pa", feed.get::<pascal>())?;
    let by = range::PRESSURE_SHIFT.check(shift.get::<pascal>())?;
    let gain = range::within("gain_ratio", gain.get::<ratio>(), 0.1, 20.0, "1")?;
    let shifted = feed + by;
    if shifted < 0.0 {
        return Err(PhysicsError::Contradiction {
            field: range::PRESSURE_SHIFT.field,
            other: "feed_pressure_pa",
        });
    }
    let share = (command / feed).min(1.0);
    let near_feed = command >= (1.0 - CLOSED_LOOP_HEADROOM) * feed.min(shifted);
    let proportional = share * by;
    let likely;
    let mut ends = [0.0; 2];
    match kind {
        SolenoidKind::Bleed | SolenoidKind::PulseWidth => {
            likely = proportional;
            // No solenoid passes more than the feed's own shift.
            let most = (share * (1.0 + DIVIDER_SPREAD)).min(1.0);
            ends = [proportional * (1.0 - DIVIDER_SPREAD), most * by];
        }
        SolenoidKind::ClosedLoop => {
            // Output with all the feed at hand, and with the headroom lost.
            let follow = |headroom: f64| {
                let out = |f: f64| command.min(f * (1.0 - headroom));
                out(shifted) - out(feed)
            };
            likely = follow(0.0);
            // What leaks past comes on top, but never more than the feed's own shift.
            let leaky = likely + CLOSED_LOOP_LEAK * proportional;
            let leaky = leaky.clamp(by.min(0.0), by.max(0.0));
            let all = [likely, leaky, follow(CLOSED_LOOP_HEADROOM)];
            // Between no loss and the full one the output may also follow the feed all the way.
            let whole = if near_feed { by } else { likely };
            ends[0] = all.iter().copied().fold(whole, f64::min);
            ends[1] = all.iter().copied().fold(whole, f64::max);
            if near_feed {
                ends[0] = ends[0].min(0.0);
                ends[1] = ends[1].max(0.0);
            }
        }
    }
    let pa = Pressure::new::<pascal>;
    Ok(PassedShift {
        shift: pa(gain * likely),
        span: Interval::between(pa(gain * ends[0]), pa(gain * ends[1])),
        near_feed,
        assumptions: vec![Assumption::SolenoidKindTypical],
    })
}
