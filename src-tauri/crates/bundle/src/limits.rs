//! How much of a bundle is accepted, and how much was read.

use crate::error::{Bound, BundleError};

/// The most that a reader accepts. The default has room for a shop of ten thousand jobs (half a
/// million records; three photos of each job with their thumbnails), for little more than an
/// archive without zip64 can hold, and for nothing that would take a phone's memory: beside what
/// is read piece by piece, memory grows with the number of members and of records, 16 to 80 bytes
/// each.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limits {
    /// Length of the file, in bytes. An archive without zip64 ends before 4 GiB, and so does a
    /// file on many a memory stick.
    pub file_bytes: u64,
    /// Number of members. An archive without zip64 has at most 65,534.
    pub members: u64,
    /// Length of the archive's directory, in bytes.
    pub directory_bytes: u64,
    /// Inflated length of a member of records or bodies, in bytes.
    pub member_bytes: u64,
    /// Inflated length of manifest and signature, in bytes, which are held in memory.
    pub manifest_bytes: u64,
    /// Length of an attachment, in bytes.
    pub attachment_bytes: u64,
    /// Inflated length of all members together, in bytes.
    pub total_bytes: u64,
    /// How many times its own length a member may grow, beyond its first 64 KiB.
    pub ratio: u64,
    /// Length of one line, in bytes.
    pub line_bytes: usize,
    /// Number of commits, of records and of records that commits list, each.
    pub records: usize,
    /// Nesting of JSON.
    pub depth: usize,
}

impl Default for Limits {
    fn default() -> Self {
        const MIB: u64 = 1 << 20;
        Self {
            file_bytes: 4095 * MIB,
            members: 65_000,
            directory_bytes: 16 * MIB,
            member_bytes: 1024 * MIB,
            manifest_bytes: 16 * MIB,
            attachment_bytes: 16 * MIB,
            total_bytes: 6144 * MIB,
            ratio: 100,
            line_bytes: 4 << 20,
            records: 1_000_000,
            depth: 16,
        }
    }
}

/// What a reader has met so far, whether it went well or not.
#[derive(Debug, Clone, Copy, Default, PartialEq, Eq)]
pub struct Counters {
    /// Members that the archive claims to have.
    pub members: u64,
    /// Bytes inflated.
    pub inflated_bytes: u64,
    /// The deepest nesting of JSON.
    pub depth: usize,
}

/// Passes if a value is within its bound.
pub(crate) fn within<T: PartialOrd>(value: T, limit: T, bound: Bound) -> Result<(), BundleError> {
    if value <= limit {
        Ok(())
    } else {
        Err(BundleError::TooLarge(bound))
    }
}

/// How deep a JSON text is nested, by its brackets outside strings. Told before it is parsed, so
/// that the parser never meets a deep one.
pub(crate) fn depth(json: &[u8]) -> usize {
    let (mut now, mut deepest, mut in_string, mut escaped) = (0_usize, 0, false, false);
    for &byte in json {
        match byte {
            _ if escaped => escaped = false,
            b'\\' if in_string => escaped = true,
            b'"' => in_string = !in_string,
            _ if in_string => {}
            b'{' | b'[' => {
                now += 1;
                deepest = deepest.max(now);
            }
            b'}' | b']' => now = now.saturating_sub(1),
            _ => {}
        }
    }
    deepest
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn depth_counts_brackets_outside_strings() {
        assert_eq!(depth(br#"{"a":[1,{"b":"]]]}}} \" [["}],"c":[]}"#), 3);
        assert_eq!(depth(b"7"), 0);
        assert_eq!(depth(&b"[".repeat(1_000_000)), 1_000_000);
    }
}
