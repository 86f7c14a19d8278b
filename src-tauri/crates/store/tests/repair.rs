//! A damaged store gives up what can still be read of it, and says what it can't.

use std::fs;
use std::path::{Path, PathBuf};

use crate::common::*;
use journal::Kind;
use rusqlite::Connection;
use store::{Backups, Loss, Lost, Selection, StoreError};

const JOBS: usize = 24;

/// Long enough that most tables have several pages, and some rows go on in further ones.
fn shop(folder: &Path) -> PathBuf {
    let path = folder.join("shop.db");
    let mut store = open(&path);
    for n in 0..JOBS {
        let job = new_job(&mut store, n as i64, &format!("-|{n:02}|job {n}"));
        set(
            &mut store,
            job,
            READING,
            &format!("{n} {}", "x".repeat(n * 250)),
            100,
        );
        set(&mut store, job, NOTE, &format!("note {n}"), 101);
    }
    store.put_draft("typing", "half", at(3)).unwrap();
    store.put_setting("units", "psi").unwrap();
    let elsewhere = &mut memory(7);
    new_job(elsewhere, 0, "-|z|from elsewhere");
    let batch = elsewhere
        .export(&Selection::Everything, true)
        .unwrap()
        .check()
        .unwrap();
    store.take_in(&batch, "elsewhere", at(500)).unwrap();
    path
}

fn files(path: &Path) -> Vec<(String, Vec<u8>)> {
    ["", "-wal"]
        .iter()
        .filter_map(|end| {
            let file = format!("{}{end}", path.display());
            fs::read(file)
                .ok()
                .filter(|b| !b.is_empty())
                .map(|b| ((*end).to_owned(), b))
        })
        .collect()
}

#[test]
fn of_a_sound_store_nothing_is_lost() {
    let folder = tempfile::tempdir().unwrap();
    let path = shop(folder.path());
    let then = open(&path).digest().unwrap();
    let repaired = Backups::of(&path).repair(real_setup(), at(9)).unwrap();
    assert_eq!(repaired.lost, [].into());
    assert_eq!((repaired.altered_commits, repaired.unreadable_rows), (0, 0));
    assert_eq!(
        (repaired.records, repaired.drafts),
        (3 * JOBS as u64 + 1, 1)
    );
    let mut store = open(&path);
    assert_eq!(store.digest().unwrap(), then);
    assert_sound(&store);
    assert_eq!(store.setting("units").unwrap().as_deref(), Some("psi"));
    let import = store.imports().unwrap()[0].id;
    assert!(
        store.remove_import(import).unwrap(),
        "imports can still be taken out"
    );
    assert_eq!(store.record_count().unwrap(), 3 * JOBS as u64);
}

#[test]
fn what_is_only_in_the_log_is_saved_and_what_was_never_committed_is_not() {
    let folder = tempfile::tempdir().unwrap();
    let path = shop(folder.path());
    let copy = folder.path().join("copy.db");
    let mut store = open(&path);
    let job = store.subjects_of_kind(&JOB).unwrap()[0];
    set(&mut store, job, READING, "in the log", 900);
    let then = store.digest().unwrap();
    let db = Connection::open(&path).unwrap();
    // Enough to spill from memory into the log before the commit that never comes.
    db.execute_batch("PRAGMA cache_size = 5; BEGIN IMMEDIATE")
        .unwrap();
    db.execute("UPDATE record SET bytes = zeroblob(3000)", [])
        .unwrap();
    for (end, bytes) in files(&path) {
        fs::write(format!("{}{end}", copy.display()), bytes).unwrap();
    }
    drop(db);
    let mut header = fs::read(&copy).unwrap();
    header[..100].fill(0);
    fs::write(&copy, header).unwrap();
    let repaired = Backups::of(&copy).repair(real_setup(), at(9)).unwrap();
    assert_eq!(repaired.lost, [].into());
    assert_eq!(open(&copy).digest().unwrap(), then);
}

