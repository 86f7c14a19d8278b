//! Bundles, good and bad, between stores.

use std::io::{Cursor, Write};

use crate::common::{
    JOB, OWNER, archive, bundle_of, everything, members, other_key, pack, put, remade, shop, store,
};
use bundle::{Bound, BundleError, Checked, Limits, Reader, apply, plan, read};
use journal::{Batch, SubjectId, VerifyError};
use proptest::prelude::*;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

#[test]
fn a_bundle_carries_everything_from_one_store_to_another() {
    let one = shop();
    let file = bundle_of(&one);
    let checked = read(&file).unwrap();
    assert_eq!(checked.batch().unwrap(), everything(&one, true));
    assert_eq!(checked.courier(), one.device_key().public());
    assert_eq!(checked.manifest().counts.records, 6);

    let mut two = store();
    let planned = plan(&mut two, &checked).unwrap();
    assert!(
        two.subjects_of_kind(&JOB).unwrap().is_empty(),
        "a plan changes nothing"
    );
    assert_eq!(planned.strangers, [one.device()].into());
    assert_eq!(apply(&mut two, &checked).unwrap(), planned.brings);
    assert_eq!(two.digest().unwrap(), one.digest().unwrap());
    assert_eq!(two.check().unwrap(), []);

    let again = plan(&mut two, &checked).unwrap();
    assert!(again.brings.is_nothing());
    assert!(again.strangers.is_empty());
}

#[test]
fn passed_on_by_another_device_it_keeps_the_authors_signatures() {
    let one = shop();
    let mut two = store();
    apply(&mut two, &read(&bundle_of(&one)).unwrap()).unwrap();
    let file = bundle_of(&two);
    let passed_on = read(&file).unwrap();
    assert_eq!(passed_on.courier(), two.device_key().public());
    assert_eq!(passed_on.batch().unwrap(), everything(&one, true));
    let mut three = store();
    let planned = plan(&mut three, &passed_on).unwrap();
    assert_eq!(planned.strangers, [one.device(), two.device()].into());
    assert_eq!(
        planned.brings.signers.keys().collect::<Vec<_>>(),
        [&one.device()]
    );
}

#[test]
fn the_same_content_gives_the_same_bytes() {
    let one = shop();
    let batch = everything(&one, true);
    let Batch {
        mut commits,
        mut records,
        mut bodies,
    } = batch.clone().into_raw();
    commits.reverse();
    records.reverse();
    bodies.reverse();
    let reversed = Batch {
        commits,
        records,
        bodies,
    }
    .check()
    .unwrap();
    assert!(pack(&reversed, &other_key()) == pack(&batch, &other_key()));
}

#[test]
fn the_members_are_as_documented() {
    let members = members(&bundle_of(&shop()));
    let names: Vec<_> = members.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(
        names,
        [
            "records.ndjson",
            "bodies.ndjson",
            "manifest.json",
            "signature.json"
        ]
    );
    // Another JSON reader, keys sorted and no spaces, finds the canonical bytes again.
    for line in std::str::from_utf8(&members[0].1).unwrap().lines() {
        let value: serde_json::Value = serde_json::from_str(line).unwrap();
        assert_eq!(value.to_string(), line);
    }
    for line in std::str::from_utf8(&members[1].1).unwrap().lines() {
        let value: serde_json::Value = serde_json::from_str(line).unwrap();
        assert!(value["text"].is_string() != value["base64"].is_string());
    }
}

#[test]
fn bodies_about_persons_can_be_left_out() {
    let one = shop();
    let file = pack(&everything(&one, false), one.device_key());
    for (_, bytes) in members(&file) {
        assert!(!bytes.windows(8).any(|window| window == b"555 0100"));
    }
    let mut two = store();
    apply(&mut two, &read(&file).unwrap()).unwrap();
    let owner = two
        .standing(SubjectId::from_bytes([2; 16]), &OWNER)
        .unwrap();
    assert_eq!(owner.lead().unwrap().body(), None);
    assert_eq!(two.digest().unwrap().journal, one.digest().unwrap().journal);
}

