//! What follows from the sheet's figures alone: plane geometry and ISO 286.

use std::collections::BTreeMap;

use model::Finite;
use model::finding::{Finding, FindingCode, Severity};
use model::machining::{Cut, MachinedSize, MachiningSheet, MachiningWay, SeatFit};
use model::unit::BoreProfile;
use physics::fit::iso286::ToleranceClass;
use uom::si::f64::Length;
use uom::si::length::meter;

use super::{
    CutAnswer, FitAnswer, Interval, IsoClass, Known, PilotAnswer, PortPlace, SeatAnswer,
    SizeLimits, StockLimits, USUAL_LEAST_FINISH_STOCK_M, USUAL_MOST_FINISH_STOCK_M,
    USUAL_ROUGH_STOCK_M, interval,
};
use crate::pressure::reach;
use crate::valve::metres;

/// Limits that agree within this are the same, m: the standard's tables stand in whole and half
/// micrometres.
const SAME_M: f64 = 0.05e-6;
/// Less than this is rounding, m.
const NOTHING_M: f64 = 1e-9;

fn doubt(code: FindingCode, field: impl Into<String>, bounds: (f64, f64)) -> Finding {
    Finding::at(Severity::Doubt, code, field).with_bounds(bounds.0, bounds.1)
}

/// The finished bore's limits: those that are entered, else those of its class.
pub(super) fn finished(sheet: &MachiningSheet, findings: &mut Vec<Finding>) -> Option<SizeLimits> {
    let said = sheet.finished_class.trim();
    let by_class = (!said.is_empty())
        .then(|| {
            let found = of_class(sheet.finished_nominal_m, said);
            if found.is_none() {
                let code = FindingCode::ClassUnknown;
                findings.push(Finding::at(Severity::Doubt, code, "finished_class"));
            }
            found
        })
        .flatten();
    let (low, high) = match (sheet.finished_low_m, sheet.finished_high_m, by_class) {
        (Some(low), Some(high), by_class) => {
            if let Some((least, most)) = by_class
                && ((*low - least).abs() > SAME_M || (*high - most).abs() > SAME_M)
            {
                let code = FindingCode::ClassContradicts;
                findings.push(doubt(code, "finished_class", (least, most)));
            }
            (low, high)
        }
        (low, high, Some((least, most))) => {
            (low.or(Finite::new(least))?, high.or(Finite::new(most))?)
        }
        (_, _, None) => return None,
    };
    if *low > *high {
        return None;
    }
    Some(SizeLimits {
        low_m: low,
        high_m: high,
        class: class_of(sheet.finished_nominal_m.unwrap_or(low), *low, *high),
    })
}

/// Limits of a hole of a class, m.
fn of_class(nominal: Option<Finite>, class: &str) -> Option<(f64, f64)> {
    let class = ToleranceClass::parse(class).ok()?;
    let limits = class.limits(metres(*nominal?)).ok()?;
    let m = |length: Length| length.get::<meter>();
    class
        .is_hole()
        .then(|| (m(limits.sizes.low), m(limits.sizes.high)))
}

/// The class of a hole that has these limits; where several have, the first: H before others, fine
/// before coarse.
fn class_of(nominal: Finite, low: f64, high: f64) -> Option<IsoClass> {
    const LETTERS: [&str; 13] = [
        "H", "JS", "G", "F", "E", "D", "K", "M", "N", "P", "R", "S", "J",
    ];
    for letter in LETTERS {
        for grade in 4..=13 {
            let name = format!("{letter}{grade}");
            let Some((least, most)) = of_class(Some(nominal), &name) else {
                continue;
            };
            if (least - low).abs() <= SAME_M && (most - high).abs() <= SAME_M {
                return Some(IsoClass {
                    nominal_m: nominal,
                    name,
                });
            }
        }
    }
    None
}

