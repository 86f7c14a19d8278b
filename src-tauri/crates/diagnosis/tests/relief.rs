//! A relief checked against points from outside, by hand, and on the demo's two circuits.

use diagnosis::pressure::SealEvidence;
use diagnosis::relief::{ClearanceSource, ReliefAnswer, WindowAnswer, check};
use model::Finite;
use model::finding::{FindingCode, Severity};
use model::relief_check::{ReliefFigures, ReliefPresence};
use model::unit::BoreProfile;
use proptest::prelude::*;
use serde_json::Value;

const PSI: f64 = 6_894.757_293_168_361;

fn f(value: f64) -> Option<Finite> {
    Finite::new(value)
}

fn stonebeck() -> BoreProfile {
    testkit::demo::profile("Stonebeck S8").unwrap()
}

/// The demo's relief, parts that stand 180 psi, and a supply land worn to 90 µm.
fn figures() -> ReliefFigures {
    ReliefFigures {
        limit_pa: f(180.0 * PSI),
        limit_source: "Service information (invented)".into(),
        clearance_m: f(90e-6),
        ..ReliefFigures::of(stonebeck().relief.as_ref().unwrap())
    }
}

fn codes(answer: &ReliefAnswer) -> Vec<(FindingCode, &str)> {
    let each = answer.findings.iter();
    each.map(|found| (found.code, found.field.as_str()))
        .collect()
}

/// Points of tests/reference/n_relief.json, each with its source there.
fn points(prefix: &str) -> Vec<Value> {
    let path = concat!(
        env!("CARGO_MANIFEST_DIR"),
        "/../../../tests/reference/n_relief.json"
    );
    let all: Vec<Value> = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let named = |point: &Value| point["id"].as_str().unwrap().starts_with(prefix);
    all.into_iter().filter(named).collect()
}

fn input(point: &Value, name: &str) -> f64 {
    point["inputs"][name]["value"].as_f64().unwrap()
}

#[test]
fn cracking_is_where_the_published_points_have_it() {
    let points = points("n.cracking_pressure");
    assert_eq!(points.len(), 2);
    for point in points {
        let (k, seat) = (input(&point, "k"), input(&point, "d_seat"));
        let figures = ReliefFigures {
            ball_diameter_m: f(1.4 * seat),
            seat_diameter_m: f(seat),
            load_seated_n: f(k * input(&point, "x0")),
            rate_n_per_m: f(k),
            ..figures()
        };
        let relief = check(&stonebeck(), &figures, None).unwrap().relief.unwrap();
        // Ours drains to the sump: a back pressure only adds.
        let expected = point["output"]["value"].as_f64().unwrap() - input(&point, "p_back");
        assert!(
            (*relief.cracking_pa / expected - 1.0).abs() < 1e-9,
            "{}",
            point["id"]
        );
    }
}

#[test]
fn lift_and_area_follow_the_published_flow() {
    let points = points("n.relief_flow_ball");
    assert_eq!(points.len(), 2);
    for point in points {
        let (k, seat, p) = (
            input(&point, "k"),
            input(&point, "d_seat"),
            input(&point, "p"),
        );
        let figures = ReliefFigures {
            ball_diameter_m: f(input(&point, "D_ball")),
            seat_diameter_m: f(seat),
            load_seated_n: f(k * input(&point, "x0")),
            rate_n_per_m: f(k),
            limit_pa: f(p),
            ..figures()
        };
        let answer = check(&stonebeck(), &figures, None).unwrap();
        let relief = answer.relief.unwrap();
        // The published point is inviscid and has its own coefficient and density; the creeping
        // resistance of hot oil takes a few per cent off. Coefficient 0.65; density of the demo's
        // oil at 95 °C by ASTM D1250, 803 kg/m3 to half a per cent.
        let capacity = *relief.capacity_at_limit_m3_s.unwrap();
        let published = point["output"]["value"].as_f64().unwrap();
        let ideal =
            published * (0.65 / input(&point, "Cd")) * (input(&point, "rho") / 803.0).sqrt();
        let share = capacity / ideal;
        assert!((0.9..1.006).contains(&share), "{}: {share}", point["id"]);
    }
}

#[test]
fn the_demo_relief_cracks_at_a_hundred_and_forty_psi_inside_its_window() {
    let answer = check(&stonebeck(), &figures(), None).unwrap();
    let relief = answer.relief.as_ref().unwrap();
    // By hand: 7.8 N on pi/4 (3.2 mm)² = 8.0425 mm² is 969.9 kPa, 140.7 psi.
    assert!(
        (*relief.cracking_pa - 969.85e3).abs() < 0.1e3,
        "{:?}",
        relief.cracking_pa
    );
    assert_eq!(relief.window, WindowAnswer::Inside);
    // 120 psi with friction (0.8 psi either way) and droop, down to where line is only just enough.
    let regulation = answer.regulation_pa.unwrap();
    assert!(
        (105.0..120.0).contains(&(*regulation.low / PSI)),
        "{regulation:?}"
    );
    assert!(
        (120.0..126.0).contains(&(*regulation.high / PSI)),
        "{regulation:?}"
    );
    assert_eq!(codes(&answer), vec![]);
}

