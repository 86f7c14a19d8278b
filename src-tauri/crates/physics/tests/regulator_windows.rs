//! A regulator that meters by holes or notches: geometry, limits and signs.

use crate::regulator_support::*;
use physics::opening::window::Window;
use physics::opening::{Opening, Travel};
use physics::regulator::{Branch, Node, Regulator, RegulatorFinding};
use physics::{Assumption, PhysicsError};
use proptest::prelude::*;
use uom::si::area::square_meter;

const HOT: f64 = 90.0;

fn holes(count: u32, diameter_mm: f64) -> Window {
    Window::RoundHoles {
        count,
        diameter: mm(diameter_mm),
    }
}

fn notches(count: u32, width_mm: f64, length_mm: f64) -> Window {
    Window::Slots {
        count,
        width: mm(width_mm),
        length: mm(length_mm),
    }
}

/// The regulator of the other tests with these windows on both edges, set anew.
fn metering_by(window: Window) -> Regulator {
    let mut valve = as_new();
    valve.supply.window = Some(window);
    valve.exhaust = valve.exhaust.map(|e| Opening {
        window: Some(window),
        ..e
    });
    valve.calibrated(psi(100.0), psi(200.0), &oil(HOT)).unwrap()
}

fn feed(valve: &Regulator, line_psi: f64) -> f64 {
    let circuit = valve.circuit(&oil(HOT)).unwrap();
    let point = circuit.solve(psi(line_psi), Branch::Frictionless).unwrap();
    assert!(point.state.regulates(), "{point:?}");
    in_psi(point.feed)
}

/// A hole of radius r covered but for the depth h opens the segment r^2 (t - sin t) / 2 with
/// cos(t/2) = 1 - h/r (plane geometry; the segment of any handbook, e.g. Bronshtein and Semendyayev,
/// *Handbook of Mathematics*, 3.1.6: from memory). The clearance adds in quadrature, here 0.1 um.
#[test]
fn a_partly_covered_hole_opens_the_segment_of_a_circle() {
    let (r, c) = (1e-3_f64, 1e-7);
    let edge = Opening {
        land_diameter: mm(10.0),
        circumference_fraction: one(1.0),
        window: Some(holes(3, 2.0)),
        width_at_rest: mm(2.5),
        travel: Travel::Closes,
        radial_clearance: m(c),
    };
    for open_mm in [0.1, 0.5, 1.0, 1.4, 1.9] {
        let h = open_mm * 1e-3;
        let t = 2.0 * (1.0 - h / r).acos();
        let segment = 3.0 * r * r * (t - t.sin()) / 2.0;
        let area = edge.area_at(mm(2.5 - open_mm)).unwrap();
        let off = area.get::<square_meter>() / segment - 1.0;
        assert!(off.abs() < 1e-5, "{open_mm} mm: {off:e}");
    }
    // Half covered: half the circle. Open: the whole of it, however far the land goes on.
    let whole = 3.0 * std::f64::consts::PI * r * r;
    let at = |open_mm: f64| edge.area_at(mm(2.5 - open_mm)).unwrap().value / whole;
    assert!((at(1.0) - 0.5).abs() < 1e-4 && at(2.0) == 1.0 && at(2.4) == 1.0);
}

/// Rectangular windows side by side all around are the groove: the same feed at any line, and the
/// same area where they are open. What differs is the film past the land, where each window also
/// leaks out of its sides and back; fewer, wider ones have less of that.
#[test]
fn windows_all_around_are_a_groove() {
    let around = std::f64::consts::PI * 10.0;
    let mut groove = as_new();
    groove.supply.circumference_fraction = one(1.0);
    if let Some(exhaust) = &mut groove.exhaust {
        exhaust.circumference_fraction = one(1.0);
    }
    let groove = groove
        .calibrated(psi(100.0), psi(200.0), &oil(HOT))
        .unwrap();
    for count in [1, 16, 64] {
        let mut cut = groove.clone();
        let window = Some(notches(count, around / f64::from(count), 5.0));
        cut.supply.window = window;
        if let Some(exhaust) = &mut cut.exhaust {
            exhaust.window = window;
        }
        for x in [0.0, 0.4, 0.9, 1.15] {
            let area = |o: &Opening| o.area_at(mm(x)).unwrap().value;
            assert!((area(&cut.supply) / area(&groove.supply) - 1.0).abs() < 1e-9);
        }
        // The solenoids draw, so the edge stands open, not over its film.
        for line in [150.0, 200.0, 300.0] {
            let off = feed(&cut, line) - feed(&groove, line);
            assert!(off.abs() < 0.1, "{count} windows at {line} psi: {off} psi");
        }
    }
}

