//! Attachments: carried with the records that name them, and refused when anything about them is
//! off, by this reader and by the independent one in `tests/bundles`.

use std::collections::BTreeMap;
use std::io::{self, Cursor, Read};

use crate::common::{
    Entry, JOB, at, both_agree, bundle_of, case, everything, ines, members, other_key, put, raw,
    shop, store,
};
use bundle::{
    AttachmentHash, AttachmentSink, AttachmentSource, BundleError, Limits, NoAttachments, Origin,
    Reader, read, write, write_with,
};
use journal::CheckedBatch;
use serde_json::json;

fn hash(bytes: &[u8]) -> AttachmentHash {
    *blake3::hash(bytes).as_bytes()
}

fn hex(bytes: &[u8]) -> String {
    blake3::hash(bytes).to_hex().to_string()
}

/// A folder of attachments, in memory.
#[derive(Default)]
struct Folder(BTreeMap<AttachmentHash, Vec<u8>>);

impl AttachmentSource for Folder {
    fn length(&mut self, hash: &AttachmentHash) -> io::Result<Option<u64>> {
        Ok(self.0.get(hash).map(|bytes| bytes.len() as u64))
    }

    fn open(&mut self, hash: &AttachmentHash) -> io::Result<Box<dyn Read + '_>> {
        Ok(Box::new(&self.0[hash][..]))
    }
}

impl AttachmentSink for Folder {
    fn put(&mut self, hash: &AttachmentHash, _: u64, content: &mut dyn Read) -> io::Result<()> {
        let mut bytes = Vec::new();
        content.read_to_end(&mut bytes)?;
        self.0.insert(*hash, bytes);
        Ok(())
    }
}

const PHOTO: &[u8] = b"\xff\xd8 a bore, worn \xff\xd9";
const THUMB: &[u8] = b"\xff\xd8 a bore \xff\xd9";

/// A shop of which one body names two attachments, and another one that isn't here.
fn worded() -> (CheckedBatch, Folder) {
    let mut one = shop();
    let body = json!({ "photo": hex(PHOTO), "small": [hex(THUMB)], "gone": hex(b"gone") });
    put(&mut one, 4, JOB, body.to_string().as_bytes());
    let all = [PHOTO, THUMB, b"named by nobody"];
    let folder = Folder(all.map(|bytes| (hash(bytes), bytes.to_vec())).into());
    (everything(&one, true), folder)
}

fn pack(batch: &CheckedBatch, from: &mut dyn AttachmentSource) -> Vec<u8> {
    let mut out = Cursor::new(Vec::new());
    let origin = Origin {
        author: ines(),
        key: &other_key(),
        created: at(5),
    };
    write_with(&mut out, batch, from, &origin).unwrap();
    out.into_inner()
}

#[test]
fn what_a_record_names_goes_along_and_nothing_else() {
    let (batch, mut folder) = worded();
    let file = pack(&batch, &mut folder);
    assert!(file == pack(&batch, &mut folder), "the same again");
    let names: Vec<_> = members(&file).into_iter().map(|(name, _)| name).collect();
    let mut attached = [hex(PHOTO), hex(THUMB)].map(|hex| format!("attachments/{hex}"));
    attached.sort();
    assert_eq!(names[2..4], attached);

    let checked = read(&file).unwrap();
    assert_eq!(checked.manifest().format, 2);
    assert_eq!(checked.batch().unwrap(), batch);
    let mut there = Folder::default();
    checked.hand_over(&mut there).unwrap();
    let kept: Vec<_> = there.0.values().map(Vec::as_slice).collect();
    assert_eq!(kept.len(), 2);
    assert!(kept.contains(&PHOTO) && kept.contains(&THUMB));
    both_agree(&[case("with attachments", file, &[])]);
}

#[test]
fn without_attachments_it_is_of_version_1_and_older_readers_take_it() {
    let (batch, _) = worded();
    let file = pack(&batch, &mut NoAttachments);
    assert_eq!(read(&file).unwrap().manifest().format, 1);
    let mut again = Cursor::new(Vec::new());
    let origin = Origin {
        author: ines(),
        key: &other_key(),
        created: at(5),
    };
    write(&mut again, &batch, &origin).unwrap();
    assert!(file == again.into_inner());
}

#[test]
fn what_only_a_withheld_body_names_is_withheld() {
    let mut one = store();
    let body = json!({ "photo": hex(PHOTO) }).to_string();
    put(&mut one, 1, crate::common::OWNER, body.as_bytes());
    let mut folder = Folder([(hash(PHOTO), PHOTO.to_vec())].into());
    let whole = pack(&everything(&one, true), &mut folder);
    assert_eq!(read(&whole).unwrap().attachments().len(), 1);
    let less = pack(&everything(&one, false), &mut folder);
    assert!(read(&less).unwrap().attachments().is_empty());
}

