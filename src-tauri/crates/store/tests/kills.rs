//! A process killed at a random moment of whatever it does to a store leaves it as it was before or
//! as it is after, never between. 30 kills; `STORE_KILLS` says how many, `npm run kills` makes 600.
#![allow(clippy::unwrap_used)]

mod common;

use std::fs;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, SystemTime, UNIX_EPOCH};

use common::*;
use journal::{CheckedBatch, SubjectId};
use rusqlite::Connection;
use store::{Backups, Digest, Reason, Selection, Store};

const FILE: &str = "STORE_TEST_KILL_FILE";
const WORK: &str = "STORE_TEST_KILL_WORK";
const WORKS: [&str; 6] = ["write", "import", "migrate", "back up", "restore", "repair"];

fn job() -> SubjectId {
    SubjectId::from_bytes([7; 16])
}

fn pair(store: &mut Store, n: i64) {
    let both = ["a", "b"].map(|half| record(job(), READING, &format!("{n}{half}"), vec![]));
    store.append(both.into(), ines(), at(n)).unwrap();
}

fn from_elsewhere() -> CheckedBatch {
    let mut other = memory(3);
    for n in 0..30 {
        let job = new_job(&mut other, n, &format!("-|{n}|job {n}"));
        set(&mut other, job, NOTE, &"long ".repeat(300), n);
    }
    other
        .export(&Selection::Everything, true)
        .unwrap()
        .check()
        .unwrap()
}

#[test]
#[ignore = "run by the test below, in a process of its own"]
fn child_works_until_killed() {
    let path = PathBuf::from(std::env::var_os(FILE).unwrap());
    let work = std::env::var(WORK).unwrap();
    let batch = from_elsewhere();
    let backups = Backups::of(&path);
    println!("ready");
    match work.as_str() {
        "write" => {
            let mut store = open(&path);
            for n in 0.. {
                pair(&mut store, n);
                println!("kept");
            }
        }
        "import" => {
            let mut store = open(&path);
            loop {
                let (_, import) = store.take_in(&batch, "elsewhere", at(1)).unwrap();
                store.remove_import(import.unwrap()).unwrap();
            }
        }
        "migrate" => loop {
            drop(open(&path));
            to_schema_5(&path);
        },
        "back up" => {
            let mut store = open(&path);
            for n in 0.. {
                pair(&mut store, n);
                backups.make(Reason::ByHand, at(n)).unwrap();
                println!("kept");
            }
        }
        "restore" => loop {
            let made: Vec<_> = backups.list().unwrap();
            for backup in made.iter().filter(|backup| backup.reason == Reason::ByHand) {
                backups.restore(&backup.name, &[], at(9)).unwrap();
            }
        },
        "repair" => loop {
            backups.repair(real_setup(), at(9)).unwrap();
        },
        other => panic!("{other}"),
    }
}

/// As the version before imports were remembered left it, in one transaction.
fn to_schema_5(path: &Path) {
    Connection::open(path)
        .unwrap()
        .execute_batch(
            "BEGIN; DROP INDEX standing_concurrent; DROP INDEX record_by_tick; DROP TABLE import_item; DROP TABLE import_; PRAGMA user_version = 5; COMMIT",
        )
        .unwrap();
}

struct Shop {
    _folder: tempfile::TempDir,
    path: PathBuf,
    /// What the journal may be: for work that goes to and fro.
    states: Vec<Digest>,
}

/// A store with a few records, made ready for a piece of work.
fn shop(work: &str) -> Shop {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let mut store = open(&path);
    for n in 0..5 {
        pair(&mut store, n);
    }
    let mut states = vec![store.digest().unwrap()];
    let backups = Backups::of(&path);
    match work {
        "import" => {
            let (_, import) = store
                .take_in(&from_elsewhere(), "elsewhere", at(1))
                .unwrap();
            states.push(store.digest().unwrap());
            store.remove_import(import.unwrap()).unwrap();
        }
        "restore" => {
            backups.make(Reason::ByHand, at(1)).unwrap();
            pair(&mut store, 6);
            states.push(store.digest().unwrap());
            backups.make(Reason::ByHand, at(2)).unwrap();
        }
        _ => {}
    }
    Shop {
        _folder: folder,
        path,
        states,
    }
}

