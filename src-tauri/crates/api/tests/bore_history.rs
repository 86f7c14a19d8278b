//! All readings of one bore across jobs, before and after repairs.

use crate::common::{Bench, INHG};
use serde_json::{Value, json};

fn tested(bench: &Bench, job: &Value, reading: f64) -> Value {
    let test = bench.begin_test(job);
    bench.set_up(&test);
    bench.read(&test, reading, false);
    test
}

fn plate(bench: &Bench, job: &Value, plate: &str) {
    let part = json!({ "part": "customer", "body": { "name": "", "phone": "", "plate": plate } });
    bench.ok("job.edit", json!({ "job": job, "part": part }));
}

fn names(events: &Value) -> Vec<Value> {
    let events = events.as_array().unwrap().iter();
    events
        .map(|event| match event["what"]["is"].as_str().unwrap() {
            "test" => event["what"]["test"].clone(),
            _ => event["what"]["repair"].clone(),
        })
        .collect()
}

#[test]
fn a_vehicle_that_comes_again_is_told_by_its_plate_and_others_stand_apart() {
    let bench = Bench::with_demo();
    let [first, again, other] = [0, 1, 2].map(|_| bench.open_job("Larkmoor L6"));
    let bore = bench.ok("job.get", json!({ "job": first }))["bores"][0]["bore"].clone();
    let ask = |job: &Value| bench.ok("bore.history", json!({ "bore": bore, "job": job }));
    let empty = ask(&other);
    assert_eq!(empty["this_vehicle"], json!([]));
    let of_demo = empty["others"].as_array().unwrap().len();

    let before = tested(&bench, &first, 17.2);
    let cleaned = json!({ "option": "cleaned", "parts": "", "notes": "" });
    let repaired = bench.ok(
        "repair.record",
        json!({ "job": first, "bore": bore, "work": cleaned }),
    );
    assert_eq!(repaired["saved"], true, "{repaired}");
    let repair = repaired["view"]["id"].clone();
    let after = tested(&bench, &first, 22.8);
    let later = tested(&bench, &again, 22.1);
    let elsewhere = tested(&bench, &other, 23.5);

    let alone = ask(&again);
    assert_eq!(alone["known_by"], "job_alone");
    assert_eq!(names(&alone["this_vehicle"]), std::slice::from_ref(&later));

    plate(&bench, &first, "VV-HL 204");
    plate(&bench, &again, "vv hl204");
    let history = ask(&again);
    assert_eq!(history["known_by"], "plate");
    assert_eq!(
        names(&history["this_vehicle"]),
        [before.clone(), repair, after, later]
    );
    let others = names(&history["others"]);
    assert_eq!(others.len(), of_demo + 1);
    assert!(others.contains(&elsewhere) && !others.contains(&before));

    let test = &history["this_vehicle"][0]["what"];
    let judged = bench.ok("test.get", json!({ "test": before }))["judgement"].clone();
    assert_eq!(test["mean_vacuum_pa"], judged["readings"]["mean_vacuum_pa"]);
    assert!((test["mean_vacuum_pa"].as_f64().unwrap() - 17.2 * INHG).abs() < 1e-6);
    for (told, of_judgement) in [
        (
            "expanded_uncertainty_pa",
            &judged["readings"]["expanded_uncertainty_pa"],
        ),
        ("limit_vacuum_pa", &judged["limit"]["today_vacuum_pa"]),
        ("verdict", &judged["decision"]["verdict"]),
        ("barometer_pa", &judged["barometer_pa"]),
    ] {
        assert_eq!(test[told], *of_judgement, "{told}");
        assert_ne!(test[told], Value::Null, "{told}");
    }
    assert_eq!(test["decided"], false);
    assert_eq!(history["this_vehicle"][0]["by"], "Marta Oyelaran");

    bench.ok("test.decide", json!({ "test": before, "note": "" }));
    let history = ask(&again);
    assert_eq!(history["this_vehicle"][0]["what"]["decided"], true);
    // Nothing is told apart without a job, and no more is listed than asked for.
    let all = bench.ok("bore.history", json!({ "bore": bore, "most": 2 }));
    assert_eq!(all["known_by"], "nothing");
    let tests = all["others"].as_array().unwrap().iter();
    let tests = tests.filter(|event| event["what"]["is"] == "test").count();
    assert_eq!(tests, 2);
    assert_eq!(all["left_out"], json!(of_demo_tests(&empty) + 4 - 2));
}

fn of_demo_tests(history: &Value) -> usize {
    let events = history["others"].as_array().unwrap().iter();
    events.filter(|event| event["what"]["is"] == "test").count()
}

#[test]
fn a_test_that_is_undone_leaves_the_history() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let bore = bench.ok("job.get", json!({ "job": job }))["bores"][0]["bore"].clone();
    let ask = || bench.ok("bore.history", json!({ "bore": bore, "job": job }));
    let test = bench.begin_test(&job);
    assert_eq!(names(&ask()["this_vehicle"]), [test]);
    bench.ok("undo.last", json!({}));
    assert_eq!(ask()["this_vehicle"], json!([]));
    assert_eq!(bench.ok("store.check", json!({}))["clean"], true);
}
