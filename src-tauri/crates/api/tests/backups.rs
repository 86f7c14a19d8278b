//! Backups, restoring and repairing as the interface asks for them, also when the store can't be
//! opened.

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::atomic::{AtomicI64, Ordering};

use crate::common::{Bench, start};
use api::{App, Clock, Options};
use chrono::{DateTime, NaiveDate, TimeZone, Utc};
use serde_json::{Value, json};

fn ask(app: &App, command: &str, args: Value) -> Value {
    serde_json::from_str(&app.call(&json!({ "command": command, "args": args }).to_string()))
        .unwrap()
}

fn digest(app: &App) -> Value {
    let check = ask(app, "store.check", json!({}));
    assert_eq!(check["ok"]["clean"], true, "{check}");
    check["ok"]["digest"].clone()
}

/// A clock that the test moves on by days.
struct Days(AtomicI64);

impl Clock for Days {
    fn now(&self) -> DateTime<Utc> {
        Utc.with_ymd_and_hms(2026, 4, 14, 12, 0, 0).unwrap()
            + chrono::Duration::days(self.0.load(Ordering::SeqCst))
    }

    fn today(&self) -> NaiveDate {
        self.now().date_naive()
    }
}

fn start_on_day(path: &Path, day: i64) -> App {
    App::start(Options {
        paths: false,
        store_path: Some(path.to_owned()),
        demo_on_first_start: true,
        clock: Arc::new(Days(AtomicI64::new(day))),
    })
}

fn reasons(app: &App) -> Vec<String> {
    let list = ask(app, "backup.list", json!({}));
    let backups = list["ok"]["backups"].as_array().unwrap();
    backups
        .iter()
        .map(|b| b["reason"].as_str().unwrap().to_owned())
        .collect()
}

#[test]
fn one_is_made_by_itself_when_a_day_has_passed_and_something_has_changed() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    // Closing waits for a backup that is being made.
    let day = |day: i64, work: &dyn Fn(&App)| {
        let app = start_on_day(&path, day);
        work(&app);
        assert!(ask(&app, "shop.overview", json!({}))["ok"].is_object());
        drop(app);
        reasons(&start_on_day(&path, day)).len()
    };
    let work = |app: &App| {
        let added = ask(app, "person.add", json!({ "name": "Ines Varga" }));
        assert!(added["ok"].is_object(), "{added}");
    };
    assert_eq!(
        day(0, &|_| {}),
        0,
        "a store that is made now is nobody's work yet"
    );
    assert_eq!(day(1, &|_| {}), 1);
    assert_eq!(day(3, &|_| {}), 1, "nothing has changed");
    assert_eq!(day(3, &work), 2);
    assert_eq!(day(3, &work), 2, "a day has not passed");
    assert_eq!(day(4, &|_| {}), 3);
}

#[test]
fn made_by_hand_and_gone_back_to() {
    let bench = Bench::with_demo();
    let then = digest(&bench.app);
    bench.ok("settings.put", {
        let mut settings = bench.ok("shop.overview", json!({}))["settings"].clone();
        settings["pressure"] = json!("bar");
        settings
    });
    let made = bench.ok("backup.make", json!({}));
    assert_eq!(made["reason"], "by_hand");
    let jobs = bench.ok("job.list", json!({}))["jobs"]
        .as_array()
        .unwrap()
        .len();
    assert_eq!(made["holds"]["jobs"], json!(jobs));
    bench.ok("person.add", json!({ "name": "Ines Varga" }));
    let later = digest(&bench.app);
    let restored = bench.ok("backup.restore", json!({ "name": made["name"] }));
    assert_eq!(digest(&bench.app), then);
    let overview = bench.ok("shop.overview", json!({}));
    assert_eq!(
        overview["author"],
        Value::Null,
        "who works here is asked anew"
    );
    assert_eq!(overview["settings"]["pressure"], "bar");
    assert_eq!(overview["undo"]["undo"], Value::Null);
    // And forth again.
    bench.ok("backup.restore", json!({ "name": restored["aside"] }));
    assert_eq!(digest(&bench.app), later);
    let refused = bench.error("backup.restore", json!({ "name": "../shop.db" }));
    assert_eq!(refused["code"], "not_found");
    assert_eq!(digest(&bench.app), later);
}

