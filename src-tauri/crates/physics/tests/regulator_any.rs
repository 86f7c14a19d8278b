//! Any legal regulator has an answer: finite, on or between its stops, every node's flows closed,
//! feed never above line unless a neighbour is.

use crate::regulator_support::*;
use physics::PhysicsError;
use physics::fluid::OilState;
use physics::gap::Annulus;
use physics::gap_oil;
use physics::opening::window::Window;
use physics::opening::{Opening, Travel};
use physics::orifice::Orifice;
use physics::regulator::{
    Branch, Demand, Drain, LandLeak, Node, OperatingPoint, Regulator, RegulatorFinding,
};
use physics::relief::BallRelief;
use proptest::prelude::*;
use uom::si::angle::radian;
use uom::si::dynamic_viscosity::pascal_second;
use uom::si::f64::{Angle, DynamicViscosity, MassDensity, Pressure};
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
    fn pick(&mut self, of: usize) -> usize {
        ((self.unit() * of as f64) as usize).min(of - 1)
    }
}

fn oil_of(d: &mut Draw<'_>) -> OilState {
    OilState {
        viscosity: DynamicViscosity::new::<pascal_second>(d.decades(1e-4, 500.0)),
        density: MassDensity::new::<kilogram_per_cubic_meter>(d.decades(600.0, 1200.0)),
        extrapolated: false,
    }
}

/// A groove half the time; else any holes or notches that fit around the land.
fn window(d: &mut Draw<'_>, diameter: f64) -> Option<Window> {
    let (kind, share, along) = (d.pick(8), d.unit(), d.decades(1e-4, 0.05));
    let (low, high) = (1e-4, 0.01_f64.min(0.99 * std::f64::consts::PI * diameter));
    let size = (f64::ln(low) + share * (high / low).ln()).exp();
    let most = (std::f64::consts::PI * diameter / size).min(64.0) as usize;
    let count = 1 + d.pick(most) as u32;
    match kind {
        0..4 => None,
        4 => Some(Window::RoundHoles {
            count,
            diameter: m(size),
        }),
        5 => Some(Window::Slots {
            count,
            width: m(size),
            length: m(along),
        }),
        6 => Some(Window::RoundEndedSlots {
            count,
            width: m(size),
            length: m(along.max(size)),
        }),
        _ => Some(Window::VNotches {
            count: 1,
            half_angle: Angle::new::<radian>((0.5 * size / along).atan().clamp(0.05, 1.5)),
            length: m(along.min(10.0 * size)),
        }),
    }
}

fn edge(d: &mut Draw<'_>, width: f64, travel: Travel) -> Opening {
    let diameter = d.decades(0.002, 0.1);
    Opening {
        land_diameter: m(diameter),
        circumference_fraction: one(d.decades(0.005, 1.0)),
        window: window(d, diameter),
        width_at_rest: m(width),
        travel,
        radial_clearance: m(d.decades(1e-7, 1e-3)),
    }
}

fn hole(d: &mut Draw<'_>) -> Orifice {
    let length = [0.0, d.decades(1e-5, 0.05)][d.pick(2)];
    Orifice {
        diameter: m(d.decades(5e-5, 0.01)),
        length: m(length),
    }
}

/// Numbers from the whole of each range, by decades.
fn regulator(draws: &[f64], neighbours: bool) -> (Regulator, OilState, Pressure) {
    let d = &mut Draw(draws.iter());
    let stroke = d.decades(1e-4, 0.05);
    let seat = d.decades(5e-4, 0.03);
    let opening = stroke * d.decades(0.01, 1.0);
    let travel = d.decades(1e-5, 0.05);
    let mut leaks: Vec<LandLeak> = (0..d.pick(6))
        .map(|_| {
            let mut node = |fixed: f64| match d.pick(if neighbours { 6 } else { 5 }) {
                0 => Node::Line,
                1 => Node::Feed,
                2 => Node::Reaction,
                3 => Node::SpringChamber,
                4 => Node::Sump,
                _ => Node::Fixed(pa(fixed * 1e7)),
            };
            let (from, to) = (node(0.3), node(0.8));
            LandLeak {
                annulus: Annulus::new(
                    m(d.decades(0.002, 0.1)),
                    m(d.decades(1e-7, 1e-3)),
                    m(d.decades(1e-4, 0.1)),
                    one(d.unit()),
                )
                .unwrap(),
                from,
                to,
            }
        })
        .collect();
    leaks.retain(|l| l.from != l.to);
    let mut regulator = Regulator {
        reaction_area: m2(d.decades(1e-6, 5e-3)),
        spring_side_area: m2(d.decades(1e-6, 5e-3)),
        spring: spring(d.decades(0.05, 5000.0), d.decades(10.0, 1e6)),
        stroke: m(stroke),
        supply: edge(d, opening, Travel::Closes),
        exhaust: [None, Some(edge(d, -travel, Travel::Opens))][d.pick(2)],
        balance_orifice: [None, Some(hole(d))][d.pick(2)],
        leaks,
        spring_chamber_drain: [Drain::Open, Drain::Blocked, Drain::Orifice(hole(d))][d.pick(3)],
        friction: n([0.0, d.decades(0.01, 500.0)][d.pick(2)]),
        demand: Demand {
            flow: m3_s([0.0, d.decades(1e-9, 5e-4)][d.pick(2)]),
            at_pressure: pa(d.decades(1e4, 1e7)),
            outlets: 1 + d.pick(64) as u32,
            stated_in: oil_of(d),
        },
        relief: [
            None,
            Some(BallRelief {
                ball_diameter: m(1.2 * seat),
                seat_diameter: m(seat),
                spring: spring(d.decades(0.05, 5000.0), d.decades(10.0, 1e6)),
                lift_stop: m(0.02 * d.unit()),
                discharge_coefficient: one(d.decades(0.1, 1.0)),
            }),
        ][d.pick(2)],
    };
    if regulator
        .findings()
        .contains(&RegulatorFinding::ChamberSealed)
    {
        regulator.spring_chamber_drain = Drain::Open;
    }
    let line = pa([0.0, d.decades(1.0, 1e7)][usize::from(d.unit() > 0.05)]);
    (regulator, oil_of(d), line)
}

