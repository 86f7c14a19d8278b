//! A repair: what was done, what it should do, what it did.

use diagnosis::judgement::{Consequence, ConsequenceAnswer, OperatingPoint};
use diagnosis::repair::RepairForecast;
use maud::{Markup, html};
use model::Finding;
use model::repair::{RepairOption, RepairWork};
use model::unit::Material;

use super::consequence::{as_new, measured, sources, table};
use super::oil_check;
use super::piece::{assumptions, by, fact, facts, findings, list, or_not_entered, prose, recorded};
use crate::describe::{BoreReport, RepairReport, Stage};
use crate::draw::{Curve, Line, PressurePlot, mark};
use crate::quantity::{Quantity, Shown};
use crate::words;

/// Its part of a bore's section.
pub(super) fn section(
    bore: &BoreReport,
    repair: &RepairReport,
    shown: &Shown,
    number: usize,
) -> Markup {
    let open: Vec<_> = repair
        .open
        .iter()
        .map(|&point| html! { (words::open_point(point)) })
        .collect();
    html! {
        section class="repair" {
            h3 { "Repair " (number) ": " (words::option(repair.work.option)) }
            (work(bore, repair, shown))
            @match &repair.forecast {
                Some(forecast) => (predicted(forecast, shown)),
                None => p class="refusal" { strong { "Nothing was predicted." } },
            }
            (stages(repair, shown))
            (comparison(bore, repair, shown))
            (findings(&repair.findings, shown))
            @if let Some(forecast) = &repair.forecast {
                (findings(&unsaid(&forecast.findings, &repair.findings), shown))
            }
            @if let Some(forecast) = &repair.forecast { (assumptions(&forecast.assumptions)) }
            (list("Still open", "open", &open))
        }
    }
}

/// What is odd about the forecast and wasn't said of the repair already.
fn unsaid(forecast: &[Finding], repair: &[Finding]) -> Vec<Finding> {
    let new = forecast.iter().filter(|it| !repair.contains(it));
    new.cloned().collect()
}

fn work(bore: &BoreReport, repair: &RepairReport, shown: &Shown) -> Markup {
    let it = &repair.work;
    let profile = &bore.profile;
    let diameter = |value, off| {
        let value = or_not_entered(value, |si| shown.both(si, Quantity::Length));
        let off = or_not_entered(off, |si| {
            format!("±{}", shown.value(si, Quantity::Clearance))
        });
        format!("{value}; may be off by (95 %): {off}")
    };
    let new_bore = shown.both(*profile.bore.diameter_m, Quantity::Length);
    let new_valve = or_not_entered(
        profile.reaction_land().and_then(|land| land.diameter_m),
        |si| shown.both(si, Quantity::Length),
    );
    let text = |text: &str| match text.trim() {
        "" => html! { "none recorded" },
        _ => prose(text),
    };
    let spring = profile.spring.as_ref();
    let rows = html! {
        (fact("Parts", text(&it.parts)))
        (fact("Bore or sleeve", format!("{} (by the profile: {new_bore})", diameter(it.bore_diameter_m, it.bore_uncertainty_m))))
        (fact("Valve, reaction land", format!("{} (by the profile: {new_valve})", diameter(it.valve_diameter_m, it.valve_uncertainty_m))))
        (fact("Spring load where it regulates", format!(
            "{} (by the profile: {})",
            or_not_entered(it.spring_load_n, |si| shown.both(si, Quantity::Force)),
            or_not_entered(spring.and_then(|it| it.load_regulating_n), |si| shown.both(si, Quantity::Force)),
        )))
        (fact("Spring rate", format!(
            "{} (by the profile: {})",
            or_not_entered(it.spring_rate_n_per_m, |si| shown.both(si, Quantity::SpringRate)),
            or_not_entered(spring.and_then(|it| it.rate_n_per_m), |si| shown.both(si, Quantity::SpringRate)),
        )))
        (newer(it, shown))
        (metals(it))
        (fact("Notes", text(&it.notes)))
        (fact("Recorded", recorded(&repair.recorded)))
    };
    facts("What was done, and the dimensions that it left", rows)
}

