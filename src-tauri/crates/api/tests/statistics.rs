//! The shop's statistics: what held, told with the number of cases and never more than they say.

use std::path::PathBuf;

use crate::common::{Bench, INHG, start};
use serde_json::{Value, json};

/// A way that the demo shop has taken with no bore.
const WAY: &str = "other";

fn first_bore(bench: &Bench, job: &Value) -> Value {
    bench.ok("job.get", json!({ "job": job }))["bores"][0]["bore"].clone()
}

fn tested(bench: &Bench, job: &Value, inhg: f64) -> Value {
    let test = bench.begin_test(job);
    bench.set_up(&test);
    for (i, offset) in [0.0, -0.1, 0.1].into_iter().enumerate() {
        assert_eq!(bench.read(&test, inhg + offset, i > 0)["saved"], true);
    }
    bench.ok("test.decide", json!({ "test": test, "note": "" }));
    test
}

/// A job whose first bore was read, repaired and read again.
fn repaired(bench: &Bench, before: f64, after: f64) -> Value {
    let job = bench.open_job("Larkmoor L6");
    tested(bench, &job, before);
    let bore = first_bore(bench, &job);
    let repair = json!({ "job": job, "bore": bore, "work": { "option": WAY } });
    assert_eq!(bench.ok("repair.record", repair)["saved"], true);
    tested(bench, &job, after);
    job
}

fn came_back(bench: &Bench, earlier: &Value, more: Value) -> Value {
    let job = bench.open_job("Larkmoor L6");
    let mut comeback = json!({ "earlier": earlier, "fault": "same", "found_by": "customer" });
    for (field, value) in more.as_object().unwrap() {
        comeback[field] = value.clone();
    }
    let done = bench.ok(
        "comeback.record",
        json!({ "job": job, "comeback": comeback }),
    );
    assert_eq!(done["saved"], true, "{done}");
    job
}

/// The statistics of one bore and that way.
fn statistics(bench: &Bench, bore: &Value) -> Value {
    bench.ok("shop.statistics", json!({ "bore": bore, "option": WAY }))
}

fn empty() -> Bench {
    let folder = tempfile::tempdir().unwrap();
    Bench {
        app: start(folder.path().join("shop.db"), false),
        folder,
    }
}

/// How many repairs the demo shop has.
fn of_the_demo(bench: &Bench) -> u64 {
    bench.ok("shop.statistics", json!({}))["found"]
        .as_u64()
        .unwrap()
}

#[test]
fn one_case_is_told_as_one_case() {
    let bench = Bench::with_demo();
    let already = of_the_demo(&bench);
    let job = repaired(&bench, 12.0, 23.0);
    let bore = first_bore(&bench, &job);
    let all = bench.ok("shop.statistics", json!({}));
    assert_eq!(all["found"], already + 1);
    let here = statistics(&bench, &bore);
    let case = &here["cases"][0];
    assert_eq!(case["job"], job);
    let inhg = |measured: &Value| measured["vacuum_pa"].as_f64().unwrap() / INHG;
    assert!((inhg(&case["before"]) - 12.0).abs() < 1e-9);
    assert!((inhg(&case["after"]) - 23.0).abs() < 1e-9);
    // The gap that the decisions pinned: wider before than after.
    let gap = |measured: &Value| measured["gap_factor_m3"].as_f64().unwrap();
    assert!(gap(&case["before"]) > gap(&case["after"]));
    let group = &here["groups"][0];
    assert!(group["cases"].as_u64().unwrap() < here["least_cases"].as_u64().unwrap());
    assert_eq!(group["summary"], Value::Null);
    assert_eq!(group["came_back"], 0);
}

