//! The points of tests/reference/, and short names for units.

use physics::fluid::OilState;
use serde_json::Value;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::*;
use uom::si::force::newton;
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::surface_tension::newton_per_meter;
use uom::si::thermodynamic_temperature::{degree_celsius, kelvin};
use uom::si::volume_rate::cubic_meter_per_second;

pub use reference::{Point, points};

/// Within a relative tolerance.
pub fn close(what: &str, value: f64, expected: f64, tolerance: f64) {
    let off = (value / expected - 1.0).abs();
    assert!(
        off <= tolerance,
        "{what}: {value}, not {expected} (off by {off:e})"
    );
}

pub fn read(file: &str) -> Value {
    let path = format!(
        "{}/../../../tests/reference/{file}.json",
        env!("CARGO_MANIFEST_DIR")
    );
    let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{path}: {e}"));
    serde_json::from_str(&text).unwrap()
}

pub fn m(x: f64) -> Length {
    Length::new::<meter>(x)
}
pub fn um(x: f64) -> Length {
    m(x * 1e-6)
}
pub fn pa(x: f64) -> Pressure {
    Pressure::new::<pascal>(x)
}
pub fn n(x: f64) -> Force {
    Force::new::<newton>(x)
}
pub fn one(x: f64) -> Ratio {
    Ratio::new::<ratio>(x)
}
pub fn rate(x: f64) -> SurfaceTension {
    SurfaceTension::new::<newton_per_meter>(x)
}
pub fn k(x: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<kelvin>(x)
}
pub fn celsius(x: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::new::<degree_celsius>(x)
}
pub fn flow(x: f64) -> VolumeRate {
    VolumeRate::new::<cubic_meter_per_second>(x)
}
pub fn density(x: f64) -> MassDensity {
    MassDensity::new::<kilogram_per_cubic_meter>(x)
}
pub fn oil(mu: f64, rho: f64) -> OilState {
    OilState {
        viscosity: DynamicViscosity::new::<pascal_second>(mu),
        density: density(rho),
        extrapolated: false,
    }
}
