//! The customer's version: one page in plain words. What there is no room for is left out, and the
//! page says so; the technical version has all of it.

use maud::{Markup, html};
use model::bench::Verdict;

use diagnosis::judgement::{Consequence, OperatingPoint};

use super::bore::is_worked_on;
use super::piece::{fact, facts, who};
use super::repair::computed;
use super::summary::told;
use crate::Room;
use crate::describe::{BoreReport, MachiningReport, Personal, Report, TestReport};
use crate::draw::mark;
use crate::quantity::{Quantity, Shown};
use crate::text::{Said, cut};
use crate::words;

/// What a person typed, as much of it as there is room for.
fn said(text: &str, room: Room) -> Markup {
    html! { (Said(&cut(text, room.letters))) }
}

/// All of it.
pub(super) fn page(report: &Report, room: Room) -> Markup {
    let bores = in_order(report);
    let shown = &bores[..bores.len().min(room.bores)];
    html! {
        (banner(report, room))
        main class="customer" {
            (job(report, room))
            h2 { "What we found" }
            @if bores.is_empty() { p { "Nothing was tested or repaired yet." } }
            @for bore in shown { (one(bore, &report.shown, room)) }
            (left_out(bores.len() - shown.len()))
            (open(report, &bores, room))
            (warranty(report, room))
        }
        (foot(report))
    }
}

/// Those that something was done on; repaired ones first, then the worst.
fn in_order(report: &Report) -> Vec<&BoreReport> {
    let mut bores: Vec<_> = report
        .bores
        .iter()
        .filter(|bore| is_worked_on(bore))
        .collect();
    let weight = |bore: &BoreReport| {
        let last = told(bore, true).or_else(|| told(bore, false));
        match last.map(verdict) {
            _ if !bore.repairs.is_empty() => 0,
            Some(Some(Verdict::OutsideLimit)) => 1,
            Some(Some(Verdict::TooCloseToCall)) => 2,
            Some(None) | None => 3,
            Some(Some(Verdict::WithinLimit)) => 4,
        }
    };
    bores.sort_by_key(|bore| weight(bore));
    bores
}

fn verdict(test: &TestReport) -> Option<Verdict> {
    test.judgement.decision.as_ref().map(|it| it.verdict)
}

fn banner(report: &Report, room: Room) -> Markup {
    html! {
        header {
            p class="shop" {
                @if report.shop.trim().is_empty() { "Shop without a name" } @else { (said(&report.shop, room)) }
            }
            @if report.demo {
                p class="demo" { "Demonstration: invented shop, people, vehicles and figures" }
            }
            h1 { "What we found and did" }
            p class="unit" { "Job " (said(&report.number, room)) ", " (said(&report.unit, room)) }
        }
    }
}

fn job(report: &Report, room: Room) -> Markup {
    let or_none = |text: &Option<String>| match text.as_deref().map(str::trim) {
        None => html! { "not on this device" },
        Some("") => html! { "nothing noted" },
        Some(text) => said(text, room),
    };
    let rows = html! {
        @if let Personal::Shown(customer) = &report.customer {
            (fact("Customer", html! {
                @for (i, text) in [&customer.name, &customer.phone, &customer.plate]
                    .into_iter().filter(|text| !text.trim().is_empty()).enumerate()
                {
                    @if i > 0 { ", " } (said(text, room))
                }
            }))
        }
        (fact("Vehicle", or_none(&report.vehicle.as_ref().map(|it| it.description.clone()))))
        (fact("What you told us", or_none(&report.complaint)))
        (fact("Dates", html! {
            "begun " (report.opened_on.to_string()) "; this page made "
            (report.made.at.format("%Y-%m-%d").to_string()) " by " (who(&cut(&report.made.by, room.letters)))
        }))
    };
    facts("The job", rows)
}

/// One valve: found, meaning, done, before and after.
fn one(bore: &BoreReport, shown: &Shown, room: Room) -> Markup {
    let before = told(bore, false);
    let after = told(bore, true);
    html! {
        section class="valve" {
            h3 { (said(&bore.profile.bore.name, room)) }
            table class="facts" {
                caption class="unseen" { "What we found, what it means and what was done" }
                tbody {
                    (fact("Found", found(bore, before)))
                    (fact("What it means", meaning(effect(bore, before).or_else(|| effect(bore, after)))))
                    (fact("Done", done(bore, room)))
                    @if !bore.repairs.is_empty() && (after.is_some() || bore.inspection.is_some()) {
                        (fact(if after.is_some() { "Tested since" } else { "Checked since" }, since(bore, after)))
                    }
                }
            }
            (figures(bore, before, after, shown))
        }
    }
}

