//! Drawings as inline SVG, in ink on paper: nothing is told by colour alone.

mod axis;
mod hatch;
mod mark;
mod pressure;
mod readings;
mod section;

pub(crate) use mark::mark;
pub(crate) use pressure::{Curve, Line, MeasuredPoint, PressurePlot};
pub(crate) use readings::{ReadingRow, readings};
pub(crate) use section::section;

/// A coordinate: a tenth of a unit is finer than any printer's dot at this size.
pub(crate) fn c(value: f64) -> String {
    let text = format!("{value:.1}");
    match text.strip_suffix(".0") {
        Some(whole) => whole.to_owned(),
        None => text,
    }
}

/// A path through points.
pub(crate) fn path(points: impl IntoIterator<Item = (f64, f64)>) -> String {
    let mut d = String::new();
    for (i, (x, y)) in points.into_iter().enumerate() {
        d.push(if i == 0 { 'M' } else { 'L' });
        d.push_str(&c(x));
        d.push(' ');
        d.push_str(&c(y));
    }
    d
}
