//! A customer asks to be forgotten: what is held, what goes, and that no byte of it is left.

use std::path::{Path, PathBuf};

use crate::common::{Bench, pick, start};
use serde_json::{Value, json};

const NAME: &str = "Ulla Brandtner";
const PHONE: &str = "555 0100 77";
const PLATE: &str = "VV HL 2041";

fn empty() -> Bench {
    let folder = tempfile::tempdir().unwrap();
    Bench {
        app: start(folder.path().join("shop.db"), false),
        folder,
    }
}

fn customer(bench: &Bench, job: &Value, name: &str, phone: &str, plate: &str) {
    let part = json!({
        "part": "customer", "body": { "name": name, "phone": phone, "plate": plate },
    });
    bench.ok("job.edit", json!({ "job": job, "part": part }));
}

fn say(bench: &Bench, job: &Value, part: &str, text: &str) {
    let part = json!({ "part": part, "body": { "text": text } });
    bench.ok("job.edit", json!({ "job": job, "part": part }));
}

/// Two jobs of one customer, one of another, one whose note names her.
struct Jobs {
    first: Value,
    second: Value,
    other: Value,
}

fn jobs(bench: &Bench) -> Jobs {
    let [first, second, other] = [0, 1, 2].map(|_| bench.open_job("Larkmoor L6"));
    customer(bench, &first, "Ulla Brandt", "", "");
    customer(bench, &first, NAME, PHONE, PLATE);
    say(bench, &first, "notes", "Mrs Brandtner waits in the yard");
    let test = bench.begin_test(&first);
    bench.set_up(&test);
    bench.read(&test, 18.2, false);
    customer(
        bench,
        &second,
        "ulla  brandtner",
        "0555-010077",
        "vv-hl 2041",
    );
    customer(bench, &other, "Edda Malling", "555 0142", "");
    Jobs {
        first,
        second,
        other,
    }
}

fn holds(path: &Path, text: &str) -> bool {
    let bytes = std::fs::read(path).unwrap();
    bytes
        .windows(text.len())
        .any(|window| window == text.as_bytes())
}

/// Every file in the store's folder and its backups.
fn files(bench: &Bench) -> Vec<PathBuf> {
    let mut found = Vec::new();
    for folder in [
        bench.folder.path().to_owned(),
        bench.folder.path().join("backups"),
    ] {
        for entry in std::fs::read_dir(folder).into_iter().flatten() {
            let path = entry.unwrap().path();
            if path.is_file() {
                found.push(path);
            }
        }
    }
    found
}

fn pass_on(bench: &Bench) -> PathBuf {
    let made = bench.ok("bundle.make", json!({ "personal": true }));
    let path = bench.folder.path().join(made["name"].as_str().unwrap());
    bench.ok("file.save", json!({ "file": made["file"], "path": path }));
    path
}

fn take_in(bench: &Bench, path: &Path) -> Value {
    let file = bench.ok("file.open", json!({ "path": path }))["file"].clone();
    bench.take_in(&file)
}

fn erase(bench: &Bench, job: &Value) -> Value {
    let what = json!([{ "job": job, "notes": true }]);
    bench.ok("customer.erase", json!({ "jobs": what }))
}

