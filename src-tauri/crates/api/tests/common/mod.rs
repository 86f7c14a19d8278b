//! An app on a store in a folder of its own, with a clock that the test sets.

#![allow(dead_code, reason = "each test file uses its own part")]

use std::path::PathBuf;
use std::sync::Arc;
use std::sync::atomic::{AtomicI64, Ordering};

use api::{App, Clock, Options};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use chrono::{DateTime, NaiveDate, TimeZone, Utc};
use serde_json::{Value, json};

/// Pascals in a conventional inch of mercury: NIST SP 811 App. B prints 3.386389E+03.
pub const INHG: f64 = 3_386.388_640_341;
/// Pascals in a psi, from the exact definitions (NIST SP 811 App. B prints 6.894757E+03).
pub const PSI: f64 = 6_894.757_293_168_361;

/// Noon of a day in April 2026; each look moves it a second on.
pub struct TestClock(AtomicI64);

impl Clock for TestClock {
    fn now(&self) -> DateTime<Utc> {
        let seconds = self.0.fetch_add(1, Ordering::SeqCst);
        Utc.with_ymd_and_hms(2026, 4, 14, 12, 0, 0).unwrap() + chrono::Duration::seconds(seconds)
    }

    fn today(&self) -> NaiveDate {
        NaiveDate::from_ymd_opt(2026, 4, 14).unwrap()
    }
}

/// An app with the demo shop, in a folder that goes with it.
pub struct Bench {
    pub app: App,
    pub folder: tempfile::TempDir,
}

impl Bench {
    /// A fresh store with the demo shop; Marta is working.
    pub fn with_demo() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let bench = Self {
            app: start(folder.path().join("shop.db"), true),
            folder,
        };
        let marta = bench.person("Marta Oyelaran");
        bench.ok("person.choose", json!({ "person": marta }));
        bench
    }

    pub fn path(&self) -> PathBuf {
        self.folder.path().join("shop.db")
    }

    /// Closes the app and opens it again.
    pub fn restart(self) -> Self {
        let Self { app, folder } = self;
        drop(app);
        Self {
            app: start(folder.path().join("shop.db"), true),
            folder,
        }
    }

    pub fn call(&self, command: &str, args: Value) -> Value {
        let request = json!({ "command": command, "args": args }).to_string();
        serde_json::from_str(&self.app.call(&request)).unwrap()
    }

    pub fn ok(&self, command: &str, args: Value) -> Value {
        let answer = self.call(command, args);
        assert!(answer.get("ok").is_some(), "{command}: {answer}");
        answer["ok"].clone()
    }

    pub fn error(&self, command: &str, args: Value) -> Value {
        let answer = self.call(command, args);
        assert!(answer.get("error").is_some(), "{command}: {answer}");
        answer["error"].clone()
    }

    /// Takes a file in after the answer "believed" for every signer that asks, in spite of any
    /// doubt.
    pub fn take_in(&self, file: &Value) -> Value {
        let signers = self.believed(file);
        self.ok(
            "bundle.take_in",
            json!({ "file": file, "signers": signers }),
        )
    }

    /// That answer.
    pub fn believed(&self, file: &Value) -> Value {
        let plan = self.ok("bundle.look", json!({ "file": file }));
        let asked = plan["signers"].as_array().unwrap().iter();
        asked
            .filter(|signer| signer["asks"] == true)
            .map(|signer| json!({ "device": signer["device"], "despite_doubts": true }))
            .collect()
    }

    pub fn person(&self, name: &str) -> Value {
        let overview = self.ok("shop.overview", json!({}));
        pick(&overview["people"], "name", name)["id"].clone()
    }

    /// Opens a job on a demo unit.
    pub fn open_job(&self, unit: &str) -> Value {
        let overview = self.ok("shop.overview", json!({}));
        let unit = pick(&overview["units"], "name", unit)["id"].clone();
        let opened = self.ok(
            "job.open",
            json!({
                "unit": unit,
                "vehicle": { "description": "2018 Wendover hatchback" },
                "complaint": { "text": "Harsh 2-3 when hot" },
            }),
        );
        opened["job"].clone()
    }

    /// Begins a vacuum test of the first bore on the shop's bench.
    pub fn begin_test(&self, job: &Value) -> Value {
        let view = self.ok("job.get", json!({ "job": job }));
        let bore = &view["bores"][0];
        let overview = self.ok("shop.overview", json!({}));
        let stands = overview["stands"].as_array().unwrap();
        let stand = stands
            .iter()
            .find(|s| s["stand"]["name"] == "Bench 1, Hollow Lane")
            .unwrap();
        let begun = self.ok(
            "test.begin",
            json!({
                "job": job,
                "bore": bore["bore"],
                "test_point": bore["test_points"][0]["test_point"],
                "stand": stand["id"],
            }),
        );
        begun["test"].clone()
    }

    pub fn record(&self, test: &Value, part: &str, body: Value) -> Value {
        self.ok(
            "test.record",
            json!({ "test": test, "part": { "part": part, "body": body } }),
        )
    }

    /// Records the set-up at a barometer and a sound stand check.
    pub fn set_up(&self, test: &Value) {
        let saved = self.record(
            test,
            "setup",
            json!({
                "valve_position": "at_rest",
                "orifice": "blocked",
                "surface": "dry",
                "ambient": { "by": "barometer", "pressure_pa": 100_900.0 },
                "air_temperature_k": 293.15,
            }),
        );
        assert_eq!(saved["saved"], true, "{saved}");
        let saved = self.record(
            test,
            "stand_check",
            json!({
                "dead_head_vacuum_pa": 28.1 * INHG,
                "orifices": [
                    { "label": "0.5", "vacuum_pa": 21.4 * INHG },
                    { "label": "1.1", "vacuum_pa": 5.0 * INHG },
                ],
            }),
        );
        assert_eq!(saved["saved"], true, "{saved}");
    }

    pub fn read(&self, test: &Value, inhg: f64, reseated: bool) -> Value {
        self.record(
            test,
            "reading",
            json!({ "vacuum_pa": inhg * INHG, "reseated": reseated }),
        )
    }
}