/// What few repairs have: a sleeve's seat, a spring's tolerance, another orifice. Only what is there.
fn newer(it: &RepairWork, shown: &Shown) -> Markup {
    let length = |si| shown.both(si, Quantity::Length);
    let small = |si| shown.value(si, Quantity::Clearance);
    html! {
        @if let Some(off) = it.spring_tolerance_n {
            (fact("The load may be off by", format!("±{}", shown.both(*off, Quantity::Force))))
        }
        @if let Some(outer) = it.sleeve_outer_m {
            (fact("Sleeve, outside", length(*outer)))
        }
        @if let Some(gap) = it.seat_gap_m {
            (fact("Gap around the sleeve, on the diameter", format!(
                "{}; may be off by (95 %): {}",
                small(*gap),
                or_not_entered(it.seat_gap_uncertainty_m, |si| format!("±{}", small(si))),
            )))
        }
        @if let Some(stroke) = it.stroke_m { (fact("Travel of the valve", length(*stroke))) }
        @if let Some(off) = it.polished_off_m {
            (fact("Polishing took off the surface", small(*off)))
        }
        @if let Some(orifice) = it.orifice_m { (fact("Balance orifice, bore", length(*orifice))) }
    }
}

/// What sleeve and valve are made of: how the clearance changes with heat rests on it.
fn metals(it: &RepairWork) -> Markup {
    let or_old =
        |entered: Option<Material>, old: &'static str| entered.map_or(old, words::material);
    let sleeved = it.option == RepairOption::SleeveSmallerValve;
    html! {
        @if sleeved || it.sleeve_material.is_some() {
            (fact("Sleeve, made of", or_old(
                it.sleeve_material, "not entered; taken as the metal of the bore before",
            )))
        }
        @if it.valve_diameter_m.is_some() || it.valve_material.is_some() {
            (fact("Valve, made of", or_old(
                it.valve_material, "not entered; taken as the old valve’s metal",
            )))
        }
    }
}

fn predicted(forecast: &RepairForecast, shown: &Shown) -> Markup {
    let pressure = |si: f64| shown.both(si, Quantity::Pressure);
    let rows = html! {
        (fact("Clearance on the diameter", match &forecast.clearance_m {
            Some(span) => format!(
                "{}, {}", shown.value(*span.likely, Quantity::Clearance),
                shown.interval(*span.low, *span.high, Quantity::Clearance),
            ),
            None => "not known".to_owned(),
        }))
        @if let Some(area) = forecast.reaction_area_m2 {
            (fact("Reaction area", shown.both(*area, Quantity::Area)))
        }
        @if let Some(load) = forecast.fitting_load_n {
            (fact("Spring load that would hold the set pressure on it", shown.both(*load, Quantity::Force)))
        }
        @if let Some(holds) = forecast.spring_holds_pa {
            (fact("The spring holds there (P = F / A)", pressure(*holds)))
        }
    };
    html! {
        h4 { "What it should do" }
        (facts("From the dimensions", rows))
        @match &forecast.prediction {
            ConsequenceAnswer::Computed(it) => {
                (table(it, shown, "as predicted"))
                p class="beside" {
                    "Calculated, not measured, with oil at " (shown.both(*it.oil_temperature_k, Quantity::Temperature))
                    "; the intervals hold " (sources(it)) "."
                }
            },
            ConsequenceAnswer::Withheld { reason } => {
                p class="refusal" {
                    strong { "No pressure can be predicted. " } (words::consequence_refusal(*reason))
                }
            }
        }
    }
}

pub(super) fn computed(answer: Option<&ConsequenceAnswer>) -> Option<&Consequence> {
    match answer? {
        ConsequenceAnswer::Computed(it) => Some(it),
        ConsequenceAnswer::Withheld { .. } => None,
    }
}

