//! What every serialised form here has in common: hexadecimal and bounded integers.

use crate::error::FormatError;

/// The largest integer that every JSON reader keeps exactly (2^53 - 1).
pub(crate) const MAX_EXACT: i64 = (1 << 53) - 1;

/// Lower-case hexadecimal.
pub(crate) fn to_hex(bytes: &[u8]) -> String {
    const DIGITS: [char; 16] = [
        '0', '1', '2', '3', '4', '5', '6', '7', '8', '9', 'a', 'b', 'c', 'd', 'e', 'f',
    ];
    let mut text = String::with_capacity(bytes.len() * 2);
    for byte in bytes {
        text.push(DIGITS[usize::from(byte >> 4)]);
        text.push(DIGITS[usize::from(byte & 15)]);
    }
    text
}

/// Reads lower-case hexadecimal of exactly `N` bytes.
pub(crate) fn from_hex<const N: usize>(text: &str) -> Result<[u8; N], FormatError> {
    let fail = || FormatError::Hex(text.chars().take(160).collect());
    let digit = |c: u8| match c {
        b'0'..=b'9' => Some(c - b'0'),
        b'a'..=b'f' => Some(c - b'a' + 10),
        _ => None,
    };
    let digits = text.as_bytes();
    if digits.len() != N * 2 {
        return Err(fail());
    }
    let mut bytes = [0; N];
    for (byte, pair) in bytes.iter_mut().zip(digits.chunks_exact(2)) {
        let (Some(high), Some(low)) = (digit(pair[0]), digit(pair[1])) else {
            return Err(fail());
        };
        *byte = high << 4 | low;
    }
    Ok(bytes)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hexadecimal_goes_there_and_back() {
        let bytes: [u8; 4] = [0, 0x0f, 0xa0, 0xff];
        assert_eq!(to_hex(&bytes), "000fa0ff");
        assert_eq!(from_hex::<4>("000fa0ff"), Ok(bytes));
    }

    #[test]
    fn only_one_spelling_is_read() {
        for text in [
            "000FA0FF",
            "000fa0f",
            "000fa0fff",
            "000fa0fg",
            " 00fa0ff",
            "",
        ] {
            assert!(from_hex::<4>(text).is_err(), "{text:?}");
        }
    }
}
