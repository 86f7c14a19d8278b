//! The valve that everything here is timed on, and the same equations for another solver.

// Programs for the developer's eye may fail loudly.
#![allow(clippy::unwrap_used)]

pub mod equations;
#[path = "../../../src-tauri/crates/physics/tests/regulator_support/mod.rs"]
pub mod support;

use physics::regulator::dynamic::*;
use serde_json::Value;
use support::described::{f, oil_of, regulator};
use support::*;
use uom::si::f64::*;
use uom::si::frequency::hertz;
use uom::si::mass::kilogram;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::time::second;
use uom::si::volume::cubic_meter;

/// 0.2 s of 150 psi with 10 psi of ripple at 150 Hz on a case of `valve.py`, from its state of
/// rest: 2,000 points.
pub fn described(case: &Value, tolerance: f64) -> (MovingCircuit, Scenario) {
    let volume = |key| Volume::new::<cubic_meter>(f(case, key));
    let stiffness = &case["stiffness"];
    let moving = MovingRegulator {
        regulator: regulator(&case["valve"]),
        spool_mass: Mass::new::<kilogram>(f(case, "spool_mass_kg")),
        damping: ViscousDamping::new::<kilogram_per_second>(f(case, "damping_n_s_per_m")),
        breakaway: one(f(case, "breakaway_ratio")),
        feed_volume: volume("feed_volume_m3"),
        reaction_volume: volume("reaction_volume_m3"),
        chamber_volume: volume("chamber_volume_m3"),
        oil_stiffness: OilStiffness {
            liquid: pa(f(stiffness, "liquid_pa")),
            entrained_air: one(f(stiffness, "entrained_air_ratio")),
            exponent: one(f(stiffness, "exponent_ratio")),
            barometer: pa(f(stiffness, "barometer_pa")),
        },
    };
    let ripple = &case["line"]["ripple"];
    let line = Line {
        course: Course::Constant(pa(case["line"]["knots"][0][1].as_f64().unwrap())),
        ripple: Some(Ripple {
            amplitude: pa(f(ripple, "amplitude_pa")),
            frequency: Frequency::new::<hertz>(f(ripple, "frequency_hz")),
        }),
    };
    let mut scenario = Scenario::new(line, Time::new::<second>(f(case, "duration_s")));
    scenario.relative_tolerance = one(tolerance);
    let circuit = moving.circuit(&oil_of(&case["valve"]["oil"])).unwrap();
    (circuit, scenario)
}
