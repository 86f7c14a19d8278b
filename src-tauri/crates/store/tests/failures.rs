//! What the store says when it can't: each cause by name, and nothing lost.

use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::os::unix::process::CommandExt;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Duration;

use crate::common::*;
use rusqlite::Connection;
use store::{Setup, Store, StoreError};

fn shop() -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let mut store = open(&path);
    let job = new_job(&mut store, 0, "-|a|one");
    set(&mut store, job, READING, "21.5", 1);
    (folder, path)
}

fn impatient() -> Setup {
    Setup {
        patience: Duration::from_millis(50),
        ..real_setup()
    }
}

#[test]
fn a_full_disk_is_told_and_loses_nothing() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let mut store = Store::open(
        &path,
        Setup {
            max_pages: Some(80),
            ..real_setup()
        },
    )
    .unwrap();
    let job = new_job(&mut store, 0, "-|a|one");
    let mut kept = 0;
    let refused = loop {
        let long = format!("{kept} {}", "x".repeat(3000));
        let digest = store.digest().unwrap();
        match store.append(vec![record(job, READING, &long, vec![])], ines(), at(kept)) {
            Ok(_) => kept += 1,
            Err(error) => {
                assert_eq!(store.digest().unwrap(), digest);
                break error;
            }
        }
        assert!(kept < 1000, "the bound on the size is not kept");
    };
    assert!(matches!(refused, StoreError::DiskFull), "{refused:?}");
    assert!(kept > 0);
    assert_sound(&store);
    drop(store);
    let mut store = open(&path);
    assert_sound(&store);
    assert_eq!(
        store.standing(job, &READING).unwrap().records.len() as i64,
        kept
    );
    set(&mut store, job, READING, "room again", 9);
}

#[test]
fn a_store_held_by_another_process_is_locked_and_can_be_tried_again() {
    let (_folder, path) = shop();
    let mut store = Store::open(&path, impatient()).unwrap();
    let digest = store.digest().unwrap();
    let other = Connection::open(&path).unwrap();
    other.execute_batch("BEGIN IMMEDIATE").unwrap();
    let job = store.subjects_of_kind(&JOB).unwrap()[0];
    let new = || vec![record(job, READING, "20.0", vec![])];
    assert!(matches!(
        store.append(new(), ines(), at(5)),
        Err(StoreError::Locked)
    ));
    assert!(matches!(
        store.put_draft("k", "{}", at(5)),
        Err(StoreError::Locked)
    ));
    assert_eq!(store.digest().unwrap(), digest, "reading goes on");
    other.execute_batch("ROLLBACK").unwrap();
    store.append(new(), ines(), at(5)).unwrap();
    assert_sound(&store);
}

#[test]
fn a_file_from_a_newer_version_is_refused_by_name_and_left_untouched() {
    let (folder, path) = shop();
    let db = Connection::open(&path).unwrap();
    db.pragma_update(None, "user_version", 99).unwrap();
    drop(db);
    let before = contents(folder.path());
    let refused = Store::open(&path, real_setup()).unwrap_err();
    assert!(
        matches!(
            refused,
            StoreError::NewerSchema {
                found: 99,
                known: 8
            }
        ),
        "{refused:?}"
    );
    assert_eq!(contents(folder.path()), before);
}

#[test]
fn a_newer_file_whose_log_was_never_folded_in_is_left_untouched_too() {
    let (folder, path) = shop();
    let db = Connection::open(&path).unwrap();
    db.set_db_config(
        rusqlite::config::DbConfig::SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE,
        true,
    )
    .unwrap();
    db.pragma_update(None, "user_version", 99).unwrap();
    drop(db);
    let log = folder.path().join("shop.db-wal");
    assert!(fs::metadata(&log).unwrap().len() > 0);
    let both = || [&path, &log].map(|file| blake3::hash(&fs::read(file).unwrap()));
    let before = both();
    let refused = Store::open(&path, real_setup()).unwrap_err();
    assert!(
        matches!(refused, StoreError::NewerSchema { found: 99, .. }),
        "{refused:?}"
    );
    assert_eq!(both(), before);
}

/// Every file of a folder with the hash of its bytes.
fn contents(folder: &Path) -> Vec<(PathBuf, blake3::Hash)> {
    let mut files: Vec<_> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .map(|path| (path.clone(), blake3::hash(&fs::read(path).unwrap())))
        .collect();
    files.sort_by(|(a, _), (b, _)| a.cmp(b));
    files
}

