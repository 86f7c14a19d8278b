//! Pieces that many parts of the page are made of.

use chrono::{DateTime, FixedOffset};
use maud::{Markup, Render, html};
use model::{Finding, Finite};

use super::place::place;
use crate::describe::{Recorded, Written};
use crate::quantity::Shown;
use crate::text::{Said, record};
use crate::words;

/// Local time, as ISO 8601 writes it: no reader takes the month for the day.
pub(crate) fn moment(written: &Written) -> String {
    moment_of(&written.at)
}

/// As [`moment`].
pub(crate) fn moment_of(at: &DateTime<FixedOffset>) -> String {
    at.format("%Y-%m-%d %H:%M").to_string()
}

/// Who and when.
pub(crate) fn by(written: &Written) -> Markup {
    html! { (who(&written.by)) ", " span class="when" { (moment(written)) } }
}

/// A person, or that nobody is known.
pub(crate) fn who(name: &str) -> Markup {
    if name.trim().is_empty() {
        html! { "somebody not named here" }
    } else {
        Said(name).render()
    }
}

/// Who, when, and which record.
pub(crate) fn recorded(recorded: &Recorded) -> Markup {
    html! { (by(&recorded.written)) " " (id(recorded.record)) }
}

/// A record's id, short.
pub(crate) fn id(of: model::Id) -> Markup {
    html! { span class="id" { (record(of)) } }
}

/// Free text, with its lines as typed.
pub(crate) fn prose(text: &str) -> Markup {
    html! { span class="prose" { (Said(text)) } }
}

/// A row of a table of facts.
pub(crate) fn fact(label: &str, value: impl Render) -> Markup {
    html! { tr { th scope="row" { (label) } td { (value) } } }
}

/// A table of facts.
pub(crate) fn facts(caption: &str, rows: Markup) -> Markup {
    html! { table class="facts" { caption { (caption) } tbody { (rows) } } }
}

/// A value that may be missing.
pub(crate) fn or_not_entered(value: Option<Finite>, tell: impl Fn(f64) -> String) -> String {
    value.map_or_else(|| "not entered".to_owned(), |value| tell(*value))
}

/// A list of sentences under a heading of its own; nothing without any.
pub(crate) fn list(title: &str, class: &str, items: &[Markup]) -> Markup {
    html! {
        @if !items.is_empty() {
            div class={ "list " (class) } {
                p class="list-title" { (title) }
                ul { @for item in items { li { (item) } } }
            }
        }
    }
}

/// What is odd, each with the word for how much it matters.
pub(crate) fn findings(findings: &[Finding], shown: &Shown) -> Markup {
    let items: Vec<_> = findings
        .iter()
        .map(|finding| {
            html! {
                strong { (words::severity(finding.severity)) } " "
                @if let Some(place) = place(&finding.field) { "(" (place) ") " }
                (words::finding(finding, shown))
            }
        })
        .collect();
    list("What was odd", "findings", &items)
}

/// What an answer rests on.
pub(crate) fn assumptions(assumed: &[diagnosis::Assumed]) -> Markup {
    let items: Vec<_> = assumed
        .iter()
        .map(|&assumed| html! { (words::assumed(assumed)) })
        .collect();
    list("What this rests on", "assumptions", &items)
}
