//! Files of every earlier version (tests/stores/) open, are carried forward, and keep every
//! envelope, commit and body byte for byte.

use std::fs;
use std::path::{Path, PathBuf};

use crate::common::*;
use rusqlite::Connection;
use store::{Backups, Reason, Setup, Store};

fn stores() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../tests/stores");
    let mut found: Vec<_> = fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|end| end == "db"))
        .collect();
    found.sort();
    found
}

type Rows = Vec<(i64, Vec<u8>, Vec<u8>)>;

fn journal(path: &Path) -> Vec<Rows> {
    let db = Connection::open(path).unwrap();
    [
        "SELECT seq, hash, bytes FROM record ORDER BY seq",
        "SELECT seq, hash, bytes FROM commit_ ORDER BY seq",
        "SELECT 0, hash, bytes FROM body ORDER BY hash",
        "SELECT 0, secret, secret FROM identity",
        "SELECT updated, CAST(key AS BLOB), CAST(json AS BLOB) FROM draft ORDER BY key",
    ]
    .map(|question| {
        let mut query = db.prepare(question).unwrap();
        let rows = query.query_map([], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)));
        rows.unwrap().collect::<Result<Rows, _>>().unwrap()
    })
    .into()
}

/// Reads these files' kinds otherwise than the program that made them, which is said by another
/// version.
fn reader() -> Setup {
    let shop = Shop {
        version: u32::MAX,
        knows_readings: true,
    };
    Setup {
        projector: std::sync::Arc::new(shop),
        ..real_setup()
    }
}

fn schema(path: &Path) -> i64 {
    let db = Connection::open(path).unwrap();
    db.pragma_query_value(None, "user_version", |row| row.get(0))
        .unwrap()
}

#[test]
fn each_is_carried_forward_and_keeps_every_byte_that_was_signed() {
    let stores = stores();
    let folder = tempfile::tempdir().unwrap();
    let newest = folder.path().join("new.db");
    drop(open(&newest));
    let mut found = Vec::new();
    for (n, original) in stores.iter().enumerate() {
        let path = folder.path().join(format!("copy{n}.db"));
        fs::copy(original, &path).unwrap();
        let (before, was) = (journal(&path), schema(&path));
        assert!(
            before[0].len() + before[1].len() > 2,
            "{original:?} holds nothing"
        );
        found.push(was);
        let backups = Backups::of(&path);
        assert_eq!(backups.needs_migration().unwrap(), was < schema(&newest));
        backups.make(Reason::BeforeMigration, at(0)).unwrap();
        let store = Store::open(&path, reader()).unwrap();
        assert_sound(&store);
        drop(store);
        assert_eq!(journal(&path), before, "{original:?}");
        assert_eq!(schema(&path), schema(&newest));
        // And one can go back to how it was, from where it is carried forward anew.
        let made = backups.list().unwrap().remove(0);
        backups.restore(&made.name, &[], at(9)).unwrap();
        assert_sound(&Store::open(&path, reader()).unwrap());
        assert_eq!(journal(&path)[..3], before[..3], "{original:?}");
    }
    // One for each that a program before today's ever left behind.
    found.retain(|was| *was < schema(&newest));
    assert_eq!(found, (5..schema(&newest)).collect::<Vec<_>>());
}
