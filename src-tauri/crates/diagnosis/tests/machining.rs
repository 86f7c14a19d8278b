//! The machining sheet by hand: ISO 286 sizes (points of `tests/reference/g_iso286.json`), thermal
//! expansion alpha L dT, plane geometry of cuts, walls and fits, and the three-way decision.

use std::collections::BTreeMap;

use crate::bench::finite;
use diagnosis::machining::{FitAnswer, MachiningAnswer, answer};
use model::bench::{Instrument, InstrumentKind, Verdict};
use model::finding::FindingCode;
use model::machining::{
    Cut, MachinedSize, MachiningMeasurement, MachiningSheet, MachiningStep, MachiningWay, SeatFit,
};
use model::unit::{BoreProfile, Material};
use model::{Finite, Id};

fn larkmoor() -> BoreProfile {
    testkit::demo::profile("Larkmoor L6").unwrap()
}

fn mm(size: f64) -> Option<Finite> {
    Finite::new(size * 1e-3)
}

fn um(size: f64) -> Option<Finite> {
    Finite::new(size * 1e-6)
}

/// A bore gauge of ±2 µm in steps of 1 µm, and a micrometer of the same.
fn instruments() -> BTreeMap<Id, Instrument> {
    let instrument = |name: &str, kind| Instrument {
        name: name.into(),
        kind,
        limits_of_error_si: finite(2e-6),
        resolution_si: finite(1e-6),
        range_low_si: None,
        range_high_si: None,
        calibrated_on: None,
        calibration_due: None,
        source: "Certificate (invented)".into(),
    };
    [
        (
            Id::from_u128(1),
            instrument("Bore gauge", InstrumentKind::BoreGauge),
        ),
        (
            Id::from_u128(2),
            instrument("Micrometer", InstrumentKind::Micrometer),
        ),
    ]
    .into()
}

fn told(sheet: &MachiningSheet) -> MachiningAnswer {
    answer(&larkmoor(), sheet, &instruments(), None).unwrap()
}

fn codes(answer: &MachiningAnswer) -> Vec<(FindingCode, &str)> {
    let each = answer.findings.iter();
    each.map(|found| (found.code, found.field.as_str()))
        .collect()
}

fn cut(size: f64, finishing: bool) -> Cut {
    Cut {
        reamer: format!("Reamer {size}"),
        diameter_m: finite(size * 1e-3),
        tolerance_m: finite(2e-6),
        finishing,
    }
}

fn read(size: MachinedSize, read_mm: f64, celsius: f64) -> MachiningMeasurement {
    let by = if size == MachinedSize::Valve { 2 } else { 1 };
    MachiningMeasurement {
        size,
        read_m: finite(read_mm * 1e-3),
        temperature_k: Finite::new(celsius + 273.15),
        instrument: Some(Id::from_u128(by)),
        cut: None,
    }
}

fn after_cut(at: u32, read_mm: f64, celsius: f64) -> MachiningMeasurement {
    MachiningMeasurement {
        cut: Some(at),
        ..read(MachinedSize::AfterCut, read_mm, celsius)
    }
}

/// A worn bore, 8.060 to 8.080 mm, roughed to 8.300 and finished to 8.400.
fn reamed() -> MachiningSheet {
    MachiningSheet {
        way: MachiningWay::Ream,
        start_smallest_m: mm(8.060),
        start_largest_m: mm(8.080),
        cuts: vec![cut(8.300, false), cut(8.400, true)],
        finished_low_m: mm(8.398),
        finished_high_m: mm(8.402),
        valve_m: mm(8.364),
        valve_tolerance_m: um(2.0),
        ..MachiningSheet::default()
    }
}

