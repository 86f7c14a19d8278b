//! Sealing a whole file with a passphrase, and opening a sealed one.

use std::cell::Cell;
use std::io::{self, BufReader, Read, Seek, SeekFrom, Write};
use std::iter;

use age::secrecy::{ExposeSecret, SecretString};
use age::{DecryptError, Decryptor, EncryptError, Encryptor, scrypt};
use unicode_normalization::UnicodeNormalization;

use crate::error::{Bound, BundleError};
use crate::limits::{Limits, within};

/// Least length of a passphrase for sealing, in characters (Unicode code points) of its
/// [normalised](Passphrase) form. NIST SP 800-63B, 5.1.1.2, asks for no less of a secret that a
/// person chooses, and counts in the same way.
pub const LEAST_CHARACTERS: usize = 8;

/// Binary logarithm of the scrypt work factor that is written: 64 MiB, and half a second on a
/// phone.
pub const WORK_WRITTEN: u8 = 16;

/// Binary logarithm of the greatest scrypt work factor that is accepted: 128 MiB.
pub const WORK_ACCEPTED: u8 = 17;

/// The first line of a file of the age format, version 1.
const INTRO: &[u8] = b"age-encryption.org/v1\n";

/// A header with one scrypt stanza has 156 bytes; this leaves room and no more.
const HEADER_ROOM: usize = 256;

/// What a chunk of the payload holds before it is sealed, and what sealing adds to it.
const CHUNK: u64 = 1 << 16;
const TAG: u64 = 16;
const NONCE: u64 = 16;

/// A passphrase: what was typed, in Unicode's compatibility form NFKC and without white space
/// around it, so that another keyboard's way of writing the same letters fits. It is wiped from
/// memory when it goes, and shows itself to nobody.
#[derive(Debug, Clone)]
pub struct Passphrase(SecretString);

impl Passphrase {
    /// The passphrase in this text. An empty or short one may open a file, though none is sealed
    /// with it.
    #[must_use]
    pub fn new(typed: &SecretString) -> Self {
        let normal = SecretString::from(typed.expose_secret().nfkc().collect::<String>());
        Self(SecretString::from(normal.expose_secret().trim()))
    }

    /// Its length in characters.
    #[must_use]
    pub fn characters(&self) -> usize {
        self.0.expose_secret().chars().count()
    }

    /// True if a file may be sealed with it.
    #[must_use]
    pub fn is_long_enough(&self) -> bool {
        self.characters() >= LEAST_CHARACTERS
    }
}

/// True for a file that says of itself that it is sealed.
#[must_use]
pub fn is_sealed(file: &[u8]) -> bool {
    file.starts_with(INTRO)
}

/// As [`seal_into`], in memory.
///
/// # Errors
/// As [`seal_into`].
pub fn seal(file: &[u8], passphrase: &Passphrase) -> Result<Vec<u8>, BundleError> {
    let mut sealed = Vec::new();
    seal_into(file, &mut sealed, passphrase)?;
    Ok(sealed)
}

/// Seals a file. Sealing the same twice gives different bytes: salt and key are drawn anew.
///
/// # Errors
/// [`BundleError::ShortPassphrase`]; [`BundleError::Io`].
pub fn seal_into(
    mut file: impl Read,
    out: impl Write,
    passphrase: &Passphrase,
) -> Result<(), BundleError> {
    if !passphrase.is_long_enough() {
        return Err(BundleError::ShortPassphrase);
    }
    let mut recipient = scrypt::Recipient::new(passphrase.0.clone());
    recipient.set_work_factor(WORK_WRITTEN);
    let failed = |error| match error {
        EncryptError::Io(error) => BundleError::Io(error),
        other => BundleError::Io(io::Error::other(other.to_string())),
    };
    let encryptor = Encryptor::with_recipients(iter::once(&recipient as _)).map_err(failed)?;
    let mut writer = encryptor.wrap_output(out)?;
    io::copy(&mut file, &mut writer)?;
    writer.finish()?.flush()?;
    Ok(())
}

/// As [`unseal_into`], in memory.
///
/// # Errors
/// As [`unseal_into`].
pub fn unseal(
    file: &[u8],
    passphrase: &Passphrase,
    limits: &Limits,
) -> Result<Vec<u8>, BundleError> {
    let mut plain = Vec::new();
    unseal_into(io::Cursor::new(file), &mut plain, passphrase, limits)?;
    Ok(plain)
}

