//! The store on a disk that goes wrong: every operation of a piece of work in turn is the one that
//! fails, that finds no room, or during which the power goes. Afterwards the store is as it was
//! before that piece of work or as it is after it, what was said to be kept is kept, and the
//! check finds nothing.
#![allow(clippy::unwrap_used)]

use std::collections::BTreeMap;
use std::path::Path;
use std::sync::Arc;

use faults::{Disk, Fault};
use journal::{CheckedBatch, FoldRule, Kind, PersonId, SubjectId, WallTime};
use store::{
    Digest, NewRecord, Place, Projector, Selection, Setup, StandingRecord, Store, StoreError,
};

const NOTE: Kind = Kind::literal("note");
const PATH: &str = "/no/such/folder/shop.db";

struct Notes;

impl Projector for Notes {
    fn version(&self) -> u32 {
        1
    }

    fn rule(&self, _: &Kind) -> Option<FoldRule> {
        Some(FoldRule::Addition)
    }

    fn reads(&self, _: &Kind, _: u32) -> bool {
        true
    }

    fn place(&self, _: SubjectId, standing: &[StandingRecord<'_>]) -> Place {
        let text = standing
            .iter()
            .filter_map(|record| record.body)
            .flatten()
            .copied()
            .collect();
        Place {
            text: String::from_utf8(text).unwrap(),
            ..Place::default()
        }
    }
}

fn open() -> Result<Store, StoreError> {
    Store::open(Path::new(PATH), Setup::new(Arc::new(Notes)))
}

fn at(n: i64) -> WallTime {
    WallTime::from_unix_ms(1_790_000_000_000 + n)
}

fn append(store: &mut Store, n: i64) -> Result<(), StoreError> {
    let record = |half: &str| NewRecord {
        subject: SubjectId::from_bytes([7; 16]),
        kind: NOTE,
        kind_version: 1,
        supersedes: vec![],
        body: format!("note {n}{half} {}", "x".repeat(900)).into_bytes(),
        personal: false,
    };
    let author = PersonId::from_bytes([1; 16]);
    store.append(vec![record("a"), record("b")], author, at(n))?;
    Ok(())
}

fn from_elsewhere() -> CheckedBatch {
    let mut other = Store::open_in_memory(Setup::new(Arc::new(Notes))).unwrap();
    for n in 0..6 {
        append(&mut other, n).unwrap();
    }
    other
        .export(&Selection::Everything, true)
        .unwrap()
        .check()
        .unwrap()
}

type Files = BTreeMap<String, Vec<u8>>;

/// A shop with a few notes, closed; some of it still in the log if the program was killed.
fn shop(disk: Disk, killed: bool) -> Files {
    disk.format();
    let mut store = open().unwrap();
    for n in 0..3 {
        append(&mut store, n).unwrap();
    }
    if killed {
        return disk.snapshot();
    }
    drop(store);
    disk.snapshot()
}

/// What is done on the faulty disk; gives how much of it the store said to have kept.
type Work = dyn Fn(&CheckedBatch) -> Result<usize, (usize, StoreError)>;

fn open_and_write(_: &CheckedBatch) -> Result<usize, (usize, StoreError)> {
    let mut store = open().map_err(|error| (0, error))?;
    for n in 0..2 {
        append(&mut store, 100 + n).map_err(|error| (n as usize, error))?;
    }
    drop(store);
    Ok(2)
}

fn open_and_take_in(batch: &CheckedBatch) -> Result<usize, (usize, StoreError)> {
    let mut store = open().map_err(|error| (0, error))?;
    let (_, import) = store
        .take_in(batch, "elsewhere", at(200))
        .map_err(|error| (0, error))?;
    store
        .remove_import(import.unwrap())
        .map_err(|error| (1, error))?;
    Ok(2)
}

/// Takes the tables of the last migration away again: a file as the version before made it.
fn as_before_imports(disk: Disk, files: &Files) -> Files {
    disk.load(files);
    let db = rusqlite::Connection::open(PATH).unwrap();
    db.execute_batch(
        "DROP INDEX standing_concurrent; DROP INDEX record_by_tick; DROP TABLE erased;
         DROP TABLE scrub; DROP TABLE naming; DROP TABLE freed; DROP TABLE summary_search; DROP TABLE summary_text;
         CREATE VIRTUAL TABLE subject_search USING fts5 (
             text, content = 'subject', content_rowid = 'seq', tokenize = 'trigram');
         INSERT INTO subject_search (subject_search, rank) VALUES ('secure-delete', 1);
         INSERT INTO subject_search (subject_search) VALUES ('rebuild');
         DROP TABLE facet; DROP TABLE summary; DROP TABLE summarised; DROP TABLE author;
         DROP TABLE import_item; DROP TABLE import_; PRAGMA user_version = 5",
    )
    .unwrap();
    drop(db);
    disk.snapshot()
}

fn open_and_migrate(_: &CheckedBatch) -> Result<usize, (usize, StoreError)> {
    open().map(|_| 0).map_err(|error| (0, error))
}

/// How much of the work is in the store: the number of records tells.
fn steps_done(records: u64, work: &str, total: u64) -> Vec<usize> {
    match work {
        "write" => vec![usize::try_from((records - 6) / 2).unwrap()],
        // In and out again leaves what was before.
        "import" if records == 6 => vec![0, 2],
        "import" => {
            assert_eq!(records, 6 + total);
            vec![1]
        }
        _ => vec![0],
    }
}

struct Dice(u64);

impl Dice {
    fn throw(&mut self) -> bool {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        self.0 >> 63 == 1
    }
}

fn digest_if_sound(context: &str) -> (Digest, u64) {
    let store = open().unwrap_or_else(|error| panic!("{context}: {error:?}"));
    assert_eq!(store.check().unwrap(), [], "{context}");
    (store.digest().unwrap(), store.record_count().unwrap())
}

fn go_wrong_everywhere(disk: Disk, name: &str, start: &Files, work: &Work, ways: u64) -> u64 {
    let batch = from_elsewhere();
    let incoming = batch.records().len() as u64;
    disk.load(start);
    let (before, _) = digest_if_sound("before");
    disk.load(start);
    let began = disk.operations();
    work(&batch).unwrap();
    let operations = disk.operations() - began;
    assert!(operations > 5, "{name}: {operations}");
    let mut runs = 0;
    for fault in [Fault::PowerCut, Fault::Error, Fault::Full] {
        let ways = if fault == Fault::PowerCut { ways } else { 1 };
        for operation in 1..=operations {
            for way in 0..ways {
                let context =
                    format!("{name}, {fault:?} at {operation} of {operations}, way {way}");
                disk.load(start);
                disk.fail_after(operation, fault);
                let said = work(&batch);
                if fault == Fault::PowerCut {
                    let mut dice = Dice(operation * 1000 + way);
                    // The extremes too: nothing that wasn't synced is left, or all of it.
                    disk.power_up(|| match way {
                        0 => false,
                        1 => true,
                        _ => dice.throw(),
                    });
                } else {
                    disk.mend();
                }
                let (digest, records) = digest_if_sound(&context);
                let done = steps_done(records, name, incoming);
                // A step whose commit failed may be in the file or not, but no later one.
                let kept = match &said {
                    Ok(kept) => *kept..=*kept,
                    Err((kept, _)) => *kept..=kept + 1,
                };
                assert!(
                    done.iter().any(|done| kept.contains(done)),
                    "{context}: said {said:?}, found {records} records"
                );
                if records == 6 {
                    assert_eq!(digest, before, "{context}");
                }
                if let (Fault::Full, Err((_, error))) = (fault, &said) {
                    assert!(
                        matches!(error, StoreError::DiskFull),
                        "{context}: {error:?}"
                    );
                }
                runs += 1;
            }
        }
    }
    runs
}

/// One test, since there is one disk.
#[test]
fn whatever_goes_wrong_the_store_is_before_or_after_and_what_was_kept_stays() {
    let ways = std::env::var("FAULT_WAYS")
        .ok()
        .and_then(|ways| ways.parse().ok())
        .unwrap_or(3);
    let disk = Disk::install();
    let closed = shop(disk, false);
    let killed = shop(disk, true);
    assert!(killed.keys().any(|name| name.ends_with("-wal")));
    let old = as_before_imports(disk, &closed);
    let mut runs = 0;
    runs += go_wrong_everywhere(disk, "write", &closed, &open_and_write, ways);
    runs += go_wrong_everywhere(disk, "write", &killed, &open_and_write, ways);
    runs += go_wrong_everywhere(disk, "import", &closed, &open_and_take_in, ways);
    runs += go_wrong_everywhere(disk, "migrate", &old, &open_and_migrate, ways);
    println!("{runs} times gone wrong");
}
