//! A job as one printable HTML page that needs nothing beside it: no script, no reference to
//! anything outside, drawings and typeface inside. Pure: whoever has the records fills in a
//! [`Report`] and gets the page.
//!
//! Everything that people typed is escaped by the template and can't steer the display; the page
//! forbids itself all but its own styles and typeface (Content-Security-Policy).
#![deny(missing_docs)]

mod describe;
mod draw;
mod page;
mod quantity;
mod text;
mod words;

pub use describe::{
    BoreInspection, BoreReport, Caution, CheckShown, DecisionLine, Fate, LeftOutShown,
    OilCheckReport, Part, Personal, PhotoShown, Picture, ReadingLine, Recorded, ReliefReport,
    RepairReport, Report, Stage, TapBesideLeak, TapLine, TapReport, TestReport, Withheld, Written,
};
pub use quantity::{Force, Length, Pressure, Shown, Temperature, Units, Vacuum};

/// The page.
#[must_use]
pub fn html(report: &Report) -> String {
    page::page(report).into_string()
}
