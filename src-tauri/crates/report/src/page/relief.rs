//! The relief of a circuit.

use diagnosis::judgement::Span;
use diagnosis::relief::{ReliefAnswer, ReliefBehaviour, WorstLeak};
use maud::{Markup, html};

use super::piece::{assumptions, fact, facts, findings, or_not_entered, recorded};
use crate::describe::ReliefReport;
use crate::quantity::{Quantity, Shown};
use crate::text::Said;
use crate::words;

/// Its part of a bore's section.
pub(super) fn section(relief: &ReliefReport, shown: &Shown) -> Markup {
    let answer = &relief.answer;
    html! {
        section class="relief" {
            h3 { "Relief of the circuit, " (words::presence(relief.figures.presence)) }
            p { strong { "A relief contains, it doesn’t cure: " }
                "what leaks across goes on leaking, and what goes over the relief is pump flow lost." }
            (entered(relief, shown))
            (facts("What the check says", html! {
                (behaviour(answer, shown))
                (worst(answer.worst.as_ref(), shown))
            }))
            (findings(&answer.findings, shown))
            (assumptions(&answer.assumptions))
        }
    }
}

fn entered(relief: &ReliefReport, shown: &Shown) -> Markup {
    let it = &relief.figures;
    let length = |value| or_not_entered(value, |si| shown.both(si, Quantity::Length));
    let source = |text: &str| match text.trim() {
        "" => html! { "not said" },
        _ => html! { (Said(text)) },
    };
    let rows = html! {
        (fact("Ball, seat, most lift", format!(
            "{}; {}; {}", length(it.ball_diameter_m), length(it.seat_diameter_m), length(it.lift_stop_m),
        )))
        (fact("Spring load on the seated ball, rate", format!(
            "{}; {}",
            or_not_entered(it.load_seated_n, |si| shown.both(si, Quantity::Force)),
            or_not_entered(it.rate_n_per_m, |si| shown.both(si, Quantity::SpringRate)),
        )))
        (fact("Source of these figures", source(&it.source)))
        (fact("What the parts stand", or_not_entered(it.limit_pa, |si| shown.both(si, Quantity::Pressure))))
        (fact("Who says so", source(&it.limit_source)))
        (fact("Recorded", recorded(&relief.recorded)))
    };
    facts("As entered", rows)
}

fn span(span: &Span, quantity: Quantity, shown: &Shown) -> String {
    format!(
        "{}, {}",
        shown.value(*span.likely, quantity),
        shown.interval(*span.low, *span.high, quantity)
    )
}

fn behaviour(answer: &ReliefAnswer, shown: &Shown) -> Markup {
    let pressure = |si: f64| shown.both(si, Quantity::Pressure);
    html! {
        @match &answer.relief {
            Some(ReliefBehaviour { cracking_pa, full_open_pa, full_lift_m, window, capacity_at_limit_m3_s, .. }) => {
                (fact("Opens at (cracking pressure)", html! {
                    strong { (pressure(**cracking_pa)) } ". " (words::window(*window))
                }))
                (fact("Opens no further from", format!(
                    "{}, ball lifted {}", pressure(**full_open_pa), shown.both(**full_lift_m, Quantity::Length),
                )))
                @if let Some(capacity) = capacity_at_limit_m3_s {
                    (fact("Passes at what the parts stand", shown.both(**capacity, Quantity::Flow)))
                }
            }
            None => (fact("Opens at", "no answer: a dimension is missing or can’t be")),
        }
        (fact("Normal regulation ends at", match &answer.regulation_pa {
            Some(regulation) => pressure(*regulation.high),
            None => "can’t be told: the profile lacks something".to_owned(),
        }))
    }
}

fn worst(worst: Option<&WorstLeak>, shown: &Shown) -> Markup {
    let Some(it) = worst else {
        return fact(
            "Worst cross leak",
            "no clearance is known to compute it from",
        );
    };
    html! {
        (fact("Worst cross leak", html! {
            "line into feed past the worn supply land at " (shown.value(*it.line_pa, Quantity::Pressure))
            " line, hot, every solenoid shut; clearance " (span(&it.clearance_m, Quantity::Clearance, shown))
            ", " (words::clearance_source(it.clearance_from))
        }))
        (fact("Holds it", match it.holds {
            Some(true) => "yes: feed stays below what the parts stand",
            Some(false) => "no: feed goes above what the parts stand",
            None => "can’t be told yet",
        }))
        (fact("Feed without a relief", span(&it.feed_without_pa, Quantity::Pressure, shown)))
        @if let Some(feed) = &it.feed_with_pa { (fact("Feed with this relief", span(feed, Quantity::Pressure, shown))) }
        @if let Some(flow) = &it.leak_flow_m3_s { (fact("Leak that remains", span(flow, Quantity::LeakFlow, shown))) }
        @if let Some(flow) = &it.lost_flow_m3_s {
            (fact("Pump flow lost over the relief", span(flow, Quantity::LeakFlow, shown)))
        }
    }
}