/// What a cut may take off.
pub(super) fn stock(sheet: &MachiningSheet) -> StockLimits {
    let or = |entered: Option<Finite>, usual: f64| {
        entered.or(Finite::new(usual)).unwrap_or(Finite::ZERO)
    };
    let entered = [
        sheet.most_rough_stock_m,
        sheet.most_finish_stock_m,
        sheet.least_finish_stock_m,
    ];
    StockLimits {
        most_rough_m: or(entered[0], USUAL_ROUGH_STOCK_M),
        most_finish_m: or(entered[1], USUAL_MOST_FINISH_STOCK_M),
        least_finish_m: or(entered[2], USUAL_LEAST_FINISH_STOCK_M),
        usual: entered.iter().any(Option::is_none),
    }
}

pub(super) fn cuts(
    sheet: &MachiningSheet,
    finished: Option<&SizeLimits>,
    after: &BTreeMap<usize, f64>,
    findings: &mut Vec<Finding>,
) -> Vec<CutAnswer> {
    let allowed = stock(sheet);
    let largest = sheet.start_largest_m.or(sheet.start_smallest_m);
    let mut before = sheet.start_smallest_m.or(sheet.start_largest_m);
    let mut answers = Vec::new();
    for (i, cut) in sheet.cuts.iter().enumerate() {
        let at = format!("cuts[{i}].diameter_m");
        let taken = before.map(|before| *cut.diameter_m - *before);
        if let (Some(taken), Some(before)) = (taken, before) {
            judge_stock(cut, taken, *before, &allowed, &at, findings);
        }
        answers.push(CutAnswer {
            before_m: before,
            stock_m: taken.and_then(Finite::new),
            cleans_up_by_m: largest
                .and_then(|largest| Finite::new(*cut.diameter_m - *cut.tolerance_m - *largest)),
        });
        let as_measured = after.get(&i).and_then(|size| Finite::new(*size));
        before = as_measured.or(Some(cut.diameter_m));
    }
    if let Some(last) = sheet.cuts.last() {
        let at = format!("cuts[{}].diameter_m", sheet.cuts.len() - 1);
        let (least, most) = (
            *last.diameter_m - *last.tolerance_m,
            *last.diameter_m + *last.tolerance_m,
        );
        if let Some(largest) = largest.filter(|largest| least < **largest) {
            let code = FindingCode::DoesNotCleanUp;
            findings.push(doubt(code, at.clone(), (least, *largest)));
        }
        if let Some(limits) = finished
            && (least < *limits.low_m - NOTHING_M || most > *limits.high_m + NOTHING_M)
        {
            let code = FindingCode::LastCutMissesSize;
            findings.push(doubt(code, at, (*limits.low_m, *limits.high_m)));
        }
    }
    answers
}

fn judge_stock(
    cut: &Cut,
    taken: f64,
    before: f64,
    allowed: &StockLimits,
    at: &str,
    findings: &mut Vec<Finding>,
) {
    if taken <= NOTHING_M {
        let code = FindingCode::CutTakesNothing;
        findings.push(doubt(code, at, (*cut.diameter_m, before)));
        return;
    }
    // What is only usual is worth a look, no more.
    let severity = if allowed.usual {
        Severity::Note
    } else {
        Severity::Doubt
    };
    let most = if cut.finishing {
        *allowed.most_finish_m
    } else {
        *allowed.most_rough_m
    };
    if taken > most + NOTHING_M {
        let found = Finding::at(severity, FindingCode::StockTooLarge, at);
        findings.push(found.with_bounds(taken, most));
    }
    let least = *allowed.least_finish_m;
    if cut.finishing && taken < least - NOTHING_M {
        let found = Finding::at(severity, FindingCode::StockTooSmall, at);
        findings.push(found.with_bounds(taken, least));
    }
}

