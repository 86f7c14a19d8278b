//! A circuit checked with hot oil on the bench.

use diagnosis::judgement::Span;
use diagnosis::oil_check::{OilCheckAnswer, OilCurvePoint, OilPointAnswer};
use maud::{Markup, html};
use model::bench::Instrument;
use model::oil_check::{LineDirection, OilPoint};

use super::piece::{assumptions, fact, facts, findings, list, or_not_entered, recorded};
use crate::describe::OilCheckReport;
use crate::draw::{Curve, Line, MeasuredPoint, PressurePlot, mark};
use crate::quantity::{Quantity, Shown};
use crate::text::Said;
use crate::words;

/// Its part of a bore's section.
pub(super) fn section(check: &OilCheckReport, shown: &Shown, number: usize) -> Markup {
    let answer = &check.answer;
    let settle: Vec<_> = answer
        .settle
        .iter()
        .map(|&how| html! { (words::oil_settle(how)) })
        .collect();
    html! {
        section class="oil-check" {
            h3 { "Hot-oil check " (number) }
            p class="verdict-line" {
                (mark(words::mark_of(Some(answer.verdict))))
                strong { (words::oil_verdict(answer.verdict)) }
            }
            (entered(check, shown))
            (plot(check, shown))
            (points(check, shown))
            (findings(&answer.findings, shown))
            (assumptions(&answer.assumptions))
            (list("What would settle it", "settle", &settle))
        }
    }
}

fn entered(check: &OilCheckReport, shown: &Shown) -> Markup {
    let it = &check.figures;
    let answer = &check.answer;
    let named = |instrument: &Option<Instrument>| match instrument {
        Some(instrument) => html! { (Said(&instrument.name)) },
        None => html! { "not entered: a wide guess was taken" },
    };
    let rows = html! {
        (fact("Proves", if check.repair.is_some() { "the repair before it" } else { "nothing yet: the circuit as it was found" }))
        (fact("Oil", html! {
            (or_not_entered(it.oil_temperature_k, |si| shown.both(si, Quantity::Temperature))) ", "
            @if it.other_oil { "another oil than the unit’s" } @else { "the unit’s oil" }
            @if !it.fluid.trim().is_empty() { ", " (Said(&it.fluid)) }
        }))
        (fact("Gauge of the regulated pressure", named(&check.feed_gauge)))
        (fact("Gauge of line", named(&check.line_gauge)))
        (fact("Thermometer", named(&check.thermometer)))
        (fact("Against the prediction", words::verdict(answer.against_prediction)))
        (fact("The prediction is", match answer.basis {
            Some(basis) => words::oil_basis(basis),
            None => "none: what it needs isn’t known",
        }))
        (fact("Against the specification", words::verdict(answer.against_specification)))
        @if let Some(between) = &answer.hysteresis {
            (fact("Line rising less line falling", html! {
                (shown.both(*between.measured_pa, Quantity::Pressure)) " at "
                (shown.value(*between.line_pa, Quantity::Pressure)) " line"
                @if let Some(most) = between.predicted_most_pa {
                    "; friction makes at most " (shown.value(*most, Quantity::Pressure)) ": "
                    (words::friction(between.verdict))
                }
            }))
        }
        @if !it.note.trim().is_empty() { (fact("Notes", super::piece::prose(&it.note))) }
        (fact("Recorded", recorded(&check.recorded)))
    };
    facts("How it was done, and what it says", rows)
}

fn points(check: &OilCheckReport, shown: &Shown) -> Markup {
    let rows = check.figures.points.iter().zip(&check.answer.points);
    html! {
        table class="points" tabindex="0" {
            caption { "Points, in the order in which they were read" }
            thead {
                tr {
                    th scope="col" class="number" { "Line" }
                    th scope="col" { "Way" }
                    th scope="col" class="number" { "Read" }
                    th scope="col" class="number" { "Predicted" }
                    th scope="col" { "Against the prediction" }
                    th scope="col" { "Against the specification" }
                }
            }
            tbody { @for (point, told) in rows { (row(point, told, shown)) } }
        }
    }
}

fn row(point: &OilPoint, told: &OilPointAnswer, shown: &Shown) -> Markup {
    let pressure = |si: f64| shown.value(si, Quantity::Pressure);
    html! {
        tr {
            th scope="row" class="number" { (pressure(*point.line_pa)) }
            td { (words::direction(point.direction)) }
            td class="number" {
                strong { (pressure(*point.feed_pa)) } br;
                span class="when" { "±" (pressure(*told.expanded_uncertainty_pa)) }
            }
            td class="number" {
                @match &told.predicted_pa {
                    Some(Span { low, likely, high }) => {
                        (pressure(**likely)) br;
                        span class="when" { (shown.interval(**low, **high, Quantity::Pressure)) }
                    },
                    None => "none",
                }
            }
            td {
                span class="verdict-line" {
                    (mark(words::mark_of(told.against_prediction)))
                    span { (words::in_band(told.against_prediction)) }
                }
            }
            td { (words::verdict(told.against_specification)) }
        }
    }
}

/// The predicted band, both ways together, with the points that were read.
fn plot(check: &OilCheckReport, shown: &Shown) -> Markup {
    let answer = &check.answer;
    if answer.curve.is_empty() {
        return html! {
            @if let Some(reason) = answer.withheld {
                p class="refusal" {
                    strong { "No pressure can be predicted. " } (words::consequence_refusal(reason))
                }
            }
        };
    }
    let limits = [check.specified_pa[0], check.specified_pa[1]];
    let drawn = PressurePlot {
        shown,
        title: "Regulated pressure against line pressure: predicted, and as read on the bench"
            .to_owned(),
        curves: vec![
            curve(answer, Line::Predicted, "rising", |at| at.rising_pa),
            curve(answer, Line::AsNew, "falling", |at| at.falling_pa),
        ],
        limits: limits.into_iter().flatten().collect(),
        measured: measured(check),
    };
    html! {
        figure tabindex="0" {
            (drawn.draw())
            figcaption {
                "Predicted for this oil temperature: chain line with line rising, dotted with line falling, each in its band. "
                "Read on the bench, with its uncertainty: full with line rising, open with line falling. Dashed: specified."
            }
        }
    }
}

fn curve(
    answer: &OilCheckAnswer,
    line: Line,
    label: &'static str,
    pick: fn(&OilCurvePoint) -> Span,
) -> Curve {
    let points = answer.curve.iter().map(|at| {
        let span = pick(at);
        (*at.line_pa, [*span.low, *span.likely, *span.high])
    });
    Curve {
        line,
        label,
        points: points.collect(),
        band: true,
    }
}

/// The points of a check as a plot marks them.
pub(super) fn measured(check: &OilCheckReport) -> Vec<MeasuredPoint> {
    let read = check.figures.points.iter().zip(&check.answer.points);
    read.map(|(point, told)| MeasuredPoint {
        line: *point.line_pa,
        feed: *point.feed_pa,
        off: *told.expanded_uncertainty_pa,
        open: point.direction == LineDirection::Falling,
    })
    .collect()
}
