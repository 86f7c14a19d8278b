//! Two people changed one thing without knowing of each other; one of them settles it.

use crate::common::{Bench, INHG, start};
use serde_json::{Value, json};

fn digest(bench: &Bench) -> Value {
    let check = bench.ok("store.check", json!({}));
    assert_eq!(check["clean"], true, "{check}");
    check["digest"].clone()
}

fn send(from: &Bench, to: &Bench) {
    let made = from.ok("bundle.make", json!({ "personal": true }));
    let path = from.folder.path().join("sent.vvb");
    from.ok("file.save", json!({ "file": made["file"], "path": path }));
    let file = to.ok("file.open", json!({ "path": path }))["file"].clone();
    to.take_in(&file);
}

/// Marta's phone with a job and a test, and Ida's with the same.
fn two() -> (Bench, Bench, Value, Value) {
    let marta = Bench::with_demo();
    let job = marta.open_job("Larkmoor L6");
    let test = marta.begin_test(&job);
    marta.set_up(&test);
    marta.read(&test, 17.1, false);
    let folder = tempfile::tempdir().unwrap();
    let ida = Bench {
        app: start(folder.path().join("shop.db"), false),
        folder,
    };
    send(&marta, &ida);
    ida.ok("person.add", json!({ "name": "Ida Lund" }));
    (marta, ida, job, test)
}

fn edit(bench: &Bench, job: &Value, part: &str, body: Value) {
    let part = json!({ "part": part, "body": body });
    bench.ok("job.edit", json!({ "job": job, "part": part }));
}

/// What is to be settled, but for the demo shop's own notes of job 0114.
fn to_settle(bench: &Bench) -> Vec<Value> {
    let list = bench.ok("settle.list", json!({}))["items"].clone();
    let (demo, ours): (Vec<_>, Vec<_>) = list
        .as_array()
        .unwrap()
        .iter()
        .cloned()
        .partition(|item| item["of"] == "0114");
    assert_eq!(demo.len(), 1);
    ours
}

fn choose(item: &Value, version: usize) -> Value {
    let versions = item["versions"].as_array().unwrap();
    let seen: Vec<_> = versions.iter().map(|it| it["record"].clone()).collect();
    json!({
        "subject": item["subject"],
        "kind": item["kind"],
        "choose": versions[version]["record"],
        "seen": seen,
    })
}

#[test]
fn both_versions_are_told_one_is_chosen_and_both_shops_agree() {
    let (marta, ida, job, _) = two();
    edit(
        &marta,
        &job,
        "complaint",
        json!({ "text": "Harsh 2-3 hot" }),
    );
    edit(&ida, &job, "complaint", json!({ "text": "Slips 2-3 hot" }));
    edit(
        &ida,
        &job,
        "customer",
        json!({ "name": "Ulla Brandt", "phone": "", "plate": "" }),
    );
    assert_eq!(to_settle(&marta), Vec::<Value>::new());
    send(&ida, &marta);
    send(&marta, &ida);
    assert_eq!(digest(&marta), digest(&ida));

    let items = to_settle(&marta);
    assert_eq!(items.len(), 1, "{items:?}");
    let item = &items[0];
    assert_eq!(item["kind"], "job.complaint");
    assert_eq!(item["job"], job);
    let texts = item["versions"].as_array().unwrap().iter();
    let texts: Vec<_> = texts.map(|it| (&it["by"], &it["body"]["text"])).collect();
    assert!(texts.contains(&(&json!("Marta Oyelaran"), &json!("Harsh 2-3 hot"))));
    assert!(texts.contains(&(&json!("Ida Lund"), &json!("Slips 2-3 hot"))));
    let within = marta.ok("settle.list", json!({ "within": job }));
    assert_eq!(within["items"].as_array().unwrap().len(), 1);

    let shown = |bench: &Bench| bench.ok("job.get", json!({ "job": job }))["complaint"].clone();
    let other = usize::from(item["versions"][0]["shown"] == true);
    let picked = item["versions"][1 - other]["body"].clone();
    marta.ok("settle.choose", choose(item, 1 - other));
    assert_eq!(to_settle(&marta), Vec::<Value>::new());
    assert_eq!(shown(&marta), picked);
    // The settlement is a change like any other: undone, both stand again.
    marta.ok("undo.last", json!({}));
    assert_eq!(to_settle(&marta).len(), 1);
    marta.ok("redo.last", json!({}));
    assert_eq!(shown(&marta), picked);

    send(&marta, &ida);
    assert_eq!(to_settle(&ida), Vec::<Value>::new());
    assert_eq!(shown(&ida), picked);
    send(&ida, &marta);
    assert_eq!(digest(&marta), digest(&ida));
}

