//! The machining sheet of a bore: sizes, cuts, what was measured on the way, who signed.

use diagnosis::machining::{Interval, MachiningAnswer};
use maud::{Markup, html};
use model::machining::{MachinedSize, MachiningSheet, MachiningWay};

use super::piece::{fact, facts, findings, list, or_not_entered, prose, recorded};
use crate::describe::MachiningReport;
use crate::quantity::{Quantity, Shown};
use crate::text::Said;
use crate::words;

/// Its part of a bore's section.
pub(super) fn section(it: &MachiningReport, shown: &Shown) -> Markup {
    let steps: Vec<_> = it
        .answer
        .steps
        .iter()
        .map(|step| {
            let mark = if step.done { "done" } else { "not ticked" };
            html! { (words::machining_step(step.step)) ": " (mark) }
        })
        .collect();
    html! {
        section class="machining" {
            h3 { "Machining sheet: " (words::machining_way(it.sheet.way)) }
            (sizes(&it.sheet, &it.answer, shown))
            (cuts(&it.sheet, &it.answer, shown))
            (measured(it, shown))
            (list("Steps", "steps", &steps))
            (assembly(&it.sheet, shown))
            (findings(&it.answer.findings, shown))
            (signed(it))
        }
    }
}

fn said(text: &str) -> Markup {
    match text.trim() {
        "" => html! { "not said" },
        _ => html! { (Said(text)) },
    }
}

fn ends(interval: Interval, quantity: Quantity, shown: &Shown) -> String {
    format!(
        "{} to {}",
        shown.value(*interval.low, quantity),
        shown.value(*interval.high, quantity)
    )
}

fn sizes(sheet: &MachiningSheet, answer: &MachiningAnswer, shown: &Shown) -> Markup {
    let length = |value| or_not_entered(value, |si| shown.both(si, Quantity::Length));
    let rows = html! {
        (fact("Worn bore, smallest; largest", format!(
            "{}; {}", length(sheet.start_smallest_m), length(sheet.start_largest_m),
        )))
        @if let Some(finished) = &answer.finished {
            (fact("Finished bore at 20 °C", format!(
                "{} to {}{}",
                shown.value(*finished.low_m, Quantity::Length),
                shown.value(*finished.high_m, Quantity::Length),
                finished.class.as_ref().map_or_else(String::new, |class| format!(
                    ", which is {} of ISO 286 at {}",
                    class.name,
                    shown.value(*class.nominal_m, Quantity::Length),
                )),
            )))
        }
        @if sheet.way == MachiningWay::Sleeve {
            (fact("Sleeve, made of", sheet.sleeve_material.map_or(
                "not entered; taken as the body’s metal", words::material,
            )))
        }
        @if let Some(seat) = answer.seat {
            (fact("Gap around the sleeve, on the diameter", format!(
                "{}: {}", ends(seat.gap_m, Quantity::Clearance, shown), words::seat_fit(seat.fit),
            )))
        }
        @if let Some(wall) = answer.sleeve_wall_m {
            (fact("The sleeve’s own wall, at least", shown.both(*wall, Quantity::Length)))
        }
        @if let Some(clearance) = answer.valve_clearance_m {
            (fact("Clearance of the valve by its limits", ends(clearance, Quantity::Clearance, shown)))
        }
        @if let Some(left) = answer.wall_left_m {
            (fact("Metal left around the bore", shown.both(*left, Quantity::Length)))
            (fact("Who says how much must be left", said(&sheet.least_wall_source)))
        }
        @if let Some(play) = answer.pilot.play_m {
            (fact("Play of the pilot in the unworn bore", ends(play, Quantity::Clearance, shown)))
        }
        @if let Some(depth) = answer.depth_needed_m {
            (fact("Depth, entered; needed from the plug’s end", format!(
                "{}; {}", length(sheet.depth_m), shown.both(*depth, Quantity::Length),
            )))
        }
    };
    facts("Sizes", rows)
}

