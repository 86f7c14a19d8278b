//! One walk over the text before any of it is taken apart: it counts, so that limits hold before
//! memory is spent, and finds what the reader would pass over in silence (a quote that nobody
//! closes). The rules of quoting are RFC 4180's, section 2, read as leniently as the reader does.

use crate::read::{Limits, TableError};

/// The line on which each row begins, from one; empty lines hold no row.
pub(crate) fn rows(text: &str, delimiter: u8, limits: &Limits) -> Result<Vec<u64>, TableError> {
    enum At {
        Start,
        Plain,
        Quoted,
        /// After a quote within a quoted cell: its end, or half of a quote that is meant.
        Closing,
    }
    let mut at = At::Start;
    let mut lines = Vec::new();
    let (mut line, mut began) = (1_u64, 1_u64);
    let (mut columns, mut length) = (1_usize, 0_usize);
    // True once the row holds anything.
    let mut open = false;
    let mut before = 0_u8;
    for &byte in text.as_bytes() {
        let ends_line = byte == b'\n' || byte == b'\r';
        let second_half = byte == b'\n' && before == b'\r';
        before = byte;
        if byte == 0 {
            return Err(TableError::NotText { line });
        }
        if !matches!(at, At::Quoted) && ends_line {
            if open {
                lines.push(began);
                if lines.len() > limits.rows {
                    return Err(TableError::TooManyRows { most: limits.rows });
                }
            }
            if !second_half {
                line += 1;
            }
            (at, columns, length, open, began) = (At::Start, 1, 0, false, line);
            continue;
        }
        if ends_line && !second_half {
            line += 1;
        }
        open = true;
        length += 1;
        at = match (at, byte) {
            (At::Quoted, b'"') => At::Closing,
            (At::Quoted, _) => At::Quoted,
            (At::Closing, b'"') => At::Quoted,
            (_, byte) if byte == delimiter => {
                columns += 1;
                length = 0;
                if columns > limits.columns {
                    return Err(TableError::TooManyColumns {
                        line: began,
                        most: limits.columns,
                    });
                }
                At::Start
            }
            (At::Start, b'"') => At::Quoted,
            _ => At::Plain,
        };
        if length > limits.cell_bytes {
            return Err(TableError::CellTooLong {
                line: began,
                most: limits.cell_bytes,
            });
        }
    }
    if matches!(at, At::Quoted) {
        return Err(TableError::UnclosedQuote { line: began });
    }
    if open {
        lines.push(began);
    }
    if lines.len() > limits.rows {
        return Err(TableError::TooManyRows { most: limits.rows });
    }
    Ok(lines)
}
