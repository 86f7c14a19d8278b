//! Tables as text, as spreadsheets and loggers write them: RFC 4180 and its usual kin with other
//! delimiters, decimal commas and encodings. Reading is bounded, and refuses by name what it can't
//! take; writing keeps a spreadsheet from taking text for a formula. What the columns mean is for
//! the layers above: here are cells, and numbers with their units.
#![deny(missing_docs)]

mod cell;
mod form;
mod guess;
mod number;
mod read;
mod scan;
mod unit;
mod write;

pub use cell::{guarded, unguarded};
pub use form::{Decimal, Delimiter, Encoding, Form};
pub use guess::guess;
pub use number::{NumberError, parse, shortest};
pub use read::{Limits, Row, Table, TableError, read};
pub use unit::{Unit, in_header, of_symbol};
pub use write::{Style, Writer};
