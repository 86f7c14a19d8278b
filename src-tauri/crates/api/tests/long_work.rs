//! What may take long, done as a task: the same answers, and whoever cancels leaves all as it was.

use std::path::Path;

use crate::common::{Bench, start};
use serde_json::{Value, json};

fn empty() -> Bench {
    let folder = tempfile::tempdir().unwrap();
    Bench {
        app: start(folder.path().join("shop.db"), false),
        folder,
    }
}

fn begin(bench: &Bench, work: Value) -> Value {
    bench.ok("task.begin", json!({ "work": work }))
}

/// The task's view once it no longer runs; `watch` sees each on the way.
fn ended(bench: &Bench, task: &Value, mut watch: impl FnMut(&Value)) -> Value {
    loop {
        let view = bench.ok("task.state", task.clone());
        if view["state"] != "running" && view["state"] != "cancelling" {
            return view;
        }
        watch(&view);
        std::thread::yield_now();
    }
}

fn finished(bench: &Bench, work: Value, kind: &str) -> Value {
    let task = begin(bench, work);
    let view = ended(bench, &task, |_| ());
    assert_eq!(view["done"], view["total"], "{view}");
    view["state"]["finished"][kind].clone()
}

fn digest(bench: &Bench) -> Value {
    let check = bench.ok("store.check", json!({}));
    assert_eq!(check["clean"], true, "{check}");
    check["digest"].clone()
}

/// The whole demo shop as a file beside another store.
fn shop_file(bench: &Bench) -> std::path::PathBuf {
    let made = finished(
        bench,
        json!({ "bundle_make": { "personal": true } }),
        "bundle_make",
    );
    let path = bench.folder.path().join(made["name"].as_str().unwrap());
    bench.ok("file.save", json!({ "file": made["file"], "path": path }));
    path
}

fn accepted(plan: &Value) -> Value {
    let signers = plan["signers"].as_array().unwrap();
    let asked = signers.iter().filter(|signer| signer["asks"] == true);
    asked
        .map(|signer| json!({ "device": signer["device"] }))
        .collect()
}

fn open(bench: &Bench, path: &Path) -> Value {
    bench.ok("file.open", json!({ "path": path }))["file"].clone()
}

#[test]
fn a_task_answers_as_its_command_does() {
    let bench = Bench::with_demo();
    let path = shop_file(&bench);
    let other = empty();
    let file = open(&other, &path);
    let plan = finished(
        &other,
        json!({ "bundle_look": { "file": file } }),
        "bundle_look",
    );
    assert_eq!(plan, other.ok("bundle.look", json!({ "file": file })));
    let work = json!({ "bundle_take_in": { "file": file, "signers": accepted(&plan) } });
    let taken = finished(&other, work, "bundle_take_in");
    assert_eq!(taken["new_records"], plan["new_records"]);
    assert_eq!(digest(&other), digest(&bench));
    let check = finished(&other, json!({ "store_check": {} }), "store_check");
    assert_eq!(check, other.ok("store.check", json!({})));
    let backup = finished(&other, json!("backup_make"), "backup_make");
    let listed = other.ok("backup.list", json!({}))["backups"][0].clone();
    assert_eq!(backup, listed);
}

#[test]
fn a_task_fails_as_its_command_does() {
    let other = empty();
    let task = begin(&other, json!({ "bundle_look": { "file": 99 } }));
    let view = ended(&other, &task, |_| ());
    let error = other.error("bundle.look", json!({ "file": 99 }));
    assert_eq!(view["state"]["failed"]["code"], error["code"]);
}

#[test]
fn taking_in_that_is_cancelled_anywhere_leaves_the_store_as_it_was_or_is_done() {
    const PLACES: u64 = 8;
    let bench = Bench::with_demo();
    let path = shop_file(&bench);
    let whole = digest(&bench);
    let mut cancelled = 0;
    for place in 0..PLACES {
        let other = empty();
        let file = open(&other, &path);
        let plan = other.ok("bundle.look", json!({ "file": file }));
        let before = digest(&other);
        let work = json!({ "bundle_take_in": { "file": file, "signers": accepted(&plan) } });
        let task = begin(&other, work);
        let view = ended(&other, &task, |view| {
            let (done, total) = (
                view["done"].as_u64().unwrap(),
                view["total"].as_u64().unwrap(),
            );
            if done * PLACES >= total * place {
                other.ok("task.cancel", task.clone());
            }
        });
        let imports = other.ok("import.list", json!({}))["imports"].clone();
        if view["state"] == "cancelled" {
            cancelled += 1;
            assert_eq!(digest(&other), before, "cancelled at {view}");
            assert_eq!(imports, json!([]));
        } else {
            // It was done before it heard of it.
            assert_eq!(digest(&other), whole, "{view}");
        }
        // Nothing stays stopped: what comes next works, and takes the file in after all.
        let again = json!({ "file": open(&other, &path), "signers": accepted(&plan) });
        other.ok("bundle.take_in", again);
        assert_eq!(digest(&other), whole);
    }
    assert!(cancelled > 0, "no try was early enough");
}

#[test]
fn a_backup_or_check_that_is_cancelled_leaves_nothing_behind() {
    let bench = Bench::with_demo();
    let before = digest(&bench);
    let backups = |bench: &Bench| bench.ok("backup.list", json!({}))["backups"].clone();
    let had = backups(&bench);
    for work in [json!("backup_make"), json!({ "store_check": {} })] {
        let task = begin(&bench, work);
        bench.ok("task.cancel", task.clone());
        let view = ended(&bench, &task, |_| ());
        if view["state"] == "cancelled" {
            assert_eq!(backups(&bench), had);
        }
    }
    assert_eq!(digest(&bench), before);
    let folder = bench.folder.path().join("backups");
    let left = std::fs::read_dir(folder).map_or(0, |found| {
        found
            .filter(|file| {
                let name = file.as_ref().unwrap().file_name();
                name.to_string_lossy().ends_with(".part")
            })
            .count()
    });
    assert_eq!(left, 0);
}
