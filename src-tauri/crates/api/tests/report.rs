//! The printable report of a job: what is in it, what is left out and said so, where it can't be
//! saved.

use crate::common::{Bench, INHG, pick};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde_json::{Value, json};

fn write(bench: &Bench, args: Value) -> (Value, String) {
    let made = bench.ok("report.write", args);
    let piece = bench.ok("file.read", json!({ "file": made["file"], "from": 0 }));
    let bytes = STANDARD.decode(piece["base64"].as_str().unwrap()).unwrap();
    assert_eq!(made["bytes"], bytes.len());
    (made, String::from_utf8(bytes).unwrap())
}

fn demo_job(bench: &Bench, number: &str) -> Value {
    let jobs = bench.ok("job.list", json!({}));
    pick(&jobs["jobs"], "number", number)["id"].clone()
}

/// The text of a page as a reader sees it, spaces made one.
fn seen(html: &str) -> String {
    let body = html.split("</style>").nth(1).unwrap();
    let mut text = String::new();
    let mut inside = false;
    for c in body.chars() {
        match c {
            '<' => inside = true,
            '>' => {
                inside = false;
                text.push(' ');
            }
            c if !inside => text.push(c),
            _ => {}
        }
    }
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A job with one test, its readings as given.
fn tested(bench: &Bench, readings: &[f64]) -> (Value, Value) {
    let job = bench.open_job("Larkmoor L6");
    let test = bench.begin_test(&job);
    bench.set_up(&test);
    bench.record(&test, "blank", json!({ "vacuum_pa": 27.7 * INHG }));
    for (i, inhg) in readings.iter().enumerate() {
        assert_eq!(bench.read(&test, *inhg, i > 0)["saved"], true);
    }
    (job, test)
}

#[test]
fn a_demo_job_has_its_readings_limits_sources_and_cautions_and_no_customer() {
    let bench = Bench::with_demo();
    let job = demo_job(&bench, "0101");
    let (made, html) = write(&bench, json!({ "job": job }));
    assert_eq!(made["name"], "job-0101-2026-04-14.html");
    let text = seen(&html);
    for needed in [
        "Job 0101",
        "Larkmoor L6",
        "2017 Wendover hatchback, 1.6",
        "Harsh 2-3 and 3-4 once warm",
        "Outside limit",
        "Dial gauge 0 to 30 inHg, bench 1",
        "Shop certificate 26-004",
        "expanded uncertainty, 95 % coverage",
        "Source of the limit",
        "What this rests on",
        "Reaction land worn right through the anodising. Quoting a sleeve.",
        "Tomás Wierzba",
        "High voltage of a hybrid",
        "recorded, and left out of this report because it wasn’t asked for",
        "The manufacturer’s service information, local rules and trained people decide",
        "physics version 1",
    ] {
        assert!(text.contains(needed), "{needed}\n{text}");
    }
    for person in ["Pellworth", "555 0142", "HLV 1017"] {
        assert!(!html.contains(person), "{person}");
    }
    let (_, with) = write(&bench, json!({ "job": job, "personal": true }));
    for person in ["Pellworth", "555 0142", "HLV 1017"] {
        assert!(with.contains(person), "{person}");
    }
    // The limit's source as the profile has it.
    let unit = bench.ok("job.get", json!({ "job": job }))["job"]["unit"].clone();
    let profile = bench.ok("unit.get", json!({ "unit": unit }))["profile"].clone();
    let source = &profile["bores"][0]["test_points"][0][1]["limit"]["source"];
    assert!(text.contains(source.as_str().unwrap()), "{source}");
}

#[test]
fn a_struck_reading_and_a_corrected_one_stand_beside_what_counts() {
    let bench = Bench::with_demo();
    let (job, test) = tested(&bench, &[17.2, 9.4, 16.9, 17.3]);
    let view = bench.ok("test.get", json!({ "test": test }));
    let record = |i: usize| view["readings"][i]["record"].clone();
    bench.ok("test.strike", json!({ "test": test, "record": record(1) }));
    let corrected = json!({ "vacuum_pa": 16.4 * INHG, "reseated": true, "as_typed": "16.4 inHg" });
    bench.ok(
        "test.correct",
        json!({ "test": test, "record": record(2), "reading": corrected }),
    );
    let (_, html) = write(&bench, json!({ "job": job }));
    for needed in [
        "<s>9.4\u{a0}inHg</s>",
        "<s>16.9\u{a0}inHg</s>",
        "16.4\u{a0}inHg",
    ] {
        assert!(html.contains(needed), "{needed}");
    }
    let text = seen(&html);
    let order = [
        "17.2 inHg",
        "9.4 inHg",
        "16.9 inHg",
        "16.4 inHg",
        "17.3 inHg",
    ];
    let table = text.split("As typed").nth(1).unwrap();
    let places: Vec<_> = order.iter().map(|it| table.find(it).unwrap()).collect();
    assert!(places.is_sorted(), "{places:?} {table}");
    assert!(
        table.contains("struck out or undone , doesn’t count"),
        "{table}"
    );
    assert!(table.contains("corrected since , doesn’t count"), "{table}");
    assert!(
        text.contains("Readings that count as repeats 3 of 3"),
        "{text}"
    );
}

#[test]
fn units_and_decimal_sign_are_the_settings() {
    let bench = Bench::with_demo();
    let (job, _) = tested(&bench, &[17.2]);
    bench.ok(
        "settings.put",
        json!({
            "pressure": "bar", "vacuum": "kPa", "length": "mm", "force": "N",
            "temperature": "°C", "locale": "de-DE", "theme": "system",
        }),
    );
    let text = seen(&write(&bench, json!({ "job": job })).1);
    // By hand: 17.2 inHg of 3.386389 kPa are 58.25 kPa.
    assert!(text.contains("58,2 kPa"), "{text}");
    assert!(!text.contains("inHg below ambient"));
    let job = json!({ "job": job, "locale": "fr-FR" });
    let mut settings = bench.ok("shop.overview", json!({}))["settings"].clone();
    settings["locale"] = Value::Null;
    bench.ok("settings.put", settings);
    assert!(seen(&write(&bench, job).1).contains("58,2 kPa"));
}

#[test]
fn a_customer_whose_record_came_without_its_content_is_said_to_be_withheld() {
    let bench = Bench::with_demo();
    let job = demo_job(&bench, "0101");
    let made = bench.ok("bundle.make", json!({ "jobs": [job] }));
    let path = bench.folder.path().join("job.vvb");
    bench.ok("file.save", json!({ "file": made["file"], "path": path }));
    let folder = tempfile::tempdir().unwrap();
    let other = Bench {
        app: crate::common::start(folder.path().join("other.db"), false),
        folder,
    };
    let file = other.ok("file.open", json!({ "path": path }))["file"].clone();
    other.take_in(&file);
    let text = seen(&write(&other, json!({ "job": job, "personal": true })).1);
    assert!(
        text.contains("its content was withheld from this device"),
        "{text}"
    );
    assert!(
        text.contains("Records whose content was withheld"),
        "{text}"
    );
    assert!(text.contains("job.customer"), "{text}");
}

#[test]
fn a_folder_that_cant_be_written_is_told_and_nothing_is_lost() {
    let bench = Bench::with_demo();
    let (job, _) = tested(&bench, &[17.2, 16.9, 17.3]);
    let digest = || bench.ok("store.check", json!({}))["digest"].clone();
    let before = digest();
    let made = bench.ok("report.write", json!({ "job": job }));
    // No folder, and a file where a folder should be: the rights of a superuser don't open these.
    let blocked = bench.folder.path().join("blocked");
    std::fs::write(&blocked, "a file").unwrap();
    for folder in [bench.folder.path().join("nowhere"), blocked.clone()] {
        let path = folder.join(made["name"].as_str().unwrap());
        let error = bench.error("file.save", json!({ "file": made["file"], "path": path }));
        assert_eq!(error["code"], "file_unwritable");
        assert_eq!(error["params"]["path"], path.to_str().unwrap());
    }
    let bundle = bench.folder.path().join("report.vvb");
    let error = bench.error("file.save", json!({ "file": made["file"], "path": bundle }));
    assert_eq!(error["code"], "file_unwritable");
    assert_eq!(std::fs::read_to_string(&blocked).unwrap(), "a file");
    assert_eq!(digest(), before);
    // The same report goes where it may.
    let path = bench.folder.path().join("report.html");
    bench.ok("file.save", json!({ "file": made["file"], "path": path }));
    let saved = std::fs::read_to_string(path).unwrap();
    assert!(saved.starts_with("<!DOCTYPE html>") && saved.ends_with("</html>"));
}

#[test]
fn a_job_that_isnt_there_has_no_report() {
    let bench = Bench::with_demo();
    let job = "00000000-0000-7000-8000-000000000000";
    assert_eq!(
        bench.error("report.write", json!({ "job": job }))["code"],
        "not_found"
    );
    let job = bench.open_job("Larkmoor L6");
    let text = seen(&write(&bench, json!({ "job": job })).1);
    assert!(
        text.contains("Nothing was tested, checked or repaired"),
        "{text}"
    );
    assert!(text.contains("not acknowledged"), "{text}");
}

#[test]
fn an_inspection_stands_in_the_report_with_readings_and_instruments() {
    let bench = Bench::with_demo();
    let (job, _) = tested(&bench, &[17.2, 16.9, 17.3]);
    let plain = seen(&write(&bench, json!({ "job": job })).1);
    assert!(!plain.contains("What the checks say together"), "{plain}");
    let bore = bench.ok("job.get", json!({ "job": job }))["bores"][0]["bore"].clone();
    let tester = bench.ok(
        "instrument.record",
        json!({ "instrument": { "name": "Spring tester, bench 2", "kind": "spring_tester",
            "limits_of_error_si": 0.2, "resolution_si": 0.1, "calibration_due": "2025-04-01",
            "source": "Certificate" } }),
    )["id"]
        .clone();
    let record = |found: Value| {
        bench.ok(
            "inspection.record",
            json!({ "job": job, "bore": bore, "occasion": "as_found", "found": found,
                    "note": "At the bolt side" }),
        )
    };
    record(
        json!({ "check": "spring", "height_regulating_m": 20e-3, "tester": tester,
            "loads": [{ "height_m": 22e-3, "load_n": 17.2 }, { "height_m": 18e-3, "load_n": 27.6 }] }),
    );
    record(json!({ "check": "free_movement", "dry": "drags" }));
    bench.ok(
        "inspection.record",
        json!({ "job": job, "occasion": "as_found",
                "found": { "check": "feed_screens", "state": "torn" } }),
    );
    let mut plan = bench.ok("inspection.plan", json!({ "job": job }))["plan"].clone();
    plan["left_out"] = json!([{ "bore": bore, "check": "wiggle", "why": "No indicator at hand" }]);
    bench.ok("inspection.change", json!({ "job": job, "plan": plan }));
    let text = seen(&write(&bench, json!({ "job": job })).1);
    for needed in [
        "What the checks say together",
        "The valve doesn’t move freely, whatever its reading.",
        "What would settle it",
        "Measure the force that moves the valve.",
        "left out on purpose: No indicator at hand",
        "Load at 0.7087\u{a0}in",
        // By hand: 27.6 N are 6.2 lbf.
        "6.2\u{a0}lbf (27.6\u{a0}N)",
        "Spring tester, bench 2, ±\u{a0}0.04\u{a0}lbf, calibration due 2025-04-01",
        "At the bolt side",
        "Body and case",
        "torn or pushed in",
        "What that does to each clutch of the circuit",
        "2-6 brake",
        "closed-loop solenoid, holds its output until the command nears the feed",
    ] {
        let needed = needed.replace('\u{a0}', " ");
        let text = text.replace('\u{a0}', " ");
        assert!(text.contains(&needed), "{needed}\n{text}");
    }
    // What is open is told in short, too.
    assert!(text.contains("The inspection is not settled"), "{text}");
}

#[test]
fn both_versions_come_as_a_page_and_as_a_pdf_with_names_that_tell_them_apart() {
    let bench = Bench::with_demo();
    let job = demo_job(&bench, "0101");
    let made = |version: &str, format: &str| {
        let args = json!({ "job": job, "version": version, "format": format });
        let made = bench.ok("report.write", args);
        let piece = bench.ok("file.read", json!({ "file": made["file"], "from": 0 }));
        let bytes = STANDARD.decode(piece["base64"].as_str().unwrap()).unwrap();
        (made["name"].as_str().unwrap().to_owned(), bytes)
    };
    for (version, format, name, start) in [
        (
            "technical",
            "html",
            "job-0101-2026-04-14.html",
            "<!DOCTYPE html>",
        ),
        ("technical", "pdf", "job-0101-2026-04-14.pdf", "%PDF-1.7"),
        (
            "customer",
            "html",
            "job-0101-customer-2026-04-14.html",
            "<!DOCTYPE html>",
        ),
        (
            "customer",
            "pdf",
            "job-0101-customer-2026-04-14.pdf",
            "%PDF-1.7",
        ),
    ] {
        let (called, bytes) = made(version, format);
        assert_eq!(called, name);
        assert!(bytes.starts_with(start.as_bytes()), "{name}");
        // Whoever passes it on doesn't pass the customer on.
        for person in ["Pellworth", "555 0142", "HLV 1017"] {
            assert!(
                !String::from_utf8_lossy(&bytes).contains(person),
                "{person}"
            );
        }
    }
}

#[test]
fn the_customers_page_says_what_was_found_in_plain_words() {
    let bench = Bench::with_demo();
    let job = demo_job(&bench, "0101");
    let (_, html) = write(&bench, json!({ "job": job, "version": "customer" }));
    let text = seen(&html);
    for needed in [
        "What we found and did",
        "2017 Wendover hatchback, 1.6",
        "What you told us Harsh 2-3 and 3-4 once warm",
        "This valve leaks more than its limit allows",
        "What stays open",
        "only a road test by trained people shows",
        "This page is no service information",
    ] {
        assert!(text.contains(needed), "{needed}\n{text}");
    }
    for jargon in ["uncertainty", "eccentric", "laminar", "digest", "Monte"] {
        assert!(!text.contains(jargon), "{jargon}\n{text}");
    }
    // Nothing is on record of a warranty, so nothing is said of one.
    assert!(!text.contains("Warranty"));
}
