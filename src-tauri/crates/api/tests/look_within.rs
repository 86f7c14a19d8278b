//! What a job of a looked-at file holds beside its tests and repairs: inspections, reliefs, taps,
//! hot-oil checks, what is agreed, histories, photos. Each against what its own shop shows.

use std::collections::BTreeMap;
use std::io::{self, Cursor, Read};
use std::sync::Arc;

use crate::common::{Bench, PSI};
use crate::look::{all_of, empty, open, pass_on, view, worked};
use api::ModelProjector;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use bundle::{AttachmentHash, AttachmentSource, Origin, write_with};
use journal::{Kind as KindName, PersonId, SubjectId, WallTime};
use serde_json::{Value, json};
use store::{NewRecord, Selection, Setup, Store};

/// All bytes of a photo's file, in as many pieces as it takes.
fn bytes(bench: &Bench, command: &str, mut args: Value) -> Vec<u8> {
    let mut bytes = Vec::new();
    loop {
        args["from"] = json!(bytes.len());
        let piece = bench.ok(command, args.clone());
        bytes.extend(STANDARD.decode(piece["base64"].as_str().unwrap()).unwrap());
        if bytes.len() as u64 == piece["bytes"].as_u64().unwrap() {
            return bytes;
        }
    }
}

/// A gauge and a tap at feed on the job's unit.
fn at_feed(bench: &Bench, job: &Value) -> (Value, Value) {
    let unit = bench.ok("job.get", json!({ "job": job }))["job"]["unit"].clone();
    let profile = bench.ok("profile.get", json!({ "unit": unit }));
    let body = json!({
        "circuit": profile["circuits"][0]["id"], "order": "", "name": "SF", "node": "feed",
        "condition": "hot, any gear", "low_pa": 60.0 * PSI, "high_pa": 70.0 * PSI,
        "source": "invented table 7",
    });
    let part = json!({ "id": null, "part": { "part": "tap", "body": body } });
    let gauge = json!({ "instrument": {
        "name": "Test gauge 7", "kind": "pressure_gauge", "limits_of_error_si": PSI,
        "resolution_si": 0.5 * PSI, "source": "certificate",
    } });
    (
        bench.ok("instrument.record", gauge)["id"].clone(),
        bench.ok("profile.put", part)["id"].clone(),
    )
}

/// Everything else that can be done in a job; the hot-oil check of it.
fn all_done(bench: &Bench, job: &Value, bore: &Value) -> Value {
    let found = [
        (
            bore.clone(),
            json!({ "check": "free_movement", "dry": "drags", "wet": "free", "bolted": "free",
                    "friction_n": 0.3 }),
        ),
        (
            Value::Null,
            json!({ "check": "flatness", "face": "Upper", "gap_m": 20e-6, "limit_m": 50e-6,
                    "source": "invented table 2" }),
        ),
    ];
    for (bore, found) in found {
        let check = json!({ "job": job, "bore": bore, "occasion": "as_found", "found": found,
                            "note": "Looked at twice" });
        assert_eq!(bench.ok("inspection.record", check)["saved"], true);
    }
    let mut plan = bench.ok("inspection.plan", json!({ "job": job }))["plan"].clone();
    plan["left_out"] = json!([{ "bore": bore, "check": "orifice_bore", "why": "No pins here" }]);
    let change = json!({ "job": job, "plan": plan });
    assert_eq!(bench.ok("inspection.change", change)["saved"], true);

    let relief = json!({ "job": job, "bore": bore, "figures": {
        "presence": "to_be_added", "ball_diameter_m": 5e-3, "seat_diameter_m": 3.2e-3,
        "load_seated_n": 7.8, "rate_n_per_m": 1_500.0, "lift_stop_m": 1e-3, "source": "shop",
        "limit_pa": 180.0 * PSI, "limit_source": "invented table 4", "clearance_m": 90e-6,
    } });
    assert_eq!(bench.ok("relief.record", relief)["saved"], true);

    let hazards = json!([
        "high_voltage",
        "hot_oil",
        "raised_wheels",
        "road_test",
        "retained_springs"
    ]);
    bench.ok("caution.read", json!({ "job": job, "hazards": hazards }));
    let (gauge, tap) = at_feed(bench, job);
    let read = json!({ "job": job, "tap": tap, "figures": {
        "occasion": "as_found", "place": "driving", "pressure_pa": 65.0 * PSI,
        "oil_temperature_k": 363.15, "line_pa": 250.0 * PSI, "command": "D, fourth",
        "gauge": gauge, "line_gauge": gauge,
    } });
    assert_eq!(bench.ok("tap_reading.record", read)["saved"], true);
    let proved = json!({ "job": job, "bore": bore, "figures": {
        "oil_temperature_k": 363.15, "feed_gauge": gauge, "line_gauge": gauge, "points": [
            { "line_pa": 120.0 * PSI, "feed_pa": 64.0 * PSI, "direction": "rising" },
            { "line_pa": 240.0 * PSI, "feed_pa": 66.0 * PSI, "direction": "rising" },
        ],
    } });
    let proved = bench.ok("oil_check.record", proved);
    assert_eq!(proved["saved"], true, "{proved}");

    let estimate = json!({ "job": job, "estimate": {
        "currency": "EUR", "decimals": 2, "note": "", "tax": null, "lines": [
            { "what": "Valve body out and in", "counted": "hours",
              "quantity_thousandths": 1750, "price_minor": 9250 },
        ],
    } });
    assert_eq!(bench.ok("estimate.record", estimate)["saved"], true);
    proved["view"]["id"].clone()
}

