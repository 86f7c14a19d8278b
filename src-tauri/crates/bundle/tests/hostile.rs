//! Files made to do harm, or merely broken: each is refused under its name by this reader and by
//! the independent one in `tests/bundles`, and what was read on the way stays within the caps.
#![allow(
    clippy::unwrap_used,
    clippy::cast_possible_truncation,
    reason = "a test stops at what it did not expect"
)]

use std::path::Path;

use crate::common::{
    Entry, archive, both_agree, bundle_of, case, code, members, other_key, raw, remade, shop,
};
use bundle::read;

fn le16(value: usize) -> [u8; 2] {
    (value as u16).to_le_bytes()
}

fn le32(value: usize) -> [u8; 4] {
    (value as u32).to_le_bytes()
}

/// Where a signature of the archive's own parts stands.
fn places(file: &[u8], mark: &[u8]) -> Vec<usize> {
    (0..file.len() - mark.len())
        .filter(|&at| file[at..].starts_with(mark))
        .collect()
}

#[test]
fn good_bundles_are_read_by_both() {
    let plain = bundle_of(&shop());
    let all = members(&plain);
    let mut turned: Vec<_> = all.iter().map(|(n, b)| (n.as_str(), &b[..])).collect();
    turned.reverse();
    both_agree(&[
        case("as written", plain.clone(), &[]),
        case("members in another order", archive(&turned), &[]),
        case(
            "passed on by another",
            remade(&plain, "bodies.ndjson", &all[1].1, &other_key()),
            &[],
        ),
    ]);
}

#[test]
fn cut_at_every_boundary() {
    let file = bundle_of(&shop());
    let mut cuts = vec![0, 1, 3, 4, 21, 22, file.len() - 22, file.len() - 1];
    for mark in [&b"PK\x03\x04"[..], b"PK\x01\x02", b"PK\x05\x06"] {
        for place in places(&file, mark) {
            cuts.extend([place.saturating_sub(1), place, place + 1, place + 4]);
        }
    }
    let cases: Vec<_> = cuts
        .into_iter()
        .map(|at| {
            let codes: &[_] = if at < 4 {
                &["not_a_bundle"]
            } else {
                &["truncated"]
            };
            case(format!("cut at {at}"), file[..at].to_vec(), codes)
        })
        .collect();
    both_agree(&cases);
}

/// One byte of every field of every header, of the data, of the directory and of the end.
#[test]
fn every_class_of_byte_flipped() {
    let file = bundle_of(&shop());
    let end = file.len() - 22;
    let mut cases = Vec::new();
    let mut flip = |what: &str, at: usize, codes| {
        let mut bad = file.clone();
        bad[at] ^= 0xff;
        cases.push(case(format!("{what} at {at}"), bad, codes));
    };
    flip("first mark", 0, &["not_a_bundle"][..]);
    flip("end mark", end, &["truncated"]);
    for field in [8, 10, 12, 16, 20] {
        // A length or a count that became one that needs more than this format has is too much.
        flip(
            "end record",
            end + field,
            &["changed", "too_large", "unexpected_member"],
        );
    }
    for (member, start) in places(&file, b"PK\x01\x02").into_iter().enumerate() {
        flip("directory mark", start, &["changed"]);
        for field in [10, 16, 20, 24, 28, 42] {
            flip(
                &format!("directory field {field} of member {member}"),
                start + field,
                &[
                    "changed",
                    "unexpected_member",
                    "too_large",
                    "missing_member",
                ],
            );
        }
        flip(
            "name",
            start + 46,
            &["missing_member", "unexpected_member", "changed"],
        );
        let data = places(&file, b"PK\x03\x04")[member];
        flip(
            "data",
            data + 90,
            &["changed", "malformed", "bad_signature", "too_large"],
        );
    }
    both_agree(&cases);
}

