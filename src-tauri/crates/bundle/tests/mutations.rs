//! Many small changes to the files of the kept corpus: whatever comes of it, the reader answers
//! within its caps, and what it takes is what was there.
//!
//! `VALVEWRIGHT_FUZZ_SECONDS=600 cargo test -p bundle --test all mutations::` goes on for that long;
//! what it finds it writes beside the corpus, in `tests/fuzz/found/`. The search that is guided by
//! coverage is in `tests/fuzz/`.
#![allow(
    clippy::unwrap_used,
    clippy::cast_possible_truncation,
    reason = "a test stops at what it did not expect"
)]

use std::collections::BTreeMap;
use std::io::Cursor;
use std::panic::catch_unwind;
use std::path::{Path, PathBuf};
use std::time::{Duration, Instant};

use crate::common::{Entry, looked_as_read, members, other_key, raw, remade};
use bundle::{Limits, Reader, read};

fn folder(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../../tests/fuzz")
        .join(name)
}

/// Steele, Lea and Flood's SplitMix64 (OOPSLA 2014): a seed gives the same changes everywhere.
struct Draw(u64);

impl Draw {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    fn below(&mut self, bound: usize) -> usize {
        (self.next() % bound.max(1) as u64) as usize
    }
}

/// What readers tend to stumble over.
const ODD: [&[u8]; 18] = [
    b"\xff\xff\xff\xff",
    b"\0\0\0\0",
    b"\x7f\xff\xff\xff",
    b"PK\x03\x04",
    b"PK\x05\x06",
    b"PK\x06\x06",
    b"../",
    b"NaN",
    b"1e999",
    b"-0",
    b"18446744073709551616",
    b"[[[[[[[[[[[[[[[[[[[[",
    b"\\ud800",
    b"\xc0\x80",
    b"\n",
    b"\"",
    b"null",
    b"{\"commit\":",
];

fn change(bytes: &mut Vec<u8>, draw: &mut Draw) {
    for _ in 0..=draw.below(4) {
        let at = draw.below(bytes.len());
        let to = (at + draw.below(40)).min(bytes.len());
        match draw.below(7) {
            0 if !bytes.is_empty() => bytes[at] ^= 1 << draw.below(8),
            1 if !bytes.is_empty() => bytes[at] = draw.next() as u8,
            2 => drop(bytes.drain(at..to)),
            3 => {
                let again = bytes[at..to].to_vec();
                let place = draw.below(bytes.len());
                bytes.splice(place..place, again);
            }
            4 => {
                bytes.splice(at..at, ODD[draw.below(ODD.len())].iter().copied());
            }
            5 => {
                let odd = ODD[draw.below(ODD.len())];
                let to = (at + odd.len()).min(bytes.len());
                bytes.splice(at..to, odd.iter().copied());
            }
            _ => bytes.truncate(at),
        }
    }
}

/// A changed file: as it is, or with all around the change made to fit, so that it reaches what
/// lies deeper than checksums and the courier's signature.
fn changed(file: &[u8], draw: &mut Draw) -> Vec<u8> {
    let mut bytes = file.to_vec();
    match draw.below(4) {
        0 => change(&mut bytes, draw),
        1 => {
            let mut parts = members(file);
            let place = draw.below(parts.len());
            change(&mut parts[place].1, draw);
            let entries: Vec<_> = parts.iter().map(|(n, b)| Entry::stored(n, b)).collect();
            bytes = raw(&entries);
            if draw.below(3) == 0 {
                change(&mut bytes, draw);
            }
        }
        _ => {
            let parts = members(file);
            let (name, inner) = &parts[draw.below(3)];
            let mut inner = inner.clone();
            change(&mut inner, draw);
            bytes = remade(file, name, &inner, &other_key());
        }
    }
    bytes
}

#[test]
fn changed_files_are_answered_within_the_caps() {
    let mut corpus = BTreeMap::new();
    for file in std::fs::read_dir(folder("corpus/read_bundle")).unwrap() {
        let path = file.unwrap().path();
        let bytes = std::fs::read(&path).unwrap();
        if read(&bytes).is_ok() {
            corpus.insert(path, bytes);
        }
    }
    let corpus: Vec<_> = corpus.into_values().collect();
    assert!(!corpus.is_empty());
    let limits = Limits {
        member_bytes: 1 << 20,
        total_bytes: 2 << 20,
        ..Limits::default()
    };
    let seconds = std::env::var("VALVEWRIGHT_FUZZ_SECONDS").ok();
    let stop = seconds.map(|s| Instant::now() + Duration::from_secs(s.parse().unwrap()));
    let mut codes: BTreeMap<_, u64> = BTreeMap::new();
    let mut tries = 0_u64;
    while stop.map_or(tries < 6_000, |stop| Instant::now() < stop) {
        let mut draw = Draw(tries);
        let whole = &corpus[draw.below(corpus.len())];
        let file = changed(whole, &mut draw);
        tries += 1;
        let answer = catch_unwind(|| {
            let mut reader = Reader::new(limits);
            let read = reader.read(Cursor::new(&file));
            let counters = reader.counters();
            // Looked at, it is what it is when it is read, but for its signatures.
            let looked = reader.look(Cursor::new(&file));
            let alike = looked_as_read(&read, &looked);
            let looked_bytes = reader.counters().inflated_bytes;
            (
                read.and_then(|read| read.batch()),
                counters,
                alike,
                looked_bytes,
            )
        });
        let fine = answer.is_ok_and(|(read, counters, alike, looked_bytes)| {
            let code = read
                .as_ref()
                .map_or_else(bundle::BundleError::code, |_| "read");
            *codes.entry(code).or_default() += 1;
            let most = limits.total_bytes + (1 << 16);
            let bounded = counters.inflated_bytes <= most && looked_bytes <= most;
            // Who carries it may change, and a courier may leave out: never what was signed.
            let same = read.is_ok_and(|read| {
                let before = bundle::read(whole).unwrap().batch().unwrap();
                let here = before.records();
                read.records().iter().all(|record| here.contains(record))
            });
            bounded && alike && (same || code != "read")
        });
        if !fine {
            let name = folder("found").join(format!("{}.vvb", tries - 1));
            std::fs::create_dir_all(folder("found")).unwrap();
            std::fs::write(&name, &file).unwrap();
            panic!("change {}: see {}", tries - 1, name.display());
        }
    }
    println!("{tries} changed files: {codes:?}");
    // The changes reach every part of the reader, or they'd prove little.
    for code in [
        "read",
        "not_a_bundle",
        "truncated",
        "changed",
        "malformed",
        "bad_signature",
        "too_large",
        "missing_member",
        "unexpected_member",
        "bad_commit_signature",
        "unsigned_record",
    ] {
        assert!(codes.contains_key(code), "never {code}: {codes:?}");
    }
}
