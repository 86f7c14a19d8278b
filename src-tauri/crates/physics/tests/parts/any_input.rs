//! Whatever number is typed: an answer that is finite, or an error that names its field.

use physics::PhysicsError;
use physics::air::Air;
use physics::clearance_span::{air_span, oil_clearance, oil_span};
use physics::clutch::{Annulus, ClutchPack, TurningOil, band_torque, force_by_uniform_wear};
use physics::fluid::ViscosityPoint;
use physics::fluid::aerated::AeratedOil;
use physics::fluid::chart::ViscosityChart;
use physics::fluid::viscosity_index::viscosity_index;
use physics::gap::Land;
use physics::gap_air::Seal;
use physics::opening::port::Port;
use physics::opening::window::Window;
use physics::relief::seat::Seat;
use physics::relief::seated::SeatedRelief;
use physics::solenoid::{
    SolenoidKind, WindingLine, current, passed_shift, resistance_at, winding_temperature,
    wire_resistance,
};
use physics::spring::Spring;
use proptest::prelude::*;
use uom::si::angle::radian;
use uom::si::angular_velocity::radian_per_second;
use uom::si::electrical_resistance::ohm;
use uom::si::f64::*;
use uom::si::kinematic_viscosity::square_meter_per_second;

use crate::points::{density, flow, k, m, n, oil, one, pa, rate};

/// Any f64 at all, and often one near what the field expects.
pub fn near(low: f64, high: f64) -> impl Strategy<Value = f64> {
    prop_oneof![
        40 => low..high,
        1 => prop::num::f64::ANY,
        1 => prop::sample::select(vec![
            0.0, -0.0, 1.0, -1.0, f64::MAX, f64::MIN, f64::MIN_POSITIVE, 5e-324, f64::NAN,
            f64::INFINITY, f64::NEG_INFINITY, 1e300, 1e-300,
        ]),
        1 => prop::sample::select(vec![low, high]),
    ]
}

/// Finite numbers only in an answer; a named field in an error.
pub fn sound<T: std::fmt::Debug>(answer: &Result<T, PhysicsError>) -> Result<(), TestCaseError> {
    match answer {
        Ok(value) => {
            let text = format!("{value:?}");
            prop_assert!(!text.contains("NaN") && !text.contains("inf"), "{text}");
        }
        Err(error) => {
            let field = match error {
                PhysicsError::OutOfRange { field, .. }
                | PhysicsError::NotFinite { field }
                | PhysicsError::Contradiction { field, .. }
                | PhysicsError::TooFew { field, .. }
                | PhysicsError::NotTabulated { field } => *field,
                PhysicsError::NoSolution { what } => *what,
                other => return Err(TestCaseError::fail(format!("{other:?}"))),
            };
            prop_assert!(physics::range::name(field) != field, "{field} has no name");
        }
    }
    Ok(())
}

fn window() -> impl Strategy<Value = Window> {
    let length = || near(1e-4, 0.02).prop_map(m);
    prop_oneof![
        (length(), near(0.005, 1.0)).prop_map(|(land_diameter, f)| Window::AnnularSlot {
            land_diameter,
            circumference_fraction: one(f),
        }),
        (any::<u32>(), length()).prop_map(|(count, diameter)| Window::RoundHoles {
            count: count % 80,
            diameter
        }),
        (0u32..80, length(), length()).prop_map(|(count, width, length)| Window::Slots {
            count,
            width,
            length
        }),
        (0u32..80, length(), length()).prop_map(|(count, width, length)| Window::RoundEndedSlots {
            count,
            width,
            length
        }),
        (0u32..80, near(0.05, 1.5), length()).prop_map(|(count, a, length)| Window::VNotches {
            count,
            half_angle: Angle::new::<radian>(a),
            length,
        }),
    ]
}

