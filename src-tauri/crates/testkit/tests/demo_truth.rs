//! The demo knows the true clearance of each bore. The app, which knows only the readings, must
//! bracket it, and say so where they can't tell it.

#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use std::sync::Arc;

use serde_json::{Value, json};

#[test]
fn the_clearance_told_from_the_readings_brackets_the_true_one() {
    let folder = tempfile::tempdir().unwrap();
    let app = api::App::start(api::Options {
        store_path: Some(folder.path().join("shop.db")),
        demo_on_first_start: true,
        paths: false,
        clock: Arc::new(api::SystemClock),
    });
    let truths = testkit::demo::true_clearances(&testkit::demo::folder()).unwrap();
    assert!(truths.len() >= 20, "{}", truths.len());
    for truth in truths {
        let (test, name, true_um) = (truth.test, truth.name, truth.clearance_um);
        let request = json!({ "command": "test.get", "args": { "test": test } }).to_string();
        let answer: Value = serde_json::from_str(&app.call(&request)).unwrap();
        let leak = &answer["ok"]["judgement"]["leak"];
        if let Some(reason) = truth.untold {
            assert_eq!(leak["answer"], "refused", "{name}: {leak}");
            assert_eq!(leak["reason"], reason, "{name}");
            continue;
        }
        assert_eq!(leak["answer"], "known", "{name}: {leak}");
        let um = |span: &str, end: &str| leak[span][end].as_f64().unwrap() * 1e6;
        let low = um("clearance_off_centre_m", "low");
        let high = um("clearance_centred_m", "high");
        assert!(
            low < true_um && true_um < high,
            "{name}: {low} to {high} misses {true_um}"
        );
        // An interval that holds everything would prove nothing.
        assert!(
            low > 0.7 * true_um && high < 1.25 * true_um,
            "{name}: {low} to {high} about {true_um}"
        );
    }
}

#[test]
fn the_same_sources_give_the_same_bytes() {
    let folder = testkit::demo::folder();
    let first = testkit::demo::build(&folder).unwrap();
    assert_eq!(first, testkit::demo::build(&folder).unwrap());
}
