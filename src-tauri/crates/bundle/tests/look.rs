//! Bundles that nothing proves, looked at: what can't be believed is told, and can be seen in a
//! store of its own alone.
#![allow(clippy::unwrap_used, reason = "a test stops at what it did not expect")]

use std::io::Cursor;
use std::sync::Arc;

use crate::common::{Shop, archive, bundle_of, code, members, other_key, remade, shop};
use bundle::{Courier, Limits, Looked, Reader, Signatures};
use journal::{Kind, SubjectId};
use serde_json::Value;
use store::{Item, Setup, Store};

type File = Cursor<Vec<u8>>;

fn look(file: &[u8]) -> Looked<File> {
    Reader::default().look(Cursor::new(file.to_vec())).unwrap()
}

/// The store that is seen, and of how many records no signature was told.
fn seen(looked: &Looked<File>) -> (Store, u64) {
    let mut unsigned = 0;
    let watch = |item: &Item<'_>, signed: bool| {
        if matches!(item, Item::Record(_)) && !signed {
            unsigned += 1;
        }
    };
    let (store, _) = looked.store(Setup::new(Arc::new(Shop)), watch).unwrap();
    (store, unsigned)
}

fn without(file: &[u8], name: &str) -> Vec<u8> {
    let all = members(file);
    let kept: Vec<_> = all
        .iter()
        .filter(|(member, _)| member != name)
        .map(|(member, bytes)| (member.as_str(), &bytes[..]))
        .collect();
    archive(&kept)
}

/// The bundle with another member of records, and all around it made to fit by another courier.
fn with_records(file: &[u8], change: impl Fn(&str) -> Option<String>) -> Vec<u8> {
    let all = members(file);
    let find = |name: &str| all.iter().find(|(member, _)| member == name).unwrap();
    let lines = String::from_utf8(find("records.ndjson").1.clone()).unwrap();
    let lines: String = lines
        .lines()
        .filter_map(change)
        .map(|line| line + "\n")
        .collect();
    let key = other_key();
    let file = remade(file, "records.ndjson", lines.as_bytes(), &key);
    let mut manifest: Value = serde_json::from_slice(
        &members(&file)
            .iter()
            .find(|(member, _)| member == "manifest.json")
            .unwrap()
            .1,
    )
    .unwrap();
    let commits = lines.lines().filter(|it| it.starts_with("{\"commit\""));
    manifest["counts"]["commits"] = commits.count().into();
    let manifest = serde_json::to_vec(&manifest).unwrap();
    remade(&file, "manifest.json", &manifest, &key)
}

#[test]
fn a_bundle_that_holds_is_seen_as_it_is_taken_in() {
    let shop = shop();
    let looked = look(&bundle_of(&shop));
    let courier = Courier::Signed(shop.device_key().public());
    assert_eq!(looked.signatures().courier, courier);
    assert!(looked.signatures().hold());
    let (seen, unsigned) = seen(&looked);
    assert_eq!(unsigned, 0);
    assert_eq!(seen.digest().unwrap(), shop.digest().unwrap());
}

#[test]
fn one_without_a_signature_is_refused_by_its_name_and_can_be_seen() {
    let shop = shop();
    let file = without(&bundle_of(&shop), "signature.json");
    assert_eq!(code("unsigned", &file), Some("missing_member"));
    let looked = look(&file);
    let signatures = Signatures {
        courier: Courier::Unsigned,
        misfit_commits: 0,
        unsigned_records: 0,
    };
    assert_eq!(looked.signatures(), signatures);
    assert!(!signatures.hold());
    assert_eq!(seen(&looked).0.digest().unwrap(), shop.digest().unwrap());
}