#[test]
fn a_class_gives_the_limits_of_iso_286_and_limits_that_are_one_are_named() {
    // ISO 286: IT7 at 8 mm is 15 µm (g.IT.01), and H begins at the nominal size: 8.000 to 8.015.
    let sheet = MachiningSheet {
        finished_nominal_m: mm(8.0),
        finished_class: "H7".into(),
        ..MachiningSheet::default()
    };
    let finished = told(&sheet).finished.unwrap();
    assert!((*finished.low_m - 8.000e-3).abs() < 1e-12);
    assert!((*finished.high_m - 8.015e-3).abs() < 1e-12);
    assert_eq!(finished.class.unwrap().name, "H7");
    // IT6 at 8 mm is 9 µm (g.IT.02): entered as limits, it is H6.
    let sheet = MachiningSheet {
        finished_low_m: mm(8.0),
        finished_high_m: mm(8.009),
        ..MachiningSheet::default()
    };
    assert_eq!(told(&sheet).finished.unwrap().class.unwrap().name, "H6");
    // 8 µm is none.
    let sheet = MachiningSheet {
        finished_high_m: mm(8.008),
        ..sheet
    };
    assert_eq!(told(&sheet).finished.unwrap().class, None);
    // Limits and class that contradict, and a class that there isn't.
    let sheet = MachiningSheet {
        finished_nominal_m: mm(8.0),
        finished_class: "H7".into(),
        ..sheet
    };
    assert!(codes(&told(&sheet)).contains(&(FindingCode::ClassContradicts, "finished_class")));
    let sheet = MachiningSheet {
        finished_class: "H99".into(),
        ..sheet
    };
    assert!(codes(&told(&sheet)).contains(&(FindingCode::ClassUnknown, "finished_class")));
}

#[test]
fn stock_and_what_cleans_up_follow_from_the_sizes() {
    let answer = told(&reamed());
    // 8.300 - 8.060 and 8.400 - 8.300 on the diameter; 8.398 - 8.080 where it is largest.
    let taken: Vec<f64> = answer
        .cuts
        .iter()
        .map(|cut| *cut.stock_m.unwrap())
        .collect();
    assert!((taken[0] - 0.240e-3).abs() < 1e-12 && (taken[1] - 0.100e-3).abs() < 1e-12);
    assert!((*answer.cuts[1].cleans_up_by_m.unwrap() - 0.318e-3).abs() < 1e-12);
    // By the limits: 8.398 - 8.366 and 8.402 - 8.362.
    let clearance = answer.valve_clearance_m.unwrap();
    assert!((*clearance.low - 32e-6).abs() < 1e-12 && (*clearance.high - 40e-6).abs() < 1e-12);
    assert_eq!(codes(&answer), [(FindingCode::PilotNotChecked, "pilot_m")]);
    assert!(answer.stock.usual);

    // What the shop allows is held against each cut, what is usual only noted.
    let mut sheet = reamed();
    sheet.most_rough_stock_m = um(200.0);
    sheet.most_finish_stock_m = um(90.0);
    sheet.least_finish_stock_m = um(20.0);
    sheet.stock_source = "Reamer maker (invented)".into();
    let found = told(&sheet);
    let large = (FindingCode::StockTooLarge, "cuts[0].diameter_m");
    assert!(codes(&found).contains(&large));
    assert!(codes(&found).contains(&(FindingCode::StockTooLarge, "cuts[1].diameter_m")));
    sheet.cuts = vec![cut(8.090, false), cut(8.100, true)];
    (sheet.finished_low_m, sheet.finished_high_m) = (mm(8.098), mm(8.102));
    let small = (FindingCode::StockTooSmall, "cuts[1].diameter_m");
    assert!(codes(&told(&sheet)).contains(&small));
    // Worn to 8.110, a reamer of 8.100 leaves places untouched.
    sheet.start_largest_m = mm(8.110);
    let untouched = (FindingCode::DoesNotCleanUp, "cuts[1].diameter_m");
    assert!(codes(&told(&sheet)).contains(&untouched));
    sheet.cuts = vec![cut(8.050, true)];
    let nothing = (FindingCode::CutTakesNothing, "cuts[0].diameter_m");
    let found = told(&sheet);
    assert!(codes(&found).contains(&nothing));
    assert!(codes(&found).contains(&(FindingCode::LastCutMissesSize, "cuts[0].diameter_m")));
}

