//! What the bore does to a clutch, held against a hand calculation.

#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use std::collections::BTreeMap;

use crate::bench::{Bench, finite};
use diagnosis::card::{BoreCard, BoreEvidence, ClutchAt, TestEvidence, card};
use diagnosis::judgement::{ConsequenceAnswer, OperatingPoint, Span};
use diagnosis::prospect::{Judged, prospect};
use model::Id;
use model::unit::{Clutch, SolenoidKind};

const PSI: f64 = 6_894.757_293;

/// The Larkmoor's brake: a piston of 150 and 110 mm, eight faces of 165 and 140 mm.
fn brake(kind: SolenoidKind) -> Clutch {
    Clutch {
        circuit: Id::nil(),
        order: "a".into(),
        name: "2-6 brake".into(),
        solenoid_kind: Some(kind),
        coil: None,
        command_idle_pa: Some(finite(20.0 * PSI)),
        command_highest_pa: Some(finite(50.0 * PSI)),
        gain_ratio: finite(3.0),
        piston_outer_m: Some(finite(0.150)),
        piston_inner_m: Some(finite(0.110)),
        return_spring_n: Some(finite(900.0)),
        face_outer_m: Some(finite(0.165)),
        face_inner_m: Some(finite(0.140)),
        faces: Some(8),
        friction_coefficient: Some(finite(0.13)),
        friction_source: "lining sheet".into(),
        source: "measured".into(),
    }
}

fn card_with(bench: &Bench, clutch: Clutch) -> BoreCard {
    let (judgement, seals) = bench.judge_with_seals();
    card(&BoreEvidence {
        profile: &bench.profile,
        checks: &[],
        instruments: &BTreeMap::new(),
        clutches: &[clutch],
        tests: &[TestEvidence {
            judgement: &judgement,
            seals: seals.as_ref(),
            isolates: &bench.profile.test_points[0].1.isolates,
        }],
        left_out: &[],
        today: None,
        taps: &[],
    })
    .unwrap()
}

fn highest(card: &BoreCard) -> (OperatingPoint, ClutchAt) {
    let Some(ConsequenceAnswer::Computed(does)) = &card.consequence else {
        panic!("no pressure")
    };
    let at = card.clutches[0].highest_line.clone();
    (does.highest_line.clone(), at.unwrap())
}

fn near(got: f64, by_hand: f64) {
    assert!(
        (got - by_hand).abs() <= 1e-6 * by_hand.abs().max(1.0),
        "{got} {by_hand}"
    );
}

/// Low and high about a value: deviations of each side in quadrature.
fn about(likely: f64, ends: &[[f64; 2]]) -> [f64; 2] {
    let side = |pick: fn(f64) -> f64| {
        let squares = ends
            .iter()
            .map(|[a, b]| pick(*a).max(pick(*b)).max(0.0).powi(2));
        squares.sum::<f64>().sqrt()
    };
    [likely - side(|d| -d), likely + side(|d| d)]
}

#[test]
fn a_bleed_solenoid_passes_the_shift_on_and_the_torque_is_that_of_the_hand_calculation() {
    let (point, at) = highest(&card_with(
        &Bench::new("Larkmoor L6"),
        brake(SolenoidKind::Bleed),
    ));
    let shift = point.shift_pa.unwrap();
    assert!(*shift.likely > 0.0, "the worn bore raises its pressure");
    let feed = *point.new_feed_pa.likely;

    // Before: the solenoid gives 50 psi, the clutch 3 x 50 = 150 psi = 1 034 213.6 Pa.
    // Piston pi/4 (0.150² - 0.110²) = 8.168 141e-3 m²; 8 447.60 N less 900 N of spring = 7 547.60 N.
    // Eight faces of 0.13 at the mean radius (0.0825 + 0.0700)/2 = 0.076 25 m:
    // 8 x 0.13 x 7 547.60 x 0.076 25 = 598.52 N m.
    near(*at.before_pa, 1_034_213.593_95);
    let torque = at.torque.as_ref().unwrap();
    assert!((*torque.before_n_m - 598.52).abs() < 0.01, "{torque:?}");

    // A bleed gives a share of its feed: 50 psi of it, times three at the clutch.
    let share = 50.0 * PSI / feed;
    let middle = 3.0 * share * *shift.likely;
    let by_pressure = [*shift.low, *shift.high].map(|end| 3.0 * share * end - middle);
    // It may pass on a fifth less, or a fifth more but never more than the feed's own shift.
    let most = (1.2 * share).min(1.0);
    let by_kind = [-0.2 * middle, 3.0 * most * *shift.likely - middle];
    let [low, high] = about(middle, &[by_pressure, by_kind]);
    // The clutch's valve gives line at most: 250 psi less the 150 that it had.
    let high = high.min(100.0 * PSI);
    near(*at.shift_pa.likely, middle);
    near(*at.shift_pa.low, low);
    near(*at.shift_pa.high, high);

    // Each pascal at the clutch is 8 x 0.13 x 0.076 25 m x 8.168 141e-3 m² = 6.477 336e-4 N m.
    let per_pascal = 8.0 * 0.13 * 0.076_25 * 8.168_140_9e-3;
    for (got, shift) in [
        (torque.change_n_m.low, low),
        (torque.change_n_m.likely, middle),
        (torque.change_n_m.high, high),
    ] {
        assert!((*got - per_pascal * shift).abs() < 1e-3, "{got:?} {shift}");
    }
    let told = torque.share.unwrap();
    near(*told.likely, *torque.change_n_m.likely / *torque.before_n_m);
}

