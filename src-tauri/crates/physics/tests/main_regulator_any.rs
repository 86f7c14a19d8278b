//! Any main regulator with legal numbers has an answer or a typed refusal, whatever its numbers;
//! any with illegal ones is refused by field. Nothing panics and nothing is NaN.

use crate::regulator_support::*;
use physics::PhysicsError;
use physics::fluid::OilState;
use physics::gap::Annulus;
use physics::main_regulator::{MainLeak, MainNode, MainRegulator, Overflow, Pump};
use physics::opening::{Opening, Travel};
use physics::orifice::Orifice;
use physics::regulator::{Branch, Demand};
use proptest::prelude::*;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{DynamicViscosity, MassDensity};
use uom::si::mass_density::kilogram_per_cubic_meter;

struct Draw<'a>(std::slice::Iter<'a, f64>);

impl Draw<'_> {
    fn unit(&mut self) -> f64 {
        *self.0.next().unwrap()
    }
    fn decades(&mut self, low: f64, high: f64) -> f64 {
        (low.ln() + self.unit() * (high / low).ln())
            .exp()
            .clamp(low, high)
    }
    fn even(&mut self, low: f64, high: f64) -> f64 {
        low + self.unit() * (high - low)
    }
    fn maybe<T>(&mut self, make: impl FnOnce(&mut Self) -> T) -> Option<T> {
        (self.unit() < 0.5).then(|| make(self))
    }
}

fn oil_of(d: &mut Draw<'_>) -> OilState {
    OilState {
        viscosity: DynamicViscosity::new::<pascal_second>(d.decades(1e-3, 50.0)),
        density: MassDensity::new::<kilogram_per_cubic_meter>(d.decades(600.0, 1200.0)),
        extrapolated: false,
    }
}

fn edge(d: &mut Draw<'_>) -> Opening {
    Opening {
        land_diameter: m(d.decades(0.002, 0.1)),
        circumference_fraction: one(d.decades(0.005, 1.0)),
        window: None,
        width_at_rest: m(d.even(-5e-3, 2e-3)),
        travel: Travel::Opens,
        radial_clearance: m(d.decades(1e-7, 1e-3)),
    }
}

fn hole(d: &mut Draw<'_>) -> Orifice {
    Orifice {
        diameter: m(d.decades(5e-5, 0.01)),
        length: m(d.even(0.0, 0.01)),
    }
}

fn node(d: &mut Draw<'_>) -> MainNode {
    match (d.unit() * 5.0) as u32 {
        0 => MainNode::Line,
        1 => MainNode::Reaction,
        2 => MainNode::Boost,
        3 => MainNode::Sump,
        _ => MainNode::Fixed(pa(d.even(0.0, 1e7))),
    }
}

fn leak_of(d: &mut Draw<'_>) -> MainLeak {
    let annulus = Annulus::new(
        m(d.decades(0.002, 0.1)),
        m(d.decades(1e-7, 1e-3)),
        m(d.decades(1e-4, 0.1)),
        one(d.unit()),
    );
    MainLeak {
        annulus: annulus.unwrap(),
        from: node(d),
        to: node(d),
    }
}

fn legal(d: &mut Draw<'_>) -> (MainRegulator, Pump, OilState) {
    let main = MainRegulator {
        reaction_area: m2(d.decades(1e-6, 5e-3)),
        boost_area: m2(d.decades(1e-6, 5e-3)),
        spring: spring(d.decades(0.05, 5000.0), d.decades(10.0, 1e6)),
        stroke: m(d.decades(1e-4, 0.05)),
        dump: edge(d),
        overflow: d.maybe(|d| Overflow {
            edge: edge(d),
            pressure: pa(d.even(0.0, 1e7)),
        }),
        balance_orifice: d.maybe(hole),
        boost_orifice: d.maybe(hole),
        leaks: (0..3).filter_map(|_| d.maybe(leak_of)).collect(),
        friction: n(d.even(0.0, 50.0)),
        demand: Demand {
            flow: m3_s(d.even(0.0, 5e-4)),
            at_pressure: pa(d.decades(1e4, 1e7)),
            outlets: 1 + (d.unit() * 63.0) as u32,
            stated_in: oil_of(d),
        },
        relief: None,
    };
    let pump = Pump {
        ideal_flow: m3_s(d.even(0.0, 5e-3)),
        slip: m3_s(d.even(0.0, 5e-4)),
        at_pressure: pa(d.decades(1e4, 1e7)),
        stated_in: oil_of(d),
    };
    (main, pump, oil_of(d))
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn any_legal_one_has_an_answer_or_a_typed_refusal(
        numbers in prop::collection::vec(0.0..1.0f64, 120), output in 0.0..1e7f64,
    ) {
        let (main, pump, oil) = legal(&mut Draw(numbers.iter()));
        let circuit = match main.circuit(&oil) {
            Ok(circuit) => circuit,
            Err(
                PhysicsError::MainRegulator(_)
                | PhysicsError::NoSolution { what: "demand_outlet_diameter_m" },
            ) => return Ok(()),
            Err(e) => return Err(TestCaseError::fail(format!("{e}"))),
        };
        for branch in [Branch::Frictionless, Branch::Rising, Branch::Falling] {
            match circuit.solve(&pump, pa(output), branch) {
                Ok(point) => {
                    for p in [point.line, point.reaction, point.boost] {
                        prop_assert!(p.value.is_finite() && p.value >= 0.0 && p.value <= 1e7);
                    }
                    let x = point.spool_position;
                    prop_assert!(x.value >= 0.0 && x <= main.stroke);
                    prop_assert!(point.flows.leaks.iter().all(|q| q.value.is_finite()));
                    let residual = point.flows.mass_balance_residual.value;
                    prop_assert!(residual.is_finite());
                }
                Err(e) => {
                    prop_assert_eq!(e, PhysicsError::NoSolution { what: "line_pressure_pa" });
                }
            }
        }
        if let Ok(least) = circuit.least_pump_flow(&pump, pa(output)) {
            prop_assert!(least.value.is_finite() && least.value >= 0.0);
        }
    }

    #[test]
    fn any_illegal_number_is_refused_by_field(
        place in 0..8usize, bad in prop_oneof![
            Just(f64::NAN), Just(f64::INFINITY), Just(f64::NEG_INFINITY), Just(-1.0), Just(1e12),
        ],
        numbers in prop::collection::vec(0.0..1.0f64, 120),
    ) {
        let (mut main, mut pump, oil) = legal(&mut Draw(numbers.iter()));
        let mut output = pa(1e5);
        match place {
            0 => main.reaction_area = m2(bad),
            1 => main.boost_area = m2(bad),
            2 => main.spring = spring(bad, 1000.0),
            3 => main.stroke = m(bad),
            4 => main.friction = n(bad),
            5 => pump.ideal_flow = m3_s(bad),
            6 => pump.slip = m3_s(bad),
            _ => output = pa(bad),
        }
        let answer = main
            .circuit(&oil)
            .and_then(|circuit| circuit.solve(&pump, output, Branch::Frictionless));
        prop_assert!(answer.is_err());
    }
}