#[test]
fn wall_pilot_and_depth_are_held_against_what_is_there() {
    let mut sheet = reamed();
    // 3 mm around 8.0065 as new: half of 8.402 - 8.0065 goes, 2.80225 mm are left.
    sheet.wall_m = mm(3.0);
    sheet.least_wall_m = mm(2.9);
    sheet.least_wall_source = "Shop rule (invented)".into();
    sheet.pilot_m = mm(7.998);
    sheet.pilot_tolerance_m = um(2.0);
    sheet.unworn_m = mm(8.006);
    sheet.depth_m = mm(10.0);
    let answer = told(&sheet);
    assert!((*answer.wall_left_m.unwrap() - 2.802_25e-3).abs() < 1e-12);
    assert!(codes(&answer).contains(&(FindingCode::WallLeftTooThin, "wall_m")));
    // 8.006 - 7.998 is 8 µm of play, ±2; its axis may lie half the most beside the bore's.
    let play = answer.pilot.play_m.unwrap();
    assert!((*play.low - 6e-6).abs() < 1e-12 && (*play.high - 10e-6).abs() < 1e-12);
    assert!((*answer.pilot.beside_m.unwrap() - 5e-6).abs() < 1e-12);
    // The farthest port or land from the plug's end, by the profile itself.
    let profile = larkmoor();
    let needed = *answer.depth_needed_m.unwrap();
    let farthest = profile
        .bore
        .ports
        .iter()
        .map(|port| *profile.bore.end_m - *port.start_m);
    assert!(farthest.fold(0.0, f64::max) <= needed + 1e-12);
    assert!(needed <= *profile.bore.end_m - *profile.bore.start_m + 1e-12);
    assert!(codes(&answer).contains(&(FindingCode::DepthTooShort, "depth_m")));
    // Allowed 5 µm: too much play. A pilot of 8.006 doesn't go in.
    sheet.most_pilot_play_m = um(5.0);
    sheet.pilot_source = "Shop rule (invented)".into();
    assert!(codes(&told(&sheet)).contains(&(FindingCode::PilotPlayLarge, "pilot_m")));
    sheet.pilot_m = mm(8.006);
    assert!(codes(&told(&sheet)).contains(&(FindingCode::PilotWontEnter, "pilot_m")));
}

#[test]
fn a_measurement_is_carried_to_20_degrees_and_judged_three_ways() {
    let profile = larkmoor();
    assert_eq!(profile.bore.material, Material::AluminiumDieCast);
    let mut sheet = reamed();
    // 8.4015 mm at 30 °C: D20 = 8.4015 / (1 + 21.8e-6 x 10) = 8.399669 mm (ISO 1; coefficient of
    // the die-cast alloy from memory, as the physics has it), in the middle of 8.398 to 8.402.
    sheet.measurements = vec![
        read(MachinedSize::FinishedBore, 8.4015, 30.0),
        // 8.4028 / 1.000218 = 8.400969: 1.03 µm from the upper limit.
        read(MachinedSize::FinishedBore, 8.4028, 30.0),
        read(MachinedSize::FinishedBore, 8.4060, 20.0),
    ];
    let answer = told(&sheet);
    let first = &answer.measurements[0];
    assert!((*first.at_20c_m.unwrap() - 8.399_669e-3).abs() < 1e-9);
    // (2/sqrt 3)² + (1/sqrt 12)² + (5 % of 21.8e-6 x 8.4015 mm x 10 K = 0.09158 µm, /sqrt 3)²
    // = 1.33333 + 0.08333 + 0.00280: 1.19141 µm.
    assert!((*first.standard_uncertainty_m.unwrap() - 1.191_41e-6).abs() < 1e-10);
    let verdicts: Vec<_> = answer
        .measurements
        .iter()
        .map(|it| it.verdict.unwrap())
        .collect();
    // Limits 2 µm either side and 1.96 µm to be sure (1.645 u, 95 %): 1.669 µm from the lower one
    // isn't enough, nor 1.031 from the upper; 4 µm beyond is surely outside.
    assert_eq!(
        verdicts,
        [
            Verdict::TooCloseToCall,
            Verdict::TooCloseToCall,
            Verdict::OutsideLimit
        ]
    );
    // With limits of ±10 µm the first is inside.
    (sheet.finished_low_m, sheet.finished_high_m) = (mm(8.390), mm(8.410));
    let first = &told(&sheet).measurements[0];
    assert_eq!(first.verdict, Some(Verdict::WithinLimit));
    assert!(*first.conformity_probability.unwrap() > 0.999);
    // No temperature and no instrument: said, and the usual ones taken.
    sheet.measurements[0].temperature_k = None;
    sheet.measurements[0].instrument = None;
    let found = told(&sheet);
    let missing = (
        FindingCode::TemperatureMissing,
        "measurements[0].temperature_k",
    );
    assert!(codes(&found).contains(&missing));
    let unknown = (FindingCode::InstrumentUnknown, "measurements[0].instrument");
    assert!(codes(&found).contains(&unknown));
}