/// Spoils the file so that it can't be opened: its first page is gone.
fn spoil(path: &Path) {
    let mut bytes = fs::read(path).unwrap();
    bytes[16..4096].fill(0x5a);
    fs::write(path, bytes).unwrap();
}

#[test]
fn a_store_that_cannot_be_opened_is_repaired_or_replaced_all_the_same() {
    let Bench { app, folder } = Bench::with_demo();
    let path = folder.path().join("shop.db");
    let then = digest(&app);
    let made = ask(&app, "backup.make", json!({}))["ok"].clone();
    drop(app);
    spoil(&path);
    let damaged = fs::read(&path).unwrap();
    let app = start(path.clone(), true);
    let state = ask(&app, "app.state", json!({}));
    assert_eq!(state["ok"]["trouble"]["code"], "store_damaged", "{state}");
    assert_eq!(
        ask(&app, "job.list", json!({}))["error"]["code"],
        "store_damaged"
    );
    assert_eq!(reasons(&app), ["by_hand"]);
    assert!(
        fs::read(&path).unwrap() == damaged,
        "looking changes nothing"
    );

    let repaired = ask(&app, "store.repair", json!({}));
    assert_eq!(repaired["ok"]["lost"], json!([]), "{repaired}");
    assert_eq!(digest(&app), then);
    assert_eq!(
        ask(&app, "app.state", json!({}))["ok"]["trouble"],
        Value::Null
    );
    let aside = repaired["ok"]["aside"].as_str().unwrap();
    let kept: PathBuf = folder.path().join("backups").join(aside);
    assert!(
        fs::read(kept).unwrap() == damaged,
        "the damaged file is kept as it was"
    );

    drop(app);
    spoil(&path);
    let app = start(path.clone(), true);
    let restored = ask(&app, "backup.restore", json!({ "name": made["name"] }));
    assert!(restored["ok"].is_object(), "{restored}");
    assert_eq!(digest(&app), then);

    drop(app);
    fs::write(&path, "Dear all, ".repeat(900)).unwrap();
    let app = start(path, true);
    assert_eq!(
        ask(&app, "store.repair", json!({}))["error"]["code"],
        "nothing_readable"
    );
    assert_eq!(
        ask(&app, "app.state", json!({}))["ok"]["trouble"]["code"],
        "not_a_store"
    );
}

#[test]
fn while_another_program_has_the_store_open_it_is_not_replaced() {
    let bench = Bench::with_demo();
    let made = bench.ok("backup.make", json!({}));
    let beside = start(bench.path(), true);
    let before = digest(&bench.app);
    for (command, args) in [
        ("backup.restore", json!({ "name": made["name"] })),
        ("store.repair", json!({})),
    ] {
        let refused = bench.error(command, args);
        assert_eq!(refused["code"], "store_locked");
        assert_eq!(refused["retry"], true);
    }
    assert_eq!(digest(&bench.app), before);
    assert_eq!(digest(&beside), before);
}

#[test]
fn a_demo_shop_from_before_imports_were_remembered_can_be_taken_out() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let old = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../tests/stores/schema-5-demo.db");
    fs::copy(old, &path).unwrap();
    let app = start(path.clone(), false);
    assert_eq!(reasons(&app), ["before_migration"]);
    digest(&app);
    let imports = ask(&app, "import.list", json!({}));
    let import = imports["ok"]["imports"][0].clone();
    assert_eq!(import["demo"], true, "{imports}");
    // Somebody's own work stays.
    ask(&app, "person.add", json!({ "name": "Ines Varga" }));
    let removed = ask(&app, "import.remove", json!({ "import": import["import"] }));
    assert!(removed["ok"].is_object(), "{removed}");
    digest(&app);
    let overview = ask(&app, "shop.overview", json!({}));
    assert_eq!(overview["ok"]["demo"], false);
    assert_eq!(overview["ok"]["people"].as_array().unwrap().len(), 1);
    drop(app);
    let app = start(path, false);
    assert_eq!(
        ask(&app, "import.list", json!({}))["ok"]["imports"],
        json!([])
    );
}

#[test]
fn a_quick_check_looks_at_the_file_alone() {
    let bench = Bench::with_demo();
    let quick = bench.ok("store.check", json!({ "quick": true }));
    assert_eq!(quick["clean"], true);
    assert_eq!(quick["digest"], digest(&bench.app));
}