#[test]
fn an_attachment_that_is_not_what_it_is_called_is_not_written() {
    let (batch, mut folder) = worded();
    folder.0.insert(hash(PHOTO), b"another picture".to_vec());
    let origin = Origin {
        author: ines(),
        key: &other_key(),
        created: at(5),
    };
    let refused = write_with(Cursor::new(Vec::new()), &batch, &mut folder, &origin).unwrap_err();
    assert_eq!(refused.code(), "changed");
}

/// A sink that keeps what it is given as it comes, as a careless one might.
struct Careless(usize, u64);

impl AttachmentSink for Careless {
    fn put(&mut self, _: &AttachmentHash, _: u64, content: &mut dyn Read) -> io::Result<()> {
        self.0 += 1;
        let mut some = vec![0; usize::try_from(self.1).unwrap()];
        content.read_exact(&mut some)
    }
}

/// A file that is another one when it is read again.
struct Turning {
    one: Cursor<Vec<u8>>,
    other: Vec<u8>,
    turned: std::rc::Rc<std::cell::Cell<bool>>,
}

impl Read for Turning {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        if self.turned.get() {
            let at = self.one.position();
            self.one = Cursor::new(self.other.clone());
            self.one.set_position(at);
        }
        self.one.read(buffer)
    }
}

impl io::Seek for Turning {
    fn seek(&mut self, to: io::SeekFrom) -> io::Result<u64> {
        self.one.seek(to)
    }
}

#[test]
fn a_file_that_changes_after_it_was_checked_brings_nothing() {
    let (batch, mut folder) = worded();
    let file = pack(&batch, &mut folder);
    let all = members(&file);
    let stored: Vec<_> = all.iter().map(|(n, b)| Entry::stored(n, b)).collect();
    let one = raw(&stored);
    // One byte of a member, with a checksum that fits: another number in a record, a letter in a
    // body, a byte of a photo.
    for (name, from, to) in [
        (
            "records.ndjson",
            &b"\"kind_version\":1"[..],
            &b"\"kind_version\":2"[..],
        ),
        ("bodies.ndjson", b"harsh", b"harch"),
        (&format!("attachments/{}", hex(PHOTO)), b"worn", b"torn"),
    ] {
        let changed: Vec<_> = all
            .iter()
            .map(|(n, b)| {
                let mut bytes = b.clone();
                if n == name {
                    let at = bytes.windows(from.len()).position(|it| it == from).unwrap();
                    bytes[at..at + to.len()].copy_from_slice(to);
                }
                Entry::stored(n, &bytes)
            })
            .collect();
        let turned = std::rc::Rc::new(std::cell::Cell::new(false));
        let file = Turning {
            one: Cursor::new(one.clone()),
            other: raw(&changed),
            turned: turned.clone(),
        };
        let checked = Reader::default().read(file).unwrap();
        turned.set(true);
        let mut two = store();
        let before = two.digest().unwrap();
        let handed = checked.hand_over(&mut Careless(0, 5));
        let applied = bundle::apply(&mut two, &checked).map(drop);
        // What the library finds first may be its checksum or our hash.
        let code = if name.starts_with("attachments") {
            assert!(applied.is_ok());
            handed.unwrap_err().code()
        } else {
            assert_eq!(two.digest().unwrap(), before, "{name}");
            applied.unwrap_err().code()
        };
        assert!(["changed", "malformed"].contains(&code), "{name}: {code}");
    }
}

/// A bundle with these members, whose manifest says of them what `listed` makes of the truth, and
/// whose courier signed that.
fn told(
    file: &[u8],
    change: impl FnOnce(&mut Vec<(String, Vec<u8>)>),
    listed: impl FnOnce(&mut serde_json::Value),
) -> Vec<u8> {
    let key = other_key();
    let mut all = members(file);
    let mut manifest: serde_json::Value = serde_json::from_slice(&all[all.len() - 2].1).unwrap();
    all.truncate(all.len() - 2);
    change(&mut all);
    listed(&mut manifest);
    manifest["device"] = key.device().to_string().into();
    let manifest = serde_json::to_vec(&manifest).unwrap();
    let signature = key.sign(&[b"valvewright bundle 1\n", &manifest[..]].concat());
    let seal = format!(
        r#"{{"public_key":"{}","signature":"{signature}"}}"#,
        key.public()
    );
    all.push(("manifest.json".into(), manifest));
    all.push(("signature.json".into(), seal.into_bytes()));
    let entries: Vec<_> = all.iter().map(|(n, b)| Entry::stored(n, b)).collect();
    raw(&entries)
}