#[test]
fn a_sleeve_has_its_fit_its_wall_and_becomes_the_repair_as_machined() {
    let mut sheet = MachiningSheet {
        way: MachiningWay::Sleeve,
        start_smallest_m: mm(8.110),
        start_largest_m: mm(8.130),
        cuts: vec![cut(8.998, true)],
        finished_low_m: mm(8.996),
        finished_high_m: mm(9.000),
        sleeve_outer_m: mm(9.004),
        sleeve_outer_tolerance_m: um(2.0),
        sleeve_inner_m: mm(7.500),
        sleeve_inner_tolerance_m: um(3.0),
        sleeve_material: Some(Material::AluminiumWrought),
        seat: Some(SeatFit::Press),
        valve_m: mm(7.466),
        valve_tolerance_m: um(2.0),
        ..MachiningSheet::default()
    };
    let answer = told(&sheet);
    // 8.996 - 9.006 and 9.000 - 9.002: 2 to 10 µm of interference.
    let seat = answer.seat.unwrap();
    assert!((*seat.gap_m.low + 10e-6).abs() < 1e-12 && (*seat.gap_m.high + 2e-6).abs() < 1e-12);
    assert_eq!(seat.fit, FitAnswer::Interference);
    // (9.002 - 7.503) / 2.
    assert!((*answer.sleeve_wall_m.unwrap() - 0.7495e-3).abs() < 1e-12);
    assert_eq!(answer.machined, None);
    assert!((*answer.planned.seat_gap_m.unwrap() + 6e-6).abs() < 1e-12);

    sheet.measurements = vec![
        read(MachinedSize::FinishedBore, 8.999, 20.0),
        read(MachinedSize::SleeveOuter, 9.003, 20.0),
        read(MachinedSize::SleeveInner, 7.499, 20.0),
        read(MachinedSize::SleeveInner, 7.501, 20.0),
        read(MachinedSize::Valve, 7.466, 20.0),
    ];
    let answer = told(&sheet);
    let work = answer.machined.unwrap();
    assert!((*work.bore_diameter_m.unwrap() - 7.500e-3).abs() < 1e-12);
    // u² = (2/sqrt 3)² + (1/sqrt 12)² = 1.41667 µm²; 2 u = 2.38048 µm, and 1 µm for half of what
    // the two readings differ by: 2.58199 µm.
    assert!((*work.bore_uncertainty_m.unwrap() - 2.581_99e-6).abs() < 1e-10);
    assert!((*work.seat_gap_m.unwrap() + 4e-6).abs() < 1e-12);
    // Twice u of either, in quadrature.
    assert!((*work.seat_gap_uncertainty_m.unwrap() - 3.366_50e-6).abs() < 1e-10);
    assert_eq!(work.valve_diameter_m, mm(7.466));
    // A sleeve that should slide and doesn't.
    sheet.seat = Some(SeatFit::Slip);
    assert!(codes(&told(&sheet)).contains(&(FindingCode::SeatFitOther, "seat")));
    // Openings 5 mm beside the ports are shut; along the bore no temperature counts.
    sheet
        .measurements
        .push(read(MachinedSize::PortOffset, 5.0, 60.0));
    assert!(codes(&told(&sheet)).contains(&(FindingCode::PortsShut, "measurements")));
}

