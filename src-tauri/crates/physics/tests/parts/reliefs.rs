//! Reliefs on conical and sharp seats.

use physics::PhysicsError;
use physics::relief::BallRelief;
use physics::relief::seat::Seat;
use physics::relief::seated::SeatedRelief;
use physics::spring::Spring;
use proptest::prelude::*;
use uom::si::angle::radian;
use uom::si::area::square_meter;
use uom::si::f64::Angle;
use uom::si::length::meter;
use uom::si::pressure::pascal;
use uom::si::ratio::ratio;
use uom::si::surface_tension::newton_per_meter;
use uom::si::volume_rate::cubic_meter_per_second;

use crate::points::{close, flow, m, n, oil, one, pa, points, rate};

fn relief(seat: Seat, load: f64, stiffness: f64) -> SeatedRelief {
    SeatedRelief {
        seat,
        spring: Spring {
            load_at_rest: n(load),
            rate: rate(stiffness),
        },
        lift_stop: m(5e-3),
        discharge_coefficient: one(0.65),
        friction: n(0.0),
        jet_force: false,
    }
}

fn cone(half_angle: f64, bore: f64) -> Seat {
    Seat::ConeOnEdge {
        half_angle: Angle::new::<radian>(half_angle),
        bore: m(bore),
    }
}

#[test]
fn a_ball_in_a_cone_opens_by_its_frustum() {
    for p in points("n_seats", "n.ball_cone_area", 3) {
        let a = p.input("half_angle");
        let touching = p.input("D_ball") * a.cos();
        let seat = Seat::BallOnCone {
            ball: m(p.input("D_ball")),
            half_angle: Angle::new::<radian>(a),
            bore: m(touching),
        };
        let area = relief(seat, 10.0, 2000.0)
            .area_at(m(p.input("lift")))
            .unwrap();
        p.holds(area.get::<square_meter>());
    }
}

/// A sharp edge and a ball: the seat that `BallRelief` has.
#[test]
fn without_its_jets_force_it_is_the_plain_ball_relief() {
    let spring = Spring {
        load_at_rest: n(20.0),
        rate: rate(4000.0),
    };
    let plain = BallRelief {
        ball_diameter: m(0.008),
        seat_diameter: m(0.005),
        spring,
        lift_stop: m(5e-3),
        discharge_coefficient: one(0.65),
    };
    let seat = Seat::BallOnEdge {
        ball: m(0.008),
        bore: m(0.005),
    };
    let ours = relief(seat, 20.0, 4000.0);
    assert_eq!(
        ours.cracking_pressure().unwrap(),
        plain.cracking_pressure().unwrap()
    );
    for p in [0.9e6, 1.1e6, 1.5e6, 4e6] {
        let there = ours.at(pa(p), &oil(0.02, 850.0)).unwrap();
        let known = plain.flow(pa(p), &oil(0.02, 850.0)).unwrap();
        let off = (there.flow - known).get::<cubic_meter_per_second>().abs();
        assert!(
            off <= 1e-9 * known.get::<cubic_meter_per_second>(),
            "{p}: {there:?}"
        );
    }
}

/// API 520 sizes a liquid relief's bore by the orifice equation; a poppet clear of its bore passes
/// what the standard says, in thin oil.
#[test]
fn wide_open_it_passes_what_api_520_says() {
    for p in points("n_seats", "n.api520", 1) {
        let bore = (4.0 * p.expected() / std::f64::consts::PI).sqrt();
        let relief = relief(cone(0.8, bore), 1.0, 100.0);
        let drop = p.input("p1") - p.input("p2");
        let there = relief.at(pa(drop), &oil(1e-4, p.input("rho"))).unwrap();
        assert!(there.wide_open);
        let mass = there.flow.get::<cubic_meter_per_second>() * p.input("rho");
        close(p.id(), mass, p.input("m"), p.tolerance());
    }
}

/// Near its seat a cone opens by pi d x sin a (Merritt, poppet).
#[test]
fn a_cone_opens_by_its_sine() {
    let area = relief(cone(0.6, 0.004), 10.0, 2000.0)
        .area_at(m(1e-6))
        .unwrap();
    let expected = std::f64::consts::PI * 0.004 * 1e-6 * 0.6f64.sin();
    close("area", area.get::<square_meter>(), expected, 1e-3);
}

