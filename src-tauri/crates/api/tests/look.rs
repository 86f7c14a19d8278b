//! A file that is looked at: shown as the shop shows its own work, with what its signatures are
//! worth beside everything, and nothing of it in the store.

#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use std::collections::BTreeSet;
use std::io::{Cursor, Read, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::common::{Bench, INHG, start};
use api::ModelProjector;
use bundle::Origin;
use journal::{Kind as KindName, PersonId, SubjectId, WallTime};
use serde_json::{Value, json};
use store::{NewRecord, Selection, Setup, Store};

/// A device with nothing on it.
pub fn empty() -> Bench {
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

/// Everything by which a store could tell that something came in: its digest, what the first screen
/// shows, devices and imports known, and the names in its folder.
pub fn all_of(bench: &Bench) -> (Vec<Value>, BTreeSet<String>) {
    let told = [
        "shop.overview",
        "device.list",
        "import.list",
        "job.list",
        "erasure.list",
    ];
    let mut found = vec![digest(bench)];
    found.extend(told.map(|command| bench.ok(command, json!({}))));
    let names = std::fs::read_dir(bench.folder.path()).unwrap();
    let names = names.map(|entry| entry.unwrap().file_name().into_string().unwrap());
    (found, names.collect())
}

pub fn pass_on(bench: &Bench, what: Value) -> PathBuf {
    let made = bench.ok("bundle.make", what);
    let path = bench.folder.path().join(made["name"].as_str().unwrap());
    bench.ok("file.save", json!({ "file": made["file"], "path": path }));
    path
}

pub fn open(bench: &Bench, path: &Path) -> Value {
    bench.ok("file.open", json!({ "path": path }))["file"].clone()
}

/// The bundle with other members, as any program could pack them.
fn repacked(path: &Path, change: impl Fn(&str, String) -> Option<String>) -> Vec<u8> {
    let mut archive = zip::ZipArchive::new(Cursor::new(std::fs::read(path).unwrap())).unwrap();
    let mut out = zip::ZipWriter::new(Cursor::new(Vec::new()));
    for place in 0..archive.len() {
        let mut member = archive.by_index(place).unwrap();
        let name = member.name().unwrap().into_owned();
        let mut text = String::new();
        member.read_to_string(&mut text).unwrap();
        if let Some(text) = change(&name, text) {
            let options = zip::write::SimpleFileOptions::default();
            out.start_file(&name, options).unwrap();
            out.write_all(text.as_bytes()).unwrap();
        }
    }
    out.finish().unwrap().into_inner()
}

fn unsigned(path: &Path) -> Vec<u8> {
    repacked(path, |name, text| {
        (name != "signature.json").then_some(text)
    })
}

/// A job with customer, test, decision and repair: the job, its bore, test and repair.
pub fn worked(bench: &Bench) -> [Value; 4] {
    let job = bench.open_job("Larkmoor L6");
    let customer =
        json!({ "part": "customer", "body": { "name": "Ulla Brandt", "phone": "555 0100" } });
    bench.ok("job.edit", json!({ "job": job, "part": customer }));
    let test = bench.begin_test(&job);
    bench.set_up(&test);
    bench.record(&test, "blank", json!({ "vacuum_pa": 27.7 * INHG }));
    for (at, inhg) in [17.2, 16.9, 17.3].into_iter().enumerate() {
        assert_eq!(bench.read(&test, inhg, at > 0)["saved"], true);
    }
    bench.ok("test.decide", json!({ "test": test, "note": "Sleeve it" }));
    let bore = bench.ok("job.get", json!({ "job": job }))["bores"][0]["bore"].clone();
    let work = json!({
        "option": "sleeve_smaller_valve",
        "parts": "Sleeve and valve turned by the shop",
        "bore_diameter_m": 7.500e-3, "bore_uncertainty_m": 2e-6,
        "valve_diameter_m": 7.470e-3, "valve_uncertainty_m": 2e-6,
        "spring_load_n": 19.641, "spring_rate_n_per_m": 1500.0,
    });
    let repaired = bench.ok(
        "repair.record",
        json!({ "job": job, "bore": bore, "work": work }),
    );
    assert_eq!(repaired["saved"], true);
    [job, bore, test, repaired["view"]["id"].clone()]
}

/// All commands that show something of a file and say what it is worth, with its job, bore, test
/// and repair.
fn shown(file: &Value, [job, bore, test, repair]: &[Value; 4]) -> Vec<(&'static str, Value)> {
    let whole = json!({ "file": file, "job": job });
    let within = json!({ "file": file, "job": job, "bore": bore });
    vec![
        ("look.plan", whole.clone()),
        ("look.taps", whole.clone()),
        ("look.handover", whole),
        ("look.bore", within.clone()),
        ("look.relief", within),
        ("look.history", json!({ "file": file, "subject": job })),
        ("look.file", json!({ "file": file })),
        ("look.jobs", json!({ "file": file })),
        ("look.job", json!({ "file": file, "job": job })),
        ("look.test", json!({ "file": file, "test": test })),
        (
            "look.repair",
            json!({ "file": file, "job": job, "bore": bore, "repair": repair }),
        ),
    ]
}

/// What is done to it is told by undo alone, which is each device's own.
pub fn view(mut of: Value) -> Value {
    of.as_object_mut().unwrap().remove("undo");
    of
}

#[test]
fn what_is_looked_at_is_shown_as_its_own_shop_shows_it_and_nothing_enters() {
    let bench = Bench::with_demo();
    let work = worked(&bench);
    let [job, bore, test, repair] = &work;
    let path = pass_on(&bench, json!({ "jobs": [job], "personal": true }));

    let other = empty();
    let before = all_of(&other);
    let file = open(&other, &path);
    let about = other.ok("look.file", json!({ "file": file }));
    assert_eq!(about["proof"]["courier"], "signed");
    assert_eq!(about["proof"]["acceptable"], true);
    assert_eq!(about["proof"]["strangers"], 1);
    assert_eq!(about["proof"]["doubts"], json!([]));
    assert_eq!(about["made_by"], "Marta Oyelaran");
    assert_eq!(about["jobs"], 1);
    assert_eq!(about["tests_without_job"], 0);
    assert_eq!(about["personal"], 1);
    assert_eq!(about["withheld"], 0);
    assert_eq!(about["unknown"], json!([]));
    let own = bench.ok("device.list", json!({}));
    let own = own["devices"].as_array().unwrap();
    let own = own.iter().find(|it| it["own"] == true).unwrap();
    assert_eq!(about["made_on"], own["device"]);

    let list = other.ok("look.jobs", json!({ "file": file }));
    let ours = bench.ok("job.list", json!({}));
    let line = ours["jobs"]
        .as_array()
        .unwrap()
        .iter()
        .find(|it| it["id"] == *job);
    assert_eq!(list["list"]["jobs"], json!([line.unwrap()]));

    let looked = other.ok("look.job", json!({ "file": file, "job": job }));
    assert_eq!(looked["left_out"], json!([]));
    assert_eq!(looked["unit_known"], true);
    assert_eq!(looked["view"]["customer"]["name"], "Ulla Brandt");
    let ours = bench.ok("job.get", json!({ "job": job }));
    assert_eq!(view(looked["view"].clone()), view(ours));

    let looked = other.ok("look.test", json!({ "file": file, "test": test }));
    assert_eq!(looked["view"]["readings"].as_array().unwrap().len(), 3);
    assert_eq!(looked["view"]["decision"]["decision"]["note"], "Sleeve it");
    let ours = bench.ok("test.get", json!({ "test": test }));
    assert_eq!(view(looked["view"].clone()), view(ours));

    let which = json!({ "job": job, "bore": bore, "repair": repair });
    let mut there = which.clone();
    there["file"] = file.clone();
    let looked = other.ok("look.repair", there);
    assert_eq!(
        view(looked["view"].clone()),
        view(bench.ok("repair.get", which))
    );

    // The ordinary commands know nothing of it, while it is looked at and after.
    assert_eq!(
        other.error("job.get", json!({ "job": job }))["code"],
        "not_found"
    );
    assert_eq!(all_of(&other), before);
    other.ok("look.close", json!({ "file": file }));
    assert_eq!(all_of(&other), before);
    // Closed, it can be looked at again, and taken in.
    other.ok("look.job", json!({ "file": file, "job": job }));
    other.take_in(&file);
    assert_eq!(other.ok("job.list", json!({}))["found"], 1);
    let gone = other.error("look.file", json!({ "file": file }));
    assert_eq!(gone["code"], "look_closed");
}

#[test]
fn what_was_left_out_is_told_part_by_part() {
    let bench = Bench::with_demo();
    let work = worked(&bench);
    let [job, ..] = &work;
    let other = empty();
    let path = pass_on(&bench, json!({ "jobs": [job] }));
    let file = open(&other, &path);
    let about = other.ok("look.file", json!({ "file": file }));
    assert_eq!(
        (&about["personal"], &about["withheld"]),
        (&json!(1), &json!(1))
    );
    let looked = other.ok("look.job", json!({ "file": file, "job": job }));
    assert_eq!(looked["left_out"], json!(["customer"]));
    assert_eq!(looked["view"]["customer"], Value::Null);

    let path = pass_on(&bench, json!({ "jobs": [job], "audience": "stranger" }));
    let file = open(&other, &path);
    let about = other.ok("look.file", json!({ "file": file }));
    assert!(about["withheld_text"].as_u64().unwrap() > 0);
    let looked = other.ok("look.job", json!({ "file": file, "job": job }));
    assert_eq!(looked["left_out"], json!(["complaint", "customer"]));
}

#[test]
fn a_file_without_a_signature_is_seen_but_never_taken_in() {
    let bench = Bench::with_demo();
    let work = worked(&bench);
    let path = pass_on(&bench, json!({ "jobs": [work[0]], "personal": true }));
    let other = Bench::with_demo();
    let before = all_of(&other);
    let file = other.carry_in("unsigned.vvb", &unsigned(&path));
    for command in ["bundle.look", "bundle.take_in"] {
        assert_eq!(
            other.error(command, json!({ "file": file }))["code"],
            "bundle_unsigned"
        );
    }
    for (command, args) in shown(&file, &work) {
        let proof = other.ok(command, args)["proof"].clone();
        let told = json!({
            "name": "unsigned.vvb", "courier": "unsigned", "acceptable": false,
            // Its actions are signed all the same, by a device that is not known here.
            "misfit_actions": 0, "unsigned_records": 0, "strangers": 1, "doubts": [],
        });
        assert_eq!(proof, told, "{command}");
    }
    // It names a device, and no signature says that this one made it.
    let signers = other.ok("look.file", json!({ "file": file }))["signers"].clone();
    assert!(
        signers
            .as_array()
            .unwrap()
            .iter()
            .all(|it| it["made_it"] == false)
    );
    assert_eq!(
        other.error("bundle.take_in", json!({ "file": file }))["code"],
        "bundle_unsigned"
    );
    assert_eq!(all_of(&other), before);
    other.ok("file.drop", json!({ "file": file }));
    for (command, args) in shown(&file, &work) {
        assert_eq!(
            other.error(command, args)["code"],
            "look_closed",
            "{command}"
        );
    }
    assert_eq!(all_of(&other), before);
}

#[test]
fn a_signature_that_does_not_fit_is_told_wherever_it_stands() {
    let bench = Bench::with_demo();
    let work = worked(&bench);
    let path = pass_on(&bench, json!({ "jobs": [work[0]] }));
    let other = empty();
    let before = all_of(&other);
    let later = |text: String| text.replace("\"created\":1", "\"created\":2");
    let changed = repacked(&path, |name, text| {
        Some(if name == "manifest.json" {
            later(text)
        } else {
            text
        })
    });
    let file = other.carry_in("changed.vvb", &changed);
    assert_eq!(
        other.error("bundle.take_in", json!({ "file": file }))["code"],
        "bundle_signature"
    );
    for (command, args) in shown(&file, &work) {
        let proof = other.ok(command, args)["proof"].clone();
        assert_eq!(
            (&proof["courier"], &proof["acceptable"]),
            (&json!("misfit"), &json!(false))
        );
        assert_eq!(proof["misfit_actions"], 0);
    }

    // One action's own signature, with the manifest made to fit. Who signed that is nobody.
    let spoilt = std::cell::RefCell::new(String::new());
    let changed = repacked(&path, |name, text| {
        Some(match name {
            "records.ndjson" => {
                let at = text.find("\"signature\":\"").unwrap() + 20;
                let digit = if &text[at..=at] == "0" { "1" } else { "0" };
                let text = format!("{}{digit}{}", &text[..at], &text[at + 1..]);
                spoilt.borrow_mut().clone_from(&text);
                text
            }
            _ => text,
        })
    });
    let hash = blake3::hash(spoilt.borrow().as_bytes())
        .to_hex()
        .to_string();
    let half = other.folder.path().join("half.vvb");
    std::fs::write(&half, changed).unwrap();
    let changed = repacked(&half, |name, text| {
        if name != "manifest.json" {
            return Some(text);
        }
        let mut manifest: Value = serde_json::from_str(&text).unwrap();
        manifest["members"]["records.ndjson"]["blake3"] = hash.clone().into();
        Some(manifest.to_string())
    });
    std::fs::remove_file(half).unwrap();
    let file = other.carry_in("forged.vvb", &changed);
    assert_eq!(
        other.error("bundle.take_in", json!({ "file": file }))["code"],
        "bundle_signature"
    );
    let proof = other.ok("look.file", json!({ "file": file }))["proof"].clone();
    assert_eq!(proof["misfit_actions"], 1, "{proof}");
    assert!(proof["unsigned_records"].as_u64().unwrap() > 0, "{proof}");
    assert_eq!(all_of(&other), before);
}

#[test]
fn a_stranger_and_a_known_name_under_an_unknown_key_are_told() {
    let bench = Bench::with_demo();
    bench.ok("person.add", json!({ "name": "Ida Lund" }));
    let before = all_of(&bench);
    let posing = empty();
    posing.ok("person.add", json!({ "name": "ida  LUND" }));
    let path = pass_on(&posing, json!({}));
    let file = open(&bench, &path);
    let about = bench.ok("look.file", json!({ "file": file }));
    assert_eq!(about["proof"]["strangers"], 1);
    assert_eq!(about["proof"]["doubts"], json!(["known_name_unknown_key"]));
    assert_eq!(about["signers"][0]["poses_as"], json!(["ida  LUND"]));
    // Whoever looks was asked nothing, and nothing is remembered of them.
    assert_eq!(all_of(&bench), before);

    // Without a signature of the file's own the same holds of what is signed inside.
    let file = bench.carry_in("unsigned.vvb", &unsigned(&path));
    let proof = bench.ok("look.file", json!({ "file": file }))["proof"].clone();
    assert_eq!(proof["doubts"], json!(["known_name_unknown_key"]));
    assert_eq!(proof["courier"], "unsigned");
}

#[test]
fn a_kind_that_only_a_later_program_knows_is_named_and_the_rest_is_shown() {
    let at = WallTime::from_unix_ms(1_790_000_000_000);
    let ines = PersonId::from_bytes([1; 16]);
    let mut later = Store::open_in_memory(Setup::new(Arc::new(ModelProjector))).unwrap();
    let (unit, job) = ([2; 16], [3; 16]);
    let mut put = |subject: [u8; 16], kind: &'static str, kind_version, body: Value| {
        let record = NewRecord {
            subject: SubjectId::from_bytes(subject),
            kind: KindName::literal(kind),
            kind_version,
            supersedes: Vec::new(),
            body: serde_json::to_vec(&body).unwrap(),
            personal: false,
        };
        later.append(vec![record], ines, at).unwrap();
    };
    put([1; 16], "person", 1, json!({ "name": "Ines" }));
    let unit_id = uuid::Uuid::from_bytes(unit);
    put(
        job,
        "job",
        1,
        json!({ "unit": unit_id, "number": "0007", "opened_on": "2026-09-01" }),
    );
    put(
        job,
        "job.vehicle",
        1,
        json!({ "description": "2018 Wendover hatchback" }),
    );
    put(
        job,
        "job.complaint",
        99,
        json!({ "text": ["in", "another", "form"] }),
    );
    put(
        [4; 16],
        "later.thing",
        1,
        json!({ "job": uuid::Uuid::from_bytes(job) }),
    );
    let batch = later.export(&Selection::Everything, true).unwrap();
    let mut out = Cursor::new(Vec::new());
    let origin = Origin {
        author: ines,
        key: later.device_key(),
        created: at,
    };
    bundle::write(&mut out, &batch.check().unwrap(), &origin).unwrap();

    let bench = empty();
    let before = all_of(&bench);
    let file = bench.carry_in("later.vvb", &out.into_inner());
    let about = bench.ok("look.file", json!({ "file": file }));
    assert_eq!(
        about["unknown"],
        json!([
            { "kind": "job.complaint", "version": 99, "records": 1 },
            { "kind": "later.thing", "version": 1, "records": 1 },
        ])
    );
    let job = uuid::Uuid::from_bytes(job);
    let looked = bench.ok("look.job", json!({ "file": file, "job": job }));
    assert_eq!(
        looked["view"]["vehicle"]["description"],
        "2018 Wendover hatchback"
    );
    // Nor does it hold the unit that the job names.
    assert_eq!(looked["unit_known"], false);
    assert_eq!(all_of(&bench), before);
}

#[test]
fn what_rests_on_something_that_the_file_lacks_is_told_by_its_own_name() {
    let bench = Bench::with_demo();
    let other = empty();
    other.ok("person.add", json!({ "name": "Ida Lund" }));
    other.take_in(&open(&other, &pass_on(&bench, json!({}))));
    bench.take_in(&open(&bench, &pass_on(&other, json!({}))));
    let [job, bore, test, repair] = worked(&bench);
    let device = other.ok("device.list", json!({}));
    let device = device["devices"].as_array().unwrap();
    let device = device.iter().find(|it| it["own"] == true).unwrap()["device"].clone();
    // Only what his device hasn't seen: neither the unit nor the bore.
    let path = pass_on(&bench, json!({ "jobs": [job], "unseen_by": device }));
    let third = empty();
    let file = open(&third, &path);
    let looked = third.ok("look.job", json!({ "file": file, "job": job }));
    assert_eq!(looked["unit_known"], false);
    assert_eq!(looked["view"]["bores"], json!([]));
    for (command, args) in [
        ("look.test", json!({ "file": file, "test": test })),
        (
            "look.repair",
            json!({ "file": file, "job": job, "bore": bore, "repair": repair }),
        ),
        ("look.job", json!({ "file": file, "job": test })),
        (
            "look.bore",
            json!({ "file": file, "job": job, "bore": bore }),
        ),
        (
            "look.relief",
            json!({ "file": file, "job": job, "bore": bore }),
        ),
        ("look.plan", json!({ "file": file, "job": test })),
    ] {
        assert_eq!(
            third.error(command, args)["code"],
            "look_incomplete",
            "{command}"
        );
    }
}

#[test]
fn a_sealed_file_is_looked_at_once_it_is_opened_and_leaves_nothing() {
    let bench = Bench::with_demo();
    let [job, ..] = worked(&bench);
    let passphrase = "quiet otter brass";
    let path = pass_on(
        &bench,
        json!({ "jobs": [job], "personal": true, "passphrase": passphrase }),
    );
    let other = empty();
    let before = all_of(&other);
    let file = open(&other, &path);
    assert_eq!(
        other.error("look.file", json!({ "file": file }))["code"],
        "bundle_sealed"
    );
    other.ok(
        "file.unseal",
        json!({ "file": file, "passphrase": passphrase }),
    );
    let looked = other.ok("look.job", json!({ "file": file, "job": job }));
    assert_eq!(looked["view"]["customer"]["name"], "Ulla Brandt");
    assert_eq!(all_of(&other), before);
    other.ok("file.drop", json!({ "file": file }));
    for entry in std::fs::read_dir(other.folder.path()).unwrap() {
        let path = entry.unwrap().path();
        if path.is_file() {
            let bytes = std::fs::read(&path).unwrap();
            let found = bytes.windows(11).any(|part| part == b"Ulla Brandt");
            assert!(!found, "{}", path.display());
        }
    }
}