pub fn start(path: PathBuf, demo: bool) -> App {
    App::start(Options {
        store_path: Some(path),
        demo_on_first_start: demo,
        paths: true,
        clock: Arc::new(TestClock(AtomicI64::new(0))),
    })
}

pub fn pick<'a>(list: &'a Value, field: &str, value: &str) -> &'a Value {
    let found = list
        .as_array()
        .unwrap()
        .iter()
        .find(|item| item[field] == value);
    found.unwrap_or_else(|| panic!("no {field} {value} in {list}"))
}

pub fn codes(findings: &Value) -> Vec<(String, String)> {
    let text = |value: &Value| value.as_str().unwrap().to_owned();
    findings
        .as_array()
        .unwrap()
        .iter()
        .map(|f| (text(&f["code"]), text(&f["field"])))
        .collect()
}

/// A JPEG file as a camera writes it: 640 by 480, with a position, a time and a name in its Exif
/// and more behind its end. `picture`'s tests make it.
pub const CAMERA: &[u8] = include_bytes!("../../../../../tests/e2e/files/camera.jpg");

impl Bench {
    pub fn carry_in(&self, name: &str, bytes: &[u8]) -> Value {
        let held = self.ok("file.begin", json!({ "name": name }));
        // In pieces, as a page does it.
        for piece in bytes.chunks(10_000) {
            let piece = json!({ "file": held["file"], "base64": STANDARD.encode(piece) });
            self.ok("file.add", piece);
        }
        held["file"].clone()
    }

    pub fn add_photo(&self, job: &Value, more: Value) -> Value {
        let mut args = json!({ "job": job, "file": self.carry_in("camera.jpg", CAMERA) });
        for (field, value) in more.as_object().unwrap() {
            args[field] = value.clone();
        }
        self.ok("photo.add", args)["photos"].clone()
    }

    pub fn photos(&self, job: &Value) -> Value {
        self.ok("photo.list", json!({ "job": job }))["photos"].clone()
    }
}
