//! Work passed on as a file and taken in: what a colleague gets, and what a bad file does not do.

use std::path::Path;

use crate::common::{Bench, start};
use api::{App, ErrorCode, Options};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde_json::{Value, json};

/// A colleague's device: a store of their own with nothing in it.
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

/// Makes a bundle and writes it beside the store.
fn pass_on(bench: &Bench, what: Value) -> std::path::PathBuf {
    let made = bench.ok("bundle.make", what);
    let path = bench.folder.path().join(made["name"].as_str().unwrap());
    bench.ok("file.save", json!({ "file": made["file"], "path": path }));
    path
}

fn open(bench: &Bench, path: &Path) -> Value {
    bench.ok("file.open", json!({ "path": path }))["file"].clone()
}

fn take_in(bench: &Bench, path: &Path) -> Value {
    let file = open(bench, path);
    bench.take_in(&file)
}

/// A job with a customer and a reading.
fn worked_job(bench: &Bench) -> Value {
    let job = bench.open_job("Larkmoor L6");
    let customer =
        json!({ "part": "customer", "body": { "name": "Ulla Brandt", "phone": "555 0100" } });
    bench.ok("job.edit", json!({ "job": job, "part": customer }));
    let test = bench.begin_test(&job);
    bench.set_up(&test);
    bench.read(&test, 18.2, false);
    job
}

#[test]
fn a_job_goes_to_an_empty_store_with_all_that_it_refers_to_and_without_the_customer() {
    let bench = Bench::with_demo();
    let job = worked_job(&bench);
    let path = pass_on(&bench, json!({ "jobs": [job] }));

    let other = empty();
    let before = digest(&other);
    let plan = other.ok("bundle.look", json!({ "file": open(&other, &path) }));
    assert_eq!(plan["made_by"], "Marta Oyelaran");
    assert_eq!(plan["jobs"].as_array().unwrap().len(), 1);
    assert_eq!(plan["jobs"][0]["brought"], "new");
    assert_eq!(plan["jobs"][0]["vehicle"], "2018 Wendover hatchback");
    assert_eq!(plan["same_records"], 0);
    assert_eq!(plan["withheld"], 1);
    assert_eq!(plan["nothing_new"], false);
    let makers: Vec<_> = plan["signers"]
        .as_array()
        .unwrap()
        .iter()
        .filter(|signer| signer["made_it"] == true)
        .collect();
    assert_eq!(makers.len(), 1);
    assert_eq!(makers[0]["stranger"], true);
    assert_eq!(makers[0]["people"], json!(["Marta Oyelaran"]));
    // Looking changed nothing.
    assert_eq!(digest(&other), before);

    take_in(&other, &path);
    let theirs = other.ok("job.get", json!({ "job": job }));
    let ours = bench.ok("job.get", json!({ "job": job }));
    for part in [
        "job",
        "vehicle",
        "complaint",
        "bores",
        "unit_name",
        "opened_by",
    ] {
        assert_eq!(theirs[part], ours[part], "{part}");
    }
    assert!(!theirs.to_string().contains("Ulla Brandt"));
    assert!(!theirs.to_string().contains("555 0100"));
    // The test can be judged there: profile, stand and gauge came along.
    let test = &ours["bores"][0]["test_points"][0]["tests"][0]["test"];
    let judged = |bench: &Bench| bench.ok("test.get", json!({ "test": test }))["judgement"].clone();
    assert_eq!(judged(&other), judged(&bench));
    // Other jobs did not.
    assert_eq!(
        other.ok("job.list", json!({}))["jobs"]
            .as_array()
            .unwrap()
            .len(),
        1
    );
}

#[test]
fn taking_the_same_in_again_changes_nothing() {
    let bench = Bench::with_demo();
    let job = worked_job(&bench);
    let path = pass_on(&bench, json!({ "jobs": [job] }));
    let other = empty();
    assert_ne!(take_in(&other, &path)["import"], Value::Null);
    let before = digest(&other);
    let plan = other.ok("bundle.look", json!({ "file": open(&other, &path) }));
    assert_eq!(plan["nothing_new"], true);
    assert_eq!(plan["jobs"][0]["brought"], "same");
    assert_eq!(take_in(&other, &path)["import"], Value::Null);
    assert_eq!(digest(&other), before);
    assert_eq!(
        other.ok("import.list", json!({}))["imports"]
            .as_array()
            .unwrap()
            .len(),
        1
    );
    // Nor at home.
    let home = digest(&bench);
    take_in(&bench, &path);
    assert_eq!(digest(&bench), home);
}

