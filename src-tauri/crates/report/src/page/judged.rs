//! What the readings say: mean, limit, decision, leak.

use diagnosis::judgement::{Leak, LeakAnswer, Span};
use maud::{Markup, html};

use super::piece::{fact, facts};
use crate::describe::{Fate, TestReport};
use crate::draw::mark;
use crate::quantity::{Quantity, Shown};
use crate::text::Said;
use crate::words;

/// The verdict, or why there is none.
pub(super) fn verdict(test: &TestReport, shown: &Shown) -> Markup {
    let judgement = &test.judgement;
    let verdict = judgement.decision.as_ref().map(|decision| decision.verdict);
    let standing = test
        .readings
        .iter()
        .filter(|line| line.fate == Fate::Stands)
        .count();
    html! {
        div class="verdict" {
            (mark(words::mark_of(verdict)))
            p {
                strong class="word" { (words::verdict(verdict)) }
                br;
                @if let Some(decision) = &judgement.decision {
                    "Chance that it meets the limit: "
                    (shown.chance(*decision.conformity_probability)) ", "
                    (words::chance(*decision.conformity_probability)) "."
                } @else {
                    (words::not_judged(
                        judgement,
                        test.setup.as_ref().map(|part| &part.body),
                        &test.test_point,
                        test.stand_check.is_some(),
                        standing,
                    ))
                }
            }
        }
    }
}

/// Mean, limit and uncertainty.
pub(super) fn table(test: &TestReport, shown: &Shown) -> Markup {
    let judgement = &test.judgement;
    let Some(readings) = &judgement.readings else {
        return html! {};
    };
    let (u, expanded) = (
        *readings.standard_uncertainty_pa,
        *readings.expanded_uncertainty_pa,
    );
    let factor = if u > 0.0 { expanded / u } else { 0.0 };
    let rows = html! {
        (fact("Mean of the readings that count", html! {
            strong { (shown.with_uncertainty(*readings.mean_vacuum_pa, expanded, Quantity::Vacuum)) }
            ": expanded uncertainty, 95 % coverage, factor k = " (shown.number(factor, 2))
        }))
        (fact("Readings that count as repeats", format!("{} of {}", readings.independent_count, readings.count)))
        (fact("Largest less smallest", shown.value(*readings.spread_pa, Quantity::Vacuum)))
        (fact("Where the uncertainty comes from", html! {
            @for (i, part) in readings.contributions.iter().enumerate() {
                @if i > 0 { "; " }
                (words::uncertainty(part.source)) " " (shown.share(*part.share))
            }
        }))
        @if let Some(limit) = &judgement.limit {
            (fact("Limit", html! {
                strong { (shown.value(*limit.today_vacuum_pa, Quantity::Vacuum)) } " at least, carried to the day’s barometer "
                (words::law(limit.law)) "; " (shown.value(*limit.sea_level_vacuum_pa, Quantity::Vacuum)) " at sea level"
            }))
            (fact("Source of the limit", Said(&limit.source)))
        } @else if let Some(limit) = &test.test_point.limit {
            (fact("Limit", html! {
                (shown.value(*limit.vacuum_pa, Quantity::Vacuum)) " at sea level; not carried to the day’s air"
            }))
            (fact("Source of the limit", Said(&limit.source)))
        } @else {
            (fact("Limit", "the profile has none for this test point"))
        }
        @if let Some(decision) = &judgement.decision {
            (fact("Standard uncertainty of the decision", html! {
                (shown.spread(*decision.standard_uncertainty_pa, Quantity::Vacuum))
                ", gauge, repeats and barometer together"
            }))
        }
    };
    facts("Mean, limit and uncertainty", rows)
}

/// The leak, freed from stand and altitude, or why it can't be told.
pub(super) fn leak(test: &TestReport, shown: &Shown) -> Markup {
    match &test.judgement.leak {
        None => html! {},
        Some(LeakAnswer::Refused { reason }) => html! {
            p class="refusal" {
                strong { "The leak can’t be told from this. " } (words::leak_refusal(*reason))
            }
        },
        Some(LeakAnswer::Known(leak)) => known(leak, shown),
    }
}

fn known(leak: &Leak, shown: &Shown) -> Markup {
    let clearance = |span: &Span| {
        html! {
            (shown.value(*span.likely, Quantity::Clearance)) ", "
            (shown.interval(*span.low, *span.high, Quantity::Clearance))
            " with the reading’s uncertainty"
        }
    };
    let rows = html! {
        (fact("Clearance on the diameter, valve centred", clearance(&leak.clearance_centred_m)))
        (fact("The same, valve against one side", clearance(&leak.clearance_off_centre_m)))
        (fact("As new, by the profile", shown.both(*leak.clearance_new_m, Quantity::Clearance)))
        (fact("A hole that would leak as much", shown.both(*leak.equivalent_hole_m, Quantity::Length)))
        (fact("Share of the drop at the balance orifice", shown.share(*leak.orifice_drop_share)))
        (fact("Share of the air through plug and plate", shown.share(*leak.blank_share)))
    };
    facts("The leak itself, freed from stand and altitude", rows)
}
