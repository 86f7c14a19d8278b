//! How a bypass main regulator and its circuit must behave, whatever their numbers. None of this is
//! put into the equations; all of it must come out of them.

use crate::regulator_support::*;
use physics::gap::Annulus;
use physics::main_regulator::{
    MainLeak, MainNode, MainPoint, MainRegulator, MainRegulatorFinding, MainState, Pump,
};
use physics::opening::{Opening, Travel};
use physics::orifice::Orifice;
use physics::regulator::{Branch, Demand, Node};
use physics::supply_circuit::{LostControl, PressureSolenoid, SupplyCircuit, SupplyPoint};
use physics::{Assumption, PhysicsError};
use proptest::prelude::*;

const HOT: f64 = 90.0;
const AREA: f64 = 1.767e-4;

/// An invented 15 mm valve: 60 psi by the spring, boost on 1.8 times the reaction area.
fn valve() -> MainRegulator {
    let orifice = |diameter_mm| {
        Some(Orifice {
            diameter: mm(diameter_mm),
            length: mm(0.0),
        })
    };
    MainRegulator {
        reaction_area: m2(AREA),
        boost_area: m2(1.8 * AREA),
        spring: spring(60.0 * PSI * AREA, 4000.0),
        stroke: mm(5.0),
        dump: Opening {
            land_diameter: mm(15.0),
            circumference_fraction: one(0.6),
            window: None,
            width_at_rest: mm(-0.3),
            travel: Travel::Opens,
            radial_clearance: um(15.0),
        },
        overflow: None,
        balance_orifice: orifice(1.2),
        boost_orifice: orifice(1.2),
        leaks: vec![],
        friction: n(0.0),
        demand: Demand {
            flow: lpm(3.0),
            at_pressure: psi(100.0),
            outlets: 4,
            stated_in: oil(HOT),
        },
        relief: None,
    }
}

fn pump(flow_lpm: f64) -> Pump {
    Pump {
        ideal_flow: lpm(flow_lpm),
        slip: lpm(1.0),
        at_pressure: psi(100.0),
        stated_in: oil(HOT),
    }
}

fn with(valve: &MainRegulator, c_um: f64, from: MainNode, to: MainNode) -> MainRegulator {
    let mut worn = valve.clone();
    let annulus = Annulus::new(mm(15.0), um(c_um), mm(3.0), one(0.5)).unwrap();
    worn.leaks.push(MainLeak { annulus, from, to });
    worn
}

fn at(valve: &MainRegulator, flow_lpm: f64, output_psi: f64) -> MainPoint {
    let circuit = valve.circuit(&oil(HOT)).unwrap();
    circuit
        .solve(&pump(flow_lpm), psi(output_psi), Branch::Frictionless)
        .unwrap()
}

fn line(valve: &MainRegulator, flow_lpm: f64, output_psi: f64) -> f64 {
    in_psi(at(valve, flow_lpm, output_psi).line)
}

fn circuit(solenoid: PressureSolenoid, flow_lpm: f64) -> SupplyCircuit {
    SupplyCircuit {
        pump: pump(flow_lpm),
        main: valve(),
        feed: set(),
        solenoid,
    }
}

fn solved(circuit: &SupplyCircuit) -> SupplyPoint {
    circuit
        .at(&oil(HOT))
        .unwrap()
        .solve(Branch::Frictionless)
        .unwrap()
}

#[test]
fn line_is_the_force_of_spring_and_boost_over_the_reaction_area() {
    // P = (F + A_b P_b) / A_r; k x and the flow force add to F, and x stays small here.
    for boost in [0.0, 20.0, 60.0] {
        let point = at(&valve(), 30.0, boost);
        let force = 60.0 * PSI * AREA
            + 4000.0 * point.spool_position.value
            + point.flow_force.value
            + 1.8 * AREA * boost * PSI;
        assert!((point.line.value / (force / AREA) - 1.0).abs() < 1e-9);
        assert_eq!(point.state, MainState::Regulating);
    }
    let gain = line(&valve(), 30.0, 60.0) - line(&valve(), 30.0, 20.0);
    assert!((gain / 40.0 - 1.8).abs() < 0.1, "{gain}");
}

