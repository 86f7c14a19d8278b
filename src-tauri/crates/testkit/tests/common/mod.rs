//! The demo shop as the app opens it for the first time.

#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]
#![allow(dead_code, reason = "each test program uses what it needs of it")]

use std::sync::Arc;

use serde_json::{Value, json};

pub struct Shop {
    app: api::App,
    _folder: tempfile::TempDir,
}

impl Shop {
    pub fn open() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let app = api::App::start(api::Options {
            paths: false,
            store_path: Some(folder.path().join("shop.db")),
            demo_on_first_start: true,
            clock: Arc::new(api::SystemClock),
        });
        Self {
            app,
            _folder: folder,
        }
    }

    pub fn ask(&self, command: &str, args: Value) -> Value {
        let request = json!({ "command": command, "args": args }).to_string();
        let answer: Value = serde_json::from_str(&self.app.call(&request)).unwrap();
        answer
            .get("ok")
            .cloned()
            .unwrap_or_else(|| panic!("{answer}"))
    }

    pub fn list(&self) -> Vec<Value> {
        let list = self.ask("job.list", json!({}));
        list["jobs"].as_array().unwrap().clone()
    }

    pub fn job(&self, number: &str) -> Value {
        let found = self.list().into_iter().find(|job| job["number"] == number);
        self.ask("job.get", json!({ "job": found.unwrap()["id"] }))
    }

    /// The tests of a job's bore, oldest first, each as its screen shows it.
    pub fn tests(&self, job: &Value) -> Vec<Value> {
        let entries = job["bores"][0]["test_points"][0]["tests"].as_array();
        let entries = entries.unwrap().iter();
        entries
            .map(|entry| self.ask("test.get", json!({ "test": entry["test"] })))
            .collect()
    }

    pub fn repairs(&self, job: &Value) -> Vec<Value> {
        let bore = &job["bores"][0];
        let entries = bore["repairs"].as_array().unwrap().iter();
        entries
            .map(|entry| {
                let args =
                    json!({ "job": job["id"], "bore": bore["bore"], "repair": entry["repair"] });
                self.ask("repair.get", args)
            })
            .collect()
    }
}
