//! Pictures beside the store: there when a record says so, found out when not, never half there.

use std::collections::BTreeSet;
use std::fs;
use std::io::{Error, ErrorKind, Read};

use crate::common::*;
use journal::erasure::Erased;
use journal::{AttachmentHash, Kind, body};
use store::{AttachmentFinding, Attachments, Backups, CheckFinding, Reason, Selection, StoreError};

struct Bench {
    _folder: tempfile::TempDir,
    store: store::Store,
    attachments: Attachments,
    backups: Backups,
}

fn bench() -> Bench {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.db");
    let store = open(&path);
    Bench {
        _folder: folder,
        attachments: store.attachments().unwrap(),
        backups: Backups::of(&path),
        store,
    }
}

impl Bench {
    fn add(&mut self, content: &[u8]) -> (journal::SubjectId, AttachmentHash) {
        let photo = self.store.new_subject(at(0)).unwrap();
        (photo, add_photo(&mut self.store, photo, content, 1))
    }

    fn content(&self, hash: AttachmentHash) -> Option<Vec<u8>> {
        self.attachments.read(hash, 1 << 20).unwrap()
    }

    fn sweep(&self) -> BTreeSet<AttachmentHash> {
        self.attachments.sweep(&projector()).unwrap()
    }

    fn findings(&self) -> Vec<AttachmentFinding> {
        self.store.check_attachments(true).unwrap()
    }
}

#[test]
fn what_was_added_is_read_back_under_its_hash_and_kept_once() {
    let mut bench = bench();
    let long: Vec<u8> = (0..200_000_u32).map(|n| n as u8).collect();
    let (_, hash) = bench.add(&long);
    assert_eq!(hash, AttachmentHash::of(&long));
    assert_eq!(bench.content(hash), Some(long.clone()));
    assert_eq!(bench.attachments.length(hash).unwrap(), Some(200_000));
    let (_, again) = bench.add(&long);
    assert_eq!(again, hash);
    assert_eq!(bench.attachments.list().unwrap(), BTreeSet::from([hash]));
    assert_sound(&bench.store);
    assert_eq!(bench.findings(), []);
    assert_eq!(bench.sweep(), BTreeSet::new());
    assert_eq!(bench.content(AttachmentHash::of(b"another")), None);
}

#[cfg(unix)]
#[test]
fn nobody_else_on_the_machine_can_look_at_a_picture() {
    use std::os::unix::fs::PermissionsExt;
    let mut bench = bench();
    let (_, hash) = bench.add(b"a face");
    let mode = |path| fs::metadata(path).unwrap().permissions().mode() & 0o077;
    let folder = bench.attachments.folder();
    assert_eq!(mode(folder.to_owned()), 0);
    assert_eq!(mode(folder.join(hash.to_string())), 0);
}

#[test]
fn a_source_that_fails_half_way_leaves_nothing() {
    struct Broken(usize);
    impl Read for Broken {
        fn read(&mut self, buffer: &mut [u8]) -> std::io::Result<usize> {
            self.0 += 1;
            if self.0 > 3 {
                return Err(Error::new(ErrorKind::StorageFull, "full"));
            }
            buffer.fill(7);
            Ok(buffer.len())
        }
    }
    let bench = bench();
    let adding = bench.attachments.add().unwrap();
    assert!(matches!(adding.put(Broken(0)), Err(StoreError::DiskFull)));
    let wrong = adding.put_as(AttachmentHash::of(b"one"), &b"two"[..]);
    assert!(matches!(wrong, Err(StoreError::Damaged(_))));
    adding
        .put_as(AttachmentHash::of(b"one"), &b"one"[..])
        .unwrap();
    drop(adding);
    let names: Vec<_> = fs::read_dir(bench.attachments.folder()).unwrap().collect();
    assert_eq!(names.len(), 2, "the one that was right, and the lock");
}

