//! Regulated pressure against line pressure: likely curves with their bands, specified limits as
//! labelled lines.

use maud::{Markup, html};

use super::axis::Scale;
use super::{c, path};
use crate::quantity::{Quantity, Shown};

/// How a curve is drawn. Each differs in dash, weight and points, so that ink alone tells them
/// apart.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Line {
    AsNew,
    AsMeasured,
    Predicted,
    After,
}

impl Line {
    fn class(self) -> &'static str {
        match self {
            Self::AsNew => "as-new",
            Self::AsMeasured => "as-measured",
            Self::Predicted => "predicted",
            Self::After => "after",
        }
    }

    fn points(self) -> bool {
        matches!(self, Self::After | Self::AsMeasured)
    }
}

/// One curve: line pressure with low, likely and high feed, Pa.
pub(crate) struct Curve {
    pub line: Line,
    pub label: &'static str,
    pub points: Vec<(f64, [f64; 3])>,
    /// Whether its band is drawn.
    pub band: bool,
}

/// The plot.
pub(crate) struct PressurePlot<'a> {
    pub shown: &'a Shown,
    pub title: String,
    pub curves: Vec<Curve>,
    /// Specified, Pa: lowest and highest, as far as they are known.
    pub limits: Vec<f64>,
    /// Read on a bench.
    pub measured: Vec<MeasuredPoint>,
}

/// A point that was read: with line rising full, with line falling open.
pub(crate) struct MeasuredPoint {
    /// Line pressure, Pa.
    pub line: f64,
    /// Regulated pressure, Pa.
    pub feed: f64,
    /// How far it may be off (95 %), Pa.
    pub off: f64,
    pub open: bool,
}

const WIDTH: f64 = 700.0;
const HEIGHT: f64 = 340.0;
const LEFT: f64 = 52.0;
const RIGHT: f64 = 128.0;
const TOP: f64 = 30.0;
const BOTTOM: f64 = 48.0;
/// Two labels of one column need this much between them.
const LABEL: f64 = 15.0;