#[test]
fn concurrent_edits_are_in_the_plan() {
    let mut one = shop();
    let mut two = store();
    apply(&mut two, &read(&bundle_of(&one)).unwrap()).unwrap();
    let job = put(&mut one, 1, JOB, b"says one");
    put(&mut two, 1, JOB, b"says two");
    put(&mut one, 2, JOB, b"newer");
    let planned = plan(&mut two, &read(&bundle_of(&one)).unwrap()).unwrap();
    assert_eq!(planned.brings.concurrent, [(job, JOB)].into());
    assert_eq!(planned.brings.new_records, 2);
    assert!(
        planned
            .brings
            .newer
            .contains(&(SubjectId::from_bytes([2; 16]), JOB))
    );
}

#[test]
fn cut_anywhere_it_is_told() {
    let file = bundle_of(&shop());
    for length in 0..file.len() {
        match read(&file[..length]) {
            Err(BundleError::NotABundle) => assert!(length < 4, "{length}"),
            Err(BundleError::Truncated) => assert!(length >= 4, "{length}"),
            other => panic!("{length}: {other:?}"),
        }
    }
}

/// Flips one bit of each byte in turn; gives the places where the bundle was read all the same,
/// which must then be the same bundle.
fn unnoticed_flips(file: &[u8]) -> Vec<usize> {
    let whole = read(file).unwrap();
    let batch = whole.batch().unwrap();
    let unnoticed = |&place: &usize| {
        let mut bad = file.to_vec();
        bad[place] ^= 1 << (place % 8);
        match read(&bad) {
            Ok(checked) => {
                assert_eq!(checked.manifest(), whole.manifest(), "{place}");
                assert_eq!(checked.courier(), whole.courier(), "{place}");
                assert_eq!(checked.batch().unwrap(), batch, "{place}");
                true
            }
            Err(BundleError::Unbelievable(_)) => panic!("{place}: got past the member's hash"),
            Err(_) => false,
        }
    };
    (0..file.len()).filter(unnoticed).collect()
}

#[test]
fn no_flipped_byte_changes_what_is_read() {
    // Deflate can say one thing in several ways, so a flip in its data may change nothing.
    unnoticed_flips(&bundle_of(&shop()));
}

#[test]
fn stored_plain_no_flipped_byte_of_a_member_goes_unnoticed() {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default().compression_method(CompressionMethod::Stored);
    for (name, bytes) in members(&bundle_of(&shop())) {
        zip.start_file(name, options).unwrap();
        zip.write_all(&bytes).unwrap();
    }
    let file = zip.finish().unwrap().into_inner();
    let mut zip = zip::ZipArchive::new(Cursor::new(&file)).unwrap();
    let data: Vec<_> = (0..zip.len())
        .map(|place| {
            let member = zip.by_index(place).unwrap();
            let start = usize::try_from(member.data_start().unwrap()).unwrap();
            start..start + usize::try_from(member.size()).unwrap()
        })
        .collect();
    // Headers also hold times, attributes and the like, which nobody reads.
    for place in unnoticed_flips(&file) {
        assert!(!data.iter().any(|data| data.contains(&place)), "{place}");
    }
}

#[test]
fn other_files_are_not_bundles() {
    for file in [
        &b""[..],
        b"PK",
        b"Dear all,",
        b"\x89PNG\r\n\x1a\n",
        &[0; 4096],
    ] {
        assert!(matches!(read(file), Err(BundleError::NotABundle)));
    }
    let foreign = archive(&[("letter.txt", b"Dear all,")]);
    assert!(matches!(
        read(&foreign),
        Err(BundleError::Missing("manifest.json"))
    ));
}