#[test]
fn missing_and_damaged_ones_are_findings_and_no_other_digest_and_adding_again_heals() {
    let mut bench = bench();
    let (_, gone) = bench.add(b"gone");
    let (_, bent) = bench.add(b"bent");
    let digest = bench.store.digest().unwrap();
    let folder = bench.attachments.folder().to_owned();
    fs::remove_file(folder.join(gone.to_string())).unwrap();
    fs::write(folder.join(bent.to_string()), b"other").unwrap();
    let mut findings = bench.findings();
    findings.sort();
    assert_eq!(
        findings,
        [
            AttachmentFinding::Missing(gone),
            AttachmentFinding::Damaged(bent)
        ]
    );
    let mut check = bench.store.check().unwrap();
    check.sort_by_key(|finding| *finding != CheckFinding::Attachment(gone));
    assert_eq!(
        check,
        [gone, bent].map(CheckFinding::Attachment),
        "the whole check tells it too"
    );
    assert_eq!(bench.store.digest().unwrap(), digest);
    assert!(matches!(
        bench.attachments.read(bent, 1 << 20),
        Err(StoreError::Damaged(_))
    ));
    let adding = bench.attachments.add().unwrap();
    adding.put(&b"gone"[..]).unwrap();
    adding.put(&b"bent"[..]).unwrap();
    assert_sound(&bench.store);
}

#[test]
fn what_nobody_names_is_swept_but_not_while_somebody_adds() {
    let bench = bench();
    let adding = bench.attachments.add().unwrap();
    let stray = adding.put(&b"never named"[..]).unwrap();
    fs::write(bench.attachments.folder().join("77-0.part"), b"half").unwrap();
    assert_eq!(bench.findings(), [AttachmentFinding::Stray(stray)]);
    assert_sound(&bench.store);
    // Another handle, as another process would have it.
    let elsewhere = Attachments::of(&bench._folder.path().join("shop.db"));
    assert!(matches!(
        elsewhere.sweep(&projector()),
        Err(StoreError::Locked)
    ));
    assert!(bench.attachments.has(stray).unwrap());
    drop(adding);
    assert_eq!(bench.sweep(), BTreeSet::from([stray]));
    let left = fs::read_dir(bench.attachments.folder()).unwrap().count();
    assert_eq!(left, 1, "the lock alone");
}

#[test]
fn one_that_was_struck_out_or_that_an_unknown_kind_names_stays_for_it_may_be_wanted_again() {
    let mut bench = bench();
    let (photo, hash) = bench.add(b"struck out");
    bench.store.undo(ines(), at(2)).unwrap();
    assert!(bench.store.standing_attachments().unwrap().is_empty());
    let adding = bench.attachments.add().unwrap();
    let unknown = adding.put(&b"of a later program"[..]).unwrap();
    drop(adding);
    let text = format!("{{\"film\":\"{unknown}\"}}");
    set(&mut bench.store, photo, Kind::literal("film"), &text, 3);
    assert_eq!(bench.sweep(), BTreeSet::new());
    assert_eq!(bench.findings(), []);
    bench.store.redo(ines(), at(4)).unwrap();
    assert!(bench.content(hash).is_some());
}

/// A backup is the store's file alone: the pictures that it names are kept for it, and what was
/// erased since isn't there after going back, and said to be missing.
#[test]
fn going_back_to_a_backup_finds_its_pictures_but_for_what_was_erased() {
    let mut bench = bench();
    let (_, kept) = bench.add(b"kept");
    let (_, erased) = bench.add(b"to be erased");
    let made = bench.backups.make(Reason::ByHand, at(5)).unwrap();
    drop(bench.store);
    // As if all of it had come by an import that was taken out again: the store is another one.
    fs::remove_file(bench._folder.path().join("shop.db")).unwrap();
    bench.store = open(&bench._folder.path().join("shop.db"));
    assert_eq!(
        bench.sweep(),
        BTreeSet::new(),
        "the backup still names both"
    );
    let gone = bench
        .attachments
        .erase(&projector(), &BTreeSet::from([erased]))
        .unwrap();
    assert_eq!(gone, BTreeSet::from([erased]));
    drop(bench.store);
    bench.backups.restore(&made.name, &[], at(6)).unwrap();
    bench.store = open(&bench._folder.path().join("shop.db"));
    assert_eq!(bench.content(kept), Some(b"kept".to_vec()));
    assert_eq!(bench.content(erased), None);
    assert_eq!(bench.findings(), [AttachmentFinding::Missing(erased)]);
    let named = bench
        .attachments
        .erase(&projector(), &BTreeSet::from([kept]))
        .unwrap();
    assert!(named.is_empty(), "the store names it");
}

