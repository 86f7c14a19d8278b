//! Backups: made whole, checked, kept by a rule; restored as a new device, the old store kept.

use std::fs;
use std::path::{Path, PathBuf};

use crate::common::*;
use journal::WallTime;
use rusqlite::Connection;
use store::{Backups, Reason, Selection, Store, StoreError};

const DAY: i64 = 24 * 60 * 60 * 1000;

fn shop(folder: &Path) -> (PathBuf, Store) {
    let path = folder.join("shop.db");
    let mut store = open(&path);
    let job = new_job(&mut store, 0, "-|a|one");
    set(&mut store, job, READING, "21.5", 1);
    set(&mut store, job, OWNER, "Ulla Brandt", 2);
    store.put_draft("typing", "half", at(3)).unwrap();
    store.put_setting("units", "psi").unwrap();
    store.put_setting("author", "Ines").unwrap();
    (path, store)
}

#[test]
fn a_backup_holds_everything_but_the_key_and_is_one_sound_file() {
    let folder = tempfile::tempdir().unwrap();
    let (path, store) = shop(folder.path());
    let backups = Backups::of(&path);
    // The store stays open meanwhile.
    let made = backups.make(Reason::ByHand, at(5)).unwrap();
    assert_eq!(backups.list().unwrap(), std::slice::from_ref(&made));
    backups.verify(&made.name).unwrap();
    let contents = backups.contents(&made.name, &JOB).unwrap();
    assert_eq!((contents.records, contents.subjects), (3, 1));
    assert_eq!(contents.last_change, Some(at(2)));
    let db = Connection::open(backups.folder().join(&made.name)).unwrap();
    let keys: i64 = db
        .query_row("SELECT count(*) FROM identity", [], |row| row.get(0))
        .unwrap();
    assert_eq!(keys, 0);
    let secret: Vec<u8> = Connection::open(&path)
        .unwrap()
        .query_row("SELECT secret FROM identity", [], |row| row.get(0))
        .unwrap();
    let bytes = fs::read(backups.folder().join(&made.name)).unwrap();
    assert!(
        !bytes.windows(32).any(|part| part == secret),
        "nor in an unused corner"
    );
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
        assert_eq!(mode(backups.folder()), 0o700);
        assert_eq!(mode(&backups.folder().join(&made.name)), 0o600);
    }
    drop(store);
}

#[test]
fn restoring_brings_the_journal_back_as_a_new_device_and_keeps_the_replaced_store() {
    let folder = tempfile::tempdir().unwrap();
    let (path, mut store) = shop(folder.path());
    let backups = Backups::of(&path);
    let (then, device) = (store.digest().unwrap(), store.device());
    let made = backups.make(Reason::ByHand, at(5)).unwrap();
    let job = store.subjects_of_kind(&JOB).unwrap()[0];
    set(&mut store, job, READING, "20.0", 6);
    let later = store.digest().unwrap();
    drop(store);
    let restored = backups.restore(&made.name, &["units"], at(9)).unwrap();

    let mut store = open(&path);
    assert_eq!(store.digest().unwrap(), then);
    assert_sound(&store);
    assert_ne!(store.device(), device, "a new device");
    assert_eq!(store.drafts().unwrap(), []);
    assert_eq!(store.setting("units").unwrap().as_deref(), Some("psi"));
    assert_eq!(store.setting("author").unwrap(), None);
    assert_eq!(
        store.undo_candidate().unwrap(),
        None,
        "others' changes aren't ours to undo"
    );
    // What the old device went on to do merges as anybody's does, whichever is newer.
    let aside = restored.aside.unwrap();
    assert_eq!(aside.reason, Reason::Replaced);
    set(&mut store, job, READING, "20.1", 7);
    let old = open(&backups.folder().join(&aside.name));
    assert_eq!(old.digest().unwrap(), later);
    assert_eq!(old.device(), device);
    let all = old
        .export(&Selection::Everything, true)
        .unwrap()
        .check()
        .unwrap();
    store.apply(&all).unwrap();
    assert_eq!(bodies(&store, job, &READING), ["21.5", "20.0", "20.1"]);
    assert_sound(&store);
}

#[test]
fn a_store_that_another_process_has_open_is_not_replaced() {
    let folder = tempfile::tempdir().unwrap();
    let (path, store) = shop(folder.path());
    let backups = Backups::of(&path);
    let made = backups.make(Reason::ByHand, at(5)).unwrap();
    let before = store.digest().unwrap();
    for refused in [
        backups.restore(&made.name, &[], at(9)).map(|_| ()),
        backups.repair(real_setup(), at(9)).map(|_| ()),
    ] {
        assert!(matches!(refused, Err(StoreError::Locked)), "{refused:?}");
    }
    assert_eq!(store.digest().unwrap(), before);
    assert_eq!(backups.list().unwrap(), [made]);
    drop(store);
    assert_eq!(open(&path).digest().unwrap(), before);
}

