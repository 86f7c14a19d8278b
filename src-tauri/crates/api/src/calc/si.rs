//! Numbers of the wire as quantities, and quantities as numbers of the wire, all in SI.

use model::Finite;
use physics::fluid::OilState;
use physics::spring::Spring;
use physics::{Interval, PhysicsError};
use uom::si::angle::radian;
use uom::si::area::square_meter;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{
    Angle, Area, DynamicViscosity, Force, Length, MassDensity, Pressure, Ratio,
    ThermodynamicTemperature, VolumeRate,
};
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::surface_tension::newton_per_meter;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::volume_rate::cubic_meter_per_second;

use crate::dto::{Bounds, SpringLine};
use crate::error::{ApiError, ErrorCode, finite};

pub(super) fn m(value: Finite) -> Length {
    Length::new::<meter>(*value)
}

pub(super) fn m2(value: Finite) -> Area {
    Area::new::<square_meter>(*value)
}

pub(super) fn pa(value: Finite) -> Pressure {
    Pressure::new::<pascal>(*value)
}

pub(super) fn n(value: Finite) -> Force {
    Force::new::<newton>(*value)
}

pub(super) fn rad(value: Finite) -> Angle {
    Angle::new::<radian>(*value)
}

pub(super) fn one(value: Finite) -> Ratio {
    Ratio::new::<ratio>(*value)
}

pub(super) fn k(value: Finite) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<kelvin>(*value)
}

pub(super) fn m3_s(value: Finite) -> VolumeRate {
    VolumeRate::new::<cubic_meter_per_second>(*value)
}

/// An oil as it flows, by the two numbers that matter.
pub(super) fn oil(viscosity_pa_s: Finite, density_kg_m3: Finite) -> OilState {
    OilState {
        density: MassDensity::new::<kilogram_per_cubic_meter>(*density_kg_m3),
        viscosity: DynamicViscosity::new::<pascal_second>(*viscosity_pa_s),
        extrapolated: false,
    }
}

pub(super) fn spring(line: SpringLine) -> Spring {
    Spring {
        load_at_rest: n(line.load_at_rest_n),
        rate: physics::spring::SpringRate::new::<newton_per_meter>(*line.rate_n_m),
    }
}

pub(super) fn spring_line(spring: &Spring) -> Result<SpringLine, ApiError> {
    Ok(SpringLine {
        load_at_rest_n: finite(spring.load_at_rest.value)?,
        rate_n_m: finite(spring.rate.value)?,
    })
}

pub(super) fn bounds(interval: Interval<Length>) -> Result<Bounds, ApiError> {
    Ok(Bounds {
        low: finite(interval.low.value)?,
        high: finite(interval.high.value)?,
    })
}

/// A list no longer than is worked through.
pub(super) fn at_most<T>(field: &str, list: &[T], most: usize) -> Result<(), ApiError> {
    if list.len() <= most {
        return Ok(());
    }
    Err(ApiError::new(ErrorCode::OutOfRange)
        .at(field)
        .with("low", 0)
        .with("high", most)
        .with("unit", "entries")
        .with("detail", format!("{} entries", list.len())))
}

/// A list with something in it, no longer than is worked through.
pub(super) fn some_of<T>(field: &'static str, list: &[T], most: usize) -> Result<(), ApiError> {
    if list.is_empty() {
        return Err(PhysicsError::TooFew {
            field,
            count: 0,
            least: 1,
        }
        .into());
    }
    at_most(field, list, most)
}
