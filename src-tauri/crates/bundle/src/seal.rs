//! Sealing a whole file with a passphrase, and opening a sealed one.

use std::io::{ErrorKind, Read, Write};
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
const CHUNK: u64 = 64 << 10;
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

/// Seals a file. Sealing the same twice gives different bytes: salt and key are drawn anew.
///
/// # Errors
/// [`BundleError::ShortPassphrase`].
pub fn seal(file: &[u8], passphrase: &Passphrase) -> Result<Vec<u8>, BundleError> {
    if !passphrase.is_long_enough() {
        return Err(BundleError::ShortPassphrase);
    }
    let mut recipient = scrypt::Recipient::new(passphrase.0.clone());
    recipient.set_work_factor(WORK_WRITTEN);
    let failed = |error| match error {
        EncryptError::Io(error) => BundleError::Io(error),
        other => BundleError::Io(std::io::Error::other(other.to_string())),
    };
    let encryptor = Encryptor::with_recipients(iter::once(&recipient as _)).map_err(failed)?;
    let chunks = (file.len() as u64 / CHUNK + 1) * TAG;
    let length = file.len() + HEADER_ROOM + usize::try_from(chunks).unwrap_or(0);
    let mut writer = encryptor.wrap_output(Vec::with_capacity(length))?;
    writer.write_all(file)?;
    Ok(writer.finish()?)
}

/// Opens a sealed file. What is inside is as it was sealed, to the byte, or this fails; it is not
/// yet read as a bundle.
///
/// Everything that can be told without the passphrase is told first: the file's length, the form
/// of its header, and the work that it asks for. Memory stays within the file's own length beside
/// what scrypt takes, since the format can't make its content shorter than it is.
///
/// # Errors
/// [`BundleError::NotABundle`] if it isn't sealed, or sealed twice over; [`BundleError::TooLarge`];
/// [`BundleError::CostlySeal`]; [`BundleError::WrongPassphrase`], also if the sealed key itself was
/// changed, since the two can't be told apart; [`BundleError::BrokenSeal`].
pub fn unseal(
    file: &[u8],
    passphrase: &Passphrase,
    limits: &Limits,
) -> Result<Vec<u8>, BundleError> {
    if !is_sealed(file) {
        return Err(BundleError::NotABundle);
    }
    within(file.len() as u64, limits.file_bytes, Bound::File)?;
    let header = header(file).ok_or(BundleError::BrokenSeal)?;
    if header.work > WORK_ACCEPTED {
        return Err(BundleError::CostlySeal);
    }
    let payload = (file.len() - header.length) as u64;
    let length = plain_length(payload).ok_or(BundleError::BrokenSeal)?;

    let mut identity = scrypt::Identity::new(passphrase.0.clone());
    identity.set_max_work_factor(WORK_ACCEPTED);
    let decryptor = Decryptor::new_buffered(file).map_err(|_| BundleError::BrokenSeal)?;
    let mut reader =
        decryptor
            .decrypt(iter::once(&identity as _))
            .map_err(|error| match error {
                DecryptError::DecryptionFailed => BundleError::WrongPassphrase,
                DecryptError::ExcessiveWork { .. } => BundleError::CostlySeal,
                _ => BundleError::BrokenSeal,
            })?;
    let mut plain = Vec::with_capacity(usize::try_from(length).unwrap_or(0));
    reader.read_to_end(&mut plain).map_err(|error| {
        if error.kind() == ErrorKind::OutOfMemory {
            BundleError::Io(error)
        } else {
            BundleError::BrokenSeal
        }
    })?;
    if is_sealed(&plain) {
        return Err(BundleError::NotABundle);
    }
    Ok(plain)
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