#[test]
fn what_is_held_is_found_across_jobs_and_only_what_was_confirmed_goes() {
    let bench = Bench::with_demo();
    let Jobs {
        first,
        second,
        other,
    } = jobs(&bench);
    let held = bench.ok("customer.held", json!({ "job": first }));
    let held = held["jobs"].as_array().unwrap().clone();
    assert_eq!(held[0]["job"], first);
    assert_eq!(held[0]["customer_records"], 2);
    assert_eq!(held[0]["customers"][0]["name"], NAME);
    assert_eq!(held[0]["customers"][1]["name"], "Ulla Brandt");
    assert_eq!(held[0]["notes"]["names_customer"], true);
    assert_eq!(held[0]["complaint"]["names_customer"], false);
    let again = held.iter().find(|one| one["job"] == second).unwrap();
    assert_eq!(again["same_by"], json!(["name", "phone", "plate"]));
    assert!(held.iter().all(|one| one["job"] != other));

    let what = json!([{ "job": first, "notes": true }]);
    let preview = bench.ok("customer.erase", json!({ "jobs": what, "dry_run": true }));
    assert_eq!(preview["erasure"], Value::Null);
    assert_eq!(
        preview["goes"],
        json!([
            { "kind": "job.customer", "records": 2 },
            { "kind": "job.notes", "records": 1 },
        ])
    );
    let before = bench.ok("job.get", json!({ "job": first }));
    assert_eq!(before["customer"]["name"], NAME);

    erase(&bench, &first);
    let after = bench.ok("job.get", json!({ "job": first }));
    assert_eq!(after["customer"], Value::Null);
    assert_eq!(after["notes"]["text"], "");
    assert_eq!(after["erased"][0]["part"], "customer");
    assert_eq!(after["erased"][0]["by"]["by"], "Marta Oyelaran");
    for stays in ["vehicle", "complaint", "bores", "hazards"] {
        assert_eq!(after[stays], before[stays], "{stays}");
    }
    let not_confirmed = bench.ok("job.get", json!({ "job": second }));
    assert_eq!(not_confirmed["customer"]["name"], "ulla  brandtner");
    let found = bench.ok("job.list", json!({ "text": "yard" }));
    assert_eq!(found["found"], 0);
    let history = bench.ok("history.get", json!({ "subject": first }));
    let gone = history["entries"].as_array().unwrap().iter();
    let gone: Vec<_> = gone.filter(|entry| entry["erased"] == true).collect();
    assert_eq!(gone.len(), 3);
    assert!(gone.iter().all(|entry| entry["body"] == Value::Null));
    assert_eq!(bench.ok("store.check", json!({}))["clean"], true);

    // It can't be undone; what was done before it can.
    let state = bench.ok("shop.overview", json!({}));
    assert_ne!(state["undo"]["undo"]["kind"], "erasure");
    // A new customer can be written down again.
    customer(&bench, &first, "Tom Rook", "", "");
    let view = bench.ok("job.get", json!({ "job": first }));
    assert_eq!(view["customer"]["name"], "Tom Rook");
    assert_eq!(view["erased"][0]["part"], "notes");
}

#[test]
fn no_byte_is_left_but_in_older_copies_which_are_named_and_can_be_deleted() {
    let bench = Bench::with_demo();
    let Jobs { first, second, .. } = jobs(&bench);
    bench.ok(
        "draft.put",
        json!({ "key": format!("job:{}:customer", first.as_str().unwrap()), "value": { "name": "Ul" } }),
    );
    bench.ok(
        "draft.put",
        json!({ "key": "new_job", "value": { "notes": format!("for {NAME} again") } }),
    );
    let old = bench.ok("backup.make", json!({}));
    let kept = bench.ok("bundle.make", json!({ "personal": true }));
    assert!(files(&bench).iter().any(|path| holds(path, NAME)));

    let jobs = json!([{ "job": first, "notes": true }, { "job": second }]);
    let done = bench.ok("customer.erase", json!({ "jobs": jobs }));
    assert_eq!(done["drafts"], 2, "{done}");
    let proof = &done["proof"];
    assert_eq!(proof["rewritten"], true);
    assert!(proof["texts"].as_u64().unwrap() >= 5, "{proof}");
    let places = proof["places"].as_array().unwrap();
    let of = |kind: &'static str| places.iter().filter(move |place| place["place"] == kind);
    assert!(of("store").count() >= 1 && of("bundle").count() == 1);
    for place in of("store").chain(of("bundle")).chain(of("backup")) {
        assert_eq!(place["found"], false, "{place}");
        assert!(place["bytes"].as_u64().is_some());
    }
    // The search finds what is there: the older copy is the proof that it can.
    let older: Vec<_> = of("older_copy").collect();
    assert_eq!(older.len(), 1);
    assert_eq!(older[0]["found"], true);
    assert_eq!(done["older"][0]["name"], old["name"]);

    for text in [NAME, "ulla  brandtner", PHONE, PLATE, "Brandtner waits"] {
        for path in files(&bench) {
            let is_older = path.ends_with(old["name"].as_str().unwrap());
            assert_eq!(holds(&path, text), is_older, "{text} in {}", path.display());
        }
    }
    // What was made before and not saved yet is gone.
    let read = bench.call("file.read", json!({ "file": kept["file"], "from": 0 }));
    assert_eq!(read["error"]["code"], "not_found");

    let dropped = bench.ok(
        "backup.drop",
        json!({ "names": [old["name"]], "fresh": true }),
    );
    assert_eq!(dropped["dropped"], 1);
    let list = bench.ok("erasure.list", json!({}));
    assert_eq!(list["older"], json!([]));
    assert_eq!(list["pending"], false);
    assert_eq!(list["erasures"][0]["by"]["by"], "Marta Oyelaran");
    assert_eq!(list["erasures"][0]["own"], true);
    assert_eq!(list["erasures"][0]["jobs"].as_array().unwrap().len(), 2);
    for path in files(&bench) {
        assert!(!holds(&path, NAME), "{}", path.display());
    }
    let looked = bench.ok("erasure.look", json!({ "texts": [NAME, "Wendover", "x"] }));
    assert_eq!(looked["texts"], 2);
    assert_eq!(looked["too_short"], 1);
    let found = pick(&looked["places"], "place", "backup");
    assert_eq!(found["found"], true, "Wendover is still there");
}