#[test]
fn at_low_pump_flow_control_is_lost_and_line_falls() {
    let circuit = valve().circuit(&oil(HOT)).unwrap();
    let least = circuit.least_pump_flow(&pump(0.0), psi(30.0)).unwrap();
    let just = |factor: f64| {
        let pump = Pump {
            ideal_flow: least * factor,
            ..pump(0.0)
        };
        circuit
            .solve(&pump, psi(30.0), Branch::Frictionless)
            .unwrap()
    };
    let (below, above) = (just(0.98), just(1.02));
    assert_eq!(below.state, MainState::PumpStarved);
    assert_eq!(above.state, MainState::Regulating);
    assert_eq!(below.spool_position.value, 0.0);
    let half = just(0.5);
    assert!(
        half.line < below.line && in_psi(half.line) < 60.0,
        "{}",
        in_psi(half.line)
    );
    assert!(half.assumptions.contains(&Assumption::PumpSlipLaminar));
}

#[test]
fn the_sign_of_a_leak_follows_its_neighbour() {
    let new = line(&valve(), 40.0, 30.0);
    let worn = |from, to| line(&with(&valve(), 60.0, from, to), 40.0, 30.0) - new;
    assert!(worn(MainNode::Reaction, MainNode::Sump) > 0.5);
    assert!(worn(MainNode::Boost, MainNode::Sump) < -0.5);
    // Boost acts on more than line does: a wider gap here and nothing would hold line any more.
    let into_boost = line(
        &with(&valve(), 25.0, MainNode::Line, MainNode::Boost),
        40.0,
        30.0,
    );
    assert!(into_boost > new + 0.5, "{into_boost}");
    // Past the spool to sump only pump flow is lost, and line by the little that x moves.
    let spill = worn(MainNode::Line, MainNode::Sump);
    assert!(spill < 0.0 && spill > -2.0, "{spill}");
}

#[test]
fn each_leak_is_told_by_itself() {
    let mut worn = with(&valve(), 50.0, MainNode::Reaction, MainNode::Sump);
    worn = with(&worn, 50.0, MainNode::Line, MainNode::Sump);
    let effects = worn
        .leak_effects(&oil(HOT), &pump(40.0), psi(30.0))
        .unwrap();
    assert_eq!(effects.len(), 2);
    assert!(effects[0].line_shift.value > 0.0);
    assert!(effects[1].line_shift.value < 0.0 && effects[1].left_over_shift.value < 0.0);
    let alone = with(&valve(), 50.0, MainNode::Line, MainNode::Sump);
    assert_eq!(effects[0].without.line, at(&alone, 40.0, 30.0).line);
}

#[test]
fn a_valve_that_can_not_work_is_refused_by_finding() {
    let mut wrong = valve();
    wrong.dump.travel = Travel::Closes;
    assert_eq!(
        wrong.findings(),
        [MainRegulatorFinding::DumpClosesAsLineRises]
    );
    let e = wrong.circuit(&oil(HOT)).unwrap_err();
    assert_eq!(
        e,
        PhysicsError::MainRegulator(MainRegulatorFinding::DumpClosesAsLineRises)
    );
    let mut shut = valve();
    shut.dump.width_at_rest = mm(-6.0);
    assert_eq!(shut.findings(), [MainRegulatorFinding::DumpNeverOpens]);
    let itself = with(&valve(), 20.0, MainNode::Line, MainNode::Line);
    assert_eq!(
        itself.findings(),
        [MainRegulatorFinding::LeakToItself { index: 0 }]
    );
}

