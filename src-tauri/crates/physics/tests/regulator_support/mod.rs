//! An invented regulator, and short words for its quantities, shared by the regulator's tests.
#![allow(dead_code)]

pub mod described;

use physics::fluid::{Oil, OilState, ViscosityPoint};
use physics::gap::Annulus;
use physics::opening::{Opening, Travel};
use physics::orifice::Orifice;
use physics::regulator::{Demand, Drain, LandLeak, Node, Regulator};
use physics::relief::BallRelief;
use physics::spring::{Spring, SpringRate};
use uom::si::area::square_meter;
use uom::si::f64::*;
use uom::si::force::newton;
use uom::si::kinematic_viscosity::square_meter_per_second;
use uom::si::length::meter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::surface_tension::newton_per_meter;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::volume_rate::cubic_meter_per_second;

/// 1 lbf/in2, from the exact definitions of pound, inch and standard gravity. (uom's own psi
/// rests on a rounded pound-force and is 9e-8 off.)
pub const PSI: f64 = 6_894.757_293_168_361;
/// 1 L/min.
pub const LPM: f64 = 1.0 / 60_000.0;

pub fn m(x: f64) -> Length {
    Length::new::<meter>(x)
}
pub fn mm(x: f64) -> Length {
    m(x * 1e-3)
}
pub fn um(x: f64) -> Length {
    m(x * 1e-6)
}
pub fn pa(x: f64) -> Pressure {
    Pressure::new::<pascal>(x)
}
pub fn psi(x: f64) -> Pressure {
    pa(x * PSI)
}
pub fn in_psi(p: Pressure) -> f64 {
    p.get::<pascal>() / PSI
}
pub fn n(x: f64) -> Force {
    Force::new::<newton>(x)
}
pub fn one(x: f64) -> Ratio {
    Ratio::new::<ratio>(x)
}
pub fn m2(x: f64) -> Area {
    Area::new::<square_meter>(x)
}
pub fn m3_s(x: f64) -> VolumeRate {
    VolumeRate::new::<cubic_meter_per_second>(x)
}
pub fn lpm(x: f64) -> VolumeRate {
    m3_s(x * LPM)
}
pub fn spring(load: f64, rate: f64) -> Spring {
    Spring {
        load_at_rest: n(load),
        rate: SpringRate::new::<newton_per_meter>(rate),
    }
}

/// An invented oil in the usual range of transmission oils.
pub fn oil(celsius: f64) -> OilState {
    let point = |t: f64, nu| ViscosityPoint {
        temperature: ThermodynamicTemperature::new::<kelvin>(t + 273.15),
        viscosity: KinematicViscosity::new::<square_meter_per_second>(nu),
    };
    Oil {
        cold: point(40.0, 30e-6),
        hot: point(100.0, 6.5e-6),
        density_at_15c: MassDensity::new::<kilogram_per_cubic_meter>(852.0),
    }
    .at(ThermodynamicTemperature::new::<kelvin>(celsius + 273.15))
    .unwrap()
}

pub fn leak(clearance_um: f64, length_mm: f64, from: Node, to: Node) -> LandLeak {
    LandLeak {
        annulus: Annulus::new(mm(10.0), um(clearance_um), mm(length_mm), one(0.5)).unwrap(),
        from,
        to,
    }
}

/// A 10 mm spool with exhaust, 0.8 mm knife-edge balance orifice and no leak, uncalibrated.
pub fn as_new() -> Regulator {
    let area = std::f64::consts::FRAC_PI_4 * 0.01 * 0.01;
    let edge = |width_mm: f64, travel| Opening {
        land_diameter: mm(10.0),
        circumference_fraction: one(0.6),
        window: None,
        width_at_rest: mm(width_mm),
        travel,
        radial_clearance: um(15.0),
    };
    Regulator {
        reaction_area: m2(area),
        spring_side_area: m2(area),
        spring: spring(50.0, 3000.0),
        stroke: mm(3.0),
        supply: edge(1.2, Travel::Closes),
        exhaust: Some(edge(-1.5, Travel::Opens)),
        balance_orifice: Some(Orifice {
            diameter: mm(0.8),
            length: mm(0.0),
        }),
        leaks: vec![],
        spring_chamber_drain: Drain::Open,
        friction: n(0.0),
        demand: Demand {
            flow: lpm(2.0),
            at_pressure: psi(100.0),
            outlets: 5,
            stated_in: oil(90.0),
        },
        relief: None,
    }
}

/// The same, set to 100 psi at 200 psi of line, hot.
pub fn set() -> Regulator {
    as_new()
        .calibrated(psi(100.0), psi(200.0), &oil(90.0))
        .unwrap()
}

/// A ball relief for it.
pub fn relief(cracks_psi: f64, seat_mm: f64) -> BallRelief {
    let seat_area = std::f64::consts::FRAC_PI_4 * (seat_mm * 1e-3_f64).powi(2);
    BallRelief {
        ball_diameter: mm(1.4 * seat_mm),
        seat_diameter: mm(seat_mm),
        spring: spring(cracks_psi * PSI * seat_area, 1500.0),
        lift_stop: mm(1.5),
        discharge_coefficient: one(0.65),
    }
}
