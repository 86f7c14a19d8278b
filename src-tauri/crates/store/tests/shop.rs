//! A day in the shop: write, read, correct, take back, find.

use std::sync::Arc;

use crate::common::*;
use journal::{Action, Fate, Kind};
use store::{NewRecord, Setup, Store, StoreError};

#[test]
fn what_is_written_is_read_and_survives_a_restart() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let mut store = open(&path);
    let job = new_job(&mut store, 0, "-|a|Harsh shift when hot");
    let device = store.device();
    let commit = set(&mut store, job, NOTE, "fluid is dark", 5);
    let digest = store.digest().unwrap();
    drop(store);

    let store = open(&path);
    assert_eq!(store.device(), device);
    assert_eq!(store.digest().unwrap(), digest);
    assert_eq!(bodies(&store, job, &NOTE), ["fluid is dark"]);
    assert_eq!(store.commit(commit.id()).unwrap(), Some(commit.clone()));
    assert_eq!(store.commits_of_device(device, 1).unwrap(), [commit]);
    assert_eq!(store.devices().unwrap().len(), 1);
    assert_eq!(store.record_count().unwrap(), 2);
    assert_sound(&store);
}

#[test]
fn an_edit_replaces_what_its_author_saw_though_the_clock_went_back() {
    let mut store = memory(1);
    let job = new_job(&mut store, 100_000, "-|a|one");
    set(&mut store, job, JOB, "-|a|two", -100_000);
    let standing = store.standing(job, &JOB).unwrap();
    assert_eq!(standing.lead().unwrap().body(), Some(&b"-|a|two"[..]));
    assert!(!standing.concurrent);
    assert_eq!(standing.records.len(), 1);
}

#[test]
fn a_corrected_reading_keeps_the_first_in_the_history() {
    let mut store = memory(1);
    let job = new_job(&mut store, 0, "-|a|one");
    let first = set(&mut store, job, READING, "21.5", 1).records()[0].0;
    set(&mut store, job, READING, "22.0", 2);
    store
        .append(
            vec![record(job, READING, "20.5", vec![first])],
            ines(),
            at(3),
        )
        .unwrap();
    assert_eq!(bodies(&store, job, &READING), ["22.0", "20.5"]);
    let history = store.records_of(job).unwrap();
    let fates: Vec<_> = history
        .iter()
        .filter(|entry| entry.stored.envelope().kind == READING)
        .map(|entry| (entry.stored.body().unwrap(), entry.fate))
        .collect();
    assert_eq!(
        fates,
        [
            (&b"21.5"[..], Fate::Replaced),
            (b"22.0", Fate::Stands),
            (b"20.5", Fate::Stands)
        ]
    );
}

#[test]
fn undo_and_redo_step_through_this_devices_edits_across_restarts() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let mut store = open(&path);
    let job = new_job(&mut store, 0, "-|a|one");
    let edit = set(&mut store, job, JOB, "-|a|two", 1);
    let reading = set(&mut store, job, READING, "21.5", 2);
    drop(store);

    let mut store = open(&path);
    assert_eq!(store.undo_candidate().unwrap(), Some(reading.id()));
    assert_eq!(store.redo_candidate().unwrap(), None);
    let undo = store.undo(ines(), at(3)).unwrap().unwrap();
    assert_eq!(undo.action(), Action::Undo(reading.id()));
    assert_eq!(bodies(&store, job, &READING), [""; 0]);
    drop(store);

    let mut store = open(&path);
    let second = store.undo(ines(), at(4)).unwrap().unwrap();
    assert_eq!(second.action(), Action::Undo(edit.id()));
    assert_eq!(bodies(&store, job, &JOB), ["-|a|one"]);
    assert_eq!(store.search("two", 9).unwrap(), []);
    drop(store);

    let mut store = open(&path);
    assert_eq!(store.redo_candidate().unwrap(), Some(second.id()));
    store.redo(ines(), at(5)).unwrap().unwrap();
    assert_eq!(bodies(&store, job, &JOB), ["-|a|two"]);
    store.redo(ines(), at(6)).unwrap().unwrap();
    assert_eq!(bodies(&store, job, &READING), ["21.5"]);
    assert_eq!(store.redo(ines(), at(7)).unwrap(), None);
    // Undo, then an edit: what was undone can't be redone any more.
    store.undo(ines(), at(8)).unwrap().unwrap();
    set(&mut store, job, NOTE, "looked again", 9);
    assert_eq!(store.redo_candidate().unwrap(), None);
    assert_eq!(
        store.undo(ines(), at(10)).unwrap().unwrap().records().len(),
        1
    );
    assert_sound(&store);
}

#[test]
fn undo_takes_back_a_whole_action_and_stops_at_nothing() {
    let mut store = memory(1);
    let job = store.new_subject(at(0)).unwrap();
    let both = vec![
        record(job, JOB, "-|a|one", vec![]),
        record(job, NOTE, "n", vec![]),
    ];
    store.append(both, ines(), at(0)).unwrap();
    store.undo(ines(), at(1)).unwrap().unwrap();
    assert_eq!(store.subjects_of_kind(&JOB).unwrap(), []);
    assert_eq!(store.standing(job, &NOTE).unwrap().records, []);
    assert_eq!(store.undo(ines(), at(2)).unwrap(), None);
}

