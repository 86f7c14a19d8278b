//! A photo from the camera to the record, and who gets to see it.

use std::fs;

use crate::common::*;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde_json::{Value, json};

const TOLD: &[u8] = b"Ines Halloway";

impl Bench {
    fn bytes(&self, photo: &Value, size: &str) -> Vec<u8> {
        let mut bytes = Vec::new();
        loop {
            let piece = self.ok(
                "photo.read",
                json!({ "photo": photo, "size": size, "from": bytes.len() }),
            );
            bytes.extend(STANDARD.decode(piece["base64"].as_str().unwrap()).unwrap());
            if bytes.len() as u64 == piece["bytes"].as_u64().unwrap() {
                return bytes;
            }
        }
    }

    fn folder_of_pictures(&self) -> std::path::PathBuf {
        self.folder.path().join("shop.db-attachments")
    }

    fn picture_count(&self) -> usize {
        let entries = fs::read_dir(self.folder_of_pictures()).unwrap();
        entries
            .filter(|entry| entry.as_ref().unwrap().file_name().len() == 64)
            .count()
    }
}

fn holds(bytes: &[u8], text: &[u8]) -> bool {
    bytes.windows(text.len()).any(|window| window == text)
}

#[test]
fn a_photo_is_added_shown_described_removed_and_brought_back() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    assert!(holds(CAMERA, TOLD), "the camera tells who owns it");
    let photos = bench.add_photo(
        &job,
        json!({ "caption": "  Scored land  ", "taken_at": "2026-04-13T08:15:30.5Z" }),
    );
    let photo = &photos[0];
    assert_eq!(photo["caption"], "Scored land");
    assert_eq!(photo["taken_at"], "2026-04-13T08:15:30Z");
    assert_eq!(photo["by"], "Marta Oyelaran");
    assert_eq!(
        photo["shows"], "maybe_personal",
        "until somebody says otherwise"
    );
    assert_eq!(photo["is_here"], true);
    // Held on its side, as its Exif says; upright here.
    assert_eq!(photo["width_px"], 480);
    assert_eq!(photo["height_px"], 640);
    let id = &photo["photo"];
    let picture = bench.bytes(id, "picture");
    let thumbnail = bench.bytes(id, "thumbnail");
    assert_eq!(picture.len() as u64, photo["bytes"].as_u64().unwrap());
    assert!(thumbnail.len() < picture.len());
    for bytes in [&picture, &thumbnail] {
        assert!(bytes.starts_with(b"\xff\xd8\xff"));
        assert!(!holds(bytes, TOLD));
    }
    // Nowhere on the disk either.
    for entry in fs::read_dir(bench.folder_of_pictures()).unwrap() {
        assert!(!holds(&fs::read(entry.unwrap().path()).unwrap(), TOLD));
    }

    let edit = json!({ "photo": id, "caption": "Land 3, scored", "shows": "work_alone" });
    let edited = bench.ok("photo.edit", edit.clone());
    assert_eq!(edited["photos"][0]["caption"], "Land 3, scored");
    assert_eq!(edited["photos"][0]["shows"], "work_alone");
    assert_eq!(edited["undo"]["undo"]["kind"], "photo");
    let same = bench.ok("photo.edit", edit);
    assert_eq!(same["undo"], edited["undo"], "saying the same is no change");

    let removed = bench.ok("photo.remove", json!({ "photo": id }));
    assert_eq!(
        removed["photos"],
        json!([]),
        "no earlier caption stands again"
    );
    bench.error("photo.read", json!({ "photo": id, "size": "picture" }));
    let bench = bench.restart();
    bench.ok("undo.last", json!({}));
    assert_eq!(bench.photos(&job)[0]["caption"], "Land 3, scored");
    assert_eq!(bench.bytes(id, "picture"), picture);
    bench.ok("undo.last", json!({}));
    assert_eq!(bench.photos(&job)[0]["caption"], "Scored land");
    bench.ok("undo.last", json!({}));
    assert_eq!(bench.photos(&job), json!([]));
    bench.ok("redo.last", json!({}));
    assert_eq!(bench.photos(&job)[0]["caption"], "Scored land");
    let check = bench.ok("store.check", json!({}));
    assert_eq!(check["clean"], true, "{check}");
    let found = bench.ok("job.list", json!({ "text": "scored" }));
    let mut numbers = found["jobs"].as_array().unwrap().iter();
    assert!(numbers.any(|found| found["id"] == job), "{found}");
}

#[test]
fn a_photo_of_a_test_belongs_to_its_bore_and_its_job() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let test = bench.begin_test(&job);
    let photos = bench.add_photo(&job, json!({ "test": test }));
    assert_eq!(photos[0]["test"], test);
    assert_eq!(
        photos[0]["bore"],
        bench.ok("test.get", json!({ "test": test }))["test"]["bore"]
    );
    assert!(photos[0]["bore_name"].is_string());
    let other = bench.open_job("Larkmoor L6");
    let file = bench.carry_in("camera.jpg", CAMERA);
    let refused = bench.error(
        "photo.add",
        json!({ "job": other, "test": test, "file": file }),
    );
    assert_eq!(refused["code"], "bad_request");
    assert_eq!(refused["field"], "test");
    assert_eq!(bench.photos(&other), json!([]));
    // The file is still there to be added where it belongs: the same picture, kept once.
    bench.ok("photo.add", json!({ "job": other, "file": file }));
    assert_eq!(bench.picture_count(), 2);
    // Once added it is forgotten.
    bench.error("photo.add", json!({ "job": other, "file": file }));
}