#[test]
fn a_pump_that_nothing_lets_go_has_no_line_within_the_range() {
    let mut tight = valve();
    tight.demand.flow = lpm(0.0);
    tight.dump.circumference_fraction = one(0.005);
    let e = tight
        .circuit(&oil(HOT))
        .unwrap()
        .solve(&pump(200.0), psi(30.0), Branch::Frictionless)
        .unwrap_err();
    assert_eq!(
        e,
        PhysicsError::NoSolution {
            what: "line_pressure_pa"
        }
    );
}

#[test]
fn a_bleed_solenoid_passes_a_shift_of_feed_on_to_line_and_a_closed_loop_one_does_not() {
    let shift = |solenoid| {
        let good = circuit(solenoid, 40.0);
        let mut worn = good.clone();
        worn.feed
            .leaks
            .push(leak(35.0, 3.0, Node::Reaction, Node::Sump));
        let (good, worn) = (solved(&good), solved(&worn));
        assert!(
            good.lost.is_empty() && worn.lost.is_empty(),
            "{:?} {:?}",
            good.lost,
            worn.lost
        );
        let feed = in_psi(worn.feed.feed) - in_psi(good.feed.feed);
        (feed, in_psi(worn.main.line) - in_psi(good.main.line))
    };
    let (feed, line) = shift(PressureSolenoid::Bleed { share: one(0.5) });
    assert!(feed > 1.0, "{feed}");
    // dP_line = (A_b / A_r) share dP_feed, the spring's share aside.
    assert!(
        (line / (1.8 * 0.5 * feed) - 1.0).abs() < 0.05,
        "{line} {feed}"
    );
    let (feed, line) = shift(PressureSolenoid::ClosedLoop { command: psi(50.0) });
    assert!(feed > 1.0 && line.abs() < 0.05 * feed, "{line} {feed}");
}

#[test]
fn a_starved_pump_starves_feed_and_the_answer_says_where() {
    let told = solved(&circuit(
        PressureSolenoid::ClosedLoop { command: psi(90.0) },
        4.0,
    ));
    assert_eq!(
        told.lost,
        [
            LostControl::PumpStarved,
            LostControl::FeedFollowsLine,
            LostControl::SolenoidGivesFeed
        ]
    );
    assert_eq!(told.solenoid_output, told.feed.feed);
    assert!(told.feed.feed <= told.main.line);
    assert_eq!(told.lost[0].code(), "pump_starved");
    assert!(told.assumptions.contains(&Assumption::SolenoidAtMostFeed));
}

#[test]
fn a_leaking_boost_chamber_draws_on_feed_and_all_oil_is_accounted_for() {
    let mut worn = circuit(PressureSolenoid::Bleed { share: one(0.6) }, 40.0);
    worn.main = with(&worn.main, 60.0, MainNode::Boost, MainNode::Sump);
    let told = solved(&worn);
    assert!(told.solenoid_draw.value > 0.01 * LPM);
    assert!((told.solenoid_draw.value / told.main.flows.boost.value - 1.0).abs() < 1e-6);
    assert!(told.main.boost < told.solenoid_output);
    let good = solved(&circuit(PressureSolenoid::Bleed { share: one(0.6) }, 40.0));
    assert!(told.main.line < good.main.line);
    assert_eq!(good.solenoid_draw.value, 0.0);
}

