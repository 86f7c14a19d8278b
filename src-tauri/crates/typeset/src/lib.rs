//! A report as a PDF file: the very elements that the HTML page shows ([`report::document`]), set in
//! pages by a layout of our own and written by krilla, tagged, with its fonts inside, and held against
//! PDF/UA-1 (ISO 14289-1) while it is written.
//!
//! Pure: no clock, no file, no network. The same report gives the same bytes. What people typed
//! comes as text and stays text: there is no markup language between the report and the page.
//!
//! The typeface has the letters of European languages in Latin script, and the signs that the
//! reports use. Any other character stands as U+FFFD, and the document says so; the HTML version
//! has them all.
#![deny(missing_docs)]

mod block;
mod face;
mod flow;
mod line;
mod paint;
mod read;
mod table;

use report::{Report, Room, Version};

/// Why there is no file.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
pub enum TypesetError {
    /// A font of the program can't be used.
    #[error("a font of the program can't be used")]
    Font,
    /// A drawing of the report can't be used.
    #[error("a drawing can't be used: {0}")]
    Drawing(String),
    /// A photo can't be used.
    #[error("a photo can't be used: {0}")]
    Photo(String),
    /// The file can't be written, or doesn't hold to PDF/UA-1.
    #[error("the file can't be written: {0}")]
    File(String),
    /// The customer's version doesn't fit on one page, however much is left out.
    #[error("the customer's version doesn't fit on one page")]
    NoRoom,
}

/// Sets a report. The customer's version has exactly one page: rows are left out, and said to be,
/// until it fits; nothing is set smaller than 9 pt.
///
/// # Errors
/// See [`TypesetError`].
pub fn pdf(report: &Report, version: Version) -> Result<Vec<u8>, TypesetError> {
    let faces = face::Faces::load()?;
    let rooms: &[Room] = match version {
        Version::Technical => &[Room::WIDEST],
        Version::Customer => &Room::ALL,
    };
    for &room in rooms {
        let document = report::document(report, version, room);
        let content = read::content(&document, version, &faces);
        let layout = flow::lay_out(&content, version, &faces);
        if version == Version::Technical || layout.pages.len() == 1 {
            return paint::file(&document, &content, &layout, report, &faces);
        }
    }
    Err(TypesetError::NoRoom)
}
