//! Dimensions that contradict each other, each found at its own field; and what older programs
//! can still read.

#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use model::finding::FindingCode;
use model::limits::Check;
use model::unit::{BoreProfile, OpeningWindow, Relief};
use model::{Finite, Id, Kind};

fn f(value: f64) -> Finite {
    Finite::new(value).unwrap()
}

#[test]
fn each_contradiction_is_found_at_its_field() {
    type Spoil = fn(&mut BoreProfile);
    let table: [(FindingCode, &str, Spoil); 15] = [
        (FindingCode::LandsOverlap, "lands[1].start_m", |p| {
            p.lands[1].start_m = f(19.0e-3);
        }),
        (FindingCode::LandWiderThanBore, "lands[0].diameter_m", |p| {
            p.lands[0].diameter_m = Finite::new(8.01e-3);
        }),
        (
            FindingCode::ClearanceImplausible,
            "lands[0].diameter_m",
            |p| {
                p.lands[0].diameter_m = Finite::new(7.0e-3);
            },
        ),
        (FindingCode::OutsideBore, "bore.ports[4].start_m", |p| {
            p.bore.ports[4].end_m = f(47.0e-3);
        }),
        (FindingCode::PortsOverlap, "bore.ports[3].start_m", |p| {
            p.bore.ports[3].start_m = f(27.0e-3);
        }),
        (FindingCode::EndBeforeStart, "bore.end_m", |p| {
            p.bore.end_m = f(-1.0e-3);
        }),
        (FindingCode::SealNotCovered, "lands[2].seals[0]", |p| {
            p.bore.ports[3].end_m = f(41.9e-3);
        }),
        (FindingCode::SupplyOpenAtFullTravel, "openings[0]", |p| {
            p.bore.spool.stroke_m = Finite::new(1.5e-3);
        }),
        (FindingCode::ExhaustNeverOpens, "openings[1]", |p| {
            p.bore.spool.stroke_m = Finite::new(2.1e-3);
        }),
        (
            FindingCode::SpringHoldsOther,
            "spring.load_regulating_n",
            |p| {
                p.spring.as_mut().unwrap().load_regulating_n = Finite::new(30.0);
            },
        ),
        (
            FindingCode::SetpointOutsideWindow,
            "circuit.setpoint_pa",
            |p| {
                p.circuit.setpoint_pa = Finite::new(600_000.0);
            },
        ),
        (
            FindingCode::WindowReversed,
            "circuit.specified_high_pa",
            |p| {
                p.circuit.specified_high_pa = Finite::new(300_000.0);
            },
        ),
        (FindingCode::NameTwice, "lands[1].name", |p| {
            p.lands[1].name = p.lands[0].name.clone();
        }),
        (
            FindingCode::SeatLargerThanBall,
            "relief.seat_diameter_m",
            |p| {
                p.relief = Some(Relief {
                    circuit: Id::nil(),
                    ball_diameter_m: f(5.0e-3),
                    seat_diameter_m: f(6.0e-3),
                    load_seated_n: f(10.0),
                    rate_n_per_m: f(2_000.0),
                    lift_stop_m: f(1.0e-3),
                    source: "measured".into(),
                });
            },
        ),
        (FindingCode::SourceMissing, "spring.source", |p| {
            p.spring.as_mut().unwrap().source = " ".into();
        }),
    ];
    for (code, field, spoil) in table {
        let mut profile = testkit::demo::profile("Larkmoor L6").unwrap();
        assert_eq!(profile.findings(), []);
        spoil(&mut profile);
        let found = profile.findings();
        assert!(
            found
                .iter()
                .any(|one| one.code == code && one.field == field),
            "{code:?} at {field}: {found:?}"
        );
    }
}

#[test]
fn a_whole_profile_is_written_as_older_programs_read_it_and_a_gap_as_newer_ones_do() {
    let profile = testkit::demo::profile("Larkmoor L6").unwrap();
    let version = |kind: Kind, body: serde_json::Value| kind.version_for(&body);
    let json = |land: &model::unit::Land| serde_json::to_value(land).unwrap();
    let mut land = profile.lands[0].clone();
    assert_eq!(version(Kind::Land, json(&land)), 1);
    land.diameter_m = None;
    assert_eq!(version(Kind::Land, json(&land)), 2);
    let mut opening = profile.openings[0].clone();
    assert_eq!(
        version(Kind::Opening, serde_json::to_value(&opening).unwrap()),
        1
    );
    opening.window = Some(OpeningWindow::RoundHoles {
        count: 4,
        diameter_m: f(1.5e-3),
    });
    assert_eq!(
        version(Kind::Opening, serde_json::to_value(&opening).unwrap()),
        2
    );
    // Kinds that never lost a field stay as they are.
    assert_eq!(version(Kind::Job, serde_json::json!({})), 1);
}