fn judged(test: &TestReport) -> Markup {
    let verdict = verdict(test);
    html! {
        span class="verdict-line" {
            (mark(words::mark_of(verdict))) strong { (words::plain_verdict(verdict)) "." }
        }
    }
}

fn found(bore: &BoreReport, test: Option<&TestReport>) -> Markup {
    html! {
        @if let Some(test) = test { (judged(test)) }
        // After a repair the checks that are open or done again say nothing of what was found before.
        @if bore.repairs.is_empty() { (together(bore, test.is_some())) }
        @if test.is_none() && (bore.inspection.is_none() || !bore.repairs.is_empty()) {
            "No test before the repair is on record."
        }
    }
}

/// What was read and checked after the repair.
fn since(bore: &BoreReport, test: Option<&TestReport>) -> Markup {
    html! {
        @if let Some(test) = test { (judged(test)) }
        (together(bore, test.is_some()))
    }
}

/// What all checks that count say together, after a verdict or by itself.
fn together(bore: &BoreReport, follows: bool) -> Markup {
    html! {
        @if let Some(inspection) = &bore.inspection {
            @if follows { " " }
            (words::plain_conclusion(inspection.card.conclusion))
        }
    }
}

/// What the pressure does: by the test, or with the valve as it was found by all checks together.
fn effect<'a>(bore: &'a BoreReport, test: Option<&'a TestReport>) -> Option<&'a Consequence> {
    let tested = test.and_then(|test| computed(test.judgement.consequence.as_ref()));
    let checked = bore.inspection.as_ref().filter(|_| bore.repairs.is_empty());
    tested.or_else(|| computed(checked.and_then(|it| it.card.consequence.as_ref())))
}

/// In the vehicle.
fn meaning(effect: Option<&Consequence>) -> Markup {
    let Some(it) = effect else {
        return html! { "What this does in the vehicle can’t be calculated from what was measured." };
    };
    html! {
        "This valve keeps the oil pressure steady that works the gear changes. By our calculation that "
        "pressure, with hot oil, " (words::plain_pressure(&it.idle)) " at idle and "
        (words::plain_pressure(&it.highest_line)) " under full load. "
        // How it is felt: common practice, no source. The cause is left to the road test.
        @if troubled(it) {
            "Gear changes can then be late, soft or harsh; whether it is the cause of what you noticed, a road test tells."
        }
    }
}

fn troubled(it: &Consequence) -> bool {
    use diagnosis::judgement::SpecificationAnswer::{Inside, LikelyInside};
    [&it.idle, &it.highest_line]
        .into_iter()
        .any(|point| !matches!(point.against_specification, Some(Inside | LikelyInside)))
}

fn done(bore: &BoreReport, room: Room) -> Markup {
    html! {
        @if bore.repairs.is_empty() { "No repair of it is on record." }
        @for (i, repair) in bore.repairs.iter().rev().take(2).rev().enumerate() {
            @if i > 0 { " " }
            (words::plain_option(repair.work.option))
            @if !repair.work.parts.trim().is_empty() { ": " (said(&repair.work.parts, room)) }
            "."
        }
        @if bore.repairs.len() > 2 { " Earlier repairs are in the technical report." }
    }
}