#[test]
fn what_else_a_job_holds_is_shown_as_its_own_shop_shows_it_and_nothing_enters() {
    let bench = Bench::with_demo();
    let [job, bore, test, _] = worked(&bench);
    let oil_check = all_done(&bench, &job, &bore);
    // The whole shop, or the lists of its instruments would be others.
    let path = pass_on(&bench, json!({ "personal": true }));

    let other = empty();
    let before = all_of(&other);
    let file = open(&other, &path);
    let pairs = [
        ("look.plan", "inspection.plan", json!({ "job": job })),
        (
            "look.bore",
            "bore.card",
            json!({ "job": job, "bore": bore }),
        ),
        (
            "look.relief",
            "relief.get",
            json!({ "job": job, "bore": bore }),
        ),
        ("look.taps", "tap_reading.get", json!({ "job": job })),
        (
            "look.oil_check",
            "oil_check.get",
            json!({ "job": job, "bore": bore, "oil_check": oil_check }),
        ),
        ("look.handover", "handover.get", json!({ "job": job })),
    ];
    let mut seen = BTreeMap::new();
    for (looked, own, args) in pairs {
        let mut there = args.clone();
        there["file"] = file.clone();
        let answer = other.ok(looked, there);
        assert_eq!(answer["proof"]["courier"], "signed", "{looked}");
        assert_eq!(
            view(answer["view"].clone()),
            view(bench.ok(own, args)),
            "{looked}"
        );
        seen.insert(looked, answer["view"].clone());
    }
    for of in [&job, &test] {
        let looked = other.ok("look.history", json!({ "file": file, "subject": of }));
        assert_eq!(
            looked["view"],
            bench.ok("history.get", json!({ "subject": of }))
        );
        assert!(!looked["view"]["entries"].as_array().unwrap().is_empty());
    }
    // They hold what was done, not only the same emptiness.
    assert_eq!(
        seen["look.bore"]["entries"][0]["record"]["found"]["dry"],
        "drags"
    );
    assert_eq!(seen["look.bore"]["left_out"][0]["why"], "No pins here");
    let flatness = json!("flatness");
    let body = seen["look.plan"]["body"].as_array().unwrap();
    let face = body.iter().find(|line| line["check"] == flatness).unwrap();
    assert_eq!(face["entries"][0]["record"]["found"]["face"], "Upper");
    assert_eq!(seen["look.relief"]["by"]["by"], "Marta Oyelaran");
    assert!(seen["look.relief"]["answer"]["worst"].is_object());
    assert_eq!(
        seen["look.taps"]["taps"][0]["readings"]
            .as_array()
            .unwrap()
            .len(),
        1
    );
    assert_eq!(
        seen["look.oil_check"]["answer"]["points"]
            .as_array()
            .unwrap()
            .len(),
        2
    );
    assert_eq!(
        seen["look.handover"]["estimate"]["sums"]["total_minor"],
        16_188
    );
    let plan = other.ok("look.plan", json!({ "file": file, "job": job }));
    assert_eq!(plan["instruments"], seen["look.bore"]["instruments"]);
    assert!(!plan["instruments"].as_array().unwrap().is_empty());
    let looked = other.ok("look.job", json!({ "file": file, "job": job }));
    assert_eq!(looked["inspections"], 2);
    assert_eq!(looked["machining_sheets"], 0);
    assert_eq!(all_of(&other), before);
    other.ok("look.close", json!({ "file": file }));
    assert_eq!(all_of(&other), before);
}

