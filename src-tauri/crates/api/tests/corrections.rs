//! A reading put right: it keeps its place, and so its part in the mean.

use crate::common::{Bench, INHG};
use serde_json::json;

#[test]
fn the_first_reading_put_right_stays_the_first_and_all_three_still_count() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let test = bench.begin_test(&job);
    bench.set_up(&test);
    bench.read(&test, 71.2 / 10.0, false);
    bench.read(&test, 16.9, true);
    let view = bench.read(&test, 17.3, true)["view"].clone();
    let first = view["readings"][0]["record"].clone();
    let correct = |record: &serde_json::Value, inhg: f64| {
        bench.ok(
            "test.correct",
            json!({
                "test": test,
                "record": record,
                "reading": { "vacuum_pa": inhg * INHG, "reseated": false },
            }),
        )["view"]
            .clone()
    };
    let view = correct(&first, 17.1);
    let readings = view["readings"].as_array().unwrap();
    assert_eq!(readings[0]["corrected"].as_array().unwrap().len(), 1);
    assert_eq!(view["judgement"]["readings"]["independent_count"], 3);
    let mean = view["judgement"]["readings"]["mean_vacuum_pa"]
        .as_f64()
        .unwrap()
        / INHG;
    assert!((mean - (17.1 + 16.9 + 17.3) / 3.0).abs() < 1e-9, "{mean}");

    // Corrected a second time, it is still the first.
    let view = correct(&readings[0]["record"], 17.2);
    assert_eq!(
        view["readings"][0]["corrected"].as_array().unwrap().len(),
        2
    );
    assert_eq!(view["judgement"]["readings"]["independent_count"], 3);
}

#[test]
fn striking_a_corrected_reading_strikes_what_it_corrected_too_and_one_undo_brings_both_back() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let test = bench.begin_test(&job);
    bench.set_up(&test);
    bench.read(&test, 7.12, false);
    let view = bench.read(&test, 16.9, true)["view"].clone();
    let corrected = bench.ok(
        "test.correct",
        json!({
            "test": test,
            "record": view["readings"][0]["record"],
            "reading": { "vacuum_pa": 17.1 * INHG, "reseated": false },
        }),
    )["view"]
        .clone();
    let record = corrected["readings"][0]["record"].clone();
    let struck = bench.ok("test.strike", json!({ "test": test, "record": record }));
    let left = struck["readings"].as_array().unwrap();
    assert_eq!(left.len(), 1, "{left:?}");
    assert_eq!(left[0]["reading"]["vacuum_pa"], 16.9 * INHG);

    bench.ok("undo.last", json!({}));
    let back = bench.ok("test.get", json!({ "test": test }));
    assert_eq!(back["readings"], corrected["readings"]);
}
