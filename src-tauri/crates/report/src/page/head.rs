//! Whose job this is.

use maud::{Markup, Render, html};

use super::piece::{by, fact, facts as table, findings, prose, who};
use crate::describe::{Personal, Report};
use crate::quantity::Quantity;
use crate::text::Said;

/// Shop, job, unit.
pub(super) fn banner(report: &Report) -> Markup {
    html! {
        header {
            p class="shop" {
                @if report.shop.trim().is_empty() { "Shop without a name" } @else { (Said(&report.shop)) }
            }
            @if report.demo {
                p class="demo" { "Demonstration: invented shop, people, vehicles and figures" }
            }
            h1 { "Job " (Said(&report.number)) }
            p class="unit" { (Said(&report.unit)) }
        }
    }
}

/// What is known before any test.
pub(super) fn facts(report: &Report) -> Markup {
    let shown = &report.shown;
    let vehicle = match &report.vehicle {
        Some(vehicle) => html! {
            (prose(&vehicle.description))
            @if let Some(odometer) = vehicle.odometer_m {
                ", " (shown.both(*odometer, Quantity::Distance))
            }
        },
        None => html! { "withheld" },
    };
    let text = |text: &Option<String>| match text {
        None => html! { "withheld, or erased on request" },
        Some(text) if text.trim().is_empty() => html! { "none recorded" },
        Some(text) => prose(text),
    };
    let rows = html! {
        (fact("Vehicle", vehicle))
        (fact("Complaint", text(&report.complaint)))
        (fact("Notes", text(&report.notes)))
        (customer(&report.customer))
        (fact("Opened", html! { (report.opened_on.to_string()) ", " (who(&report.opened_by)) }))
        (fact("Report made", html! {
            (by(&report.made)) ". Times are in UTC" (report.made.at.format("%:z").to_string()) ", as the clock of each device had them."
        }))
    };
    html! {
        section class="job" {
            (table("The job", rows))
            (findings(&report.findings, shown))
        }
    }
}

fn customer(personal: &Personal) -> Markup {
    let told = |text: &str| match text.trim() {
        "" => html! { "not recorded" },
        _ => Said(text).render(),
    };
    match personal {
        Personal::NotRecorded => fact("Customer", "not recorded"),
        Personal::LeftOut => fact(
            "Customer",
            "recorded, and left out of this report because it wasn’t asked for",
        ),
        Personal::Withheld => fact(
            "Customer",
            "recorded elsewhere; its content was withheld from this device",
        ),
        Personal::Erased => fact("Customer", "erased on request"),
        Personal::Shown(customer) => html! {
            (fact("Customer", told(&customer.name)))
            (fact("Telephone", told(&customer.phone)))
            (fact("Licence plate", told(&customer.plate)))
        },
    }
}