#[test]
fn attachments_that_lie_are_refused() {
    let (batch, mut folder) = worded();
    let file = pack(&batch, &mut folder);
    let name = |bytes: &[u8]| format!("attachments/{}", hex(bytes));
    let photo = name(PHOTO);
    let info = |bytes: &[u8]| json!({ "blake3": hex(bytes), "bytes": bytes.len() });
    let stranger: &[u8] = b"named by nobody";
    let keep = |_: &mut Vec<(String, Vec<u8>)>| {};
    let set = |all: &mut Vec<(String, Vec<u8>)>, name: &str, bytes: &[u8]| {
        all.iter_mut().find(|(n, _)| n == name).unwrap().1 = bytes.to_vec();
    };
    let add = |name: String, bytes: &'static [u8]| {
        move |all: &mut Vec<(String, Vec<u8>)>| all.push((name, bytes.to_vec()))
    };
    let list = |name: String, info: serde_json::Value| {
        move |manifest: &mut serde_json::Value| manifest["members"][name] = info
    };
    let odd = |name: &str| {
        told(
            &file,
            add(name.into(), PHOTO),
            list(name.into(), info(PHOTO)),
        )
    };
    let upper = format!("attachments/{}", hex(PHOTO).to_uppercase());
    let mut deflated = members(&file);
    deflated.retain(|(name, _)| name != "none");
    let parts: Vec<_> = deflated.iter().map(|(n, b)| (n.as_str(), &b[..])).collect();
    both_agree(&[
        case("told anew", told(&file, keep, |_| ()), &[]),
        case(
            "other bytes",
            told(
                &file,
                |all| set(all, &photo, b"\xff\xd8 a bore, torn \xff\xd9"),
                |_| (),
            ),
            &["changed"],
        ),
        case(
            "longer than listed",
            told(
                &file,
                |all| set(all, &photo, &[PHOTO, b"!"].concat()),
                |_| (),
            ),
            &["changed"],
        ),
        case(
            "shorter than listed",
            told(&file, |all| set(all, &photo, b"\xff"), |_| ()),
            &["changed"],
        ),
        case(
            "listed at 17 MiB",
            told(&file, keep, |it| {
                it["members"][&photo]["bytes"] = (17 << 20).into()
            }),
            &["too_large"],
        ),
        case(
            "listed under another's hash",
            told(&file, keep, |it| {
                it["members"][&photo]["blake3"] = hex(THUMB).into()
            }),
            &["malformed"],
        ),
        case(
            "another's bytes under a hash",
            told(
                &file,
                |all| set(all, &photo, THUMB),
                |it| {
                    it["members"][&photo]["bytes"] = THUMB.len().into();
                },
            ),
            &["changed"],
        ),
        case(
            "listed and missing",
            told(&file, |all| all.retain(|(n, _)| *n != photo), |_| ()),
            &["missing_member"],
        ),
        case(
            "not listed",
            told(&file, add(name(stranger), stranger), |_| ()),
            &["unexpected_member"],
        ),
        case(
            "named by no record",
            told(
                &file,
                add(name(stranger), stranger),
                list(name(stranger), info(stranger)),
            ),
            &["stray_attachment"],
        ),
        case(
            "in version 1",
            told(&file, keep, |it| it["format"] = 1.into()),
            &["unexpected_member"],
        ),
        case("a path", odd("attachments/../../shop.db"), &["malformed"]),
        case("an absolute path", odd("/etc/shop.db"), &["malformed"]),
        case("in capitals", odd(&upper), &["malformed"]),
        case(
            "one folder deeper",
            odd(&format!("attachments/a/{}", hex(PHOTO))),
            &["malformed"],
        ),
        case(
            "with an ending",
            odd(&format!("{photo}.jpg")),
            &["malformed"],
        ),
        case(
            "deflated",
            crate::common::archive(&parts),
            &["unexpected_member"],
        ),
    ]);
}

#[test]
fn thousands_of_them_are_told_by_the_first_that_nobody_named() {
    let mut one = store();
    let photos: Vec<Vec<u8>> = (0..3000_u32).map(|n| n.to_le_bytes().to_vec()).collect();
    let named: Vec<_> = photos.iter().map(|bytes| hex(bytes)).collect();
    put(
        &mut one,
        1,
        JOB,
        json!({ "photos": named }).to_string().as_bytes(),
    );
    let mut folder = Folder(photos.iter().map(|it| (hash(it), it.clone())).collect());
    let file = pack(&everything(&one, true), &mut folder);
    let mut reader = Reader::default();
    assert_eq!(
        reader.read(Cursor::new(&file)).unwrap().attachments().len(),
        3000
    );
    assert_eq!(reader.counters().members, 3004);

    // Not named any more: none of their bytes is looked at.
    let mut empty = store();
    put(&mut empty, 1, JOB, b"{}");
    let bare = bundle_of(&empty);
    let rest = members(&bare);
    let stray = told(
        &file,
        |all| {
            all[0] = rest[0].clone();
            all[1] = rest[1].clone();
        },
        |manifest| {
            for (name, bytes) in &rest[..2] {
                manifest["members"][name] = json!({ "blake3": hex(bytes), "bytes": bytes.len() });
            }
        },
    );
    let refused = reader.read(Cursor::new(&stray)).unwrap_err();
    assert!(
        matches!(refused, BundleError::StrayAttachment(_)),
        "{refused}"
    );
    let limits = Limits::default();
    assert!(reader.counters().members <= limits.members);
    let of_lines: usize = rest[..2].iter().map(|(_, bytes)| bytes.len()).sum();
    let inflated = reader.counters().inflated_bytes;
    assert!(inflated < of_lines as u64 + (2 << 20), "{inflated}");
}