#[test]
fn the_whole_shop_with_everything_gives_both_stores_one_digest() {
    let bench = Bench::with_demo();
    let job = worked_job(&bench);
    bench.ok("undo.last", json!({}));
    let other = empty();
    take_in(&other, &pass_on(&bench, json!({ "personal": true })));
    assert_eq!(digest(&other), digest(&bench));
    let theirs = other.ok("job.get", json!({ "job": job }));
    assert_eq!(theirs["customer"]["name"], "Ulla Brandt");
}

#[test]
fn what_was_left_out_can_be_filled_in_later() {
    let bench = Bench::with_demo();
    let job = worked_job(&bench);
    let without = bench.ok("bundle.make", json!({}));
    assert!(without["left_out"].as_u64().unwrap() >= 1);
    let other = empty();
    take_in(&other, &pass_on(&bench, json!({ "jobs": [job] })));
    take_in(
        &other,
        &pass_on(&bench, json!({ "jobs": [job], "personal": true })),
    );
    let theirs = other.ok("job.get", json!({ "job": job }));
    assert_eq!(theirs["customer"]["name"], "Ulla Brandt");
}

#[test]
fn edits_that_did_not_know_of_each_other_are_told_before_they_are_taken_in() {
    let bench = Bench::with_demo();
    let job = worked_job(&bench);
    let other = empty();
    take_in(&other, &pass_on(&bench, json!({ "jobs": [job] })));
    other.ok(
        "person.choose",
        json!({ "person": other.person("Marta Oyelaran") }),
    );
    let say = |bench: &Bench, text: &str| {
        let part = json!({ "part": "complaint", "body": { "text": text } });
        bench.ok("job.edit", json!({ "job": job, "part": part }));
    };
    say(&bench, "Harsh, and flares");
    say(&other, "Harsh once warm");
    let path = pass_on(&other, json!({ "jobs": [job] }));
    let plan = bench.ok("bundle.look", json!({ "file": open(&bench, &path) }));
    assert_eq!(plan["concurrent"][0]["kind"], "job.complaint");
    assert_eq!(plan["jobs"][0]["brought"], "changed");
    take_in(&bench, &path);
    let codes = crate::common::codes(&bench.ok("job.get", json!({ "job": job }))["findings"]);
    assert!(
        codes.iter().any(|(code, _)| code == "concurrent_edit"),
        "{codes:?}"
    );
}

#[test]
fn an_import_can_be_taken_out_until_something_builds_on_it() {
    let bench = Bench::with_demo();
    let job = worked_job(&bench);
    let other = empty();
    let before = digest(&other);
    let path = pass_on(&bench, json!({ "jobs": [job] }));
    let import = take_in(&other, &path)["import"].clone();
    other.ok("import.remove", json!({ "import": import }));
    assert_eq!(digest(&other), before);

    let import = take_in(&other, &path)["import"].clone();
    other.ok("person.add", json!({ "name": "Ines Farrow" }));
    // Names the unit that came; belongs to nothing else that came.
    other.open_job("Larkmoor L6");
    let before = digest(&other);
    let refused = other.error("import.remove", json!({ "import": import }));
    assert_eq!(refused["code"], "built_upon");
    assert_eq!(digest(&other), before);
    assert_eq!(
        other.error("import.remove", json!({ "import": 99 }))["code"],
        "not_found"
    );
}

#[test]
fn the_demo_shop_goes_and_comes_back() {
    let bench = Bench::with_demo();
    let full = digest(&bench);
    let listed = bench.ok("import.list", json!({}));
    assert_eq!(listed["demo"], true);
    assert_eq!(listed["imports"][0]["demo"], true);
    bench.ok(
        "import.remove",
        json!({ "import": listed["imports"][0]["import"] }),
    );
    assert_eq!(digest(&bench), digest(&empty()));
    assert_eq!(bench.ok("import.list", json!({}))["demo"], false);
    // Nobody of the demo is left to sign.
    assert_eq!(bench.ok("shop.overview", json!({}))["author"], Value::Null);
    // A second start doesn't bring it back by itself.
    let bench = bench.restart();
    assert_eq!(bench.ok("job.list", json!({}))["jobs"], json!([]));
    bench.ok("demo.bring", json!({}));
    assert_eq!(digest(&bench), full);
}

