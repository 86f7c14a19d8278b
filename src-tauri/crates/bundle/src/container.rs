//! The zip archive as hostile input: members by name, within limits, never as a whole in memory.

use std::collections::BTreeMap;
use std::io::{self, Read, Seek, SeekFrom};

use zip::result::ZipError;
use zip::{CompressionMethod, ZipArchive};

use crate::error::{Bound, BundleError};
use crate::limits::{Counters, Limits, within};
use crate::manifest::{ATTACHMENTS, MemberInfo};
use crate::seal::is_sealed;

const FIRST_HEADER: &[u8] = b"PK\x03\x04";
const END_RECORD: &[u8] = b"PK\x05\x06";
const END_LENGTH: usize = 22;
/// What a zip64 archive has right before its end record (APPNOTE 4.3.15).
const ZIP64_LOCATOR: &[u8] = b"PK\x06\x07";
const LOCATOR_LENGTH: usize = 20;

/// An archive whose directory has been looked at; nothing is inflated yet.
#[derive(Debug)]
pub(crate) struct Container<R> {
    archive: ZipArchive<R>,
    places: BTreeMap<String, usize>,
}

/// What the system says of a file is passed on; what is wrong with its content is told by name.
fn told(error: io::Error, name: &str) -> BundleError {
    if error.raw_os_error().is_some() {
        BundleError::Io(error)
    } else {
        BundleError::Changed(name.into())
    }
}

fn zip_told(error: ZipError, name: &str) -> BundleError {
    match error {
        ZipError::Io(error) => told(error, name),
        _ => BundleError::Changed(name.into()),
    }
}

/// Fills as much of the buffer as there is.
fn fill(file: &mut impl Read, buffer: &mut [u8]) -> io::Result<usize> {
    let mut filled = 0;
    while filled < buffer.len() {
        match file.read(&mut buffer[filled..])? {
            0 => break,
            read => filled += read,
        }
    }
    Ok(filled)
}

/// The end record (APPNOTE 4.3.16), by our own eyes: how many members, before a library makes
/// room for them. It must be the last thing in the file and agree with itself.
fn members_claimed<R: Read + Seek>(file: &mut R, limits: &Limits) -> Result<u64, BundleError> {
    let length = file.seek(SeekFrom::End(0))?;
    within(length, limits.file_bytes, Bound::File)?;
    file.rewind()?;
    let mut start = [0; 32];
    let read = fill(file, &mut start)?;
    if is_sealed(&start[..read]) {
        return Err(BundleError::Sealed);
    }
    if !start[..read].starts_with(FIRST_HEADER) {
        return Err(BundleError::NotABundle);
    }
    let mut tail = [0; LOCATOR_LENGTH + END_LENGTH];
    let from = length.saturating_sub(tail.len() as u64);
    file.seek(SeekFrom::Start(from))?;
    let read = fill(file, &mut tail)?;
    let tail = &tail[..read];
    let end_at = read.checked_sub(END_LENGTH).ok_or(BundleError::Truncated)?;
    let (before, end) = tail.split_at(end_at);
    if !end.starts_with(END_RECORD) {
        return Err(BundleError::Truncated);
    }
    let short = |at: usize| u64::from(end[at]) | u64::from(end[at + 1]) << 8;
    let long = |at: usize| short(at) | short(at + 2) << 16;
    let (this_disk, all_disks, directory, start) = (short(8), short(10), long(12), long(16));
    let zip64 = before.starts_with(ZIP64_LOCATOR);
    if zip64 || all_disks == 0xffff || start == 0xffff_ffff || directory == 0xffff_ffff {
        // What would need zip64 is beyond our limits anyway.
        return Err(BundleError::TooLarge(Bound::Members));
    }
    if this_disk != all_disks || start + directory != from + end_at as u64 || short(20) != 0 {
        return Err(BundleError::Changed("directory".into()));
    }
    within(directory, limits.directory_bytes, Bound::Directory)?;
    Ok(all_disks)
}

