//! What is chosen for a bundle, what stays behind, and whom it is signed by.

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

/// Makes a bundle; its answer, and where it lies.
fn made(bench: &Bench, name: &str, what: Value) -> (Value, PathBuf) {
    let made = bench.ok("bundle.make", what);
    let path = bench.folder.path().join(format!("{name}.vvb"));
    bench.ok("file.save", json!({ "file": made["file"], "path": path }));
    (made, path)
}

fn look(bench: &Bench, path: &Path) -> Value {
    let file = bench.ok("file.open", json!({ "path": path }))["file"].clone();
    bench.ok("bundle.look", json!({ "file": file }))
}

fn take_in(bench: &Bench, path: &Path) -> Value {
    let file = bench.ok("file.open", json!({ "path": path }))["file"].clone();
    bench.take_in(&file)
}

/// All that the bundle's bodies say, as anyone can read it.
fn bodies(path: &Path) -> String {
    use std::io::Read;
    let file = std::fs::File::open(path).unwrap();
    let mut archive = zip::ZipArchive::new(file).unwrap();
    let mut text = String::new();
    let mut member = archive.by_name("bodies.ndjson").unwrap();
    member.read_to_string(&mut text).unwrap();
    text
}

fn count(bench: &Bench, command: &str, field: &str) -> usize {
    bench.ok(command, json!({}))[field]
        .as_array()
        .unwrap()
        .len()
}

/// A device of its own, with its own person and all that the other has.
fn colleague_of(bench: &Bench, name: &str) -> Bench {
    let other = empty();
    take_in(&other, &made(bench, "first", json!({ "personal": true })).1);
    other.ok("person.add", json!({ "name": name }));
    other
}

fn device(bench: &Bench) -> String {
    let devices = bench.ok("device.list", json!({}))["devices"].clone();
    let own = devices
        .as_array()
        .unwrap()
        .iter()
        .find(|it| it["own"] == true);
    own.unwrap()["device"].as_str().unwrap().to_owned()
}

#[test]
fn a_unit_goes_with_its_profile_and_without_its_jobs() {
    let bench = Bench::with_demo();
    bench.open_job("Larkmoor L6");
    let units = bench.ok("shop.overview", json!({}))["units"].clone();
    let unit = pick(&units, "name", "Larkmoor L6")["id"].clone();
    let (answer, path) = made(&bench, "unit", json!({ "units": [unit] }));
    assert_eq!(answer["jobs"], 0);
    assert!(
        answer["name"]
            .as_str()
            .unwrap()
            .starts_with("unit-Larkmoor-L6")
    );
    let other = empty();
    take_in(&other, &path);
    assert_eq!(count(&other, "job.list", "jobs"), 0);
    let get = |bench: &Bench| bench.ok("unit.get", json!({ "unit": unit }));
    assert_eq!(get(&other)["profile"], get(&bench)["profile"]);
    assert_eq!(get(&other)["findings"], get(&bench)["findings"]);
    for bad in [
        json!({ "units": [] }),
        json!({ "units": [unit], "jobs": [] }),
    ] {
        assert_eq!(bench.error("bundle.make", bad)["code"], "bad_request");
    }
}

#[test]
fn what_is_meant_for_strangers_holds_nothing_in_peoples_own_words() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let customer = json!({ "part": "customer", "body": { "name": "Ulla Brandt" } });
    bench.ok("job.edit", json!({ "job": job, "part": customer }));
    let notes = json!({ "part": "notes", "body": { "text": "Owner says it was towed" } });
    bench.ok("job.edit", json!({ "job": job, "part": notes }));

    let (open, path) = made(&bench, "open", json!({}));
    assert_eq!(open["left_out_text"], 0);
    assert!(bodies(&path).contains("was towed"));

    let (close, path) = made(&bench, "close", json!({ "audience": "stranger" }));
    assert!(close["left_out_text"].as_u64().unwrap() >= 2, "{close}");
    assert_eq!(close["records"], open["records"], "envelopes go along");
    let said = bodies(&path);
    for text in ["was towed", "Harsh 2-3 when hot", "Ulla Brandt"] {
        assert!(!said.contains(text), "{text}");
    }
    assert!(said.contains("Larkmoor L6"));
    let other = empty();
    let plan = look(&other, &path);
    assert_eq!(plan["withheld_text"], close["left_out_text"]);
    take_in(&other, &path);
    // Whoever is trusted with it later gets it, and then both have the same.
    take_in(&other, &made(&bench, "all", json!({ "personal": true })).1);
    assert_eq!(digest(&other), digest(&bench));
}