fn draws() -> impl Strategy<Value = Vec<f64>> {
    prop::collection::vec(0.0..1.0f64, 110)
}

/// What the flows of one point come to at each node that must balance, and how much that may be:
/// a millionth of their size, and what a micropascal is worth through each passage. (And 1e-15 m3/s, a drop in a year and a half.)
fn imbalance(regulator: &Regulator, oil: &OilState, p: &OperatingPoint) -> [(f64, f64); 3] {
    let f = &p.flows;
    let mut nodes = [
        (
            f.supply.value - f.exhaust.value - f.demand.value - f.relief.value - f.balance.value,
            f.supply.value.abs()
                + f.exhaust.value.abs()
                + f.demand.value.abs()
                + f.relief.value.abs()
                + f.balance.value.abs(),
        ),
        (f.balance.value, f.balance.value.abs()),
        (-f.drain.value, f.drain.value.abs()),
    ];
    let index = |node| match node {
        Node::Feed => Some(0),
        Node::Reaction => Some(1),
        Node::SpringChamber => Some(2),
        Node::Line | Node::Sump | Node::Fixed(_) => None,
    };
    for (leak, q) in regulator.leaks.iter().zip(f.leaks.as_slice()) {
        for (node, sign) in [(leak.from, -1.0), (leak.to, 1.0)] {
            if let Some(i) = index(node) {
                nodes[i].0 += sign * q.value;
                nodes[i].1 += q.value.abs();
            }
        }
    }
    // Creeping flow is where a passage gives most for its drop, so this is the most that it may be.
    let micro = pa(1e-6);
    let edge = |e: &Opening| e.flow(p.spool_position, micro, oil).unwrap();
    let mut worth = edge(&regulator.supply) + regulator.exhaust.as_ref().map_or(m3_s(0.0), edge);
    worth += regulator
        .balance_orifice
        .map_or(m3_s(0.0), |o| o.flow(micro, oil).unwrap().flow);
    for leak in &regulator.leaks {
        worth += gap_oil::leak(&leak.annulus, micro, oil).unwrap().flow;
    }
    let outlets = (f.demand + f.relief).value * (1e-6 / p.feed.value.max(1e-6));
    let allowed = nodes.map(|(_, size)| 1e-6 * size + worth.value + outlets + 1e-15);
    [0, 1, 2].map(|i| (nodes[i].0, allowed[i]))
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 3000, max_global_rejects: 100_000, ..ProptestConfig::default() })]

    /// Always an answer or a typed refusal; every number finite; every node's flows close.
    #[test]
    fn any_legal_valve_has_an_answer(draws in draws(), branch in 0usize..3) {
        let (valve, oil, line) = regulator(&draws, true);
        let branch = [Branch::Frictionless, Branch::Rising, Branch::Falling][branch];
        let circuit = match valve.circuit(&oil) {
            Ok(circuit) => circuit,
            // A demand that no outlet can pass as stated.
            Err(PhysicsError::NoSolution { what: "demand_outlet_diameter_m" }) => return Ok(()),
            Err(e) => return Err(TestCaseError::fail(format!("{e}"))),
        };
        let p = circuit.solve(line, branch).unwrap();
        let f = &p.flows;
        let all = [
            p.feed.value, p.reaction.value, p.spring_chamber.value, p.spool_position.value,
            p.flow_force.value, f.supply.value, f.exhaust.value, f.demand.value, f.relief.value,
            f.balance.value, f.drain.value, f.mass_balance_residual.value,
        ];
        prop_assert!(all.iter().all(|x| x.is_finite()), "{p:?}");
        prop_assert!(p.spool_position >= m(0.0) && p.spool_position <= valve.stroke);
        for (sum, allowed) in imbalance(&valve, &oil, &p) {
            prop_assert!(sum.abs() <= allowed, "{sum:e} over {allowed:e}: {p:?}");
        }
    }

    /// Feed never above line, unless a neighbour is.
    #[test]
    fn feed_is_never_above_line(draws in draws()) {
        let (valve, oil, line) = regulator(&draws, false);
        if let Ok(circuit) = valve.circuit(&oil) {
            let p = circuit.solve(line, Branch::Frictionless).unwrap();
            prop_assert!(p.feed <= line * (1.0 + 1e-9) && p.feed.value >= 0.0, "{p:?}");
            prop_assert!(p.reaction <= line * (1.0 + 1e-9) && p.reaction.value >= 0.0);
        }
    }
}