impl<R: Read + Seek> Container<R> {
    pub fn open(
        mut file: R,
        limits: &Limits,
        counters: &mut Counters,
    ) -> Result<Self, BundleError> {
        counters.members = members_claimed(&mut file, limits)?;
        within(counters.members, limits.members, Bound::Members)?;
        let broken = |error| zip_told(error, "directory");
        let mut archive = ZipArchive::new(file).map_err(broken)?;
        if archive.has_duplicate_names() || archive.len() as u64 != counters.members {
            return Err(BundleError::Unexpected(
                "a member that is there twice".into(),
            ));
        }
        if archive.has_overlapping_entries().map_err(broken)? {
            return Err(BundleError::Unexpected(
                "a member that overlaps another".into(),
            ));
        }
        let mut places = BTreeMap::new();
        let mut total = 0_u64;
        for place in 0..archive.len() {
            let member = archive.by_index_raw(place).map_err(broken)?;
            // Shown to people, so neither long nor with control characters in it.
            let name = String::from_utf8_lossy(member.name_raw());
            let attachment = name.starts_with(ATTACHMENTS);
            let plain = !member.encrypted()
                && match member.compression() {
                    CompressionMethod::Stored => true,
                    CompressionMethod::Deflated => !attachment,
                    _ => false,
                };
            if !plain || member.is_dir() || name.len() > 255 || name.contains('\u{fffd}') {
                return Err(BundleError::Unexpected(shown(&name)));
            }
            let most = if attachment {
                limits.attachment_bytes
            } else {
                limits.member_bytes
            };
            within(member.size(), most, Bound::Member)?;
            total = total.saturating_add(member.size());
            within(total, limits.total_bytes, Bound::Total)?;
            within(
                member.size(),
                allowed_growth(member.compressed_size(), limits),
                Bound::Ratio,
            )?;
            places.insert(name.into_owned(), place);
        }
        Ok(Self { archive, places })
    }

    /// The names of the members.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.places.keys().map(String::as_str)
    }

    pub fn has(&self, name: &str) -> bool {
        self.places.contains_key(name)
    }

    /// Inflates a member and hands it on piece by piece. The sizes in the directory were only
    /// claims, so all is counted again.
    pub fn pass(
        &mut self,
        name: &str,
        most: u64,
        limits: &Limits,
        counters: &mut Counters,
        mut with: impl FnMut(&[u8]) -> Result<(), BundleError>,
    ) -> Result<MemberInfo, BundleError> {
        let &place = self.places.get(name).ok_or_else(|| missing(name))?;
        let broken = |error| zip_told(error, name);
        let mut member = self.archive.by_index(place).map_err(broken)?;
        let growth = allowed_growth(member.compressed_size(), limits);
        let claimed = member.size();
        let mut hasher = blake3::Hasher::new();
        let mut chunk = vec![0; 1 << 16];
        let mut length = 0_u64;
        loop {
            let read = member.read(&mut chunk).map_err(|e| told(e, name))?;
            if read == 0 {
                break;
            }
            counters.inflated_bytes += read as u64;
            length += read as u64;
            within(counters.inflated_bytes, limits.total_bytes, Bound::Total)?;
            within(length, most, Bound::Member)?;
            within(length, growth, Bound::Ratio)?;
            hasher.update(&chunk[..read]);
            with(&chunk[..read])?;
        }
        if length == claimed {
            Ok(MemberInfo::new(&hasher, length))
        } else {
            Err(BundleError::Changed(name.into()))
        }
    }

    /// A short member as a whole.
    pub fn inflate(
        &mut self,
        name: &str,
        limits: &Limits,
        counters: &mut Counters,
    ) -> Result<Vec<u8>, BundleError> {
        let mut bytes = Vec::new();
        self.pass(name, limits.manifest_bytes, limits, counters, |piece| {
            bytes.extend_from_slice(piece);
            Ok(())
        })?;
        Ok(bytes)
    }

    /// Lets `with` read a member.
    pub fn reading<T>(
        &mut self,
        name: &str,
        with: impl FnOnce(&mut dyn Read) -> Result<T, BundleError>,
    ) -> Result<T, BundleError> {
        let &place = self.places.get(name).ok_or_else(|| missing(name))?;
        let broken = |error| zip_told(error, name);
        with(&mut self.archive.by_index(place).map_err(broken)?)
    }
}

/// A member's name as it can be shown to a person.
pub(crate) fn shown(name: &str) -> String {
    name.chars().take(80).flat_map(char::escape_debug).collect()
}

fn missing(name: &str) -> BundleError {
    let known = crate::manifest::ALWAYS.into_iter().find(|it| *it == name);
    known.map_or_else(
        || BundleError::MissingAttachment(shown(name)),
        BundleError::Missing,
    )
}

fn allowed_growth(compressed: u64, limits: &Limits) -> u64 {
    compressed
        .saturating_mul(limits.ratio)
        .saturating_add(1 << 16)
}
