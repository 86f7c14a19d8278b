//! From cells to bytes: RFC 4180, with CRLF.

use crate::cell::guarded;
use crate::form::Decimal;

/// How a table is written. With a decimal comma the cells are parted by semicolons, as the
/// spreadsheets of such places expect.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Style {
    /// A byte order mark first.
    pub byte_order_mark: bool,
    /// What stands before decimals.
    pub decimal: Decimal,
}

/// Writes a table in memory.
pub struct Writer {
    cells: csv::Writer<Vec<u8>>,
    style: Style,
    row: Vec<String>,
}

impl Writer {
    /// Begins a table.
    #[must_use]
    pub fn new(style: Style) -> Self {
        let delimiter = match style.decimal {
            Decimal::Point => b',',
            Decimal::Comma => b';',
        };
        let mut bytes = Vec::new();
        if style.byte_order_mark {
            bytes.extend_from_slice("\u{feff}".as_bytes());
        }
        let cells = csv::WriterBuilder::new()
            .delimiter(delimiter)
            .terminator(csv::Terminator::CRLF)
            .from_writer(bytes);
        Self {
            cells,
            style,
            row: Vec::new(),
        }
    }

    /// A cell with text that people may have typed.
    pub fn text(&mut self, text: &str) {
        self.row.push(guarded(text));
    }

    /// A cell with a number; none leaves it empty.
    pub fn number(&mut self, value: Option<f64>) {
        let point = value.map_or(String::new(), |value| value.to_string());
        self.row.push(match self.style.decimal {
            Decimal::Point => point,
            Decimal::Comma => point.replace('.', ","),
        });
    }

    /// Ends the row.
    ///
    /// # Errors
    /// None that memory doesn't have, or a row that isn't as long as the first.
    pub fn end_row(&mut self) -> Result<(), csv::Error> {
        self.cells.write_record(&self.row)?;
        self.row.clear();
        Ok(())
    }

    /// The whole file.
    ///
    /// # Errors
    /// None that memory doesn't have.
    pub fn finish(self) -> Result<Vec<u8>, std::io::Error> {
        self.cells
            .into_inner()
            .map_err(csv::IntoInnerError::into_error)
    }
}
