use super::*;
use crate::finding::{FindingCode, Severity};
use crate::number::Finite;

fn f(x: f64) -> Finite {
    Finite::new(x).unwrap()
}

fn codes(found: &Found) -> Vec<(FindingCode, String, Severity)> {
    found
        .findings()
        .into_iter()
        .map(|finding| (finding.code, finding.field, finding.severity))
        .collect()
}

#[test]
fn every_check_of_the_table_is_a_bores_or_the_bodys_and_never_both() {
    for check in CheckName::OF_A_BORE {
        assert!(check.is_of_a_bore());
        assert!(!CheckName::OF_THE_BODY.contains(&check));
    }
    let mut all: Vec<_> = CheckName::OF_A_BORE.into();
    all.extend(CheckName::OF_THE_BODY);
    all.sort_unstable();
    all.dedup();
    assert_eq!(all.len(), 16);
}

#[test]
fn a_valve_that_sticks_only_with_the_body_bolted_is_bad() {
    let found = Found::FreeMovement(FreeMovement {
        dry: Some(Movement::Free),
        wet: Some(Movement::Free),
        bolted: Some(Movement::Sticks),
        friction_n: None,
    });
    assert_eq!(found.outcome(), Outcome::Bad);
    assert!(found.findings().is_empty());
}

#[test]
fn movement_that_nobody_tried_is_no_check() {
    let found = Found::FreeMovement(FreeMovement {
        dry: None,
        wet: None,
        bolted: None,
        friction_n: None,
    });
    assert_eq!(
        codes(&found),
        [(FindingCode::Missing, "dry".into(), Severity::Wrong)]
    );
}

#[test]
fn a_spring_that_pushes_less_when_it_is_shorter_contradicts_itself() {
    let load = |height, load| SpringLoad {
        height_m: f(height),
        load_n: f(load),
    };
    let found = Found::Spring(SpringCheck {
        free_length_m: Some(f(0.040)),
        loads: vec![load(0.030, 20.0), load(0.025, 15.0), load(0.041, 1.0)],
        height_regulating_m: None,
        tester: None,
    });
    let fields: Vec<_> = codes(&found)
        .into_iter()
        .filter(|(code, ..)| *code == FindingCode::DimensionsContradict)
        .map(|(_, field, _)| field)
        .collect();
    assert_eq!(fields, ["loads[1].height_m", "loads[2].height_m"]);
}

#[test]
fn a_pin_that_goes_can_not_be_wider_than_one_that_does_not() {
    let found = Found::OrificeBore(OrificeBore {
        go_m: Some(f(0.0009)),
        no_go_m: Some(f(0.0008)),
        pins: None,
    });
    assert_eq!(codes(&found)[0].0, FindingCode::DimensionsContradict);
}

#[test]
fn a_missing_ball_is_bad_and_an_unread_count_is_not() {
    let found = |shown, got| {
        Found::PlateAndBalls(PlateAndBalls {
            plate: Condition::Good,
            seats: Condition::Good,
            balls_shown: shown,
            balls_found: got,
        })
    };
    assert_eq!(found(Some(7), Some(6)).outcome(), Outcome::Bad);
    assert_eq!(found(None, Some(6)).outcome(), Outcome::Good);
}

#[test]
fn a_coils_limits_without_a_temperature_and_a_source_are_doubted() {
    let found = Found::Solenoid(SolenoidCheck {
        solenoid: "Lock-up".into(),
        resistance_ohm: Some(f(5.3)),
        temperature_k: None,
        low_ohm: Some(f(5.0)),
        high_ohm: Some(f(5.6)),
        limits_at_k: None,
        source: String::new(),
        shut: None,
        watched_s: None,
        switches: None,
    });
    let told = codes(&found);
    assert!(told.contains(&(FindingCode::SourceMissing, "source".into(), Severity::Doubt)));
    assert!(told.contains(&(
        FindingCode::Missing,
        "temperature_k".into(),
        Severity::Doubt
    )));
}

#[test]
fn a_check_reads_back_as_it_was_written() {
    let inspection = Inspection {
        job: Id::nil(),
        bore: Some(Id::nil()),
        occasion: Occasion::AfterCleaning,
        found: Found::Light(LightCheck {
            lands: vec![LandLight {
                land: "Reaction".into(),
                seen: LightSeen::Faint,
            }],
        }),
        note: String::new(),
    };
    let text = serde_json::to_string(&inspection).unwrap();
    assert!(text.contains(r#""check":"light""#), "{text}");
    assert_eq!(
        serde_json::from_str::<Inspection>(&text).unwrap(),
        inspection
    );
}

#[test]
fn how_long_a_hold_was_watched_may_be_left_out_and_is_held_against_a_range() {
    let found = |watched| {
        Found::CrossPassages(CrossPassages {
            between: "Feed and line".into(),
            hold: Hold::Holds,
            vacuum_pa: None,
            watched_s: watched,
        })
    };
    assert!(found(None).findings().is_empty());
    assert!(found(Some(f(30.0))).findings().is_empty());
    assert_eq!(
        codes(&found(Some(f(7200.0)))),
        [(FindingCode::OutOfRange, "watched_s".into(), Severity::Wrong)]
    );
    // A body written before anybody timed it.
    let older = serde_json::json!({ "check": "cross_passages", "between": "Feed and line", "hold": "holds" });
    assert_eq!(serde_json::from_value::<Found>(older).unwrap(), found(None));
}
