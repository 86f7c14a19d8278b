//! In short: what was found, what it does to the pressure, what was done, what is open.

use diagnosis::card::Conclusion;
use diagnosis::judgement::{ConsequenceAnswer, OperatingPoint};
use maud::{Markup, html};
use model::bench::Verdict;

use super::bore::worked_on;
use super::piece::{by, fact};
use crate::describe::{BoreReport, Report, TestReport};
use crate::draw::mark;
use crate::quantity::{Quantity, Shown};
use crate::text::Said;
use crate::words;

/// The part of the page.
pub(super) fn summary(report: &Report) -> Markup {
    html! {
        section class="summary" aria-labelledby="in-short" {
            h2 id="in-short" { "In short" }
            @if worked_on(report).next().is_none() {
                p { "Nothing was tested, checked or repaired in this job yet." }
            }
            @for bore in worked_on(report) { (of_bore(report, bore)) }
        }
    }
}

fn of_bore(report: &Report, bore: &BoreReport) -> Markup {
    let shown = &report.shown;
    let first = told(bore, false);
    let last = told(bore, true);
    html! {
        table class="facts short" {
            caption { (Said(&bore.profile.bore.name)) " (" (Said(&bore.profile.circuit.name)) ")" }
            tbody {
                @if let Some(inspection) = &bore.inspection {
                    (fact("Inspection", html! {
                        span class="verdict-line" {
                            (mark(words::mark_of_conclusion(inspection.card.conclusion)))
                            strong { (words::conclusion(inspection.card.conclusion)) }
                        }
                    }))
                }
                @if let Some(test) = first {
                    (fact("Found", found(test, shown)))
                    (fact("What it does", does(test, shown)))
                } @else {
                    (fact("Found", "No reading on record."))
                }
                (fact("Done", done(bore)))
                @if let Some(test) = last.filter(|_| !bore.repairs.is_empty()) {
                    (fact("Tested since", html! {
                        (found(test, shown)) (does(test, shown))
                    }))
                }
                (fact("Open", open(report, bore)))
            }
        }
    }
}

/// The last test with readings that came before every repair, or after one.
pub(super) fn told(bore: &BoreReport, after_repair: bool) -> Option<&TestReport> {
    bore.tests
        .iter()
        .rev()
        .find(|test| test.after_repair == after_repair && test.judgement.readings.is_some())
}

/// The verdict with its mark and figures.
pub(super) fn found(test: &TestReport, shown: &Shown) -> Markup {
    let judgement = &test.judgement;
    let verdict = judgement.decision.as_ref().map(|decision| decision.verdict);
    html! {
        span class="verdict-line" {
            (mark(words::mark_of(verdict)))
            span {
                strong { (words::verdict(verdict)) }
                ": " (Said(&test.test_point.name))
                @if let Some(readings) = &judgement.readings {
                    ", " (shown.with_uncertainty(
                        *readings.mean_vacuum_pa, *readings.expanded_uncertainty_pa, Quantity::Vacuum,
                    ))
                }
                @if let Some(limit) = &judgement.limit {
                    " against a limit of " (shown.value(*limit.today_vacuum_pa, Quantity::Vacuum))
                    " that day (" (shown.value(*limit.sea_level_vacuum_pa, Quantity::Vacuum)) " at sea level)"
                }
                "."
            }
        }
    }
}

fn does(test: &TestReport, shown: &Shown) -> Markup {
    match &test.judgement.consequence {
        Some(ConsequenceAnswer::Computed(consequence)) => html! {
            (shift("at the highest line pressure", &consequence.highest_line, shown)) " "
            (shift("at hot idle", &consequence.idle, shown))
        },
        Some(ConsequenceAnswer::Withheld { reason }) => html! {
            "No pressure can be predicted. " (words::consequence_refusal(*reason))
        },
        None => html! { "No pressure can be predicted without a reading." },
    }
}

/// One working point in a sentence.
fn shift(place: &str, point: &OperatingPoint, shown: &Shown) -> Markup {
    let line = shown.value(*point.line_pa, Quantity::Pressure);
    html! {
        @if let Some(shift) = &point.shift_pa {
            strong { (shown.signed(*shift.likely, Quantity::Pressure)) }
            " " (place) " (" (line) "), interval "
            (shown.signed_interval(*shift.low, *shift.high, Quantity::Pressure)) "."
        } @else {
            "No shift to give " (place) " (" (line) "): "
            (words::new_state(point.new_state).unwrap_or_else(|| words::measured_state(point.measured_state)))
        }
    }
}

fn done(bore: &BoreReport) -> Markup {
    html! {
        @if bore.repairs.is_empty() {
            "No repair is on record."
        } @else {
            @for (i, repair) in bore.repairs.iter().enumerate() {
                @if i > 0 { br; }
                (words::option(repair.work.option)) ", " (by(&repair.recorded.written)) "."
            }
        }
    }
}

fn open(report: &Report, bore: &BoreReport) -> Markup {
    let mut points: Vec<String> = Vec::new();
    for repair in &bore.repairs {
        points.extend(
            repair
                .open
                .iter()
                .map(|&point| words::open_point(point).to_owned()),
        );
    }
    points.dedup();
    match bore.inspection.as_ref().map(|it| it.card.conclusion) {
        Some(Conclusion::Unfinished) => {
            points.push("The inspection isn’t finished: checks that decide are open.".to_owned());
        }
        Some(Conclusion::Unsettled) => {
            points.push(
                "The inspection is not settled; its section says what would settle it.".to_owned(),
            );
        }
        Some(Conclusion::Faulty) if bore.repairs.is_empty() => {
            points.push("The inspection condemns the bore and no repair is on record.".to_owned());
        }
        Some(Conclusion::Sound | Conclusion::Faulty) | None => {}
    }
    let judged = |test: &TestReport| test.judgement.decision.as_ref().map(|it| it.verdict);
    let last = bore
        .tests
        .iter()
        .rev()
        .find(|test| test.judgement.readings.is_some());
    if bore.repairs.is_empty() && last.and_then(judged) == Some(Verdict::OutsideLimit) {
        points.push("The bore is outside its limit and no repair is on record.".to_owned());
    }
    if last.is_some_and(|test| test.judgement.decision.is_none()) {
        points.push("The last test gives no decision; its section says why.".to_owned());
    }
    let undecided = |test: &&TestReport| {
        judged(test).is_some() && test.decisions.iter().all(|line| line.decision.is_none())
    };
    if bore.repairs.is_empty() && last.as_ref().is_some_and(undecided) {
        points.push("The decision on the last test isn’t on record.".to_owned());
    }
    if bore
        .tests
        .iter()
        .any(|test| test.decisions.iter().any(|line| line.outdated))
    {
        points.push("A decision on record was made from other figures than stand now.".to_owned());
    }
    if report.cautions.iter().any(|caution| caution.read.is_none()) {
        points.push("Not every caution was acknowledged.".to_owned());
    }
    if !report.withheld.is_empty() {
        points.push("Some records came without their content; they are listed below.".to_owned());
    }
    html! {
        @if points.is_empty() {
            "Nothing is open on the bench. The road test decides."
        } @else {
            ul class="plain" { @for point in points { li { (point) } } }
        }
    }
}
