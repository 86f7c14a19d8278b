//! Whom a shop believes: each unknown signer is asked about, and without the answer nothing is
//! taken in.

use std::path::{Path, PathBuf};

use crate::common::{Bench, pick, start};
use serde_json::{Value, json};

fn empty() -> Bench {
    let folder = tempfile::tempdir().unwrap();
    Bench {
        app: start(folder.path().join("shop.db"), false),
        folder,
    }
}

fn digest(bench: &Bench) -> Value {
    let check = bench.ok("store.check", json!({}));
    assert_eq!(check["clean"], true, "{check}");
    check["digest"].clone()
}

fn made(bench: &Bench, name: &str) -> PathBuf {
    let made = bench.ok("bundle.make", json!({ "personal": true }));
    let path = bench.folder.path().join(format!("{name}.vvb"));
    bench.ok("file.save", json!({ "file": made["file"], "path": path }));
    path
}

fn open(bench: &Bench, path: &Path) -> Value {
    bench.ok("file.open", json!({ "path": path }))["file"].clone()
}

fn devices(bench: &Bench) -> Value {
    bench.ok("device.list", json!({}))["devices"].clone()
}

fn own(bench: &Bench) -> String {
    let list = devices(bench);
    let found = list.as_array().unwrap().iter().find(|it| it["own"] == true);
    found.unwrap()["device"].as_str().unwrap().to_owned()
}

fn asking(bench: &Bench, file: &Value) -> Vec<Value> {
    let plan = bench.ok("bundle.look", json!({ "file": file }));
    let signers = plan["signers"].as_array().unwrap().iter();
    signers.filter(|it| it["asks"] == true).cloned().collect()
}

fn refused(bench: &Bench, file: &Value, signers: &Value) -> String {
    let before = digest(bench);
    let args = json!({ "file": file, "signers": signers });
    let error = bench.error("bundle.take_in", args);
    assert_eq!(digest(bench), before);
    error["code"].as_str().unwrap().to_owned()
}

#[test]
fn a_first_seen_device_is_taken_in_only_with_an_answer_which_is_remembered() {
    let bench = Bench::with_demo();
    let other = empty();
    other.ok("person.add", json!({ "name": "Ida Lund" }));
    let path = made(&other, "first");
    let file = open(&bench, &path);
    let asked = asking(&bench, &file);
    assert_eq!(asked.len(), 1);
    assert_eq!(asked[0]["device"], own(&other));
    assert_eq!(asked[0]["doubts"], json!([]));
    assert_eq!(refused(&bench, &file, &json!([])), "signer_unanswered");
    // An answer about somebody else is none about this one.
    let elsewhere = json!([{ "device": own(&bench) }]);
    assert_eq!(refused(&bench, &file, &elsewhere), "signer_unanswered");

    let answer = json!([{ "device": own(&other), "name": " Ida’s  phone " }]);
    bench.ok("bundle.take_in", json!({ "file": file, "signers": answer }));
    let known = pick(&devices(&bench), "device", &own(&other)).clone();
    assert_eq!(known["name"], "Ida’s phone");
    assert_eq!(known["records"], 1);

    // The next one is not asked about, nor is it after the import was taken out again.
    let import = bench.ok("import.list", json!({}))["imports"][0]["import"].clone();
    bench.ok("import.remove", json!({ "import": import }));
    let bench = bench.restart();
    let file = open(&bench, &path);
    assert_eq!(asking(&bench, &file), Vec::<Value>::new());
    bench.ok("bundle.take_in", json!({ "file": file }));
}

#[test]
fn a_known_name_under_an_unknown_key_needs_a_second_yes() {
    let bench = Bench::with_demo();
    bench.ok("person.add", json!({ "name": "Ida Lund" }));
    let other = empty();
    other.ok("person.add", json!({ "name": "ida  LUND" }));
    let file = open(&bench, &made(&other, "posing"));
    let asked = asking(&bench, &file);
    assert_eq!(asked[0]["doubts"], json!(["known_name_unknown_key"]));
    let one_yes = json!([{ "device": own(&other) }]);
    assert_eq!(refused(&bench, &file, &one_yes), "signer_in_doubt");
    let two = json!([{ "device": own(&other), "despite_doubts": true }]);
    bench.ok("bundle.take_in", json!({ "file": file, "signers": two }));
}

#[test]
fn no_two_devices_have_one_name() {
    let bench = Bench::with_demo();
    let name = json!({ "device": own(&bench), "name": "Bench PC" });
    let list = bench.ok("device.rename", name);
    assert_eq!(
        pick(&list["devices"], "device", &own(&bench))["name"],
        "Bench PC"
    );
    let other = empty();
    other.ok("person.add", json!({ "name": "Ida Lund" }));
    let file = open(&bench, &made(&other, "named"));
    let answer = json!([{ "device": own(&other), "name": "bench pc" }]);
    assert_eq!(refused(&bench, &file, &answer), "device_name_taken");
    for name in ["", "  ", "a\nb\u{7}", &"long ".repeat(20)] {
        let args = json!({ "device": own(&bench), "name": name });
        assert_eq!(bench.error("device.rename", args)["code"], "bad_request");
    }
}