#[test]
fn a_device_is_sent_only_what_it_is_not_known_to_have() {
    let bench = Bench::with_demo();
    bench.open_job("Larkmoor L6");
    let other = colleague_of(&bench, "Ida Lund");
    let theirs = device(&other);
    // Nothing is known of it yet: all is sent.
    let (all, _) = made(&bench, "all", json!({ "unseen_by": theirs }));
    assert_eq!(all["already_there"], 0);

    other.open_job("Larkmoor L6");
    take_in(&bench, &made(&other, "back", json!({ "personal": true })).1);
    let (none, _) = made(&bench, "none", json!({ "unseen_by": theirs }));
    assert_eq!(none["records"], 0, "{none}");

    let job = bench.open_job("Larkmoor L6");
    let (some, path) = made(&bench, "some", json!({ "unseen_by": theirs }));
    assert_eq!(some["jobs"], 1);
    assert!(some["records"].as_u64().unwrap() < 10, "{some}");
    take_in(&other, &path);
    assert_eq!(digest(&other), digest(&bench));
    assert!(other.call("job.get", json!({ "job": job }))["ok"].is_object());
    assert_eq!(
        bench.error("bundle.make", json!({ "unseen_by": "who?" }))["code"],
        "bad_request"
    );
}

#[test]
fn what_reaches_us_late_by_another_way_is_still_sent() {
    let bench = Bench::with_demo();
    let other = colleague_of(&bench, "Ida Lund");
    let third = colleague_of(&bench, "Per Holm");
    let first = third.open_job("Larkmoor L6");
    let second = third.open_job("Larkmoor L6");
    // The later job of the third goes to both, the earlier one to nobody yet.
    let (_, late) = made(&third, "late", json!({ "jobs": [second] }));
    take_in(&bench, &late);
    take_in(&other, &late);
    take_in(&bench, &made(&other, "back", json!({ "personal": true })).1);
    let theirs = device(&other);
    // Now the earlier one comes here: by the clock alone it would pass for known.
    take_in(&bench, &made(&third, "early", json!({ "jobs": [first] })).1);
    take_in(
        &other,
        &made(&bench, "rest", json!({ "unseen_by": theirs })).1,
    );
    assert_eq!(digest(&other), digest(&bench));
}

fn signer(plan: &Value, device: &str) -> Value {
    pick(&plan["signers"], "device", device).clone()
}

#[test]
fn a_known_name_under_an_unknown_key_is_told_and_taking_it_in_makes_it_known() {
    let bench = Bench::with_demo();
    let other = empty();
    bench.open_job("Larkmoor L6");
    let name = "  marta OYELARAN ";
    other.ok("person.add", json!({ "name": name }));
    let (_, path) = made(&other, "posing", json!({}));
    let before = digest(&bench);
    let one = signer(&look(&bench, &path), &device(&other));
    assert_eq!(one["stranger"], true);
    assert_eq!(one["poses_as"].as_array().unwrap().len(), 1, "{one}");
    // Looked at, and nothing more.
    assert_eq!(digest(&bench), before);
    take_in(&bench, &path);
    let one = signer(&look(&bench, &path), &device(&other));
    assert_eq!(one["stranger"], false);
    assert_eq!(one["poses_as"], json!([]));

    let another = empty();
    another.ok("person.add", json!({ "name": "Ida Lund" }));
    let (_, path) = made(&another, "new", json!({}));
    let one = signer(&look(&bench, &path), &device(&another));
    assert_eq!(
        (&one["stranger"], &one["poses_as"]),
        (&json!(true), &json!([]))
    );
}

#[test]
fn what_a_lost_device_signs_is_warned_of_until_it_is_trusted_again() {
    let bench = Bench::with_demo();
    let other = colleague_of(&bench, "Ida Lund");
    let lost = device(&other);
    take_in(&bench, &made(&other, "before", json!({})).1);
    let trust = |trusted: bool| json!({ "device": lost, "trusted": trusted });
    bench.ok("device.trust", trust(false));
    let known = bench.ok("device.list", json!({}))["devices"].clone();
    assert!(pick(&known, "device", &lost)["distrusted_since"].is_string());
    assert_eq!(pick(&known, "device", &lost)["people"], json!(["Ida Lund"]));

    other.open_job("Larkmoor L6");
    let (_, path) = made(&other, "after", json!({}));
    let one = signer(&look(&bench, &path), &lost);
    assert!(one["distrusted_since"].is_string(), "{one}");
    assert_eq!(one["signed_after"], 1);
    // It stays on this device, and survives a restart.
    let before = digest(&bench);
    let bench = bench.restart();
    assert_eq!(signer(&look(&bench, &path), &lost)["signed_after"], 1);
    assert_eq!(digest(&bench), before);
    bench.ok("device.trust", trust(true));
    assert!(signer(&look(&bench, &path), &lost)["distrusted_since"].is_null());

    bench.open_job("Larkmoor L6");
    let own = json!({ "device": device(&bench), "trusted": false });
    assert_eq!(bench.error("device.trust", own)["code"], "bad_request");
}
