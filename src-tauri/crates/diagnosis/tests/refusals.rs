//! What a vacuum test can and can't tell: where the set-up carries no answer, none is given.

use crate::bench::{Bench, INHG, finite};
use diagnosis::judgement::{ConsequenceAnswer, Judgement, Leak, LeakAnswer, LeakRefusal};
use diagnosis::pressure::{SealEvidence, consequence};
use model::bench::{Reading, Verdict};
use model::finding::FindingCode;
use model::unit::{BoreProfile, OrificePath};
use model::{Finite, Id};
use uom::si::f64::Length;
use uom::si::length::meter;

fn known(judgement: &Judgement) -> Option<&Leak> {
    match judgement.leak.as_ref().unwrap() {
        LeakAnswer::Known(leak) => Some(leak),
        LeakAnswer::Refused { .. } => None,
    }
}

fn refusal(judgement: &Judgement) -> Option<LeakRefusal> {
    match judgement.leak.as_ref().unwrap() {
        LeakAnswer::Known(_) => None,
        LeakAnswer::Refused { reason } => Some(*reason),
    }
}

fn says(judgement: &Judgement, code: FindingCode, field: &str) -> bool {
    let mut findings = judgement.findings.iter();
    findings.any(|finding| finding.code == code && finding.field == field)
}

#[test]
fn one_orifice_calibrates_no_stand() {
    let mut bench = Bench::new("Larkmoor L6");
    assert!(known(&bench.judge()).is_some());
    let twice = bench.check.orifices[0].clone();
    bench.check.orifices.truncate(1);
    for again in [false, true] {
        if again {
            // The same orifice read a second time is still one.
            bench.check.orifices.push(twice.clone());
        }
        let judgement = bench.judge();
        assert_eq!(refusal(&judgement), Some(LeakRefusal::NoCalibratedStand));
        assert_eq!(judgement.stand, None);
        let code = FindingCode::OneOrificeOnly;
        assert!(says(&judgement, code, "stand_check.orifices"));
        // The reading is still held against its limit.
        assert_eq!(judgement.decision.unwrap().verdict, Verdict::OutsideLimit);
    }
}

#[test]
fn a_limit_does_not_hold_for_another_set_up() {
    let mut bench = Bench::new("Larkmoor L6");
    assert!(bench.judge().decision.is_some());
    // Through its small orifice a ruined bore reads as deep as a good one.
    bench.setup.orifice = OrificePath::InSeries;
    let bench = bench.reading(22.0);
    let judgement = bench.judge();
    assert!(says(&judgement, FindingCode::SetupDiffers, "setup"));
    assert_eq!(judgement.decision, None);
    // What the limit is stays in sight.
    assert!(judgement.limit.is_some());
}

#[test]
fn a_leak_is_told_only_where_its_upper_end_can_be_told_too() {
    // Through a small orifice in series the worse end of the uncertainty soon asks for more air
    // than the orifice lets by: the gap may then be any size.
    let mut bench = Bench::new("Stonebeck S8");
    bench.setup.orifice = OrificePath::InSeries;
    bench.profile.balance_orifice.as_mut().unwrap().diameter_m = finite(0.8e-3);
    // The leak is all that is asked for here.
    bench.profile.spring = None;
    let mut told_by = |gauge_error_inhg: f64, inhg: f64| {
        bench.gauge.limits_of_error_si = finite(gauge_error_inhg * INHG);
        bench.readings = vec![Reading {
            vacuum_pa: finite(inhg * INHG),
            reseated: true,
            as_typed: None,
        }];
        let judgement = bench.judge();
        (known(&judgement).is_some(), refusal(&judgement))
    };
    let mut readings = (40..270).map(|tenth| f64::from(tenth) / 10.0);
    let first = readings.find(|&inhg| told_by(0.01, inhg).0).unwrap();
    assert!(first > 5.0, "{first}");
    let orifice = Some(LeakRefusal::OrificeTakesDrop);
    assert_eq!(told_by(1.0, first), (false, orifice), "{first}");
    assert!(told_by(1.0, first + 3.0).0);
}

