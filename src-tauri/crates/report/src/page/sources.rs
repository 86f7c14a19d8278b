//! Where limits and dimensions come from.

use std::collections::BTreeSet;

use maud::{Markup, html};

use super::bore::worked_on;
use crate::describe::{BoreReport, Report};
use crate::text::Said;
use crate::words;

/// The part of the page.
pub(super) fn section(report: &Report) -> Markup {
    let mut all: Vec<(String, String)> = Vec::new();
    let mut seen = BTreeSet::new();
    let parts = report.shop_parts.iter().map(|part| {
        let what = format!("{} “{}”: sizes", words::shop_part(part.part), part.name);
        (what, part.source.as_str())
    });
    for (what, source) in worked_on(report).flat_map(of_bore).chain(parts) {
        if seen.insert((what.clone(), source.to_owned())) {
            all.push((what, source.to_owned()));
        }
    }
    html! {
        section class="sources" {
            h2 { "Sources of limits and dimensions" }
            p { "Each was entered by the shop. The program comes with no figure of any real unit." }
            @if all.is_empty() {
                p { "No figure was used." }
            } @else {
                table tabindex="0" {
                    caption { "What was entered, and from where" }
                    thead { tr { th scope="col" { "Figures" } th scope="col" { "Source, as entered" } } }
                    tbody {
                        @for (what, source) in &all {
                            tr {
                                th scope="row" { (Said(what)) }
                                td {
                                    @if source.trim().is_empty() { strong { "not said" } } @else { (Said(source)) }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn of_bore(bore: &BoreReport) -> Vec<(String, &str)> {
    let profile = &bore.profile;
    let name = &profile.bore.name;
    let mut found: Vec<(String, &str)> = vec![
        (
            format!(
                "Unit {}: line pressures, oil, temperature",
                profile.unit.name
            ),
            &profile.unit.source,
        ),
        (
            format!("{}: set pressure and specified band", profile.circuit.name),
            &profile.circuit.source,
        ),
        (
            format!("{name}: bore, valve, lands, ports"),
            &profile.bore.source,
        ),
    ];
    if let Some(spring) = &profile.spring {
        found.push((format!("{name}: spring"), &spring.source));
    }
    if let Some(orifice) = &profile.balance_orifice {
        found.push((format!("{name}: balance orifice"), &orifice.source));
    }
    if let Some(relief) = &profile.relief {
        found.push((
            format!("{}: relief in the profile", profile.circuit.name),
            &relief.source,
        ));
    }
    for test in &bore.tests {
        if let Some(limit) = &test.test_point.limit {
            found.push((
                format!("{name}, {}: vacuum limit", test.test_point.name),
                &limit.source,
            ));
        }
        if let Some(gauge) = &test.gauge {
            found.push((format!("{}: limits of error", gauge.name), &gauge.source));
        }
    }
    if let Some(relief) = &bore.relief {
        let figures = &relief.figures;
        found.push((format!("{name}: relief as checked"), &figures.source));
        if figures.limit_pa.is_some() {
            found.push((
                format!("{name}: what the parts stand"),
                &figures.limit_source,
            ));
        }
    }
    found
}