fn node() -> impl Strategy<Value = MainNode> {
    prop_oneof![
        Just(MainNode::Line),
        Just(MainNode::Reaction),
        Just(MainNode::Boost),
        Just(MainNode::Sump),
        (0.0..2e6f64).prop_map(|p| MainNode::Fixed(pa(p))),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(150))]

    #[test]
    fn all_oil_is_accounted_for(
        flow in 1.0..80.0f64, output in 0.0..100.0f64, celsius in -20.0..140.0f64,
        leaks in prop::collection::vec((5.0..120.0f64, node(), node()), 0..5),
    ) {
        let mut worn = valve();
        for (c, from, to) in leaks {
            if from != to {
                worn = with(&worn, c, from, to);
            }
        }
        let solve = |branch| {
            worn.circuit(&oil(celsius)).unwrap().solve(&pump(flow), psi(output), branch)
        };
        match solve(Branch::Frictionless) {
            Ok(p) => {
                prop_assert!(p.flows.mass_balance_residual.value.abs() < 1e-6 * LPM,
                    "{:e}", p.flows.mass_balance_residual.value);
                prop_assert!(p.line.value >= 0.0 && p.line.is_finite());
                prop_assert!((0.0..=5e-3).contains(&p.spool_position.value));
            }
            Err(e) => prop_assert_eq!(e, PhysicsError::NoSolution { what: "line_pressure_pa" }),
        }
    }

    #[test]
    fn more_pump_flow_never_lowers_line_and_more_demand_never_raises_it(
        flow in 2.0..70.0f64, more in 0.5..20.0f64, output in 0.0..80.0f64, taken in 0.5..10.0f64,
    ) {
        let new = valve();
        let mut thirsty = new.clone();
        thirsty.demand.flow = lpm(3.0 + taken);
        let here = line(&new, flow, output);
        prop_assert!(line(&new, flow + more, output) >= here - 1e-9);
        prop_assert!(line(&thirsty, flow, output) <= here + 1e-9);
        prop_assert!(line(&new, flow, output + 10.0) >= here - 1e-9);
    }

    #[test]
    fn friction_makes_a_band_about_the_frictionless_line(
        friction in 0.1..20.0f64, flow in 15.0..60.0f64, output in 5.0..80.0f64,
    ) {
        let rubbing = MainRegulator { friction: n(friction), ..valve() };
        let circuit = rubbing.circuit(&oil(HOT)).unwrap();
        let on = |branch| {
            let point = circuit.solve(&pump(flow), psi(output), branch).unwrap();
            prop_assert!(point.state.regulates());
            let x = point.spool_position.value;
            let against = 60.0 * PSI * AREA + 4000.0 * x + 1.8 * AREA * output * PSI;
            let left = point.line.value * AREA - against - point.flow_force.value;
            Ok((point.line.value, left))
        };
        let (up, middle, down) =
            (on(Branch::Rising)?, on(Branch::Frictionless)?, on(Branch::Falling)?);
        prop_assert!(down.0 < middle.0 && middle.0 < up.0);
        // What the forces leave over is what friction bears.
        for ((_, left), bears) in [(up, friction), (middle, 0.0), (down, -friction)] {
            prop_assert!((left - bears).abs() < 1e-6, "{left} {bears}");
        }
    }

    #[test]
    fn the_whole_circuit_closes(
        flow in 2.0..60.0f64, share in 0.0..1.0f64, celsius in -20.0..130.0f64,
        c in 5.0..80.0f64, from in node(), to in node(), worn in 5.0..80.0f64,
    ) {
        let mut circuit = circuit(PressureSolenoid::Bleed { share: one(share) }, flow);
        if from != to {
            circuit.main = with(&circuit.main, c, from, to);
        }
        circuit.feed.leaks.push(leak(worn, 3.0, Node::Reaction, Node::Sump));
        match circuit.at(&oil(celsius)).unwrap().solve(Branch::Frictionless) {
            Ok(told) => {
                let (line, feed) =
                    (told.main.flows.mass_balance_residual, told.feed.flows.mass_balance_residual);
                prop_assert!(line.value.abs() < 1e-5 * LPM, "line {:e}", line.value);
                prop_assert!(feed.value.abs() < 1e-6 * LPM, "feed {:e}", feed.value);
                prop_assert!(told.solenoid_output <= told.feed.feed);
                let boost = told.main.flows.boost.value;
                let balance = told.solenoid_draw.value - told.solenoid_exhaust.value - boost;
                prop_assert!(balance.abs() < 1e-5 * LPM, "boost {balance:e}");
            }
            Err(e) => prop_assert_eq!(e, PhysicsError::NoSolution { what: "line_pressure_pa" }),
        }
    }
}
