//! From bytes to cells.

use std::borrow::Cow;

use crate::cell::unguarded;
use crate::form::{Encoding, Form};
use crate::scan;

/// The most that is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Limits {
    /// Bytes of the file.
    pub bytes: usize,
    /// Rows, the one that names the columns included.
    pub rows: usize,
    /// Columns of any row.
    pub columns: usize,
    /// Bytes of one cell, its quotes included.
    pub cell_bytes: usize,
}

impl Default for Limits {
    /// A day's work of a logger, and some.
    fn default() -> Self {
        Self {
            bytes: 4 << 20,
            rows: 1_001,
            columns: 200,
            cell_bytes: 4_096,
        }
    }
}

/// Why a file can't be taken apart.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum TableError {
    /// The file is too long.
    #[error("longer than {most} bytes")]
    TooLarge {
        /// How long it may be.
        most: usize,
    },
    /// It has too many rows.
    #[error("more than {most} rows")]
    TooManyRows {
        /// How many it may have.
        most: usize,
    },
    /// A row has too many columns.
    #[error("line {line}: more than {most} columns")]
    TooManyColumns {
        /// Where.
        line: u64,
        /// How many it may have.
        most: usize,
    },
    /// A cell is too long.
    #[error("line {line}: a cell of more than {most} bytes")]
    CellTooLong {
        /// Where its row begins.
        line: u64,
        /// How long it may be.
        most: usize,
    },
    /// A quote is never closed.
    #[error("line {line}: a quote without its end")]
    UnclosedQuote {
        /// Where its row begins.
        line: u64,
    },
    /// It isn't text in this encoding.
    #[error("line {line}: not text")]
    NotText {
        /// Where.
        line: u64,
    },
    /// There is nothing in it.
    #[error("empty")]
    Empty,
}

/// One row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// The line of the file on which it begins, from one.
    pub line: u64,
    /// Its cells; the guard against formulas is taken off, and space around them.
    pub cells: Vec<String>,
}

impl Row {
    /// A cell; a short row has empty ones at its end.
    #[must_use]
    pub fn cell(&self, column: usize) -> &str {
        self.cells.get(column).map_or("", String::as_str)
    }
}

/// A table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Table {
    /// Names of the columns; none where the first line is a row like others.
    pub header: Option<Vec<String>>,
    /// Its rows.
    pub rows: Vec<Row>,
    /// Cells of the longest row.
    pub columns: usize,
}

/// Takes a file apart.
///
/// # Errors
/// [`TableError`].
pub fn read(bytes: &[u8], form: &Form, limits: &Limits) -> Result<Table, TableError> {
    if bytes.len() > limits.bytes {
        return Err(TableError::TooLarge { most: limits.bytes });
    }
    let text = decoded(bytes, form.encoding)?;
    let lines = scan::rows(&text, form.delimiter.byte(), limits)?;
    let mut reader = csv::ReaderBuilder::new()
        .delimiter(form.delimiter.byte())
        .has_headers(false)
        .flexible(true)
        .from_reader(text.as_bytes());
    let mut rows = Vec::with_capacity(lines.len());
    for (record, line) in reader.records().zip(lines) {
        let record = record.map_err(|_| TableError::NotText { line })?;
        let cells = record
            .iter()
            .map(|cell| unguarded(cell.trim_matches(' ')).to_owned())
            .collect();
        rows.push(Row { line, cells });
    }
    if rows.is_empty() {
        return Err(TableError::Empty);
    }
    let columns = rows.iter().map(|row| row.cells.len()).max().unwrap_or(0);
    let header = form.header.then(|| rows.remove(0).cells);
    Ok(Table {
        header,
        rows,
        columns,
    })
}

/// The text of a file, without its byte order mark.
pub(crate) fn decoded(bytes: &[u8], encoding: Encoding) -> Result<Cow<'_, str>, TableError> {
    let found = encoding_rs::Encoding::for_bom(bytes);
    let (encoding, skip) = match (encoding, found) {
        (Encoding::Utf8, Some((it, skip))) if it == encoding_rs::UTF_8 => (it, skip),
        (Encoding::Utf16, Some((it, skip))) if it != encoding_rs::UTF_8 => (it, skip),
        (Encoding::Utf8, _) => (encoding_rs::UTF_8, 0),
        // Without a mark the order is a guess that every wrong letter would betray.
        (Encoding::Utf16, _) => (encoding_rs::UTF_16LE, 0),
        (Encoding::Windows1252, _) => (encoding_rs::WINDOWS_1252, 0),
    };
    let rest = &bytes[skip..];
    encoding
        .decode_without_bom_handling_and_without_replacement(rest)
        .ok_or_else(|| TableError::NotText {
            line: first_bad_line(rest, encoding),
        })
}

/// The line of the first bytes that are no text.
fn first_bad_line(bytes: &[u8], encoding: &'static encoding_rs::Encoding) -> u64 {
    let (text, _) = encoding.decode_without_bom_handling(bytes);
    let before = text.split('\u{fffd}').next().unwrap_or_default();
    1 + before.bytes().filter(|byte| *byte == b'\n').count() as u64
}
