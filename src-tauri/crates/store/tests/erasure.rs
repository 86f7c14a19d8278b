//! What was erased is gone: from the file, from what is passed on, and from what comes back.

use std::path::Path;

use crate::common::*;
use journal::erasure::{Erased, Erasure};
use journal::{CheckedBatch, Kind, SubjectId};
use store::{Backups, CheckFinding, Needles, NewRecord, Reason, Selection, Store, StoreError};

const OWNER_NOW: &str = "Ines Abendroth, 555 0199, VV-HL 204";
const OWNER_BEFORE: &str = "Ines Abendrot, 555 0100";
const NOTE_TEXT: &str = "Mrs Abendroth waits in the yard";

fn everything(store: &Store) -> CheckedBatch {
    let all = store.export(&Selection::Everything, true).unwrap();
    all.check().unwrap()
}

fn owner(job: SubjectId) -> Vec<Erased> {
    vec![Erased {
        subject: job,
        kinds: vec![OWNER],
    }]
}

fn a_job(store: &mut Store) -> SubjectId {
    let job = new_job(store, 0, "-|a|2018 Wendover hatchback");
    set(store, job, OWNER, OWNER_BEFORE, 1);
    set(store, job, OWNER, OWNER_NOW, 2);
    set(store, job, READING, "21.5 inHg", 3);
    job
}

fn holds(path: &Path, text: &str) -> bool {
    let needles = Needles::of([text]);
    Backups::of(path)
        .files_of_store()
        .iter()
        .any(|file| needles.look_through(file).unwrap().found)
}

