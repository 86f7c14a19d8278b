//! The decisions on record, all of them.

use maud::{Markup, html};

use super::bore::worked_on;
use super::piece::{prose, recorded};
use super::test::test_id;
use crate::describe::{DecisionLine, Fate, Report, TestReport};
use crate::draw::mark;
use crate::quantity::{Quantity, Shown};
use crate::text::{Said, short};
use crate::words;

/// The part of the page.
pub(super) fn section(report: &Report) -> Markup {
    let all: Vec<_> = worked_on(report)
        .flat_map(|bore| bore.tests.iter().map(move |test| (bore, test)))
        .flat_map(|(bore, test)| test.decisions.iter().map(move |line| (bore, test, line)))
        .collect();
    html! {
        section class="decisions" {
            h2 { "Decisions on record" }
            @if all.is_empty() {
                p { "None. What this report says of a verdict is what the figures say, not what somebody decided." }
            } @else {
                p { "A decision pins the readings, the unit’s profile and the version of the physics that it was made from. A later change never rewrites it." }
                table tabindex="0" {
                    caption { "Decisions, oldest first, those corrected and struck out too" }
                    thead {
                        tr {
                            th scope="col" { "What" }
                            th scope="col" { "Verdict" }
                            th scope="col" { "Made from" }
                            th scope="col" { "Who, when, record" }
                        }
                    }
                    tbody {
                        @for (bore, test, line) in all {
                            (row(&bore.profile.bore.name, test, line, &report.shown))
                        }
                    }
                }
            }
        }
    }
}

fn row(bore: &str, test: &TestReport, line: &DecisionLine, shown: &Shown) -> Markup {
    let gone = line.fate != Fate::Stands;
    html! {
        tr class=[gone.then_some("gone")] {
            th scope="row" { (Said(bore)) ", " (Said(&test.test_point.name)) br; (test_id(test)) }
            @match &line.decision {
                None => td colspan="2" { "withheld: its content isn’t on this device" },
                Some(decision) => {
                    td {
                        span class="verdict-line" {
                            (mark(words::mark_of(Some(decision.verdict))))
                            span {
                                @if gone { s { (words::verdict(Some(decision.verdict))) } }
                                @else { strong { (words::verdict(Some(decision.verdict))) } }
                                br; (shown.chance(*decision.conformity_probability)) " chance to conform"
                            }
                        }
                        @if gone { p { strong { (words::fate(line.fate)) } } }
                        @if line.outdated && !gone {
                            p { strong { "Outdated: " } "a reading, the profile or the physics has changed since." }
                        }
                        @if !decision.note.trim().is_empty() { p { (prose(&decision.note)) } }
                    }
                    td {
                        "mean " (shown.value(*decision.mean_vacuum_pa, Quantity::Vacuum))
                        ", limit " (shown.value(*decision.limit_vacuum_pa, Quantity::Vacuum))
                        @for (place, shift) in [
                            ("hot idle", &decision.shift_idle_pa), ("highest line", &decision.shift_highest_line_pa),
                        ] {
                            @if let Some([low, likely, high]) = shift {
                                br; "shift at " (place) " " (shown.signed(**likely, Quantity::Pressure))
                                ", " (shown.signed_interval(**low, **high, Quantity::Pressure))
                            }
                        }
                        br; (decision.inputs.len()) " records; profile "
                        span class="id" { (short(&decision.profile_digest)) }
                        "; physics version " (Said(&decision.physics_version))
                    }
                }
            }
            td { (recorded(&line.recorded)) }
        }
    }
}