/// A reading is judged by its instrument's error, so a job goes with the instruments that it names.
#[test]
fn a_job_passed_on_alone_says_what_it_says_at_home() {
    let bench = Bench::with_demo();
    let [job, bore, ..] = worked(&bench);
    let oil_check = all_done(&bench, &job, &bore);
    let micrometer = json!({ "instrument": {
        "name": "Micrometer 4", "kind": "micrometer", "limits_of_error_si": 2e-6,
        "resolution_si": 1e-6, "source": "certificate",
    } });
    let micrometer = bench.ok("instrument.record", micrometer)["id"].clone();
    let found = json!({ "check": "diameters", "bore": [], "micrometer": micrometer, "valve": [
        { "land": "reaction land", "direction_rad": 0.0, "diameter_m": 7.47e-3 },
    ] });
    let check = json!({ "job": job, "bore": bore, "occasion": "after_repair", "found": found });
    assert_eq!(bench.ok("inspection.record", check)["saved"], true);
    let path = pass_on(&bench, json!({ "jobs": [job] }));
    let other = empty();
    let file = open(&other, &path);
    let which = json!({ "job": job, "bore": bore, "oil_check": oil_check });
    let mut there = which.clone();
    there["file"] = file.clone();
    let looked = other.ok("look.oil_check", there);
    let own = bench.ok("oil_check.get", which);
    assert_eq!(looked["view"]["answer"], own["answer"]);
    let looked = other.ok("look.taps", json!({ "file": file, "job": job }));
    let own = bench.ok("tap_reading.get", json!({ "job": job }));
    assert_eq!(looked["view"]["taps"], own["taps"]);
    let card = other.ok(
        "look.bore",
        json!({ "file": file, "job": job, "bore": bore }),
    );
    let own = bench.ok("bore.card", json!({ "job": job, "bore": bore }));
    assert_eq!(card["view"]["card"], own["card"]);
    let known = card["view"]["instruments"].as_array().unwrap();
    assert!(known.iter().any(|it| it["id"] == micrometer), "{known:?}");
}

#[test]
fn a_photo_is_shown_with_its_words_and_the_very_bytes_that_the_file_has() {
    let bench = Bench::with_demo();
    let [job, bore, test, _] = worked(&bench);
    bench.add_photo(
        &job,
        json!({ "caption": "Land 3, <b>scored</b>", "shows": "work_alone" }),
    );
    bench.add_photo(&job, json!({ "caption": "Plate", "test": test }));
    let path = pass_on(&bench, json!({ "jobs": [job], "personal": true }));
    let other = empty();
    let before = all_of(&other);
    let file = open(&other, &path);
    let looked = other.ok("look.job", json!({ "file": file, "job": job }));
    let photos = bench.photos(&job);
    assert_eq!(looked["photos"], photos);
    let plate = photos
        .as_array()
        .unwrap()
        .iter()
        .find(|it| it["caption"] == "Plate");
    assert_eq!(plate.unwrap()["bore"], bore);
    for photo in photos.as_array().unwrap() {
        for size in ["thumbnail", "picture"] {
            let which = json!({ "photo": photo["photo"], "size": size });
            let mut there = which.clone();
            there["file"] = file.clone();
            let shown = bytes(&other, "look.photo", there);
            assert!(shown.starts_with(b"\xff\xd8\xff"));
            assert!(shown == bytes(&bench, "photo.read", which), "{size}");
        }
    }
    // The app's own commands know none of them, and no picture lies beside the store.
    let known = json!({ "photo": photos[0]["photo"], "size": "thumbnail" });
    assert_eq!(other.error("photo.read", known)["code"], "not_found");
    assert_eq!(all_of(&other), before);

    // What may show a person stays behind unless asked for, and its words with it.
    let path = pass_on(&bench, json!({ "jobs": [job] }));
    let file = open(&other, &path);
    let looked = other.ok("look.job", json!({ "file": file, "job": job }));
    let left = looked["photos"].as_array().unwrap();
    assert_eq!(left.len(), 1);
    assert_eq!(left[0]["caption"], "Land 3, <b>scored</b>");

    // Without pictures the words are there alone.
    let path = pass_on(&bench, json!({ "jobs": [job], "photos": false }));
    let file = open(&other, &path);
    let looked = other.ok("look.job", json!({ "file": file, "job": job }));
    let words = &looked["photos"][0];
    assert_eq!(
        (&words["is_here"], &words["caption"]),
        (&json!(false), &left[0]["caption"])
    );
    let ask = json!({ "file": file, "photo": words["photo"], "size": "picture" });
    assert_eq!(other.error("look.photo", ask)["code"], "picture_missing");
    let unknown = json!({ "file": file, "photo": job, "size": "picture" });
    assert_eq!(
        other.error("look.photo", unknown)["code"],
        "look_incomplete"
    );
    assert_eq!(all_of(&other), before);
}

struct Folder(BTreeMap<AttachmentHash, Vec<u8>>);