#[test]
fn striking_out_one_record_is_an_edit_of_its_own() {
    let mut store = memory(1);
    let job = new_job(&mut store, 0, "-|a|one");
    let reading = set(&mut store, job, READING, "21.5", 1).records()[0].0;
    let strike = store
        .append(vec![NewRecord::void(job, reading)], ines(), at(2))
        .unwrap();
    assert_eq!(bodies(&store, job, &READING), [""; 0]);
    assert_eq!(store.undo_candidate().unwrap(), Some(strike.id()));
    store.undo(ines(), at(3)).unwrap();
    assert_eq!(bodies(&store, job, &READING), ["21.5"]);
}

#[test]
fn a_void_needs_its_target() {
    let mut store = memory(1);
    let job = new_job(&mut store, 0, "-|a|one");
    let other = new_job(&mut store, 1, "-|b|two");
    let target = store.heads(other, &JOB).unwrap()[0];
    let digest = store.digest().unwrap();
    let refused = store.append(vec![NewRecord::void(job, target)], ines(), at(2));
    assert!(matches!(refused, Err(StoreError::NoTarget(id)) if id == target));
    assert!(matches!(
        store.append(vec![], ines(), at(2)),
        Err(StoreError::EmptyCommit)
    ));
    assert_eq!(store.digest().unwrap(), digest);
}

#[test]
fn parts_are_listed_in_their_order_and_a_removed_one_is_not() {
    let mut store = memory(1);
    let unit = new_job(&mut store, 0, "-|a|unit");
    let [last, first, gone] =
        ["m", "c", "d"].map(|key| new_job(&mut store, 1, &format!("{unit}|{key}|bore {key}")));
    set(&mut store, gone, REMOVED, "", 2);
    assert_eq!(store.children(unit, &JOB).unwrap(), [first, last]);
    assert_eq!(store.subjects_of_kind(&JOB).unwrap(), [unit, first, last]);
    assert_eq!(store.is_removed(gone).unwrap(), Some(true));
    assert_eq!(store.parent(gone).unwrap(), Some(unit));
    assert_eq!(store.descendants(unit).unwrap().len(), 4);
    let listed = store.standing_of_kind(&JOB).unwrap();
    assert_eq!(
        listed.iter().map(|(id, _)| *id).collect::<Vec<_>>(),
        [unit, first, last]
    );
    store.undo(ines(), at(3)).unwrap();
    assert_eq!(store.children(unit, &JOB).unwrap(), [first, gone, last]);
}

#[test]
fn subjects_are_found_by_any_part_of_their_text() {
    let mut store = memory(1);
    let one = new_job(&mut store, 0, "-|a|Harsh 2-3 shift, plate ZQ-4471");
    let two = new_job(&mut store, 1, "-|b|Slips when cold 100% \"sure\" ÄÖ");
    for (text, expected) in [
        ("harsh", vec![one]),
        ("447", vec![one]),
        ("zq", vec![one]),
        ("plate shift", vec![one]),
        ("plate cold", vec![]),
        ("s", vec![one, two]),
        ("0%", vec![two]),
        ("_", vec![]),
        ("\"sure\"", vec![two]),
        ("\"", vec![two]),
        ("harsh OR slips", vec![]),
        ("äö", vec![]),
        ("ÄÖ", vec![two]),
        ("text:harsh", vec![]),
        ("har*", vec![]),
        (" \u{0} ", vec![]),
        ("", vec![]),
    ] {
        assert_eq!(store.search(text, 10).unwrap(), expected, "{text:?}");
    }
    set(&mut store, one, JOB, "-|a|Calm", 2);
    assert_eq!(store.search("harsh", 10).unwrap(), []);
    assert_eq!(store.search("calm", 10).unwrap(), [one]);
    assert_eq!(store.search("s", 1).unwrap().len(), 1);
    assert_sound(&store);
}

#[test]
fn a_list_is_searched_by_every_line_and_an_edit_changes_no_other() {
    let mut store = memory(1);
    let one = new_job(&mut store, 0, "-|a|Harsh 2-3 shift");
    let two = new_job(&mut store, 1, "-|b|Harsh when cold");
    set(
        &mut store,
        one,
        NOTE,
        "first line\n\nÄÖÜ in a second\nHarsh",
        2,
    );
    let found = |store: &Store, word| listed(store, word).into_iter().collect::<Vec<_>>();
    for (word, expected) in [
        ("harsh", vec![one, two]),
        ("first", vec![one]),
        ("äöü", vec![one]),
        ("ÄÖÜ", vec![one]),
        ("-3", vec![one]),
        ("lineÄ", vec![]),
        ("cold", vec![two]),
    ] {
        assert_eq!(found(&store, word), expected, "{word:?}");
    }
    set(&mut store, one, NOTE, "first line\nanother", 3);
    assert_eq!(found(&store, "äöü"), []);
    assert_eq!(found(&store, "first"), [one]);
    assert_eq!(found(&store, "another"), [one]);
    assert_eq!(found(&store, "harsh"), [one, two]);
    set(&mut store, one, REMOVED, "", 4);
    assert_eq!(found(&store, "harsh"), [two]);
    assert_eq!(found(&store, "first"), []);
    assert_sound(&store);
    store.undo(ines(), at(5)).unwrap();
    assert_eq!(found(&store, "first"), [one]);
    let before = store.digest().unwrap();
    store.rebuild().unwrap();
    assert_eq!(found(&store, "harsh"), [one, two]);
    assert_eq!(store.digest().unwrap(), before);
    assert_sound(&store);
}

