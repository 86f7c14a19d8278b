//! Two programs on one store: each sees what the other keeps, nothing is lost, and neither takes
//! the file away from under the other.
#![allow(clippy::unwrap_used)]

use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};

use serde_json::{Value, json};

struct Program {
    child: Child,
    input: ChildStdin,
    output: BufReader<ChildStdout>,
}

impl Program {
    fn start(store: &Path) -> Self {
        let mut child = Command::new(env!("CARGO_BIN_EXE_headless"))
            .args(["call", "--empty", "--store"])
            .arg(store)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        Self {
            input: child.stdin.take().unwrap(),
            output: BufReader::new(child.stdout.take().unwrap()),
            child,
        }
    }

    fn send(&mut self, command: &str, args: &Value) {
        writeln!(
            self.input,
            "{}",
            json!({ "command": command, "args": args })
        )
        .unwrap();
    }

    fn answer(&mut self) -> Value {
        let mut line = String::new();
        self.output.read_line(&mut line).unwrap();
        serde_json::from_str(&line).unwrap()
    }

    fn ask(&mut self, command: &str, args: &Value) -> Value {
        self.send(command, args);
        self.answer()
    }

    fn end(self) {
        let Self {
            mut child, input, ..
        } = self;
        drop(input);
        assert!(child.wait().unwrap().success());
    }
}

#[test]
fn two_programs_write_one_store_and_neither_replaces_it_under_the_other() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let (mut one, mut two) = (Program::start(&path), Program::start(&path));
    let each = 20;
    for n in 0..each {
        // Both at once.
        one.send("person.add", &json!({ "name": format!("One {n}") }));
        two.send("person.add", &json!({ "name": format!("Two {n}") }));
        for answer in [one.answer(), two.answer()] {
            assert!(answer["ok"].is_object(), "{answer}");
        }
    }
    let made = one.ask("backup.make", &json!({}));
    let name = &made["ok"]["name"];
    assert!(name.is_string(), "{made}");
    for (command, args) in [
        ("backup.restore", json!({ "name": name })),
        ("store.repair", json!({})),
    ] {
        let refused = one.ask(command, &args);
        assert_eq!(refused["error"]["code"], "store_locked", "{refused}");
    }
    let overviews = [
        one.ask("shop.overview", &json!({})),
        two.ask("shop.overview", &json!({})),
    ];
    for overview in &overviews {
        assert_eq!(overview["ok"]["people"].as_array().unwrap().len(), 2 * each);
    }
    let check = two.ask("store.check", &json!({}));
    assert_eq!(check["ok"]["problems"], json!([]));
    // Once the other has gone, it may be replaced.
    two.end();
    let restored = one.ask("backup.restore", &json!({ "name": name }));
    assert!(restored["ok"].is_object(), "{restored}");
    assert_eq!(
        one.ask("store.check", &json!({}))["ok"]["digest"],
        check["ok"]["digest"]
    );
    one.end();
}

/// What one takes in, undoes or brings in as a table, the other builds on or sees at once; an import
/// that the other has built on stays.
#[test]
fn imports_tables_and_undo_of_two_programs_meet_in_one_store() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let (mut one, mut two) = (Program::start(&path), Program::start(&path));
    // Both take the same shop in at once: it is there once.
    one.send("demo.bring", &json!({}));
    two.send("demo.bring", &json!({}));
    let brought = [one.answer(), two.answer()].map(|answer| answer["ok"]["new_records"].clone());
    assert!(brought.contains(&json!(0)), "{brought:?}");
    let imports = one.ask("import.list", &json!({}));
    let import = imports["ok"]["imports"][0]["import"].clone();
    assert!(import.is_i64(), "{imports}");

    // Each on its own job, at once, by a table and by hand.
    let overview = one.ask("shop.overview", &json!({}));
    let person = &overview["ok"]["people"][0]["id"];
    two.ask("person.choose", &json!({ "person": person }));
    let unit = &overview["ok"]["units"][0]["id"];
    let opened = two.ask(
        "job.open",
        &json!({
            "unit": unit,
            "vehicle": { "description": "2018 Wendover hatchback" },
            "complaint": { "text": "Harsh 2-3 when hot" },
        }),
    );
    let job = &opened["ok"]["job"];
    let view = one.ask("job.get", &json!({ "job": job }));
    let bore = &view["ok"]["bores"][0];
    let file = one.ask("file.begin", &json!({ "name": "log.csv" }))["ok"]["file"].clone();
    // "vacuum (kPa)", 55.5 and 55.1, as RFC 4648 has it.
    let base64 = "dmFjdXVtIChrUGEpCjU1LjUKNTUuMQo=";
    one.ask("file.add", &json!({ "file": file, "base64": base64 }));
    one.send(
        "readings.take_in",
        &json!({ "file": file, "into": {
            "job": job, "bore": bore["bore"],
            "test_point": bore["test_points"][0]["test_point"],
        } }),
    );
    two.send("person.add", &json!({ "name": "Ada Thornquist" }));
    let taken = one.answer();
    assert_eq!(taken["ok"]["readings"], 2, "{taken}");
    assert!(two.answer()["ok"].is_object());
    let test = &taken["ok"]["tests"][0];
    let seen = two.ask("test.get", &json!({ "test": test }));
    assert_eq!(seen["ok"]["readings"].as_array().unwrap().len(), 2);

    // They are one device: either takes back the last change of both, and the other sees it.
    let before = two.ask("store.check", &json!({}))["ok"]["records"].clone();
    let undone = two.ask("undo.last", &json!({}));
    assert!(undone["ok"].is_object(), "{undone}");
    assert_ne!(one.ask("store.check", &json!({}))["ok"]["records"], before);
    let back = one.ask("redo.last", &json!({}));
    assert!(back["ok"].is_object(), "{back}");

    let refused = one.ask("import.remove", &json!({ "import": import }));
    assert_eq!(refused["error"]["code"], "built_upon", "{refused}");
    let checks = [
        one.ask("store.check", &json!({})),
        two.ask("store.check", &json!({})),
    ];
    assert_eq!(checks[0]["ok"], checks[1]["ok"]);
    assert_eq!(checks[0]["ok"]["problems"], json!([]));
    one.end();
    two.end();
}
