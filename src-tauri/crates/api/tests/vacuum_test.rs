//! One bore from reading to what it does to the pressure, as a technician goes through it.

use crate::common::{Bench, INHG, PSI, codes};
use serde_json::{Value, json};

fn number(value: &Value) -> f64 {
    value
        .as_f64()
        .unwrap_or_else(|| panic!("not a number: {value}"))
}

fn worn_bore(bench: &Bench) -> (Value, Value) {
    let job = bench.open_job("Larkmoor L6");
    let test = bench.begin_test(&job);
    bench.set_up(&test);
    bench.record(&test, "blank", json!({ "vacuum_pa": 27.7 * INHG }));
    bench.read(&test, 17.2, false);
    bench.read(&test, 16.9, true);
    let recorded = bench.read(&test, 17.3, true);
    (test, recorded["view"].clone())
}

#[test]
fn three_readings_of_a_worn_bore_become_a_pressure_shift_with_a_span() {
    let bench = Bench::with_demo();
    let (_, view) = worn_bore(&bench);
    let judgement = &view["judgement"];
    assert!((number(&judgement["readings"]["mean_vacuum_pa"]) / INHG - 17.1333).abs() < 1e-3);
    assert_eq!(judgement["readings"]["independent_count"], 3);
    assert_eq!(judgement["decision"]["verdict"], "outside_limit");

    // The limit of 20 inHg at sea level asks for a little less in thinner air.
    let today = number(&judgement["limit"]["today_vacuum_pa"]) / INHG;
    assert!(today < 20.0 && today > 19.5, "{today}");

    let leak = &judgement["leak"];
    assert_eq!(leak["answer"], "known", "{leak}");
    let (off, centred) = (
        &leak["clearance_off_centre_m"],
        &leak["clearance_centred_m"],
    );
    assert!(number(&off["likely"]) < number(&centred["likely"]));
    assert!(number(&off["likely"]) > number(&leak["clearance_new_m"]));

    let highest = &judgement["consequence"]["highest_line"];
    let shift = &highest["shift_pa"];
    let [low, likely, high] = ["low", "likely", "high"].map(|end| number(&shift[end]) / PSI);
    assert!(low > 0.0 && low < likely && likely < high, "{shift}");
    // Leak to the sump raises the regulated pressure.
    assert!(
        number(&highest["measured_feed_pa"]["likely"]) > number(&highest["new_feed_pa"]["likely"])
    );
    // Asymmetric: the high side is the longer one.
    assert!(high - likely > likely - low);
}

#[test]
fn the_same_evidence_through_the_storeless_command_gives_the_same_judgement() {
    let bench = Bench::with_demo();
    let (_, view) = worn_bore(&bench);
    let overview = bench.ok("shop.overview", json!({}));
    let unit = crate::common::pick(&overview["units"], "name", "Larkmoor L6")["id"].clone();
    let profile = bench.ok("unit.get", json!({ "unit": unit }))["profile"]["bores"][0].clone();
    let readings: Vec<_> = view["readings"]
        .as_array()
        .unwrap()
        .iter()
        .map(|entry| entry["reading"].clone())
        .collect();
    let judgement = bench.ok(
        "judgement.compute",
        json!({
            "profile": profile,
            "test_point_index": 0,
            "stand": view["stand"],
            "gauge": view["gauge"],
            "setup": view["setup"],
            "stand_check": view["stand_check"],
            "blank": view["blank"],
            "readings": readings,
        }),
    );
    assert_eq!(judgement, view["judgement"]);
}

#[test]
fn a_reading_without_the_valve_turned_is_kept_but_is_no_repeat() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let test = bench.begin_test(&job);
    bench.set_up(&test);
    bench.read(&test, 18.0, false);
    let view = bench.read(&test, 24.0, false)["view"].clone();
    assert_eq!(view["judgement"]["readings"]["count"], 2);
    assert_eq!(view["judgement"]["readings"]["independent_count"], 1);
    assert!((number(&view["judgement"]["readings"]["mean_vacuum_pa"]) / INHG - 18.0).abs() < 1e-9);
    let found = codes(&view["judgement"]["findings"]);
    assert!(
        found.contains(&("not_independent_repeats".into(), "readings".into())),
        "{found:?}"
    );
    // The job's page shows the same mean as the test's.
    let job = bench.ok("job.get", json!({ "job": job }));
    let listed = &job["bores"][0]["test_points"][0]["tests"][0];
    assert_eq!(listed["readings"], 2);
    assert_eq!(
        listed["mean_vacuum_pa"],
        view["judgement"]["readings"]["mean_vacuum_pa"]
    );
}

