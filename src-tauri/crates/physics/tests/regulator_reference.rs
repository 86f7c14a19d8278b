//! The static regulator against an independent solution of the same equations in SciPy, written
//! afresh in other variables (tests/reference/regulator_scipy.py).

// Test helpers may fail loudly.
#![allow(clippy::unwrap_used)]

mod regulator_support;

use physics::fluid::OilState;
use physics::gap::Annulus;
use physics::opening::{Opening, Travel};
use physics::orifice::Orifice;
use physics::regulator::{Branch, Demand, Drain, LandLeak, Node, Regulator, RegulatorState};
use physics::relief::BallRelief;
use reference::{Check, Evidence, record};
use regulator_support::*;
use serde_json::Value;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{DynamicViscosity, MassDensity};
use uom::si::mass_density::kilogram_per_cubic_meter;

fn f(v: &Value, key: &str) -> f64 {
    v[key].as_f64().unwrap_or_else(|| panic!("{key} in {v}"))
}

fn oil_of(v: &Value) -> OilState {
    OilState {
        viscosity: DynamicViscosity::new::<pascal_second>(f(v, "viscosity_pa_s")),
        density: MassDensity::new::<kilogram_per_cubic_meter>(f(v, "density_kg_per_m3")),
        extrapolated: false,
    }
}

fn edge(v: &Value, travel: Travel) -> Opening {
    Opening {
        land_diameter: m(f(v, "land_diameter_m")),
        circumference_fraction: one(f(v, "circumference_fraction_ratio")),
        width_at_rest: m(f(v, "width_at_rest_m")),
        travel,
        radial_clearance: m(f(v, "radial_clearance_m")),
    }
}

fn hole(v: &Value) -> Orifice {
    Orifice {
        diameter: m(f(v, "diameter_m")),
        length: m(f(v, "length_m")),
    }
}

fn node(v: &Value) -> Node {
    match v.as_str() {
        Some("line") => Node::Line,
        Some("feed") => Node::Feed,
        Some("reaction") => Node::Reaction,
        Some("chamber") => Node::SpringChamber,
        Some("sump") => Node::Sump,
        _ => Node::Fixed(pa(f(v, "fixed_pa"))),
    }
}

fn regulator(v: &Value) -> Regulator {
    let some = |key: &str| Some(&v[key]).filter(|x| !x.is_null());
    Regulator {
        reaction_area: m2(f(v, "reaction_area_m2")),
        spring_side_area: m2(f(v, "chamber_area_m2")),
        spring: spring(f(v, "spring_load_n"), f(v, "spring_rate_n_per_m")),
        stroke: m(f(v, "stroke_m")),
        supply: edge(&v["supply"], Travel::Closes),
        exhaust: some("exhaust").map(|e| edge(e, Travel::Opens)),
        balance_orifice: some("balance_orifice").map(hole),
        leaks: v["leaks"]
            .as_array()
            .unwrap()
            .iter()
            .map(|l| {
                let a = &l["annulus"];
                LandLeak {
                    annulus: Annulus::new(
                        m(f(a, "mean_diameter_m")),
                        m(f(a, "radial_clearance_m")),
                        m(f(a, "length_m")),
                        one(f(a, "eccentricity_ratio")),
                    )
                    .unwrap(),
                    from: node(&l["from"]),
                    to: node(&l["to"]),
                }
            })
            .collect(),
        spring_chamber_drain: match v["drain"].as_str() {
            Some("open") => Drain::Open,
            Some("blocked") => Drain::Blocked,
            _ => Drain::Orifice(hole(&v["drain"])),
        },
        friction: n(f(v, "friction_n")),
        demand: Demand {
            flow: m3_s(f(&v["demand"], "flow_m3_per_s")),
            at_pressure: pa(f(&v["demand"], "at_pressure_pa")),
            outlets: v["demand"]["outlets"].as_u64().unwrap() as u32,
            stated_in: oil_of(&v["demand"]["stated_in"]),
        },
        relief: some("relief").map(|r| BallRelief {
            ball_diameter: m(f(r, "ball_diameter_m")),
            seat_diameter: m(f(r, "seat_diameter_m")),
            spring: spring(f(r, "load_n"), f(r, "rate_n_per_m")),
            lift_stop: m(f(r, "lift_stop_m")),
            discharge_coefficient: one(f(r, "discharge_ratio")),
        }),
    }
}

#[test]
fn static_balance_agrees_with_scipy() {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../../tests/reference/regulator_scipy.json"
    );
    let file: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let cases = file["cases"].as_array().unwrap();
    assert!(cases.len() >= 40);
    let mut seen = std::collections::BTreeMap::new();
    for case in cases {
        let (id, v, want) = (
            case["id"].as_str().unwrap(),
            &case["valve"],
            &case["answer"],
        );
        let branch = match v["branch"].as_str().unwrap() {
            "rising" => Branch::Rising,
            "falling" => Branch::Falling,
            _ => Branch::Frictionless,
        };
        let circuit = regulator(v).circuit(&oil_of(&v["oil"])).unwrap();
        let got = circuit.solve(pa(f(v, "line_pa")), branch).unwrap();
        *seen.entry(format!("{:?}", got.state)).or_insert(0) += 1;
        let mut worst: f64 = 0.0;
        let mut compare = |name: &str, value: f64, scale: f64| {
            let off = (value - f(want, name)).abs() / scale;
            worst = worst.max(off);
            assert!(
                off < 1e-8,
                "{id}: {name} {value}, SciPy {} (off {off:e})",
                want[name]
            );
        };
        // Against the sizes that matter: 1 MPa, 1 mm, 1 L/min.
        compare("feed_pa", got.feed.value, 1e6);
        compare("reaction_pa", got.reaction.value, 1e6);
        compare("chamber_pa", got.spring_chamber.value, 1e6);
        compare("position_m", got.spool_position.value, 1e-3);
        compare("supply_m3_per_s", got.flows.supply.value, LPM);
        compare("exhaust_m3_per_s", got.flows.exhaust.value, LPM);
        compare("demand_m3_per_s", got.flows.demand.value, LPM);
        compare("relief_m3_per_s", got.flows.relief.value, LPM);
        let on_stop = want["on_stop"].as_bool().unwrap();
        let stopped = matches!(
            got.state,
            RegulatorState::FullyOpen | RegulatorState::FullyExhausting
        ) || got.spool_position.value == f(v, "stroke_m");
        assert_eq!(stopped, on_stop, "{id}");
        record(&Check {
            id: &format!("regulator.scipy.{id}"),
            area: "regulator",
            quantity: "feed, reaction and spring chamber pressure, position, flows",
            source: "tests/reference/regulator_scipy.py, of scales 1 MPa, 1 mm, 1 L/min",
            computed_by: file["package"].as_str().unwrap(),
            evidence: Evidence::SameEquations,
            inputs: [("line".to_owned(), (f(v, "line_pa"), "Pa".to_owned()))].into(),
            deviation: worst,
            allowed: 1e-8,
        });
    }
    // The cases reach every state.
    assert_eq!(seen.len(), 4, "{seen:?}");
}
