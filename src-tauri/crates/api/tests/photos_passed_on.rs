//! Photos that go along with the work, and go away with their customer.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

use crate::common::*;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde_json::{Value, json};

fn empty() -> Bench {
    let folder = tempfile::tempdir().unwrap();
    Bench {
        app: start(folder.path().join("shop.db"), false),
        folder,
    }
}

impl Bench {
    /// The picture files, by name.
    fn pictures(&self) -> BTreeMap<String, Vec<u8>> {
        let Ok(entries) = fs::read_dir(self.folder.path().join("shop.db-attachments")) else {
            return BTreeMap::new();
        };
        entries
            .map(|entry| entry.unwrap().path())
            .map(|path| {
                let name = path.file_name().unwrap().to_string_lossy().into_owned();
                (name, fs::read(path).unwrap())
            })
            .filter(|(name, _)| name.len() == 64)
            .collect()
    }

    fn pass_on(&self, what: Value) -> (Value, PathBuf) {
        let made = self.ok("bundle.make", what);
        let name = format!("{}-{}", made["file"], made["name"].as_str().unwrap());
        let path = self.folder.path().join(name);
        self.ok("file.save", json!({ "file": made["file"], "path": path }));
        (made, path)
    }

    fn look(&self, path: &Path) -> Value {
        let file = self.ok("file.open", json!({ "path": path }))["file"].clone();
        self.ok("bundle.look", json!({ "file": file }))
    }

    fn take(&self, path: &Path) -> Value {
        let file = self.ok("file.open", json!({ "path": path }))["file"].clone();
        self.take_in(&file)
    }

    fn check(&self) -> Value {
        self.ok("store.check", json!({}))
    }
}

/// A job with a photo of the work and one that may show a person, of a test; and the hash of each.
fn photographed(bench: &Bench) -> (Value, String, String) {
    let job = bench.open_job("Larkmoor L6");
    let shown = bench.add_photo(&job, json!({ "caption": "Land 3", "shows": "work_alone" }));
    // Another picture: what a thumbnail shows is not the same file.
    let small = bench.ok(
        "photo.read",
        json!({ "photo": shown[0]["photo"], "size": "thumbnail" }),
    );
    let small = STANDARD.decode(small["base64"].as_str().unwrap()).unwrap();
    let test = bench.begin_test(&job);
    let file = bench.carry_in("plate.jpg", &small);
    bench.ok(
        "photo.add",
        json!({ "job": job, "test": test, "file": file, "caption": "Plate VV HL 2041" }),
    );
    let photos = bench.photos(&job);
    let hash = |caption: &str| {
        let photo = pick(&photos, "caption", caption);
        photo["hash"].as_str().unwrap().to_owned()
    };
    (job.clone(), hash("Land 3"), hash("Plate VV HL 2041"))
}

#[test]
fn a_photo_goes_to_a_second_shop_and_on_to_a_third_byte_for_byte() {
    let bench = Bench::with_demo();
    let (job, work, plate) = photographed(&bench);
    let all = bench.pictures();
    assert_eq!(all.len(), 4);

    let (made, path) = bench.pass_on(json!({ "jobs": [job], "personal": true }));
    assert_eq!(made["photos"], 2);
    let bytes: usize = all.values().map(Vec::len).sum();
    assert_eq!(made["photo_bytes"], bytes);
    let second = empty();
    let plan = second.look(&path);
    assert_eq!(
        (&plan["photos"], &plan["new_photos"]),
        (&json!(2), &json!(2))
    );
    assert_eq!(plan["photo_bytes"], bytes);
    assert!(second.pictures().is_empty(), "a look keeps nothing");
    second.take(&path);
    assert_eq!(second.pictures(), all);
    assert!(
        second
            .photos(&job)
            .as_array()
            .unwrap()
            .iter()
            .all(|it| it["is_here"] == true)
    );
    assert_eq!(second.check()["clean"], true);

    let again = second.look(&path);
    assert_eq!(
        (&again["new_photos"], &again["nothing_new"]),
        (&json!(0), &json!(true))
    );
    let digest = second.check()["digest"].clone();
    second.take(&path);
    assert_eq!(second.pictures(), all);
    assert_eq!(second.check()["digest"], digest);

    second.ok("person.add", json!({ "name": "Ida Lund" }));
    let (made, onward) = second.pass_on(json!({ "personal": true }));
    assert_eq!(made["photos"], 2);
    let third = empty();
    third.take(&onward);
    assert_eq!(third.pictures(), all);
    assert_eq!(third.check()["digest"], second.check()["digest"]);

    // Without what may show a person.
    let (made, path) = bench.pass_on(json!({ "jobs": [job] }));
    assert_eq!((&made["photos"], &made["left_out"]), (&json!(1), &json!(1)));
    let other = empty();
    other.take(&path);
    let kept = other.pictures();
    assert_eq!(kept.len(), 2);
    assert!(kept.contains_key(&work) && !kept.contains_key(&plate));
    assert_eq!(kept[&work], all[&work]);
}