fn seat() -> impl Strategy<Value = Seat> {
    let angle = || near(0.15, 1.5).prop_map(Angle::new::<radian>);
    let size = || near(5e-4, 0.03).prop_map(m);
    prop_oneof![
        (size(), size()).prop_map(|(ball, bore)| Seat::BallOnEdge { ball, bore }),
        (size(), angle(), size()).prop_map(|(ball, half_angle, bore)| Seat::BallOnCone {
            ball,
            half_angle,
            bore
        }),
        (angle(), size()).prop_map(|(half_angle, bore)| Seat::ConeOnEdge { half_angle, bore }),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn ports(
        window in window(), c in near(1e-7, 1e-3), r in near(0.0, 1e-3), w in near(-0.05, 0.05),
        dp in near(-1e7, 1e7), mu in near(1e-4, 500.0),
    ) {
        let port = Port { window, radial_clearance: m(c), edge_radius: m(r) };
        sound(&port.area_at(m(w)))?;
        sound(&port.full_area())?;
        sound(&port.flow(m(w), pa(dp), &oil(mu, 850.0)))?;
    }

    #[test]
    fn oils(
        list in prop::collection::vec((near(223.0, 453.0), near(2.1e-7, 0.5)), 0..5),
        t in near(223.0, 453.0), v in near(2.1e-7, 0.5), w in near(2e-6, 55e-6),
        modulus in near(5e8, 5e9), share in near(0.0, 0.5), p0 in near(1e4, 1e7),
        p in near(1e4, 1e7), exponent in near(1.0, 1.67), wall in near(1e8, 1e13),
    ) {
        let nu = KinematicViscosity::new::<square_meter_per_second>;
        let points: Vec<_> = list
            .iter()
            .map(|&(t, v)| ViscosityPoint { temperature: k(t), viscosity: nu(v) })
            .collect();
        let chart = ViscosityChart::new(&points);
        sound(&chart)?;
        if let Ok(chart) = chart {
            sound(&chart.at(k(t)))?;
            sound(&chart.temperature_of(nu(v)))?;
        }
        sound(&viscosity_index(nu(v), nu(w)))?;
        let oil = AeratedOil {
            oil_bulk_modulus: pa(modulus), air_ratio: one(share), reference_pressure: pa(p0),
            polytropic_exponent: one(exponent), wall_bulk_modulus: Some(pa(wall)),
        };
        sound(&oil.at(pa(p)))?;
    }

    #[test]
    fn reliefs(
        seat in seat(), load in near(0.05, 5000.0), stiffness in near(10.0, 1e6),
        stop in near(0.0, 0.02), cd in near(0.1, 1.0), friction in near(0.0, 100.0),
        p in near(0.0, 1e7), over in near(1e3, 1e6), q in near(1e-9, 0.01),
        count in any::<u32>(), mu in near(1e-4, 500.0), jet_force in any::<bool>(),
    ) {
        let relief = SeatedRelief {
            seat, spring: Spring { load_at_rest: n(load), rate: rate(stiffness) },
            lift_stop: m(stop), discharge_coefficient: one(cd), friction: n(friction), jet_force,
        };
        let oil = oil(mu, 850.0);
        sound(&relief.cracking_pressure())?;
        sound(&relief.reseat_pressure())?;
        sound(&relief.area_at(m(stop)))?;
        sound(&relief.at(pa(p), &oil))?;
        sound(&relief.override_curve(flow(q), count % 12, &oil))?;
        sound(&relief.spring_for(pa(p), pa(over), flow(q), &oil))?;
    }

    #[test]
    fn clutches_and_solenoids(
        r in prop::array::uniform6(near(0.0, 0.5)), faces in any::<u32>(), mu in near(0.01, 0.6),
        spring in near(0.0, 1e5), p in near(0.0, 1e7), by in near(-1e7, 1e7),
        w in near(-1500.0, 1500.0), from in near(0.0, 0.5), torque in near(0.0, 1e6),
        wrap in near(0.1, 12.6), resistance in near(0.01, 1000.0), t in near(223.0, 473.0),
        gain in near(0.1, 20.0), feed in near(1e4, 1e7),
    ) {
        let ring = |inner: f64, outer: f64| Annulus { inner: m(inner), outer: m(outer) };
        let pack = ClutchPack {
            piston: ring(r[0], r[1]), face: ring(r[2], r[3]), faces: faces % 50,
            friction: one(mu), return_spring: n(spring),
        };
        let turning = TurningOil {
            speed: AngularVelocity::new::<radian_per_second>(w), density: density(820.0),
            from_radius: m(from), balance: Some((ring(r[4], r[5]), m(from))),
        };
        sound(&pack.capacity(pa(p), Some(&turning)))?;
        sound(&pack.shift(pa(p), pa(by), Some(&turning)))?;
        let torque = Torque::new::<uom::si::torque::newton_meter>(torque);
        sound(&pack.pressure_for(torque, Some(&turning)))?;
        sound(&force_by_uniform_wear(ring(r[2], r[3]), pa(p)))?;
        sound(&band_torque(n(spring), one(mu), Angle::new::<radian>(wrap), m(from)))?;
        let ohms = ElectricalResistance::new::<ohm>(resistance);
        sound(&resistance_at(ohms, k(t), k(t)))?;
        sound(&wire_resistance(m(spring), m(from), k(t)))?;
        let colder = ElectricalResistance::new::<ohm>(r[0] * 10.0);
        sound(&winding_temperature(colder, k(t), ohms, WindingLine::Iec60028))?;
        let volts = ElectricPotential::new::<uom::si::electric_potential::volt>(gain);
        sound(&current(volts, ohms, k(t)))?;
        for kind in [SolenoidKind::Bleed, SolenoidKind::PulseWidth, SolenoidKind::ClosedLoop] {
            sound(&passed_shift(kind, pa(p), pa(feed), pa(by), one(gain)))?;
        }
    }

    #[test]
    fn spans(
        d in near(2e-3, 0.1), l in near(1e-4, 0.1), q in near(0.0, 0.05), dp in near(1.0, 1e7),
        e in near(0.0, 1.0), off in near(0.0, 0.9), mu in near(1e-4, 500.0),
    ) {
        if let Ok(land) = Land::new(m(d), m(l)) {
            let oil = oil(mu, 850.0);
            sound(&oil_clearance(flow(q), &[land], &oil, pa(dp), one(e)))?;
            sound(&oil_span(flow(q), &[land, land], &oil, pa(dp), one(off)))?;
            let air = Air::at(k(293.15)).unwrap();
            let seal = Seal { land, far_side: pa(98e3) };
            let q = physics::quantity::throughput(q * 1e3);
            sound(&air_span(q, &[seal], &air, pa(dp), one(off)))?;
        }
    }
}