impl AttachmentSource for Folder {
    fn length(&mut self, hash: &AttachmentHash) -> io::Result<Option<u64>> {
        Ok(self.0.get(hash).map(|bytes| bytes.len() as u64))
    }

    fn open(&mut self, hash: &AttachmentHash) -> io::Result<Box<dyn Read + '_>> {
        Ok(Box::new(&self.0[hash][..]))
    }
}

/// A file in which a photo's record names these bytes as its picture.
fn with_picture(picture: &[u8]) -> Vec<u8> {
    let at = WallTime::from_unix_ms(1_790_000_000_000);
    let ines = PersonId::from_bytes([1; 16]);
    let mut stranger = Store::open_in_memory(Setup::new(Arc::new(ModelProjector))).unwrap();
    let mut put = |subject: [u8; 16], kind: &'static str, body: Value| {
        let record = NewRecord {
            subject: SubjectId::from_bytes(subject),
            kind: KindName::literal(kind),
            kind_version: 1,
            supersedes: Vec::new(),
            body: serde_json::to_vec(&body).unwrap(),
            personal: false,
        };
        stranger.append(vec![record], ines, at).unwrap();
    };
    let job = uuid::Uuid::from_bytes([3; 16]);
    put([1; 16], "person", json!({ "name": "Ines" }));
    let opened = json!({ "unit": uuid::Uuid::from_bytes([2; 16]), "number": "0007",
                         "opened_on": "2026-09-01" });
    put([3; 16], "job", opened);
    let named = json!({ "hash": blake3::hash(picture).to_hex().to_string(),
                        "media_type": "image/jpeg", "bytes": picture.len(),
                        "width_px": 4, "height_px": 3 });
    let photo = json!({ "job": job, "caption": "", "taken_at": "2026-09-01T08:00:00Z",
                        "shows": "work_alone", "picture": named, "thumbnail": named });
    put([4; 16], "photo", photo);
    let batch = stranger.export(&Selection::Everything, true).unwrap();
    let hash = *blake3::hash(picture).as_bytes();
    let mut folder = Folder([(hash, picture.to_vec())].into());
    let origin = Origin {
        author: ines,
        key: stranger.device_key(),
        created: at,
    };
    let mut out = Cursor::new(Vec::new());
    write_with(&mut out, &batch.check().unwrap(), &mut folder, &origin).unwrap();
    out.into_inner()
}

#[test]
fn what_is_no_picture_is_not_shown_as_one_whatever_its_record_says() {
    let bench = empty();
    let before = all_of(&bench);
    let mut huge = crate::common::CAMERA.to_vec();
    let frame = huge.windows(2).position(|w| w == [0xff, 0xc0]).unwrap();
    huge[frame + 5..frame + 9].copy_from_slice(&[0xff; 4]);
    for picture in [
        &b"<svg xmlns='http://www.w3.org/2000/svg' onload='x()'/>"[..],
        &huge,
        b"\xff\xd8\xff",
    ] {
        let file = bench.carry_in("stranger.vvb", &with_picture(picture));
        let [job, photo] = [[3; 16], [4; 16]].map(uuid::Uuid::from_bytes);
        let looked = bench.ok("look.job", json!({ "file": file, "job": job }));
        assert_eq!(looked["photos"][0]["is_here"], true);
        let ask = json!({ "file": file, "photo": photo, "size": "picture" });
        assert_eq!(bench.error("look.photo", ask)["code"], "picture_damaged");
        bench.ok("file.drop", json!({ "file": file }));
    }
    assert_eq!(all_of(&bench), before);
}

/// A file named by its path can become another while it is looked at.
#[test]
fn a_picture_that_became_another_since_it_was_checked_is_not_shown() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let photos = bench.add_photo(&job, json!({ "shows": "work_alone" }));
    let path = pass_on(&bench, json!({ "jobs": [job] }));
    let other = empty();
    let file = open(&other, &path);
    other.ok("look.job", json!({ "file": file, "job": job }));
    let which = json!({ "photo": photos[0]["photo"], "size": "picture" });
    let picture = bytes(&bench, "photo.read", which.clone());
    let mut changed = std::fs::read(&path).unwrap();
    let at = changed
        .windows(picture.len())
        .position(|part| part == picture)
        .unwrap();
    changed[at + picture.len() / 2] ^= 1;
    // In its place, as a file that somebody writes to.
    let mut there = std::fs::OpenOptions::new().write(true).open(&path).unwrap();
    io::Write::write_all(&mut there, &changed).unwrap();
    let mut ask = which;
    ask["file"] = file;
    assert_eq!(other.error("look.photo", ask)["code"], "bundle_damaged");
}
