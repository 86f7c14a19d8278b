//! Pressures read at the taps of the unit.

use maud::{Markup, html};
use model::Finite;

use super::piece::{fact, facts, findings, or_not_entered, recorded};
use crate::describe::{Report, TapLine, TapReport};
use crate::draw::mark;
use crate::quantity::{Quantity, Shown};
use crate::text::Said;
use crate::words;

/// Its part of the page; nothing where nothing was read.
pub(super) fn section(report: &Report) -> Markup {
    let shown = &report.shown;
    html! {
        @if !report.taps.is_empty() {
            section class="taps" {
                h2 { "Pressures at the taps" }
                p { "Measured, each with the uncertainty of its gauge, and held against the window that the service information gives." }
                @for tap in &report.taps { (one(tap, shown)) }
            }
        }
    }
}

fn one(tap: &TapReport, shown: &Shown) -> Markup {
    let pressure =
        |value: Option<Finite>| or_not_entered(value, |si| shown.value(si, Quantity::Pressure));
    html! {
        h3 {
            @match &tap.tap {
                Some(it) => { (Said(&it.name)) @if !tap.circuit.is_empty() { ", " (Said(&tap.circuit)) } },
                None => "A tap that is no longer in the profile",
            }
        }
        @if let Some(it) = &tap.tap {
            (facts("Window of the service information", html! {
                (fact("Lowest, highest", format!("{}; {}", pressure(it.low_pa), pressure(it.high_pa))))
                (fact("Holds when", said(&it.condition)))
                (fact("Where in the circuit", words::node(it.node)))
                (fact("Who says so", said(&it.source)))
            }))
        }
        table class="points" tabindex="0" {
            caption { "Readings, oldest first" }
            thead {
                tr {
                    th scope="col" { "When" }
                    th scope="col" class="number" { "Read" }
                    th scope="col" class="number" { "Line, oil" }
                    th scope="col" { "Gear, command, load" }
                    th scope="col" { "Against the window" }
                    th scope="col" { "Against the leak" }
                }
            }
            tbody { @for line in &tap.readings { (reading(line, shown)) } }
        }
        @for line in &tap.readings {
            @if let Some(answer) = &line.answer { (findings(&answer.findings, shown)) }
        }
    }
}

fn said(text: &str) -> Markup {
    match text.trim() {
        "" => html! { "not said" },
        _ => html! { (Said(text)) },
    }
}

fn reading(line: &TapLine, shown: &Shown) -> Markup {
    let it = &line.figures;
    let verdict = line.answer.as_ref().and_then(|answer| answer.verdict);
    let pressure = |si: f64| shown.value(si, Quantity::Pressure);
    html! {
        tr {
            th scope="row" {
                (words::occasion(it.occasion)) ", " (words::tap_place(it.place)) br;
                span class="when" { (recorded(&line.recorded)) }
            }
            td class="number" {
                strong { (pressure(*it.pressure_pa)) } br;
                span class="when" {
                    @if let Some(answer) = &line.answer {
                        "±" (pressure(*answer.expanded_uncertainty_pa)) " (95 %), "
                    }
                    @match &line.gauge { Some(gauge) => (Said(&gauge.name)), None => "gauge not entered" }
                }
            }
            td class="number" {
                (or_not_entered(it.line_pa, pressure)) br;
                (or_not_entered(it.oil_temperature_k, |si| shown.value(si, Quantity::Temperature)))
            }
            td {
                (said(&it.command)) br; (said(&it.load))
                @if !it.note.trim().is_empty() { br; (Said(&it.note)) }
            }
            td {
                span class="verdict-line" {
                    (mark(words::mark_of(verdict)))
                    span {
                        @match verdict { Some(_) => (words::verdict(verdict)), None => "no window" }
                    }
                }
            }
            td {
                @match &line.beside {
                    Some(beside) => {
                        (Said(&beside.bore_name)) ": " (words::beside(beside.verdict)) br;
                        span class="when" {
                            "predicted " (pressure(*beside.predicted_pa.likely)) ", "
                            (shown.interval(*beside.predicted_pa.low, *beside.predicted_pa.high, Quantity::Pressure))
                        }
                    },
                    None => "not held against it",
                }
            }
        }
    }
}
