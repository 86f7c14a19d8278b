//! The bypass main regulator, alone and together with the feed regulator and the pressure-control
//! solenoid, against an independent solution of the same equations in SciPy, written afresh and
//! solved in another order (tests/reference/main_regulator_scipy.py).

use crate::regulator_support::described::{edge, f, hole, oil_of};
use crate::regulator_support::*;
use physics::gap::Annulus;
use physics::main_regulator::{
    MainLeak, MainNode, MainPoint, MainRegulator, MainState, Overflow, Pump,
};
use physics::opening::Travel;
use physics::regulator::{Branch, Demand, Drain, LandLeak, Node, Regulator};
use physics::relief::BallRelief;
use physics::supply_circuit::{PressureSolenoid, SupplyCircuit};
use reference::{Check, Evidence, record};
use serde_json::Value;

fn some<'a>(v: &'a Value, key: &str) -> Option<&'a Value> {
    Some(&v[key]).filter(|x| !x.is_null())
}

fn annulus(v: &Value) -> Annulus {
    Annulus::new(
        m(f(v, "mean_diameter_m")),
        m(f(v, "radial_clearance_m")),
        m(f(v, "length_m")),
        one(f(v, "eccentricity_ratio")),
    )
    .unwrap()
}

fn demand(v: &Value) -> Demand {
    Demand {
        flow: m3_s(f(v, "flow_m3_per_s")),
        at_pressure: pa(f(v, "at_pressure_pa")),
        outlets: v["outlets"].as_u64().unwrap() as u32,
        stated_in: oil_of(&v["stated_in"]),
    }
}

fn main_node(v: &Value) -> MainNode {
    match v.as_str() {
        Some("line") => MainNode::Line,
        Some("reaction") => MainNode::Reaction,
        Some("boost") => MainNode::Boost,
        Some("sump") => MainNode::Sump,
        _ => MainNode::Fixed(pa(f(v, "fixed_pa"))),
    }
}

fn main_regulator(v: &Value) -> MainRegulator {
    MainRegulator {
        reaction_area: m2(f(v, "reaction_area_m2")),
        boost_area: m2(f(v, "boost_area_m2")),
        spring: spring(f(v, "spring_load_n"), f(v, "spring_rate_n_per_m")),
        stroke: m(f(v, "stroke_m")),
        dump: edge(&v["dump"], Travel::Opens),
        overflow: some(v, "overflow").map(|o| Overflow {
            edge: edge(&o["edge"], Travel::Opens),
            pressure: pa(f(o, "pressure_pa")),
        }),
        balance_orifice: some(v, "balance_orifice").map(hole),
        boost_orifice: some(v, "boost_orifice").map(hole),
        leaks: v["leaks"]
            .as_array()
            .unwrap()
            .iter()
            .map(|l| MainLeak {
                annulus: annulus(&l["annulus"]),
                from: main_node(&l["from"]),
                to: main_node(&l["to"]),
            })
            .collect(),
        friction: n(f(v, "friction_n")),
        demand: demand(&v["demand"]),
        relief: some(v, "relief").map(|r| BallRelief {
            ball_diameter: m(f(r, "ball_diameter_m")),
            seat_diameter: m(f(r, "seat_diameter_m")),
            spring: spring(f(r, "load_n"), f(r, "rate_n_per_m")),
            lift_stop: m(f(r, "lift_stop_m")),
            discharge_coefficient: one(f(r, "discharge_ratio")),
        }),
    }
}

fn pump(v: &Value) -> Pump {
    Pump {
        ideal_flow: m3_s(f(v, "ideal_flow_m3_per_s")),
        slip: m3_s(f(v, "slip_m3_per_s")),
        at_pressure: pa(f(v, "at_pressure_pa")),
        stated_in: oil_of(&v["stated_in"]),
    }
}

fn feed_node(v: &Value) -> Node {
    match v.as_str() {
        Some("line") => Node::Line,
        Some("feed") => Node::Feed,
        Some("reaction") => Node::Reaction,
        _ => Node::Sump,
    }
}

/// The feed regulators of these cases all have an exhaust, an orifice and an open drain.
fn feed_regulator(v: &Value) -> Regulator {
    Regulator {
        reaction_area: m2(f(v, "reaction_area_m2")),
        spring_side_area: m2(f(v, "chamber_area_m2")),
        spring: spring(f(v, "spring_load_n"), f(v, "spring_rate_n_per_m")),
        stroke: m(f(v, "stroke_m")),
        supply: edge(&v["supply"], Travel::Closes),
        exhaust: Some(edge(&v["exhaust"], Travel::Opens)),
        balance_orifice: Some(hole(&v["balance_orifice"])),
        leaks: v["leaks"]
            .as_array()
            .unwrap()
            .iter()
            .map(|l| LandLeak {
                annulus: annulus(&l["annulus"]),
                from: feed_node(&l["from"]),
                to: feed_node(&l["to"]),
            })
            .collect(),
        spring_chamber_drain: Drain::Open,
        friction: n(f(v, "friction_n")),
        demand: demand(&v["demand"]),
        relief: None,
    }
}