#[test]
fn a_third_version_that_came_meanwhile_is_not_settled_unseen() {
    let (marta, ida, job, _) = two();
    edit(&marta, &job, "notes", json!({ "text": "one" }));
    edit(&ida, &job, "notes", json!({ "text": "two" }));
    send(&ida, &marta);
    let item = to_settle(&marta)[0].clone();
    let mut partly = choose(&item, 0);
    partly["seen"] = json!([partly["choose"]]);
    assert_eq!(
        marta.error("settle.choose", partly)["code"],
        "settle_changed"
    );
    marta.ok("settle.choose", choose(&item, 0));
    let again = marta.error("settle.choose", choose(&item, 0));
    assert_eq!(again["code"], "settle_changed");
}

#[test]
fn another_value_written_replaces_both() {
    let (marta, ida, job, _) = two();
    edit(&marta, &job, "notes", json!({ "text": "one" }));
    edit(&ida, &job, "notes", json!({ "text": "two" }));
    send(&ida, &marta);
    edit(&marta, &job, "notes", json!({ "text": "one and two" }));
    assert_eq!(to_settle(&marta), Vec::<Value>::new());
}

#[test]
fn one_reading_that_two_people_corrected_counts_once_again_when_it_is_settled() {
    let (marta, ida, job, test) = two();
    let record = marta.ok("test.get", json!({ "test": test }))["readings"][0]["record"].clone();
    let correct = |bench: &Bench, record: &Value, inhg: f64| {
        let reading = json!({ "vacuum_pa": inhg * INHG, "reseated": false });
        let args = json!({ "test": test, "record": record, "reading": reading });
        assert_eq!(bench.ok("test.correct", args)["saved"], true);
    };
    correct(&marta, &record, 17.4);
    correct(&ida, &record, 17.8);
    send(&ida, &marta);
    let readings = |bench: &Bench| {
        let view = bench.ok("test.get", json!({ "test": test }));
        view["readings"].as_array().unwrap().clone()
    };
    assert_eq!(readings(&marta).len(), 2);
    let items = to_settle(&marta);
    assert_eq!(items.len(), 1, "{items:?}");
    assert_eq!(
        (&items[0]["kind"], &items[0]["test"]),
        (&json!("test.reading"), &test)
    );
    assert_eq!(items[0]["job"], job);
    marta.ok("settle.choose", choose(&items[0], 1));
    assert_eq!(readings(&marta).len(), 1);
    marta.ok("undo.last", json!({}));
    // Written anew, it replaces both as well.
    let one = readings(&marta)[0]["record"].clone();
    correct(&marta, &one, 17.6);
    assert_eq!(readings(&marta).len(), 1);
    assert_eq!(to_settle(&marta), Vec::<Value>::new());
    send(&marta, &ida);
    assert_eq!(readings(&ida).len(), 1);
}

#[test]
fn one_record_is_taken_back_and_brought_back_also_after_a_restart() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    edit(&bench, &job, "notes", json!({ "text": "one" }));
    edit(&bench, &job, "notes", json!({ "text": "two" }));
    edit(&bench, &job, "complaint", json!({ "text": "Harsh" }));
    let notes = |bench: &Bench| bench.ok("job.get", json!({ "job": job }))["notes"]["text"].clone();
    let entries = bench.ok("history.get", json!({ "subject": job }))["entries"].clone();
    let find = |test: &dyn Fn(&Value) -> bool| {
        let found = entries.as_array().unwrap().iter().find(|it| test(it));
        found.unwrap().clone()
    };
    let second = find(&|it| it["body"]["text"] == "two");
    assert_eq!(second["can_take_back"], true);
    let name = json!({ "record": second["record"] });
    bench.ok("record.take_back", name.clone());
    assert_eq!(notes(&bench), "one");
    assert_eq!(
        bench.error("record.take_back", name.clone())["code"],
        "nothing_to_undo"
    );
    let bench = bench.restart();
    bench.ok("record.bring_back", name.clone());
    assert_eq!(notes(&bench), "two");
    assert_eq!(to_settle(&bench), Vec::<Value>::new());
    assert_eq!(
        bench.error("record.bring_back", name)["code"],
        "nothing_to_undo"
    );
    // A job isn't left without its beginning.
    let first = find(&|it| it["kind"] == "job");
    assert_eq!(first["can_take_back"], false);
    let error = bench.error("record.take_back", json!({ "record": first["record"] }));
    assert_eq!(error["code"], "cannot_take_back");
}
