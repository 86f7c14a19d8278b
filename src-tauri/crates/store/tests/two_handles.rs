//! Several handles on one file, in one process and in several.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use crate::common::*;
use journal::SubjectId;

const FILE: &str = "STORE_TEST_SHARED_FILE";
const EACH: usize = 15;

fn job() -> SubjectId {
    SubjectId::from_bytes([7; 16])
}

fn write_some(path: &Path) {
    let mut store = open(path);
    for n in 0..EACH {
        set(&mut store, job(), READING, &n.to_string(), 0);
        set(&mut store, job(), NOTE, &n.to_string(), 0);
    }
}

fn assert_nothing_lost(path: &Path, writers: usize) {
    let store = open(path);
    assert_sound(&store);
    assert_eq!(
        store.standing(job(), &READING).unwrap().records.len(),
        writers * EACH
    );
    let history = store.records_of(job()).unwrap();
    assert_eq!(history.len(), 2 * writers * EACH);
    let ticks: BTreeSet<_> = history.iter().map(|e| e.stored.envelope().clock).collect();
    assert_eq!(ticks.len(), history.len(), "one tick was used twice");
    let devices: BTreeSet<_> = history.iter().map(|e| e.stored.envelope().device).collect();
    assert_eq!(devices, [store.device()].into());
}

#[test]
fn handles_that_make_and_write_a_file_at_once_lose_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    std::thread::scope(|scope| {
        for _ in 0..4 {
            scope.spawn(|| write_some(&path));
        }
    });
    assert_nothing_lost(&path, 4);
}

#[test]
#[ignore = "run by the test below, in a process of its own"]
fn child_writes_some() {
    write_some(&PathBuf::from(std::env::var_os(FILE).unwrap()));
}

#[test]
fn processes_that_make_and_write_a_file_at_once_lose_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let children: Vec<_> = (0..3)
        .map(|_| {
            Command::new(std::env::current_exe().unwrap())
                .args(["--ignored", "--exact", "two_handles::child_writes_some"])
                .env(FILE, &path)
                .stdout(Stdio::null())
                .spawn()
                .unwrap()
        })
        .collect();
    for mut child in children {
        assert!(child.wait().unwrap().success());
    }
    assert_nothing_lost(&path, 3);
}

#[test]
fn one_handle_sees_and_undoes_what_the_other_wrote() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let (mut one, mut two) = (open(&path), open(&path));
    set(&mut one, job(), NOTE, "from one", 0);
    assert_eq!(bodies(&two, job(), &NOTE), ["from one"]);
    two.undo(ines(), at(1)).unwrap().unwrap();
    assert_eq!(one.standing(job(), &NOTE).unwrap().records, []);
    one.redo(ines(), at(2)).unwrap().unwrap();
    assert_eq!(bodies(&two, job(), &NOTE), ["from one"]);
}