#[test]
fn one_that_another_key_signed_or_that_was_changed_since_is_told() {
    let shop = shop();
    let good = bundle_of(&shop);
    let all = members(&good);
    let find = |name: &str| &all.iter().find(|(member, _)| member == name).unwrap().1;
    let foreign = members(&remade(
        &good,
        "bodies.ndjson",
        find("bodies.ndjson"),
        &other_key(),
    ));
    let with = |name: &str, bytes: &[u8]| {
        let parts: Vec<_> = all
            .iter()
            .map(|(member, own)| {
                let own = if member == name { bytes } else { own };
                (member.as_str(), own)
            })
            .collect();
        archive(&parts)
    };
    let other = &foreign
        .iter()
        .find(|it| it.0 == "signature.json")
        .unwrap()
        .1;
    let manifest = String::from_utf8(find("manifest.json").clone()).unwrap();
    let later = manifest.replace("\"created\":1", "\"created\":2");
    assert_ne!(later, manifest);
    for file in [
        with("signature.json", other),
        with("manifest.json", later.as_bytes()),
    ] {
        assert_eq!(code("misfit", &file), Some("bad_signature"));
        let looked = look(&file);
        assert_eq!(looked.signatures().courier, Courier::Misfit);
        assert_eq!(seen(&looked).0.digest().unwrap(), shop.digest().unwrap());
    }
}

/// A courier with a key of their own can change what a colleague signed, but not sign for them.
#[test]
fn what_a_courier_changed_or_made_up_is_told_apart_from_what_was_signed() {
    let shop = shop();
    let good = bundle_of(&shop);
    let first = std::cell::Cell::new(true);
    let file = with_records(&good, |line| {
        if !line.starts_with("{\"commit\"") || !first.replace(false) {
            return Some(line.to_owned());
        }
        // One digit of the first commit's signature is another.
        let at = line.find("\"signature\":\"").unwrap() + 20;
        let digit = if &line[at..=at] == "0" { "1" } else { "0" };
        Some(format!("{}{digit}{}", &line[..at], &line[at + 1..]))
    });
    let refused = code("a commit changed", &file);
    assert_eq!(refused, Some("bad_commit_signature"));
    let looked = look(&file);
    let signatures = Signatures {
        courier: Courier::Signed(other_key().public()),
        misfit_commits: 1,
        // Each commit of this shop is one action on one record.
        unsigned_records: 1,
    };
    assert_eq!(looked.signatures(), signatures);
    let (store, unsigned) = seen(&looked);
    assert_eq!(unsigned, 1);
    assert_eq!(store.devices().unwrap().len(), 1);

    // Nobody signed anything in it, nor the file.
    let file = with_records(&good, |line| {
        (!line.starts_with("{\"commit\"")).then(|| line.to_owned())
    });
    assert_eq!(code("no commits", &file), Some("unsigned_record"));
    let file = without(&file, "signature.json");
    let looked = look(&file);
    let records = looked.manifest().counts.records;
    let signatures = Signatures {
        courier: Courier::Unsigned,
        misfit_commits: 0,
        unsigned_records: records,
    };
    assert_eq!(looked.signatures(), signatures);
    let (store, unsigned) = seen(&looked);
    assert_eq!(unsigned, records);
    // No device is believed to have signed, and the work can be read all the same.
    assert_eq!(store.devices().unwrap(), []);
    let job = SubjectId::from_bytes([1; 16]);
    let standing = |store: &Store| {
        let lead = store.standing(job, &Kind::literal("job")).unwrap();
        lead.lead().unwrap().body().unwrap().to_vec()
    };
    assert_eq!(standing(&store), standing(&shop));
}

#[test]
fn the_caps_hold_whoever_signed() {
    let file = without(&bundle_of(&shop()), "signature.json");
    let limited = |limits: Limits| {
        let looked = Reader::new(limits).look(Cursor::new(file.clone()));
        looked.unwrap_err().code()
    };
    let all = Limits::default();
    let few = |change: fn(&mut Limits)| {
        let mut limits = all;
        change(&mut limits);
        limits
    };
    for limits in [
        few(|it| it.file_bytes = 100),
        few(|it| it.members = 2),
        few(|it| it.directory_bytes = 10),
        few(|it| it.member_bytes = 100),
        few(|it| it.manifest_bytes = 10),
        few(|it| it.total_bytes = 200),
        few(|it| it.line_bytes = 100),
        few(|it| it.records = 3),
        few(|it| it.depth = 1),
    ] {
        assert_eq!(limited(limits), "too_large", "{limits:?}");
    }
}