/// Opens a sealed file. What is written is as it was sealed, to the byte, or this fails; it is not
/// yet read as a bundle. After a failure part of it may have been written.
///
/// Everything that can be told without the passphrase is told first: the file's length, the form
/// of its header, and the work that it asks for. Memory beside what scrypt takes is a chunk's, 64
/// KiB, and what is written is shorter than the file.
///
/// # Errors
/// [`BundleError::NotABundle`] if it isn't sealed, or sealed twice over; [`BundleError::TooLarge`];
/// [`BundleError::CostlySeal`]; [`BundleError::WrongPassphrase`], also if the sealed key itself was
/// changed, since the two can't be told apart; [`BundleError::BrokenSeal`]; [`BundleError::Io`] if
/// the system can't read or write.
pub fn unseal_into(
    mut file: impl Read + Seek,
    mut out: impl Write,
    passphrase: &Passphrase,
    limits: &Limits,
) -> Result<(), BundleError> {
    let whole = file.seek(SeekFrom::End(0))?;
    file.rewind()?;
    let mut start = Vec::new();
    (&mut file)
        .take(HEADER_ROOM as u64)
        .read_to_end(&mut start)?;
    file.rewind()?;
    if !is_sealed(&start) {
        return Err(BundleError::NotABundle);
    }
    within(whole, limits.file_bytes, Bound::File)?;
    let header = header(&start).ok_or(BundleError::BrokenSeal)?;
    if header.work > WORK_ACCEPTED {
        return Err(BundleError::CostlySeal);
    }
    let payload = whole - header.length as u64;
    plain_length(payload).ok_or(BundleError::BrokenSeal)?;

    let mut identity = scrypt::Identity::new(passphrase.0.clone());
    identity.set_max_work_factor(WORK_ACCEPTED);
    let failed = Cell::new(None);
    // What is wrong with the seal is told apart from a stick that was pulled out.
    let broken = || {
        failed
            .take()
            .map_or(BundleError::BrokenSeal, BundleError::Io)
    };
    let watched = Watched {
        file,
        failed: &failed,
    };
    let decryptor = Decryptor::new_buffered(BufReader::new(watched)).map_err(|_| broken())?;
    let mut reader =
        decryptor
            .decrypt(iter::once(&identity as _))
            .map_err(|error| match error {
                DecryptError::DecryptionFailed => BundleError::WrongPassphrase,
                DecryptError::ExcessiveWork { .. } => BundleError::CostlySeal,
                _ => broken(),
            })?;
    let mut chunk = vec![0; 1 << 16];
    let mut first = Vec::new();
    loop {
        let read = reader.read(&mut chunk).map_err(|_| broken())?;
        if read == 0 {
            break;
        }
        if first.len() < INTRO.len() {
            first.extend_from_slice(&chunk[..read]);
            first.truncate(INTRO.len());
            if is_sealed(&first) {
                return Err(BundleError::NotABundle);
            }
        }
        out.write_all(&chunk[..read])?;
    }
    Ok(out.flush()?)
}

/// Remembers why the system could not read.
struct Watched<'a, R> {
    file: R,
    failed: &'a Cell<Option<io::Error>>,
}

impl<R: Read> Read for Watched<'_, R> {
    fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
        self.file.read(buffer).map_err(|error| {
            let kind = error.kind();
            self.failed.set(Some(error));
            kind.into()
        })
    }
}

/// What a header says without the passphrase.
struct Header {
    length: usize,
    work: u8,
}

/// The header by our own eyes, before a library works through it: one scrypt stanza, which is the
/// only one that this format allows there, in the only form that it can have. So nothing hostile
/// gets to the library's parser, which would go over a long header again and again.
fn header(file: &[u8]) -> Option<Header> {
    let room = &file[..file.len().min(HEADER_ROOM)];
    let mut rest = room.strip_prefix(INTRO)?;
    let mut line = || {
        let end = rest.iter().position(|&byte| byte == b'\n')?;
        let (line, after) = rest.split_at(end);
        rest = &after[1..];
        std::str::from_utf8(line).ok()
    };
    let (salt, work) = line()?.strip_prefix("-> scrypt ")?.split_once(' ')?;
    let (key, mac) = (line()?, line()?.strip_prefix("--- ")?);
    // 16, 32 and 32 bytes in base64 without padding.
    let lengths_fit = [(salt, 22), (key, 43), (mac, 43)]
        .iter()
        .all(|(text, length)| text.len() == *length);
    let digits = !work.starts_with('0') && work.bytes().all(|byte| byte.is_ascii_digit());
    (lengths_fit && digits && !work.is_empty()).then(|| Header {
        length: room.len() - rest.len(),
        // More digits than fit are more work than is accepted.
        work: work.parse().unwrap_or(u8::MAX),
    })
}

/// How long the content of a payload is: a nonce, then chunks that are full but for the last,
/// which is empty only if there is no other. None: no payload is that long.
fn plain_length(payload: u64) -> Option<u64> {
    let chunks = payload.checked_sub(NONCE)?;
    let (full, last) = (chunks / (CHUNK + TAG), chunks % (CHUNK + TAG));
    match (full, last) {
        (0, _) => last.checked_sub(TAG),
        (_, 0) => Some(full * CHUNK),
        _ => last
            .checked_sub(TAG)
            .filter(|&last| last > 0)
            .map(|last| full * CHUNK + last),
    }
}
