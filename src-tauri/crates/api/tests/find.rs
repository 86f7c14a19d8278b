//! Finding a job again by its words, and by what it is about.

use crate::common::{Bench, pick};
use serde_json::{Value, json};

fn numbers(list: &Value) -> Vec<String> {
    let jobs = list["jobs"].as_array().unwrap();
    jobs.iter()
        .map(|job| job["number"].as_str().unwrap().to_owned())
        .collect()
}

fn found(bench: &Bench, args: Value) -> Vec<String> {
    numbers(&bench.ok("job.list", args))
}

/// A job with words of its own.
fn open(bench: &Bench, unit: &str, number: &str, vehicle: &str, complaint: &str) -> Value {
    let overview = bench.ok("shop.overview", json!({}));
    let opened = bench.ok(
        "job.open",
        json!({
            "unit": pick(&overview["units"], "name", unit)["id"],
            "number": number,
            "vehicle": { "description": vehicle },
            "complaint": { "text": complaint },
            "customer": { "name": "Ulla Brandt", "phone": "555 0100", "plate": "KV-7 4412" },
        }),
    );
    opened["job"].clone()
}

#[test]
fn every_word_must_be_found_wherever_it_stands_and_in_part() {
    let bench = Bench::with_demo();
    bench.person("Marta Oyelaran");
    open(
        &bench,
        "Larkmoor L6",
        "9001",
        "2016 Tamsin saloon",
        "Hiccups 2-3 once hot",
    );
    open(
        &bench,
        "Stonebeck S8",
        "9002",
        "2016 Tamsin saloon",
        "Bangs into reverse",
    );
    assert_eq!(
        found(&bench, json!({ "text": "tamsin SALOON" })),
        ["9002", "9001"]
    );
    // One word in the complaint, the other in the unit's name.
    assert_eq!(found(&bench, json!({ "text": "hiccups larkm" })), ["9001"]);
    assert_eq!(
        found(&bench, json!({ "text": "hiccups stonebeck" })),
        [""; 0]
    );
    // A plate by a part of it, and what looks like a query is only words.
    assert_eq!(
        found(&bench, json!({ "text": "kv-7 441" })),
        ["9002", "9001"]
    );
    for odd in [
        "\" OR 1=1 --",
        "NEAR(hiccups",
        "hiccups*",
        "%",
        "tamsin NOT ulla",
    ] {
        assert_eq!(found(&bench, json!({ "text": odd })), [""; 0], "{odd}");
    }
}

#[test]
fn filters_narrow_the_list_and_pages_follow_each_other() {
    let bench = Bench::with_demo();
    bench.person("Marta Oyelaran");
    let overview = bench.ok("shop.overview", json!({}));
    let unit = |name: &str| pick(&overview["units"], "name", name)["id"].clone();
    let everything = bench.ok("job.list", json!({}));
    let total = everything["found"].as_u64().unwrap() as usize;
    assert_eq!(numbers(&everything).len(), total);

    let of = |name: &str| found(&bench, json!({ "unit": unit(name) })).len();
    assert_eq!(of("Larkmoor L6") + of("Stonebeck S8"), total);
    let by = |name: &str| {
        let person = pick(&overview["people"], "name", name)["id"].clone();
        found(&bench, json!({ "person": person })).len()
    };
    assert_eq!(
        by("Marta Oyelaran") + by("Tomás Wierzba") + by("Inês Harrowgate"),
        total
    );
    let states = [
        "not_tested",
        "not_decided",
        "within_limit",
        "too_close_to_call",
        "outside_limit",
        "repaired_not_tested",
    ];
    let in_state = |state: &str| found(&bench, json!({ "state": state })).len();
    assert_eq!(states.map(in_state).iter().sum::<usize>(), total);

    // Days: each job is on its day, and no day is counted twice.
    let day = everything["jobs"][0]["opened_on"].clone();
    let until = found(&bench, json!({ "to": day })).len();
    assert_eq!(until, total, "the newest day ends the list");
    let on_day = found(&bench, json!({ "from": day, "to": day }));
    assert!(!on_day.is_empty() && on_day.len() < total);

    // Pages of two, with and without a filter that must look into the jobs.
    for filter in [json!({}), json!({ "text": "" })] {
        let mut paged = Vec::new();
        while paged.len() < total {
            let mut args = filter.clone();
            args["skip"] = json!(paged.len());
            args["limit"] = json!(2);
            let page = bench.ok("job.list", args);
            assert_eq!(page["found"], total);
            paged.extend(numbers(&page));
        }
        assert_eq!(paged, numbers(&everything));
    }
}

#[test]
fn a_bore_finds_the_jobs_in_which_it_was_tested() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let view = bench.ok("job.get", json!({ "job": job }));
    let bore = view["bores"][0]["bore"].clone();
    let before = found(&bench, json!({ "bore": bore }));
    assert!(!before.is_empty());
    bench.begin_test(&job);
    assert_eq!(
        found(&bench, json!({ "bore": bore })).len(),
        before.len() + 1
    );
}
