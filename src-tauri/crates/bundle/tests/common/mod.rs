//! A small shop, its bundles, and archives as any program could make them.
#![allow(
    dead_code,
    clippy::unwrap_used,
    clippy::cast_possible_truncation,
    reason = "each test file takes what it needs, and stops at what it did not expect"
)]

use std::io::{Cursor, Read, Seek, Write};
use std::path::Path;
use std::process::Command;
use std::sync::Arc;

use bundle::{BundleError, Checked, Counters, Limits, Looked, Origin, Reader, SIGNATURE, write};
use journal::{CheckedBatch, DeviceKey, FoldRule, Kind, PersonId, SubjectId, WallTime};
use serde_json::Value;
use store::{NewRecord, Place, Projector, Selection, Setup, StandingRecord, Store};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

pub const JOB: Kind = Kind::literal("job");
pub const OWNER: Kind = Kind::literal("owner");

pub struct Shop;

impl Projector for Shop {
    fn version(&self) -> u32 {
        1
    }

    fn rule(&self, kind: &Kind) -> Option<FoldRule> {
        [JOB, OWNER].contains(kind).then_some(FoldRule::Register)
    }

    fn reads(&self, kind: &Kind, _: u32) -> bool {
        self.rule(kind).is_some()
    }

    fn place(&self, _: SubjectId, _: &[StandingRecord<'_>]) -> Place {
        Place::default()
    }
}

pub fn store() -> Store {
    Store::open_in_memory(Setup::new(Arc::new(Shop))).unwrap()
}

pub fn at(ms: i64) -> WallTime {
    WallTime::from_unix_ms(1_790_000_000_000 + ms)
}

pub fn ines() -> PersonId {
    PersonId::from_bytes([1; 16])
}

pub fn put(store: &mut Store, subject: u8, kind: Kind, body: &[u8]) -> SubjectId {
    let subject = SubjectId::from_bytes([subject; 16]);
    let record = NewRecord {
        subject,
        personal: kind == OWNER,
        supersedes: store.heads(subject, &kind).unwrap(),
        kind,
        kind_version: 1,
        body: body.to_vec(),
    };
    store.append(vec![record], ines(), at(0)).unwrap();
    subject
}

/// A store with three jobs, an edit, an undo, an owner, text of all sorts and bytes that are no
/// text.
pub fn shop() -> Store {
    let mut store = store();
    put(&mut store, 1, JOB, br#"{"complaint":"harsh when hot"}"#);
    put(
        &mut store,
        1,
        JOB,
        "{\"complaint\":\"<b>härt</b> \u{0} \u{202e} \\ \\\" \n\"}".as_bytes(),
    );
    put(&mut store, 2, JOB, &[0xff, 0, 0xfe]);
    put(&mut store, 2, OWNER, br#"{"phone":"555 0100"}"#);
    put(&mut store, 3, JOB, b"");
    store.undo(ines(), at(1)).unwrap().unwrap();
    store
}

pub fn everything(store: &Store, personal: bool) -> CheckedBatch {
    store
        .export(&Selection::Everything, personal)
        .unwrap()
        .check()
        .unwrap()
}

pub fn pack(batch: &CheckedBatch, key: &DeviceKey) -> Vec<u8> {
    let mut out = Cursor::new(Vec::new());
    write(
        &mut out,
        batch,
        &Origin {
            author: ines(),
            key,
            created: at(5),
        },
    )
    .unwrap();
    out.into_inner()
}

pub fn bundle_of(store: &Store) -> Vec<u8> {
    pack(&everything(store, true), store.device_key())
}

/// An archive of these members, as any program could make it.
pub fn archive(members: &[(&str, &[u8])]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default().compression_method(CompressionMethod::Deflated);
    for (name, bytes) in members {
        zip.start_file(*name, options).unwrap();
        zip.write_all(bytes).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

/// The members of a bundle, by an independent look.
pub fn members(file: &[u8]) -> Vec<(String, Vec<u8>)> {
    let mut zip = zip::ZipArchive::new(Cursor::new(file)).unwrap();
    (0..zip.len())
        .map(|place| {
            let mut member = zip.by_index(place).unwrap();
            let mut bytes = Vec::new();
            std::io::copy(&mut member, &mut bytes).unwrap();
            (
                String::from_utf8(member.name_raw().to_vec()).unwrap(),
                bytes,
            )
        })
        .collect()
}

/// A bundle whose member is replaced, with manifest and signature made to fit by the courier:
/// what a hostile program with a key of its own can make.
pub fn remade(file: &[u8], name: &str, bytes: &[u8], key: &DeviceKey) -> Vec<u8> {
    let mut members = members(file);
    members
        .iter_mut()
        .find(|(member, _)| member == name)
        .unwrap()
        .1 = bytes.to_vec();
    let find = |name: &str| members.iter().find(|(n, _)| n == name).unwrap().1.clone();
    let manifest = if name == "manifest.json" {
        bytes.to_vec()
    } else {
        let mut manifest: serde_json::Value =
            serde_json::from_slice(&find("manifest.json")).unwrap();
        manifest["members"][name]["blake3"] = blake3::hash(bytes).to_hex().to_string().into();
        manifest["members"][name]["bytes"] = bytes.len().into();
        manifest["device"] = key.device().to_string().into();
        serde_json::to_vec(&manifest).unwrap()
    };
    let signature = key.sign(&[b"valvewright bundle 1\n", &manifest[..]].concat());
    let seal = format!(
        r#"{{"public_key":"{}","signature":"{signature}"}}"#,
        key.public()
    );
    archive(&[
        ("records.ndjson", &find("records.ndjson")),
        ("bodies.ndjson", &find("bodies.ndjson")),
        ("manifest.json", &manifest),
        ("signature.json", seal.as_bytes()),
    ])
}

pub fn other_key() -> DeviceKey {
    DeviceKey::from_secret(&[5; 32])
}

/// One member, with whatever its headers claim.
#[derive(Clone)]
pub struct Entry<'a> {
    pub name: &'a str,
    pub packed: Vec<u8>,
    pub method: u16,
    pub size: usize,
    pub packed_size: usize,
    pub crc: u32,
    /// Where its header stands, if another's is to serve for it.
    pub at: Option<usize>,
    pub flags: u16,
}

impl<'a> Entry<'a> {
    /// An honest one, not packed.
    pub fn stored(name: &'a str, bytes: &[u8]) -> Self {
        let mut crc = flate2::Crc::new();
        crc.update(bytes);
        Self {
            name,
            packed: bytes.to_vec(),
            method: 0,
            size: bytes.len(),
            packed_size: bytes.len(),
            crc: crc.sum(),
            at: None,
            flags: 0,
        }
    }

    /// What its own header and the directory have in common (APPNOTE 4.3.7 and 4.3.12).
    fn common(&self) -> Vec<u8> {
        let mut out = Vec::new();
        for short in [20, self.flags, self.method, 0, 33] {
            out.extend_from_slice(&short.to_le_bytes());
        }
        for long in [self.crc, self.packed_size as u32, self.size as u32] {
            out.extend_from_slice(&long.to_le_bytes());
        }
        out.extend_from_slice(&(self.name.len() as u16).to_le_bytes());
        out.extend_from_slice(&[0, 0]);
        out
    }
}

/// An archive written by hand, true or not.
pub fn raw(entries: &[Entry<'_>]) -> Vec<u8> {
    let (mut out, mut directory) = (Vec::new(), Vec::new());
    for entry in entries {
        let at = entry.at.unwrap_or(out.len());
        if at == out.len() {
            out.extend_from_slice(b"PK\x03\x04");
            out.extend_from_slice(&entry.common());
            out.extend_from_slice(entry.name.as_bytes());
            out.extend_from_slice(&entry.packed);
        }
        directory.extend_from_slice(b"PK\x01\x02\x14\0");
        directory.extend_from_slice(&entry.common());
        directory.extend_from_slice(&[0; 10]);
        directory.extend_from_slice(&(at as u32).to_le_bytes());
        directory.extend_from_slice(entry.name.as_bytes());
    }
    let (count, start) = ((entries.len() as u16).to_le_bytes(), out.len() as u32);
    out.extend_from_slice(&directory);
    out.extend_from_slice(b"PK\x05\x06\0\0\0\0");
    out.extend_from_slice(&count);
    out.extend_from_slice(&count);
    out.extend_from_slice(&(directory.len() as u32).to_le_bytes());
    out.extend_from_slice(&start.to_le_bytes());
    out.extend_from_slice(&[0, 0]);
    out
}

/// A file and the codes by which the two readers may refuse it; none: it is good.
pub struct Case {
    name: String,
    file: Vec<u8>,
    codes: &'static [&'static str],
}

pub fn case(name: impl Into<String>, file: Vec<u8>, codes: &'static [&'static str]) -> Case {
    Case {
        name: name.into(),
        file,
        codes,
    }
}

/// Reads within the default limits, with the counters held against them. What one chunk may go
/// beyond a limit before it is seen is 64 KiB.
pub fn code(name: &str, file: &[u8]) -> Option<&'static str> {
    let limits = Limits::default();
    let mut reader = Reader::new(limits);
    let held = |counters: Counters| {
        assert!(
            counters.inflated_bytes
                <= limits
                    .total_bytes
                    .min(file.len() as u64 * limits.ratio + (4 << 16)),
            "{name}: {counters:?}"
        );
        assert!(counters.members <= 0xffff, "{name}: {counters:?}");
        assert!(counters.inflated_bytes == 0 || counters.members <= limits.members);
    };
    let read = reader.read(Cursor::new(file));
    held(reader.counters());
    let looked = reader.look(Cursor::new(file));
    held(reader.counters());
    assert!(looked_as_read(&read, &looked), "{name}: {looked:?}");
    read.err().map(|error| error.code())
}

/// Whether looking at a file says of it what reading it says, but for its signatures: what is
/// refused for one of these, and nothing else, may be looked at, and is told then.
pub fn looked_as_read<R: Read + Seek>(
    read: &Result<Checked<R>, BundleError>,
    looked: &Result<Looked<R>, BundleError>,
) -> bool {
    let of_signature = |error: &BundleError| {
        let codes = ["bad_signature", "bad_commit_signature", "unsigned_record"];
        codes.contains(&error.code())
            || matches!(error, BundleError::Missing(member) if *member == SIGNATURE)
    };
    match (read, looked) {
        (Ok(_), Ok(looked)) => looked.signatures().hold(),
        (Ok(_), Err(_)) => false,
        (Err(error), Ok(looked)) => of_signature(error) && !looked.signatures().hold(),
        (Err(error), Err(other)) => error.code() == other.code() || of_signature(error),
    }
}

/// What the reader in Python says of each file.
pub fn answers_of_the_other<'a>(files: impl IntoIterator<Item = &'a Vec<u8>>) -> Vec<Value> {
    let folder = tempfile::tempdir().unwrap();
    let paths: Vec<_> = files
        .into_iter()
        .enumerate()
        .map(|(number, file)| {
            let path = folder.path().join(format!("{number}.vvb"));
            std::fs::write(&path, file).unwrap();
            path
        })
        .collect();
    let script =
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../../../tests/bundles/read_bundle.py");
    let output = Command::new("python3")
        .arg(script)
        .arg("--json")
        .args(&paths)
        .output()
        .unwrap();
    let said = String::from_utf8(output.stdout).unwrap();
    let answers: Vec<_> = said
        .lines()
        .map(|line| serde_json::from_str(line).unwrap())
        .collect();
    assert_eq!(
        answers.len(),
        paths.len(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    answers
}

/// Compares what both readers say of the cases.
pub fn both_agree(cases: &[Case]) {
    for case in cases {
        match code(&case.name, &case.file) {
            None => assert!(case.codes.is_empty(), "{} was read", case.name),
            Some(found) => assert!(case.codes.contains(&found), "{}: {found}", case.name),
        }
    }
    let answers = answers_of_the_other(cases.iter().map(|case| &case.file));
    for (case, answer) in cases.iter().zip(answers) {
        match answer["code"].as_str() {
            None => assert!(case.codes.is_empty(), "the other reader took {}", case.name),
            Some(found) => assert!(
                case.codes.contains(&found),
                "the other reader says of {}: {answer}",
                case.name
            ),
        }
    }
}