const ALLOWED: f64 = 1e-7;

/// Writes a case down, with its own largest difference.
fn held(file: &Value, area: &str, quantity: &str, case: &Value, deviation: f64) {
    let id = case["id"].as_str().unwrap();
    let flow = f(&case["main"]["pump"], "ideal_flow_m3_per_s");
    record(&Check {
        id: &format!("{area}.scipy.{id}"),
        area,
        quantity,
        source: "tests/reference/main_regulator_scipy.py, of scales 1 MPa, 1 mm, 1 L/min",
        computed_by: file["package"].as_str().unwrap(),
        evidence: Evidence::SameEquations,
        inputs: [("pump".to_owned(), (flow, "m3/s".to_owned()))].into(),
        deviation,
        allowed: ALLOWED,
    });
}

/// The largest difference so far, in units of what matters: 1 MPa, 1 mm, 1 L/min.
struct Worst(f64);

impl Worst {
    fn compare(&mut self, id: &str, name: &str, value: f64, want: &Value) {
        let scale = if name.ends_with("_pa") {
            1e6
        } else if name.ends_with("_m") {
            1e-3
        } else {
            LPM
        };
        let off = (value - f(want, name)).abs() / scale;
        self.0 = self.0.max(off);
        assert!(
            off < ALLOWED,
            "{id}: {name} {value}, SciPy {} (off {off:e})",
            want[name]
        );
    }

    fn main(&mut self, id: &str, got: &MainPoint, want: &Value) {
        self.compare(id, "line_pa", got.line.value, want);
        self.compare(id, "reaction_pa", got.reaction.value, want);
        self.compare(id, "boost_pa", got.boost.value, want);
        self.compare(id, "position_m", got.spool_position.value, want);
        self.compare(id, "pump_m3_per_s", got.flows.pump.value, want);
        self.compare(id, "dump_m3_per_s", got.flows.dump.value, want);
        self.compare(id, "overflow_m3_per_s", got.flows.overflow.value, want);
        let state = match got.state {
            MainState::Regulating => "regulating",
            MainState::PumpStarved => "starved",
            MainState::EdgesTooSmall => "too_small",
        };
        assert_eq!(state, want["state"].as_str().unwrap(), "{id}");
    }
}

#[test]
fn main_regulator_and_its_circuit_agree_with_scipy() {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../../tests/reference/main_regulator_scipy.json"
    );
    let file: Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let cases = file["cases"].as_array().unwrap();
    assert!(cases.len() >= 40, "{}", cases.len());
    let mut worst_of_all = 0.0f64;
    let (mut circuits, mut states) = (0, std::collections::BTreeSet::new());
    for case in cases {
        let mut worst = Worst(0.0);
        let id = case["id"].as_str().unwrap();
        let (v, want) = (&case["main"], &case["answer"]);
        let branch = match v["branch"].as_str().unwrap() {
            "rising" => Branch::Rising,
            "falling" => Branch::Falling,
            _ => Branch::Frictionless,
        };
        let (main, pump, oil) = (main_regulator(v), pump(&v["pump"]), oil_of(&v["oil"]));
        states.insert(want["state"].as_str().unwrap());
        if some(case, "feed").is_none() {
            let output = pa(f(v, "solenoid_output_pa"));
            let got = main
                .circuit(&oil)
                .unwrap()
                .solve(&pump, output, branch)
                .unwrap();
            worst.main(id, &got, want);
            let quantity = "line, reaction and boost pressure, position, flows";
            held(&file, "main_regulator", quantity, case, worst.0);
            worst_of_all = worst_of_all.max(worst.0);
            continue;
        }
        circuits += 1;
        let told = &case["solenoid"];
        let solenoid = match some(told, "command_pa") {
            Some(_) => PressureSolenoid::ClosedLoop {
                command: pa(f(told, "command_pa")),
            },
            None => PressureSolenoid::Bleed {
                share: one(f(told, "share_ratio")),
            },
        };
        let feed = feed_regulator(&case["feed"]);
        let circuit = SupplyCircuit {
            pump,
            main,
            feed,
            solenoid,
        };
        let got = circuit.at(&oil).unwrap().solve(branch).unwrap();
        worst.main(id, &got.main, want);
        worst.compare(id, "feed_pa", got.feed.feed.value, want);
        worst.compare(id, "feed_position_m", got.feed.spool_position.value, want);
        worst.compare(id, "solenoid_output_pa", got.solenoid_output.value, want);
        worst.compare(id, "solenoid_draw_m3_per_s", got.solenoid_draw.value, want);
        worst.compare(
            id,
            "feed_takes_m3_per_s",
            got.main.flows.feed_regulator.value,
            want,
        );
        let quantity = "line, boost and feed pressure, positions, flows";
        held(&file, "circuit", quantity, case, worst.0);
        worst_of_all = worst_of_all.max(worst.0);
    }
    println!(
        "{} cases, {circuits} of them whole circuits, worst difference {:e} of scale",
        cases.len(),
        worst_of_all
    );
    assert!(circuits >= 12);
    assert!(
        states.contains("starved") && states.contains("regulating"),
        "{states:?}"
    );
}
