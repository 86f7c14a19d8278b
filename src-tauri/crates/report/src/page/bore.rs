//! One bore: its drawing, its tests, the relief of its circuit, its repairs.

use diagnosis::judgement::{ConsequenceAnswer, LeakAnswer};
use diagnosis::pressure::drawn_stroke_m;
use maud::{Markup, html};

use super::{inspection, machining, oil_check, relief, repair, test};
use crate::describe::{BoreReport, Report};
use crate::draw::{self, ReadingRow};
use crate::quantity::{Quantity, Shown};
use crate::text::Said;
use crate::words;

/// The bores on which something was done.
pub(super) fn worked_on(report: &Report) -> impl Iterator<Item = &BoreReport> {
    report.bores.iter().filter(|bore| is_worked_on(bore))
}

pub(super) fn is_worked_on(bore: &BoreReport) -> bool {
    !bore.tests.is_empty()
        || bore.relief.is_some()
        || !bore.repairs.is_empty()
        || bore.machining.is_some()
        || bore.inspection.is_some()
        || !bore.oil_checks.is_empty()
}

/// The bores on which nothing was.
pub(super) fn untouched(report: &Report) -> Markup {
    let idle: Vec<_> = report
        .bores
        .iter()
        .filter(|bore| !is_worked_on(bore))
        .collect();
    html! {
        @if !idle.is_empty() {
            section {
                h2 { "Bores without any work on record" }
                ul { @for bore in idle { li { (Said(&bore.profile.bore.name)) } } }
            }
        }
    }
}

/// One bore's part of the page.
pub(super) fn section(report: &Report, bore: &BoreReport, index: usize) -> Markup {
    let shown = &report.shown;
    let heading = format!("bore-{}", index + 1);
    html! {
        section class="bore" aria-labelledby=(heading) {
            h2 id=(heading) { (Said(&bore.profile.bore.name)) }
            (drawing(bore, shown))
            (inspection::section(bore, shown))
            (side_by_side(bore, shown))
            @for (i, it) in bore.tests.iter().enumerate() { (test::section(it, shown, i + 1)) }
            @if bore.tests.is_empty() { p { "No vacuum test is on record." } }
            @match &bore.relief {
                Some(it) => (relief::section(it, shown)),
                None => p class="none" { "The relief of this circuit was not checked in this job." },
            }
            @if let Some(it) = &bore.machining { (machining::section(it, shown)) }
            @for (i, it) in bore.repairs.iter().enumerate() {
                (repair::section(bore, it, shown, i + 1))
            }
            @if bore.repairs.is_empty() { p class="none" { "No repair of this bore is on record." } }
            @for (i, it) in bore.oil_checks.iter().enumerate() {
                (oil_check::section(it, shown, i + 1))
            }
        }
    }
}

fn drawing(bore: &BoreReport, shown: &Shown) -> Markup {
    let profile = &bore.profile;
    let judged = bore
        .tests
        .iter()
        .rev()
        .find(|test| matches!(test.judgement.leak, Some(LeakAnswer::Known(_))));
    let stroke = judged.and_then(|test| match &test.judgement.consequence {
        Some(ConsequenceAnswer::Computed(consequence)) => Some(*consequence.stroke_m),
        _ => None,
    });
    let tested: &[String] = judged.map_or(&[], |test| &test.test_point.isolates);
    let stroke = stroke.unwrap_or_else(|| drawn_stroke_m(profile));
    let valve = profile.reaction_land().and_then(|land| land.diameter_m);
    html! {
        @if let Some(section) = draw::section(profile, stroke, tested, shown) {
            figure tabindex="0" {
                (section)
                figcaption {
                    "Section to scale, where the valve regulates; clearances are drawn larger than scale. "
                    @if !tested.is_empty() { "Dashed: where the air of the test went. " }
                    "Bore " (shown.both(*profile.bore.diameter_m, Quantity::Length))
                    ", " (words::material(profile.bore.material))
                    @if let Some(valve) = valve {
                        "; valve " (shown.both(*valve, Quantity::Length))
                        ", " (words::material(profile.bore.spool.material))
                    }
                    @if let Some(orifice) = &profile.balance_orifice {
                        "; balance orifice " (shown.both(*orifice.diameter_m, Quantity::Length))
                    }
                    ". As new, by the unit’s profile."
                }
            }
        } @else {
            p class="none" { "The bore can’t be drawn: its profile lacks dimensions, or they contradict each other." }
        }
    }
}

/// Every test's readings on one scale, once there are two tests to compare.
fn side_by_side(bore: &BoreReport, shown: &Shown) -> Markup {
    let rows: Vec<_> = bore
        .tests
        .iter()
        .enumerate()
        .filter(|(_, test)| test.judgement.readings.is_some())
        .map(|(i, test)| ReadingRow {
            label: format!(
                "Test {}{}",
                i + 1,
                if bore.repairs.is_empty() {
                    ""
                } else if test.after_repair {
                    ", after"
                } else {
                    ", before"
                }
            ),
            note: test.begun.at.format("%Y-%m-%d").to_string(),
            counting_pa: test::counting(test),
            mean_pa: test
                .judgement
                .readings
                .as_ref()
                .map(|it| (*it.mean_vacuum_pa, *it.expanded_uncertainty_pa)),
            limit_pa: test
                .judgement
                .limit
                .as_ref()
                .map(|limit| *limit.today_vacuum_pa),
            verdict: test
                .judgement
                .decision
                .as_ref()
                .map(|decision| decision.verdict),
        })
        .collect();
    html! {
        @if rows.len() > 1 {
            figure tabindex="0" {
                (draw::readings(&rows, shown, "The readings of each test with their uncertainty"))
                figcaption {
                    "Rings: readings that count. Diamond and bar: their mean with its uncertainty, 95 %. "
                    "Upright line: the limit carried to that day, hatched on the side that fails. "
                    "Each test’s section has the figures."
                }
            }
        }
    }
}
