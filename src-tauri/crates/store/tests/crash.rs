//! A process that is killed while it writes leaves the file as it was before or after a write.

use std::io::{BufRead, BufReader};
use std::path::PathBuf;
use std::process::{Command, Stdio};

use crate::common::*;
use journal::SubjectId;

const FILE: &str = "STORE_TEST_CRASH_FILE";

fn job() -> SubjectId {
    SubjectId::from_bytes([7; 16])
}

#[test]
#[ignore = "run by the test below, in a process of its own"]
fn child_appends_until_killed() {
    let path = PathBuf::from(std::env::var_os(FILE).unwrap());
    let mut store = open(&path);
    for n in 0.. {
        // Two records an action: either both are there afterwards or neither is.
        let both = ["a", "b"].map(|half| record(job(), READING, &format!("{n}{half}"), vec![]));
        let commit = store.append(both.into(), ines(), at(n)).unwrap();
        store.put_draft("typing", &n.to_string(), at(n)).unwrap();
        if n % 7 == 6 {
            store.undo(ines(), at(n)).unwrap();
        }
        // What has been said to be kept must be kept.
        println!("kept {}", commit.id());
    }
}

#[test]
fn after_a_kill_all_that_was_kept_is_there_and_sound() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    drop(open(&path));
    let mut before = 0;
    for kill in 0..10 {
        let mut child = Command::new(std::env::current_exe().unwrap())
            .args([
                "--ignored",
                "--exact",
                "crash::child_appends_until_killed",
                "--nocapture",
            ])
            .env(FILE, &path)
            .stdout(Stdio::piped())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let mut kept = Vec::new();
        let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
        // Another number of actions each time, so that the kill falls elsewhere; what the child
        // says between our decision and its end counts as kept too.
        while kept.len() < 3 + kill * 2 {
            let line = lines.next().unwrap().unwrap();
            kept.extend(line.strip_prefix("kept ").map(str::to_owned));
        }
        child.kill().unwrap();
        child.wait().unwrap();
        for line in lines.map_while(Result::ok) {
            // The last line may be cut.
            kept.extend(
                line.strip_prefix("kept ")
                    .filter(|id| id.len() == 36)
                    .map(str::to_owned),
            );
        }

        let store = open(&path);
        assert_sound(&store);
        for id in &kept {
            assert!(
                store.commit(id.parse().unwrap()).unwrap().is_some(),
                "{id} is lost"
            );
        }
        let history = store.records_of(job()).unwrap();
        let readings = history
            .iter()
            .filter(|e| e.stored.envelope().kind == READING)
            .count();
        assert_eq!(readings % 2, 0, "half an action");
        assert!(readings >= before + 2 * kept.len());
        assert!(store.draft("typing").unwrap().is_some());
        before = readings;
    }
}
