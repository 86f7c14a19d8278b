//! The static regulator against an independent solution of the same equations in SciPy, written
//! afresh in other variables (tests/reference/regulator_scipy.py).

use crate::regulator_support::described::{f, oil_of, regulator};
use crate::regulator_support::*;
use physics::regulator::{Branch, RegulatorState};
use reference::{Check, Evidence, record};
use serde_json::Value;

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
