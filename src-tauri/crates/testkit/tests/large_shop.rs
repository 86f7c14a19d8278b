//! The large shop is a shop: the store takes it, the check passes, and the app shows it.

#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use std::sync::Arc;

use serde_json::{Value, json};
use store::{Setup, Store};
use testkit::large;

#[test]
fn a_large_shop_passes_the_check_and_is_shown_by_the_app() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let jobs = 12;
    let mut store = Store::open(&path, Setup::new(Arc::new(api::ModelProjector))).unwrap();
    let filled = large::fill(&mut store, "check", jobs).unwrap();
    assert_eq!(store.check().unwrap(), []);
    assert_eq!(store.record_count().unwrap(), filled.records as u64);
    assert!(store.devices().unwrap().len() > 3, "several devices sign");
    let first = store.digest().unwrap();
    drop(store);

    let mut again = Store::open_in_memory(Setup::new(Arc::new(api::ModelProjector))).unwrap();
    large::fill(&mut again, "check", jobs).unwrap();
    assert_eq!(again.digest().unwrap(), first, "the seed decides it all");

    let app = api::App::start(api::Options {
        paths: false,
        store_path: Some(path),
        demo_on_first_start: false,
        clock: Arc::new(api::SystemClock),
    });
    let ask = |command: &str, args: Value| -> Value {
        let request = json!({ "command": command, "args": args }).to_string();
        let answer: Value = serde_json::from_str(&app.call(&request)).unwrap();
        answer
            .get("ok")
            .cloned()
            .unwrap_or_else(|| panic!("{answer}"))
    };
    let list = ask("job.list", json!({}));
    assert_eq!(list["found"], jobs);
    let mut judged = 0;
    for job in list["jobs"].as_array().unwrap() {
        let job = ask("job.get", json!({ "job": job["id"] }));
        for bore in job["bores"].as_array().unwrap() {
            for point in bore["test_points"].as_array().unwrap() {
                for test in point["tests"].as_array().unwrap() {
                    let view = ask("test.get", json!({ "test": test["test"] }));
                    let wrong = view["judgement"]["findings"].as_array().unwrap();
                    assert!(
                        wrong.iter().all(|finding| finding["severity"] != "wrong"),
                        "{wrong:?}"
                    );
                    judged += 1;
                }
            }
        }
    }
    assert!(judged > 20, "{judged}");
}

/// Some fifty records a job, people and units apart.
#[test]
fn a_job_has_some_fifty_records() {
    let count = |jobs| -> usize {
        large::LargeShop::new("size", jobs)
            .unwrap()
            .map(|batch| batch.unwrap().records.len())
            .sum()
    };
    let a_job = (count(120) - count(20)) / 100;
    assert!((45..=55).contains(&a_job), "{a_job}");
}
