//! How long a transient takes: 0.2 s of ripple (150 psi, 10 psi at 150 Hz), 2,000 points, 1e-6.
//! `cargo run --release -p physics --example transient_time`

// A program for the developer's eye.
#![allow(clippy::unwrap_used)]

#[path = "../tests/regulator_support/mod.rs"]
mod regulator_support;

use std::time::Instant;

use physics::regulator::dynamic::*;
use regulator_support::*;
use uom::si::f64::*;
use uom::si::frequency::hertz;
use uom::si::mass::gram;
use uom::si::mass_rate::kilogram_per_second;
use uom::si::time::second;
use uom::si::volume::cubic_centimeter;

fn main() {
    for (name, orifice, damping, exponent) in [
        ("0.8 mm", 0.8, 4.0, 1.0),
        ("0.5 mm", 0.5, 4.0, 1.0),
        ("1.5 mm", 1.5, 4.0, 1.0),
        ("1.5 mm, well damped", 1.5, 40.0, 1.0),
        ("0.8 mm, adiabatic", 0.8, 4.0, 1.4),
    ] {
        let mut regulator = set();
        regulator.balance_orifice.as_mut().unwrap().diameter = mm(orifice);
        let moving = MovingRegulator {
            regulator,
            spool_mass: Mass::new::<gram>(12.0),
            damping: ViscousDamping::new::<kilogram_per_second>(damping),
            breakaway: one(1.0),
            feed_volume: Volume::new::<cubic_centimeter>(25.0),
            reaction_volume: Volume::new::<cubic_centimeter>(1.0),
            chamber_volume: Volume::new::<cubic_centimeter>(1.5),
            oil_stiffness: OilStiffness {
                liquid: pa(1.5e9),
                entrained_air: one(0.01),
                exponent: one(exponent),
                barometer: pa(101_325.0),
            },
        };
        let circuit = moving.circuit(&oil(90.0)).unwrap();
        let line = Line {
            course: Course::Constant(psi(150.0)),
            ripple: Some(Ripple {
                amplitude: psi(10.0),
                frequency: Frequency::new::<hertz>(150.0),
            }),
        };
        let scenario = Scenario::new(line, Time::new::<second>(0.2));
        let mut tight = scenario.clone();
        tight.relative_tolerance = one(1e-10);
        let exact = circuit.simulate(&tight).unwrap();
        let mut times = Vec::new();
        let mut got = circuit.simulate(&scenario).unwrap();
        for _ in 0..30 {
            let begun = Instant::now();
            got = circuit.simulate(&scenario).unwrap();
            times.push(begun.elapsed().as_secs_f64() * 1e3);
        }
        times.sort_by(f64::total_cmp);
        let error = got
            .trace
            .feed_pa
            .iter()
            .zip(&exact.trace.feed_pa)
            .map(|(a, b)| (a - b).abs())
            .fold(0.0, f64::max);
        let slow = circuit.stability(psi(150.0), one(1.0)).unwrap().modes[0];
        println!(
            "{name}: {:.2} ms (best {:.2}), error {error:.2} Pa, {:?} {:?}, slowest mode {:.0}/s {:.0} Hz",
            times[times.len() / 2],
            times[0],
            got.oscillation,
            got.statistics,
            slow.growth.get::<hertz>(),
            slow.frequency.get::<hertz>(),
        );
    }
}