/// Every other page spoilt in turn, from another place on the page each time.
#[test]
fn a_spoilt_page_costs_no_more_than_what_was_on_it() {
    let folder = tempfile::tempdir().unwrap();
    let path = shop(folder.path());
    let whole = open(&path)
        .export(&Selection::Everything, true)
        .unwrap()
        .check()
        .unwrap();
    let good = fs::read(&path).unwrap();
    let pages = good.len() / 4096;
    let mut complete = 0;
    for page in (0..pages).step_by(2) {
        let damaged = folder.path().join(format!("damaged-{page}.db"));
        let mut bad = good.clone();
        let from = page * 4096 + (page * 37) % 2000;
        bad[from..(page + 1) * 4096]
            .iter_mut()
            .for_each(|byte| *byte ^= 0x5a);
        fs::write(&damaged, &bad).unwrap();
        let backups = Backups::of(&damaged);
        let repaired = backups.repair(real_setup(), at(9)).unwrap();
        let store = open(&damaged);
        assert_sound(&store);
        let saved = store
            .export(&Selection::Everything, true)
            .unwrap()
            .check()
            .unwrap();
        // Nothing is made up.
        assert!(
            saved
                .records()
                .iter()
                .all(|record| whole.records().contains(record))
        );
        assert!(
            saved
                .bodies()
                .iter()
                .all(|(hash, body)| whole.bodies().get(hash) == Some(body))
        );
        let gone = whole.records().len() - saved.records().len();
        let bodies = whole.bodies().len() - saved.bodies().len();
        assert!(
            gone <= 40 && bodies <= 40,
            "page {page}: {gone} records, {bodies} bodies"
        );
        // And no loss of a record or a body goes unsaid.
        assert_eq!(
            gone + bodies == 0,
            repaired.lost.is_empty(),
            "page {page}: {repaired:?}"
        );
        complete += usize::from(gone + bodies == 0);
        let aside = repaired.aside.unwrap();
        assert!(
            fs::read(backups.folder().join(aside.name)).unwrap() == bad,
            "kept as it was"
        );
    }
    // Indexes, projections and the search index are made anew: their pages cost nothing.
    assert!(complete * 6 > pages, "{complete} of {pages}");
}

#[test]
fn a_file_cut_short_gives_what_is_left() {
    let folder = tempfile::tempdir().unwrap();
    let path = shop(folder.path());
    let good = fs::read(&path).unwrap();
    for part in 1..8 {
        let cut = folder.path().join(format!("cut-{part}.db"));
        fs::write(&cut, &good[..good.len() * part / 8 + 13]).unwrap();
        match Backups::of(&cut).repair(real_setup(), at(9)) {
            Ok(repaired) => {
                assert_sound(&open(&cut));
                assert!(repaired.records <= 3 * JOBS as u64 + 1);
            }
            Err(StoreError::NothingReadable(_)) => {
                // The front of the file is the roots of tables and indexes.
                assert!(part < 4, "{part} eighths hold something")
            }
            Err(other) => panic!("{part}: {other:?}"),
        }
    }
}

#[test]
fn an_altered_record_and_an_altered_body_are_told_by_kind_and_subject() {
    let folder = tempfile::tempdir().unwrap();
    let path = shop(folder.path());
    let store = open(&path);
    let (one, two) = (
        store.subjects_of_kind(&JOB).unwrap()[3],
        store.subjects_of_kind(&JOB).unwrap()[5],
    );
    drop(store);
    let db = Connection::open(&path).unwrap();
    db.execute(
        "UPDATE record SET bytes = CAST(replace(CAST(bytes AS TEXT), '\"kind_version\":1',
             '\"kind_version\":2') AS BLOB) WHERE kind = 'note' AND subject = ?1",
        [one.as_bytes()],
    )
    .unwrap();
    db.execute(
        "UPDATE body SET bytes = CAST('changed' AS BLOB) WHERE hash =
             (SELECT body_hash FROM record WHERE kind = 'reading' AND subject = ?1)",
        [two.as_bytes()],
    )
    .unwrap();
    drop(db);
    let repaired = Backups::of(&path).repair(real_setup(), at(9)).unwrap();
    let lost = |loss, kind: Kind, subject| Lost {
        loss,
        kind: Some(kind),
        subject: Some(subject),
    };
    let missing = Lost {
        loss: Loss::Missing,
        kind: None,
        subject: None,
    };
    assert_eq!(
        repaired.lost,
        [
            (lost(Loss::Altered, NOTE, one), 1),
            (lost(Loss::ContentAltered, READING, two), 1),
            (missing, 1),
        ]
        .into()
    );
    assert_sound(&open(&path));
}

#[test]
fn a_letter_is_no_store_to_be_repaired_and_stays() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let letter = "Dear all, ".repeat(900);
    fs::write(&path, &letter).unwrap();
    let refused = Backups::of(&path).repair(real_setup(), at(9)).unwrap_err();
    assert!(
        matches!(refused, StoreError::NothingReadable(_)),
        "{refused:?}"
    );
    assert_eq!(fs::read_to_string(&path).unwrap(), letter);
}