#[test]
fn the_demo_shop_asks_nothing_but_its_keys_are_not_believed_beyond_it() {
    let bench = Bench::with_demo();
    let other = empty();
    // What she passes on holds the demo's records, signed by the demo's devices.
    let file = open(&other, &made(&bench, "shop"));
    let asked = asking(&other, &file);
    assert_eq!(asked.len(), 1, "{asked:?}");
    assert_eq!(asked[0]["device"], own(&bench));
}

#[test]
fn what_a_lost_device_signed_since_needs_a_second_yes_and_what_it_signed_before_does_not() {
    let bench = Bench::with_demo();
    let other = empty();
    other.take_in(&open(&other, &made(&bench, "shop")));
    other.ok("person.add", json!({ "name": "Ida Lund" }));
    bench.take_in(&open(&bench, &made(&other, "before")));
    let lost = json!({
        "device": own(&other), "trusted": false, "reason": "lost", "since": "2026-04-13",
    });
    bench.ok("device.trust", lost);
    let known = pick(&devices(&bench), "device", &own(&other)).clone();
    assert_eq!(known["reason"], "lost");
    assert_eq!(known["distrusted_since"], "2026-04-13T00:00:00Z");
    let later = json!({ "device": own(&other), "trusted": false, "since": "2026-05-01" });
    assert_eq!(bench.error("device.trust", later)["field"], "since");

    other.open_job("Larkmoor L6");
    let file = open(&bench, &made(&other, "after"));
    assert_eq!(asking(&bench, &file)[0]["doubts"], json!(["not_trusted"]));
    let one_yes = json!([{ "device": own(&other) }]);
    assert_eq!(refused(&bench, &file, &one_yes), "signer_in_doubt");
    let trusted = json!({ "device": own(&other), "trusted": true });
    bench.ok("device.trust", trusted);
    assert_eq!(asking(&bench, &file), Vec::<Value>::new());
    bench.ok("bundle.take_in", json!({ "file": file }));
}

/// Two phones, one of which is a copy of the other's storage: the same key on both.
#[test]
fn a_copied_device_is_told_and_starts_over_under_a_key_of_its_own() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let folder = tempfile::tempdir().unwrap();
    // Closed, so that the file is whole.
    let Bench { app, folder: first } = bench;
    drop(app);
    std::fs::copy(first.path().join("shop.db"), folder.path().join("shop.db")).unwrap();
    let bench = Bench {
        app: start(first.path().join("shop.db"), true),
        folder: first,
    };
    let copy = Bench {
        app: start(folder.path().join("shop.db"), true),
        folder,
    };
    assert_eq!(own(&bench), own(&copy));
    let note = |bench: &Bench, text: &str| {
        let part = json!({ "part": "notes", "body": { "text": text } });
        bench.ok("job.edit", json!({ "job": job, "part": part }));
    };
    note(&bench, "Pan off");
    note(&copy, "Pan on");
    let file = open(&bench, &made(&copy, "copy"));
    let asked = asking(&bench, &file);
    assert_eq!(asked[0]["doubts"], json!(["own_key_elsewhere"]));
    assert_eq!(
        pick(&devices(&bench), "device", &own(&bench))["copied"],
        false
    );
    bench.take_in(&file);
    let before = own(&bench);
    assert_eq!(pick(&devices(&bench), "device", &before)["copied"], true);

    bench.ok(
        "device.rename",
        json!({ "device": before, "name": "Marta’s phone" }),
    );
    let list = bench.ok("device.start_over", json!({}));
    let now = own(&bench);
    assert_ne!(now, before);
    assert_eq!(
        pick(&list["devices"], "device", &now)["name"],
        "Marta’s phone"
    );
    let old = pick(&list["devices"], "device", &before);
    assert_eq!(
        (&old["reason"], &old["own"]),
        (&json!("copied"), &json!(false))
    );
    // Work goes on under the new key, also after a restart.
    note(&bench, "Pan on, torqued");
    let bench = bench.restart();
    assert_eq!(own(&bench), now);
    let history = bench.ok("history.get", json!({ "subject": job }));
    assert_eq!(
        history["entries"].as_array().unwrap().last().unwrap()["device"],
        now
    );
    digest(&bench);
}

#[test]
fn the_person_who_works_now_is_the_author_of_what_is_recorded_now() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    bench.ok("person.add", json!({ "name": "Ida Lund" }));
    let part = json!({ "part": "notes", "body": { "text": "Pan off" } });
    bench.ok("job.edit", json!({ "job": job, "part": part }));
    let history = bench.ok("history.get", json!({ "subject": job }));
    let by = |kind: &str| pick(&history["entries"], "kind", kind)["by"].clone();
    assert_eq!(by("job"), "Marta Oyelaran");
    assert_eq!(by("job.notes"), "Ida Lund");
    let people = pick(&devices(&bench), "device", &own(&bench))["people"].clone();
    assert_eq!(people, json!(["Ida Lund", "Marta Oyelaran"]));
}