#[test]
fn full_opening_is_at_the_published_lift_or_at_the_stop() {
    for point in points("n.lift_full_area") {
        let seat = input(&point, "d_seat");
        let figures = ReliefFigures {
            ball_diameter_m: f(input(&point, "D_ball")),
            seat_diameter_m: f(seat),
            lift_stop_m: f(5e-3),
            ..figures()
        };
        let relief = check(&stonebeck(), &figures, None).unwrap().relief.unwrap();
        let published = point["output"]["value"].as_f64().unwrap();
        assert!((*relief.full_lift_m / published - 1.0).abs() < 1e-6);
    }
    let stopped = ReliefFigures {
        lift_stop_m: f(0.2e-3),
        ..figures()
    };
    let relief = check(&stonebeck(), &stopped, None).unwrap().relief.unwrap();
    assert!((*relief.full_lift_m - 0.2e-3).abs() < 1e-9);
    // By hand: (7.8 N + 1800 N/m x 0.2 mm) / 8.0425 mm².
    assert!(
        (*relief.full_open_pa - 1.0146e6).abs() < 0.2e3,
        "{:?}",
        relief.full_open_pa
    );
}

#[test]
fn without_an_exhaust_the_worst_leak_drives_feed_up_and_the_relief_holds_it() {
    let worst = check(&stonebeck(), &figures(), None)
        .unwrap()
        .worst
        .unwrap();
    assert_eq!(worst.clearance_from, ClearanceSource::Entered);
    // Common practice, no source: a unit without an exhaust on this circuit suffers overpressure
    // when line leaks across, and a ball relief caps it.
    assert!(*worst.feed_without_pa.likely > 250.0 * PSI, "{worst:?}");
    let with = worst.feed_with_pa.unwrap();
    assert!(
        (140.0 * PSI..180.0 * PSI).contains(&*with.high),
        "{worst:?}"
    );
    assert_eq!(worst.holds, Some(true));
    // It contains, it doesn't cure: the leak and the lost pump flow remain, and lands that leak
    // feed to the sump take the rest.
    let (leak, lost) = (worst.leak_flow_m3_s.unwrap(), worst.lost_flow_m3_s.unwrap());
    assert!(
        *lost.likely > 0.0 && *lost.likely <= *leak.likely,
        "{worst:?}"
    );
}

#[test]
fn the_cross_leak_is_that_of_an_annulus() {
    let worst = check(&stonebeck(), &figures(), None)
        .unwrap()
        .worst
        .unwrap();
    // By hand, White, Viscous Fluid Flow, annulus: Q = pi D c³ dp / (12 mu L), with the spool on
    // its closed stop 2.5 mm past null, hot clearance less the steel valve's slower growth:
    // 45 µm + (21.8 - 11.7)e-6 x 75 K x 14.37 mm / 2 = 50.4 µm; mu of the demo's oil at 95 °C
    // 6.4 mPa s (7.3 to 8.0 mm²/s by ASTM D341 between its two points, 803 kg/m3).
    let dp = *worst.line_pa - *worst.feed_with_pa.unwrap().likely;
    let c: f64 = 50.4e-6;
    let by_hand = std::f64::consts::PI * 14.33e-3 * c.powi(3) * dp / (12.0 * 6.4e-3 * 2.5e-3);
    let share = *worst.leak_flow_m3_s.unwrap().likely / by_hand;
    assert!((0.8..1.2).contains(&share), "{share}");
}

#[test]
fn with_an_exhaust_the_relief_stays_shut() {
    let profile = testkit::demo::profile("Larkmoor L6").unwrap();
    let figures = ReliefFigures {
        presence: ReliefPresence::ToBeAdded,
        load_seated_n: f(0.62),
        ..figures()
    };
    let figures = ReliefFigures {
        seat_diameter_m: f(1.0e-3),
        ..figures
    };
    let answer = check(&profile, &figures, None).unwrap();
    let worst = answer.worst.as_ref().unwrap();
    assert!(*worst.feed_without_pa.high < 110.0 * PSI, "{worst:?}");
    assert!(
        codes(&answer).contains(&(FindingCode::ReliefStaysShut, "clearance_m")),
        "{answer:?}"
    );
}

#[test]
fn a_seat_larger_than_its_ball_is_a_finding_at_the_seat_and_gives_no_relief() {
    let figures = ReliefFigures {
        seat_diameter_m: f(6e-3),
        ..figures()
    };
    let answer = check(&stonebeck(), &figures, None).unwrap();
    assert_eq!(
        codes(&answer),
        vec![(FindingCode::SeatLargerThanBall, "seat_diameter_m")]
    );
    assert_eq!(answer.findings[0].severity, Severity::Wrong);
    assert_eq!(answer.relief, None);
    // The leak is there all the same.
    let worst = answer.worst.unwrap();
    assert_eq!(worst.feed_with_pa, None);
    assert!(*worst.feed_without_pa.likely > 0.0);
}

