//! The disk itself does what it says: without syncs, a database on it is torn. Otherwise the test of
//! the store could not fail.
#![allow(clippy::unwrap_used)]

use faults::Disk;

#[test]
fn without_syncs_a_database_is_torn() {
    let disk = Disk::install();
    let mut torn = 0;
    let mut word: u64 = 1;
    for _ in 0..40 {
        disk.format();
        let db = rusqlite::Connection::open("/no/such/folder/plain.db").unwrap();
        db.execute_batch(
            "PRAGMA synchronous = OFF; PRAGMA journal_mode = MEMORY; CREATE TABLE t (a)",
        )
        .unwrap();
        for n in 0..50 {
            db.execute("INSERT INTO t VALUES (?1 || hex(zeroblob(300)))", [n])
                .unwrap();
        }
        drop(db);
        disk.power_up(|| {
            word = word
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            word >> 63 == 1
        });
        let sound = rusqlite::Connection::open("/no/such/folder/plain.db").and_then(|db| {
            db.query_row("PRAGMA integrity_check", [], |row| row.get::<_, String>(0))
        });
        torn += u32::from(sound.as_deref() != Ok("ok"));
    }
    assert!(torn > 20, "{torn} of 40");
}