/// An archive that says of each member what the test says.
fn with(entries: &[Entry<'_>]) -> Vec<u8> {
    raw(entries)
}

#[test]
fn bombs() {
    let zeros = vec![b' '; 8 << 20];
    let inner = archive(&[("manifest.json", &zeros)]);
    let squeezed = {
        let all = members(&inner);
        assert_eq!(all.len(), 1);
        let start = 30 + "manifest.json".len();
        inner[start..places(&inner, b"PK\x01\x02")[0]].to_vec()
    };
    let entry = |name, packed: &'_ [u8]| Entry {
        name,
        packed: packed.to_vec(),
        method: 8,
        size: zeros.len(),
        packed_size: packed.len(),
        crc: 0,
        at: None,
        flags: 0,
    };
    let honest = entry("manifest.json", &squeezed);
    let lying = Entry {
        size: 100,
        ..honest.clone()
    };
    // Claims a compressed length that would allow the growth, beyond the file's end.
    let reaching = Entry {
        packed_size: 8 << 20,
        ..honest.clone()
    };
    let four_gib = Entry {
        size: 0xffff_fffe,
        ..honest.clone()
    };
    let nested = archive(&[("manifest.json", &inner), ("inner.zip", &inner)]);
    // Many names over one and the same data.
    let names: Vec<_> = (0..500).map(|n| format!("m{n}")).collect();
    let overlapping: Vec<_> = names
        .iter()
        .map(|name| Entry {
            at: Some(0),
            size: 60_000,
            ..entry(name, &squeezed)
        })
        .collect();
    both_agree(&[
        case(
            "grows a thousandfold",
            with(std::slice::from_ref(&honest)),
            &["too_large"],
        ),
        case(
            "says it is small",
            with(&[lying]),
            &["changed", "too_large"],
        ),
        case(
            "reaches beyond the end",
            with(&[reaching]),
            &["changed", "unexpected_member", "too_large"],
        ),
        case("claims 4 GiB", with(&[four_gib]), &["too_large"]),
        case("an archive in an archive", nested, &["malformed"]),
        case(
            "many over one",
            with(&overlapping),
            &["unexpected_member", "changed"],
        ),
    ]);
}

#[test]
fn a_million_members() {
    // What the end record can say is 65,535; beyond that it points to a zip64 record.
    let names: Vec<_> = (0..65_300).map(|n| format!("m{n}")).collect();
    let parts: Vec<_> = names.iter().map(|name| (name.as_str(), &b""[..])).collect();
    let many = archive(&parts);
    let end = many.len() - 22;
    let mut more = many.clone();
    more[end + 8..end + 12].copy_from_slice(&[0xff; 4]);
    // 1,000,000 records of a directory that all are there.
    let one = &many[places(&many, b"PK\x01\x02")[0]..][..48];
    let mut million = many[..32].to_vec();
    let start = million.len();
    for _ in 0..1_000_000 {
        million.extend_from_slice(one);
    }
    let length = million.len() - start;
    million.extend_from_slice(b"PK\x05\x06\0\0\0\0");
    million.extend_from_slice(&[0xff; 4]);
    million.extend_from_slice(&le32(length));
    million.extend_from_slice(&le32(start));
    million.extend_from_slice(&[0, 0]);
    let mut wrapped = million.clone();
    let end_of_million = wrapped.len() - 22;
    // 1,000,000 modulo 65,536, as a careless writer would have it.
    wrapped[end_of_million + 8..end_of_million + 10].copy_from_slice(&le16(1_000_000));
    wrapped[end_of_million + 10..end_of_million + 12].copy_from_slice(&le16(1_000_000));
    both_agree(&[
        case("more than there may be", many, &["too_large"]),
        case("says zip64", more, &["too_large"]),
        case("a million", million, &["too_large"]),
        case("a million, wrapped round", wrapped, &["too_large"]),
    ]);
}

