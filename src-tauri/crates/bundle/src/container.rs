//! The zip archive as hostile input: members by name, within limits.

use std::collections::BTreeMap;
use std::io::{Cursor, Read};

use zip::{CompressionMethod, ZipArchive};

use crate::error::{Bound, BundleError};
use crate::limits::{Counters, Limits, within};
use crate::seal::is_sealed;

const FIRST_HEADER: &[u8] = b"PK\x03\x04";
const END_RECORD: &[u8] = b"PK\x05\x06";
const END_LENGTH: usize = 22;

/// An archive whose directory has been looked at; nothing is inflated yet.
pub(crate) struct Container<'a> {
    archive: ZipArchive<Cursor<&'a [u8]>>,
    places: BTreeMap<String, usize>,
}

/// The end record (APPNOTE 4.3.16), by our own eyes: how many members, before a library makes
/// room for them. It must be the last thing in the file and agree with itself.
fn members_claimed(file: &[u8]) -> Result<u64, BundleError> {
    if is_sealed(file) {
        return Err(BundleError::Sealed);
    }
    if !file.starts_with(FIRST_HEADER) {
        return Err(BundleError::NotABundle);
    }
    let end_at = file
        .len()
        .checked_sub(END_LENGTH)
        .ok_or(BundleError::Truncated)?;
    let end = &file[end_at..];
    if !end.starts_with(END_RECORD) {
        return Err(BundleError::Truncated);
    }
    let short = |at: usize| u64::from(end[at]) | u64::from(end[at + 1]) << 8;
    let long = |at: usize| short(at) | short(at + 2) << 16;
    let (this_disk, all_disks, length, start) = (short(8), short(10), long(12), long(16));
    if all_disks == 0xffff || start == 0xffff_ffff || length == 0xffff_ffff {
        // What would need zip64 is beyond our limits anyway.
        return Err(BundleError::TooLarge(Bound::Members));
    }
    if this_disk != all_disks || start + length != end_at as u64 || short(20) != 0 {
        return Err(BundleError::Changed("directory".into()));
    }
    Ok(all_disks)
}

impl<'a> Container<'a> {
    pub fn open(
        file: &'a [u8],
        limits: &Limits,
        counters: &mut Counters,
    ) -> Result<Self, BundleError> {
        within(file.len() as u64, limits.file_bytes, Bound::File)?;
        counters.members = members_claimed(file)?;
        within(counters.members, limits.members, Bound::Members)?;
        let broken = |_| BundleError::Changed("directory".into());
        let mut archive = ZipArchive::new(Cursor::new(file)).map_err(broken)?;
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
            let shown: String = name.chars().take(80).flat_map(char::escape_debug).collect();
            let plain = !member.encrypted()
                && matches!(
                    member.compression(),
                    CompressionMethod::Stored | CompressionMethod::Deflated
                );
            if !plain || member.is_dir() || name.len() > 255 || name.contains('\u{fffd}') {
                return Err(BundleError::Unexpected(shown));
            }
            within(member.size(), limits.member_bytes, Bound::Member)?;
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

    /// Inflates a member. The sizes in the directory were only claims, so all is counted again.
    pub fn inflate(
        &mut self,
        name: &'static str,
        limits: &Limits,
        counters: &mut Counters,
    ) -> Result<Vec<u8>, BundleError> {
        let changed = || BundleError::Changed(name.into());
        let &place = self.places.get(name).ok_or(BundleError::Missing(name))?;
        let mut member = self.archive.by_index(place).map_err(|_| changed())?;
        let growth = allowed_growth(member.compressed_size(), limits);
        let claimed = member.size();
        let mut bytes = Vec::new();
        let mut chunk = vec![0; 1 << 16];
        loop {
            let read = member.read(&mut chunk).map_err(|_| changed())?;
            if read == 0 {
                break;
            }
            counters.inflated_bytes += read as u64;
            bytes.extend_from_slice(&chunk[..read]);
            within(counters.inflated_bytes, limits.total_bytes, Bound::Total)?;
            within(bytes.len() as u64, limits.member_bytes, Bound::Member)?;
            within(bytes.len() as u64, growth, Bound::Ratio)?;
        }
        if bytes.len() as u64 == claimed {
            Ok(bytes)
        } else {
            Err(changed())
        }
    }
}

fn allowed_growth(compressed: u64, limits: &Limits) -> u64 {
    compressed
        .saturating_mul(limits.ratio)
        .saturating_add(1 << 16)
}
