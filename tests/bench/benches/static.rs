//! One static balance of the reducing regulator, over the cases of `tests/reference/`; one of the
//! main regulator, and one of the whole circuit of line, feed and boost.
//!
//! Aim: at most 5 µs a static solve on a 2-core machine.

use std::hint::black_box;

use criterion::{Criterion, criterion_group, criterion_main};
use physics::fluid::{Oil, OilState, ViscosityPoint};
use physics::gap::Annulus;
use physics::main_regulator::{MainLeak, MainNode, MainRegulator, Pump};
use physics::opening::{Opening, Travel};
use physics::orifice::Orifice;
use physics::regulator::{Branch, Demand, Drain, LandLeak, Node, Regulator};
use physics::spring::{Spring, SpringRate};
use physics::supply_circuit::{PressureSolenoid, SupplyCircuit};
use uom::si::area::square_meter;
use uom::si::f64::*;
use uom::si::force::newton;
use uom::si::kinematic_viscosity::square_meter_per_second;
use uom::si::length::millimeter;
use uom::si::mass_density::kilogram_per_cubic_meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::surface_tension::newton_per_meter;
use uom::si::thermodynamic_temperature::kelvin;
use uom::si::volume_rate::cubic_meter_per_second;

const PSI: f64 = 6_894.757_293_168_361;
const LPM: f64 = 1.0 / 60_000.0;

fn mm(x: f64) -> Length {
    Length::new::<millimeter>(x)
}

fn psi(x: f64) -> Pressure {
    Pressure::new::<pascal>(x * PSI)
}

fn lpm(x: f64) -> VolumeRate {
    VolumeRate::new::<cubic_meter_per_second>(x * LPM)
}

fn one(x: f64) -> Ratio {
    Ratio::new::<ratio>(x)
}

fn m2(x: f64) -> Area {
    Area::new::<square_meter>(x)
}

fn spring(load: f64, rate: f64) -> Spring {
    Spring {
        load_at_rest: Force::new::<newton>(load),
        rate: SpringRate::new::<newton_per_meter>(rate),
    }
}

/// An invented oil in the usual range of transmission oils.
fn oil(celsius: f64) -> OilState {
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
    .expect("an oil within its range")
}

fn gap(diameter_mm: f64, clearance_mm: f64) -> Annulus {
    Annulus::new(mm(diameter_mm), mm(clearance_mm), mm(3.0), one(0.5)).expect("a gap within range")
}

fn edge(diameter_mm: f64, width_mm: f64, travel: Travel) -> Opening {
    Opening {
        land_diameter: mm(diameter_mm),
        circumference_fraction: one(0.6),
        window: None,
        width_at_rest: mm(width_mm),
        travel,
        radial_clearance: mm(0.015),
    }
}

fn demand(flow_lpm: f64) -> Demand {
    Demand {
        flow: lpm(flow_lpm),
        at_pressure: psi(100.0),
        outlets: 5,
        stated_in: oil(90.0),
    }
}

fn knife_edge(diameter_mm: f64) -> Option<Orifice> {
    Some(Orifice {
        diameter: mm(diameter_mm),
        length: mm(0.0),
    })
}

/// A worn 10 mm feed regulator: four lands leak.
fn feed_regulator() -> Regulator {
    let area = std::f64::consts::FRAC_PI_4 * 1e-4;
    let leak = |clearance_mm, from, to| LandLeak {
        annulus: gap(10.0, clearance_mm),
        from,
        to,
    };
    Regulator {
        reaction_area: m2(area),
        spring_side_area: m2(area),
        spring: spring(50.0, 3000.0),
        stroke: mm(3.0),
        supply: edge(10.0, 1.2, Travel::Closes),
        exhaust: Some(edge(10.0, -1.5, Travel::Opens)),
        balance_orifice: knife_edge(0.8),
        leaks: vec![
            leak(0.04, Node::Reaction, Node::Sump),
            leak(0.02, Node::Line, Node::Feed),
            leak(0.02, Node::Feed, Node::Sump),
            leak(0.02, Node::Line, Node::Sump),
        ],
        spring_chamber_drain: Drain::Open,
        friction: Force::new::<newton>(1.0),
        demand: demand(2.0),
        relief: None,
    }
}

fn main_regulator() -> MainRegulator {
    let area = 1.767e-4;
    MainRegulator {
        reaction_area: m2(area),
        boost_area: m2(1.8 * area),
        spring: spring(60.0 * PSI * area, 4000.0),
        stroke: mm(5.0),
        dump: edge(15.0, -0.3, Travel::Opens),
        overflow: None,
        balance_orifice: knife_edge(1.2),
        boost_orifice: knife_edge(1.2),
        leaks: vec![
            MainLeak {
                annulus: gap(15.0, 0.03),
                from: MainNode::Reaction,
                to: MainNode::Sump,
            },
            MainLeak {
                annulus: gap(15.0, 0.03),
                from: MainNode::Boost,
                to: MainNode::Sump,
            },
            MainLeak {
                annulus: gap(15.0, 0.03),
                from: MainNode::Line,
                to: MainNode::Sump,
            },
        ],
        friction: Force::new::<newton>(0.0),
        demand: demand(3.0),
        relief: None,
    }
}

fn pump() -> Pump {
    Pump {
        ideal_flow: lpm(40.0),
        slip: lpm(1.0),
        at_pressure: psi(100.0),
        stated_in: oil(90.0),
    }
}

fn solves(c: &mut Criterion) {
    let mut group = c.benchmark_group("static");
    for (name, celsius) in [("hot", 90.0), ("cold", -20.0)] {
        let circuit = feed_regulator()
            .circuit(&oil(celsius))
            .expect("a sound valve");
        // All over the range of line, so that no guess is lucky.
        let lines: Vec<_> = (0..64).map(|i| psi(40.0 + 4.0 * f64::from(i))).collect();
        let mut next = 0;
        group.bench_function(format!("feed regulator, {name}"), |b| {
            b.iter(|| {
                next = (next + 29) % lines.len();
                circuit.solve(black_box(lines[next]), Branch::Frictionless)
            });
        });
    }
    let main = main_regulator().circuit(&oil(90.0)).expect("a sound valve");
    group.bench_function("main regulator", |b| {
        b.iter(|| main.solve(&pump(), black_box(psi(40.0)), Branch::Frictionless));
    });
    let circuit = SupplyCircuit {
        pump: pump(),
        main: main_regulator(),
        feed: feed_regulator(),
        solenoid: PressureSolenoid::Bleed { share: one(0.5) },
    };
    let laws = circuit.at(&oil(90.0)).expect("a sound circuit");
    group.bench_function("line, feed and boost together", |b| {
        b.iter(|| black_box(&laws).solve(Branch::Frictionless));
    });
    group.finish();
}

criterion_group!(benches, solves);
criterion_main!(benches);