#[test]
fn names() {
    let all = members(&bundle_of(&shop()));
    let good: Vec<_> = all.iter().map(|(n, b)| (n.as_str(), &b[..])).collect();
    let long = "n".repeat(300);
    let mut cases: Vec<_> = [
        "../../etc/shop",
        "/etc/shop",
        "C:\\shop",
        "..\\records.ndjson",
        "./records.ndjson",
        "RECORDS.NDJSON",
        "records.ndjson/",
        "records.ndjson ",
        "rec\u{f6}rds.ndjson",
        "a\u{1b}[2J\u{202e}",
        "<img src=x>",
        long.as_str(),
    ]
    .into_iter()
    .map(|name| {
        let file = archive(&[&good[..], &[(name, b"x")]].concat());
        case(
            format!("also {:.40}", name.escape_debug()),
            file,
            &["unexpected_member"],
        )
    })
    .collect();
    for missing in 0..good.len() {
        let mut rest = good.clone();
        let (name, _) = rest.remove(missing);
        cases.push(case(
            format!("no {name}"),
            archive(&rest),
            &["missing_member"],
        ));
    }
    let twice: Vec<_> = [0, 1, 2, 3, 2]
        .into_iter()
        .map(|place: usize| Entry::stored(good[place].0, good[place].1))
        .collect();
    cases.push(case("one twice", with(&twice), &["unexpected_member"]));
    let mut encrypted: Vec<_> = good.iter().map(|(n, b)| Entry::stored(n, b)).collect();
    encrypted[0].flags = 1;
    cases.push(case("encrypted", with(&encrypted), &["unexpected_member"]));
    let mut packed_oddly: Vec<_> = good.iter().map(|(n, b)| Entry::stored(n, b)).collect();
    packed_oddly[0].method = 12;
    cases.push(case(
        "another method",
        with(&packed_oddly),
        &["unexpected_member", "changed"],
    ));
    both_agree(&cases);
}

