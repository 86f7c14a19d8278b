//! How much of a bundle is accepted, and how much was read.

use crate::error::{Bound, BundleError};

/// The most that a reader accepts. The default holds a large shop's years without photos, and
/// nothing that would trouble a phone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limits {
    /// Length of the file, in bytes.
    pub file_bytes: u64,
    /// Number of members.
    pub members: u64,
    /// Inflated length of one member, in bytes.
    pub member_bytes: u64,
    /// Inflated length of all members together, in bytes.
    pub total_bytes: u64,
    /// How many times its own length a member may grow, beyond its first 64 KiB.
    pub ratio: u64,
    /// Length of one line, in bytes.
    pub line_bytes: usize,
    /// Nesting of JSON.
    pub depth: usize,
}

impl Default for Limits {
    fn default() -> Self {
        const MIB: u64 = 1 << 20;
        Self {
            file_bytes: 64 * MIB,
            members: 4096,
            member_bytes: 256 * MIB,
            total_bytes: 384 * MIB,
            ratio: 100,
            line_bytes: 4 << 20,
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