#[test]
fn what_another_record_still_says_is_told() {
    let bench = Bench::with_demo();
    let Jobs { first, other, .. } = jobs(&bench);
    say(&bench, &other, "notes", &format!("sister of {NAME}"));
    let done = erase(&bench, &first);
    let proof = &done["proof"];
    assert_eq!(pick(&proof["places"], "place", "store")["found"], true);
    let number = bench.ok("job.get", json!({ "job": other }))["job"]["number"].clone();
    let said = json!({ "job": number, "kind": "job.notes" });
    assert!(
        proof["still_said"].as_array().unwrap().contains(&said),
        "{proof}"
    );
}

#[test]
fn it_travels_and_comes_back_from_nowhere() {
    let bench = Bench::with_demo();
    let colleague = empty();
    let Jobs { first, .. } = jobs(&bench);
    let before = pass_on(&bench);
    take_in(&colleague, &before);
    let theirs = |of: &Bench| of.ok("job.get", json!({ "job": first }))["customer"].clone();
    assert_eq!(theirs(&colleague)["name"], NAME);

    erase(&bench, &first);
    std::fs::rename(&before, bench.folder.path().join("older.vvb")).unwrap();
    let before = bench.folder.path().join("older.vvb");
    let after = pass_on(&bench);
    let file = colleague.ok("file.open", json!({ "path": after }))["file"].clone();
    let plan = colleague.ok("bundle.look", json!({ "file": file }));
    assert_eq!(plan["erases"], 3, "{plan}");
    assert_eq!(theirs(&colleague)["name"], NAME, "a look changes nothing");
    let taken = take_in(&colleague, &after);
    assert_eq!(taken["erased"], 3);
    assert_eq!(theirs(&colleague), Value::Null);
    assert!(!holds(&colleague.path(), NAME));
    let list = colleague.ok("erasure.list", json!({}));
    assert_eq!(list["erasures"][0]["own"], false);
    assert_eq!(
        list["older"].as_array().unwrap().len(),
        1,
        "before taking it in"
    );

    // Somebody hands the old file in again.
    for one in [&colleague, &bench] {
        let file = one.ok("file.open", json!({ "path": before }))["file"].clone();
        let plan = one.ok("bundle.look", json!({ "file": file }));
        assert_eq!(plan["refused"], 3, "{plan}");
        take_in(one, &before);
        assert_eq!(theirs(one), Value::Null);
        assert!(!holds(&one.path(), NAME));
    }
    let digest = |of: &Bench| of.ok("store.check", json!({}))["digest"].clone();
    assert_eq!(digest(&bench), digest(&colleague));
}

#[test]
fn going_back_to_a_backup_from_before_brings_nothing_of_it_back() {
    let bench = Bench::with_demo();
    let Jobs { first, .. } = jobs(&bench);
    let old = bench.ok("backup.make", json!({}));
    erase(&bench, &first);
    let restored = bench.ok("backup.restore", json!({ "name": old["name"] }));
    assert_eq!(restored["erased"], 3);
    let view = bench.ok("job.get", json!({ "job": first }));
    assert_eq!(view["customer"], Value::Null);
    assert_eq!(view["erased"][0]["by"]["by"], "Marta Oyelaran");
    assert!(!holds(&bench.path(), NAME));
    assert_eq!(bench.ok("store.check", json!({}))["clean"], true);
}

#[test]
fn the_report_says_that_it_was_erased() {
    let bench = Bench::with_demo();
    let Jobs { first, .. } = jobs(&bench);
    erase(&bench, &first);
    let made = bench.ok("report.write", json!({ "job": first, "personal": true }));
    let path = bench.folder.path().join("report.html");
    bench.ok("file.save", json!({ "file": made["file"], "path": path }));
    let page = std::fs::read_to_string(path).unwrap();
    assert!(page.contains("erased on request"));
    assert!(!page.contains("Brandt"));
}
