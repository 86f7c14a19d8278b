//! What a machining sheet says: stock of each cut, limits of the finished bore and their class,
//! the sleeve's fit and wall, the pilot's play, how deep and where the ports lie; what was measured
//! on the way, carried to 20 °C and judged three ways; and the repair as it was machined.
//!
//! Sizes by plane geometry; `D20 = D / (1 + alpha (T - 20 °C))` (ISO 1, see
//! [`physics::fit::temperature`]); classes by ISO 286-1 ([`physics::fit::iso286`]).

mod measured;
mod propose;
mod sizes;

use std::collections::BTreeMap;

use chrono::NaiveDate;
use model::bench::{Instrument, Verdict};
use model::finding::{Finding, FindingCode, Severity};
use model::limits::Check;
use model::machining::{
    MachinedSize, MachiningSheet, MachiningSignOff, MachiningStep, MachiningWay,
};
use model::repair::RepairWork;
use model::unit::BoreProfile;
use model::{Finite, Id};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

pub use propose::proposed;

use crate::error::DiagnosisError;

/// The most that a roughing cut takes off the diameter when nobody says, m (common practice, no
/// source).
pub const USUAL_ROUGH_STOCK_M: f64 = 0.30e-3;
/// The most that a finishing cut takes off it, m (common practice, no source).
pub const USUAL_MOST_FINISH_STOCK_M: f64 = 0.15e-3;
/// The least that it takes off, so that the reamer cuts and doesn't rub, m (common practice, no
/// source).
pub const USUAL_LEAST_FINISH_STOCK_M: f64 = 0.03e-3;

/// What a sheet says.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct MachiningAnswer {
    /// Each cut, in the sheet's order.
    pub cuts: Vec<CutAnswer>,
    /// What a cut may take off.
    pub stock: StockLimits,
    /// Limits of the finished bore; none: neither limits nor a class say them.
    pub finished: Option<SizeLimits>,
    /// Gap of the sleeve on the diameter by its limits; below zero it is a press fit.
    pub seat: Option<SeatAnswer>,
    /// The sleeve's own wall at its thinnest, m.
    pub sleeve_wall_m: Option<Finite>,
    /// Clearance of the valve on the diameter by the limits, m.
    pub valve_clearance_m: Option<Interval>,
    /// Metal left around the bore at its largest, m.
    pub wall_left_m: Option<Finite>,
    /// The pilot.
    pub pilot: PilotAnswer,
    /// How deep the reamer must go from the plug's end, past the last port and land, m.
    pub depth_needed_m: Option<Finite>,
    /// The ports, from the plug's end: where the sleeve's openings must stand.
    pub ports: Vec<PortPlace>,
    /// The steps in their order.
    pub steps: Vec<StepAnswer>,
    /// Each measurement, in the sheet's order.
    pub measurements: Vec<MeasurementAnswer>,
    /// The repair as the sheet plans it.
    pub planned: RepairWork,
    /// The repair as it was machined; none while the bore that the valve runs in isn't measured.
    pub machined: Option<RepairWork>,
    /// What a signature would have to name.
    pub open: MachiningSignOff,
    /// What is odd, at the sheet's fields.
    pub findings: Vec<Finding>,
}

/// Two ends.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct Interval {
    /// The least.
    pub low: Finite,
    /// The most.
    pub high: Finite,
}

/// What a cut takes off.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct CutAnswer {
    /// Diameter before it, m: as measured after the cut before, else as that is to leave it; none:
    /// not known.
    pub before_m: Option<Finite>,
    /// What it takes off that diameter, m; where the bore was smallest for the first cut.
    pub stock_m: Option<Finite>,
    /// What it takes off the worn bore where that is largest, at the reamer's least size, m; zero
    /// or less: it leaves worn places untouched. None: not known.
    pub cleans_up_by_m: Option<Finite>,
}

/// What a cut may take off the diameter, m.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct StockLimits {
    /// The most of a roughing cut.
    pub most_rough_m: Finite,
    /// The most of a finishing cut.
    pub most_finish_m: Finite,
    /// The least of a finishing cut.
    pub least_finish_m: Finite,
    /// True: at least one of them is the usual one, common practice without a source.
    pub usual: bool,
}

/// Limits of a size.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SizeLimits {
    /// Smallest, m.
    pub low_m: Finite,
    /// Largest, m.
    pub high_m: Finite,
    /// The class of ISO 286 that has these limits, with its nominal size; none: no class does.
    pub class: Option<IsoClass>,
}

/// A class of ISO 286 at a nominal size.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct IsoClass {
    /// Nominal size, m.
    pub nominal_m: Finite,
    /// The class, as it is written.
    pub name: String,
}