#[test]
fn what_is_open_is_named_until_everything_is_done_and_inside() {
    let mut sheet = reamed();
    let open = told(&sheet).open;
    assert!(open.not_done.contains(&MachiningStep::CleanAfter));
    assert_eq!(
        open.not_measured,
        [
            MachinedSize::UnwornBore,
            MachinedSize::AfterCut,
            MachinedSize::FinishedBore,
            MachinedSize::Valve
        ]
    );
    sheet.done = MachiningStep::of(MachiningWay::Ream, true);
    let answer = told(&sheet);
    assert_eq!(answer.open.not_done, []);
    let ticked = answer
        .steps
        .iter()
        .position(|step| step.step == MachiningStep::MeasureFinished)
        .unwrap();
    let at = format!("steps[{ticked}]");
    assert!(codes(&answer).contains(&(FindingCode::StepWithoutMeasurement, at.as_str())));
    (sheet.finished_low_m, sheet.finished_high_m) = (mm(8.390), mm(8.410));
    sheet.valve_tolerance_m = um(10.0);
    sheet.cuts[0].tolerance_m = finite(10e-6);
    sheet.measurements = vec![
        read(MachinedSize::UnwornBore, 8.006, 20.0),
        after_cut(0, 8.300, 20.0),
        read(MachinedSize::FinishedBore, 8.400, 20.0),
        read(MachinedSize::Valve, 8.364, 20.0),
    ];
    let open = told(&sheet).open;
    assert_eq!((open.not_measured, open.not_inside), (vec![], vec![]));
    sheet.measurements[3] = read(MachinedSize::Valve, 8.390, 20.0);
    assert_eq!(told(&sheet).open.not_inside, [MachinedSize::Valve]);
}

#[test]
fn the_bore_is_measured_after_each_roughing_cut_and_held_against_that_cut() {
    let mut sheet = reamed();
    sheet.cuts = vec![cut(8.200, false), cut(8.300, false), cut(8.400, true)];
    sheet.cuts[0].tolerance_m = finite(10e-6);
    sheet.cuts[1].tolerance_m = finite(10e-6);
    let at_roughing = |answer: &MachiningAnswer| {
        let steps = answer.steps.iter();
        let mut found = steps.filter(|step| step.step == MachiningStep::Rough);
        found.next().unwrap().measures.clone()
    };
    assert_eq!(at_roughing(&told(&sheet)), [MachinedSize::AfterCut]);
    // The very figures of the finished bore above, moved: 8.2015 / (1 + 21.8e-6 x 10) = 8.199712 mm
    // lies 9.7 µm from either limit of the first cut; as one of the second, 100 µm below it.
    sheet.measurements = vec![after_cut(0, 8.2015, 30.0), after_cut(1, 8.2015, 30.0)];
    let answer = told(&sheet);
    let first = &answer.measurements[0];
    assert!((*first.at_20c_m.unwrap() - 8.199_712e-3).abs() < 1e-9);
    let ends = [first.low_m, first.high_m].map(|end| *end.unwrap());
    assert!((ends[0] - 8.190e-3).abs() < 1e-12 && (ends[1] - 8.210e-3).abs() < 1e-12);
    assert_eq!(first.verdict, Some(Verdict::WithinLimit));
    assert_eq!(answer.measurements[1].verdict, Some(Verdict::OutsideLimit));
    let outside = (FindingCode::SizeOutsideLimits, "measurements[1].read_m");
    assert!(codes(&answer).contains(&outside));
    assert_eq!(answer.open.not_inside, [MachinedSize::AfterCut]);
    // The next cut takes off what is there: 8.300 - 8.199712, and 8.400 - 8.199712 at once, more
    // than the usual 0.15 mm of a finishing cut.
    let taken = |at: usize| *answer.cuts[at].stock_m.unwrap();
    assert!((taken(1) - 0.100_288e-3).abs() < 1e-9 && (taken(2) - 0.200_288e-3).abs() < 1e-9);
    let large = (FindingCode::StockTooLarge, "cuts[2].diameter_m");
    assert!(codes(&answer).contains(&large));
    // What is left is no size of the repair.
    assert_eq!(answer.machined, None);
    // One cut of two measured: asked for still, and said where the step is ticked.
    sheet.measurements.pop();
    sheet.done = vec![MachiningStep::Rough];
    let answer = told(&sheet);
    assert!(answer.open.not_measured.contains(&MachinedSize::AfterCut));
    let place = answer
        .steps
        .iter()
        .position(|step| step.step == MachiningStep::Rough)
        .unwrap();
    let at = format!("steps[{place}]");
    assert!(codes(&answer).contains(&(FindingCode::StepWithoutMeasurement, at.as_str())));
    // Without a roughing cut nothing is asked for there.
    sheet.cuts.drain(..2);
    sheet.measurements.clear();
    let answer = told(&sheet);
    assert_eq!(at_roughing(&answer), []);
    assert!(!answer.open.not_measured.contains(&MachinedSize::AfterCut));
}