#[test]
fn a_clearance_found_in_a_cold_shop_is_carried_to_the_temperature_of_the_drawing() {
    // A steel valve in an aluminium bore: the gap grows by D dT (21.8 - 11.7) 1e-6 / 2 (expansion
    // coefficients from memory).
    let mut bench = Bench::new("Stonebeck S8");
    bench.setup.air_temperature_k = finite(278.15);
    let judgement = bench.judge();
    let leak = known(&judgement).unwrap();
    let Some(ConsequenceAnswer::Computed(told)) = &judgement.consequence else {
        panic!("{:?}", judgement.consequence);
    };
    let growth = *bench.profile.bore.diameter_m * 15.0 * (21.8e-6 - 11.7e-6) / 2.0;
    assert!(growth > 1.0e-6);
    let at_20 = |span: diagnosis::judgement::Span| {
        [span.low, span.likely, span.high].map(|c| Length::new::<meter>(*c / 2.0 + growth))
    };
    let seals = SealEvidence {
        tested_lands: bench.profile.test_points[0].1.isolates.clone(),
        centred: at_20(leak.clearance_centred_m),
        off_centre: at_20(leak.clearance_off_centre_m),
    };
    let hot = *bench.profile.unit.hot_oil_temperature_k;
    let (expected, _) = consequence(&bench.profile, &seals, hot).unwrap();
    let (told, expected) = (*told.leak_flow_m3_s.likely, *expected.leak_flow_m3_s.likely);
    assert!((told / expected - 1.0).abs() < 2e-3, "{told} {expected}");
}

#[test]
fn a_gap_so_wide_that_air_may_tumble_in_it_says_so() {
    let mut bench = Bench::new("Larkmoor L6");
    let code = FindingCode::ClearanceOutsideModel;
    assert!(!says(&bench.judge(), code, "readings"));
    // A pump five times as strong holds the same vacuum against five times the leak: Reynolds
    // number 2 q / (R T pi D mu), by hand 2600 for 45 W through 8 mm at 20 °C.
    for orifice in &mut bench.stand.orifices {
        let conductance = *orifice.sonic_conductance_m3_s_pa;
        orifice.sonic_conductance_m3_s_pa = finite(5.0 * conductance);
    }
    bench = bench.reading(6.0);
    let judgement = bench.judge();
    assert!(says(&judgement, code, "readings"), "{:?}", judgement.leak);
}

#[test]
fn a_gauge_that_cannot_be_true_counts_as_unknown_and_stops_nothing() {
    let mut bench = Bench::new("Larkmoor L6");
    for wrong in [-0.3 * INHG, 0.0, 30.0 * INHG] {
        bench.gauge.limits_of_error_si = finite(wrong);
        let judgement = bench.judge();
        let code = FindingCode::OutOfRange;
        assert!(says(&judgement, code, "gauge.limits_of_error_si"));
        assert!(says(&judgement, FindingCode::GaugeUnknown, "gauge"));
        assert!(judgement.decision.is_some());
    }
}

/// What a profile was told to carry is what the judgement then gives: nothing is promised that is
/// withheld, and nothing withheld is called a loss that it isn't.
#[test]
fn each_missing_dimension_costs_what_the_profile_says_it_costs() {
    use diagnosis::prospect::{Judged, prospect};
    type Take = fn(&mut BoreProfile);
    let taken: [(&str, Take); 19] = [
        ("nothing", |_| {}),
        ("unit.oil", |p| p.unit.oil = None),
        ("unit.line_idle_pa", |p| p.unit.line_idle_pa = None),
        ("unit.line_highest_pa", |p| p.unit.line_highest_pa = None),
        ("circuit.setpoint_pa", |p| p.circuit.setpoint_pa = None),
        ("circuit.specified_low_pa", |p| {
            p.circuit.specified_low_pa = None;
        }),
        ("circuit.specified_high_pa", |p| {
            p.circuit.specified_high_pa = None;
        }),
        ("circuit.demand_m3_s", |p| p.circuit.demand_m3_s = None),
        ("circuit.solenoids", |p| p.circuit.solenoids = None),
        ("bore.spool.stroke_m", |p| p.bore.spool.stroke_m = None),
        ("bore.spool.friction_n", |p| p.bore.spool.friction_n = None),
        ("lands", |p| p.lands.clear()),
        ("lands[0].diameter_m", |p| p.lands[0].diameter_m = None),
        ("lands[2].diameter_m", |p| p.lands[2].diameter_m = None),
        ("openings", |p| p.openings.clear()),
        ("spring", |p| p.spring = None),
        ("spring.rate_n_per_m", |p| {
            p.spring.as_mut().unwrap().rate_n_per_m = None;
        }),
        ("balance_orifice", |p| p.balance_orifice = None),
        ("test_points[0].limit", |p| p.test_points[0].1.limit = None),
    ];
    for (field, take) in taken {
        let mut bench = Bench::new("Larkmoor L6");
        take(&mut bench.profile);
        let told = prospect(&bench.profile, &[]);
        if field != "nothing" {
            assert!(
                told.costs.iter().any(|cost| cost.field == field),
                "{field}: {told:?}"
            );
        }
        let judgement = bench.judge();
        let computed = matches!(judgement.consequence, Some(ConsequenceAnswer::Computed(_)));
        let given = [
            (Judged::Limit, judgement.decision.is_some()),
            (Judged::Leak, known(&judgement).is_some()),
            (Judged::Pressure, computed),
        ];
        for (judged, given) in given {
            assert_eq!(
                told.can.contains(&judged),
                given,
                "{judged:?} without {field}: {judgement:?}"
            );
        }
    }
}