/// The sleeve in its bore, by what was measured of either, else by its limits.
pub(super) fn seat(
    sheet: &MachiningSheet,
    finished: Option<&SizeLimits>,
    known: &BTreeMap<MachinedSize, Known>,
    findings: &mut Vec<Finding>,
) -> Option<SeatAnswer> {
    if sheet.way != MachiningWay::Sleeve {
        return None;
    }
    let outer = *sheet.sleeve_outer_m?;
    let off = sheet.sleeve_outer_tolerance_m.map_or(0.0, Finite::get);
    // A sleeve that drops in sits in the bore as it is.
    let (low, high) = match (finished, sheet.cuts.is_empty()) {
        (Some(limits), _) => (*limits.low_m, *limits.high_m),
        (None, true) => (*sheet.start_smallest_m?, *sheet.start_largest_m?),
        (None, false) => return None,
    };
    let gap = interval(low - outer - off, high - outer + off)?;
    let seat = SeatAnswer {
        gap_m: gap,
        fit: fit_of(gap),
    };
    let measured = known
        .get(&MachinedSize::FinishedBore)
        .zip(known.get(&MachinedSize::SleeveOuter))
        .map(|(bore, sleeve)| bore.mean - sleeve.mean);
    let (least, most) = measured.map_or((*gap.low, *gap.high), |gap| (gap, gap));
    let other = match sheet.seat {
        Some(SeatFit::Slip) => least < -NOTHING_M,
        Some(SeatFit::Press) => most > NOTHING_M,
        None => false,
    };
    if other {
        findings.push(doubt(FindingCode::SeatFitOther, "seat", (least, most)));
    }
    Some(seat)
}

fn fit_of(gap: Interval) -> FitAnswer {
    if *gap.low >= -NOTHING_M {
        FitAnswer::Clearance
    } else if *gap.high <= NOTHING_M {
        FitAnswer::Interference
    } else {
        FitAnswer::Transition
    }
}

pub(super) fn sleeve_wall(sheet: &MachiningSheet, findings: &mut Vec<Finding>) -> Option<Finite> {
    if sheet.way != MachiningWay::Sleeve {
        return None;
    }
    let off = |tolerance: Option<Finite>| tolerance.map_or(0.0, Finite::get);
    let outer = *sheet.sleeve_outer_m? - off(sheet.sleeve_outer_tolerance_m);
    let inner = *sheet.sleeve_inner_m? + off(sheet.sleeve_inner_tolerance_m);
    let wall = 0.5 * (outer - inner);
    let least = physics::range::WALL.low;
    if wall < least {
        let code = FindingCode::WallLeftTooThin;
        findings.push(doubt(code, "sleeve_inner_m", (wall, least)));
    }
    Finite::new(wall)
}

pub(super) fn valve_clearance(
    sheet: &MachiningSheet,
    finished: Option<&SizeLimits>,
    findings: &mut Vec<Finding>,
) -> Option<Interval> {
    let (low, high) = match sheet.way {
        MachiningWay::Ream => {
            let limits = finished?;
            (*limits.low_m, *limits.high_m)
        }
        MachiningWay::Sleeve => {
            let off = sheet.sleeve_inner_tolerance_m.map_or(0.0, Finite::get);
            let inner = *sheet.sleeve_inner_m?;
            (inner - off, inner + off)
        }
    };
    let valve = *sheet.valve_m?;
    let off = sheet.valve_tolerance_m.map_or(0.0, Finite::get);
    if valve + off >= low {
        let code = FindingCode::ValveLargerThanBore;
        findings.push(doubt(code, "valve_m", (valve + off, low)));
    }
    interval(low - valve - off, high - valve + off)
}

/// Metal that the largest finished bore leaves of the wall around the bore as new.
pub(super) fn wall_left(
    as_new: &BoreProfile,
    sheet: &MachiningSheet,
    finished: Option<&SizeLimits>,
    findings: &mut Vec<Finding>,
) -> Option<Finite> {
    let wall = *sheet.wall_m?;
    let largest = match finished {
        Some(limits) => *limits.high_m,
        None => {
            let last = sheet.cuts.last()?;
            *last.diameter_m + *last.tolerance_m
        }
    };
    let left = wall - 0.5 * (largest - *as_new.bore.diameter_m);
    let least = sheet.least_wall_m.map_or(0.0, Finite::get);
    if left < least || left <= 0.0 {
        let code = FindingCode::WallLeftTooThin;
        findings.push(doubt(code, "wall_m", (left, least)));
    }
    Finite::new(left)
}

