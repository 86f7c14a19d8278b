//! A process killed at a random moment of whatever it does to a store leaves it as it was before or
//! as it is after, never between. 30 kills; `STORE_KILLS` says how many, `npm run kills` makes 600.

use std::collections::BTreeMap;
use std::fs;
use std::io::{BufRead, BufReader};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, SystemTime, UNIX_EPOCH};

use crate::common::*;
use journal::{CheckedBatch, SubjectId};
use rusqlite::Connection;
use store::{Backups, Digest, Reason, Selection, Store};

const FILE: &str = "STORE_TEST_KILL_FILE";
const WORK: &str = "STORE_TEST_KILL_WORK";
/// Which of the backups is put back first: otherwise one that holds what is there already might be
/// all that a kill ever meets.
const FIRST: &str = "STORE_TEST_KILL_FIRST";
const WORKS: [&str; 7] = [
    "write", "import", "migrate", "back up", "restore", "repair", "photo",
];

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
            let mut made: Vec<_> = backups.list().unwrap();
            made.retain(|backup| backup.reason == Reason::ByHand);
            let first: usize = std::env::var(FIRST).unwrap().parse().unwrap();
            for backup in made.iter().cycle().skip(first).take(made.len()) {
                backups.restore(&backup.name, &[], at(9)).unwrap();
            }
        },
        "photo" => {
            let mut store = open(&path);
            for n in 0.. {
                let photo = store.new_subject(at(n)).unwrap();
                // Another content each time, over several pieces.
                let content = photo.to_string().repeat(4_000);
                add_photo(&mut store, photo, content.as_bytes(), n);
                println!("kept");
                if n % 4 == 3 {
                    store.attachments().unwrap().sweep(&projector()).unwrap();
                }
            }
        }
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
            "BEGIN; DROP INDEX standing_concurrent; DROP INDEX record_by_tick; DROP TABLE erased;
         DROP TABLE scrub; DROP TABLE naming; DROP TABLE freed; DROP TABLE summary_search; DROP TABLE summary_text;
         CREATE VIRTUAL TABLE subject_search USING fts5 (
             text, content = 'subject', content_rowid = 'seq', tokenize = 'trigram');
         INSERT INTO subject_search (subject_search, rank) VALUES ('secure-delete', 1);
         INSERT INTO subject_search (subject_search) VALUES ('rebuild');
         DROP TABLE facet; DROP TABLE summary; DROP TABLE summarised; DROP TABLE author;
         DROP TABLE import_item; DROP TABLE import_; PRAGMA user_version = 5; COMMIT",
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
            "kills::child_works_until_killed",
            "--nocapture",
        ])
        .env(FILE, &shop.path)
        .env(WORK, work)
        .env(FIRST, dice.below(2).to_string())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
    while !lines.next().unwrap().unwrap().ends_with("ready") {}
    // An import writes much at once; a file put in another's place is checked first, as that is.
    let within = match work {
        "import" | "restore" => 400_000,
        _ => 150_000,
    };
    std::thread::sleep(Duration::from_micros(dice.below(within)));
    // One that ended by itself was at no work when it was killed, and proves nothing.
    assert_eq!(child.try_wait().unwrap(), None, "no work to {work}");
    child.kill().unwrap();
    child.wait().unwrap();
    lines
        .map_while(Result::ok)
        .filter(|line| line == "kept")
        .count()
}

/// What a kill cut off, as far as the files show it: a log that was not folded in, a file on its
/// way to its place.
fn cut_off(path: &Path) -> Vec<&'static str> {
    let mut log = path.as_os_str().to_owned();
    log.push("-wal");
    let mut found = Vec::new();
    if fs::metadata(log).is_ok_and(|log| log.len() > 0) {
        found.push("a log");
    }
    let folder = path.parent().unwrap();
    let names = [folder.to_owned(), Backups::of(path).folder().to_owned()]
        .into_iter()
        .filter_map(|folder| fs::read_dir(folder).ok())
        .flatten()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap());
    let settled = |name: &String| {
        let whole = name.trim_end_matches("-wal").trim_end_matches("-shm");
        name == "backups" || whole.ends_with(".db") || name.ends_with(".lock")
    };
    if names.filter(|name| !settled(name)).count() > 0 {
        found.push("a file on its way");
    }
    found
}

/// How often each kind of work was killed, and what was found then.
#[derive(Default)]
struct Seen(BTreeMap<&'static str, BTreeMap<String, usize>>);

impl Seen {
    fn note(&mut self, work: &'static str, what: impl Into<String>) {
        *self
            .0
            .entry(work)
            .or_default()
            .entry(what.into())
            .or_default() += 1;
    }

    /// Over many kills both sides of each piece of work are met, or the kills miss it.
    fn assert_both(&self, work: &str, sides: [&str; 2]) {
        for side in sides {
            let times = self.0.get(work).and_then(|seen| seen.get(side));
            assert!(
                times.is_some(),
                "{work} was never found {side}: {:?}",
                self.0
            );
        }
    }
}

fn schema(path: &Path) -> i64 {
    Connection::open(path)
        .unwrap()
        .pragma_query_value(None, "user_version", |row| row.get(0))
        .unwrap()
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
    let mut seen = Seen::default();
    let mut shops: Vec<_> = WORKS
        .iter()
        .map(|work| (*work, shop(work), if *work == "photo" { 0 } else { 10 }))
        .collect();
    // These were all just made; the one to be carried forward begins from older with each child.
    let newest = schema(&shops[0].1.path);
    for kill in 0..kills {
        let all = shops.len();
        let (work, shop, known) = &mut shops[kill % all];
        let context = format!("kill {kill} of seed {seed}, while it would {work}");
        let kept = kill_at_random(shop, work, &mut dice);
        seen.note(work, "killed");
        for left in cut_off(&shop.path) {
            seen.note(work, left);
        }
        if *work == "migrate" {
            let found = schema(&shop.path);
            assert!(found == 5 || found == newest, "{context}: schema {found}");
            seen.note(work, if found == 5 { "before" } else { "after" });
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
            "photo" => {
                let attachments = store.attachments().unwrap();
                let named = store.standing_attachments().unwrap().len();
                // The check above has read each of them. At most one lies there unnamed.
                assert!(
                    named >= *known + kept,
                    "{context}: {named} of {known} + {kept}"
                );
                let stray = attachments.sweep(&projector()).unwrap().len();
                assert!(stray <= 1, "{context}: {stray} strays");
                assert_eq!(attachments.list().unwrap().len(), named, "{context}");
                // On a slow machine the first may be killed before there is a folder, or its lock.
                let files = fs::read_dir(attachments.folder()).map_or(0, Iterator::count);
                let begun = named > 0 || files > 0;
                assert_eq!(
                    files,
                    named + usize::from(begun),
                    "{context}: a part, or no lock"
                );
                *known = named;
            }
            _ => {
                let state = shop.states.iter().position(|state| *state == digest);
                let state = state.unwrap_or_else(|| panic!("{context}: between"));
                if *work != "migrate" {
                    seen.note(work, ["before", "after"][state]);
                }
            }
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
    println!("{kills} kills, seed {seed}: {:#?}", seen.0);
    // Enough that a side is missed once in many thousand runs, if it is met in one kill of four.
    if kills / WORKS.len() >= 40 {
        for work in ["import", "migrate", "restore"] {
            seen.assert_both(work, ["before", "after"]);
        }
        seen.assert_both("back up", ["a log", "a file on its way"]);
    }
}
