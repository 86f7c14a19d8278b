//! A pressure read at a tap: against its window, and against what the leak predicts.

use crate::bench::finite;
use diagnosis::pressure::{MeasuredBore, SealEvidence, consequence};
use diagnosis::tap::{TapEvidence, against_leak, against_window};
use model::Id;
use model::bench::{Instrument, InstrumentKind, Verdict};
use model::finding::FindingCode;
use model::inspection::Occasion;
use model::tap_reading::{TapFigures, TapPlace};
use model::unit::{BoreProfile, Node, Tap};

const PSI: f64 = 6_894.757_293_168_361;

fn tap(node: Node) -> Tap {
    Tap {
        circuit: Id::nil(),
        order: "a".into(),
        name: "SF".into(),
        node,
        condition: "hot idle, in drive".into(),
        low_pa: Some(finite(50.0 * PSI)),
        high_pa: Some(finite(60.0 * PSI)),
        source: "invented".into(),
    }
}

fn gauge() -> Instrument {
    Instrument {
        name: "test gauge".into(),
        kind: InstrumentKind::PressureGauge,
        limits_of_error_si: finite(PSI),
        resolution_si: finite(0.5 * PSI),
        range_low_si: None,
        range_high_si: Some(finite(300.0 * PSI)),
        calibrated_on: None,
        calibration_due: Some("2026-01-31".parse().unwrap()),
        source: String::new(),
    }
}

fn read(psi: f64) -> TapFigures {
    TapFigures {
        occasion: Occasion::AsFound,
        place: TapPlace::Idle,
        pressure_pa: finite(psi * PSI),
        oil_temperature_k: Some(finite(363.15)),
        line_pa: None,
        command: "D, closed throttle".into(),
        load: String::new(),
        gauge: None,
        line_gauge: None,
        note: String::new(),
    }
}

#[test]
fn a_reading_is_inside_its_window_outside_or_too_close_to_call() {
    let (tap, gauge) = (tap(Node::Feed), gauge());
    let verdict = |psi: f64| {
        let figures = read(psi);
        let told = against_window(&TapEvidence {
            tap: &tap,
            figures: &figures,
            gauge: Some(&gauge),
            line_gauge: None,
            today: None,
        });
        told.unwrap().verdict
    };
    // By hand: u = sqrt(1/3 + 0.25/12) = 0.595 psi, so the guard band is 0.979 psi.
    assert_eq!(verdict(55.0), Some(Verdict::WithinLimit));
    assert_eq!(verdict(50.9), Some(Verdict::TooCloseToCall));
    assert_eq!(verdict(49.1), Some(Verdict::TooCloseToCall));
    assert_eq!(verdict(48.9), Some(Verdict::OutsideLimit));
    assert_eq!(verdict(61.1), Some(Verdict::OutsideLimit));
}

#[test]
fn a_gauge_that_nobody_entered_decides_little_and_an_overdue_one_is_said() {
    let tap = tap(Node::Feed);
    let figures = read(48.0);
    let of = |gauge, today: &str| {
        against_window(&TapEvidence {
            tap: &tap,
            figures: &figures,
            gauge,
            line_gauge: None,
            today: Some(today.parse().unwrap()),
        })
        .unwrap()
    };
    let unknown = of(None, "2026-01-01");
    assert_eq!(unknown.verdict, Some(Verdict::TooCloseToCall));
    let codes = |answer: &diagnosis::tap::TapAnswer| {
        answer.findings.iter().map(|it| it.code).collect::<Vec<_>>()
    };
    assert!(codes(&unknown).contains(&FindingCode::InstrumentUnknown));
    let gauge = gauge();
    let overdue = of(Some(&gauge), "2026-02-01");
    assert!(codes(&overdue).contains(&FindingCode::CalibrationOverdue));
    assert_eq!(overdue.verdict, Some(Verdict::OutsideLimit));
}

fn larkmoor() -> (BoreProfile, SealEvidence) {
    let profile = testkit::demo::profile("Larkmoor L6").unwrap();
    let worn = SealEvidence {
        tested_lands: vec!["reaction land".into()],
        ..SealEvidence::measured(&profile, [80e-6, 82e-6, 84e-6])
    };
    (profile, worn)
}

#[test]
fn what_the_leak_predicts_agrees_and_what_it_does_not_contradicts() {
    let (profile, seals) = larkmoor();
    let hot = *profile.unit.hot_oil_temperature_k;
    let (told, _) = consequence(&profile, &seals, hot).unwrap();
    let point = &told.highest_line;
    let (tap, gauge) = (tap(Node::Feed), gauge());
    let measured = MeasuredBore::as_profile(&profile);
    let verdict = |feed_pa: f64, node: Node| {
        let figures = TapFigures {
            pressure_pa: finite(feed_pa),
            line_pa: Some(point.line_pa),
            oil_temperature_k: Some(finite(hot)),
            ..read(0.0)
        };
        let tap = Tap {
            node,
            ..tap.clone()
        };
        against_leak(
            &TapEvidence {
                tap: &tap,
                figures: &figures,
                gauge: Some(&gauge),
                line_gauge: Some(&gauge),
                today: None,
            },
            &profile,
            &measured,
            &seals,
        )
        .unwrap()
    };
    let feed = point.measured_feed_pa;
    let fits = verdict(*feed.likely, Node::Feed).unwrap();
    assert_eq!(fits.verdict, Verdict::WithinLimit);
    // The band is the judgement's own.
    assert_eq!(fits.predicted_pa, feed);
    let beyond = verdict(*feed.high + 5.0 * PSI, Node::Feed).unwrap();
    assert_eq!(beyond.verdict, Verdict::OutsideLimit);
    let near = verdict(*feed.high, Node::Feed).unwrap();
    assert_eq!(near.verdict, Verdict::WithinLimit);
    // Behind the balance orifice the pressure is another one while a leak draws through it.
    let reaction = verdict(*feed.likely, Node::Reaction).unwrap();
    assert!(*reaction.predicted_pa.likely < *feed.likely);
    // Line is what is given, not what the valve makes.
    assert_eq!(verdict(*feed.likely, Node::Line), None);
}
