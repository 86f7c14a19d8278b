//! A job as one printable HTML page that needs nothing beside it: no script, no reference to
//! anything outside, drawings and typeface inside. Pure: whoever has the records fills in a
//! [`Report`] and gets the page, or the same elements as a tree ([`document`]), for whoever sets
//! them otherwise than a browser does.
//!
//! There are two versions: the technical one holds everything on record about the job, the
//! customer's has one page in plain words.
//!
//! Everything that people typed is escaped by the template and can't steer the display; the page
//! forbids itself all but its own styles and typeface (Content-Security-Policy).
#![deny(missing_docs)]

mod describe;
mod draw;
mod handover;
mod page;
mod quantity;
mod text;
mod tree;
mod version;
mod words;

pub use describe::{
    BoreInspection, BoreReport, Caution, CheckShown, DecisionLine, Fate, LeftOutShown,
    MachiningReport, OilCheckReport, Part, Personal, PhotoShown, Picture, ReadingLine, Recorded,
    ReliefReport, RepairReport, Report, ShopPartShown, Stage, TapBesideLeak, TapLine, TapReport,
    TestReport, Withheld, Written,
};
pub use handover::{
    AuthorisationShown, EstimateShown, FittedShown, Handover, OpenShown, SignOffShown,
};
pub use quantity::{Force, Length, Pressure, Shown, Temperature, Units, Vacuum};

pub use tree::{Drawing, Element, Node, Photo};
pub use version::{Room, Version};

/// The page.
#[must_use]
pub fn html(report: &Report, version: Version) -> String {
    page::page(report, version).into_string()
}

/// What a page holds, as a tree.
#[derive(Debug, Clone, PartialEq)]
pub struct Document {
    /// What it is called, on one line.
    pub title: String,
    /// When the report was made.
    pub made_at: chrono::DateTime<chrono::FixedOffset>,
    /// Its elements, in the order in which they are read.
    pub body: Vec<Node>,
}

/// The same elements as [`html`] shows. `room` is heeded by the customer's version alone.
#[must_use]
pub fn document(report: &Report, version: Version, room: Room) -> Document {
    Document {
        title: page::title(report, version),
        made_at: report.made.at,
        body: tree::read(&page::body(report, version, room).into_string()),
    }
}
