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
