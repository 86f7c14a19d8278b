//! The readings of one bore side by side: each reading, the mean with its 95 % bar, the limit of
//! that day.

use maud::{Markup, html};

use super::axis::Scale;
use super::c;
use super::hatch::{Area, hatch};
use crate::quantity::{Quantity, Shown};
use crate::words::{Mark, verdict};
use model::bench::Verdict;

/// One test.
pub(crate) struct ReadingRow {
    pub label: String,
    pub note: String,
    /// Readings that count, Pa.
    pub counting_pa: Vec<f64>,
    /// Mean and expanded uncertainty, Pa.
    pub mean_pa: Option<(f64, f64)>,
    /// Limit carried to that day, Pa.
    pub limit_pa: Option<f64>,
    pub verdict: Option<Verdict>,
}

const WIDTH: f64 = 700.0;
const LEFT: f64 = 176.0;
const RIGHT: f64 = 140.0;
const TOP: f64 = 14.0;
const ROW: f64 = 58.0;

/// Draws them, the oldest at the top.
pub(crate) fn readings(rows: &[ReadingRow], shown: &Shown, title: &str) -> Markup {
    let unit = shown.unit(Quantity::Vacuum);
    let values = rows.iter().flat_map(|row| {
        let mean = row.mean_pa.map(|(mean, u)| [mean - u, mean + u]);
        let mut all = row.counting_pa.clone();
        all.extend(mean.into_iter().flatten());
        all.extend(row.limit_pa);
        all
    });
    let x = Scale::around(values.map(|pa| unit.of_si(pa)), LEFT, WIDTH - RIGHT);
    let bottom = TOP + ROW * rows.len() as f64;
    let (ticks, decimals) = x.ticks();
    let height = bottom + 42.0;
    html! {
        svg class="plot" viewBox=(format!("0 0 {WIDTH} {height}")) role="img" aria-label=(title) {
            @for &tick in &ticks {
                line class="grid" x1=(c(x.place(tick))) x2=(c(x.place(tick))) y1=(c(TOP)) y2=(c(bottom)) {}
                text class="tick" x=(c(x.place(tick))) y=(c(bottom + 16.0)) text-anchor="middle" {
                    (shown.number(tick, decimals))
                }
            }
            line class="axis" x1=(c(LEFT)) x2=(c(WIDTH - RIGHT)) y1=(c(bottom)) y2=(c(bottom)) {}
            text class="axis-title" x=(c((LEFT + WIDTH - RIGHT) / 2.0)) y=(c(bottom + 35.0)) text-anchor="middle" {
                "vacuum, " (unit.symbol) " below ambient"
            }
            @for (i, row) in rows.iter().enumerate() {
                (one(row, TOP + ROW * (i as f64 + 0.5), &x, |pa| unit.of_si(pa)))
            }
        }
    }
}

fn one(row: &ReadingRow, y: f64, x: &Scale, of_si: impl Fn(f64) -> f64) -> Markup {
    let place = |pa: f64| x.place(of_si(pa));
    let (upper, lower) = (y - ROW * 0.36, y + ROW * 0.36);
    html! {
        text class="row" x=(c(LEFT - 12.0)) y=(c(y - 2.0)) text-anchor="end" { (row.label) }
        text class="tick" x=(c(LEFT - 12.0)) y=(c(y + 13.0)) text-anchor="end" { (row.note) }
        @if let Some(limit) = row.limit_pa {
            // Hatched on the side that fails: less vacuum than the limit.
            path class="thin" d=(hatch(
                Area { x: place(limit) - 8.0, y: upper, width: 8.0, height: lower - upper }, 5.0, false,
            )) {}
            line class="limit" x1=(c(place(limit))) x2=(c(place(limit))) y1=(c(upper)) y2=(c(lower)) {}
        }
        @for &pa in &row.counting_pa {
            circle class="reading" cx=(c(place(pa))) cy=(c(y + 12.0)) r="3.2" {}
        }
        @if let Some((mean, u)) = row.mean_pa {
            path class="bar" d=(format!(
                "M{0} {1}V{2}M{0} {3}H{4}M{4} {1}V{2}",
                c(place(mean - u)), c(y - 13.0), c(y - 1.0), c(y - 7.0), c(place(mean + u)),
            )) {}
            path class="mean" d=(format!("M{} {}l6 6l-6 6l-6 -6z", c(place(mean)), c(y - 13.0))) {}
        }
        text class="row" x=(c(WIDTH - RIGHT + 12.0)) y=(c(y + 4.0)) {
            (sign(crate::words::mark_of(row.verdict))) " " (verdict(row.verdict))
        }
    }
}

/// A verdict's sign in a line of text.
fn sign(mark: Mark) -> &'static str {
    match mark {
        Mark::Within => "✓",
        Mark::Close => "◇",
        Mark::Outside => "✕",
        Mark::NotJudged => "–",
    }
}