/// How a sleeve sits by its limits.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct SeatAnswer {
    /// Gap on the diameter, m; below zero it presses.
    pub gap_m: Interval,
    /// What fit that is.
    pub fit: FitAnswer,
}

/// What fit two tolerances make.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum FitAnswer {
    /// Always loose.
    Clearance,
    /// Loose or tight.
    Transition,
    /// Always tight.
    Interference,
}

/// The pilot in the unworn bore.
#[derive(Debug, Clone, Copy, PartialEq, Default, Serialize, Deserialize, JsonSchema)]
pub struct PilotAnswer {
    /// Its play on the diameter, m; none: the pilot or the unworn bore isn't known.
    pub play_m: Option<Interval>,
    /// How far its axis may lie beside the bore's, half the play, m.
    pub beside_m: Option<Finite>,
    /// True: the unworn bore was measured for this sheet.
    pub measured: bool,
}

/// Where a port lies, from the plug's end.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct PortPlace {
    /// Its name in the profile.
    pub name: String,
    /// Its near edge, m.
    pub from_m: Finite,
    /// Its far edge, m.
    pub to_m: Finite,
}

/// A step.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct StepAnswer {
    /// Which.
    pub step: MachiningStep,
    /// Whether it is ticked.
    pub done: bool,
    /// What is to be measured at it.
    pub measures: Vec<MachinedSize>,
}

/// A measurement, judged.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct MeasurementAnswer {
    /// At 20 °C, m; none: a figure can't be true.
    pub at_20c_m: Option<Finite>,
    /// Standard uncertainty: instrument, step, and what the expansion may be off, m.
    pub standard_uncertainty_m: Option<Finite>,
    /// Smallest size allowed, m; none: none is.
    pub low_m: Option<Finite>,
    /// Largest size allowed, m.
    pub high_m: Option<Finite>,
    /// What it is to these limits; none without any.
    pub verdict: Option<Verdict>,
    /// Probability that the size lies within them.
    pub conformity_probability: Option<Finite>,
}

/// What several measurements of one size say together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Known {
    /// Mean at 20 °C, m.
    pub mean: f64,
    /// How far that may be off (95 %), m: twice the standard uncertainty, and half of what the
    /// readings differ by.
    pub off: f64,
}

/// Everything that a sheet says.
///
/// # Errors
/// [`DiagnosisError`] only for faults of the program; what is missing or odd is part of the answer.
pub fn answer(
    as_new: &BoreProfile,
    sheet: &MachiningSheet,
    instruments: &BTreeMap<Id, Instrument>,
    today: Option<NaiveDate>,
) -> Result<MachiningAnswer, DiagnosisError> {
    let mut findings = sheet.findings();
    let finished = sizes::finished(sheet, &mut findings);
    let bench = measured::Bench {
        profile: as_new,
        sheet,
        instruments,
        today,
        finished: finished.as_ref(),
    };
    let measurements = bench.answers(&mut findings)?;
    let known = measured::known(sheet, &measurements);
    let pilot = sizes::pilot(sheet, &known, &mut findings);
    let after = measured::after_cuts(sheet, &measurements);
    let cuts = sizes::cuts(sheet, finished.as_ref(), &after, &mut findings);
    let seat = sizes::seat(sheet, finished.as_ref(), &known, &mut findings);
    let steps = steps(sheet, &mut findings);
    let open = open(sheet, &steps, &measurements);
    let planned = planned(sheet, finished.as_ref(), seat.as_ref());
    let machined = machined(sheet, &planned, &known);
    Ok(MachiningAnswer {
        cuts,
        stock: sizes::stock(sheet),
        seat,
        sleeve_wall_m: sizes::sleeve_wall(sheet, &mut findings),
        valve_clearance_m: sizes::valve_clearance(sheet, finished.as_ref(), &mut findings),
        wall_left_m: sizes::wall_left(as_new, sheet, finished.as_ref(), &mut findings),
        pilot,
        depth_needed_m: sizes::depth(as_new, sheet, &mut findings),
        ports: sizes::ports(as_new, sheet, &known, &mut findings),
        finished,
        steps,
        measurements,
        planned,
        machined,
        open,
        findings,
    })
}

fn steps(sheet: &MachiningSheet, findings: &mut Vec<Finding>) -> Vec<StepAnswer> {
    let roughed = sheet.roughing().next().is_some();
    let asked = |size: &&MachinedSize| roughed || **size != MachinedSize::AfterCut;
    let steps = MachiningStep::of(sheet.way, !sheet.cuts.is_empty());
    let steps = steps.into_iter().map(|step| StepAnswer {
        step,
        done: sheet.done.contains(&step),
        measures: step.measures().iter().filter(asked).copied().collect(),
    });
    let steps: Vec<_> = steps.collect();
    for (i, step) in steps.iter().enumerate() {
        if step.done && step.measures.iter().any(|size| sheet.lacks(*size)) {
            let code = FindingCode::StepWithoutMeasurement;
            findings.push(Finding::at(Severity::Doubt, code, format!("steps[{i}]")));
        }
    }
    steps
}