/// Tries a file both ways; says the code, and that nothing was changed.
fn refused(bench: &Bench, bytes: &[u8]) -> String {
    let before = digest(bench);
    let path = bench.folder.path().join("tried.vvb");
    std::fs::write(&path, bytes).unwrap();
    let file = open(bench, &path);
    let looked = bench.error("bundle.look", json!({ "file": file }));
    let taken = bench.error("bundle.take_in", json!({ "file": file }));
    assert_eq!(looked["code"], taken["code"]);
    assert_eq!(digest(bench), before);
    looked["code"].as_str().unwrap().to_owned()
}

#[test]
fn a_bad_file_is_named_for_what_it_is_and_changes_nothing() {
    let bench = Bench::with_demo();
    let job = worked_job(&bench);
    let path = pass_on(&bench, json!({ "jobs": [job] }));
    let good = std::fs::read(&path).unwrap();
    let other = empty();

    assert_eq!(refused(&other, b""), "not_a_bundle");
    assert_eq!(refused(&other, b"%PDF-1.7 a report"), "not_a_bundle");
    assert_eq!(refused(&other, &good[..good.len() / 2]), "bundle_truncated");
    assert_eq!(refused(&other, &good[..good.len() - 1]), "bundle_truncated");
    // A byte in the first member's data, behind its header of 30 bytes and its name. A header further
    // on would not do: what it repeats of the directory at the end, nobody reads.
    let mut changed = good.clone();
    changed[100] ^= 0x20;
    assert_eq!(refused(&other, &changed), "bundle_damaged");
    let newer = remade(&good, "manifest.json", |text| {
        text.replace("\"format\":1", "\"format\":3")
    });
    assert_eq!(refused(&other, &newer), "bundle_newer");
    // The manifest says that it was made at another time than was signed.
    let forged = remade(&good, "manifest.json", |text| {
        text.replace("\"created\":1", "\"created\":2")
    });
    assert_eq!(refused(&other, &forged), "bundle_signature");
    let forged = remade(&good, "signature.json", |text| {
        text.replace("\"signature\":\"", "\"signature\":\"0")
    });
    assert_eq!(refused(&other, &forged), "bundle_damaged");
    let deep = remade(&good, "manifest.json", |_| {
        format!("{{\"format\":{}1", "[".repeat(300_000))
    });
    assert_eq!(refused(&other, &deep), "file_too_large");
    let stray = remade(&good, "bodies.ndjson", |text| format!("{text}{text}"));
    assert_eq!(refused(&other, &stray), "bundle_damaged");
    for (at, what) in [
        (8, "bundle_damaged"),
        (10, "bundle_damaged"),
        (16, "bundle_damaged"),
    ] {
        let mut changed = good.clone();
        let end = good.len() - 22;
        changed[end + at] ^= 1;
        assert_eq!(refused(&other, &changed), what);
    }
    let mut many = good.clone();
    let end = good.len() - 22;
    many[end + 8..end + 12].copy_from_slice(&[0xff; 4]);
    assert_eq!(refused(&other, &many), "file_too_large");
}

/// The same archive with one member's text changed.
fn remade(file: &[u8], name: &str, change: impl Fn(String) -> String) -> Vec<u8> {
    use std::io::{Cursor, Read, Write};
    let mut archive = zip::ZipArchive::new(Cursor::new(file)).unwrap();
    let mut out = zip::ZipWriter::new(Cursor::new(Vec::new()));
    for place in 0..archive.len() {
        let mut member = archive.by_index(place).unwrap();
        let here = member.name().unwrap().into_owned();
        let mut text = String::new();
        member.read_to_string(&mut text).unwrap();
        out.start_file(&here, zip::write::SimpleFileOptions::default())
            .unwrap();
        if here == name {
            let changed = change(text.clone());
            assert_ne!(changed, text, "the test changes nothing");
            text = changed;
        }
        out.write_all(text.as_bytes()).unwrap();
    }
    out.finish().unwrap().into_inner()
}