#[test]
fn what_is_no_picture_is_refused_by_name_and_leaves_nothing() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let heic = b"\0\0\0\x18ftypheic\0\0\0\0mif1heic";
    let mut cut = CAMERA[..CAMERA.len() / 8].to_vec();
    cut.truncate(300);
    let mut huge = CAMERA.to_vec();
    let frame = huge.windows(2).position(|w| w == [0xff, 0xc0]).unwrap();
    huge[frame + 5..frame + 9].copy_from_slice(&[0xff; 4]);
    for (bytes, code) in [
        (&b"a letter"[..], "not_a_picture"),
        (heic, "picture_heic"),
        (&cut, "picture_damaged"),
        (&huge, "picture_too_large"),
    ] {
        let file = bench.carry_in("x.jpg", bytes);
        let error = bench.error("photo.add", json!({ "job": job, "file": file }));
        assert_eq!(error["code"], code, "{error}");
    }
    assert_eq!(bench.photos(&job), json!([]));
    assert!(!bench.folder_of_pictures().exists());
}

#[test]
fn a_picture_that_is_gone_or_another_is_said_to_be() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    let photos = bench.add_photo(&job, json!({}));
    let photo = &photos[0];
    let file = bench
        .folder_of_pictures()
        .join(photo["hash"].as_str().unwrap());
    let ask = json!({ "photo": photo["photo"], "size": "picture" });
    fs::write(&file, b"<svg xmlns='http://www.w3.org/2000/svg'/>").unwrap();
    assert_eq!(
        bench.error("photo.read", ask.clone())["code"],
        "picture_damaged"
    );
    assert_eq!(bench.ok("store.check", json!({}))["pictures"]["damaged"], 1);
    fs::remove_file(&file).unwrap();
    assert_eq!(bench.error("photo.read", ask)["code"], "picture_missing");
    assert_eq!(bench.photos(&job)[0]["is_here"], false);
    let check = bench.ok("store.check", json!({}));
    assert_eq!(check["clean"], false);
    assert_eq!(check["pictures"]["missing"], 1);
    // The same photo once more brings it back for both.
    bench.add_photo(&job, json!({}));
    assert_eq!(bench.ok("store.check", json!({}))["clean"], true);
}

/// The envelope goes along in any case, so that nothing stands differently elsewhere.
#[test]
fn a_photo_that_may_show_a_person_stays_behind_and_captions_are_words_to_strangers() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    bench.add_photo(&job, json!({ "caption": "Plate of the car" }));
    bench.add_photo(
        &job,
        json!({ "caption": "Scored land", "shows": "work_alone" }),
    );
    bench.add_photo(&job, json!({ "shows": "work_alone" }));
    let left_out = |more: Value| {
        let mut args = json!({ "jobs": [job], "personal": false });
        for (field, value) in more.as_object().unwrap() {
            args[field] = value.clone();
        }
        let made = bench.ok("bundle.make", args);
        (
            made["left_out"].as_u64().unwrap(),
            made["left_out_text"].as_u64().unwrap(),
        )
    };
    let (persons, texts) = left_out(json!({}));
    assert_eq!((persons, texts), (1, 0));
    let (persons, texts) = left_out(json!({ "audience": "stranger" }));
    // The complaint, one caption, and the note of a setting of the bore that the demo shop keeps.
    assert_eq!((persons, texts), (1, 3));
    assert_eq!(left_out(json!({ "personal": true })).0, 0);
}

#[test]
fn the_report_shows_photos_and_leaves_personal_ones_out_unless_asked() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    bench.add_photo(&job, json!({ "caption": "Plate of the car" }));
    bench.add_photo(
        &job,
        json!({ "caption": "Scored <b>land</b>", "shows": "work_alone" }),
    );
    let report = |personal: bool| {
        let made = bench.ok("report.write", json!({ "job": job, "personal": personal }));
        let piece = bench.ok("file.read", json!({ "file": made["file"], "from": 0 }));
        String::from_utf8(STANDARD.decode(piece["base64"].as_str().unwrap()).unwrap()).unwrap()
    };
    let page = report(false);
    let pictures = |page: &str| page.matches("src=\"data:image/jpeg;base64,").count();
    assert_eq!(pictures(&page), 1);
    assert!(page.contains("Scored &lt;b&gt;land&lt;/b&gt;"));
    assert!(!page.contains("Plate of the car"));
    assert!(page.contains("One photo that may show a person or a plate was left out"));
    assert!(page.contains("img-src data:"));
    let page = report(true);
    assert_eq!(pictures(&page), 2);
    assert!(page.contains("Plate of the car"));
    // A picture that isn't here is told in words.
    for entry in fs::read_dir(bench.folder_of_pictures()).unwrap() {
        fs::remove_file(entry.unwrap().path()).unwrap();
    }
    let page = report(true);
    assert_eq!(pictures(&page), 0);
    assert!(page.contains("The picture isn’t on the device"));
}

/// A backup is the store's file; the pictures lie beside it and are found again after going back.
#[test]
fn going_back_to_a_backup_finds_the_pictures() {
    let bench = Bench::with_demo();
    let job = bench.open_job("Larkmoor L6");
    bench.add_photo(&job, json!({}));
    let made = bench.ok("backup.make", json!({}));
    let photo = bench.photos(&job)[0]["photo"].clone();
    bench.ok("photo.remove", json!({ "photo": photo }));
    bench.ok("backup.restore", json!({ "name": made["name"] }));
    assert_eq!(bench.photos(&job)[0]["is_here"], true);
    bench.bytes(&photo, "picture");
    assert_eq!(bench.ok("store.check", json!({}))["clean"], true);
}