#[test]
fn pictures_that_stayed_behind_can_come_later() {
    let bench = Bench::with_demo();
    let (job, ..) = photographed(&bench);
    let what = |photos: bool| json!({ "jobs": [job], "personal": true, "photos": photos });
    let (made, without) = bench.pass_on(what(false));
    assert_eq!(
        (&made["photos"], &made["photo_bytes"]),
        (&json!(0), &json!(0))
    );
    let other = empty();
    assert_eq!(other.look(&without)["photos"], 0);
    other.take(&without);
    assert!(other.pictures().is_empty());
    let photos = other.photos(&job);
    assert_eq!(photos[0]["is_here"], false);
    assert_eq!(photos[0]["caption"], "Land 3");
    let digest = other.check()["digest"].clone();

    // The records are the same, so what is new is the pictures alone.
    let (_, with) = bench.pass_on(what(true));
    let plan = other.look(&with);
    assert_eq!(
        (&plan["new_records"], &plan["new_photos"]),
        (&json!(0), &json!(2))
    );
    assert_eq!(plan["nothing_new"], false);
    other.take(&with);
    assert_eq!(other.pictures(), bench.pictures());
    assert_eq!(other.check()["digest"], digest);
    assert_eq!(other.check()["clean"], true);

    // A damaged one is made good by taking it in again, and is not passed on until then.
    let (name, bytes) = other.pictures().pop_first().unwrap();
    let file = other.folder.path().join("shop.db-attachments").join(&name);
    fs::write(&file, b"another picture").unwrap();
    other.ok("person.add", json!({ "name": "Ida Lund" }));
    let (made, _) = other.pass_on(what(true));
    assert!(made["photo_bytes"].as_u64().unwrap() > 0);
    other.take(&with);
    assert_eq!(fs::read(&file).unwrap(), bytes);

    // Taking the import out leaves the files to the sweep.
    let imports = other.ok("import.list", json!({}))["imports"].clone();
    for import in imports.as_array().unwrap() {
        other.ok("import.remove", json!({ "import": import["import"] }));
    }
    other.error("photo.list", json!({ "job": job }));
    assert_eq!(other.pictures(), bench.pictures());
    assert_eq!(other.check()["clean"], true);
}

#[test]
fn a_customers_photos_are_erased_with_them_here_and_wherever_it_is_heard_of() {
    let bench = Bench::with_demo();
    let (job, work, plate) = photographed(&bench);
    let customer = json!({ "part": "customer", "body": { "name": "Ulla Brandtner" } });
    bench.ok("job.edit", json!({ "job": job, "part": customer }));
    let removed = bench.add_photo(&job, json!({ "caption": "Her face" }));
    let removed = pick(&removed, "caption", "Her face")["photo"].clone();
    bench.ok("photo.remove", json!({ "photo": removed }));
    let backup = bench.ok("backup.make", json!({}));
    let (_, before) = bench.pass_on(json!({ "jobs": [job], "personal": true }));
    let second = empty();
    second.take(&before);
    assert!(second.pictures().contains_key(&plate));

    let held = bench.ok("customer.held", json!({ "job": job }))["jobs"][0]["photos"].clone();
    let told: Vec<_> = held
        .as_array()
        .unwrap()
        .iter()
        .map(|photo| (photo["caption"].as_str().unwrap(), photo["removed"] == true))
        .collect();
    assert_eq!(told, [("Plate VV HL 2041", false), ("Her face", true)]);
    assert!(held[0]["taken_at"].is_string());

    let what = json!([{ "job": job }]);
    let dry = bench.ok("customer.erase", json!({ "jobs": what, "dry_run": true }));
    assert!(
        dry["goes"]
            .as_array()
            .unwrap()
            .contains(&json!({ "kind": "photo", "records": 2 }))
    );
    assert!(bench.pictures().contains_key(&plate));
    let done = bench.ok("customer.erase", json!({ "jobs": what }));
    // The removed photo was of the same file as the one of the work, which stays.
    assert_eq!(done["proof"]["pictures_gone"], 2, "{done}");
    assert_eq!(done["proof"]["pictures_left"], 2, "{done}");
    assert_eq!(done["proof"]["rewritten"], true);
    assert!(
        done["proof"]["places"]
            .as_array()
            .unwrap()
            .iter()
            .all(|place| { place["found"] == (place["place"] == "older_copy") })
    );
    let here = bench.pictures();
    assert!(here.contains_key(&work) && !here.contains_key(&plate));
    assert_eq!(here.len(), 2);
    let photos = bench.photos(&job);
    assert_eq!(photos.as_array().unwrap().len(), 1);
    assert_eq!(photos[0]["caption"], "Land 3");
    let erasures = bench.ok("erasure.list", json!({}));
    assert_eq!(erasures["erasures"][0]["photos"], 2);
    assert_eq!(erasures["erasures"][0]["jobs"].as_array().unwrap().len(), 1);
    assert_eq!(bench.check()["clean"], true);

    // By a file it goes there too, though a backup there still names it.
    let (_, after) = bench.pass_on(json!({ "jobs": [job] }));
    let (_, whole) = bench.pass_on(json!({}));
    second.take(&after);
    second.take(&whole);
    assert!(!second.pictures().contains_key(&plate));
    assert!(second.pictures().contains_key(&work));
    assert_eq!(second.photos(&job).as_array().unwrap().len(), 1);

    // Handed in again, neither words nor picture come back.
    for one in [&bench, &second] {
        one.take(&before);
        assert!(!one.pictures().contains_key(&plate));
        assert_eq!(one.photos(&job).as_array().unwrap().len(), 1);
        assert_eq!(one.check()["clean"], true);
    }
    // Nor with an older backup.
    bench.ok("backup.restore", json!({ "name": backup["name"] }));
    assert_eq!(bench.photos(&job).as_array().unwrap().len(), 1);
    assert!(!bench.pictures().contains_key(&plate));
    assert!(bench.pictures().contains_key(&work));
}
