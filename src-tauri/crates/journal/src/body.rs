//! Bodies: raw bytes, hashed as they came; personal ones salted.
//!
//! A plain body is whatever bytes the layer above wrote. A personal body begins with a line of
//! its own, `salt:` and 32 lower-case hexadecimal digits (16 random bytes) and a line feed, then
//! the content. The hash covers the salt, so that a short content (a phone number, a plate) can't
//! be found again by trying, once the body is withheld or erased.

use crate::canonical::{from_hex, to_hex};
use crate::error::FormatError;

const MARK: &[u8] = b"salt:";
const HEAD: usize = MARK.len() + 32 + 1;

/// The body of a personal record: the content behind its salt of 16 random bytes.
///
/// ```
/// use journal::body;
/// let stored = body::salted(br#"{"phone":"555 0100"}"#, &[7; 16]);
/// assert!(body::is_personal(&stored));
/// assert_eq!(body::content(&stored), br#"{"phone":"555 0100"}"#);
/// ```
#[must_use]
pub fn salted(content: &[u8], salt: &[u8; 16]) -> Vec<u8> {
    let mut bytes = Vec::with_capacity(HEAD + content.len());
    bytes.extend_from_slice(MARK);
    bytes.extend_from_slice(to_hex(salt).as_bytes());
    bytes.push(b'\n');
    bytes.extend_from_slice(content);
    bytes
}

/// Checks that content may be stored without a salt: it must not look as if it had one.
///
/// # Errors
/// [`FormatError::Salt`] if it begins as a salted body does.
pub fn plain(content: &[u8]) -> Result<&[u8], FormatError> {
    if content.starts_with(MARK) {
        Err(FormatError::Salt)
    } else {
        Ok(content)
    }
}

/// Checks that a body is personal and gives its content.
///
/// # Errors
/// [`FormatError::Salt`] if its salt is missing or malformed.
pub fn personal(body: &[u8]) -> Result<&[u8], FormatError> {
    split(body).ok_or(FormatError::Salt)
}

/// Whether a body carries a salt, and so is personal.
#[must_use]
pub fn is_personal(body: &[u8]) -> bool {
    split(body).is_some()
}

/// The content of a body, without its salt if it has one.
#[must_use]
pub fn content(body: &[u8]) -> &[u8] {
    split(body).unwrap_or(body)
}

fn split(body: &[u8]) -> Option<&[u8]> {
    let (head, content) = body.split_at_checked(HEAD)?;
    let salt = head.strip_prefix(MARK)?.strip_suffix(b"\n")?;
    from_hex::<16>(std::str::from_utf8(salt).ok()?).ok()?;
    Some(content)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::id::BodyHash;

    #[test]
    fn the_same_content_under_another_salt_has_another_hash() {
        let one = salted(b"555 0100", &[1; 16]);
        let two = salted(b"555 0100", &[2; 16]);
        assert_ne!(BodyHash::of(&one), BodyHash::of(&two));
        assert_eq!(personal(&one), Ok(&b"555 0100"[..]));
    }

    #[test]
    fn a_missing_or_cut_salt_is_told() {
        let good = salted(b"", &[0xaa; 16]);
        assert_eq!(personal(&good), Ok(&b""[..]));
        for cut in 0..good.len() {
            assert_eq!(personal(&good[..cut]), Err(FormatError::Salt), "{cut}");
        }
        let mut upper = good.clone();
        upper[6] = b'A';
        assert_eq!(personal(&upper), Err(FormatError::Salt));
    }

    #[test]
    fn plain_content_may_not_pose_as_salted() {
        assert!(plain(br#"{"salt:":1}"#).is_ok());
        assert_eq!(plain(&salted(b"x", &[0; 16])), Err(FormatError::Salt));
    }
}
