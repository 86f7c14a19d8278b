//! Files that records name by their hash, on their way out and in.

use std::io::{self, ErrorKind, Read};

/// BLAKE3 of an attachment's bytes: its name.
pub type AttachmentHash = [u8; 32];

/// Where the attachments lie that go out.
pub trait AttachmentSource {
    /// The length of this attachment, if it is here and goes along. Asked of every hash that a
    /// body has in it, so most are of something else.
    ///
    /// # Errors
    /// [`io::Error`] if that can't be told.
    fn length(&mut self, hash: &AttachmentHash) -> io::Result<Option<u64>>;

    /// Opens an attachment of which the length was told.
    ///
    /// # Errors
    /// [`io::Error`] if it can't be read.
    fn open(&mut self, hash: &AttachmentHash) -> io::Result<Box<dyn Read + '_>>;
}

/// Where the attachments go that come in.
pub trait AttachmentSink {
    /// Keeps an attachment. What `content` gives is the attachment only once it has said that it
    /// is at its end: if hash or length are others than they should be, it fails there instead,
    /// so what is written goes under another name until then.
    ///
    /// # Errors
    /// [`io::Error`] if it can't be kept, or as `content` says.
    fn put(&mut self, hash: &AttachmentHash, length: u64, content: &mut dyn Read)
    -> io::Result<()>;
}

/// None go out, and those that come in are looked at and not kept.
#[derive(Debug, Clone, Copy, Default)]
pub struct NoAttachments;

impl AttachmentSource for NoAttachments {
    fn length(&mut self, _: &AttachmentHash) -> io::Result<Option<u64>> {
        Ok(None)
    }

    fn open(&mut self, _: &AttachmentHash) -> io::Result<Box<dyn Read + '_>> {
        Err(ErrorKind::NotFound.into())
    }
}

impl AttachmentSink for NoAttachments {
    fn put(&mut self, _: &AttachmentHash, _: u64, content: &mut dyn Read) -> io::Result<()> {
        io::copy(content, &mut io::sink()).map(drop)
    }
}

/// Gives what it reads only if that has this hash and length.
pub(crate) struct Attested<R> {
    content: R,
    hash: AttachmentHash,
    left: u64,
    hasher: blake3::Hasher,
    /// Whether it turned out to be something else.
    pub differs: bool,
    /// Whether it was read to its end, and is what it should be.
    pub whole: bool,
}

impl<R: Read> Attested<R> {
    pub fn new(content: R, hash: AttachmentHash, length: u64) -> Self {
        Self {
            content,
            hash,
            left: length,
            hasher: blake3::Hasher::new(),
            differs: false,
            whole: false,
        }
    }
}

impl<R: Read> Read for Attested<R> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        if buffer.is_empty() {
            return Ok(0);
        }
        let other = |this: &mut Self| {
            this.differs = true;
            Err(io::Error::new(
                ErrorKind::InvalidData,
                "the attachment has another hash or length",
            ))
        };
        let read = self.content.read(buffer).inspect_err(|error| {
            // What the system can't read is one thing, a checksum that doesn't fit another.
            self.differs |= error.raw_os_error().is_none();
        })?;
        let Some(left) = self.left.checked_sub(read as u64) else {
            return other(self);
        };
        self.left = left;
        self.hasher.update(&buffer[..read]);
        if read == 0 {
            if left > 0 || *self.hasher.finalize().as_bytes() != self.hash {
                return other(self);
            }
            self.whole = true;
        }
        Ok(read)
    }
}

/// Calls `with` for each hash that a body's content has between two quotation marks: all that it
/// may name. A rule that needs no knowledge of kinds, so that what another version of the program
/// wrote is passed on with its attachments.
pub(crate) fn each_hash(content: &[u8], mut with: impl FnMut(AttachmentHash)) {
    const DIGITS: usize = 64;
    let mut quoted = content
        .iter()
        .enumerate()
        .filter(|(_, byte)| **byte == b'"')
        .map(|(at, _)| at);
    let Some(mut before) = quoted.next() else {
        return;
    };
    for at in quoted {
        if at - before == DIGITS + 1 {
            let hash = std::str::from_utf8(&content[before + 1..at])
                .ok()
                .and_then(parse_hash);
            if let Some(hash) = hash {
                with(hash);
            }
        }
        before = at;
    }
}

/// Reads a hash in lower-case hexadecimal, and no other spelling.
pub(crate) fn parse_hash(text: &str) -> Option<AttachmentHash> {
    let lower = text
        .bytes()
        .all(|byte| matches!(byte, b'0'..=b'9' | b'a'..=b'f'));
    let hash = blake3::Hash::from_hex(text).ok()?;
    lower.then_some(*hash.as_bytes())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hash_is_found_between_quotation_marks_and_nowhere_else() {
        let hash = "0a".repeat(32);
        let found = |text: String| {
            let mut found = Vec::new();
            each_hash(text.as_bytes(), |hash| found.push(hash));
            found
        };
        assert_eq!(found(format!("{{\"a\":[\"{hash}\"]}}")), [[10; 32]]);
        assert_eq!(found(format!("\"{hash}\"{hash}\"")), [[10; 32], [10; 32]]);
        for other in [
            hash.clone(),
            format!("\"{hash}"),
            format!("\"{hash}a\""),
            format!("\"{}\"", hash.to_uppercase()),
            format!("\" {}\"", &hash[1..]),
        ] {
            assert_eq!(found(other), Vec::<AttachmentHash>::new());
        }
    }

    #[test]
    fn what_differs_is_told_before_its_end() {
        let hash = *blake3::hash(b"oil").as_bytes();
        let read = |bytes: &[u8], length| {
            let mut all = Vec::new();
            let mut attested = Attested::new(bytes, hash, length);
            let read = attested.read_to_end(&mut all);
            assert_eq!(attested.differs, read.is_err());
            assert_eq!(attested.whole, read.is_ok());
            read.is_ok()
        };
        assert!(read(b"oil", 3));
        assert!(!read(b"oil", 2));
        assert!(!read(b"oil", 4));
        assert!(!read(b"air", 3));
        assert!(!read(b"", 0));
    }
}