#[test]
fn no_byte_of_it_is_left_in_the_file_or_its_log_and_every_envelope_stays() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let mut store = open(&path);
    // Others around it, so that pages are shared, split and joined.
    for n in 0..120 {
        let other = new_job(&mut store, n, &format!("-|{n}|job number {n}"));
        set(&mut store, other, NOTE, &format!("{n} ").repeat(60), n);
    }
    let job = a_job(&mut store);
    set(&mut store, job, NOTE, &NOTE_TEXT.repeat(400), 4);
    store
        .put_draft(&format!("owner of {job}"), r#"{"name":"Ine"}"#, at(5))
        .unwrap();
    store
        .put_draft("somewhere", &format!(r#"{{"t":"{OWNER_NOW}"}}"#), at(5))
        .unwrap();
    store.put_draft("another", r#"{"t":"Jo"}"#, at(5)).unwrap();
    let envelopes = everything(&store).records().to_vec();
    for text in [OWNER_NOW, OWNER_BEFORE, NOTE_TEXT] {
        assert!(holds(&path, text), "{text} can be found while it is there");
    }
    assert_eq!(store.search("Abendroth", 9).unwrap(), [job]);
    assert!(listed(&store, "Abendroth").contains(&job));

    let about = vec![Erased {
        subject: job,
        kinds: vec![OWNER, NOTE],
    }];
    assert_eq!(store.erasable(&about).unwrap().len(), 3);
    let done = store.erase(about, ines(), at(6)).unwrap();
    assert_eq!((done.bodies, done.drafts), (3, 2));
    assert!(done.texts.contains(OWNER_BEFORE));
    assert!(store.scrub_is_due().unwrap());
    assert!(store.scrub().unwrap());
    assert!(!store.scrub_is_due().unwrap());

    for text in [OWNER_NOW, OWNER_BEFORE, NOTE_TEXT, "Abendroth"] {
        assert!(!holds(&path, text), "{text}");
    }
    assert!(holds(&path, "2018 Wendover hatchback"), "the search works");
    assert_eq!(store.search("Abendroth", 9).unwrap(), []);
    assert!(listed(&store, "Abendroth").is_empty());
    assert!(listed(&store, "Wendover").contains(&job));
    assert_eq!(store.search("Wendover", 9).unwrap(), [job]);
    assert_eq!(bodies(&store, job, &READING), ["21.5 inHg"]);
    assert_eq!(bodies(&store, job, &OWNER), ["(withheld)"]);
    assert_eq!(
        store.draft("another").unwrap().unwrap().json,
        r#"{"t":"Jo"}"#
    );
    let now = everything(&store);
    for envelope in &envelopes {
        assert!(now.records().contains(envelope), "no envelope is altered");
    }
    assert_eq!(now.records().len(), envelopes.len() + 1);
    assert_sound(&store);

    let backup = Backups::of(&path).make(Reason::ByHand, at(7)).unwrap();
    let copy = Backups::of(&path).files_of(&backup.name).unwrap();
    let needles = Needles::of(done.texts.iter().map(String::as_str));
    assert!(!needles.look_through(&copy[0]).unwrap().found);
    assert!(Backups::of(&path).holds(&backup.name, done.record));
}

#[test]
fn it_travels_and_takes_what_was_written_elsewhere_without_knowing_but_not_what_came_after() {
    let (mut one, mut two) = (memory(1), memory(2));
    let job = a_job(&mut one);
    two.apply(&everything(&one)).unwrap();
    // A clock that is far ahead doesn't save it.
    set(&mut two, job, OWNER, "Ines Abendroth, moved", 900_000_000);
    two.put_draft("x", r#"{"t":"Ines Abendroth, moved"}"#, at(0))
        .unwrap();
    let unaware = everything(&two);

    let done = one.erase(owner(job), ines(), at(10)).unwrap();
    let applied = two.apply(&everything(&one)).unwrap();
    assert_eq!(applied.erased_bodies, 3);
    assert!(two.draft("x").unwrap().is_none());
    assert!(two.scrub_is_due().unwrap());
    let applied = one.apply(&unaware).unwrap();
    assert_eq!((applied.new_records, applied.refused_bodies), (1, 3));
    assert_eq!(one.digest().unwrap(), two.digest().unwrap());

    // Whoever knows of it may write down a customer again, even with a clock that is behind.
    set(&mut two, job, OWNER, "Tom Rook", -900_000_000);
    one.apply(&everything(&two)).unwrap();
    assert_eq!(bodies(&one, job, &OWNER), ["Tom Rook"]);
    assert_eq!(one.digest().unwrap(), two.digest().unwrap());
    assert_eq!(one.erasures_of(job, &OWNER).unwrap(), [done.record]);
    let [(record, erasure)] = &one.erasures().unwrap()[..] else {
        panic!("one erasure");
    };
    assert_eq!(record.id(), done.record);
    assert_eq!(erasure.records.len(), 2);

    // A second one takes that too.
    two.erase(owner(job), ines(), at(11)).unwrap();
    one.apply(&everything(&two)).unwrap();
    assert_eq!(bodies(&one, job, &OWNER), ["(withheld)"]);
    for store in [&one, &two] {
        assert_sound(store);
    }
}

#[test]
fn it_can_be_taken_back_by_nobody() {
    let (mut one, mut two) = (memory(1), memory(2));
    let job = a_job(&mut one);
    let before = everything(&one);
    let last = one.undo_candidate().unwrap();
    let done = one.erase(owner(job), ines(), at(10)).unwrap();
    assert_eq!(
        one.undo_candidate().unwrap(),
        last,
        "the last one before it"
    );
    let subject = one.erasures().unwrap()[0].0.envelope().subject;
    let void = NewRecord::void(subject, done.record);
    assert!(matches!(
        one.append(vec![void], ines(), at(11)),
        Err(StoreError::NoTarget(_))
    ));

    // Nor by taking out the import that brought it.
    let (_, import) = two.take_in(&everything(&one), "", at(0)).unwrap();
    assert!(two.remove_import(import.unwrap()).unwrap());
    assert_eq!(two.erasures().unwrap().len(), 1);
    assert_sound(&two);
    assert_eq!(two.apply(&before).unwrap().refused_bodies, 2);
    assert_eq!(bodies(&two, job, &OWNER), ["(withheld)"]);
    assert_eq!(bodies(&two, job, &READING), ["21.5 inHg"]);
}

#[test]
fn a_measurement_is_never_erased_whoever_asks() {
    let (mut one, mut two) = (memory(1), memory(2));
    let job = a_job(&mut one);
    let readings = Erased {
        subject: job,
        kinds: vec![READING, JOB],
    };
    assert!(matches!(
        one.erase(vec![readings.clone()], ines(), at(9)),
        Err(StoreError::EmptyCommit)
    ));
    two.apply(&everything(&one)).unwrap();
    // As a hostile program would write it.
    let erasure = Erasure {
        about: vec![readings],
        records: Vec::new(),
    };
    let hostile = NewRecord {
        subject: SubjectId::from_bytes([9; 16]),
        kind: Kind::ERASURE,
        kind_version: 1,
        supersedes: Vec::new(),
        body: serde_json::to_vec(&erasure).unwrap(),
        personal: false,
    };
    two.append(vec![hostile], ines(), at(10)).unwrap();
    let applied = one.apply(&everything(&two)).unwrap();
    assert_eq!((applied.new_records, applied.erased_bodies), (1, 0));
    assert_eq!(bodies(&one, job, &READING), ["21.5 inHg"]);
    assert_sound(&one);
}

#[test]
fn what_was_not_written_anew_yet_is_remembered_across_a_start() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let mut store = open(&path);
    let job = a_job(&mut store);
    store.erase(owner(job), ines(), at(10)).unwrap();
    drop(store);
    let mut store = open(&path);
    // Somebody reads meanwhile, so the log can't be emptied.
    let other = rusqlite::Connection::open(&path).unwrap();
    other.execute_batch("BEGIN").unwrap();
    let count = || -> i64 {
        other
            .query_row("SELECT count(*) FROM record", [], |row| row.get(0))
            .unwrap()
    };
    count();
    store
        .set_patience(std::time::Duration::from_millis(50))
        .unwrap();
    assert!(!store.scrub().unwrap());
    assert!(store.scrub_is_due().unwrap());
    other.execute_batch("COMMIT").unwrap();
    assert!(store.scrub().unwrap());
    assert!(!holds(&path, OWNER_NOW));
}

#[test]
fn the_check_tells_of_a_body_that_should_not_be_there_and_a_rebuild_takes_it_out() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let mut store = open(&path);
    let job = a_job(&mut store);
    let before = everything(&store);
    store.erase(owner(job), ines(), at(10)).unwrap();
    let (hash, bytes) = before
        .bodies()
        .iter()
        .find(|(_, bytes)| journal::body::is_personal(bytes))
        .unwrap();
    drop(store);
    let db = rusqlite::Connection::open(&path).unwrap();
    db.execute(
        "INSERT INTO body (hash, bytes) VALUES (?1, ?2)",
        rusqlite::params![hash.as_bytes(), bytes],
    )
    .unwrap();
    db.execute("DELETE FROM erased", []).unwrap();
    drop(db);
    let mut store = open(&path);
    assert!(store.check().unwrap().contains(&CheckFinding::Erasures));
    store.rebuild().unwrap();
    assert_sound(&store);
    assert_eq!(store.body(*hash).unwrap(), None);
}

#[test]
fn two_erasures_that_say_the_same_are_both_heard_of() {
    let (mut one, mut two) = (memory(1), memory(2));
    let job = new_job(&mut one, 1, "-|1|a job");
    for now in [2, 3] {
        let about = vec![Erased {
            subject: job,
            kinds: vec![OWNER],
        }];
        one.erase(about, ines(), at(now)).unwrap();
    }
    two.apply(&everything(&one)).unwrap();
    assert_eq!(two.erasures().unwrap().len(), 2);
    assert_sound(&two);
    assert_eq!(two.digest().unwrap(), one.digest().unwrap());
}