#[test]
fn too_large_missing_and_unwritable_files_are_told() {
    let bench = Bench::with_demo();
    let before = digest(&bench);
    let folder = bench.folder.path();
    let huge = folder.join("huge.vvb");
    std::fs::File::create(&huge)
        .unwrap()
        .set_len((4095 << 20) + 1)
        .unwrap();
    let error = bench.error("file.open", json!({ "path": huge }));
    assert_eq!(error["code"], "file_too_large");
    assert_eq!(error["params"]["megabytes"], "4095");
    let missing = bench.error("file.open", json!({ "path": folder.join("none.vvb") }));
    assert_eq!(missing["code"], "file_unreadable");

    let made = bench.ok("bundle.make", json!({}));
    let save =
        |path: &Path| bench.error("file.save", json!({ "file": made["file"], "path": path }));
    assert_eq!(
        save(&folder.join("no/such/folder/a.vvb"))["code"],
        "file_unwritable"
    );
    // Only bundles are written, so that no other file is ever replaced.
    assert_eq!(save(&folder.join("shop.db"))["code"], "file_unwritable");
    // A folder in the way stays, and nothing half written is left beside it.
    let taken = folder.join("taken.vvb");
    std::fs::create_dir(&taken).unwrap();
    assert_eq!(save(&taken)["code"], "file_unwritable");
    assert!(!folder.join("taken.vvb.part").exists());
    assert_eq!(digest(&bench), before);
}

#[test]
fn a_page_can_name_no_path_and_the_shell_does_it_by_handle() {
    let maker = Bench::with_demo();
    let there = pass_on(&maker, json!({}));
    let folder = maker.folder.path();
    let mut options = Options::for_user(folder.join("page.db"));
    options.demo_on_first_start = false;
    let app = App::start(options);
    for (command, args) in [
        ("file.open", json!({ "path": there })),
        (
            "file.save",
            json!({ "file": 1, "path": folder.join("a.vvb") }),
        ),
    ] {
        let request = json!({ "command": command, "args": args }).to_string();
        let answer: Value = serde_json::from_str(&app.call(&request)).unwrap();
        assert_eq!(answer["error"]["code"], "unknown_command", "{command}");
    }

    let held = app.open_file(&there).unwrap();
    assert_eq!(held.bytes, std::fs::metadata(&there).unwrap().len());
    // What came from elsewhere is never given out, by whatever way.
    assert_eq!(
        app.made_name(held.file).unwrap_err().code,
        ErrorCode::NotFound
    );
    let out = folder.join("out.vvb");
    assert!(app.save_file(held.file, &out).is_err());
    assert!(app.give_file(held.file, "out", Vec::new()).is_err());
    assert!(!out.exists());

    let same = app
        .take_file("handed over", std::fs::File::open(&there).unwrap())
        .unwrap();
    let request = json!({ "command": "bundle.look", "args": { "file": same.file } }).to_string();
    let answer: Value = serde_json::from_str(&app.call(&request)).unwrap();
    assert_eq!(answer["ok"]["name"], "handed over");
    let too_long = std::io::repeat(b'x');
    assert_eq!(
        app.take_file("endless", too_long).unwrap_err().code,
        ErrorCode::FileTooLarge
    );
}

#[test]
fn a_file_goes_in_and_out_in_pieces() {
    let bench = Bench::with_demo();
    let made = bench.ok("bundle.make", json!({ "personal": true }));
    let piece = bench.ok("file.read", json!({ "file": made["file"], "from": 0 }));
    let bytes = STANDARD.decode(piece["base64"].as_str().unwrap()).unwrap();
    assert_eq!(piece["bytes"], bytes.len());

    let other = empty();
    let file = other.ok("file.begin", json!({ "name": "shop.vvb" }))["file"].clone();
    for part in bytes.chunks(5000) {
        other.ok(
            "file.add",
            json!({ "file": file, "base64": STANDARD.encode(part) }),
        );
    }
    other.take_in(&file);
    assert_eq!(digest(&other), digest(&bench));
    // Taken in, it is let go; and what came in is never given out.
    assert_eq!(
        other.error("bundle.look", json!({ "file": file }))["code"],
        "not_found"
    );
    let file = other.ok("file.open", json!({ "path": other.path() }))["file"].clone();
    let error = other.error("file.read", json!({ "file": file, "from": 0 }));
    assert_eq!(error["code"], "not_found");
    let error = other.error("file.add", json!({ "file": made["file"], "base64": "%" }));
    assert_eq!(error["code"], "bad_request");
}

#[test]
fn whoever_passes_on_says_who_they_are() {
    let other = empty();
    assert_eq!(other.error("bundle.make", json!({}))["code"], "no_author");
    let bench = Bench::with_demo();
    assert_eq!(
        bench.error("bundle.make", json!({ "jobs": [] }))["code"],
        "bad_request"
    );
    let error = bench.error(
        "bundle.make",
        json!({ "jobs": [bench.person("Marta Oyelaran")] }),
    );
    assert_eq!(error["code"], "not_found");
}