#[test]
fn something_else_is_not_a_store_and_left_untouched() {
    let folder = tempfile::tempdir().unwrap();
    let text = folder.path().join("letter.txt");
    fs::write(&text, "Dear all, ".repeat(500)).unwrap();
    let foreign = folder.path().join("foreign.db");
    Connection::open(&foreign)
        .unwrap()
        .execute_batch("CREATE TABLE t (a)")
        .unwrap();
    let before = contents(folder.path());
    for path in [&text, &foreign] {
        let refused = Store::open(path, real_setup()).unwrap_err();
        assert!(matches!(refused, StoreError::NotAStore), "{refused:?}");
    }
    assert_eq!(contents(folder.path()), before);
}

#[test]
fn a_folder_or_a_missing_folder_cannot_be_opened() {
    let folder = tempfile::tempdir().unwrap();
    for path in [
        folder.path().to_owned(),
        folder.path().join("missing/shop.db"),
    ] {
        let refused = Store::open(&path, real_setup()).unwrap_err();
        assert!(matches!(refused, StoreError::CannotOpen(_)), "{refused:?}");
    }
}

#[test]
fn a_damaged_file_is_told_when_opened_or_checked() {
    let (_folder, path) = shop();
    let store = open(&path);
    assert_sound(&store);
    drop(store);
    let free: u32 = Connection::open(&path)
        .unwrap()
        .pragma_query_value(None, "freelist_count", |row| row.get(0))
        .unwrap();
    let free = usize::try_from(free).unwrap();
    let good = fs::read(&path).unwrap();
    let pages = good.len() / 4096;
    assert!(pages > 10 + free);
    // Each page spoilt in turn; one that is free holds nothing and may take it without harm.
    let mut noticed = 0;
    for page in 0..pages {
        let mut bad = good.clone();
        for byte in &mut bad[page * 4096 + 200 * usize::from(page == 0)..(page + 1) * 4096] {
            *byte ^= 0x5a;
        }
        fs::write(&path, &bad).unwrap();
        let _ = fs::remove_file(path.with_extension("db-wal"));
        let _ = fs::remove_file(path.with_extension("db-shm"));
        let told = match Store::open(&path, real_setup()) {
            Ok(store) => !store.check().unwrap().is_empty(),
            Err(StoreError::Damaged(_) | StoreError::NotAStore) => true,
            Err(other) => panic!("page {page}: {other:?}"),
        };
        noticed += usize::from(told);
    }
    assert!(
        noticed + free >= pages,
        "no page that holds something can be spoilt unnoticed: {noticed} of {pages}, {free} free"
    );
}

const LOCKED_DOWN: &str = "STORE_TEST_READ_ONLY";

/// Runs as another user, since nothing is read-only to root.
#[test]
#[ignore = "run by the test below, in a process of its own"]
fn child_opens_a_read_only_store() {
    let path = PathBuf::from(std::env::var_os(LOCKED_DOWN).unwrap());
    let refused = Store::open(&path, real_setup()).unwrap_err();
    assert!(matches!(refused, StoreError::ReadOnly), "{refused:?}");
    println!("refused as read-only");
}

#[test]
fn a_read_only_file_or_folder_is_told() {
    for (file_mode, folder_mode) in [(0o444, 0o755), (0o444, 0o555), (0o644, 0o555)] {
        let (folder, path) = shop();
        let before = fs::read(&path).unwrap();
        fs::set_permissions(&path, fs::Permissions::from_mode(file_mode)).unwrap();
        fs::set_permissions(folder.path(), fs::Permissions::from_mode(folder_mode)).unwrap();
        // The test program itself may lie where the other user may not look.
        let program = folder_for_all().join("store-test");
        if !program.exists() {
            fs::copy(std::env::current_exe().unwrap(), &program).unwrap();
        }
        let mut child = Command::new(&program);
        child
            .args([
                "--ignored",
                "--exact",
                "failures::child_opens_a_read_only_store",
                "--nocapture",
            ])
            .env(LOCKED_DOWN, &path);
        let root = fs::metadata("/proc/self").is_ok_and(|me| {
            use std::os::unix::fs::MetadataExt;
            me.uid() == 0
        });
        if root {
            child.uid(65_534).gid(65_534);
        }
        let output = child.output().unwrap();
        fs::set_permissions(folder.path(), fs::Permissions::from_mode(0o755)).unwrap();
        let said = String::from_utf8_lossy(&output.stdout).into_owned();
        assert!(
            output.status.success(),
            "{file_mode:o} {folder_mode:o}: {said}"
        );
        assert!(said.contains("refused as read-only"));
        assert!(fs::read(&path).unwrap() == before);
    }
    fs::remove_dir_all(folder_for_all()).unwrap();
}

fn folder_for_all() -> PathBuf {
    let folder = std::env::temp_dir().join(format!("store-test-{}", std::process::id()));
    fs::create_dir_all(&folder).unwrap();
    fs::set_permissions(&folder, fs::Permissions::from_mode(0o755)).unwrap();
    folder
}
