//! What a page is filled with, in the order in which it is read.

use crate::line::Inline;

/// A report, ready to be laid out.
#[derive(Debug, Clone, Default)]
pub(crate) struct Content {
    pub blocks: Vec<Block>,
    pub drawings: Vec<DrawingFile>,
    pub photos: Vec<report::Photo>,
}

/// A drawing as a file of its own.
#[derive(Debug, Clone)]
pub(crate) struct DrawingFile {
    pub svg: String,
    /// Width and height in its own units.
    pub size: (f32, f32),
}

/// A block.
#[derive(Debug, Clone)]
pub(crate) enum Block {
    Heading {
        level: u16,
        text: Vec<Inline>,
        /// For the outline.
        plain: String,
    },
    Paragraph {
        text: Vec<Inline>,
        /// Stays with what follows.
        keeps: bool,
        /// A line beside it: something couldn't be told.
        barred: bool,
    },
    List(Vec<Vec<Inline>>),
    Table(Table),
    Drawing {
        drawing: usize,
        shows: String,
        caption: Vec<Inline>,
    },
    Photo {
        photo: usize,
        caption: Vec<Inline>,
    },
}

/// A table. Its head is repeated on each page, its rows stay whole.
#[derive(Debug, Clone, Default)]
pub(crate) struct Table {
    pub caption: Vec<Inline>,
    pub columns: Vec<Column>,
    pub head: Vec<Row>,
    pub body: Vec<Row>,
}

/// A column.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Column {
    /// Its share of the width.
    pub weight: f32,
}

/// A row.
pub(crate) type Row = Vec<Cell>;

/// A cell.
#[derive(Debug, Clone)]
pub(crate) struct Cell {
    /// Names its row, or in the head its column.
    pub names: bool,
    /// Set to the right.
    pub number: bool,
    /// How many columns it spans.
    pub span: usize,
    pub paragraphs: Vec<CellParagraph>,
}

/// A paragraph of a cell.
#[derive(Debug, Clone)]
pub(crate) struct CellParagraph {
    pub text: Vec<Inline>,
    /// A point of a list.
    pub point: bool,
}