impl PressurePlot<'_> {
    /// Draws it.
    pub fn draw(&self) -> Markup {
        let unit = self.shown.unit(Quantity::Pressure);
        let lines = self.curves.iter().flat_map(|curve| &curve.points);
        let x = Scale::up_to(
            lines
                .clone()
                .map(|point| point.0)
                .chain(self.measured.iter().map(|point| point.line))
                .map(|pa| unit.of_si(pa)),
            LEFT,
            WIDTH - RIGHT,
        );
        let feeds = self.curves.iter().flat_map(|curve| {
            let all = curve.points.iter().flat_map(|point| point.1);
            let likely = curve.points.iter().map(|point| point.1[1]);
            if curve.band {
                all.collect::<Vec<_>>()
            } else {
                likely.collect()
            }
        });
        let read = self.measured.iter();
        let read = read.flat_map(|point| [point.feed - point.off, point.feed + point.off]);
        let limits = self.limits.iter().copied();
        let values = feeds.chain(limits).chain(read).map(|pa| unit.of_si(pa));
        let y = Scale::around(values, HEIGHT - BOTTOM, TOP);
        let at = |line: f64, feed: f64| (x.place(unit.of_si(line)), y.place(unit.of_si(feed)));
        let (x_ticks, x_decimals) = x.ticks();
        let (y_ticks, y_decimals) = y.ticks();
        let [left, right, floor] = [LEFT, WIDTH - RIGHT, HEIGHT - BOTTOM];
        html! {
            svg class="plot" viewBox=(format!("0 0 {WIDTH} {HEIGHT}")) role="img" aria-label=(self.title) {
                @for &tick in &y_ticks {
                    line class="grid" x1=(c(left)) x2=(c(right)) y1=(c(y.place(tick))) y2=(c(y.place(tick))) {}
                    text class="tick" x=(c(left - 7.0)) y=(c(y.place(tick) + 4.0)) text-anchor="end" {
                        (self.shown.number(tick, y_decimals))
                    }
                }
                @for &tick in &x_ticks {
                    line class="axis" x1=(c(x.place(tick))) x2=(c(x.place(tick))) y1=(c(floor)) y2=(c(floor + 5.0)) {}
                    text class="tick" x=(c(x.place(tick))) y=(c(floor + 18.0)) text-anchor="middle" {
                        (self.shown.number(tick, x_decimals))
                    }
                }
                path class="axis" d=(format!("M{0} {1}V{2}H{3}", c(left), c(TOP), c(floor), c(right))) {}
                text class="axis-title" x=(c(left)) y="16" { "regulated pressure (feed), " (unit.symbol) }
                text class="axis-title" x=(c((left + right) / 2.0)) y=(c(floor + 38.0)) text-anchor="middle" {
                    "line pressure, " (unit.symbol)
                }
                @for curve in self.curves.iter().filter(|curve| curve.band) {
                    @let high = curve.points.iter().map(|&(line, feed)| at(line, feed[2]));
                    @let low = curve.points.iter().rev().map(|&(line, feed)| at(line, feed[0]));
                    path class={ "band " (curve.line.class()) } d={ (path(high.chain(low))) "z" } {}
                }
                @for &limit in &self.limits {
                    @let place = at(0.0, limit).1;
                    line class="limit" x1=(c(left)) x2=(c(right)) y1=(c(place)) y2=(c(place)) {}
                }
                @for curve in &self.curves {
                    path class={ "curve " (curve.line.class()) }
                        d=(path(curve.points.iter().map(|&(line, feed)| at(line, feed[1])))) {}
                    @if curve.line.points() { (points(curve, at)) }
                }
                @for point in &self.measured { (bar(point, at)) }
                @for label in self.labels(at) {
                    path class="thin" d=(format!("M{} {}L{} {}", c(right + 1.0), c(label.end), c(right + 7.0), c(label.place))) {}
                    text class={ "label " (label.class) } x=(c(right + 10.0)) y=(c(label.place + 4.0)) {
                        (label.text)
                    }
                }
            }
        }
    }

    /// What each line is, at its end; pushed apart where two would overlap.
    fn labels(&self, at: impl Fn(f64, f64) -> (f64, f64)) -> Vec<Label> {
        let curves = self.curves.iter().filter_map(|curve| {
            let &(line, feed) = curve.points.last()?;
            let end = at(line, feed[1]).1;
            let (class, text) = (curve.line.class(), curve.label.to_owned());
            Some(Label {
                class,
                text,
                end,
                place: end,
            })
        });
        let limits = ["lowest", "highest"]
            .into_iter()
            .zip(self.limits.iter().copied())
            .map(|(name, limit)| {
                let end = at(0.0, limit).1;
                let text = format!("{name} {}", self.shown.value(limit, Quantity::Pressure));
                Label {
                    class: "limit-label",
                    text,
                    end,
                    place: end,
                }
            });
        let mut labels: Vec<_> = curves.chain(limits).collect();
        labels.sort_by(|a, b| a.end.total_cmp(&b.end));
        for i in 1..labels.len() {
            labels[i].place = labels[i].place.max(labels[i - 1].place + LABEL);
        }
        // Half of the pushing upward, so that a label stays near its line.
        let push: f64 = labels
            .iter()
            .map(|label| label.place - label.end)
            .fold(0.0, f64::max);
        let first = labels.first().map_or(0.0, |label| label.place - TOP);
        for label in &mut labels {
            label.place -= (push / 2.0).min(first.max(0.0));
        }
        labels
    }
}

/// A line's name in the margin.
struct Label {
    class: &'static str,
    text: String,
    end: f64,
    place: f64,
}

/// A point that was read, with its uncertainty as a bar.
fn bar(point: &MeasuredPoint, at: impl Fn(f64, f64) -> (f64, f64)) -> Markup {
    let (x, y) = at(point.line, point.feed);
    let (high, low) = (
        at(point.line, point.feed + point.off).1,
        at(point.line, point.feed - point.off).1,
    );
    html! {
        path class="bar" d=(format!("M{0} {1}V{2}M{3} {1}H{4}M{3} {2}H{4}", c(x), c(high), c(low), c(x - 3.0), c(x + 3.0))) {}
        circle class=(if point.open { "read-open" } else { "read-full" }) cx=(c(x)) cy=(c(y)) r="4" {}
    }
}

/// A few points along a curve, round after, square before.
fn points(curve: &Curve, at: impl Fn(f64, f64) -> (f64, f64)) -> Markup {
    let each = (curve.points.len() / 8).max(1);
    let start = if curve.line == Line::After {
        each / 2
    } else {
        0
    };
    html! {
        @for &(line, feed) in curve.points.iter().skip(start).step_by(each) {
            @let (x, y) = at(line, feed[1]);
            @if curve.line == Line::After {
                circle class="after-point" cx=(c(x)) cy=(c(y)) r="3.2" {}
            } @else {
                rect class="measured-point" x=(c(x - 2.8)) y=(c(y - 2.8)) width="5.6" height="5.6" {}
            }
        }
    }
}