/// What doesn't fit around the land is refused by name.
#[test]
fn more_holes_than_fit_around_are_refused() {
    let mut valve = as_new();
    valve.supply.window = Some(holes(16, 2.0));
    assert!(matches!(
        valve.circuit(&oil(HOT)),
        Err(PhysicsError::Contradiction {
            field: "window_count_ratio",
            other: "land_diameter_m"
        })
    ));
}

#[test]
fn the_sign_check_and_the_assumptions_know_of_windows() {
    let mut valve = metering_by(holes(4, 2.0));
    let circuit = valve.circuit(&oil(HOT)).unwrap();
    for told in [
        Assumption::WindowUnrolled,
        Assumption::CoveredWindowFilm,
        Assumption::JetOfWindow,
    ] {
        assert!(circuit.assumptions().contains(&told));
        assert!(
            !set()
                .circuit(&oil(HOT))
                .unwrap()
                .assumptions()
                .contains(&told)
        );
    }
    valve.supply.travel = Travel::Opens;
    assert_eq!(valve.findings(), [RegulatorFinding::SupplyOpensAsFeedRises]);
}

/// A line pressure too high for the demand finds the spool at the tip of its holes, where they open
/// slowly: it must go further from the groove's place, and feed must stand further below.
#[test]
fn a_hole_that_is_small_droops_more_than_a_groove() {
    let droop = |valve: &Regulator| feed(valve, 300.0) - feed(valve, 130.0);
    let (groove, many, few) = (
        set(),
        metering_by(holes(8, 2.0)),
        metering_by(holes(2, 1.6)),
    );
    let (groove, many, few) = (droop(&groove), droop(&many), droop(&few));
    assert!(groove < many && many < few, "{groove} {many} {few}");
}

fn windows() -> impl Strategy<Value = Window> {
    prop_oneof![
        (2u32..8, 1.0..3.0f64).prop_map(|(n, d)| holes(n, d)),
        (2u32..8, 1.0..3.0f64, 1.3..4.0f64).prop_map(|(n, w, l)| notches(n, w, l)),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, ..ProptestConfig::default() })]

    /// The sign of a fault follows the neighbour, whatever the land uncovers.
    #[test]
    fn the_sign_follows_the_neighbour(
        window in windows(), clearance in 20.0..60.0f64, line in 180.0..300.0f64,
    ) {
        let valve = metering_by(window);
        let solved = |valve: &Regulator| {
            let circuit = valve.circuit(&oil(HOT)).unwrap();
            circuit.solve(psi(line), Branch::Frictionless).unwrap()
        };
        let leaking = |from, to| {
            let mut worn = valve.clone();
            worn.leaks.push(leak(clearance, 3.0, from, to));
            solved(&worn)
        };
        // Small holes may not pass what a large leak takes: then the valve stands wide open.
        let (new, out) = (solved(&valve), leaking(Node::Reaction, Node::Sump));
        prop_assume!(out.state.regulates() && new.state.regulates());
        prop_assert!(out.feed > new.feed);
        prop_assert!(leaking(Node::Line, Node::Reaction).feed < new.feed);
    }

    /// The flow force acts to close, and the supply's area falls as the spool goes.
    #[test]
    fn area_falls_as_the_spool_goes(window in windows(), x in 0.0..2.9f64, step in 0.001..0.1f64) {
        let valve = metering_by(window);
        let area = |x: f64| valve.supply.area_at(mm(x)).unwrap();
        prop_assert!(area(x + step) <= area(x));
        let flow = |x: f64| valve.supply.flow(mm(x), psi(100.0), &oil(HOT)).unwrap();
        prop_assert!(flow(x + step) < flow(x));
    }
}

/// What a Monte Carlo varies is the same valve described anew.
#[test]
fn a_varied_clearance_is_that_of_a_valve_described_anew() {
    use physics::regulator::Variation;
    let mut wider = metering_by(holes(5, 1.8));
    let circuit = wider.circuit(&oil(HOT)).unwrap();
    wider.supply.radial_clearance = um(40.0);
    wider.exhaust.as_mut().unwrap().radial_clearance = um(25.0);
    let change = Variation {
        gaps: &[],
        entry_exit_loss: one(physics::gap_oil::OIL_ENTRY_EXIT_LOSS),
        orifice_flow: one(1.0),
        spring: wider.spring,
        supply_clearance: um(40.0),
        exhaust_clearance: um(25.0),
    };
    let varied = circuit.vary(&change).unwrap();
    let anew = wider.circuit(&oil(HOT)).unwrap();
    for line in [60.0, 150.0, 280.0] {
        let (feed, _) = varied.feed(psi(line), Branch::Frictionless).unwrap();
        let point = anew.solve(psi(line), Branch::Frictionless).unwrap();
        assert!(
            (feed - point.feed).value.abs() < 0.1,
            "{feed:?} {:?}",
            point.feed
        );
    }
}
