//! What form a file most likely has. A person may say otherwise.

use crate::form::{Decimal, Delimiter, Encoding, Form};
use crate::number::parse;
use crate::read::{Limits, Row, decoded, read};

/// Rows that a guess looks at.
const LOOKED_AT: usize = 40;

/// Guesses the form of a file.
#[must_use]
pub fn guess(bytes: &[u8]) -> Form {
    let encoding = match encoding_rs::Encoding::for_bom(bytes) {
        Some((it, _)) if it == encoding_rs::UTF_8 => Encoding::Utf8,
        Some(_) => Encoding::Utf16,
        None if std::str::from_utf8(bytes).is_ok() => Encoding::Utf8,
        None => Encoding::Windows1252,
    };
    let text = decoded(bytes, encoding).unwrap_or_default();
    let start = beginning(&text);
    let mut best: Option<(usize, Delimiter, Vec<Row>)> = None;
    for delimiter in Delimiter::ALL {
        let rows = rows(start, delimiter);
        let score = agreement(&rows);
        if best.as_ref().is_none_or(|(most, _, _)| score > *most) {
            best = Some((score, delimiter, rows));
        }
    }
    let (score, delimiter, rows) = best.unwrap_or((0, Delimiter::Comma, Vec::new()));
    let delimiter = if score == 0 {
        Delimiter::Comma
    } else {
        delimiter
    };
    let decimal = decimal(&rows, delimiter);
    Form {
        encoding,
        delimiter,
        decimal,
        header: names_columns(&rows, decimal),
    }
}

/// The first lines, bounded.
fn beginning(text: &str) -> &str {
    let end = text
        .char_indices()
        .filter(|(_, c)| *c == '\n' || *c == '\r')
        .nth(2 * LOOKED_AT)
        .map_or(text.len(), |(at, _)| at);
    let mut end = end.min(256 << 10);
    while !text.is_char_boundary(end) {
        end -= 1;
    }
    &text[..end]
}

fn rows(text: &str, delimiter: Delimiter) -> Vec<Row> {
    let form = Form {
        encoding: Encoding::Utf8,
        delimiter,
        decimal: Decimal::Point,
        header: false,
    };
    read(text.as_bytes(), &form, &Limits::default()).map_or_else(|_| Vec::new(), |it| it.rows)
}

/// How many rows have the same number of cells, if that is more than one.
fn agreement(rows: &[Row]) -> usize {
    let of = |n: usize| rows.iter().filter(|row| row.cells.len() == n).count();
    rows.iter()
        .map(|row| row.cells.len())
        .filter(|cells| *cells > 1)
        .map(of)
        .max()
        .unwrap_or(0)
}

/// A comma, if more numbers make sense with it. Where the comma parts the cells it can only stand
/// in quotes.
fn decimal(rows: &[Row], delimiter: Delimiter) -> Decimal {
    let count = |sign: Decimal, mark: char| {
        rows.iter()
            .flat_map(|row| &row.cells)
            .filter(|cell| cell.contains(mark) && parse(cell, sign).is_ok())
            .count()
    };
    let (commas, points) = (count(Decimal::Comma, ','), count(Decimal::Point, '.'));
    let parted = delimiter != Delimiter::Comma && commas == points && commas > 0;
    if commas > points || parted {
        Decimal::Comma
    } else {
        Decimal::Point
    }
}

/// True when the first row has words where others have numbers, or no number at all.
fn names_columns(rows: &[Row], decimal: Decimal) -> bool {
    let is_number = |cell: &String| parse(cell, decimal).is_ok();
    let Some((first, others)) = rows.split_first() else {
        return false;
    };
    let numbers = first.cells.iter().filter(|cell| is_number(cell)).count();
    let words = |at: usize| !first.cell(at).is_empty() && !is_number(&first.cell(at).to_owned());
    let differs = (0..first.cells.len()).any(|at| {
        words(at)
            && others
                .iter()
                .any(|row| row.cells.get(at).is_some_and(is_number))
    });
    differs || numbers == 0 && !others.is_empty()
}
