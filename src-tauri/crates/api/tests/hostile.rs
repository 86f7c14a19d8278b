//! Files made to do harm, as the app meets them: each is refused under a code that has words, and
//! leaves the store as it was and nothing in its folder. `bundle/tests/hostile.rs` has them in
//! full, with the independent reader's answers.

#![allow(
    clippy::unwrap_used,
    clippy::cast_possible_truncation,
    reason = "a test stops at what it did not expect"
)]

use std::collections::BTreeSet;
use std::io::{Cursor, Write};
use std::path::Path;

use crate::common::{Bench, start};
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use serde_json::{Value, json};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

fn zip_of(members: &[(&str, CompressionMethod, &[u8])]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, method, bytes) in members {
        let options = SimpleFileOptions::default().compression_method(*method);
        zip.start_file(*name, options).unwrap();
        zip.write_all(bytes).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

/// A directory of a million records over nothing, with an end that says so many.
fn million(said: u16) -> Vec<u8> {
    let mut out = b"PK\x03\x04\x14\0\0\0\0\0\0\0!\0".to_vec();
    out.extend_from_slice(&[0; 12]);
    out.extend_from_slice(&[1, 0, 0, 0, b'm']);
    let start = out.len();
    let mut entry = b"PK\x01\x02\x14\0\x14\0\0\0\0\0\0\0!\0".to_vec();
    entry.extend_from_slice(&[0; 12]);
    entry.extend_from_slice(&[1, 0]);
    entry.extend_from_slice(&[0; 16]);
    entry.push(b'm');
    for _ in 0..1_000_000 {
        out.extend_from_slice(&entry);
    }
    let length = out.len() - start;
    out.extend_from_slice(b"PK\x05\x06\0\0\0\0");
    out.extend_from_slice(&said.to_le_bytes());
    out.extend_from_slice(&said.to_le_bytes());
    out.extend_from_slice(&(length as u32).to_le_bytes());
    out.extend_from_slice(&(start as u32).to_le_bytes());
    out.extend_from_slice(&[0, 0]);
    out
}

fn digest(bench: &Bench) -> Value {
    bench.ok("store.check", json!({ "quick": false }))["digest"].clone()
}

fn names(folder: &Path) -> BTreeSet<String> {
    std::fs::read_dir(folder)
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect()
}

/// Whether by its path or carried in pieces, for the plan, for looking only or for taking in: the same code.
fn refused(bench: &Bench, bytes: &[u8]) -> String {
    let path = bench.folder.path().join("came.vvb");
    std::fs::write(&path, bytes).unwrap();
    let by_path = bench.ok("file.open", json!({ "path": path }))["file"].clone();
    let carried = bench.ok("file.begin", json!({ "name": "came.vvb" }))["file"].clone();
    for piece in bytes.chunks(2 << 20) {
        let piece = STANDARD.encode(piece);
        bench.ok("file.add", json!({ "file": carried, "base64": piece }));
    }
    let mut codes = BTreeSet::new();
    for file in [&by_path, &carried] {
        for command in ["bundle.look", "look.file", "bundle.take_in"] {
            let error = bench.error(command, json!({ "file": file }));
            codes.insert(error["code"].as_str().unwrap().to_owned());
        }
    }
    for file in [by_path, carried] {
        bench.ok("file.drop", json!({ "file": file }));
    }
    std::fs::remove_file(path).unwrap();
    assert_eq!(codes.len(), 1, "{codes:?}");
    codes.pop_first().unwrap()
}

#[test]
fn bombs_and_a_million_members_are_refused_and_change_nothing() {
    use CompressionMethod::{Deflated, Stored};
    let folder = tempfile::tempdir().unwrap();
    let bench = Bench {
        app: start(folder.path().join("shop.db"), false),
        folder,
    };
    let before = (digest(&bench), names(bench.folder.path()));
    let spaces = vec![b' '; 8 << 20];
    let bomb = zip_of(&[("manifest.json", Deflated, &spaces)]);
    let nested = zip_of(&[(
        "manifest.json",
        Deflated,
        &zip_of(&[("in.zip", Stored, &bomb)]),
    )]);
    let mut lying = bomb.clone();
    for at in 0..lying.len() - 4 {
        if lying[at..at + 4] == (8_u32 << 20).to_le_bytes() {
            lying[at..at + 4].copy_from_slice(&100_u32.to_le_bytes());
        }
    }
    let deep = [b"{\"format\":".to_vec(), vec![b'['; 60_000]].concat();
    let deep = zip_of(&[("manifest.json", Deflated, &deep)]);
    let path = zip_of(&[
        ("../../shop.db", Stored, b"mine now"),
        ("manifest.json", Stored, b"{\"format\":1}"),
    ]);
    let later = zip_of(&[("manifest.json", Stored, b"{\"format\":9}")]);
    for (what, bytes, codes) in [
        ("a bomb", bomb, &["file_too_large"][..]),
        ("a nested one", nested, &["bundle_damaged"]),
        (
            "one that lies",
            lying,
            &["file_too_large", "bundle_damaged"],
        ),
        ("a million members", million(0xffff), &["file_too_large"]),
        (
            "a million, wrapped round",
            million((1_000_000 % 65_536) as u16),
            &["file_too_large"],
        ),
        ("a deep manifest", deep, &["file_too_large"]),
        ("a path", path, &["bundle_damaged"]),
        ("a later format", later, &["bundle_newer"]),
    ] {
        let code = refused(&bench, &bytes);
        assert!(codes.contains(&code.as_str()), "{what}: {code}");
        let now = (digest(&bench), names(bench.folder.path()));
        assert_eq!(now, before, "{what}");
    }
}

/// A file on its way has no name in the store's folder, so that nothing is left of it, sealed or
/// opened, however the program ends.
#[test]
fn nothing_on_its_way_has_a_name() {
    let bench = Bench::with_demo();
    let made = bench.ok(
        "bundle.make",
        json!({ "personal": true, "passphrase": "quiet otter brass" }),
    );
    let piece = bench.ok("file.read", json!({ "file": made["file"], "from": 0 }));
    let folder = tempfile::tempdir().unwrap();
    let other = Bench {
        app: start(folder.path().join("shop.db"), false),
        folder,
    };
    let before = names(other.folder.path());
    let file = other.ok("file.begin", json!({ "name": "shop.vvb" }))["file"].clone();
    other.ok(
        "file.add",
        json!({ "file": file, "base64": piece["base64"] }),
    );
    assert_eq!(names(other.folder.path()), before);
    let opened = json!({ "file": file, "passphrase": "quiet otter brass" });
    assert!(other.ok("file.unseal", opened)["bytes"].as_u64().unwrap() > 10_000);
    assert_eq!(names(other.folder.path()), before);
    other.ok("bundle.look", json!({ "file": file }));
    assert_eq!(names(other.folder.path()), before);
}
