//! Numbers as people and loggers write them, and as we do.

use crate::form::Decimal;

/// Why a text is no number.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NumberError {
    /// There is nothing.
    #[error("empty")]
    Empty,
    /// It holds the other decimal sign: whether that groups thousands or begins the decimals
    /// can't be known, and a reading must not be off by a thousand.
    #[error("the other decimal sign")]
    OtherSign,
    /// It is something else.
    #[error("not a number")]
    NotANumber,
}

/// A number and what stands after it, e.g. its unit.
///
/// A minus sign may be a hyphen or U+2212; spaces (also the narrow and the unbreakable one) and
/// apostrophes may group digits in threes.
///
/// # Errors
/// [`NumberError`]. Never gives infinity or NaN.
pub fn parse(text: &str, decimal: Decimal) -> Result<(f64, &str), NumberError> {
    let text = text.trim();
    if text.is_empty() {
        return Err(NumberError::Empty);
    }
    let (sign, other) = match decimal {
        Decimal::Point => ('.', ','),
        Decimal::Comma => (',', '.'),
    };
    let mut plain = String::with_capacity(text.len());
    let mut end = text.len();
    let mut digits_since_group: Option<u32> = None;
    let mut digits = 0_u32;
    let mut in_decimals = false;
    let mut letters = text.char_indices().peekable();
    while let Some((at, c)) = letters.next() {
        match c {
            '-' | '\u{2212}' | '+' if at == 0 => plain.push(if c == '+' { '+' } else { '-' }),
            '0'..='9' => {
                plain.push(c);
                digits += 1;
                digits_since_group = digits_since_group.map(|n| n + 1);
            }
            c if c == sign && !in_decimals => {
                if digits_since_group.is_some_and(|n| n != 3) {
                    return Err(NumberError::NotANumber);
                }
                digits_since_group = None;
                in_decimals = true;
                plain.push('.');
            }
            c if c == other => return Err(NumberError::OtherSign),
            ' ' | '\u{a0}' | '\u{202f}' | '\''
                if !in_decimals
                    && (1..=3).contains(&digits_since_group.unwrap_or(digits.min(3)))
                    && letters
                        .peek()
                        .is_some_and(|(_, next)| next.is_ascii_digit()) =>
            {
                if digits_since_group.is_some_and(|n| n != 3)
                    || digits_since_group.is_none() && digits > 3
                {
                    return Err(NumberError::NotANumber);
                }
                digits_since_group = Some(0);
            }
            'e' | 'E' if digits > 0 && is_exponent(&text[at + 1..]) => {
                let rest = &text[at + 1..];
                let signs = usize::from(rest.starts_with(['+', '-']));
                let length = rest[signs..].bytes().take_while(u8::is_ascii_digit).count();
                plain.push('e');
                plain.push_str(&rest[..signs + length]);
                end = at + 1 + signs + length;
                break;
            }
            _ => {
                end = at;
                break;
            }
        }
    }
    if digits == 0 || digits_since_group.is_some_and(|n| n != 3) {
        return Err(NumberError::NotANumber);
    }
    let rest = text[end..].trim();
    // What follows is a unit or nothing: a unit holds no digit but an exponent of its own.
    if rest.starts_with(|c: char| c.is_ascii_digit() || matches!(c, '.' | ',' | '+' | '-' | ':')) {
        return Err(NumberError::NotANumber);
    }
    let value: f64 = plain.parse().map_err(|_| NumberError::NotANumber)?;
    if value.is_finite() {
        Ok((value, rest))
    } else {
        Err(NumberError::NotANumber)
    }
}

fn is_exponent(text: &str) -> bool {
    text.strip_prefix(['+', '-'])
        .unwrap_or(text)
        .starts_with(|c: char| c.is_ascii_digit())
}

/// The shortest decimal number that `back` carries to `si` again, within a trillionth of it: what
/// was typed as 18.5 comes out as 18.5, and nothing that a gauge can show is lost.
#[must_use]
pub fn shortest(si: f64, to: impl Fn(f64) -> f64, back: impl Fn(f64) -> f64) -> f64 {
    const KEPT: f64 = 1e-12;
    let value = to(si);
    for digits in 0..16_usize {
        let Ok(rounded) = format!("{value:.digits$e}").parse::<f64>() else {
            break;
        };
        if (back(rounded) - si).abs() <= si.abs() * KEPT {
            return rounded;
        }
    }
    value
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const POINT: Decimal = Decimal::Point;
    const COMMA: Decimal = Decimal::Comma;

    #[test]
    fn both_decimal_signs_and_a_unit_behind() {
        assert_eq!(parse("18.5", POINT), Ok((18.5, "")));
        assert_eq!(parse(" 70,5 kPa ", COMMA), Ok((70.5, "kPa")));
        assert_eq!(parse("−70,5", COMMA), Ok((-70.5, "")));
        assert_eq!(parse("1 013,25 hPa", COMMA), Ok((1013.25, "hPa")));
        assert_eq!(parse("6.2e4 Pa", POINT), Ok((6.2e4, "Pa")));
        assert_eq!(parse("1013,25", COMMA), Ok((1013.25, "")));
        assert_eq!(parse("7 inHg", POINT), Ok((7.0, "inHg")));
    }

    #[test]
    fn what_could_be_off_by_a_thousand_is_refused() {
        assert_eq!(parse("18,5", POINT), Err(NumberError::OtherSign));
        assert_eq!(parse("1.234,5", COMMA), Err(NumberError::OtherSign));
        assert_eq!(parse("12 34", POINT), Err(NumberError::NotANumber));
        assert_eq!(parse("1234 567", POINT), Err(NumberError::NotANumber));
    }

    #[test]
    fn other_things_are_no_numbers() {
        for text in [
            "-",
            "x",
            "1.2.3",
            "1e999",
            "12:30:01",
            "2026-11-25",
            "NaN",
            "inf",
            "--1",
        ] {
            assert_eq!(
                parse(text, POINT).map(|_| ()),
                Err(NumberError::NotANumber),
                "{text}"
            );
        }
        assert_eq!(parse("  ", POINT), Err(NumberError::Empty));
    }

    proptest! {
        #[test]
        fn no_text_panics_or_gives_what_is_not_finite(text in ".{0,20}", comma: bool) {
            let decimal = if comma { COMMA } else { POINT };
            if let Ok((value, _)) = parse(&text, decimal) {
                prop_assert!(value.is_finite());
            }
        }

        #[test]
        fn a_written_value_is_the_same_when_read(si in 1e-6..1e8_f64) {
            let inch_of_mercury = 3386.388640341;
            let written = shortest(si, |v| v / inch_of_mercury, |v| v * inch_of_mercury);
            let read = parse(&written.to_string(), POINT).unwrap().0 * inch_of_mercury;
            prop_assert!((read - si).abs() <= 1e-12 * si);
        }

        #[test]
        fn what_was_typed_comes_out_as_typed(tenths in 0..320_u32) {
            let typed = f64::from(tenths) / 10.0;
            let inch_of_mercury = 3386.388640341;
            let si = typed * inch_of_mercury;
            prop_assert_eq!(shortest(si, |v| v / inch_of_mercury, |v| v * inch_of_mercury), typed);
        }
    }
}