#[test]
fn a_newer_format_is_told_by_its_number_whatever_else_it_holds() {
    let newer = archive(&[
        ("records.cbor", b"?"),
        ("manifest.json", br#"{"format":3,"other":[]}"#),
        ("seal", b"?"),
    ]);
    let refused = read(&newer).unwrap_err();
    assert!(
        matches!(refused, BundleError::NewerFormat { found: 3, known: 2 }),
        "{refused:?}"
    );
}

#[test]
fn changed_members_do_not_pass() {
    let one = shop();
    let file = bundle_of(&one);
    let all = members(&file);
    let text = |name: &str| {
        String::from_utf8(all.iter().find(|(n, _)| n == name).unwrap().1.clone()).unwrap()
    };
    let with = |name: &str, bytes: &[u8]| {
        let changed: Vec<(&str, &[u8])> = all
            .iter()
            .map(|(n, b)| (n.as_str(), if n == name { bytes } else { &b[..] }))
            .collect();
        read(&archive(&changed)).unwrap_err()
    };
    let records = text("records.ndjson").replace("\"job\"", "\"joc\"");
    assert!(matches!(
        with("records.ndjson", records.as_bytes()),
        BundleError::Changed(_)
    ));
    let bodies = text("bodies.ndjson").replace("hot", "hat");
    assert!(matches!(
        with("bodies.ndjson", bodies.as_bytes()),
        BundleError::Changed(_)
    ));
    let manifest = text("manifest.json").replace("\"records\":6", "\"records\":5");
    assert!(matches!(
        with("manifest.json", manifest.as_bytes()),
        BundleError::BadSignature
    ));
    let key = other_key();
    let seal = text("signature.json").replace(
        &one.device_key().public().to_string(),
        &key.public().to_string(),
    );
    assert!(matches!(
        with("signature.json", seal.as_bytes()),
        BundleError::BadSignature
    ));
}

#[test]
fn a_courier_cannot_change_what_others_signed() {
    let one = shop();
    let file = bundle_of(&one);
    let key = other_key();
    let records = String::from_utf8(members(&file)[0].1.clone()).unwrap();
    let bodies = String::from_utf8(members(&file)[1].1.clone()).unwrap();
    // The trick itself is sound: unchanged content under another courier is read.
    assert!(read(&remade(&file, "bodies.ndjson", bodies.as_bytes(), &key)).is_ok());

    let changed = records.replace("\"job\"", "\"joc\"");
    let refused = read(&remade(&file, "records.ndjson", changed.as_bytes(), &key)).unwrap_err();
    assert!(
        matches!(refused, BundleError::Unbelievable(VerifyError::Unsigned(_))),
        "{refused:?}"
    );
    let changed = records
        .replacen("\"edit\",\"device\"", "\"undo\",\"device\"", 1)
        .replacen(
            "\"of\":null",
            "\"of\":\"00000000-0000-0000-0000-000000000000\"",
            1,
        );
    let refused = read(&remade(&file, "records.ndjson", changed.as_bytes(), &key)).unwrap_err();
    assert!(
        matches!(
            refused,
            BundleError::Unbelievable(VerifyError::Signature(_))
        ),
        "{refused:?}"
    );
    let changed = bodies.replace("hot", "hat");
    let refused = read(&remade(&file, "bodies.ndjson", changed.as_bytes(), &key)).unwrap_err();
    assert!(
        matches!(refused, BundleError::Malformed { .. }),
        "{refused:?}"
    );
    // Fewer lines than the manifest counts, a line too many, a line cut.
    let fewer = bodies.split_inclusive('\n').skip(1).collect::<String>();
    let more = format!("{records}{{\"record\":{{}}}}\n");
    for (name, changed) in [
        ("bodies.ndjson", fewer.as_str()),
        ("records.ndjson", more.as_str()),
        ("bodies.ndjson", bodies.trim_end()),
        ("records.ndjson", "null\n"),
    ] {
        let refused = read(&remade(&file, name, changed.as_bytes(), &key)).unwrap_err();
        assert!(
            matches!(refused, BundleError::Malformed { .. }),
            "{refused:?}"
        );
    }
}

#[test]
fn members_that_do_not_belong_are_refused_by_name() {
    let file = bundle_of(&shop());
    let all = members(&file);
    let good: Vec<_> = all.iter().map(|(n, b)| (n.as_str(), &b[..])).collect();
    for name in [
        "../../etc/shop",
        "/etc/shop",
        "attachments/x",
        "records.ndjson\\",
        "a\u{1b}[2J",
    ] {
        let refused = read(&archive(&[&good[..], &[(name, b"x")]].concat())).unwrap_err();
        let BundleError::Unexpected(shown) = refused else {
            panic!("{refused:?}")
        };
        assert!(!shown.contains('\u{1b}'));
    }
    for missing in 0..good.len() {
        let mut rest = good.clone();
        rest.remove(missing);
        assert!(matches!(
            read(&archive(&rest)),
            Err(BundleError::Missing(_))
        ));
    }
}

#[test]
fn a_member_there_twice_is_refused() {
    // Two members of one length of name, then both names made the same.
    let file = bundle_of(&shop());
    let all = members(&file);
    let mut parts: Vec<_> = all.iter().map(|(n, b)| (n.as_str(), &b[..])).collect();
    parts.push(("manifest.jsom", &all[2].1));
    let mut twice = archive(&parts);
    let places: Vec<_> = (0..twice.len() - 13)
        .filter(|&at| &twice[at..at + 13] == b"manifest.jsom")
        .collect();
    assert_eq!(places.len(), 2);
    for at in places {
        twice[at + 12] = b'n';
    }
    assert!(matches!(read(&twice), Err(BundleError::Unexpected(_))));
}

#[test]
fn bombs_are_defused_while_they_inflate() {
    let limits = Limits {
        member_bytes: 1 << 20,
        total_bytes: 2 << 20,
        ..Limits::default()
    };
    let zeros = vec![b' '; 8 << 20];
    let bomb = archive(&[("manifest.json", &zeros)]);
    assert!(bomb.len() < 20_000);
    for (limits, bound) in [
        (limits, Bound::Member),
        (
            Limits {
                total_bytes: 1 << 20,
                ..Limits::default()
            },
            Bound::Total,
        ),
        (Limits::default(), Bound::Ratio),
    ] {
        let mut reader = Reader::new(limits);
        let refused = reader.read(Cursor::new(&bomb)).unwrap_err();
        assert!(
            matches!(refused, BundleError::TooLarge(b) if b == bound),
            "{refused:?}"
        );
        assert_eq!(reader.counters().inflated_bytes, 0, "told by its directory");
    }
    // The same with sizes that lie, in the member's header and in the directory.
    let mut lying = bomb;
    let truth = u32::try_from(zeros.len()).unwrap().to_le_bytes();
    let places: Vec<_> = (0..lying.len() - 4)
        .filter(|&at| lying[at..at + 4] == truth)
        .collect();
    assert_eq!(places.len(), 2);
    for at in places {
        lying[at..at + 4].copy_from_slice(&100_u32.to_le_bytes());
    }
    let mut reader = Reader::new(limits);
    let refused = reader.read(Cursor::new(&lying)).unwrap_err();
    assert!(
        matches!(refused, BundleError::TooLarge(_) | BundleError::Changed(_)),
        "{refused:?}"
    );
    assert!(reader.counters().inflated_bytes <= limits.member_bytes + (1 << 16));
}

#[test]
fn too_many_members_are_told_before_any_is_looked_at() {
    let names: Vec<_> = (0..5000).map(|n| format!("m{n}")).collect();
    let parts: Vec<_> = names.iter().map(|name| (name.as_str(), &b""[..])).collect();
    let mut reader = Reader::new(Limits {
        members: 4096,
        ..Limits::default()
    });
    let refused = reader.read(Cursor::new(archive(&parts))).unwrap_err();
    assert!(
        matches!(refused, BundleError::TooLarge(Bound::Members)),
        "{refused:?}"
    );
    assert_eq!(reader.counters().members, 5000);
}

#[test]
fn files_lines_and_nesting_have_bounds() {
    let file = bundle_of(&shop());
    let small = |limits| Reader::new(limits).read(Cursor::new(&file)).unwrap_err();
    let refused = small(Limits {
        file_bytes: 100,
        ..Limits::default()
    });
    assert!(matches!(refused, BundleError::TooLarge(Bound::File)));
    let refused = small(Limits {
        line_bytes: 100,
        ..Limits::default()
    });
    assert!(matches!(refused, BundleError::TooLarge(Bound::Line)));
    let refused = small(Limits {
        depth: 1,
        ..Limits::default()
    });
    assert!(matches!(refused, BundleError::TooLarge(Bound::Depth)));

    let deep = format!("{}{}", "[".repeat(50_000), "]".repeat(50_000));
    let deep = format!("{{\"format\":1,\"x\":{deep}}}");
    let limits = Limits {
        ratio: 10_000,
        ..Limits::default()
    };
    let refused = Reader::new(limits)
        .read(Cursor::new(archive(&[("manifest.json", deep.as_bytes())])))
        .unwrap_err();
    assert!(
        matches!(refused, BundleError::TooLarge(Bound::Depth)),
        "{refused:?}"
    );
}

#[test]
fn odd_json_is_refused_in_words() {
    let file = bundle_of(&shop());
    let key = other_key();
    let good = String::from_utf8(members(&file)[2].1.clone()).unwrap();
    for odd in [
        good.replace("\"format\":1", "\"format\":1.5"),
        good.replace("\"format\":1", "\"format\":NaN"),
        good.replace("\"format\":1", "\"format\":1e400"),
        good.replace("\"format\":1", "\"format\":-1"),
        good.replace("\"format\":1", "\"format\":1,\"format\":1"),
        good.replace("\"bytes\":", "\"bytes\":99999999999999999999"),
        good.replace("\"counts\"", "\"count\""),
        format!("\u{feff}{good}"),
        String::new(),
    ] {
        assert_ne!(odd, good);
        let refused = read(&remade(&file, "manifest.json", odd.as_bytes(), &key)).unwrap_err();
        assert!(
            matches!(refused, BundleError::Malformed { .. }),
            "{refused:?}"
        );
    }
    let bad_text = [good.as_bytes(), b"\xff"].concat();
    let refused = read(&remade(&file, "manifest.json", &bad_text, &key)).unwrap_err();
    assert!(
        matches!(refused, BundleError::Malformed { .. }),
        "{refused:?}"
    );
}

#[test]
fn a_file_is_read_from_its_path() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("shop.bundle");
    let one = shop();
    std::fs::write(&path, bundle_of(&one)).unwrap();
    let checked: Checked<std::fs::File> = Reader::default().read_file(&path).unwrap();
    assert_eq!(checked.batch().unwrap(), everything(&one, true));
    let missing = Reader::default().read_file(&folder.path().join("none"));
    assert!(matches!(missing, Err(BundleError::Io(_))));
    let mut short = Reader::new(Limits {
        file_bytes: 10,
        ..Limits::default()
    });
    assert!(matches!(
        short.read_file(&path),
        Err(BundleError::TooLarge(Bound::File))
    ));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn no_bytes_make_the_reader_fall(bytes in prop::collection::vec(any::<u8>(), 0..300)) {
        prop_assert!(read(&bytes).is_err());
        prop_assert!(read(&[b"PK\x03\x04", &bytes[..]].concat()).is_err());
    }

    #[test]
    fn any_body_comes_back_as_it_was(body in prop::collection::vec(any::<u8>(), 0..200)) {
        prop_assume!(journal::body::plain(&body).is_ok());
        let mut one = store();
        put(&mut one, 1, JOB, &body);
        let file = bundle_of(&one);
        let checked = read(&file).unwrap();
        let batch = checked.batch().unwrap();
        prop_assert_eq!(batch.bodies().values().next(), Some(&body));
    }
}