/// The interval by NIST/SEMATECH e-Handbook 7.2.4.2, solved in Python with exact binomial sums for
/// one of five at 95 %: 0.0050508 to 0.7164179.
#[test]
fn five_cases_are_summed_up_with_the_interval_that_they_leave() {
    let bench = Bench::with_demo();
    let befores = [12.0, 10.0, 14.0, 11.0, 13.5];
    let jobs = befores.map(|before| repaired(&bench, before, 22.0));
    let bore = first_bore(&bench, &jobs[0]);
    let here = statistics(&bench, &bore);
    assert_eq!(here["found"], 5, "{here}");
    assert_eq!(here["groups"][0]["summary"]["share"]["share"], 0.0);
    came_back(&bench, &jobs[2], json!({ "bore": bore }));
    let here = statistics(&bench, &bore);
    let group = &here["groups"][0];
    assert_eq!(
        (&group["cases"], &group["came_back"], &group["not_told"]),
        (&json!(5), &json!(1), &json!(0))
    );
    let share = &group["summary"]["share"];
    for (end, expected) in [("low", 0.005_050_8), ("share", 0.2), ("high", 0.716_417_9)] {
        assert!(
            (share[end].as_f64().unwrap() - expected).abs() < 1e-7,
            "{share}"
        );
    }
    let spread = &group["summary"]["vacuum_before_pa"];
    for (end, inhg) in [("low", 10.0), ("median", 12.0), ("high", 14.0)] {
        assert!(
            (spread[end].as_f64().unwrap() / INHG - inhg).abs() < 1e-9,
            "{spread}"
        );
    }
    assert_eq!(spread["cases"], 5);
    let case = here["cases"]
        .as_array()
        .unwrap()
        .iter()
        .find(|case| case["job"] == jobs[2]);
    assert_eq!(case.unwrap()["comeback"]["bore_told"], true);
    let page = bench.ok(
        "shop.statistics",
        json!({ "bore": bore, "option": WAY, "skip": 1, "limit": 2 }),
    );
    assert_eq!(
        page["cases"].as_array().unwrap()[..],
        here["cases"].as_array().unwrap()[1..3]
    );
    assert_eq!(
        (&page["found"], &page["groups"]),
        (&json!(5), &here["groups"])
    );
}

#[test]
fn another_fault_or_another_bore_counts_against_nothing_and_what_is_not_told_does() {
    let bench = Bench::with_demo();
    let job = repaired(&bench, 12.0, 22.0);
    let bore = first_bore(&bench, &job);
    let count = || {
        let group = statistics(&bench, &bore)["groups"][0].clone();
        (group["came_back"].clone(), group["not_told"].clone())
    };
    let later = came_back(&bench, &job, json!({ "fault": "different" }));
    assert_eq!(count(), (json!(0), json!(0)));
    let said = |comeback: Value| {
        bench.ok(
            "comeback.record",
            json!({ "job": later, "comeback": comeback }),
        );
    };
    said(json!({ "earlier": job, "fault": "not_known", "found_by": "this_shop" }));
    assert_eq!(count(), (json!(1), json!(1)));
    said(json!({ "earlier": job, "fault": "same", "found_by": "this_shop", "bore": bore }));
    assert_eq!(count(), (json!(1), json!(0)));
    let view = bench.ok("handover.get", json!({ "job": job }));
    assert_eq!(view["came_back"][0]["job"], later);
    assert_eq!(
        bench.ok("job.get", json!({ "job": job }))["handover"]["came_back"],
        1
    );
    // It was none after all.
    said(json!({ "fault": "not_known", "found_by": "this_shop" }));
    assert_eq!(count(), (json!(0), json!(0)));
    assert_eq!(
        bench.ok("handover.get", json!({ "job": later }))["comeback"],
        Value::Null
    );
    let own = json!({ "job": job, "comeback": { "earlier": job, "fault": "same", "found_by": "customer" } });
    assert_eq!(bench.error("comeback.record", own)["code"], "bad_request");
}