#[test]
fn each_way_to_miss_the_window_has_its_finding() {
    let answer = |change: fn(&mut ReliefFigures)| {
        let mut figures = figures();
        change(&mut figures);
        let answer = check(&stonebeck(), &figures, None).unwrap();
        let window = answer.relief.as_ref().unwrap().window;
        (
            window,
            codes(&answer)
                .into_iter()
                .map(|(code, _)| code)
                .collect::<Vec<_>>(),
        )
    };
    // 6.4 N: 115 psi.
    let (window, found) = answer(|figures| figures.load_seated_n = f(6.4));
    assert_eq!(window, WindowAnswer::BelowRegulation);
    assert!(found.contains(&FindingCode::CracksBelowRegulation));
    // 11 N: 198 psi.
    let (window, found) = answer(|figures| figures.load_seated_n = f(11.0));
    assert_eq!(window, WindowAnswer::AboveLimit);
    assert!(found.contains(&FindingCode::CracksAboveLimit));
    // A pinhole of a seat with the same cracking pressure.
    let (_, found) = answer(|figures| {
        figures.seat_diameter_m = f(0.6e-3);
        figures.load_seated_n = f(0.274);
    });
    assert!(
        found.contains(&FindingCode::ReliefCapacityTooSmall),
        "{found:?}"
    );
    let (window, found) = answer(|figures| figures.limit_pa = None);
    assert_eq!(window, WindowAnswer::Unknown);
    assert_eq!(found, vec![FindingCode::ReliefLimitMissing]);
    let (_, found) = answer(|figures| figures.limit_pa = f(100.0 * PSI));
    assert!(found.contains(&FindingCode::ReliefLimitBelowRegulation));
    let (_, found) = answer(|figures| figures.limit_source = " ".into());
    assert_eq!(found, vec![FindingCode::SourceMissing]);
    let (_, found) = answer(|figures| figures.clearance_m = None);
    assert_eq!(found, vec![FindingCode::CrossLeakUnknown]);
}

#[test]
fn the_clearance_comes_from_the_last_test_when_none_is_entered() {
    let profile = stonebeck();
    let mut figures = figures();
    figures.clearance_m = None;
    let seals = SealEvidence::measured(&profile, [60e-6, 66e-6, 72e-6]);
    let worst = check(&profile, &figures, Some(&seals))
        .unwrap()
        .worst
        .unwrap();
    assert_eq!(worst.clearance_from, ClearanceSource::LastTest);
    assert!((*worst.clearance_m.likely - 66e-6).abs() < 1e-12);
    // Against one side it leaks 2.5 times as much: 1.357 times in clearance.
    assert!((*worst.clearance_m.high / 72e-6 - 1.3572).abs() < 1e-3);
}

#[test]
fn empty_figures_are_five_findings_and_no_panic() {
    let answer = check(&stonebeck(), &ReliefFigures::default(), None).unwrap();
    let missing = answer
        .findings
        .iter()
        .filter(|found| found.code == FindingCode::Missing);
    assert_eq!(missing.count(), 5);
    assert_eq!(answer.relief, None);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(8))]

    #[test]
    fn a_wider_gap_never_leaks_less_and_a_relief_never_raises_feed(um in 40.0..160.0f64, more in 5.0..40.0f64) {
        let at = |um: f64| {
            let figures = ReliefFigures { clearance_m: f(um * 1e-6), ..figures() };
            check(&stonebeck(), &figures, None).unwrap().worst.unwrap()
        };
        let (narrow, wide) = (at(um), at(um + more));
        prop_assert!(*wide.leak_flow_m3_s.unwrap().likely >= *narrow.leak_flow_m3_s.unwrap().likely);
        for worst in [narrow, wide] {
            prop_assert!(*worst.feed_with_pa.unwrap().high <= *worst.feed_without_pa.high + 1.0);
            prop_assert!(*worst.feed_without_pa.high <= *worst.line_pa * (1.0 + 1e-9));
        }
    }

    #[test]
    fn the_override_curve_only_rises(load in 0.5..40.0f64, rate in 200.0..20_000.0f64, seat in 0.6e-3..4.8e-3f64) {
        let figures = ReliefFigures {
            load_seated_n: f(load), rate_n_per_m: f(rate), seat_diameter_m: f(seat), clearance_m: None, ..figures()
        };
        let answer = check(&stonebeck(), &figures, None).unwrap();
        if let Some(relief) = answer.relief {
            let flows: Vec<f64> = relief.override_curve.iter().map(|point| *point.flow_m3_s).collect();
            prop_assert!(flows.windows(2).all(|pair| pair[1] >= pair[0]));
            prop_assert!(flows[0] == 0.0);
        }
    }
}
