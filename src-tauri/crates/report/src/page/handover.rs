//! What was agreed and handed over: estimate, authorisation, parts, warranty, sign-off.

use maud::{Markup, html};

use super::piece::{fact, facts, prose, recorded};
use crate::describe::Report;
use crate::handover::{AuthorisationShown, EstimateShown, FittedShown, OpenShown, SignOffShown};
use crate::quantity::Shown;
use crate::text::Said;
use crate::words;
use model::authorisation::Covers;

/// Nothing where nothing was agreed.
pub(super) fn section(report: &Report) -> Markup {
    let (it, shown) = (&report.handover, &report.shown);
    let currency = it
        .estimate
        .as_ref()
        .map(|of| (of.estimate.currency.as_str(), of.estimate.decimals));
    html! {
        @if !it.is_empty() {
            section class="handover" {
                h2 { "Agreed and handed over" }
                @if let Some(of) = &it.estimate { (estimate(of, shown)) }
                (facts("What was agreed", html! {
                    (authorisation(&it.authorisation, shown))
                    @if let Some((warranty, by)) = &it.warranty {
                        (fact("Warranty", html! {
                            (words::warranty(warranty.months, warranty.distance_m.map(|m| *m), shown))
                            @if !warranty.text.trim().is_empty() { p { (prose(&warranty.text)) } }
                            p { (recorded(by)) }
                        }))
                    }
                    @if let Some((comeback, number, by)) = &it.comeback {
                        (fact("Comeback", html! {
                            @if number.is_empty() { "of a job that isn’t on this device" }
                            @else { "of job " (Said(number)) }
                            "; " (words::fault(comeback.fault)) "; " (words::found_by(comeback.found_by))
                            @if !comeback.note.trim().is_empty() { p { (prose(&comeback.note)) } }
                            p { (recorded(by)) }
                        }))
                    }
                }))
                (fitted(&it.fitted))
                @match &it.sign_off {
                    Some(signed) => (sign_off(signed, &it.open, shown, currency)),
                    None => {
                        p { strong { "Not signed off." } }
                        (open("Open now", &it.open, shown, currency))
                    }
                }
            }
        }
    }
}

fn estimate(of: &EstimateShown, shown: &Shown) -> Markup {
    let body = &of.estimate;
    let money = |minor| words::money(minor, body.decimals, &body.currency, shown);
    let sum = |label: Markup, minor| {
        html! { tr { th scope="row" colspan="3" { (label) } td { (money(minor)) } } }
    };
    html! {
        table tabindex="0" {
            caption { "Estimate" }
            thead {
                tr {
                    th scope="col" { "What" }
                    th scope="col" { "Quantity" }
                    th scope="col" { "Price of one" }
                    th scope="col" { "Amount" }
                }
            }
            tbody {
                @for (line, amount) in body.lines.iter().zip(&of.sums.lines_minor) {
                    tr {
                        th scope="row" {
                            (Said(&line.what))
                            @if !line.taxed && body.tax.is_some() { " (without tax)" }
                        }
                        td { (words::part_of(line.quantity_thousandths, 3, shown)) " " (words::counted(line.counted)) }
                        td { (money(line.price_minor)) }
                        td { (money(*amount)) }
                    }
                }
                @if let Some(tax) = &body.tax {
                    (sum(html! { "Without tax" }, of.sums.net_minor))
                    (sum(html! {
                        (Said(&tax.name)) " " (words::part_of(tax.rate_millionths, 4, shown)) "\u{a0}%"
                        @if tax.included { ", in the prices" }
                    }, of.sums.tax_minor))
                }
                (sum(html! { "To be paid" }, of.sums.total_minor))
            }
        }
        @if !body.note.trim().is_empty() { p { (prose(&body.note)) } }
        p { "Written by " (recorded(&of.recorded)) "." }
    }
}

fn authorisation(state: &AuthorisationShown, shown: &Shown) -> Markup {
    match state {
        AuthorisationShown::NotGiven => fact("Authorisation", "none on record"),
        AuthorisationShown::LeftOut => fact(
            "Authorisation",
            "recorded, and left out of this report because it wasn’t asked for",
        ),
        AuthorisationShown::NotHere => fact(
            "Authorisation",
            "recorded elsewhere; its content was withheld from this device",
        ),
        AuthorisationShown::Erased => fact("Authorisation", "erased on request"),
        AuthorisationShown::Shown {
            given,
            estimate_changed,
            covers,
            recorded: by,
        } => fact(
            "Authorisation",
            html! {
                (Said(&given.who)) ", " (words::how(given.how)) ", "
                span class="when" { (given.given_at.format("%Y-%m-%d %H:%M UTC").to_string()) }
                ", up to " (words::money(given.up_to_minor, given.decimals, &given.currency, shown))
                @if *estimate_changed { p { strong { "The estimate was changed since." } } }
                @match covers {
                    Some(Covers::Exceeded { by_minor }) => p { strong {
                        "The estimate is " (words::money(*by_minor, given.decimals, &given.currency, shown))
                        " more than that."
                    } },
                    Some(Covers::OtherCurrency) => p { strong { "The estimate is in another currency." } },
                    Some(Covers::Within) | None => {},
                }
                @if !given.note.trim().is_empty() { p { (prose(&given.note)) } }
                p { (recorded(by)) }
            },
        ),
    }
}

fn fitted(parts: &[FittedShown]) -> Markup {
    let or_dash = |text: &str| match text.trim() {
        "" => html! { "not recorded" },
        _ => html! { (Said(text)) },
    };
    html! {
        @if !parts.is_empty() {
            table tabindex="0" {
                caption { "Parts fitted" }
                thead {
                    tr {
                        th scope="col" { "Part" }
                        th scope="col" { "Marked" }
                        th scope="col" { "Lot" }
                        th scope="col" { "From" }
                        th scope="col" { "Who, when, record" }
                    }
                }
                tbody {
                    @for it in parts {
                        tr {
                            th scope="row" {
                                (it.part.quantity) " × " (Said(&it.part.name))
                                @if let Some(bore) = &it.bore { br; "in " (Said(bore)) }
                            }
                            td { (or_dash(&it.part.maker_text)) }
                            td { (or_dash(&it.part.lot)) }
                            td { (or_dash(&it.part.source)) }
                            td {
                                (recorded(&it.recorded))
                                @if !it.part.note.trim().is_empty() { br; (prose(&it.part.note)) }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn sign_off(
    signed: &SignOffShown,
    now: &[OpenShown],
    shown: &Shown,
    currency: Option<(&str, u8)>,
) -> Markup {
    html! {
        h3 { "Signed off" }
        p {
            strong { (Said(&signed.sign_off.signed_by)) } ", " (recorded(&signed.recorded))
        }
        @if !signed.sign_off.statement.trim().is_empty() { p { (prose(&signed.sign_off.statement)) } }
        @if signed.changed_since {
            p { strong { "The job was changed after it was signed off." } }
        }
        @if signed.open.is_empty() { p { "Nothing was open when it was signed." } }
        (open("Open when it was signed", &signed.open, shown, currency))
        @if signed.open != now { (open("Open now", now, shown, currency)) }
    }
}

fn open(title: &str, items: &[OpenShown], shown: &Shown, currency: Option<(&str, u8)>) -> Markup {
    let items: Vec<_> = items
        .iter()
        .map(|it| {
            html! {
                @if !it.bore.is_empty() { (Said(&it.bore)) ": " }
                (words::open_item(&it.item, shown, currency))
            }
        })
        .collect();
    super::piece::list(title, "open", &items)
}
