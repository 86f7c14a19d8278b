//! One vacuum test: with what, in which air, how set up, what was read.

use maud::{Markup, Render, html};
use model::bench::{Ambient, Blank, Instrument, Setup, Stand, StandCheck};

use super::piece::{assumptions, by, fact, facts, findings, id, or_not_entered, recorded};
use super::{consequence, judged};
use crate::describe::{Fate, Part, ReadingLine, TestReport};
use crate::quantity::{Quantity, Shown};
use crate::text::Said;
use crate::words;

/// The test's part of the page.
pub(super) fn section(test: &TestReport, shown: &Shown, number: usize) -> Markup {
    html! {
        section class="test" {
            h3 {
                "Test " (number) ": " (Said(&test.test_point.name))
                @if test.after_repair { ", after repair" }
            }
            p class="begun" { "Begun by " (by(&test.begun)) "." }
            (judged::verdict(test, shown))
            (readings(test, shown))
            (judged::table(test, shown))
            (set_up(test, shown))
            (judged::leak(test, shown))
            (consequence::section(test, shown))
            (findings(&test.judgement.findings, shown))
            (assumptions(&test.judgement.assumptions))
        }
    }
}

/// The readings that count as repeats, Pa: the first that stands, and those before which the valve
/// was turned and the plug seated anew.
pub(super) fn counting(test: &TestReport) -> Vec<f64> {
    let standing = test
        .readings
        .iter()
        .filter(|line| line.fate == Fate::Stands);
    standing
        .filter_map(|line| line.reading.as_ref())
        .enumerate()
        .filter(|(i, reading)| *i == 0 || reading.reseated)
        .map(|(_, reading)| *reading.vacuum_pa)
        .collect()
}

fn readings(test: &TestReport, shown: &Shown) -> Markup {
    let mut standing = 0;
    html! {
        table class="readings" tabindex="0" {
            caption { "Readings, in the order in which they were taken" }
            thead {
                tr {
                    th scope="col" class="number" { "No." }
                    th scope="col" class="number" { "Vacuum" }
                    th scope="col" { "As typed" }
                    th scope="col" { "Counts as" }
                    th scope="col" { "Who, when, record" }
                }
            }
            tbody {
                @for line in &test.readings {
                    @let first = standing == 0;
                    @let () = if line.fate == Fate::Stands && line.reading.is_some() { standing += 1 };
                    (reading(line, shown, first, standing))
                }
                @if test.readings.is_empty() { tr { td colspan="5" { "none" } } }
            }
        }
    }
}

fn reading(line: &ReadingLine, shown: &Shown, first: bool, number: u32) -> Markup {
    let gone = line.fate != Fate::Stands;
    html! {
        tr class=[gone.then_some("gone")] {
            th scope="row" class="number" {
                @if gone || line.reading.is_none() { "–" } @else { (number) }
            }
            @match &line.reading {
                Some(reading) => {
                    @let value = shown.value(*reading.vacuum_pa, Quantity::Vacuum);
                    td class="number" { @if gone { s { (value) } } @else { (value) } }
                    td { @if let Some(typed) = &reading.as_typed { (Said(typed)) } @else { "–" } }
                    td {
                        @if gone { strong { (words::fate(line.fate)) } ", doesn’t count" }
                        @else if first { "first reading" }
                        @else if reading.reseated { "repeat: valve turned, plug seated anew" }
                        @else { "kept, no repeat: same seat" }
                    }
                }
                None => {
                    td class="number" { "withheld" }
                    td { "withheld" }
                    td { (words::fate(line.fate)) "; its content isn’t on this device" }
                }
            }
            td { (recorded(&line.recorded)) }
        }
    }
}

fn set_up(test: &TestReport, shown: &Shown) -> Markup {
    let rows = html! {
        (stand(test.stand.as_ref(), shown))
        (gauge(test.gauge.as_ref(), shown))
        (stand_check(test, shown))
        (setup(test.setup.as_ref(), test, shown))
        (blank(test.blank.as_ref(), shown))
    };
    facts("Stand, air and set-up", rows)
}

fn stand(stand: Option<&Stand>, shown: &Shown) -> Markup {
    let Some(stand) = stand else {
        return fact("Stand", "one that nobody entered");
    };
    let orifices = stand.orifices.iter().map(|orifice| {
        html! { "“" (Said(&orifice.label)) "” " (shown.both(*orifice.diameter_m, Quantity::Length)) }
    });
    html! {
        (fact("Stand", html! {
            (Said(&stand.name))
            @if let Some(altitude) = stand.altitude_m {
                ", at " (shown.both(*altitude, Quantity::Altitude))
            }
        }))
        (fact("Its calibrated orifices", html! {
            @for (i, orifice) in orifices.enumerate() { @if i > 0 { "; " } (orifice) }
            @if stand.orifices.is_empty() { "none entered" }
        }))
    }
}

