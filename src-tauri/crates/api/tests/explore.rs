//! A valve tried out: from what was found in a job, or from the profile; kept, shared, undone.

use crate::common::Bench;
use serde_json::{Value, json};

fn larkmoor(bench: &Bench) -> (Value, Value) {
    let job = bench.open_job("Larkmoor L6");
    let bore = bench.ok("job.get", json!({ "job": job }))["bores"][0]["bore"].clone();
    (job, bore)
}

fn tried(bench: &Bench, start: &Value, setting: Value) -> Value {
    bench.ok(
        "regulator.explore",
        json!({
            "profile": start["profile"],
            "seals": start["seals"],
            "relief": start["relief"],
            "setting": setting,
        }),
    )
}

fn feed(answer: &Value) -> f64 {
    answer["explored"]["consequence"]["highest_line"]["measured_feed_pa"]["likely"]
        .as_f64()
        .unwrap_or_else(|| panic!("{answer}"))
}

#[test]
fn a_bore_is_tried_out_from_what_its_test_found() {
    let bench = Bench::with_demo();
    let (job, bore) = larkmoor(&bench);
    let as_new = bench.ok("bore.explore", json!({ "bore": bore, "job": job }));
    assert_eq!(as_new["seals"], Value::Null);
    let test = bench.begin_test(&job);
    bench.set_up(&test);
    bench.read(&test, 17.2, false);
    let start = bench.ok("bore.explore", json!({ "bore": bore, "job": job }));
    assert_ne!(start["seals"], Value::Null);
    let figures = start["figures"].as_array().unwrap();
    assert_eq!(figures.len(), 8);
    for figure in figures {
        let [low, now, high] = ["low", "now", "high"].map(|end| figure[end].as_f64().unwrap());
        assert!(low <= now && now <= high && low < high, "{figure}");
    }
    // As found it is what the test's own judgement says.
    let judged = bench.ok("test.get", json!({ "test": test }));
    let found = tried(&bench, &start, json!({}));
    assert_eq!(
        found["explored"]["consequence"]["highest_line"],
        judged["judgement"]["consequence"]["highest_line"]
    );
    // The same wear with a wider balance orifice moves the pressure less.
    let orifice = figures[3]["now"].as_f64().unwrap();
    assert_eq!(figures[3]["field"], "orifice_m");
    let wider = tried(&bench, &start, json!({ "orifice_m": 2.0 * orifice }));
    let shift = |answer: &Value| {
        answer["explored"]["consequence"]["highest_line"]["shift_pa"]["likely"]
            .as_f64()
            .unwrap()
            .abs()
    };
    assert!(shift(&wider) < 0.5 * shift(&found));
    assert!(found["drawing"]["stroke_m"].as_f64().unwrap() > 0.0);
    // And what was set moves: the transient of the same profile comes to rest where the curve is.
    let transient = bench.ok(
        "regulator.transient",
        json!({
            "valve": { "profile": {
                "profile": wider["profile"],
                "oil_temperature_k": start["profile"]["unit"]["hot_oil_temperature_k"],
                "radial_clearance_m": wider["radial_clearance_m"],
                "tested_lands": wider["tested_lands"],
            } },
            "moving": {},
            "scenario": {
                "line": { "constant": { "line_pa": start["profile"]["unit"]["line_highest_pa"] } },
                "start": { "rest": "frictionless" },
                "duration_s": 0.02,
                "points": 50,
            },
        }),
    );
    let last = transient["trace"]["feed_pa"]
        .as_array()
        .unwrap()
        .last()
        .unwrap()
        .as_f64();
    assert!((last.unwrap() - wider["feed_pa"]["likely"].as_f64().unwrap()).abs() < 2_000.0);
}

#[test]
fn without_a_job_the_valve_is_as_its_profile_has_it() {
    let bench = Bench::with_demo();
    let (_, bore) = larkmoor(&bench);
    let start = bench.ok("bore.explore", json!({ "bore": bore }));
    assert_eq!(start["job_number"], Value::Null);
    let loaded = tried(&bench, &start, json!({ "spring_load_n": 30.0 }));
    assert!(feed(&loaded) > feed(&tried(&bench, &start, json!({}))));
}

#[test]
fn a_kept_setting_is_listed_taken_away_and_brought_back() {
    let bench = Bench::with_demo();
    let (_, bore) = larkmoor(&bench);
    let kept = || bench.ok("bore.explore", json!({ "bore": bore }))["kept"].clone();
    let before = kept().as_array().unwrap().len();
    let setting = json!({ "orifice_m": 0.0009, "exhaust": false });
    let id = bench.ok(
        "what_if.keep",
        json!({ "bore": bore, "note": "Wider orifice", "setting": setting }),
    )["what_if"]
        .clone();
    let listed = kept();
    let mut entries = listed.as_array().unwrap().iter();
    let entry = entries.find(|entry| entry["what_if"] == id).unwrap();
    assert_eq!(entry["note"], "Wider orifice");
    assert_eq!(entry["setting"]["orifice_m"], 0.0009);
    bench.ok("what_if.remove", json!({ "what_if": id }));
    assert_eq!(kept().as_array().unwrap().len(), before);
    bench.ok("undo.last", json!({}));
    assert_eq!(kept(), listed);
}

#[test]
fn a_setting_that_cannot_be_is_a_finding_and_is_not_kept() {
    let bench = Bench::with_demo();
    let (_, bore) = larkmoor(&bench);
    let start = bench.ok("bore.explore", json!({ "bore": bore }));
    let wild = json!({ "orifice_m": 3.0 });
    let told = tried(&bench, &start, wild.clone());
    assert_eq!(told["explored"]["findings"][0]["field"], "orifice_m");
    let kept = bench.ok(
        "what_if.keep",
        json!({ "bore": bore, "note": "", "setting": wild }),
    );
    assert_eq!(kept["what_if"], Value::Null);
    assert_eq!(kept["findings"][0]["field"], "orifice_m");
}