#[test]
fn earlier_jobs_are_proposed_by_plate_and_by_words_and_never_taken_by_themselves() {
    let bench = Bench::with_demo();
    let say = |job: &Value, part: &str, body: Value| {
        let part = json!({ "part": part, "body": body });
        bench.ok("job.edit", json!({ "job": job, "part": part }));
    };
    let jobs = [0, 1, 2].map(|_| bench.open_job("Larkmoor L6"));
    let later = bench.open_job("Larkmoor L6");
    for (job, plate) in [
        (&jobs[0], "VV HL 2041"),
        (&later, "vv-hl 2041"),
        (&jobs[1], "VV HL 7"),
    ] {
        say(
            job,
            "customer",
            json!({ "name": "", "phone": "", "plate": plate }),
        );
    }
    let rare = "Blue 1999 Hollin van of the dairy";
    say(&later, "vehicle", json!({ "description": rare }));
    say(
        &jobs[2],
        "vehicle",
        json!({ "description": "blue  1999 hollin van of the DAIRY" }),
    );
    let found = bench.ok("comeback.suggest", json!({ "job": later }));
    let found: Vec<_> = found["jobs"]
        .as_array()
        .unwrap()
        .iter()
        .map(|it| {
            (
                it["name"]["job"].clone(),
                it["by"].as_str().unwrap().to_owned(),
            )
        })
        .collect();
    assert_eq!(
        found,
        [
            (jobs[2].clone(), "vehicle".to_owned()),
            (jobs[0].clone(), "plate".to_owned())
        ]
    );
    assert_eq!(
        bench.ok("handover.get", json!({ "job": later }))["comeback"],
        Value::Null
    );
    // The earlier one isn't a comeback of the later.
    let found = bench.ok("comeback.suggest", json!({ "job": jobs[0] }));
    assert_eq!(found["jobs"], json!([]));
}

fn bundle(bench: &Bench, name: &str, what: Value) -> PathBuf {
    let made = bench.ok("bundle.make", what);
    let path = bench.folder.path().join(name);
    bench.ok("file.save", json!({ "file": made["file"], "path": path }));
    path
}

#[test]
fn neither_the_order_in_which_work_came_in_nor_the_units_change_them() {
    let bench = Bench::with_demo();
    let jobs = [12.0, 10.0, 14.0, 11.0, 13.5].map(|before| repaired(&bench, before, 22.0));
    let bore = first_bore(&bench, &jobs[0]);
    let later = came_back(&bench, &jobs[4], json!({ "bore": bore }));
    let mut files: Vec<_> = jobs
        .iter()
        .chain([&later])
        .enumerate()
        .map(|(i, job)| bundle(&bench, &format!("{i}.vvb"), json!({ "jobs": [job] })))
        .collect();
    let taken = |files: &[PathBuf]| {
        let other = empty();
        other.ok("person.add", json!({ "name": "Ida Lund" }));
        for path in files {
            let file = other.ok("file.open", json!({ "path": path }))["file"].clone();
            other.take_in(&file);
        }
        statistics(&other, &bore)
    };
    let here = statistics(&bench, &bore);
    assert_eq!(taken(&files), here);
    files.reverse();
    assert_eq!(taken(&files), here);
    files.rotate_left(2);
    assert_eq!(taken(&files), here);
    for (pressure, vacuum) in [("kPa", "kPa"), ("bar", "inHg")] {
        let mut settings = bench.ok("shop.overview", json!({}))["settings"].clone();
        settings["pressure"] = json!(pressure);
        settings["vacuum"] = json!(vacuum);
        bench.ok("settings.put", settings);
        assert_eq!(statistics(&bench, &bore), here);
    }
    // What is kept is what would be worked out anew.
    assert_eq!(bench.ok("store.check", json!({}))["clean"], true);
}

#[test]
fn a_second_repair_is_measured_between_its_own_tests() {
    let bench = Bench::with_demo();
    let job = repaired(&bench, 12.0, 15.0);
    let bore = first_bore(&bench, &job);
    let repair = json!({ "job": job, "bore": bore, "work": { "option": "new_valve" } });
    bench.ok("repair.record", repair);
    tested(&bench, &job, 24.0);
    let all = bench.ok("shop.statistics", json!({ "bore": bore }));
    let of = |option: &str| {
        let mut cases = all["cases"].as_array().unwrap().iter();
        let case = cases.find(|case| case["job"] == job && case["option"] == option);
        let case = case.unwrap().clone();
        ["before", "after"].map(|end| (case[end]["vacuum_pa"].as_f64().unwrap() / INHG).round())
    };
    assert_eq!(of(WAY), [12.0, 15.0]);
    assert_eq!(of("new_valve"), [15.0, 24.0]);
}