#[test]
fn what_the_set_up_cannot_carry_is_refused_in_so_many_words() {
    let bench = Bench::with_demo();
    let (test, view) = worn_bore(&bench);
    let leak_with = |change: &dyn Fn(&mut Value)| {
        let mut setup = view["setup"].clone();
        change(&mut setup);
        let part = json!({ "part": "setup", "body": setup });
        let answer = bench.ok(
            "test.record",
            json!({ "test": test, "part": part, "dry_run": true }),
        );
        answer["view"]["judgement"].clone()
    };
    let oiled = leak_with(&|setup| setup["surface"] = json!("oiled"));
    assert_eq!(
        oiled["leak"],
        json!({ "answer": "refused", "reason": "oiled" })
    );
    assert_eq!(
        oiled["consequence"],
        json!({ "answer": "withheld", "reason": "no_leak" })
    );
    // Oiled or not, the reading is still held against its limit.
    assert_eq!(oiled["decision"]["verdict"], "outside_limit");

    let absent = leak_with(&|setup| setup["valve_position"] = json!("valve_absent"));
    assert_eq!(absent["leak"]["reason"], "valve_absent");
    assert_eq!(absent["decision"], Value::Null);

    // The demo unit's small orifice passes little beside so worn a bore.
    let series = leak_with(&|setup| setup["orifice"] = json!("in_series"));
    assert_eq!(
        series["leak"]["reason"], "orifice_takes_drop",
        "{}",
        series["leak"]
    );

    let no_stand = json!({ "part": "stand", "body": { "stand": null } });
    let answer = bench.ok(
        "test.record",
        json!({ "test": test, "part": no_stand, "dry_run": true }),
    );
    assert_eq!(
        answer["view"]["judgement"]["leak"]["reason"],
        "no_calibrated_stand"
    );
    // A dry run writes nothing.
    let now = bench.ok("test.get", json!({ "test": test }));
    assert_eq!(now["judgement"]["leak"]["answer"], "known");
}

#[test]
fn a_corrected_reading_keeps_the_first_beside_it() {
    let bench = Bench::with_demo();
    let (test, view) = worn_bore(&bench);
    let first = &view["readings"][0];
    let corrected = bench.ok(
        "test.correct",
        json!({
            "test": test,
            "record": first["record"],
            "reading": { "vacuum_pa": 17.0 * INHG, "reseated": false, "as_typed": "17.0 inHg" },
        }),
    );
    assert_eq!(corrected["saved"], true);
    let entries = corrected["view"]["readings"].as_array().unwrap();
    assert_eq!(entries.len(), 3);
    let now = entries
        .iter()
        .find(|entry| entry["reading"]["as_typed"] == "17.0 inHg")
        .unwrap();
    assert_eq!(now["corrected"], json!([first["reading"]]));
}

#[test]
fn a_decision_pins_what_it_was_made_from_and_says_when_that_has_changed() {
    let bench = Bench::with_demo();
    let (test, _) = worn_bore(&bench);
    let decided = bench.ok(
        "test.decide",
        json!({ "test": test, "note": "Quoting a sleeve" }),
    );
    assert_eq!(decided["decision"]["outdated"], false);
    assert_eq!(decided["decision"]["decision"]["verdict"], "outside_limit");
    assert_eq!(decided["decision"]["by"], "Marta Oyelaran");

    bench.read(&test, 17.1, true);
    let later = bench.ok("test.get", json!({ "test": test }));
    assert_eq!(later["decision"]["outdated"], true);
    // The record itself is as it was.
    assert_eq!(
        later["decision"]["decision"],
        decided["decision"]["decision"]
    );
}

#[test]
fn the_demo_decisions_are_what_the_core_decides_now() {
    let bench = Bench::with_demo();
    let jobs = bench.ok("job.list", json!({}));
    let mut decided = 0;
    for entry in jobs["jobs"].as_array().unwrap() {
        let view = bench.ok("job.get", json!({ "job": entry["id"] }));
        for bore in view["bores"].as_array().unwrap() {
            for test in bore["test_points"][0]["tests"].as_array().unwrap() {
                let view = bench.ok("test.get", json!({ "test": test["test"] }));
                if view["decision"].is_null() {
                    continue;
                }
                decided += 1;
                assert_eq!(view["decision"]["outdated"], false);
                let (then, now) = (
                    &view["decision"]["decision"],
                    &view["judgement"]["decision"],
                );
                assert_eq!(then["verdict"], now["verdict"]);
                assert_eq!(
                    then["conformity_probability"],
                    now["conformity_probability"]
                );
            }
        }
    }
    assert!(decided >= 2, "{decided}");
}