mod shapes {
    use super::*;
    use model::unit::{BalanceOrifice, BoreShape, Spring};
    use proptest::prelude::*;

    fn shaped(shape: BoreShape, diameter_m: f64, clearance_m: f64) -> BoreProfile {
        let mut profile = testkit::demo::profile("Larkmoor L6").unwrap();
        let drawn = shape.draw(
            profile.id,
            profile.bore.circuit,
            "a".into(),
            "Feed regulator".into(),
            finite(diameter_m),
        );
        profile.bore = drawn.bore;
        profile.lands = drawn.lands;
        profile.openings = drawn.openings;
        let limit = profile.test_points[0].1.limit.clone();
        let points = drawn.test_points.into_iter();
        profile.test_points = points.map(|point| (Id::nil(), point)).collect();
        profile.test_points[0].1.limit = limit;
        for land in &mut profile.lands {
            land.diameter_m = Finite::new(diameter_m - clearance_m);
        }
        profile.bore.spool.friction_n = Finite::new(0.3);
        // P = F / A.
        let load = *profile.circuit.setpoint_pa.unwrap()
            * std::f64::consts::FRAC_PI_4
            * (diameter_m - clearance_m).powi(2);
        profile.spring = Some(Spring {
            bore: profile.id,
            rate_n_per_m: Finite::new(0.08 * load / (0.25 * diameter_m)),
            load_regulating_n: Finite::new(load),
            source: "measured".into(),
        });
        profile.balance_orifice = Some(BalanceOrifice {
            bore: profile.id,
            diameter_m: finite(0.8e-3),
            length_m: Finite::new(1.2e-3),
            source: "measured".into(),
        });
        profile.bore.source = "measured".into();
        profile
    }

    #[test]
    fn a_shape_with_its_numbers_entered_is_a_valve_that_regulates() {
        use model::limits::Check;
        for shape in [BoreShape::TwoLands, BoreShape::ThreeLandsExhaust] {
            let mut bench = Bench::new("Larkmoor L6");
            bench.profile = shaped(shape, 8.0e-3, 36.0e-6);
            assert_eq!(bench.profile.findings(), [], "{shape:?}");
            let judgement = bench.judge();
            let Some(ConsequenceAnswer::Computed(consequence)) = judgement.consequence else {
                panic!("{shape:?}: {judgement:?}");
            };
            let held = consequence.highest_line.new_feed_pa;
            let set = *consequence.setpoint_pa;
            assert!(
                (*held.likely / set - 1.0).abs() < 0.15,
                "{shape:?}: {held:?} of {set}"
            );
        }
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(24))]
        /// Whatever valid numbers a person puts into a shape, the judgement answers or refuses by
        /// name.
        #[test]
        fn any_valid_dimensions_judge_without_a_fault(
            two in any::<bool>(),
            diameter_mm in 3.0_f64..30.0,
            clearance_um in 5.0_f64..250.0,
            stroke_mm in 0.2_f64..20.0,
            friction in 0.0_f64..20.0,
            load in 0.5_f64..500.0,
            rate in 50.0_f64..50_000.0,
            orifice_mm in 0.1_f64..4.0,
            reading in 1.0_f64..27.5,
            lost in 0_u8..8,
        ) {
            let shape = if two { BoreShape::TwoLands } else { BoreShape::ThreeLandsExhaust };
            let mut bench = Bench::new("Larkmoor L6");
            let mut profile = shaped(shape, diameter_mm * 1e-3, clearance_um * 1e-6);
            profile.bore.spool.stroke_m = Finite::new(stroke_mm * 1e-3);
            profile.bore.spool.friction_n = Finite::new(friction);
            let spring = profile.spring.as_mut().unwrap();
            spring.load_regulating_n = Finite::new(load);
            spring.rate_n_per_m = Finite::new(rate);
            profile.balance_orifice.as_mut().unwrap().diameter_m = finite(orifice_mm * 1e-3);
            match lost {
                0 => profile.spring = None,
                1 => profile.balance_orifice = None,
                2 => profile.lands[0].diameter_m = None,
                3 => profile.unit.oil = None,
                4 => profile.circuit.demand_m3_s = None,
                _ => {}
            }
            bench.profile = profile;
            let told = diagnosis::prospect::prospect(&bench.profile, &[]);
            let judgement = bench.reading(reading).judge();
            // What is called missing is never computed all the same.
            if let Some(ConsequenceAnswer::Computed(_)) = judgement.consequence {
                let lost = |cost: &diagnosis::prospect::Cost| {
                    cost.costs.contains(&diagnosis::prospect::Judged::Pressure)
                };
                let promised = !told.costs.iter().any(lost);
                prop_assert!(promised);
            }
        }
    }
}
