//! From a leak back to the clearance.

use physics::air::Air;
use physics::clearance_span::{air_span, oil_clearance, oil_span};
use physics::gap::Land;
use physics::gap_air::{self, Seal};
use physics::gap_oil;
use physics::{Assumption, PhysicsError};
use proptest::prelude::*;
use uom::si::length::meter;

use crate::points::{celsius, flow, m, oil, one, pa};

proptest! {
    /// Oil's leak undone, over the whole range of gaps.
    #[test]
    fn oil_leak_and_clearance_undo_each_other(
        d in 4e-3..0.03f64, l in 5e-4..0.02f64, c in 1e-6..3e-4f64, e in 0.0..1.0f64,
        drop in 1e3..5e6f64, mu in 2e-3..2.0f64,
    ) {
        let land = Land::new(m(d), m(l)).unwrap();
        let oil = oil(mu, 850.0);
        let q = gap_oil::leak(&land.gap(m(c), one(e)).unwrap(), pa(drop), &oil).unwrap().flow;
        prop_assume!(q < flow(0.05));
        let back = oil_clearance(q, &[land], &oil, pa(drop), one(e)).unwrap();
        prop_assert!((back.get::<meter>() / c - 1.0).abs() < 1e-9);
    }

    /// The true clearance lies in the span, whatever the eccentricity, length and loss were.
    #[test]
    fn spans_hold_the_truth(
        d in 6e-3..0.02f64, l in 1e-3..8e-3f64, c in 1e-5..8e-5f64, e in 0.0..1.0f64,
        off in -0.2..0.2f64, xi in 1.5..2.0f64,
    ) {
        let nominal = Land::new(m(d), m(l)).unwrap();
        let truth = Land::new(m(d), m(l * (1.0 + off))).unwrap().gap(m(c), one(e)).unwrap();
        let oil = oil(6e-3, 810.0);
        let q = gap_oil::leak(&truth, pa(5e5), &oil).unwrap().flow;
        let span = oil_span(q, &[nominal], &oil, pa(5e5), one(0.2)).unwrap();
        prop_assert!(span.span.contains(m(c)));
        prop_assert!(span.touching < span.centred && span.span.contains(span.centred));
        let air = Air::at(celsius(20.0)).unwrap();
        let q = gap_air::flow(&truth, &air, pa(98e3), pa(40e3), Some(one(xi))).unwrap();
        let seal = Seal { land: nominal, far_side: pa(98e3) };
        let span = air_span(q.throughput, &[seal], &air, pa(40e3), one(0.2)).unwrap();
        prop_assert!(span.span.contains(m(c)), "{span:?}");
        prop_assert!(span.touching < span.centred);
    }
}

#[test]
fn the_span_says_what_it_rests_on_and_refuses_nothing_to_seal() {
    let land = Land::new(m(0.012), m(0.005)).unwrap();
    let oil = oil(6e-3, 810.0);
    let span = oil_span(flow(1e-6), &[land], &oil, pa(5e5), one(0.0)).unwrap();
    assert!(span.assumptions.contains(&Assumption::EccentricityUnknown));
    let none = oil_span(flow(1e-6), &[], &oil, pa(5e5), one(0.0));
    assert!(matches!(none, Err(PhysicsError::TooFew { .. })));
    let flood = oil_clearance(flow(0.04), &[land], &oil, pa(1e4), one(0.0));
    assert!(matches!(flood, Err(PhysicsError::NoSolution { .. })));
}