#[test]
fn a_personal_body_is_salted_and_read_without_the_salt() {
    let mut store = memory(1);
    let job = new_job(&mut store, 0, "-|a|one");
    let [first, second] = [1, 2].map(|now| {
        set(&mut store, job, OWNER, "555 0100", now);
        store.standing(job, &OWNER).unwrap().lead().unwrap().clone()
    });
    assert_eq!(first.body(), Some(&b"555 0100"[..]));
    assert!(first.is_personal());
    assert_ne!(first.envelope().body_hash, second.envelope().body_hash);
    assert!(
        !store
            .standing(job, &JOB)
            .unwrap()
            .lead()
            .unwrap()
            .is_personal()
    );
}

#[test]
fn drafts_and_settings_stay_out_of_the_journal() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let mut store = open(&path);
    let digest = store.digest().unwrap();
    store
        .put_draft("reading/1", "{\"value\":\"21.", at(1))
        .unwrap();
    store
        .put_draft("reading/1", "{\"value\":\"21.5", at(2))
        .unwrap();
    store.put_draft("note/1", "{}", at(3)).unwrap();
    store.put_setting("units", "\"psi\"").unwrap();
    store.put_setting("units", "\"kPa\"").unwrap();
    drop(store);

    let mut store = open(&path);
    let draft = store.draft("reading/1").unwrap().unwrap();
    assert_eq!(
        (draft.json.as_str(), draft.updated),
        ("{\"value\":\"21.5", at(2))
    );
    assert_eq!(store.drafts().unwrap().len(), 2);
    assert!(store.clear_draft("reading/1").unwrap());
    assert!(!store.clear_draft("reading/1").unwrap());
    assert_eq!(store.draft("reading/1").unwrap(), None);
    assert_eq!(store.setting("units").unwrap().as_deref(), Some("\"kPa\""));
    assert_eq!(store.setting("other").unwrap(), None);
    assert_eq!(store.digest().unwrap(), digest);
}

#[test]
fn an_unknown_kind_is_kept_and_folded_in_after_an_upgrade() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let with = |version, knows_readings| {
        Store::open(
            &path,
            Setup::new(Arc::new(Shop {
                version,
                knows_readings,
            })),
        )
        .unwrap()
    };
    let mut newer = memory(2);
    let job = new_job(&mut newer, 0, "-|a|one");
    set(&mut newer, job, READING, "21.5", 1);
    let batch = newer
        .export(&store::Selection::Everything, true)
        .unwrap()
        .check()
        .unwrap();

    let mut store = with(1, false);
    let applied = store.apply(&batch).unwrap();
    assert_eq!(
        applied.unknown.into_iter().collect::<Vec<_>>(),
        [((READING, 1), 1)]
    );
    assert_eq!(bodies(&store, job, &READING), ["21.5"]);
    let passed_on = store.export(&store::Selection::Everything, true).unwrap();
    assert_eq!(passed_on.check().unwrap(), batch);
    drop(store);

    let store = with(2, true);
    assert_eq!(store.digest().unwrap(), newer.digest().unwrap());
    assert_sound(&store);
}

#[test]
fn a_later_version_of_a_known_kind_still_replaces_what_it_names() {
    let mut store = memory(1);
    let job = new_job(&mut store, 0, "-|a|one");
    let seen = store.heads(job, &JOB).unwrap();
    let later = NewRecord {
        kind_version: 2,
        ..record(job, JOB, "other form", seen)
    };
    store.append(vec![later], ines(), at(1)).unwrap();
    let standing = store.standing(job, &JOB).unwrap();
    assert_eq!(standing.records.len(), 1);
    assert_eq!(standing.lead().unwrap().envelope().kind_version, 2);
}

#[test]
fn records_of_one_action_follow_each_other_in_the_clock() {
    let mut store = memory(1);
    let job = store.new_subject(at(0)).unwrap();
    let many = (0..5)
        .map(|n| record(job, READING, &n.to_string(), vec![]))
        .collect();
    store.append(many, ines(), at(0)).unwrap();
    assert_eq!(bodies(&store, job, &READING), ["0", "1", "2", "3", "4"]);
    let kind: Kind = "reading".parse().unwrap();
    assert_eq!(kind, READING);
}