struct Dice(u64);

impl Dice {
    fn below(&mut self, end: u64) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) % end
    }
}

/// Lets a child work for a random while and kills it; gives how often it said to have kept
/// something.
fn kill_at_random(shop: &Shop, work: &str, dice: &mut Dice) -> usize {
    let mut child = Command::new(std::env::current_exe().unwrap())
        .args([
            "--ignored",
            "--exact",
            "child_works_until_killed",
            "--nocapture",
        ])
        .env(FILE, &shop.path)
        .env(WORK, work)
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
    while !lines.next().unwrap().unwrap().ends_with("ready") {}
    std::thread::sleep(Duration::from_micros(dice.below(150_000)));
    child.kill().unwrap();
    child.wait().unwrap();
    lines
        .map_while(Result::ok)
        .filter(|line| line == "kept")
        .count()
}

fn readings(store: &Store) -> usize {
    store.standing(job(), &READING).unwrap().records.len()
}

#[test]
fn a_kill_at_any_moment_leaves_before_or_after() {
    let kills: usize = std::env::var("STORE_KILLS").map_or(30, |kills| kills.parse().unwrap());
    let seed = SystemTime::now()
        .duration_since(UNIX_EPOCH)
        .unwrap()
        .as_nanos() as u64;
    let mut dice = Dice(seed);
    let mut shops: Vec<_> = WORKS.iter().map(|work| (*work, shop(work), 10)).collect();
    for kill in 0..kills {
        let all = shops.len();
        let (work, shop, known) = &mut shops[kill % all];
        let context = format!("kill {kill} of seed {seed}, while it would {work}");
        let kept = kill_at_random(shop, work, &mut dice);
        if *work == "migrate" {
            let found: i64 = Connection::open(&shop.path)
                .unwrap()
                .pragma_query_value(None, "user_version", |row| row.get(0))
                .unwrap();
            assert!(found == 5 || found == 6, "{context}: schema {found}");
        }
        let store =
            Store::open(&shop.path, real_setup()).unwrap_or_else(|e| panic!("{context}: {e}"));
        assert_eq!(store.check().unwrap(), [], "{context}");
        let digest = store.digest().unwrap();
        match *work {
            "write" | "back up" => {
                let found = readings(&store);
                assert_eq!(found % 2, 0, "{context}: half an action");
                // What was said to be kept is, and of the rest at most one action.
                assert!(
                    found >= *known + 2 * kept,
                    "{context}: {found} of {known} + 2 * {kept}"
                );
                assert!(
                    found <= *known + 2 * kept + 4,
                    "{context}: {found} of {known} + 2 * {kept}"
                );
                *known = found;
            }
            _ => assert!(shop.states.contains(&digest), "{context}"),
        }
        if *work == "import" {
            let imports = store.imports().unwrap().len();
            assert_eq!(imports == 1, digest == shop.states[1], "{context}");
            // The next child begins from without.
            let mut store = store;
            for import in store.imports().unwrap() {
                store.remove_import(import.id).unwrap();
            }
        } else {
            drop(store);
        }
        let backups = Backups::of(&shop.path);
        for backup in backups.list().unwrap() {
            if backup.reason == Reason::Replaced {
                // They would fill the disk over hundreds of kills.
                let place = backups.folder().join(&backup.name);
                let _ = fs::remove_file(place.with_extension("db-wal"));
                fs::remove_file(place).unwrap();
            } else {
                let sound = backups.verify(&backup.name);
                sound.unwrap_or_else(|e| panic!("{context}: {}: {e}", backup.name));
            }
        }
        if *work == "migrate" {
            to_schema_5(&shop.path);
        }
    }
    println!("{kills} kills, seed {seed}");
}
