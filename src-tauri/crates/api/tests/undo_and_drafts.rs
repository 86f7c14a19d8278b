//! Undo, also after a restart; half-typed input found again; the record of who did what.

use crate::common::Bench;
use serde_json::{Value, json};

#[test]
fn the_last_change_can_be_undone_after_a_restart_and_brought_back() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Stonebeck S8");
    let test = bench.begin_test(&job);
    bench.set_up(&test);
    bench.read(&test, 18.2, false);

    let bench = bench.restart();
    let view = bench.ok("test.get", json!({ "test": test }));
    assert_eq!(view["readings"].as_array().unwrap().len(), 1);
    assert_eq!(view["undo"]["undo"]["kind"], "test.reading");

    let done = bench.ok("undo.last", json!({}));
    assert_eq!(done["step"]["kind"], "test.reading");
    let view = bench.ok("test.get", json!({ "test": test }));
    assert_eq!(view["readings"], json!([]));
    assert_eq!(view["undo"]["redo"]["kind"], "test.reading");

    let bench = bench.restart();
    bench.ok("redo.last", json!({}));
    let view = bench.ok("test.get", json!({ "test": test }));
    assert_eq!(view["readings"].as_array().unwrap().len(), 1);
    assert_eq!(
        bench.error("redo.last", json!({}))["code"],
        "nothing_to_undo"
    );
}

#[test]
fn undo_goes_back_step_by_step_to_the_demo_and_no_further() {
    let bench = Bench::with_demo();
    let before = bench.ok("job.list", json!({}));
    bench.open_job("Larkmoor L6");
    assert_eq!(bench.ok("undo.last", json!({}))["step"]["kind"], "job");
    assert_eq!(bench.ok("job.list", json!({})), before);
    // The demo's records are other devices': not this device's to undo.
    assert_eq!(
        bench.error("undo.last", json!({}))["code"],
        "nothing_to_undo"
    );
}

#[test]
fn a_half_typed_reading_is_there_again_after_the_app_was_killed() {
    let bench = Bench::with_demo();
    let typed = json!({ "text": "17,", "unit": "inHg" });
    bench.ok(
        "draft.put",
        json!({ "key": "test:x:reading", "value": typed }),
    );
    let bench = bench.restart();
    let found = bench.ok("draft.get", json!({ "key": "test:x:reading" }));
    assert_eq!(found["value"], typed);
    // A draft is no record.
    assert_eq!(
        bench.ok("shop.overview", json!({}))["undo"]["undo"],
        Value::Null
    );
    bench.ok("draft.clear", json!({ "key": "test:x:reading" }));
    let found = bench.ok("draft.get", json!({ "key": "test:x:reading" }));
    assert_eq!(found["value"], Value::Null);
}

#[test]
fn each_caution_is_read_once_per_job_and_the_record_says_by_whom() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let view = bench.ok(
        "caution.read",
        json!({ "job": job, "hazards": ["hot_oil", "solvent"] }),
    );
    let read = |view: &Value, hazard: &str| {
        crate::common::pick(&view["hazards"], "hazard", hazard)["read"]["by"].clone()
    };
    assert_eq!(read(&view, "hot_oil"), "Marta Oyelaran");
    assert_eq!(read(&view, "high_voltage"), Value::Null);

    bench.ok(
        "person.choose",
        json!({ "person": bench.person("Tomás Wierzba") }),
    );
    let view = bench.ok(
        "caution.read",
        json!({ "job": job, "hazards": ["hot_oil"] }),
    );
    assert_eq!(read(&view, "hot_oil"), "Marta Oyelaran");
    let history = bench.ok("history.get", json!({ "subject": job }));
    let entries = history["entries"].as_array().unwrap();
    assert_eq!(
        entries
            .iter()
            .filter(|entry| entry["kind"] == "caution")
            .count(),
        2
    );
}

#[test]
fn saying_the_same_again_records_nothing() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let part = json!({ "part": "complaint", "body": { "text": "Harsh 2-3 when hot" } });
    bench.ok("job.edit", json!({ "job": job, "part": part }));
    let count = |bench: &Bench| {
        let history = bench.ok("history.get", json!({ "subject": job }));
        history["entries"].as_array().unwrap().len()
    };
    let before = count(&bench);
    bench.ok("job.edit", json!({ "job": job, "part": part }));
    assert_eq!(count(&bench), before);
    let part = json!({ "part": "complaint", "body": { "text": "Harsh 2-3 and 3-4 when hot" } });
    bench.ok("job.edit", json!({ "job": job, "part": part }));
    let history = bench.ok("history.get", json!({ "subject": job }));
    let complaints: Vec<_> = history["entries"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|entry| entry["kind"] == "job.complaint")
        .map(|entry| entry["standing"].clone())
        .collect();
    assert_eq!(complaints, [json!("replaced"), json!("stands")]);
}

#[test]
fn the_store_checks_clean_after_a_day_of_work() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let test = bench.begin_test(&job);
    bench.set_up(&test);
    bench.read(&test, 18.2, false);
    bench.ok("undo.last", json!({}));
    let check = bench.ok("store.check", json!({}));
    assert_eq!(check["clean"], true, "{check}");
}

#[test]
fn settings_are_kept_and_change_nothing_that_is_stored() {
    let bench = Bench::with_demo();
    let before = bench.ok("store.check", json!({}))["digest"].clone();
    let mut settings = bench.ok("shop.overview", json!({}))["settings"].clone();
    settings["pressure"] = json!("bar");
    settings["vacuum"] = json!("kPa");
    settings["temperature"] = json!("°C");
    bench.ok("settings.put", settings.clone());
    let bench = bench.restart();
    assert_eq!(bench.ok("shop.overview", json!({}))["settings"], settings);
    assert_eq!(bench.ok("store.check", json!({}))["digest"], before);
}

#[test]
fn an_empty_vehicle_or_complaint_is_found_at_its_field_and_nothing_is_recorded() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let before = bench.ok("job.get", json!({ "job": job }));
    for (part, body, field) in [
        (
            "vehicle",
            json!({ "description": "  " }),
            "vehicle.description",
        ),
        ("complaint", json!({ "text": "" }), "complaint.text"),
    ] {
        let part = json!({ "part": part, "body": body });
        let told = bench.ok("job.edit", json!({ "job": job, "part": part }));
        assert_eq!(told["saved"], false);
        assert_eq!(told["findings"][0]["code"], "missing");
        assert_eq!(told["findings"][0]["field"], field);
        assert_eq!(told["view"], before);
    }
    assert_eq!(bench.ok("job.get", json!({ "job": job })), before);
    // Notes may be emptied.
    let part = json!({ "part": "notes", "body": { "text": "" } });
    let told = bench.ok("job.edit", json!({ "job": job, "part": part }));
    assert_eq!(told["saved"], true);
}