fn gauge(gauge: Option<&Instrument>, shown: &Shown) -> Markup {
    let Some(gauge) = gauge else {
        return fact(
            "Gauge",
            "nothing is known of it, so a wide uncertainty was taken",
        );
    };
    let day = |day: Option<chrono::NaiveDate>| {
        day.map_or_else(|| "not entered".to_owned(), |day| day.to_string())
    };
    fact(
        "Gauge",
        html! {
            (Said(&gauge.name)) ", limits of error ±" (shown.value(*gauge.limits_of_error_si, Quantity::Vacuum))
            ", smallest step " (shown.value(*gauge.resolution_si, Quantity::Vacuum))
            "; calibrated " (day(gauge.calibrated_on)) ", due " (day(gauge.calibration_due))
            ". Source: " (Said(&gauge.source))
        },
    )
}

fn stand_check(test: &TestReport, shown: &Shown) -> Markup {
    let fit = test.judgement.stand.as_ref();
    html! {
        @match &test.stand_check {
            None => (fact("Stand that day", "not checked")),
            Some(Part { body, recorded: who }) => {
                (fact("Stand that day", html! { (of_day(body, shown)) ". " (recorded(who)) }))
            }
        }
        @if let Some(fit) = fit {
            (fact("Stand as its orifices show it", html! {
                "pull " (shown.value(*fit.pull_m3_s, Quantity::PumpPull))
                ", " (shown.value(*fit.dead_head_pressure_pa, Quantity::Vacuum)) " absolute with the hose closed"
                @for residual in &fit.residuals {
                    "; orifice “" (Said(&residual.label)) "”: fitted less read "
                    (shown.signed(*residual.residual_pa, Quantity::Vacuum))
                }
            }))
        }
    }
}

fn of_day(check: &StandCheck, shown: &Shown) -> Markup {
    let typed = |typed: &Option<String>| {
        html! { @if let Some(typed) = typed { " (typed " (Said(typed)) ")" } }
    };
    html! {
        "hose closed " (shown.value(*check.dead_head_vacuum_pa, Quantity::Vacuum)) (typed(&check.as_typed))
        @for orifice in &check.orifices {
            "; orifice “" (Said(&orifice.label)) "” " (shown.value(*orifice.vacuum_pa, Quantity::Vacuum))
            (typed(&orifice.as_typed))
        }
    }
}

fn setup(part: Option<&Part<Setup>>, test: &TestReport, shown: &Shown) -> Markup {
    let Some(Part {
        body,
        recorded: who,
    }) = part
    else {
        return fact("Air and set-up", "not recorded");
    };
    let barometer = test.judgement.barometer_pa;
    let air = match body.ambient {
        Ambient::Barometer { pressure_pa } => html! {
            (shown.both(*pressure_pa, Quantity::Barometer)) ", station pressure read at the bench"
        },
        Ambient::Altitude { altitude_m } => html! {
            (or_not_entered(barometer, |pa| shown.both(pa, Quantity::Barometer)))
            ", standard atmosphere at " (shown.both(*altitude_m, Quantity::Altitude))
            "; the day’s weather isn’t in it"
        },
    };
    let asked = |same: bool, asked: &str| {
        html! { @if !same { strong { " (the test point asks: " (asked) ")" } } }
    };
    let point = &test.test_point;
    html! {
        (fact("Air", html! {
            (air) "; " (shown.both(*body.air_temperature_k, Quantity::Temperature)) " at the bench"
        }))
        (fact("Valve", html! {
            (words::valve_position(body.valve_position))
            (asked(body.valve_position == point.valve_position, words::valve_position(point.valve_position)))
        }))
        (fact("Balance orifice", html! {
            (words::orifice(body.orifice))
            (asked(body.orifice == point.orifice, words::orifice(point.orifice)))
        }))
        (fact("Surfaces", html! { (words::surface(body.surface)) ". " (recorded(who)) }))
    }
}

fn blank(part: Option<&Part<Blank>>, shown: &Shown) -> Markup {
    let value = match part {
        None => html! { "not recorded" },
        Some(Part {
            body,
            recorded: who,
        }) => html! {
            @match body.vacuum_pa {
                Some(vacuum) => (shown.value(*vacuum, Quantity::Vacuum)),
                None => "none taken, said on purpose",
            }
            @if let Some(typed) = &body.as_typed { " (typed " (Said(typed)) ")" }
            ". " (recorded(who))
        },
    };
    fact("Blank: plug and plate alone", value)
}

/// The test's own id, for those who check.
pub(super) fn test_id(test: &TestReport) -> Markup {
    id(test.id).render()
}