/// Before and after in figures. A figure that was calculated says so.
fn figures(
    bore: &BoreReport,
    before: Option<&TestReport>,
    after: Option<&TestReport>,
    shown: &Shown,
) -> Markup {
    let repaired = !bore.repairs.is_empty();
    let forecast = bore
        .repairs
        .last()
        .and_then(|repair| computed(repair.forecast.as_ref().map(|it| &it.prediction)));
    let was = effect(bore, before);
    let now = after.and_then(|test| computed(test.judgement.consequence.as_ref()));
    let limit = after
        .or(before)
        .and_then(|test| test.judgement.limit.as_ref());
    let any = now.or(was).or(forecast);
    let vacuum = |test: Option<&TestReport>, missing: &'static str| {
        let readings = test.and_then(|test| test.judgement.readings.as_ref());
        readings.map_or_else(
            || missing.to_owned(),
            |it| shown.value(*it.mean_vacuum_pa, Quantity::Vacuum),
        )
    };
    let missing = if repaired { "not tested since" } else { "–" };
    html! {
        @if was.is_some() || now.is_some() || before.is_some() || after.is_some() {
            table class="points figures" tabindex="0" {
                caption { @if repaired { "Before and after" } @else { "In figures" } }
                thead {
                    tr {
                        th scope="col" { "What" }
                        th scope="col" class="number" { @if repaired { "Before" } @else { "As found" } }
                        @if repaired { th scope="col" class="number" { "After" } }
                        th scope="col" class="number" { "Should be" }
                    }
                }
                tbody {
                    tr {
                        th scope="row" { "How well it seals (vacuum held, measured)" }
                        td class="number" { (vacuum(before, "–")) }
                        @if repaired { td class="number" { strong { (vacuum(after, missing)) } } }
                        td class="number" {
                            @match limit {
                                Some(limit) => { "at least " (shown.value(*limit.today_vacuum_pa, Quantity::Vacuum)) }
                                None => "–",
                            }
                        }
                    }
                    @if let Some(any) = any {
                        @for (name, at) in [
                            ("Oil pressure at idle, hot (calculated)", (|it| &it.idle) as At),
                            ("Oil pressure under full load (calculated)", |it| &it.highest_line),
                        ] {
                            tr {
                                th scope="row" { (name) }
                                td class="number" { (pressure(was.map(at), shown)) }
                                @if repaired {
                                    td class="number" {
                                        @match (now, forecast) {
                                            (Some(now), _) => strong { (pressure(Some(at(now)), shown)) },
                                            (None, Some(forecast)) => { "expected " (pressure(Some(at(forecast)), shown)) },
                                            (None, None) => "–",
                                        }
                                    }
                                }
                                td class="number" {
                                    (shown.interval(*any.specified_low_pa, *any.specified_high_pa, Quantity::Pressure))
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// One of the two places at which a pressure is told.
type At = for<'a> fn(&'a Consequence) -> &'a OperatingPoint;

/// A pressure with its interval: less would hide how sure it is.
fn pressure(point: Option<&OperatingPoint>, shown: &Shown) -> Markup {
    let Some(point) = point else {
        return html! { "–" };
    };
    let feed = &point.measured_feed_pa;
    html! {
        (shown.value(*feed.likely, Quantity::Pressure)) br;
        span class="when" { (shown.interval(*feed.low, *feed.high, Quantity::Pressure)) }
    }
}

fn left_out(count: usize) -> Markup {
    html! {
        @match count {
            0 => {},
            1 => p class="more" { "One more valve was worked on; this page has no room for it, the technical report has it." },
            n => p class="more" { (n) " more valves were worked on; this page has no room for them, the technical report has them." },
        }
    }
}

fn open(report: &Report, bores: &[&BoreReport], room: Room) -> Markup {
    let mut points: Vec<&str> = Vec::new();
    for point in bores
        .iter()
        .flat_map(|bore| &bore.repairs)
        .flat_map(|repair| &repair.open)
    {
        points.push(words::plain_open(*point));
    }
    for bore in bores.iter().filter(|bore| bore.repairs.is_empty()) {
        let last = told(bore, true).or_else(|| told(bore, false));
        match last.and_then(verdict) {
            Some(Verdict::OutsideLimit) => {
                points.push("A valve leaks too much and no repair of it is on record.")
            }
            Some(Verdict::TooCloseToCall) => points
                .push("A valve is too close to its limit to tell, and nothing was done on it."),
            Some(Verdict::WithinLimit) | None => {}
        }
    }
    let unsigned = |sheet: &MachiningReport| sheet.signed.is_none();
    if report
        .bores
        .iter()
        .filter_map(|it| it.machining.as_ref())
        .any(unsigned)
    {
        points.push("Nobody has signed for the machining of a valve’s bore yet.");
    }
    if !report.withheld.is_empty() {
        points.push("Some records of this job are not on the device that made this page.");
    }
    let mut seen = std::collections::BTreeSet::new();
    points.retain(|point| seen.insert(*point));
    let more = points.len().saturating_sub(room.open);
    html! {
        h2 { "What stays open" }
        ul {
            @for point in points.iter().take(room.open) { li { (point) } }
            @if more > 0 { li { "And " (more) " more, in the technical report." } }
            li { "Whether the vehicle drives as it should, only a road test by trained people shows." }
        }
    }
}

fn warranty(report: &Report, room: Room) -> Markup {
    html! {
        @if let Some((warranty, _)) = &report.handover.warranty {
            @let terms = warranty.text.as_str();
            h2 { "Warranty" }
            p { (words::warranty(warranty.months, warranty.distance_m.map(|m| *m), &report.shown)) }
            @if !terms.trim().is_empty() { p { (said(terms, room)) } }
            @if terms.chars().count() > room.letters { p class="more" { "The whole of the terms is with the shop." } }
        }
    }
}

fn foot(report: &Report) -> Markup {
    html! {
        footer {
            p {
                "Pressures are calculated from what was measured on the bench, with the interval that they may lie in. "
                "This page is no service information and allows nothing beyond the limits of the vehicle’s maker. "
                "Readings, instruments and sources are in the technical report of this job."
                @if matches!(report.customer, Personal::LeftOut) {
                    " Name, telephone and plate were left out because they weren’t asked for."
                }
            }
        }
    }
}
