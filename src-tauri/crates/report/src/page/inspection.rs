//! The inspection: what the checks of a bore say together, what that does to the pressure and to the
//! clutches, each check with its readings and instruments; and the checks of body and case.

use diagnosis::card::{BoreCard, CheckLine, ClutchAt, ClutchEffect, GapSource, NextStep};
use maud::{Markup, html};
use model::inspection::CheckName;
use model::unit::SolenoidKind;

use super::consequence;
use super::piece::{assumptions, findings, list, prose, recorded};
use crate::describe::{BoreInspection, BoreReport, CheckShown, Report};
use crate::draw::mark;
use crate::quantity::{Quantity, Shown};
use crate::text::Said;
use crate::words;

/// The part of a bore's section; nothing without an inspection.
pub(super) fn section(bore: &BoreReport, shown: &Shown) -> Markup {
    let Some(it) = &bore.inspection else {
        return html! {};
    };
    let card = &it.card;
    html! {
        section class="inspection" {
            h3 { "Inspection" }
            p class="verdict-line" {
                (mark(words::mark_of_conclusion(card.conclusion)))
                strong { (words::conclusion(card.conclusion)) }
            }
            @if card.conclusion == diagnosis::card::Conclusion::Unfinished {
                p { "No bore is passed on a vacuum reading alone; what decides is still open." }
            }
            (together(card, shown))
            (settled_by(card))
            (checks_table(it))
            (pressure(card, shown))
            (clutches(card, shown))
            @for check in &it.checks { (one(check, shown)) }
            (findings(&card.findings, shown))
            (assumptions(&card.assumptions))
        }
    }
}

/// The checks of body and case; nothing without any.
pub(super) fn body(report: &Report) -> Markup {
    html! {
        @if !report.body_checks.is_empty() {
            section class="inspection" {
                h2 { "Body and case" }
                @for check in &report.body_checks { (one(check, &report.shown)) }
            }
        }
    }
}

fn together(card: &BoreCard, shown: &Shown) -> Markup {
    html! {
        @if !card.accord.is_empty() {
            div class="list" {
                p class="list-title" { "What the checks say together" }
                ul {
                    @for accord in &card.accord {
                        @let (weight, said) = words::accord(accord, shown);
                        li class="verdict-line" { (mark(weight)) span { (said) } }
                    }
                }
            }
        }
    }
}

fn settled_by(card: &BoreCard) -> Markup {
    let ways: Vec<_> = card
        .next
        .iter()
        .filter_map(|step| match step {
            NextStep::Settle { by } => Some(html! { (words::settle(*by)) }),
            _ => None,
        })
        .collect();
    list("What would settle it", "settle", &ways)
}

fn checks_table(it: &BoreInspection) -> Markup {
    let why = |check: CheckName| {
        let left = it.left_out.iter().find(|left| left.check == check)?;
        (!left.why.trim().is_empty()).then_some(left.why.as_str())
    };
    let row = |line: &CheckLine| {
        html! {
            tr {
                th scope="row" {
                    (words::check(line.check))
                    @if line.decides { br; span class="when" { "decides" } }
                }
                td {
                    @match line.outcome {
                        Some(outcome) => span class="verdict-line" {
                            (mark(words::mark_of_outcome(outcome))) span { (words::outcome(outcome)) }
                        },
                        None => (words::check_state(line.state)),
                    }
                    @if line.outcome.is_none() && let Some(why) = why(line.check) { ": " (Said(why)) }
                }
            }
        }
    };
    html! {
        table class="checks" tabindex="0" {
            caption { "The checks of this bore, in the order of the bench" }
            thead { tr { th scope="col" { "Check" } th scope="col" { "What it says by itself" } } }
            tbody { @for line in &it.card.checks { (row(line)) } }
        }
    }
}

fn pressure(card: &BoreCard, shown: &Shown) -> Markup {
    html! {
        @if card.consequence.is_some() {
            (consequence::answer(card.consequence.as_ref(), shown))
            @if let Some(source) = card.clearance_from {
                p class="beside" {
                    "Clearance by "
                    (match source { GapSource::Vacuum => "the vacuum test", GapSource::Diameters => "the diameters" })
                    "; spring, orifice and friction as measured where they were measured."
                }
            }
        } @else {
            p { "No clearance is known, so no pressure can be told." }
        }
    }
}