fn cuts(sheet: &MachiningSheet, answer: &MachiningAnswer, shown: &Shown) -> Markup {
    let stock = if answer.stock.usual && sheet.stock_source.trim().is_empty() {
        "common practice, no source".to_owned()
    } else {
        sheet.stock_source.clone()
    };
    html! {
        @if !sheet.cuts.is_empty() {
            table tabindex="0" {
                caption { "Cuts; what one may take off: " (Said(&stock)) }
                thead { tr {
                    th scope="col" { "Reamer" }
                    th scope="col" class="number" { "Leaves" }
                    th scope="col" class="number" { "Takes off the diameter" }
                } }
                tbody {
                    @for (cut, told) in sheet.cuts.iter().zip(&answer.cuts) {
                        tr {
                            th scope="row" {
                                (Said(&cut.reamer)) " "
                                @if cut.finishing { "(finishing)" } @else { "(roughing)" }
                            }
                            td class="number" {
                                (shown.value(*cut.diameter_m, Quantity::Length))
                                " ±" (shown.value(*cut.tolerance_m, Quantity::Clearance))
                            }
                            td class="number" {
                                (or_not_entered(told.stock_m, |si| shown.value(si, Quantity::Clearance)))
                            }
                        }
                    }
                }
            }
        }
    }
}

fn measured(it: &MachiningReport, shown: &Shown) -> Markup {
    let value = |si| shown.value(si, Quantity::Length);
    html! {
        @if !it.sheet.measurements.is_empty() {
            table tabindex="0" {
                caption { "Measured on the way, at 20 °C" }
                thead { tr {
                    th scope="col" { "What" }
                    th scope="col" class="number" { "Size" }
                    th scope="col" class="number" { "May be off by (95 %)" }
                    th scope="col" { "Limits" }
                    th scope="col" { "Judged" }
                    th scope="col" { "Instrument" }
                } }
                tbody {
                    @for (i, (read, told)) in
                        it.sheet.measurements.iter().zip(&it.answer.measurements).enumerate()
                    {
                        tr {
                            th scope="row" {
                                @match read.cut.filter(|_| it.sheet.cut_of(read).is_some()) {
                                    Some(at) if read.size == MachinedSize::AfterCut => {
                                        "Bore after cut " (at + 1)
                                    },
                                    _ => (words::machined_size(read.size)),
                                }
                            }
                            td class="number" { (or_not_entered(told.at_20c_m, value)) }
                            td class="number" {
                                (or_not_entered(told.standard_uncertainty_m, |si| {
                                    format!("±{}", shown.value(2.0 * si, Quantity::Clearance))
                                }))
                            }
                            td {
                                @match (told.low_m, told.high_m) {
                                    (Some(low), Some(high)) => (format!("{} to {}", value(*low), value(*high))),
                                    (Some(low), None) => (format!("at least {}", value(*low))),
                                    _ => "none",
                                }
                            }
                            td { (words::verdict(told.verdict)) }
                            td {
                                @match it.instruments.get(i).map_or("", String::as_str) {
                                    "" => "not on record",
                                    name => (Said(name)),
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn assembly(sheet: &MachiningSheet, shown: &Shown) -> Markup {
    let torque = or_not_entered(sheet.bolt_torque_nm, |si| shown.both(si, Quantity::Torque));
    let rows = html! {
        (fact("End plug and clip", said(&sheet.plug)))
        (fact("Bolts: sequence", said(&sheet.bolt_sequence)))
        (fact("Bolts: torque", torque))
        (fact("By which service information", said(&sheet.bolt_source)))
        @if !sheet.notes.trim().is_empty() { (fact("Notes", prose(&sheet.notes))) }
    };
    facts("Assembly", rows)
}

fn signed(it: &MachiningReport) -> Markup {
    let names = |names: Vec<&'static str>| {
        if names.is_empty() {
            "nothing".to_owned()
        } else {
            names.join(", ")
        }
    };
    html! {
        @match &it.signed {
            Some(signed) => (facts("Signed", html! {
                (fact("By, on", recorded(&it.recorded)))
                (fact("Not surely inside its tolerance", names(
                    signed.not_inside.iter().map(|&size| words::machined_size(size)).collect(),
                )))
                (fact("Asked for and not measured", names(
                    signed.not_measured.iter().map(|&size| words::machined_size(size)).collect(),
                )))
                (fact("Steps not ticked", names(
                    signed.not_done.iter().map(|&step| words::machining_step(step)).collect(),
                )))
                @if !signed.note.trim().is_empty() { (fact("Note", prose(&signed.note))) }
            })),
            None => p class="none" { "Nobody has signed this sheet as it stands. Last written: " (recorded(&it.recorded)) },
        }
    }
}