#[test]
fn odd_json() {
    let file = bundle_of(&shop());
    let key = other_key();
    let all = members(&file);
    let text = |place: usize| String::from_utf8(all[place].1.clone()).unwrap();
    let deep = |n: usize| format!("{}{}", "[".repeat(n), "]".repeat(n));
    let mut cases = Vec::new();
    let mut add = |what: &str, name: &str, bytes: &[u8], codes| {
        cases.push(case(what, remade(&file, name, bytes, &key), codes));
    };
    let one = read(&file).unwrap().courier().device().to_string();
    let manifest = text(2).replace(&one, &key.device().to_string());
    let odd = |from: &str, to: &str| {
        let odd = manifest.replacen(from, to, 1);
        assert_ne!(odd, manifest, "{from}");
        odd
    };
    for (what, changed, codes) in [
        (
            "later format",
            odd("\"format\":1", "\"format\":3"),
            &["newer_format"][..],
        ),
        (
            "format 0",
            odd("\"format\":1", "\"format\":0"),
            &["malformed"],
        ),
        (
            "huge format",
            odd("\"format\":1", "\"format\":18446744073709551615"),
            &["newer_format"],
        ),
        (
            "format beyond",
            odd("\"format\":1", "\"format\":18446744073709551616"),
            &["malformed"],
        ),
        ("NaN", odd("\"format\":1", "\"format\":NaN"), &["malformed"]),
        (
            "infinite",
            odd("\"format\":1", "\"format\":1e999"),
            &["malformed"],
        ),
        (
            "no number",
            odd("\"format\":1", "\"format\":\"1\""),
            &["malformed"],
        ),
        (
            "true",
            odd("\"format\":1", "\"format\":true"),
            &["malformed"],
        ),
        (
            "twice",
            odd("\"format\":1", "\"format\":1,\"format\":1"),
            &["malformed"],
        ),
        ("negative", odd("\"bytes\":", "\"bytes\":-"), &["malformed"]),
        (
            "deep",
            odd(
                "\"format\":1",
                &format!("\"format\":1,\"x\":{}", deep(5000)),
            ),
            &["too_large"],
        ),
        ("mark", format!("\u{feff}{manifest}"), &["malformed"]),
        ("empty", String::new(), &["malformed"]),
        ("null", "null".into(), &["malformed"]),
    ] {
        add(
            &format!("manifest {what}"),
            "manifest.json",
            changed.as_bytes(),
            codes,
        );
    }
    add(
        "manifest not UTF-8",
        "manifest.json",
        &[manifest.as_bytes(), b"\xff"].concat(),
        &["malformed"],
    );

    let records = text(0);
    let first = |from: &str, to: &str| {
        let odd = records.replacen(from, to, 1);
        assert_ne!(odd, records, "{from}");
        odd
    };
    for (what, changed, codes) in [
        (
            "deep",
            format!("{{\"record\":{}}}\n{records}", deep(20_000)),
            &["too_large"][..],
        ),
        (
            "huge number",
            first("\"wall_time\":", "\"wall_time\":99999999999999999999"),
            &["malformed"],
        ),
        (
            "NaN",
            first("\"counter\":0", "\"counter\":NaN"),
            &["malformed"],
        ),
        (
            "fraction",
            first("\"counter\":0", "\"counter\":0.0"),
            &["malformed"],
        ),
        (
            "minus nothing",
            first("\"counter\":0", "\"counter\":-0"),
            &["malformed"],
        ),
        (
            "exponent",
            first("\"counter\":0", "\"counter\":0e0"),
            &["malformed"],
        ),
        ("white space", first("\":", "\": "), &["malformed"]),
        (
            "carriage return",
            records.replace('\n', "\r\n"),
            &["malformed"],
        ),
        ("empty line", format!("\n{records}"), &["malformed"]),
        (
            "control character",
            first("\"kind\":\"job\"", "\"kind\":\"jo\u{7}\""),
            &["malformed"],
        ),
        (
            "kind with line end",
            first("\"kind\":\"job\"", "\"kind\":\"job\\n\""),
            &["malformed"],
        ),
        (
            "capital hexadecimal",
            first(
                "\"action\":\"edit\",\"device\":\"",
                "\"action\":\"edit\",\"device\":\"A",
            ),
            &["malformed"],
        ),
        ("no line feed", records.trim_end().into(), &["malformed"]),
        (
            "stranger's line",
            format!("{{\"letter\":1}}\n{records}"),
            &["malformed"],
        ),
    ] {
        add(
            &format!("records {what}"),
            "records.ndjson",
            changed.as_bytes(),
            codes,
        );
    }
    let bad = [b"{\"record\":\"\xff\"}\n", records.as_bytes()].concat();
    add("records not UTF-8", "records.ndjson", &bad, &["malformed"]);
    let long = format!("{{\"record\":\"{}\"}}\n", noise(4 << 20));
    add(
        "a line beyond 4 MiB",
        "records.ndjson",
        long.as_bytes(),
        &["too_large"],
    );

    let bodies = text(1);
    for (what, changed) in [
        (
            "both ways",
            bodies.replacen("\"text\":", "\"base64\":\"\",\"text\":", 1),
        ),
        ("another hash", bodies.replace("harsh", "harch")),
        ("half a character", bodies.replace("harsh", "\\ud800")),
        (
            "bad base64",
            bodies.replace("\"base64\":\"", "\"base64\":\"*"),
        ),
        (
            "neither",
            format!("{{\"hash\":\"{}\"}}\n{bodies}", "0".repeat(64)),
        ),
    ] {
        assert_ne!(changed, bodies, "{what}");
        add(
            &format!("bodies {what}"),
            "bodies.ndjson",
            changed.as_bytes(),
            &["malformed"],
        );
    }
    both_agree(&cases);
}

/// Text that doesn't shrink much.
fn noise(length: usize) -> String {
    let mut state = 1_u32;
    (0..length)
        .map(|_| {
            state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            char::from(b'a' + (state >> 24) as u8 % 26)
        })
        .collect()
}