/// Before, predicted and after in figures.
fn stages(repair: &RepairReport, shown: &Shown) -> Markup {
    let prediction = repair
        .forecast
        .as_ref()
        .map(|forecast| &forecast.prediction);
    html! {
        h4 { "Before, as predicted, and after" }
        table class="stages" tabindex="0" {
            caption { "Vacuum reading and regulated pressure, one under the other" }
            thead {
                tr {
                    th scope="col" { "" span class="unseen" { "Stage" } }
                    th scope="col" class="number" { "Vacuum, mean" }
                    th scope="col" { "Reading against its limit" }
                    th scope="col" class="number" { "Feed at hot idle" }
                    th scope="col" class="number" { "Feed at the highest line" }
                }
            }
            tbody {
                (stage("Before", repair.before.as_ref(), "no judged test before", shown))
                tr {
                    th scope="row" { "Predicted" }
                    td class="number" { "–" }
                    td { "by calculation, not measured" }
                    (feeds(computed(prediction), shown))
                }
                (stage("After", repair.after.as_ref(), "not tested again", shown))
            }
        }
    }
}

fn stage(name: &str, stage: Option<&Stage>, missing: &str, shown: &Shown) -> Markup {
    let Some(it) = stage else {
        return html! {
            tr { th scope="row" { (name) } td colspan="4" { (missing) } }
        };
    };
    let verdict = it.decision.as_ref().map(|decision| decision.verdict);
    html! {
        tr {
            th scope="row" { (name) br; span class="when" { (by(&it.begun)) } }
            td class="number" {
                (it.mean_vacuum_pa.map_or_else(|| "none".to_owned(), |mean| shown.value(*mean, Quantity::Vacuum)))
            }
            td {
                span class="verdict-line" {
                    (mark(words::mark_of(verdict)))
                    span {
                        (words::verdict(verdict)) br;
                        span class="when" {
                            @match it.decided {
                                Some(decided) => { "on record: " (words::verdict(Some(decided))) }
                                None => "not on record",
                            }
                        }
                    }
                }
            }
            (feeds(computed(it.consequence.as_ref()), shown))
        }
    }
}

fn feeds(consequence: Option<&Consequence>, shown: &Shown) -> Markup {
    let cell = |point: &OperatingPoint| {
        let feed = &point.measured_feed_pa;
        html! {
            td class="number" {
                strong { (shown.value(*feed.likely, Quantity::Pressure)) } br;
                span class="when" { (shown.interval(*feed.low, *feed.high, Quantity::Pressure)) }
            }
        }
    };
    match consequence {
        Some(it) => html! { (cell(&it.idle)) (cell(&it.highest_line)) },
        None => html! { td class="number" { "no answer" } td class="number" { "no answer" } },
    }
}

fn comparison(bore: &BoreReport, repair: &RepairReport, shown: &Shown) -> Markup {
    let before = computed(
        repair
            .before
            .as_ref()
            .and_then(|stage| stage.consequence.as_ref()),
    );
    let forecast = computed(
        repair
            .forecast
            .as_ref()
            .map(|forecast| &forecast.prediction),
    );
    let after = computed(
        repair
            .after
            .as_ref()
            .and_then(|stage| stage.consequence.as_ref()),
    );
    let Some(any) = after.or(forecast).or(before) else {
        return html! {};
    };
    let curve = |it: Option<&Consequence>, line, label| {
        it.map(|it| Curve {
            line,
            label,
            points: measured(it),
            band: true,
        })
    };
    let new = before.unwrap_or(any);
    let curves = [
        curve(before, Line::AsMeasured, "■ before"),
        curve(forecast, Line::Predicted, "predicted"),
        curve(after, Line::After, "● after"),
        Some(Curve {
            line: Line::AsNew,
            label: "as new",
            points: as_new(new),
            band: false,
        }),
    ];
    let plot = PressurePlot {
        shown,
        title: "Regulated pressure against line pressure: before, as predicted, and after"
            .to_owned(),
        curves: curves.into_iter().flatten().collect(),
        limits: vec![*any.specified_low_pa, *any.specified_high_pa],
        measured: bore
            .oil_checks
            .iter()
            .filter(|check| check.repair == Some(repair.id))
            .flat_map(oil_check::measured)
            .collect(),
    };
    html! {
        figure tabindex="0" {
            (plot.draw())
            figcaption {
                "Line with squares: before. Chain line: predicted from the dimensions. Line with rings: after, from the "
                "test since. Dotted: the first valve as new. Dashed: specified. Bands hold " (sources(any)) "."
                @if !plot.measured.is_empty() {
                    " Points with bars: read on the hot-oil bench, full with line rising, open with line falling."
                }
            }
        }
    }
}