#[test]
fn nothing_goes_while_a_backup_can_not_be_read() {
    let bench = bench();
    let adding = bench.attachments.add().unwrap();
    let stray = adding.put(&b"named by whom?"[..]).unwrap();
    drop(adding);
    let made = bench.backups.make(Reason::ByHand, at(5)).unwrap();
    fs::write(bench.backups.folder().join(&made.name), b"not a database").unwrap();
    assert_eq!(bench.sweep(), BTreeSet::new());
    assert!(bench.attachments.has(stray).unwrap());
}

#[test]
fn a_repair_finds_the_pictures_again() {
    let mut bench = bench();
    let (_, hash) = bench.add(b"picture");
    drop(bench.store);
    bench.backups.repair(real_setup(), at(6)).unwrap();
    bench.store = open(&bench._folder.path().join("shop.db"));
    assert_sound(&bench.store);
    assert!(bench.content(hash).is_some());
}

#[test]
fn a_picture_goes_along_only_with_what_stands_and_stays_with_what_is_withheld() {
    let mut bench = bench();
    let (_, open) = bench.add(b"the work alone");
    let (flipped, once_open) = bench.add(b"open at first, personal now");
    let (_, removed) = bench.add(b"removed");
    bench.store.undo(ines(), at(2)).unwrap();
    let seen = bench.store.heads(flipped, &PHOTO).unwrap();
    let mut personal = record(flipped, PHOTO, &once_open.to_string(), seen);
    personal.personal = true;
    bench.store.append(vec![personal], ines(), at(3)).unwrap();
    let batch = bench.store.export(&Selection::Everything, false).unwrap();
    let bodies: BTreeSet<_> = batch
        .bodies
        .iter()
        .map(|bytes| journal::BodyHash::of(bytes))
        .collect();
    let going = bench
        .store
        .attachments_with(|body| bodies.contains(&body))
        .unwrap();
    assert_eq!(
        going.into_keys().collect::<BTreeSet<_>>(),
        BTreeSet::from([open]),
        "not {once_open} or {removed}"
    );
    let all = bench.store.export(&Selection::Everything, true).unwrap();
    assert!(all.bodies.iter().any(|bytes| body::is_personal(bytes)));
    let going = bench.store.attachments_with(|_| true).unwrap();
    let going: BTreeSet<_> = going.into_keys().collect();
    assert_eq!(going, BTreeSet::from([open, once_open]));
}

#[test]
fn one_that_came_without_its_picture_is_not_called_lost() {
    let mut from = bench();
    let (_, hash) = from.add(b"stays there");
    let batch = from.store.export(&Selection::Everything, true).unwrap();
    let mut to = bench();
    to.store
        .take_in(&batch.check().unwrap(), "from elsewhere", at(9))
        .unwrap();
    assert_eq!(to.findings(), [AttachmentFinding::NotPassedOn(hash)]);
    assert_sound(&to.store);
    let adding = to.attachments.add().unwrap();
    adding.put_as(hash, &b"stays there"[..]).unwrap();
    drop(adding);
    assert_eq!(to.findings(), []);
}

/// The body goes in one transaction, the file after it: what lies between is told again.
#[test]
fn an_erased_picture_goes_in_spite_of_a_crash_and_whatever_backups_name() {
    let mut bench = bench();
    let path = bench._folder.path().join("shop.db");
    let (photo, face) = bench.add(b"a face");
    let (_, land) = bench.add(b"a land");
    bench.backups.make(Reason::ByHand, at(5)).unwrap();
    let about = vec![Erased {
        subject: photo,
        kinds: vec![PHOTO],
    }];
    bench.store.erase(about, ines(), at(6)).unwrap();
    drop(bench.store);
    assert!(bench.attachments.has(face).unwrap());

    bench.store = open(&path);
    let adding = bench.attachments.add().unwrap();
    assert!(!bench.store.scrub().unwrap(), "somebody adds one");
    assert!(bench.store.scrub_is_due().unwrap());
    drop(adding);
    assert!(bench.store.scrub().unwrap());
    assert!(!bench.store.scrub_is_due().unwrap());
    assert_eq!(bench.attachments.list().unwrap(), BTreeSet::from([land]));
    assert_eq!(bench.findings(), []);
    assert_sound(&bench.store);
}