#[test]
fn forged_signatures_and_replaced_keys() {
    let one = shop();
    let file = bundle_of(&one);
    let key = other_key();
    let all = members(&file);
    let text = |place: usize| String::from_utf8(all[place].1.clone()).unwrap();
    let swap = |place: usize, bytes: String| {
        let changed: Vec<_> = all
            .iter()
            .enumerate()
            .map(|(n, (name, old))| {
                (
                    name.as_str(),
                    if n == place { bytes.as_bytes() } else { old },
                )
            })
            .collect();
        archive(&changed)
    };
    let (own, others) = (
        one.device_key().public().to_string(),
        key.public().to_string(),
    );
    let (device, other_device) = (one.device().to_string(), key.device().to_string());
    let seal = text(3);
    let last = seal
        .replace("\"signature\":\"0", "\"signature\":\"1")
        .replace("\"}", "0\"}");
    assert_ne!(last, seal);
    let zero = format!(
        "{{\"public_key\":\"{own}\",\"signature\":\"{}\"}}",
        "0".repeat(128)
    );
    let small = format!(
        "{{\"public_key\":\"01{}\",\"signature\":\"01{}\"}}",
        "0".repeat(62),
        "0".repeat(126)
    );
    let records = text(0);
    // Whoever takes another's commits for their own, key, name and all.
    let stolen = records
        .replace(&own, &others)
        .replace(&device, &other_device);
    let renamed = records.replace(&device, &other_device);
    let commits = records
        .lines()
        .filter(|line| line.starts_with("{\"commit\""))
        .count();
    let orphan: String = records.split_inclusive('\n').skip(commits).collect();
    both_agree(&[
        case("signature too long", swap(3, last), &["malformed"]),
        case("signature of nothing", swap(3, zero), &["bad_signature"]),
        case("key of small order", swap(3, small), &["bad_signature"]),
        case(
            "another's key",
            swap(3, seal.replace(&own, &others)),
            &["bad_signature"],
        ),
        case(
            "manifest changed",
            swap(2, text(2).replace("\"records\":6", "\"records\":7")),
            &["bad_signature"],
        ),
        case(
            "commits stolen",
            remade(&file, "records.ndjson", stolen.as_bytes(), &key),
            &["bad_commit_signature"],
        ),
        case(
            "device renamed",
            remade(&file, "records.ndjson", renamed.as_bytes(), &key),
            &["malformed"],
        ),
        case(
            "records without commits",
            remade(&file, "records.ndjson", orphan.as_bytes(), &key),
            &["malformed", "unsigned_record"],
        ),
        case(
            "record changed",
            remade(
                &file,
                "records.ndjson",
                records.replace("\"job\"", "\"joc\"").as_bytes(),
                &key,
            ),
            &["unsigned_record"],
        ),
    ]);
}

/// Free of charge for the sender, but nothing that the reader asked for.
#[test]
fn a_body_that_no_record_has() {
    let file = bundle_of(&shop());
    let bodies = String::from_utf8(members(&file)[1].1.clone()).unwrap();
    let stray = format!(
        "{{\"hash\":\"{}\",\"text\":\"stray\"}}\n",
        blake3::hash(b"stray").to_hex()
    );
    // In place of another, so that the count holds.
    let rest: String = bodies.split_inclusive('\n').skip(1).collect();
    let changed = format!("{stray}{rest}");
    both_agree(&[case(
        "a stray body",
        remade(&file, "bodies.ndjson", changed.as_bytes(), &other_key()),
        &["stray_body"],
    )]);
}

/// `VALVEWRIGHT_WRITE_CORPUS=1 cargo test -p bundle --test all the_corpus` writes these anew.
#[test]
fn the_corpus_of_the_search_begins_with_bundles_that_are_read() {
    let folder =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../tests/fuzz/corpus/read_bundle");
    if std::env::var_os("VALVEWRIGHT_WRITE_CORPUS").is_some() {
        let packed = bundle_of(&shop());
        let all = members(&packed);
        let stored: Vec<_> = all.iter().map(|(n, b)| Entry::stored(n, b)).collect();
        std::fs::write(folder.join("deflated.vvb"), &packed).unwrap();
        std::fs::write(folder.join("stored.vvb"), raw(&stored)).unwrap();
    }
    for name in ["deflated.vvb", "stored.vvb"] {
        let file = std::fs::read(folder.join(name)).unwrap();
        assert_eq!(code(name, &file), None, "{name}");
    }
}
