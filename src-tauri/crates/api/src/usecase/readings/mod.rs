//! Readings as a table: out, and in from a spreadsheet or a logger.

mod columns;
mod out;
mod plan;
mod rows;
mod take;

use tabular::{Table, TableError};

use crate::error::{ApiError, ErrorCode};

pub(crate) use out::write;
pub(crate) use take::{look, take_in};

impl From<TableError> for ApiError {
    fn from(error: TableError) -> Self {
        let at = |code, line: u64| Self::new(code).with("line", line);
        match error {
            TableError::TooLarge { most } => {
                Self::new(ErrorCode::TableTooLong).with("most", format!("{} MB", most >> 20))
            }
            TableError::TooManyRows { most } => {
                Self::new(ErrorCode::TableTooLong).with("most", most)
            }
            TableError::TooManyColumns { line, most } | TableError::CellTooLong { line, most } => {
                at(ErrorCode::TableTooWide, line).with("most", most)
            }
            TableError::UnclosedQuote { line } => at(ErrorCode::TableQuoteOpen, line),
            TableError::NotText { line } => at(ErrorCode::TableNotText, line),
            TableError::Empty => Self::new(ErrorCode::TableEmpty),
        }
    }
}

/// What stands above the columns; empty where the table names none.
fn header(table: &Table) -> &[String] {
    table.header.as_deref().unwrap_or_default()
}