#[test]
fn a_closed_loop_solenoid_hardly_passes_it_on() {
    let bench = Bench::new("Larkmoor L6");
    let (point, at) = highest(&card_with(&bench, brake(SolenoidKind::ClosedLoop)));
    // 50 psi of 65: the command is far enough below the feed.
    assert!(!at.near_feed);
    assert_eq!(*at.shift_pa.likely, 0.0);
    let passed_by_a_bleed = *highest(&card_with(&bench, brake(SolenoidKind::Bleed)))
        .1
        .shift_pa
        .high;
    assert!(*at.shift_pa.high < 0.2 * passed_by_a_bleed);
    assert!(*at.shift_pa.high > 0.0 && *point.shift_pa.unwrap().high > 0.0);
}

#[test]
fn near_the_feed_every_kind_may_follow_it() {
    let bench = Bench::new("Larkmoor L6");
    let mut clutch = brake(SolenoidKind::ClosedLoop);
    clutch.command_highest_pa = Some(finite(64.0 * PSI));
    let (point, at) = highest(&card_with(&bench, clutch));
    assert!(at.near_feed);
    let whole = 3.0 * *point.shift_pa.unwrap().likely;
    assert!(*at.shift_pa.high >= whole * (1.0 - 1e-9), "{at:?} {whole}");
}

#[test]
fn a_missing_figure_costs_what_needs_it_and_nothing_else() {
    let bench = Bench::new("Larkmoor L6");
    let whole = brake(SolenoidKind::Bleed);
    let mut without = whole.clone();
    without.friction_coefficient = None;
    let card = card_with(&bench, without.clone());
    let (_, at) = highest(&card);
    assert_eq!(at.torque, None);
    assert_eq!(card.clutches[0].lacks, ["friction_coefficient"]);
    let told = prospect(&bench.profile, &[&without]);
    let cost = told
        .costs
        .iter()
        .find(|cost| cost.field == "clutches[0].friction_coefficient");
    assert_eq!(cost.unwrap().costs, [Judged::ClutchTorque]);
    assert!(!told.can.contains(&Judged::ClutchTorque));
    assert!(
        prospect(&bench.profile, &[&whole])
            .can
            .contains(&Judged::ClutchTorque)
    );

    let mut untold = whole.clone();
    untold.solenoid_kind = None;
    let card = card_with(&bench, untold);
    assert_eq!(card.clutches[0].highest_line, None);
    // No clutch at all is told once, as a whole.
    let none = prospect(&bench.profile, &[]);
    assert!(none.costs.iter().any(|cost| cost.field == "clutches"));
}

#[test]
fn a_clutch_valve_gives_line_at_most() {
    let mut clutch = brake(SolenoidKind::Bleed);
    clutch.gain_ratio = finite(10.0);
    let (point, at) = highest(&card_with(&Bench::new("Larkmoor L6"), clutch));
    let line = *point.line_pa;
    near(*at.before_pa, line);
    let Span { low, high, .. } = at.shift_pa;
    assert!(*high <= 1e-6 && *low <= *high, "{at:?}");
}

#[test]
fn where_line_is_below_the_set_pressure_no_clutch_is_told_of() {
    let mut bench = Bench::new("Larkmoor L6");
    bench.profile.unit.line_idle_pa = Some(finite(50.0 * PSI));
    let card = card_with(&bench, brake(SolenoidKind::Bleed));
    assert_eq!(card.clutches[0].idle, None);
    assert!(card.clutches[0].highest_line.is_some());
}