/// What the shift costs or adds at each clutch.
fn clutches(card: &BoreCard, shown: &Shown) -> Markup {
    html! {
        @if !card.clutches.is_empty() {
            table class="points" tabindex="0" {
                caption { "What that does to each clutch of the circuit: less than nought is lost" }
                thead {
                    tr {
                        th scope="col" { "Clutch" }
                        th scope="col" { "Where" }
                        th scope="col" class="number" { "Its pressure, as new" }
                        th scope="col" class="number" { "Shift, interval" }
                        th scope="col" class="number" { "Torque, as new" }
                        th scope="col" class="number" { "Lost or surplus, likely" }
                        th scope="col" class="number" { "Its interval" }
                    }
                }
                tbody {
                    @for clutch in &card.clutches {
                        (clutch_row(clutch, "Hot idle", clutch.idle.as_ref(), shown))
                        (clutch_row(clutch, "Highest line", clutch.highest_line.as_ref(), shown))
                    }
                }
            }
            @for clutch in card.clutches.iter().filter(|clutch| !clutch.lacks.is_empty()) {
                p class="beside" { (Said(&clutch.name)) ": the profile lacks a dimension of it, which costs its torque." }
            }
        }
    }
}

fn clutch_row(clutch: &ClutchEffect, place: &str, at: Option<&ClutchAt>, shown: &Shown) -> Markup {
    html! {
        tr {
            th scope="row" {
                (Said(&clutch.name))
                @if let Some(kind) = clutch.solenoid_kind {
                    br; span class="when" { (words::solenoid_kind(kind)) }
                }
            }
            td {
                (place)
                @if clutch.solenoid_kind == Some(SolenoidKind::ClosedLoop)
                    && at.is_some_and(|at| at.near_feed)
                {
                    br; span class="when" { "command near the feed: the output may follow it" }
                }
            }
            @if let Some(at) = at {
                td class="number" { (shown.value(*at.before_pa, Quantity::Pressure)) }
                td class="number" {
                    (shown.signed_interval(*at.shift_pa.low, *at.shift_pa.high, Quantity::Pressure))
                }
                @if let Some(torque) = &at.torque {
                    td class="number" { (shown.value(*torque.before_n_m, Quantity::Torque)) }
                    td class="number" {
                        strong { (shown.signed(*torque.change_n_m.likely, Quantity::Torque)) }
                        @if let Some(share) = &torque.share {
                            br; span class="when" { (signed_share(*share.likely, shown)) }
                        }
                    }
                    td class="number" {
                        (shown.signed_interval(*torque.change_n_m.low, *torque.change_n_m.high, Quantity::Torque))
                    }
                } @else {
                    td class="number" colspan="3" { "not told" }
                }
            } @else {
                td colspan="5" { "not told: the valve doesn’t regulate there when new, or the profile lacks a figure" }
            }
        }
    }
}

fn signed_share(share: f64, shown: &Shown) -> String {
    let plus = if share > 0.0 { "+" } else { "" };
    format!("{plus}{}\u{a0}%", shown.number(share * 100.0, 0))
}

/// One check with what was entered.
fn one(check: &CheckShown, shown: &Shown) -> Markup {
    let record = &check.record;
    html! {
        table class="facts check" {
            caption {
                (words::check(record.found.name())) ", " (words::occasion(record.occasion)) ": "
                (words::outcome(check.outcome))
            }
            tbody {
                @for (name, said) in words::found(&record.found, shown) {
                    tr { th scope="row" { (Said(&name)) } td { (Said(&said)) } }
                }
                @for instrument in &check.instruments {
                    tr { th scope="row" { "Measured with" } td { (Said(&words::instrument(instrument, shown))) } }
                }
                @if !record.note.trim().is_empty() {
                    tr { th scope="row" { "Note" } td { (prose(&record.note)) } }
                }
                tr { th scope="row" { "Recorded" } td { (recorded(&check.recorded)) } }
            }
        }
        (findings(&check.findings, shown))
    }
}