#[test]
fn no_backup_is_made_of_a_damaged_store_and_none_is_restored_that_is_damaged() {
    let folder = tempfile::tempdir().unwrap();
    let (path, store) = shop(folder.path());
    let backups = Backups::of(&path);
    let made = backups.make(Reason::ByHand, at(5)).unwrap();
    drop(store);
    let db = Connection::open(&path).unwrap();
    db.execute("UPDATE body SET bytes = CAST('x' AS BLOB)", [])
        .unwrap();
    drop(db);
    let refused = backups.make(Reason::Daily, at(6)).unwrap_err();
    assert!(matches!(refused, StoreError::Unsound(_)), "{refused:?}");
    assert_eq!(
        backups.list().unwrap(),
        std::slice::from_ref(&made),
        "the good one stays"
    );

    let place = backups.folder().join(&made.name);
    let mut bytes = fs::read(&place).unwrap();
    for byte in &mut bytes[4096..20_000] {
        *byte ^= 0x5a;
    }
    fs::write(&place, bytes).unwrap();
    let before = fs::read(&path).unwrap();
    let refused = backups.restore(&made.name, &[], at(9)).unwrap_err();
    assert!(matches!(refused, StoreError::Unsound(_)), "{refused:?}");
    assert_eq!(fs::read(&path).unwrap(), before);
    for name in [
        "other.db",
        "../shop.db",
        "shop-2026-01-01T00-00-00.000Z-daily.db",
    ] {
        let refused = backups.restore(name, &[], at(9)).unwrap_err();
        assert!(matches!(refused, StoreError::NoBackup(_)), "{refused:?}");
    }
}

#[test]
fn one_is_due_after_a_day_with_a_change_and_not_before() {
    let folder = tempfile::tempdir().unwrap();
    let (path, mut store) = shop(folder.path());
    let backups = Backups::of(&path);
    let due = |ms: i64| backups.is_due(at(ms)).unwrap();
    assert!(due(0), "there is none yet");
    backups.make(Reason::Daily, at(0)).unwrap();
    assert!(!due(2 * DAY), "nothing has changed");
    let job = store.subjects_of_kind(&JOB).unwrap()[0];
    set(&mut store, job, READING, "20.0", 6);
    assert!(!due(DAY - 1));
    assert!(due(DAY));
    assert!(due(-DAY), "a clock that was ahead doesn't hold off backups");
    drop(store);
    let empty = folder.path().join("empty.db");
    drop(open(&empty));
    assert!(
        !Backups::of(&empty)
            .is_due(WallTime::from_unix_ms(0))
            .unwrap()
    );
}

/// Each state that a kill can leave between the first step and the last.
#[test]
fn a_replacement_that_was_begun_is_finished_or_forgotten_by_whoever_opens_next() {
    let folder = tempfile::tempdir().unwrap();
    let (path, store) = shop(folder.path());
    let backups = Backups::of(&path);
    let then = store.digest().unwrap();
    let made = backups.make(Reason::ByHand, at(5)).unwrap();
    drop(store);
    let good = backups.folder().join(&made.name);
    // Half made: forgotten.
    fs::write(path.with_file_name("shop.db-incoming.part"), "half").unwrap();
    fs::hard_link(
        &path,
        backups
            .folder()
            .join("shop-2026-01-01T00-00-00.000Z-replaced.db.part"),
    )
    .unwrap();
    assert_eq!(open(&path).digest().unwrap(), then);
    // Decided: finished, and the old log is not read into the new file.
    let mut store = open(&path);
    let job = store.subjects_of_kind(&JOB).unwrap()[0];
    set(&mut store, job, READING, "later", 6);
    let log = fs::read(path.with_file_name("shop.db-wal")).unwrap();
    drop(store);
    fs::write(path.with_file_name("shop.db-wal"), log).unwrap();
    fs::copy(&good, path.with_file_name("shop.db-incoming")).unwrap();
    // A first replacement made the lock; here it is made by hand.
    fs::write(backups.folder().join("shop-replacing.lock"), "").unwrap();
    let store = open(&path);
    assert_eq!(store.digest().unwrap(), then);
    assert_sound(&store);
    drop(store);
    let asides = backups.list().unwrap();
    assert!(
        asides
            .iter()
            .any(|backup| backup.reason == Reason::Replaced)
    );
    backups.restore(&made.name, &[], at(9)).unwrap();
    assert_eq!(open(&path).digest().unwrap(), then);
}

#[test]
fn a_copy_that_is_stopped_leaves_nothing_and_the_next_one_works() {
    let folder = tempfile::tempdir().unwrap();
    let (path, mut store) = shop(folder.path());
    // Enough to do for SQLite to ask at all.
    for n in 0..200 {
        new_job(&mut store, 10 + n, "-|a|one of many");
    }
    let backups = Backups::of(&path);
    let stopped = backups.clone().stopped_when(|| true);
    stopped.make(Reason::ByHand, at(5)).unwrap_err();
    assert_eq!(backups.list().unwrap(), []);
    let left: Vec<_> = fs::read_dir(backups.folder())
        .unwrap()
        .map(|file| file.unwrap().file_name().to_string_lossy().into_owned())
        .filter(|name| name.ends_with(".part"))
        .collect();
    assert_eq!(left, [""; 0]);
    backups.make(Reason::ByHand, at(6)).unwrap();
}

#[test]
fn a_store_that_is_told_to_stop_fails_and_is_as_it_was() {
    let folder = tempfile::tempdir().unwrap();
    let (_, mut store) = shop(folder.path());
    for n in 0..200 {
        new_job(&mut store, 10 + n, "-|a|one of many");
    }
    let before = store.digest().unwrap();
    let batch = store.export(&Selection::Everything, true).unwrap();
    let batch = batch.check().unwrap();
    store.stop_when(Some(|| true)).unwrap();
    store.check().unwrap_err();
    store.rebuild().unwrap_err();
    let other = tempfile::tempdir().unwrap();
    let mut other = open(&other.path().join("shop.db"));
    other.stop_when(Some(|| true)).unwrap();
    other.apply(&batch).unwrap_err();
    other.stop_when(None::<fn() -> bool>).unwrap();
    assert_eq!(other.record_count().unwrap(), 0);
    store.stop_when(None::<fn() -> bool>).unwrap();
    assert_eq!(store.digest().unwrap(), before);
    assert_sound(&store);
}
