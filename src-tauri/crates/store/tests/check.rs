//! The check finds each thing that can be wrong, and only that.

use std::collections::BTreeSet;
use std::path::Path;

use crate::common::*;
use journal::{Batch, SubjectId, VerifyError};
use rusqlite::Connection;
use store::{CheckFinding, Selection, Store};

fn shop(path: &Path) -> (Store, SubjectId) {
    let mut store = open(path);
    let job = new_job(&mut store, 0, "-|a|one");
    set(&mut store, job, READING, "21.5", 1);
    set(&mut store, job, NOTE, "first", 2);
    set(&mut store, job, NOTE, "second", 3);
    (store, job)
}

/// Spoils a sound store with a statement from outside and gives what the check then finds.
fn found_after(spoil: &str) -> (Vec<CheckFinding>, Store, SubjectId) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let (store, job) = shop(&path);
    assert_sound(&store);
    let db = Connection::open(&path).unwrap();
    db.execute_batch(&format!("PRAGMA foreign_keys = OFF; {spoil}"))
        .unwrap();
    assert!(
        db.query_row("SELECT total_changes()", [], |row| row.get::<_, i64>(0))
            .unwrap()
            > 0
    );
    // The open file outlives its folder on this system.
    (store.check().unwrap(), store, job)
}

#[test]
fn a_changed_envelope_is_found() {
    let (found, store, _) = found_after(
        "UPDATE record SET bytes = CAST(replace(CAST(bytes AS TEXT), '\"kind_version\":1',
         '\"kind_version\":2') AS BLOB) WHERE kind = 'reading'",
    );
    let id = store.commits_of_device(store.device(), 9).unwrap()[2].records()[0].0;
    assert_eq!(found, [CheckFinding::Envelope(id)]);
}

#[test]
fn a_changed_column_is_found() {
    let (found, ..) = found_after("UPDATE record SET clock_millis = 5 WHERE kind = 'reading'");
    assert!(matches!(found[..], [CheckFinding::Column(_)]), "{found:?}");
}

#[test]
fn a_changed_or_stray_body_is_found() {
    let (found, ..) = found_after(
        "UPDATE body SET bytes = CAST('fisrt' AS BLOB) WHERE bytes = CAST('first' AS BLOB)",
    );
    assert!(matches!(found[..], [CheckFinding::Body(_)]), "{found:?}");
    let hash = journal::BodyHash::of(b"stray");
    let (found, ..) = found_after(&format!(
        "INSERT INTO body VALUES (x'{hash}', CAST('stray' AS BLOB))"
    ));
    assert_eq!(found, [CheckFinding::StrayBody(hash)]);
}

#[test]
fn a_changed_commit_is_found() {
    let (found, ..) = found_after(
        "UPDATE commit_ SET bytes = CAST(replace(CAST(bytes AS TEXT), '\"edit\"', '\"undo\"')
         AS BLOB) WHERE seq = 1",
    );
    assert!(matches!(found[..], [CheckFinding::Commit(_)]), "{found:?}");
    let (found, ..) = found_after("UPDATE commit_record SET position = 7 WHERE commit_seq = 1");
    assert_eq!(found, [], "the order is the same");
    let (found, ..) = found_after("DELETE FROM commit_record WHERE commit_seq = 1");
    assert!(
        matches!(
            found[..],
            [CheckFinding::Commit(_), CheckFinding::Unsigned(_)]
        ),
        "{found:?}"
    );
}

#[test]
fn a_forged_signature_is_found_by_the_check_and_refused_by_apply() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let (store, _) = shop(&path);
    let Batch {
        mut commits,
        records,
        bodies,
    } = store.export(&Selection::Everything, true).unwrap();
    let text = String::from_utf8(commits[0].bytes().to_vec()).unwrap();
    let signature = commits[0].signature().to_string();
    let forged = text.replace(&signature, &commits[1].signature().to_string());
    commits[0] = journal::Commit::parse(forged.as_bytes()).unwrap();
    let (id, hash) = (commits[0].id(), commits[0].hash());
    let refused = Batch {
        commits,
        records,
        bodies,
    }
    .check()
    .unwrap_err();
    assert_eq!(refused, VerifyError::Signature(id));

    let db = Connection::open(&path).unwrap();
    db.execute(
        &format!("UPDATE commit_ SET bytes = ?1, hash = x'{hash}' WHERE id = ?2"),
        (forged.as_bytes(), id.as_bytes()),
    )
    .unwrap();
    assert_eq!(store.check().unwrap(), [CheckFinding::Signature(id)]);
}

#[test]
fn a_replaced_key_is_found() {
    let (found, store, _) = found_after(&format!("UPDATE device SET public_key = x'{:064x}'", 5));
    assert_eq!(found, [CheckFinding::Device(store.device())]);
}

#[test]
fn a_projection_that_is_off_is_found_and_made_anew() {
    for spoil in [
        "UPDATE subject SET order_key = 'z'",
        "UPDATE subject SET removed = 1",
        "DELETE FROM standing WHERE kind = 'note'",
        "UPDATE standing SET concurrent = 1 WHERE kind = 'note'",
        "UPDATE standing SET record = (SELECT seq FROM record WHERE kind = 'note' ORDER BY seq)
         WHERE kind = 'note'",
    ] {
        let (found, mut store, job) = found_after(spoil);
        assert_eq!(found, [CheckFinding::Projection(job)], "{spoil}");
        store.rebuild().unwrap();
        assert_sound(&store);
        assert_eq!(bodies(&store, job, &NOTE), ["second"]);
        assert_eq!(store.search("one", 5).unwrap(), [job]);
    }
}

#[test]
fn a_lost_record_leaves_a_dangling_reference() {
    let (found, ..) = found_after("DELETE FROM record WHERE kind = 'reading'");
    assert!(
        found.contains(&CheckFinding::Reference {
            table: "standing".into()
        }),
        "{found:?}"
    );
    assert!(
        found
            .iter()
            .any(|f| matches!(f, CheckFinding::StrayBody(_))),
        "{found:?}"
    );
    assert!(
        found
            .iter()
            .any(|f| matches!(f, CheckFinding::Projection(_))),
        "{found:?}"
    );
}

#[test]
fn a_clock_that_fell_behind_is_found() {
    let (found, ..) = found_after("UPDATE clock SET millis = 1");
    assert_eq!(found, [CheckFinding::Clock]);
}

#[test]
fn a_search_index_that_is_off_is_found_and_made_anew() {
    let (found, mut store, job) = found_after(
        "INSERT INTO summary_search (summary_search, rowid, text)
             SELECT 'delete', seq, text FROM summary_text WHERE text LIKE '%one%'",
    );
    assert_eq!(found, [CheckFinding::SearchIndex]);
    assert_eq!(listed(&store, "one"), BTreeSet::new());
    store.rebuild().unwrap();
    assert_sound(&store);
    assert_eq!(listed(&store, "one"), BTreeSet::from([job]));
}