pub(super) fn pilot(
    sheet: &MachiningSheet,
    known: &BTreeMap<MachinedSize, Known>,
    findings: &mut Vec<Finding>,
) -> PilotAnswer {
    let by_measuring = known.get(&MachinedSize::UnwornBore);
    let bore = by_measuring
        .map(|known| (known.mean - known.off, known.mean + known.off))
        .or(sheet.unworn_m.map(|bore| (*bore, *bore)));
    let (Some(pilot), Some((low, high))) = (sheet.pilot_m, bore) else {
        if !sheet.cuts.is_empty() {
            let code = FindingCode::PilotNotChecked;
            findings.push(Finding::at(Severity::Note, code, "pilot_m"));
        }
        return PilotAnswer {
            measured: by_measuring.is_some(),
            ..PilotAnswer::default()
        };
    };
    let off = sheet.pilot_tolerance_m.map_or(0.0, Finite::get);
    let (least, most) = (low - *pilot - off, high - *pilot + off);
    if least <= 0.0 {
        let code = FindingCode::PilotWontEnter;
        findings.push(doubt(code, "pilot_m", (*pilot + off, low)));
    }
    if let Some(allowed) = sheet.most_pilot_play_m.filter(|allowed| most > **allowed) {
        let code = FindingCode::PilotPlayLarge;
        findings.push(doubt(code, "pilot_m", (most, *allowed)));
    }
    PilotAnswer {
        play_m: interval(least, most),
        beside_m: Finite::new(0.5 * most.max(0.0)),
        measured: by_measuring.is_some(),
    }
}

/// How deep the reamer must go: from the plug's face past the last port and land.
pub(super) fn depth(
    as_new: &BoreProfile,
    sheet: &MachiningSheet,
    findings: &mut Vec<Finding>,
) -> Option<Finite> {
    let needed = depth_needed(as_new)?;
    if let Some(depth) = sheet.depth_m
        && !sheet.cuts.is_empty()
        && *depth < needed - NOTHING_M
    {
        let code = FindingCode::DepthTooShort;
        findings.push(doubt(code, "depth_m", (*depth, needed)));
    }
    if let Some(length) = sheet.sleeve_length_m
        && sheet.way == MachiningWay::Sleeve
        && !crate::pressure::covers_ports(as_new, *length)
    {
        let code = FindingCode::DepthTooShort;
        let span = reach(as_new).map_or(0.0, |(low, high)| high - low);
        findings.push(doubt(code, "sleeve_length_m", (*length, span)));
    }
    Finite::new(needed)
}

pub(super) fn depth_needed(as_new: &BoreProfile) -> Option<f64> {
    let (low, _) = reach(as_new)?;
    // The bore's left end is its bottom; nothing has to be reamed beyond it.
    Some(*as_new.bore.end_m - low.max(*as_new.bore.start_m))
}

pub(super) fn ports(
    as_new: &BoreProfile,
    sheet: &MachiningSheet,
    known: &BTreeMap<MachinedSize, Known>,
    findings: &mut Vec<Finding>,
) -> Vec<PortPlace> {
    let end = *as_new.bore.end_m;
    let mut ports: Vec<_> = as_new
        .bore
        .ports
        .iter()
        .filter_map(|port| {
            Some(PortPlace {
                name: port.name.clone(),
                from_m: Finite::new(end - *port.end_m)?,
                to_m: Finite::new(end - *port.start_m)?,
            })
        })
        .collect();
    ports.sort_by(|a, b| a.from_m.total_cmp(&b.from_m));
    let narrowest = ports.iter().map(|port| *port.to_m - *port.from_m);
    let narrowest = narrowest.fold(f64::MAX, f64::min);
    if sheet.way == MachiningWay::Sleeve
        && let Some(offset) = known.get(&MachinedSize::PortOffset)
        && offset.mean.abs() >= narrowest
    {
        let code = FindingCode::PortsShut;
        let bounds = (offset.mean.abs(), narrowest);
        findings.push(doubt(code, "measurements", bounds));
    }
    ports
}
