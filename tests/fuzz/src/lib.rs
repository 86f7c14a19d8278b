//! How files are changed in the search: as a hostile program would that has a key of its own.
//!
//! A change at random rarely gets past the checksums of the archive, and never past a hash or a
//! signature. So most changes are made inside a member, to a line or to one value of it, and what
//! stands around it is made to fit: the archive alone, the manifest and the courier's signature as
//! well, or all down to the hashes of bodies and the signatures of commits.

mod change;
mod fit;

use std::io::{Cursor, Read, Write};

use bundle::Limits;
use libfuzzer_sys::fuzzer_mutate;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

/// Caps so low that a search meets them.
pub fn limits() -> Limits {
    Limits {
        member_bytes: 1 << 20,
        total_bytes: 2 << 20,
        ..Limits::default()
    }
}

/// Larger files are only changed blindly.
const MOST_BYTES: u64 = 1 << 20;
const MOST_MEMBERS: usize = 40;

/// One member of an archive, inflated.
#[derive(Clone)]
struct Member {
    name: String,
    bytes: Vec<u8>,
}

/// Steele, Lea and Flood's SplitMix64 (OOPSLA 2014), so that a seed says the change.
struct Draw(u64);

impl Draw {
    fn below(&mut self, bound: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let z = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) % bound.max(1) as u64) as usize
    }
}

/// Changes the first `size` bytes of `data` to at most `most`, and returns how many they are now.
pub fn mutate(data: &mut [u8], size: usize, most: usize, seed: u32) -> usize {
    let mut draw = Draw(u64::from(seed));
    let forged = (draw.below(8) > 0)
        .then(|| members(&data[..size]))
        .flatten()
        .and_then(|members| forged(members, &mut draw));
    match forged {
        Some(file) if file.len() <= most => {
            data[..file.len()].copy_from_slice(&file);
            file.len()
        }
        _ => fuzzer_mutate(data, size, most),
    }
}

fn forged(mut members: Vec<Member>, draw: &mut Draw) -> Option<Vec<u8>> {
    for _ in 0..=draw.below(3) {
        change::some(&mut members, draw);
    }
    let depth = draw.below(8);
    if depth > 3 {
        fit::authors(&mut members);
    }
    if depth > 1 {
        fit::courier(&mut members);
    }
    archive(&members, draw.below(4) == 0)
}

/// What an archive holds, if it is one.
fn members(file: &[u8]) -> Option<Vec<Member>> {
    let mut zip = ZipArchive::new(Cursor::new(file)).ok()?;
    if zip.len() > MOST_MEMBERS {
        return None;
    }
    let mut room = MOST_BYTES;
    let mut found = Vec::new();
    for place in 0..zip.len() {
        let member = zip.by_index(place).ok()?;
        let name = String::from_utf8(member.name_raw().to_vec()).ok()?;
        let mut bytes = Vec::new();
        member.take(room).read_to_end(&mut bytes).ok()?;
        room -= bytes.len() as u64;
        found.push(Member { name, bytes });
    }
    Some(found)
}

fn archive(members: &[Member], deflated: bool) -> Option<Vec<u8>> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    let method = if deflated {
        CompressionMethod::Deflated
    } else {
        CompressionMethod::Stored
    };
    let options = SimpleFileOptions::default().compression_method(method);
    for member in members {
        zip.start_file(&*member.name, options).ok()?;
        zip.write_all(&member.bytes).ok()?;
    }
    Some(zip.finish().ok()?.into_inner())
}

/// Changes a text as libFuzzer does, which knows by now what the reader compares with.
fn blindly(bytes: &mut Vec<u8>) {
    let size = bytes.len();
    let most = size + size / 4 + 64;
    bytes.resize(most, 0);
    let size = fuzzer_mutate(bytes, size, most);
    bytes.truncate(size);
}