#[test]
fn friction_parts_cracking_from_reseat() {
    let relief = SeatedRelief {
        friction: n(2.0),
        ..relief(cone(0.7, 0.004), 10.0, 2000.0)
    };
    let area = std::f64::consts::FRAC_PI_4 * 0.004f64.powi(2);
    let value = |p: uom::si::f64::Pressure| p.get::<pascal>() * area;
    close(
        "cracks",
        value(relief.cracking_pressure().unwrap()),
        12.0,
        1e-12,
    );
    close(
        "reseats",
        value(relief.reseat_pressure().unwrap()),
        8.0,
        1e-12,
    );
}

#[test]
fn a_seat_too_small_for_the_flow_has_no_spring() {
    let small = relief(cone(0.7, 0.001), 1.0, 2000.0);
    let spring = small.spring_for(pa(9e5), pa(1e5), flow(2e-4), &oil(0.01, 850.0));
    assert!(
        matches!(spring, Err(PhysicsError::NoSolution { .. })),
        "{spring:?}"
    );
}

fn seats() -> impl Strategy<Value = Seat> {
    prop_oneof![
        (0.2..1.4f64, 2e-3..6e-3f64).prop_map(|(a, d)| cone(a, d)),
        (1.05..2.0f64, 2e-3..6e-3f64).prop_map(|(k, d)| Seat::BallOnEdge {
            ball: m(k * d),
            bore: m(d),
        }),
        (0.3..1.2f64, 4e-3..1e-2f64, 0.3..1.0f64).prop_map(|(a, d, part)| Seat::BallOnCone {
            ball: m(d),
            half_angle: Angle::new::<radian>(a),
            bore: m((d * a.cos() * part).max(6e-4)),
        }),
    ]
}

proptest! {
    #[test]
    fn opening_rises_to_the_bore_and_flow_with_pressure(
        seat in seats(), x in 0.0..5e-3f64, step in 1e-7..1e-3f64, over in 0.0..1.0f64,
        more in 1e3..5e5f64, jet_force in any::<bool>(), mu in 2e-3..0.5f64,
    ) {
        let relief = SeatedRelief { jet_force, ..relief(seat, 10.0, 2000.0) };
        let area = |x: f64| relief.area_at(m(x)).unwrap().get::<square_meter>();
        prop_assert!(area(x) <= area(x + step) && area(0.0) == 0.0);
        let crack = relief.cracking_pressure().unwrap().get::<pascal>();
        let p = crack * (1.0 + over);
        let at = |p: f64| relief.at(pa(p), &oil(mu, 850.0));
        if let (Ok(low), Ok(high)) = (at(p), at(p + more)) {
            prop_assert!(low.flow <= high.flow && low.lift <= high.lift);
        }
        let plain = SeatedRelief { jet_force: false, ..relief };
        if let (Ok(with), Ok(without)) = (at(p), plain.at(pa(p), &oil(mu, 850.0))) {
            prop_assert!(with.flow <= without.flow * (1.0 + 1e-12));
        }
    }

    /// The spring told for a setpoint does what was asked of it: the curve of a relief with that
    /// spring cracks there and passes the flow at the pressure allowed.
    #[test]
    fn the_spring_told_does_what_was_asked(
        half_angle in 0.3..1.3f64, bore in 3e-3..6e-3f64, setpoint in 5e5..1.2e6f64,
        allowed in 5e4..3e5f64, q in 5e-6..1e-4f64, jet_force in any::<bool>(),
    ) {
        let oil = oil(0.01, 850.0);
        let first = SeatedRelief { jet_force, ..relief(cone(half_angle, bore), 10.0, 2000.0) };
        if let Ok(spring) = first.spring_for(pa(setpoint), pa(allowed), flow(q), &oil) {
            let made = SeatedRelief { spring, ..first };
            let curve = made.override_curve(flow(q), 5, &oil).unwrap();
            prop_assert!((curve.cracking.get::<pascal>() / setpoint - 1.0).abs() < 1e-9);
            prop_assert!((curve.override_pressure.get::<pascal>() / allowed - 1.0).abs() < 1e-6);
            prop_assert!(curve.points.windows(2).all(|w| w[0].pressure <= w[1].pressure));
            let softer = SeatedRelief {
                spring: Spring { rate: spring.rate * 0.9, ..spring },
                ..first
            };
            if softer.spring.rate.get::<newton_per_meter>() >= 10.0 {
                let curve = softer.override_curve(flow(q), 2, &oil).unwrap();
                prop_assert!(curve.override_pressure.get::<pascal>() <= allowed * (1.0 + 1e-9));
            }
            let last = made.at(pa(setpoint + allowed), &oil).unwrap();
            prop_assert!((last.flow / flow(q)).get::<ratio>() - 1.0 < 1e-6);
            prop_assert!(last.lift.get::<meter>() > 0.0);
        }
    }
}