/// What isn't as the sheet asks.
fn open(
    sheet: &MachiningSheet,
    steps: &[StepAnswer],
    measurements: &[MeasurementAnswer],
) -> MachiningSignOff {
    let mut not_inside: Vec<_> = sheet
        .measurements
        .iter()
        .zip(measurements)
        .filter(|(_, it)| {
            it.at_20c_m.is_none() || it.verdict.is_some_and(|v| v != Verdict::WithinLimit)
        })
        .map(|(measured, _)| measured.size)
        .collect();
    not_inside.sort_unstable();
    not_inside.dedup();
    let asked = steps.iter().flat_map(|step| step.measures.iter().copied());
    let not_measured = asked.filter(|size| sheet.lacks(*size)).collect();
    MachiningSignOff {
        not_inside,
        not_measured,
        not_done: steps
            .iter()
            .filter(|step| !step.done)
            .map(|step| step.step)
            .collect(),
        note: String::new(),
    }
}

/// The repair as the sheet plans it: what came from an option, with the sheet's own sizes.
fn planned(
    sheet: &MachiningSheet,
    finished: Option<&SizeLimits>,
    seat: Option<&SeatAnswer>,
) -> RepairWork {
    let mut work = sheet
        .planned
        .clone()
        .unwrap_or_else(|| RepairWork::new(sheet.way.option()));
    work.option = sheet.way.option();
    let middle = |low: Finite, high: Finite| {
        (
            Finite::new(0.5 * (*low + *high)),
            Finite::new(0.5 * (*high - *low)),
        )
    };
    match sheet.way {
        MachiningWay::Ream => {
            if let Some(limits) = finished {
                (work.bore_diameter_m, work.bore_uncertainty_m) =
                    middle(limits.low_m, limits.high_m);
            }
        }
        MachiningWay::Sleeve => {
            work.bore_diameter_m = sheet.sleeve_inner_m.or(work.bore_diameter_m);
            work.bore_uncertainty_m = sheet.sleeve_inner_tolerance_m.or(work.bore_uncertainty_m);
            work.sleeve_outer_m = sheet.sleeve_outer_m.or(work.sleeve_outer_m);
            work.sleeve_material = sheet.sleeve_material.or(work.sleeve_material);
            if let Some(seat) = seat {
                (work.seat_gap_m, work.seat_gap_uncertainty_m) =
                    middle(seat.gap_m.low, seat.gap_m.high);
            }
        }
    }
    work.valve_diameter_m = sheet.valve_m.or(work.valve_diameter_m);
    work.valve_uncertainty_m = sheet.valve_tolerance_m.or(work.valve_uncertainty_m);
    work
}

/// The plan with what was measured in its place.
fn machined(
    sheet: &MachiningSheet,
    planned: &RepairWork,
    known: &BTreeMap<MachinedSize, Known>,
) -> Option<RepairWork> {
    let runs_in = match sheet.way {
        MachiningWay::Ream => MachinedSize::FinishedBore,
        MachiningWay::Sleeve => MachinedSize::SleeveInner,
    };
    let bore = known.get(&runs_in)?;
    let mut work = planned.clone();
    work.bore_diameter_m = Finite::new(bore.mean);
    work.bore_uncertainty_m = Finite::new(bore.off);
    if let Some(valve) = known.get(&MachinedSize::Valve) {
        work.valve_diameter_m = Finite::new(valve.mean);
        work.valve_uncertainty_m = Finite::new(valve.off);
    }
    if sheet.way == MachiningWay::Sleeve {
        let outer = known.get(&MachinedSize::SleeveOuter);
        if let Some(outer) = outer {
            work.sleeve_outer_m = Finite::new(outer.mean);
        }
        if let (Some(seat), Some(outer)) = (known.get(&MachinedSize::FinishedBore), outer) {
            work.seat_gap_m = Finite::new(seat.mean - outer.mean);
            work.seat_gap_uncertainty_m = Finite::new(seat.off.hypot(outer.off));
        }
    }
    Some(work)
}

/// Low and high as finite figures; none from a figure that isn't one.
pub(crate) fn interval(low: f64, high: f64) -> Option<Interval> {
    Some(Interval {
        low: Finite::new(low)?,
        high: Finite::new(high)?,
    })
}
